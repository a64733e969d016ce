package cost

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

// tiered costs 0.50 for the first 1,000 units of a month and 0.20 for those beyond, at 10 kWh a unit.
func tiered() Tariff {
	return Tariff{Energy{ID: "G", Unit: "m³", Price: units.Some(0.5), TierUnits: units.Some(1000.0), TierPrice: units.Some(0.2), HeatKWh: 10, Efficiency: 1}, 1}
}

func TestTierOfAMonthByHand(t *testing.T) {
	one := Use{Strategy: "manual", AreaM2: 1, HeatKWh: 16_000, Months: [12]MonthUse{0: {HeatKWh: 12_000}, 1: {HeatKWh: 4_000}}}
	two := Use{Strategy: "manual", AreaM2: 1, HeatKWh: 8_000, Months: [12]MonthUse{0: {HeatKWh: 8_000}}}
	years, err := Bill(tiered(), Tariff{}, "USD", []Use{one, two})
	require.NoError(t, err)
	// January 1,200 + 800 = 2,000 units, 1,000 beyond; February 400, none. 1,400 · 0.50 + 1,000 · 0.20 = 900, shared 1,600 : 800.
	g := years[0].Group
	assert.InDelta(t, 2400, g.Units, 1e-9)
	assert.InDelta(t, 1000, g.UnitsAbove, 1e-9)
	assert.Equal(t, Money(90_000), g.Energy.Value)
	assert.Equal(t, Money(60_000), years[0].Energy.Value)
	assert.Equal(t, Money(30_000), years[1].Energy.Value)
}

func TestATierThatIsNotReachedOrTellsTheSamePriceChangesNothing(t *testing.T) {
	use := Use{Strategy: "manual", AreaM2: 1, HeatKWh: 12_345, Months: [12]MonthUse{0: {HeatKWh: 9_000}, 11: {HeatKWh: 3_345}}}
	one := tiered()
	one.TierUnits = units.Maybe[float64]{}
	far, same := tiered(), tiered()
	far.TierUnits, same.TierPrice = units.Some(1e6), units.Some(0.5)
	want, err := Bill(one, Tariff{}, "USD", []Use{use})
	require.NoError(t, err)
	assert.False(t, want[0].Group.Energy.Known)
	for _, tariff := range []Tariff{far, same} {
		got, err := Bill(tariff, Tariff{}, "USD", []Use{use})
		require.NoError(t, err)
		assert.Equal(t, want[0].Energy, got[0].Energy)
	}
}

func TestStepsOfATierComeToTheAmount(t *testing.T) {
	years, err := Bill(tiered(), Tariff{}, "USD", []Use{{Strategy: "manual", AreaM2: 1, HeatKWh: 20_000, Months: [12]MonthUse{0: {HeatKWh: 20_000}}}})
	require.NoError(t, err)
	values := map[string]float64{}
	for _, s := range years[0].Steps(tiered().Energy, Energy{}) {
		values[s.Symbol] = s.Value
		for _, from := range s.From {
			assert.Contains(t, values, from, "%s rests on %s", s.Symbol, from)
		}
	}
	assert.InDelta(t, ((values["ΣU"]-values["ΣU_above"])*values["p_unit"]+values["ΣU_above"]*values["p_above"])*values["w_rate"], values["E_site"], 0.005)
	assert.InDelta(t, 700, values["E_site"], 0.005) // 1,000 · 0.50 + 1,000 · 0.20
}

// TestRealRate works the definition by hand (1.08 / 1.04 = 1.0385) and backwards.
func TestRealRate(t *testing.T) {
	assert.InDelta(t, 0.0385, Real(0.08, 0.04), 0.00005)
	for _, d := range []float64{-0.01, 0, 0.03, 0.15} {
		for _, i := range []float64{0, 0.02, 0.15} {
			assert.InDelta(t, d, Real((1+d)*(1+i)-1, i), 1e-12)
		}
	}
}
