package weather

import (
	"math"

	"thawbook/calc/air"
	"thawbook/calc/finding"
)

// What a year can go without, in words of ours: named in Year.Assumed where it was not in the file.
const (
	AssumedPressure = "pressure"
	AssumedCloud    = "cloud"
	AssumedSun      = "sun"
)

type filling struct {
	hours   int // with at least one filled value
	assumed []string
}

// fill closes the gaps of temperature, dew point, wind and pressure along a straight line between their neighbours, in place. Dew point comes
// from relative humidity where it alone is missing; pressure that a file does not give at all is that of the standard atmosphere.
func fill(r Record, hours []Observation) (filling, error) {
	var f filling
	touched := make([]bool, len(hours))
	for _, v := range [...]struct {
		name string
		at   func(*Observation) *float64
	}{
		{"air temperature", func(o *Observation) *float64 { return &o.AirC }},
		{"dew point", func(o *Observation) *float64 { return &o.DewC }},
		{"wind", func(o *Observation) *float64 { return &o.WindMS }},
	} {
		if v.name == "dew point" {
			dewFromHumidity(hours)
		}
		if missing := join(hours, touched, v.at); 2*missing > len(hours) {
			return f, &Unusable{Code: CodeNoValues, Args: []finding.Arg{finding.Words("what", v.name)}}
		}
	}
	pressure := func(o *Observation) *float64 { return &o.PressurePa }
	if gaps(hours, pressure) == len(hours) {
		f.assumed = append(f.assumed, AssumedPressure)
		for i := range hours {
			hours[i].PressurePa = StandardPressurePa(r.ElevationM)
		}
	} else {
		join(hours, touched, pressure)
	}
	for i := range hours {
		hours[i].DewC = math.Min(hours[i].DewC, hours[i].AirC)
		if touched[i] {
			f.hours++
		}
	}
	return f, nil
}

func gaps(hours []Observation, at func(*Observation) *float64) int {
	n := 0
	for i := range hours {
		if math.IsNaN(*at(&hours[i])) {
			n++
		}
	}
	return n
}

// join fills the gaps of one value and returns how many hours it filled. At the ends the nearest value is held.
func join(hours []Observation, touched []bool, at func(*Observation) *float64) int {
	filled, last := 0, -1
	for i := range hours {
		if math.IsNaN(*at(&hours[i])) {
			continue
		}
		b := *at(&hours[i])
		a := b
		if last >= 0 {
			a = *at(&hours[last])
		}
		for k := last + 1; k < i; k++ {
			*at(&hours[k]) = a + (b-a)*float64(k-last)/float64(i-last)
			touched[k] = true
			filled++
		}
		last = i
	}
	if last < 0 {
		return len(hours)
	}
	for k := last + 1; k < len(hours); k++ {
		*at(&hours[k]) = *at(&hours[last])
		touched[k] = true
		filled++
	}
	return filled
}

// dewFromHumidity finds the dew point of hours that give relative humidity alone.
//
//	γ = ln φ + a t/(b + t);  t_d = b γ/(a − γ),  a = 17.625, b = 243.04 °C
//
// Source: Alduchov and Eskridge 1996, J. Appl. Meteorol. 35, over water, as hygrometers report; −40 to 50 °C.
func dewFromHumidity(hours []Observation) {
	const a, b = 17.625, 243.04
	for i := range hours {
		o := &hours[i]
		if !math.IsNaN(o.DewC) || !(o.HumidityShare > 0) || math.IsNaN(o.AirC) {
			continue
		}
		g := math.Log(math.Min(o.HumidityShare, 1)) + a*o.AirC/(b+o.AirC)
		o.DewC = b * g / (a - g)
	}
}

// StandardPressurePa returns the pressure of the standard atmosphere at an elevation, in Pa, as air.StandardPressure.
func StandardPressurePa(elevationM float64) float64 { return air.StandardPressure(elevationM) }
