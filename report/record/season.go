package record

import (
	"math"

	"thawbook/calc/season"
)

// Delays are what the storms of the site ask for, in hours, and what the winter ran with.
type Delays struct {
	TimerH           Number `json:"timer_h"`
	OffDelayH        Number `json:"off_delay_h"`
	DefaultTimerH    Number `json:"default_timer_h"`
	DefaultOffDelayH Number `json:"default_off_delay_h"`
}

// Month is a month of a strategy's winter.
type Month struct {
	Month          int    `json:"month"`
	EnergyKWhM2    Number `json:"energy_kwh_m2"`
	BackKWhM2      Number `json:"back_kwh_m2"`
	PeakWM2        Number `json:"peak_w_m2"`
	HoursIdling    Number `json:"hours_idling"`
	HoursMelting   Number `json:"hours_melting"`
	HoursDrying    Number `json:"hours_drying"`
	SnowOnSurfaceH Number `json:"snow_on_surface_h"`
}

// Storm is a storm hour by hour under a strategy: each list has a value for every hour. Temperatures and what lies are those at the end of the hour.
type Storm struct {
	Year        string   `json:"year"` // of the weather that its winter begins in
	Month       int      `json:"month"`
	Day         int      `json:"day"`
	Clock       int      `json:"clock"` // that its first hour begins at
	AirC        []Number `json:"air_c"`
	SnowMM      []Number `json:"snow_mm"`
	RainMM      []Number `json:"rain_mm"`
	SurfaceC    []Number `json:"surface_c"`
	CoreC       []Number `json:"core_c"`
	HeatWM2     []Number `json:"heat_w_m2"`
	SnowLyingMM []Number `json:"snow_lying_mm"`
	WaterMM     []Number `json:"water_mm"`
}

// tell fills what the steps of a winter tell of a strategy; months and storm of the chosen one alone, so that the record stays small.
func (s *Season) tell(r *season.Result) {
	g := &r.Ground
	s.IdlingKWhM2, s.BareShare, s.LockedOutH = NumberOf(r.IdlingKWhM2), Number{r.BareShare}, NumberOf(r.LockedOutHours)
	s.EnergyResidual, s.WaterResidual = NumberOf(g.EnergyResidual), NumberOf(g.MassResidual)
	if g.TimerH.Known || g.OffDelayH.Known {
		s.Delays = &Delays{Number{g.TimerH}, Number{g.OffDelayH}, NumberOf(r.Input.AerialHoldH), NumberOf(r.Input.DryHoldH)}
	}
	if !s.Chosen {
		return
	}
	for i := range r.Months {
		m := &r.Months[i]
		s.Months = append(s.Months, Month{i + 1, NumberOf(m.EnergyKWhM2), NumberOf(m.BackKWhM2), NumberOf(m.PeakWM2), NumberOf(m.HoursIdling), NumberOf(m.HoursMelting),
			NumberOf(m.HoursDrying), NumberOf(m.SnowOnSurfaceH)})
	}
	s.Storm = stormOf(&r.Storm)
}

func stormOf(from *season.Storm) *Storm {
	if len(from.Hours) == 0 {
		return nil
	}
	first := &from.Hours[0]
	s := &Storm{Year: from.Label, Month: int(first.Month), Day: int(first.Day), Clock: int(first.Clock)}
	for i := range from.Hours {
		h := &from.Hours[i]
		for _, add := range []struct {
			list *[]Number
			v    float64
		}{{&s.AirC, h.AirC}, {&s.SnowMM, h.SnowMM}, {&s.RainMM, h.RainMM}, {&s.SurfaceC, h.SurfaceC}, {&s.CoreC, h.CoreC}, {&s.HeatWM2, h.HeatWM2}, {&s.SnowLyingMM, h.SolidMM}, {&s.WaterMM, h.WaterMM}} {
			*add.list = append(*add.list, NumberOf(math.Round(add.v*100)/100))
		}
	}
	return s
}
