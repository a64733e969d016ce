package show

import (
	"math"
	"strconv"
	"strings"
)

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

// Digits writes a number with so many significant digits, for worked calculations: "0.0179", "1,234.5", "1.3213e-05".
func (s Style) Digits(v float64, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return NotAvailable
	}
	v = Significant(v, digits)
	if size := math.Abs(v); size != 0 && size < 1e-3 {
		text := s.mark(strconv.FormatFloat(size, 'e', -1, 64))
		if v < 0 {
			return minus + text
		}
		return text
	}
	_, fraction, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
	return s.Plain(v, len(fraction))
}

func (s Style) mark(text string) string {
	if s.DecimalMark == "," {
		return strings.Replace(text, ".", ",", 1)
	}
	return text
}
