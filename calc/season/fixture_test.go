package season

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// made returns a winter made for tests: a yearly and a daily wave of temperature, a storm of twelve hours every fifth day from November to
// March, rain when it is above 2.5 °C, a little sun.
func made() weather.Station {
	days := [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	y := weather.Year{Label: "made"}
	day := 0
	for month, n := range days {
		for d := 1; d <= n; d++ {
			for clock := range 24 {
				h := weather.Hour{Month: int8(month + 1), Day: int8(d), Clock: int8(clock), PressurePa: 101325, WindMS: 4 + 2*math.Sin(float64(day)), CloudShare: 0.5, InfraredWM2: math.NaN()}
				h.AirC = 7 - 14*math.Cos(2*math.Pi*(float64(day)-15)/365) + 3*math.Cos(2*math.Pi*float64(clock-15)/24) + 4*math.Sin(float64(day)/2.3)
				h.DewC = h.AirC - 4
				if clock > 8 && clock < 16 {
					h.SunWM2 = 150
				}
				if day%5 == 0 && clock >= 6 && clock < 18 {
					h.DewC, h.CloudShare, h.SunWM2 = h.AirC-1, 1, 0
					share := weather.SnowShare(h.AirC)
					water := 0.3 + 0.1*float64(clock%7)
					h.SnowMM, h.RainMM = share*water, (1-share)*water
				}
				y.Hours = append(y.Hours, h)
			}
			day++
		}
	}
	return weather.Station{Name: "made", ElevationM: 0, Kind: weather.Synthetic, Years: []weather.Year{y}, LatDeg: 45}
}

// constant returns a station where every hour is the same.
func constant(h weather.Hour) weather.Station {
	st := made()
	hours := st.Years[0].Hours
	for i := range hours {
		at := hours[i]
		hours[i] = h
		hours[i].Month, hours[i].Day, hours[i].Clock = at.Month, at.Day, at.Clock
	}
	return st
}

// threeWinters returns a station of three winters that stand alone, each colder than the one before.
func threeWinters() weather.Station {
	st := made()
	for n := 1; n <= 2; n++ {
		y := made().Years[0]
		for i := range y.Hours {
			y.Hours[i].AirC -= 1.5 * float64(n)
			y.Hours[i].DewC -= 1.5 * float64(n)
		}
		st.Years = append(st.Years, y)
	}
	return st
}

// described is the pavement of the independent figures in the engineering method, section 4, on ground at 7 °C, in the winter as it is.
func described() Input {
	return Input{LessSnow: 1, MoreSnow: 1, Start: Day{Month: 10, Day: 1}, End: Day{Month: 4, Day: 30}, WindFactor: 1, LengthM: 6.1, InstalledWM2: 450,
		MeltC: 3, IdleC: 0.5, IdleBelowC: 2, ShutOffC: 4.4, CoreResistance: 0.025 / 1.4, AerialHoldH: 4, ManualHoldH: 6, DryHoldH: 1,
		Column: Column{Layers: [3]Layer{{}, {}, {ThickM: 0.1, WMK: 1.4}}, DepthM: 0.06, HeatJM3K: 2.1e6, InsulationM2KW: 0.9, GroundC: 7, FluidResistance: 0.05,
			FluidLimitC: units.Some(55.0)}}
}

func seasons(t *testing.T, in Input, st weather.Station) map[Strategy]Result {
	t.Helper()
	results, err := Run(in, st)
	require.NoError(t, err)
	require.Len(t, results, len(Strategies))
	by := map[Strategy]Result{}
	for i, r := range results {
		require.Equal(t, Strategies[i], r.Strategy)
		by[r.Strategy] = r
	}
	return by
}
