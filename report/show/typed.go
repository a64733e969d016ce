package show

import (
	"math"
	"strconv"
	"strings"

	"thawbook/calc/units"
)

// typedDigits are the significant digits in which a person knows again what was typed in another unit.
const typedDigits = 4

// Typed writes a base-unit value as it would be typed: in the reader's unit, with as many digits as it needs to be known again and no zeros behind.
func (s Style) Typed(v float64, q units.Quantity) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return NotAvailable
	}
	v = q.In(s.Units).FromBase(v)
	decimals := s.Decimals(q)
	if size := math.Abs(v); size > 0 {
		decimals = max(decimals, typedDigits-1-int(math.Floor(math.Log10(size))))
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'f', decimals, 64), 64)
	_, fraction, _ := strings.Cut(strconv.FormatFloat(rounded, 'f', -1, 64), ".")
	text := s.Plain(rounded, len(fraction))
	if u := s.Unit(q); u != "" {
		text += "\u00a0" + u
	}
	return text
}
