package season

import (
	"math"
	"testing"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// made returns a winter made for tests: a yearly and a daily wave of temperature, a storm of twelve hours every fifth day from November to
// March, rain when it is above 2.5 °C, a little sun.
func made() weather.Station {
	days := [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	var y weather.Year
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

// usual is the input of the independent run in the engineering method, section 4, with A_r 1 and a back loss of 3 %.
func usual() Input {
	return Input{SnowFactor: 1, Start: Day{Month: 10, Day: 1}, End: Day{Month: 4, Day: 30}, WindFactor: 1, LengthM: 6.1, SnowFree: 1, InstalledWM2: 450, BackShare: 0.03,
		MeltC: 3, IdleC: 0.5, IdleBelowC: 2, ShutOffC: 4.4, CoreResistance: 0.025 / 1.4, AerialHoldH: 4, ManualHoldH: 6, DryHoldH: 1}
}

func BenchmarkRun(b *testing.B) {
	st, in := made(), usual()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(in, st); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWinter is the hour loop of the heaviest strategy alone: it allocates nothing.
func BenchmarkWinter(b *testing.B) {
	st, in := made(), usual()
	core, err := targetsOf(&in, &st)
	if err != nil {
		b.Fatal(err)
	}
	var hours []forcing
	for _, run := range st.Season(in.Start, in.End) {
		for i := range run.Hours {
			hours = append(hours, force(&in, &run.Hours[i], core))
		}
	}
	p := plantOf(&in)
	in.LowestMeltC = units.Some(-20.0)
	b.ReportAllocs()
	for b.Loop() {
		var t tally
		t.winter(&controls[len(controls)-1], &in, &p, hours)
	}
}
