package hourly

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"thawbook/calc/weather"
)

// A record of one year says what its place is like only as surely as its storms allow: the 98 % flux of 150 snowfall hours rests on three of them,
// often of one storm. Drawing as many storms anew from the record's own, each as often as chance has it, shows how far a second year of the very
// same climate would lie (the bootstrap of Efron 1979, Annals of Statistics 7, with storms as its blocks).
const (
	redraws      = 200
	stormGapHour = 6 // dry hours that still belong to a storm, as in weather
)

// redrawnNear returns the share of redrawn years whose 98 % flux at A_r 1 lies within the band of the record's.
func redrawnNear(t testing.TB, st weather.Station) float64 {
	t.Helper()
	storms, near := stormsOf(st), 0
	real := flux98(t, st)
	r := rand.New(rand.NewPCG(1979, 7))
	for range redraws {
		if math.Abs(off(real, flux98(t, redrawn(st, storms, r)))) <= accuracyBand {
			near++
		}
	}
	return float64(near) / redraws
}

// stormsOf returns the snowfall hours of each storm.
func stormsOf(st weather.Station) [][]weather.Hour {
	var storms [][]weather.Hour
	for _, y := range st.Years {
		last := -len(y.Hours)
		for i, h := range y.Hours {
			if !(h.SnowMM > 0) {
				continue
			}
			if i-last > stormGapHour+1 {
				storms = append(storms, nil)
			}
			last = i
			storms[len(storms)-1] = append(storms[len(storms)-1], h)
		}
	}
	return storms
}

// redrawn returns the station with as many storms in place of its own, drawn with replacement; its dry hours are not looked at.
func redrawn(st weather.Station, storms [][]weather.Hour, r *rand.Rand) weather.Station {
	hours := slices.Clone(st.Years[0].Hours)
	for i := range hours {
		hours[i].SnowMM = 0
	}
	at := 0
	for range storms {
		for _, h := range storms[r.IntN(len(storms))] {
			if at < len(hours) {
				hours[at], at = h, at+1
			}
		}
	}
	year := st.Years[0]
	year.Hours = hours
	st.Years = []weather.Year{year}
	return st
}
