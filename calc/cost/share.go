package cost

import (
	"cmp"
	"math"
	"slices"
)

// Share apportions an amount by weights so that the parts add up to it exactly: each part is rounded down, and the minor units that are left go to
// the largest remainders, the earlier part on ties. Weights that are not above 0 get nothing; when none is, all are taken as equal.
func Share(total Money, weights []float64) []Money {
	parts := make([]Money, len(weights))
	if len(weights) == 0 {
		return parts
	}
	if total < 0 {
		for i, p := range Share(-total, weights) {
			parts[i] = -p
		}
		return parts
	}
	shares := normalised(weights)
	remainder, order := make([]float64, len(shares)), make([]int, len(shares))
	left := total
	for i, s := range shares {
		exact := float64(total) * s
		parts[i] = Money(math.Floor(exact))
		remainder[i], order[i] = exact-math.Floor(exact), i
		left -= parts[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(remainder[b], remainder[a]) })
	for i := 0; left != 0; i = (i + 1) % len(order) {
		if k := order[i]; left > 0 && shares[k] > 0 {
			parts[k]++
			left--
		} else if left < 0 && parts[k] > 0 { // rounding of a share made a whole unit of a hair less
			parts[k]--
			left++
		}
	}
	return parts
}

// normalised returns the weights as shares of 1.
func normalised(weights []float64) []float64 {
	shares := make([]float64, len(weights))
	sum := 0.0
	for i, w := range weights {
		if w > 0 && !math.IsInf(w, 0) {
			shares[i] = w
			sum += w
		}
	}
	for i := range shares {
		if sum == 0 {
			shares[i] = 1 / float64(len(shares))
		} else {
			shares[i] /= sum
		}
	}
	return shares
}
