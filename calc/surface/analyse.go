package surface

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"thawbook/calc/air"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

const (
	stairsFactor  = 1.25 // risers lose heat too; trade guide, judgement
	mostReynolds  = 1e8  // of the turbulent plate relation; Incropera, ch. 7
	mostSnowMMH   = 10.0 // above it a rate is more likely a depth of snow than of water; judgement
	leastLengthM  = 0.5
	mostLengthM   = 100.0
	allPercentile = 100.0
)

// ErrNoSnow says that a climate has no snowfall hour, so that there is nothing to size for.
var ErrNoSnow = errors.New("no snowfall hour in the weather of the station")

// snowHour is what one snowfall hour adds to every flux: snow + A_r · bare. W/m².
type snowHour struct {
	year, hour           int32
	quarter              bool    // at least 0.25 mm
	snow, bare, infrared float64 // infrared: bare with the file's infrared; NaN without
}

// flux returns q_o of the hour at a snow-free area ratio, the very number that Balance gives.
func (s snowHour) flux(snowFree float64) float64 { return s.snow + float64(snowFree*s.bare) }

// Analyse returns the load of an area: the balance of section 1 for every snowfall hour of the station, its percentiles, the design hour and
// the design flux, in W/m².
//
//	q_design = q_percentile × margin × 1.25 for stairs, or the given flux
//
// The percentile is that of non-exceedance by count of snowfall hours, linear between order statistics at position p (n − 1); years are pooled.
// T_MR is the air temperature. The pressure is the hour's at the station, times the ratio of the standard pressures of the two elevations.
// The hour's negative evaporation (condensation) stays where an hourly record is used and is floored at zero where one design hour is all there is.
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51.
// Errors: ErrNoSnow, without a given flux; an input that is not a number or outside what the equations can take.
func Analyse(in Input, st weather.Station) (Load, error) {
	if err := in.check(); err != nil {
		return Load{}, err
	}
	load := Load{Input: in, Method: methodOf(in, st)}
	hours := snowHours(in, st)
	switch {
	case len(hours) > 0:
		load.fromHours(hours, st)
	case st.DesignHour.Known:
		load.fromDesignHour(st)
	case !in.GivenWM2.Known:
		return Load{}, ErrNoSnow
	}
	load.size()
	if len(st.Years) > 0 {
		load.UnmetHours = units.Some(unmet(hours, in.SnowFree, load.DesignWM2, st.RecordYears()))
	}
	load.OutOfRange = load.outOfRange()
	return load, nil
}

// Unmet returns the snowfall hours a year whose load at the area's snow-free area ratio is above a flux in W/m²; 0 for a station without hours.
func Unmet(in Input, st weather.Station, fluxWM2 float64) float64 {
	if len(st.Years) == 0 {
		return 0
	}
	return unmet(snowHours(in, st), in.SnowFree, fluxWM2, st.RecordYears())
}

func unmet(hours []snowHour, snowFree, fluxWM2, years float64) float64 {
	n := 0
	for i := range hours {
		if hours[i].flux(snowFree) > fluxWM2 {
			n++
		}
	}
	return float64(n) / years
}

func (in Input) check() error {
	for _, v := range [...]struct {
		name        string
		value       float64
		least, most float64
	}{
		{"elevation", in.ElevationM, -5000, 11000},
		{"wind factor", in.WindFactor, 0, 10},
		{"length", in.LengthM, 1e-3, 1e5},
		{"snow-free area ratio", in.SnowFree, 0, 1},
		{"percentile", in.Percentile, 0, allPercentile},
		{"margin", in.Margin, 0.1, 10},
		{"given flux", in.GivenWM2.Or(0), 0, 1e5},
	} {
		if !(v.value >= v.least && v.value <= v.most) {
			return fmt.Errorf("surface load: %s %g is outside %g to %g", v.name, v.value, v.least, v.most)
		}
	}
	return nil
}

func methodOf(in Input, st weather.Station) Method {
	switch {
	case in.GivenWM2.Known:
		return Given
	case st.Kind == weather.Synthetic:
		return Synthetic
	case st.Kind == weather.DesignOnly || len(st.Years) == 0:
		return DesignHour
	}
	return Hourly
}

// pressureRatio returns the pressure at the area over that at the station.
func pressureRatio(in Input, st weather.Station) float64 {
	return air.StandardPressure(in.ElevationM) / air.StandardPressure(st.ElevationM)
}

// conditions returns what the area meets in an hour of the station.
func conditions(in Input, h *weather.Hour, pressureRatio float64) Conditions {
	return Conditions{AirC: h.AirC, DewC: h.DewC, WindMS: h.WindMS * in.WindFactor, PressurePa: h.PressurePa * pressureRatio,
		LengthM: in.LengthM, SnowMMH: h.SnowMM, MeanRadiantC: h.AirC}
}

// snowHours returns every snowfall hour of the station's years, in order of time.
func snowHours(in Input, st weather.Station) []snowHour {
	n := 0
	for y := range st.Years {
		for i := range st.Years[y].Hours {
			if st.Years[y].Hours[i].Snowing() {
				n++
			}
		}
	}
	hours := make([]snowHour, 0, n)
	ratio := pressureRatio(in, st)
	k := method()
	for y := range st.Years {
		for i := range st.Years[y].Hours {
			h := &st.Years[y].Hours[i]
			if h.Snowing() {
				t := k.Balance(conditions(in, h, ratio), in.SnowFree)
				infrared := t.Convection + k.radiation(k.FilmC, InfraredRadiantC(h.InfraredWM2)) + t.Evaporation
				hours = append(hours, snowHour{int32(y), int32(i), h.SnowingQuarter(), t.snow(), t.bare(), infrared})
			}
		}
	}
	return hours
}

