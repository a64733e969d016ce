package show_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/units"
	"thawbook/report/show"
)

// What a reader is told back of a cell must be known again, however small or large it is.
func TestTyped(t *testing.T) {
	si, ip, comma := show.Style{}, show.Style{Units: units.IP}, show.Style{DecimalMark: ","}
	for _, tt := range []struct{ got, want string }{
		{si.Typed(1200, units.Area), "1,200\u00a0m²"},
		{si.Typed(39.0192768, units.Area), "39.02\u00a0m²"},
		{ip.Typed(39.0192768, units.Area), "420\u00a0ft²"},
		{si.Typed(10.7, units.Energy), "10.7\u00a0kWh"},
		{si.Typed(0.0254, units.Length), "0.0254\u00a0m"},
		{si.Typed(0.000508, units.Thickness), "0.508\u00a0mm"},
		{si.Typed(1e-6, units.Number), "0.000001"},
		{si.Typed(12345.67, units.Number), "12,345.67"},
		{si.Typed(-1, units.Number), "−1"},
		{si.Typed(0, units.Number), "0"},
		{si.Typed(0.05, units.Share), "5\u00a0%"},
		{comma.Typed(1234.5, units.Number), "1\u00a0234,5"},
		{ip.Typed(-10, units.Temperature), "14\u00a0°F"},
		{si.Typed(math.NaN(), units.Area), show.NotAvailable},
	} {
		assert.Equal(t, tt.want, tt.got)
	}
}
