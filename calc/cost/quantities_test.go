package cost

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

func rates(currency string) (float64, bool) {
	worth, known := map[string]float64{"": 1, "USD": 1, "CAD": 0.73}[currency]
	return worth, known
}

func costBook(rows ...UnitCost) Book { return Book{Costs: rows, Currency: "USD", Worth: rates} }

func row(item, unit string, amount float64) UnitCost {
	return UnitCost{Item: item, Unit: unit, Cost: units.Some(amount)}
}

func TestPrice(t *testing.T) {
	tube := Take{Item: Tube, Quantity: 100, Measure: units.Length}
	for _, tt := range []struct {
		name     string
		book     Book
		take     Take
		quantity float64
		unit     string
		amount   units.Maybe[Money]
		from     string
		source   string
	}{
		{"in its own unit", costBook(row("tube", "m", 6.5)), tube, 100, "m", units.Some(Money(65000)), FromCosts, "100 · 6.50"},
		{"in another unit", costBook(row("TUBE", "ft", 2)), tube, 100 / 0.3048, "ft", units.Some(Money(65617)), FromCosts, "328.084 ft · 2.00"},
		{"spelt otherwise", costBook(row("Saw cut", "m", 3)), Take{Item: SawCut, Quantity: 2, Measure: units.Length}, 2, "m", units.Some(Money(600)), FromCosts, "hyphen and case"},
		{"a unit that measures something else", costBook(row("tube", "m²", 6.5)), tube, 100, "m", units.Maybe[Money]{}, "", "length is no area"},
		{"the second row fits", costBook(row("tube", "roll", 6.5), row("tube", "m", 1)), tube, 100, "m", units.Some(Money(10000)), FromCosts, "a roll is no length"},
		{"no row", costBook(), tube, 100, "m", units.Maybe[Money]{}, "", "blank, never 0"},
		{"a blank unit cost", costBook(UnitCost{Item: "tube", Unit: "m"}), tube, 100, "m", units.Maybe[Money]{}, FromCosts, "blank, never 0"},
		{"a foreign currency", costBook(UnitCost{Item: "tube", Unit: "m", Cost: units.Some(10.0), Currency: "CAD"}), tube, 100, "m", units.Some(Money(73000)), FromCosts, "100 · 10 · 0.73"},
		{"a currency without a rate", costBook(UnitCost{Item: "tube", Unit: "m", Cost: units.Some(10.0), Currency: "XXX"}), tube, 100, "m", units.Maybe[Money]{}, FromCosts, "no worth"},
		{"pieces of any name", costBook(row("panel", "cabinet", 10)), Take{Item: Panel, Quantity: 2, Measure: units.Count}, 2, "cabinet", units.Some(Money(2000)), FromCosts, "2 · 10"},
		{"pieces are no metres", costBook(row("panel", "m", 10)), Take{Item: Panel, Quantity: 2, Measure: units.Count}, 2, "piece", units.Maybe[Money]{}, "", "m measures a length"},
		{"kilowatts", costBook(row("plant", "kW", 100)), Take{Item: Plant, Quantity: 2500, Measure: units.ElectricPower}, 2.5, "kW", units.Some(Money(25000)), FromCosts, "2.5 · 100"},
		{"a part", costBook(row("panel", "piece", 10)), Take{Item: Panel, Quantity: 2, Measure: units.Count, Price: units.Some(row("P1", "", 7))}, 2, "piece", units.Some(Money(1400)), FromParts, "Parts before Costs"},
		{"a part without a price", costBook(row("panel", "piece", 10)), Take{Item: Panel, Quantity: 2, Measure: units.Count, Price: units.Some(UnitCost{Item: "P1"})}, 2, "piece", units.Some(Money(2000)), FromCosts, "then Costs"},
		{"in any case", costBook(row("tube", "m", 6.5)), Take{Item: Tube, Quantity: 100, Measure: units.Length, Why: InAnyCase}, 100, "m", units.Some(Money(0)), FromCosts, "not counted"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			l := tt.book.Price(tt.take)
			assert.InEpsilon(t, tt.quantity, l.Quantity, 1e-12)
			assert.Equal(t, tt.unit, l.Unit)
			assert.Equal(t, tt.amount, l.Amount, tt.source)
			assert.Equal(t, tt.from, l.CostFrom)
		})
	}
}

