package show_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/cost"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/report/show"
)

func TestPlain(t *testing.T) {
	for _, tt := range []struct {
		name     string
		mark     string
		v        float64
		decimals int
		want     string
	}{
		{"whole", ".", 123, 0, "123"},
		{"thousands are grouped", ".", 1234, 0, "1,234"},
		{"millions", ".", 1234567.891, 2, "1,234,567.89"},
		{"decimal comma", ",", 1234567.891, 2, "1\u00a0234\u00a0567,89"},
		{"negative", ".", -3.25, 1, "−3.2"}, // half to even, as Go rounds an exact half
		{"negative zero", ".", math.Copysign(0, -1), 1, "0.0"},
		{"rounds to zero", ".", -0.04, 1, "0.0"},
		{"rounds up", ".", 0.05000001, 1, "0.1"},
		{"carries", ".", 9999.96, 1, "10,000.0"},
		{"not a number", ".", math.NaN(), 1, show.NotAvailable},
		{"infinite", ".", math.Inf(-1), 1, show.NotAvailable},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, show.Style{DecimalMark: tt.mark}.Plain(tt.v, tt.decimals))
		})
	}
}

func TestUnits(t *testing.T) {
	si, ip := show.Style{}, show.Style{Units: units.IP}
	for _, tt := range []struct {
		got, want, source string
	}{
		{si.With(100, units.Flux), "100\u00a0W/m²", "identity"},
		{ip.With(100, units.Flux), "31.7\u00a0Btu/h·ft²", "1 Btu/h·ft² = 3.154 591 W/m²"},
		{ip.With(0, units.Temperature), "32.0\u00a0°F", "0 °C is 32 °F"},
		{ip.With(10, units.TemperatureDiff), "18.0\u00a0°F", "a difference has no offset"},
		{si.With(0.15, units.Thickness), "150\u00a0mm", "identity"},
		{ip.With(0.0254, units.Thickness), "1.0\u00a0in", "1 in = 25.4 mm"},
		{si.With(0.5, units.Share), "50.0\u00a0%", "identity"},
		{si.With(3, units.Count), "3", "a bare number has no unit"},
		{si.With(math.NaN(), units.Flux), show.NotAvailable, "no unit behind what is not there"},
		{si.Maybe(units.Maybe[float64]{}, units.Flux), show.NotAvailable, "a blank"},
		{si.Maybe(units.Some(2.0), units.Speed), "2.0\u00a0m/s", "identity"},
	} {
		assert.Equal(t, tt.want, tt.got, tt.source)
	}
}

func TestMoney(t *testing.T) {
	assert.Equal(t, "USD\u00a01,234.50", show.Style{Currency: "USD"}.Money(123450))
	assert.Equal(t, "EUR\u00a012\u00a0345,60", show.Style{Currency: "EUR", DecimalMark: ","}.Money(1234560))
	assert.Equal(t, "JPY\u00a0123,450", show.Style{Currency: "JPY"}.Money(123450), "a currency without minor units")
	assert.Equal(t, "USD\u00a0−0.05", show.Style{Currency: "USD"}.Money(-5))
	assert.Equal(t, "1.00", show.Style{}.Money(100))
	assert.Equal(t, show.NotAvailable, show.Style{Currency: "USD"}.Round(units.Maybe[cost.Money]{}), "no price, no money; never 0")
	assert.Equal(t, "USD\u00a01,235", show.Style{Currency: "USD"}.Round(units.Some(cost.Money(123450))))
	assert.Equal(t, "USD\u00a00", show.Style{Currency: "USD"}.Round(units.Some(cost.Money(0))))
}

func TestSignificant(t *testing.T) {
	for _, tt := range []struct {
		v      float64
		digits int
		want   float64
	}{
		{123456, 3, 123000}, {0.00123456, 3, 0.00123}, {-9.9996, 4, -10}, {0, 3, 0}, {1e-310, 3, 1e-310}, {99.95, 3, 100}, {281.45678, 7, 281.4568},
	} {
		assert.Equal(t, tt.want, show.Significant(tt.v, tt.digits))
	}
	assert.True(t, math.IsNaN(show.Significant(math.NaN(), 3)))
}

func TestDigits(t *testing.T) {
	s, comma := show.Style{}, show.Style{DecimalMark: ","}
	for _, tt := range []struct{ got, want string }{
		{s.Digits(0.0179, 5), "0.0179"}, {s.Digits(334000, 5), "334,000"}, {s.Digits(-8.3, 5), "−8.3"}, {s.Digits(0, 5), "0"},
		{s.Digits(1.32134e-5, 4), "1.321e-05"}, {comma.Digits(-1.32134e-5, 4), "−1,321e-05"}, {comma.Digits(12345.678, 7), "12\u00a0345,68"},
		{s.Digits(math.Inf(1), 5), show.NotAvailable},
	} {
		assert.Equal(t, tt.want, tt.got)
	}
}

func TestHour(t *testing.T) {
	assert.Equal(t, "2006-01-13 07:00", show.Hour(surface.Terms{Year: "2006", Month: 1, Day: 13, Clock: 7}))
	assert.Equal(t, "01-13 07:00", show.Hour(surface.Terms{Year: "typical", Month: 1, Day: 13, Clock: 7}))
	assert.Empty(t, show.Hour(surface.Terms{}))
}
