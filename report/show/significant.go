package show

import "math"

// Significant rounds v to a number of significant digits, so that what is written does not hang on the last bits of a calculation.
func Significant(v float64, digits int) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	shift := digits - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if shift < -300 || shift > 300 {
		return v
	}
	if shift < 0 {
		scale := math.Pow10(-shift)
		return math.Round(v/scale) * scale
	}
	scale := math.Pow10(shift)
	return math.Round(v*scale) / scale
}
