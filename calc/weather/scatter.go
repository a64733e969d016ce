package weather

import (
	"math"
	"slices"
)

// The seeds of the courses: fixed, so that the same statistics give the same winter on every machine.
const (
	seedDays uint64 = iota + 1
	seedStorms
	seedWind
	seedSky
)

// scatter returns a number between 0 and 1 for a place in a course: the same number every time, without any likeness to its neighbours.
// It mixes the bits of the place (finaliser of Stafford's variant 13 of the 64-bit mixing function).
func scatter(seed uint64, place int) float64 {
	x := (seed<<32 ^ uint64(place)) * 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	x ^= x >> 31
	return (float64(x>>11) + 0.5) / (1 << 53)
}

// courseOf returns a persistent course over the hours given: each value keeps a share of the one before it.
func courseOf(seed uint64, hours []int, keep float64) []float64 {
	course := make([]float64, len(hours))
	x := 0.0
	for k, i := range hours {
		x = keep*x + math.Sqrt(1-keep*keep)*normalQuantile(scatter(seed, i))
		course[k] = x
	}
	return course
}

// ranks returns the rank of each value of a course as a share between 0 and 1.
func ranks(course []float64) []float64 {
	order := make([]int, len(course))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		if c := compare(course[a], course[b]); c != 0 {
			return c
		}
		return a - b
	})
	shares := make([]float64, len(course))
	for rank, i := range order {
		shares[i] = (float64(rank) + 0.5) / float64(len(course))
	}
	return shares
}

// normalQuantile returns the standard normal value at a share, −3 to 3.
func normalQuantile(share float64) float64 {
	return math.Max(-3, math.Min(3, math.Sqrt2*math.Erfinv(2*share-1)))
}
