package calc

import (
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// factStop is the fact that says what rules the pavement shut-off of a zone whose kit measures the slab, and its words.
const (
	factStop       = "pavement stop"
	wordByCode     = "code"      // the temperature that energy codes name
	wordRaised     = "raised"    // set points pass it, and the stop stands above them
	wordNotFound   = "not found" // there are no set points to judge by
	stopAboveSlabK = 2.0         // K that the stop stands above the greatest set point: four times the band of the control at the sensor; judgement
	stopEquation   = "t_stop = max(10 °C, t_slab,max + 2 K)"
	stopSource     = "energy-code screen; judgement: a wet slab in the cold must not lose its heat"
)

// PavementStop is where the heat goes off by the slab sensor while nothing falls. °C.
type PavementStop struct {
	GreatestSlabC float64 // the greatest set point that the control asks of the slab sensor
	OutdoorC      float64 // where it asks that
	StopC         float64
}

// Raised says whether the stop stands above the temperature that energy codes name.
func (p PavementStop) Raised() bool { return p.StopC > sensing.ScreenPavementC }

// pavementStop finds the pavement shut-off; blank where the kit knows no slab temperature, or its set points could not be found.
//
//	t_stop = max(10 °C, t_slab,max + 2 K)
//
//	t_slab,max  greatest set point at the slab sensor: melting down to the lockout or the coldest that the plant can follow, idling down to the latter [°C]
//
// A sensor below the surface reads warmer than the surface: in great cold its set point passes 10 °C while the surface is at 3 °C, and a stop at 10 °C
// would end the heat of a slab that is still wet. Colder than the plant can follow, its output bounds the flux up, so that a sensor at t_slab,max still
// means a surface at its set point. Source: energy-code screen; the difference is judgement.
func (o Outcome) pavementStop() units.Maybe[PavementStop] {
	if o.Reset == nil || o.Limits == nil || !o.Sensing.OutdoorReset {
		return units.Maybe[PavementStop]{}
	}
	coldest := o.Limits.ColdestC
	at := max(coldest, o.Zone.Sensing.LowestMeltC.Or(coldest))
	greatest := o.Reset.At(at, true)
	if idle := o.Reset.At(coldest, false); o.Sensing.Idling && idle > greatest {
		at, greatest = coldest, idle
	}
	return units.Some(PavementStop{GreatestSlabC: greatest, OutdoorC: at, StopC: max(sensing.ScreenPavementC, greatest+stopAboveSlabK)})
}

// tellStop adds to a set what rules the pavement shut-off.
func (o Outcome) tellStop(set facts.Set) {
	stop := o.Operation.PavementStop
	switch {
	case !o.Sensing.OutdoorReset:
		set[factStop] = facts.Unknown
	case !stop.Known:
		set[factStop] = wordNotFound
	case stop.Value.Raised():
		set[factStop] = wordRaised
	default:
		set[factStop] = wordByCode
	}
}

// stopValues are the numbers that the sentences of the pavement shut-off name.
func (o Outcome) stopValues() []finding.Arg {
	out := []finding.Arg{finding.Value("code-stop", sensing.ScreenPavementC, units.Temperature), finding.Value("stop-above", stopAboveSlabK, units.TemperatureDiff)}
	if stop := o.Operation.PavementStop; stop.Known {
		out = append(out, finding.Value("pavement-stop", stop.Value.StopC, units.Temperature), finding.Value("greatest-slab", stop.Value.GreatestSlabC, units.Temperature),
			finding.Value("greatest-at", stop.Value.OutdoorC, units.Temperature), finding.Value("still-cold", stop.Value.GreatestSlabC-1, units.Temperature))
	}
	return out
}

// stopSteps tells how the pavement shut-off came about.
func (o Outcome) stopSteps() []trace.Step {
	if o.Operation == nil || !o.Operation.PavementStop.Known {
		return nil
	}
	stop := o.Operation.PavementStop.Value
	return []trace.Step{
		{Symbol: "t_slab,max", Name: "greatest set point at the slab sensor", Value: stop.GreatestSlabC, Quantity: units.Temperature,
			Equation: "melting down to the lockout or t_cold, idling down to t_cold", Source: practiceSource, From: []string{"t_cold"}},
		{Symbol: "t_stop", Name: "heat is off above this at the slab sensor while nothing falls", Value: stop.StopC, Quantity: units.Temperature,
			Equation: stopEquation, Source: stopSource, From: []string{"t_slab,max"}},
	}
}