// fromHours fills what rests on the snowfall hours.
func (l *Load) fromHours(hours []snowHour, st weather.Station) {
	years := st.RecordYears()
	fluxes := make([]float64, len(hours))
	l.SnowHours = float64(len(hours)) / years
	l.Frequency = units.Some(frequency(hours, false, fluxes))
	quarter := 0
	for i := range hours {
		if hours[i].quarter {
			quarter++
		}
	}
	l.QuarterHours = float64(quarter) / years
	if quarter > 0 {
		l.Quarter = units.Some(frequency(hours, true, fluxes))
	}
	in := l.Input
	for i := range hours {
		fluxes[i] = hours[i].flux(in.SnowFree)
	}
	l.PercentileWM2 = percentile(sorted(fluxes), in.Percentile)
	l.designHour(hours, st)
	l.infrared(hours, fluxes, st)
	l.OneTypicalYear = st.Kind == weather.Typical && len(st.Years) == 1
}

// designHour takes the snowfall hour with the least flux not below the percentile, the earliest on ties.
func (l *Load) designHour(hours []snowHour, st weather.Station) {
	best, least := -1, math.Inf(1)
	for i := range hours {
		if q := hours[i].flux(l.Input.SnowFree); q >= l.PercentileWM2 && q < least {
			best, least = i, q
		}
	}
	if best < 0 {
		return
	}
	year := &st.Years[hours[best].year]
	h := &year.Hours[hours[best].hour]
	t := Balance(conditions(l.Input, h, pressureRatio(l.Input, st)), l.Input.SnowFree)
	t.Month, t.Day, t.Clock, t.Year = h.Month, h.Day, h.Clock, year.Label
	l.Hour = units.Some(t)
	l.ToPercentileWM2 = l.PercentileWM2 - t.Total
}

// infrared fills the zone's percentile with the file's infrared, where every snowfall hour has it.
func (l *Load) infrared(hours []snowHour, fluxes []float64, st weather.Station) {
	for i := range st.Years {
		if !st.Years[i].HasInfrared {
			return
		}
	}
	for i := range hours {
		if math.IsNaN(hours[i].infrared) {
			return
		}
		fluxes[i] = hours[i].snow + float64(l.Input.SnowFree*hours[i].infrared)
	}
	l.InfraredWM2 = units.Some(percentile(sorted(fluxes), l.Input.Percentile))
}

// fromDesignHour fills what one hour of weather can tell: it has no percentile.
func (l *Load) fromDesignHour(st weather.Station) {
	d := st.DesignHour.Value
	h := weather.Hour{AirC: d.AirC, DewC: d.DewC, WindMS: d.WindMS, SnowMM: d.SnowMMH, PressurePa: air.StandardPressure(st.ElevationM)}
	t := Balance(conditions(l.Input, &h, pressureRatio(l.Input, st)), l.Input.SnowFree)
	if t.Evaporation < 0 {
		t.Evaporation, t.CondensationFloored = 0, true
		t.Total = t.snow() + float64(l.Input.SnowFree*t.bare())
	}
	l.Hour = units.Some(t)
	l.PercentileWM2 = t.Total
}

// size fills the design flux and what margin and stairs add to it.
func (l *Load) size() {
	if l.Input.GivenWM2.Known {
		l.DesignWM2 = l.Input.GivenWM2.Value
		return
	}
	l.MarginWM2 = l.PercentileWM2 * (l.Input.Margin - 1)
	if l.Input.Stairs {
		l.StairsWM2 = (l.PercentileWM2 + l.MarginWM2) * (stairsFactor - 1)
	}
	l.DesignWM2 = l.PercentileWM2 + l.MarginWM2 + l.StairsWM2
}

// outOfRange names the inputs that lie outside the range of the method.
func (l *Load) outOfRange() []string {
	var out []string
	hour := l.Hour.Value
	if l.Hour.Known && !(hour.Reynolds <= mostReynolds) {
		out = append(out, "wind")
	}
	if !(l.Input.LengthM >= leastLengthM && l.Input.LengthM <= mostLengthM) {
		out = append(out, "length")
	}
	if l.Hour.Known && !(hour.SnowMMH <= mostSnowMMH) {
		out = append(out, "snowfall")
	}
	return out
}

// frequency returns the fluxes at all printed ratios and percentiles, over the hours of at least 0.25 mm alone if asked. fluxes is scratch.
func frequency(hours []snowHour, quarter bool, fluxes []float64) Frequency {
	var f Frequency
	for r, ratio := range Ratios {
		fluxes = fluxes[:0]
		for i := range hours {
			if hours[i].quarter || !quarter {
				fluxes = append(fluxes, hours[i].flux(ratio))
			}
		}
		slices.Sort(fluxes)
		for p, percent := range Percentiles {
			f[r][p] = percentile(fluxes, percent)
		}
	}
	return f
}

func sorted(values []float64) []float64 {
	slices.Sort(values)
	return values
}

// percentile returns the value that percent of a rising list do not exceed, linear between order statistics at position p (n − 1).
func percentile(rising []float64, percent float64) float64 {
	position := percent * float64(len(rising)-1) / allPercentile
	i := min(int(position), len(rising)-1)
	j := min(i+1, len(rising)-1)
	between := rising[i] + float64((position-float64(i))*(rising[j]-rising[i]))
	return min(between, rising[j])
}
