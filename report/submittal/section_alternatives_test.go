package submittal

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report"
)

// way is a way of doing a site with an energy bill a year and a first cost, over 20 years at 3 %.
func way(t *testing.T, name string, first, energy cost.Money, lines ...cost.Line) calc.AlternativeOutcome {
	t.Helper()
	a := calc.AlternativeOutcome{Name: name, Currency: "CAD", Lines: lines, FirstCost: units.Some(first), Study: cost.Study{Years: 20, Discount: 0.03},
		Flows: cost.Flows{First: first, Streams: []cost.Stream{{Name: "gas", Yearly: energy}}}}
	for i := range a.Years {
		a.Years[i].Total = units.Some(energy)
	}
	life, err := cost.Value(a.Study, a.Flows)
	require.NoError(t, err)
	a.Life = units.Some(life)
	return a
}

// ways is a site with a base case, two ways against it, one without a known cost, and one that could not be calculated.
func ways(t *testing.T) report.View {
	t.Helper()
	v := view{plain: true}.make(t)
	base := way(t, "base case", 0, 1_000_000)
	base.Base, base.Rank, base.Lost = true, 3, []calc.Lost{{Zone: "1", Code: "lacks-heat"}}
	good := way(t, "heated as drawn", 5_000_000, 400_000, cost.Line{Item: cost.Contingency, Amount: units.Some(cost.Money(500_000))}, cost.Line{Zone: "1", Item: cost.Tube, Amount: units.Some(cost.Money(2_500_000))},
		cost.Line{Zone: "2", Item: cost.Tube, Amount: units.Some(cost.Money(2_000_000))}, cost.Line{Zone: "1", Item: cost.Concrete, Amount: units.Some(cost.Money(0)), Uncounted: cost.InAnyCase})
	good.Rank = 1
	poor := way(t, "another way", 9_000_000, 900_000)
	poor.Rank = 2
	for _, a := range []*calc.AlternativeOutcome{&good, &poor} {
		savings, err := cost.Compare(a.Study, base.Flows, a.Flows)
		require.NoError(t, err)
		a.Savings = units.Some(savings)
		a.Sensitivity = []calc.Sensitivity{{Moves: calc.MovesPrice, Low: -0.2, High: 0.2, NetLow: savings.Net - 100_000, NetHigh: savings.Net + 100_000}, {Moves: calc.MovesWinter, NetLow: savings.Net - 300, NetHigh: savings.Net + 500}}
	}
	good.BreakEven = units.Some(calc.BreakEven{EnergyID: "gas", Unit: "m³", Currency: "CAD", Price: 0.512, Now: 0.8})
	blank := calc.AlternativeOutcome{Name: "not priced", Currency: "CAD", Study: base.Study, Lines: []cost.Line{{Item: cost.Coring}}}
	failed := calc.AlternativeOutcome{Name: "not calculated", Err: errors.New("a zone has no winter")}
	v.Site.Alternatives = []calc.AlternativeOutcome{base, good, poor, blank, failed}
	v.Site.Summary.Proposed, v.Settings.PriceDate, v.Settings.PriceValidUntil = true, "2026-09-15", "2026-12-31"
	return v
}

func TestAlternativesStandSideBySide(t *testing.T) {
	doc, err := Render(ways(t))
	require.NoError(t, err)
	for i, page := range boxes(t, doc) {
		page.check(t, i+1, paperFor(units.SI))
	}
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, want := range []string{
		"over 20 years at a real discount rate of 3.0 %", "Alternatives names none for this site; these were proposed", "Prices of 2026-09-15. Valid until 2026-12-31.",
		"base case 3 0 10,000 148,775 – – –",                 // NIST Handbook 135: UPV(3 %, 20 y) = 14.88; 10,000 × 14.8775
		"heated as drawn 1 50,000 4,000 109,510 39,265 8 10", // 50,000 + 4,000 × 14.8775; 148,775 − 109,510; 50,000 / 6,000 and, discounted, 6,000 UPV(9.73 y) = 50,000
		"another way 2 90,000 9,000 223,897 −75,123 – –",
		"not priced – not available not available not available – – –",
		"base case, zone 1: It has no heat", "not calculated: one of its zones could not be calculated",
		"concrete in any case", "tube 45,000 ", "contingency 5,000 ", "coring – not available",
		"Energy: gas 148,775 59,510 133,897", "Savings-to-investment ratio – 1.79 0.17", // 89,265 / 50,000; 14,877 / 90,000
		"What net savings rest on: heated as drawn", "−20 %: 38,265", "+20 %: 40,265", "At 0.512 CAD/m³ of gas instead of 0.8 CAD/m³",
	} {
		assert.Contains(t, said, want)
	}
	assert.Less(t, strings.Index(said, "tube 45,000"), strings.Index(said, "contingency 5,000"), "the contingency stands behind what it is a share of")
}

func TestChosenAlternativeIsTheOneThatIsLookedInto(t *testing.T) {
	v := ways(t)
	v.Site.Summary.Chosen, v.Site.Summary.Decision = "another way", "approved"
	best, found := bestAlternative(v.Site)
	require.True(t, found)
	assert.Equal(t, "another way", best.Name)
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Contains(t, said, "another way (approved) 2")
	assert.Contains(t, said, "What net savings rest on: another way")
}

func TestOneWayIsNoComparison(t *testing.T) {
	v := ways(t)
	v.Site.Alternatives = v.Site.Alternatives[:1]
	doc, err := Render(v)
	require.NoError(t, err)
	assert.NotContains(t, text(t, doc), "Alternatives and life cycle")
}
