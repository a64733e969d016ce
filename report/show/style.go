// Package show writes values as people read them: in their units, with sensible digits, their decimal mark and currency.
package show

import (
	"math"
	"strconv"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

const minus = "−"

// NotAvailable stands where a value is blank, not a number or infinite.
const NotAvailable = "not available"

// Style is how the reader wants values written.
type Style struct {
	Units       units.System
	DecimalMark string // "." or ","; empty is "."
	Currency    string
}

// digits holds the decimals of a quantity in SI and in I-P.
var digits = map[units.Quantity][2]int{
	units.Number: {2, 2}, units.Count: {0, 0}, units.Share: {1, 1}, units.Percent: {1, 1}, units.Factor: {2, 2},
	units.Area: {1, 0}, units.Length: {1, 1}, units.Thickness: {0, 1}, units.Temperature: {1, 1}, units.TemperatureDiff: {1, 1},
	units.Flux: {0, 1}, units.Conductivity: {2, 1}, units.Insulance: {3, 2}, units.Coefficient: {1, 2}, units.LinearCoefficient: {2, 2},
	units.SnowRate: {2, 3}, units.WaterDepth: {1, 2}, units.Speed: {1, 1}, units.Elevation: {0, 0}, units.Distance: {0, 0}, units.LinearPower: {1, 1},
	units.Power: {1, 0}, units.ElectricPower: {1, 1}, units.Energy: {0, 0}, units.EnergyPerArea: {1, 0},
	units.HeatCapacity: {0, 1}, units.SpecificHeat: {0, 2}, units.Latent: {0, 1}, units.Density: {3, 4}, units.Hours: {0, 0},
	units.Years: {0, 0}, units.Months: {0, 0}, units.Angle: {2, 2}, units.Voltage: {0, 0}, units.Pressure: {1, 2}, units.Flow: {2, 1},
	units.Volume: {0, 0}, units.Mass: {0, 0}, units.HumidityRatio: {5, 5}, units.Viscosity: {2, 4}, units.Emissivity: {2, 2},
	units.FluidSpeed: {2, 1}, units.Current: {1, 1}, units.Friction: {4, 4},
}

// Decimals returns how many decimals a quantity is shown with.
func (s Style) Decimals(q units.Quantity) int { return digits[q][s.Units] }

// Number writes a base-unit value in the reader's unit, without the unit.
func (s Style) Number(v float64, q units.Quantity) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return NotAvailable
	}
	return s.Plain(q.In(s.Units).FromBase(v), s.Decimals(q))
}

// With writes a base-unit value with its unit.
func (s Style) With(v float64, q units.Quantity) string {
	n := s.Number(v, q)
	if u := s.Unit(q); u != "" && n != NotAvailable {
		return n + "\u00a0" + u
	}
	return n
}

// Maybe writes a value that may be blank, with its unit.
func (s Style) Maybe(m units.Maybe[float64], q units.Quantity) string {
	if !m.Known {
		return NotAvailable
	}
	return s.With(m.Value, q)
}

// Unit returns the reader's unit of a quantity, empty for a bare number.
func (s Style) Unit(q units.Quantity) string { return q.In(s.Units).Symbol }

// Money writes an amount with its currency.
func (s Style) Money(m cost.Money) string {
	return strings.TrimSpace(s.Currency + "\u00a0" + s.Plain(m.Main(s.Currency), cost.Decimals(s.Currency)))
}

// Round writes an amount that may be blank, with its currency and without the parts of its main unit: for the first glance.
func (s Style) Round(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return NotAvailable
	}
	return strings.TrimSpace(s.Currency + "\u00a0" + s.Whole(m.Value))
}

// Whole writes an amount in whole main units, without its currency.
func (s Style) Whole(m cost.Money) string { return s.Plain(math.Round(m.Main(s.Currency)), 0) }

// Plain writes a number with the given decimals, the reader's decimal mark and groups of three; never "−0".
func (s Style) Plain(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return NotAvailable
	}
	text := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	whole, fraction, _ := strings.Cut(text, ".")
	group, mark := ",", "."
	if s.DecimalMark == "," {
		group, mark = "\u00a0", ","
	}
	var b strings.Builder
	if v < 0 && strings.Trim(text, "0.") != "" {
		b.WriteString(minus)
	}
	for i, d := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(group)
		}
		b.WriteRune(d)
	}
	if fraction != "" {
		b.WriteString(mark + fraction)
	}
	return b.String()
}