func TestUnpricedQuantitiesAreInTheReadersUnit(t *testing.T) {
	b := costBook()
	b.System = units.IP
	l := b.Price(Take{Item: Tube, Quantity: 0.3048, Measure: units.Length})
	assert.Equal(t, "ft", l.Unit)
	assert.InEpsilon(t, 1.0, l.Quantity, 1e-12)
}

func TestLifeOfAPartStandsInCosts(t *testing.T) {
	b := costBook(UnitCost{Item: "aerial detector", Unit: "piece", LifeYears: units.Some(10.0)})
	l := b.Price(Take{Item: "aerial detector", Quantity: 1, Measure: units.Count, Price: units.Some(row("P1", "", 500))})
	assert.Equal(t, units.Some(10.0), l.LifeYears)
	assert.Equal(t, units.Some(Money(50000)), l.Amount)
}

func TestContingency(t *testing.T) {
	b := costBook(row("tube", "m", 1), row("panel", "piece", 3), row("fluid", "L", 1))
	take := func(item string, n float64, q units.Quantity, retrofit bool) Line {
		return b.Price(Take{Item: item, Quantity: n, Measure: q, Retrofit: retrofit})
	}
	lines := b.AddContingency([]Line{take("tube", 100, units.Length, false), take("panel", 1, units.Count, true), b.Own("1", 1000, finding.Cell{})}, 0.10, 0.20)
	require.Len(t, lines, 5)
	assert.Equal(t, []units.Maybe[Money]{units.Some(Money(1000)), units.Some(Money(60))}, []units.Maybe[Money]{lines[3].Amount, lines[4].Amount}, "an offer bears none")
	assert.Equal(t, units.Some(Money(10000+300+100000+1000+60)), Sum(lines))
	blank := b.AddContingency([]Line{take("coring", 1, units.Count, true), take("tube", 1, units.Length, false)}, 0.10, 0.20)
	assert.True(t, blank[2].Amount.Known, "what is new is whole")
	assert.False(t, blank[3].Amount.Known, "a share of what is not known")
	assert.False(t, Sum(blank).Known)
	assert.Len(t, b.AddContingency([]Line{take("tube", 1, units.Length, false)}, 0, 0), 1)
	assert.Empty(t, b.AddContingency(nil, 0.1, 0.2))
}

func TestPerYear(t *testing.T) {
	for unit, want := range map[string]string{"year": "", "a year": "", "per year": "", "m² year": "m²", "m²/year": "m²", "ft2 a year": "ft2", "zone·year": "zone", "% a year": "%", "% per year": "%", "visit / yr": "visit"} {
		of, yearly := perYear(unit)
		assert.True(t, yearly, unit)
		assert.Equal(t, want, of, unit)
	}
	for _, unit := range []string{"", "m", "piece", "half day", "yearling"} {
		_, yearly := perYear(unit)
		assert.False(t, yearly, unit)
	}
}

func TestCares(t *testing.T) {
	b := costBook(row("tube", "m", 1), row("service", "year", 400), row("look", "zone year", 50), row("repairs", "% year", 1.5), row("rinse", "ft² year", 0.1),
		UnitCost{Item: "blank", Unit: "year"}, UnitCost{Item: "abroad", Unit: "year", Cost: units.Some(10.0), Currency: "CAD"}, UnitCost{Item: "nowhere", Unit: "year", Cost: units.Some(10.0), Currency: "XXX"})
	list := b.Cares(Size{Zones: 3, AreaM2: 100, First: units.Some(Money(2_000_000))})
	require.Len(t, list, 7)
	want := []units.Maybe[Money]{units.Some(Money(40000)), units.Some(Money(15000)), units.Some(Money(30000)), units.Some(Money(10764)), {}, units.Some(Money(730)), {}}
	for i, c := range list {
		assert.Equal(t, want[i], c.Amount, c.Item)
	}
	assert.False(t, b.Cares(Size{Zones: 1})[2].Amount.Known, "a share of a first cost that is not known")
}
