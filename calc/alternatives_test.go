package calc

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
)

// unitCosts price every item that a quantity is found for. Made for tests.
var unitCosts = []cost.UnitCost{
	{Item: "Coring", Unit: "piece", Cost: units.Some(610.0)}, {Item: "saw cut", Unit: "ft", Cost: units.Some(17.0)}, {Item: "scanning", Unit: "half day", Cost: units.Some(955.0)},
	{Item: "conduit", Unit: "m", Cost: units.Some(41.0)}, {Item: "tube", Unit: "m", Cost: units.Some(6.2), LifeYears: units.Some(40.0)}, {Item: "cable", Unit: "m", Cost: units.Some(13.0)},
	{Item: "circuit", Unit: "piece", Cost: units.Some(370.0)}, {Item: "insulation", Unit: "m²", Cost: units.Some(23.0)}, {Item: "concrete", Unit: "m²", Cost: units.Some(117.0)},
	{Item: "demolition", Unit: "m²", Cost: units.Some(59.0)}, {Item: "panel", Unit: "piece", Cost: units.Some(5100.0), LifeYears: units.Some(12.0)},
	{Item: "plant", Unit: "kW", Cost: units.Some(236.0), Currency: "CAD"}, {Item: "fluid", Unit: "L", Cost: units.Some(5.1)}, {Item: "commissioning", Unit: "job", Cost: units.Some(3600.0)},
	{Item: "in-pavement detector", Unit: "piece", Cost: units.Some(700.0), LifeYears: units.Some(10.0)}, {Item: "aerial detector", Unit: "piece", Cost: units.Some(530.0)},
	{Item: "slab temperature sensor", Unit: "piece", Cost: units.Some(97.0)}, {Item: "autumn service", Unit: "year", Cost: units.Some(420.0)},
	{Item: "repairs", Unit: "% a year", Cost: units.Some(1.0)}, {Item: "inspection", Unit: "m² year", Cost: units.Some(0.9)},
}

// winterKeeper keeps what hangs on no price from test to test.
var winterKeeper = &Engine{}

// priced is an engine with unit costs and no catalogue. There is only one: its inputs are those of the last call.
func priced(change ...func(*Inputs)) *Engine {
	in := inputs()
	in.UnitCosts, in.Parts = unitCosts, nil
	in.Settings.Rates = []Rate{{"CAD", 0.73}}
	in.Settings.ContingencyNew, in.Settings.ContingencyRetrofit = 0.10, 0.20
	for _, c := range change {
		c(&in)
	}
	winterKeeper.in = in
	return winterKeeper
}

func existing(change ...func(*Zone)) Zone {
	return zone(append([]func(*Zone){func(z *Zone) {
		z.Slab.Stage, z.Slab.PostTensioned, z.Slab.MembraneBelow = ExistingHeated, No, No
		z.Sensing.ControlNow, z.Sensing.Housing, z.Sensing.SlabSensor, z.Sensing.MastAvailable = "manual", No, No, Yes
		z.Money.ClearingCost = units.Some(2500.0)
	}}, change...)...)
}

func pour(change ...func(*Zone)) Zone {
	return zone(append([]func(*Zone){func(z *Zone) { z.Money.ClearingCost = units.Some(4100.0) }}, change...)...)
}

func named(list []AlternativeOutcome, name string) *AlternativeOutcome {
	for i := range list {
		if list[i].Name == name {
			return &list[i]
		}
	}
	return nil
}

func allNames(list []AlternativeOutcome) []string {
	var out []string
	for _, a := range list {
		out = append(out, a.Name)
	}
	return out
}

func line(a *AlternativeOutcome, item string) *cost.Line {
	for i := range a.Lines {
		if a.Lines[i].Item == item {
			return &a.Lines[i]
		}
	}
	return nil
}

func TestProposalsFitTheStage(t *testing.T) {
	for _, tt := range []struct {
		name string
		zone Zone
		want []string
	}{
		{"a new pour", pour(), []string{NameBase, NameAsInSites, NameNoHousing, NameElectric}},
		{"a new pour with cable", pour(func(z *Zone) { z.Heat.Kind, z.Heat.EnergyID = Electric, "power" }), []string{NameBase, NameAsInSites, NameNoHousing, NameHydronic}},
		{"an overlay", pour(func(z *Zone) { z.Slab.Stage = Overlay }), []string{NameBase, NameAsInSites, NameNoHousing, NameElectric}},
		{"an existing slab that may be cut", existing(), []string{NameBase, NameAsInSites, NameSlabSensor, NameCored, NameOverlay, NameNewPour}},
		{"tendons", existing(func(z *Zone) { z.Slab.PostTensioned = Yes }), []string{NameBase, NameAsInSites, NameOverlay, NameNewPour}},
		{"tendons not known", existing(func(z *Zone) { z.Slab.PostTensioned = Unknown }), []string{NameBase, NameAsInSites, NameOverlay, NameNewPour}},
		{"a membrane not known", existing(func(z *Zone) { z.Slab.MembraneBelow = Unknown }), []string{NameBase, NameAsInSites, NameOverlay, NameNewPour}},
		{"pavers", existing(func(z *Zone) { z.Slab.Surface, z.Slab.DepthM = Pavers, units.Some(0.1) }), []string{NameBase, NameAsInSites, NameOverlay, NameNewPour}},
		{"a slab sensor is there", existing(func(z *Zone) { z.Sensing.SlabSensor = Yes }), []string{NameBase, NameAsInSites, NameCored, NameOverlay, NameNewPour}},
		{"an existing slab without heat", existing(func(z *Zone) { z.Slab.Stage = ExistingUnheated }), []string{NameBase, NameOverlay, NameNewPour}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			so := priced().Site(site(tt.zone))
			assert.Equal(t, tt.want, allNames(so.Alternatives))
			for _, a := range so.Alternatives {
				require.NoError(t, a.Err, a.Name)
				assert.Equal(t, !a.Base && !a.AsInSites, a.Proposed, a.Name)
			}
			assert.True(t, so.Summary.Proposed)
		})
	}
}

// TestCuttingIsNeverProposedUnasked: whatever the slab, no alternative of ours cores or cuts where tendons or a membrane may be.
func TestCuttingIsNeverProposedUnasked(t *testing.T) {
	for _, tendons := range []Answer{Yes, No, Unknown, ""} {
		for _, membrane := range []Answer{Yes, No, Unknown, ""} {
			so := priced().Site(site(existing(func(z *Zone) { z.Slab.PostTensioned, z.Slab.MembraneBelow = tendons, membrane })))
			for i := range so.Alternatives {
				a := &so.Alternatives[i]
				if tendons != No || membrane != No {
					assert.Nil(t, line(a, cost.Coring), "%s: %q, %q", a.Name, tendons, membrane)
					assert.Nil(t, line(a, cost.SawCut), "%s: %q, %q", a.Name, tendons, membrane)
				}
			}
		}
	}
}

func TestBaseCase(t *testing.T) {
	e := priced()
	so := e.Site(site(existing()))
	base := so.Alternatives[0]
	require.True(t, base.Base)
	assert.Equal(t, NameBase, base.Name)
	assert.Empty(t, base.Lines)
	assert.Equal(t, units.Some(cost.Money(0)), base.FirstCost)
	assert.Equal(t, "manual", base.Zones[0].Strategy, "the control of today")
	y := base.Zones[0].Years[1]
	require.True(t, base.Zones[0].Billed)
	assert.Equal(t, units.Some(cost.Money(250000)), base.Years[1].Clearing)
	assert.Equal(t, y.Total.Value+base.Years[1].Care.Value+250000, base.Years[1].Total.Value)
	assert.False(t, base.Savings.Known, "held against itself it says nothing")

	poured := e.Site(site(pour()))
	base = poured.Alternatives[0]
	assert.False(t, base.Zones[0].Heated, "a pour without heat")
	assert.Equal(t, units.Some(cost.Money(410000)), base.Years[1].Total, "clearing alone: no plant, no care")
	assert.Equal(t, []Lost{{"1", lacksHeat}}, base.Lost)
}

func TestClearingNotTold(t *testing.T) {
	so := priced().Site(site(pour(func(z *Zone) { z.Money.ClearingCost = units.Maybe[float64]{} })))
	assert.False(t, so.Alternatives[0].Years[1].Total.Known, "never assumed")
	assert.False(t, so.Alternatives[1].Savings.Known)
	assert.True(t, so.Alternatives[1].Life.Known, "its own present value stands")
	assert.Positive(t, so.Alternatives[1].Rank)
	assert.Zero(t, so.Alternatives[0].Rank)
	require.Len(t, found(so.Summary.Findings, CodeClearingNotTold), 1)
	assert.Equal(t, finding.Field("clearing_cost"), found(so.Summary.Findings, CodeClearingNotTold)[0].Field)
}

// TestQuantities are those of the engineering.
func TestQuantities(t *testing.T) {
	so := priced().Site(site(pour()))
	a, o := named(so.Alternatives, NameAsInSites), so.Outcomes[0]
	for item, want := range map[string]float64{
		cost.Tube: o.Piping.Loops.TotalM, cost.Fluid: o.Piping.Volume.TotalL, cost.Insulation: 137.5, cost.Concrete: 137.5, cost.Panel: 1, cost.Commissioning: 1,
		cost.Plant: so.Plants[0].NetW / 1000, "in-pavement detector": 1, "slab temperature sensor": 1, cost.Conduit: 2 * 15,
	} {
		l := line(a, item)
		require.NotNil(t, l, item)
		assert.InEpsilon(t, want, l.Quantity, 1e-12, item)
	}
	assert.Equal(t, cost.InAnyCase, line(a, cost.Concrete).Uncounted, "it is poured in any case")
	assert.Equal(t, units.Some(cost.Money(0)), line(a, cost.Concrete).Amount)
	plant := line(a, cost.Plant)
	assert.Equal(t, cost.FromMain(plant.Quantity*236*0.73, "USD"), plant.Amount.Value, "in a foreign currency")
	assert.Nil(t, line(a, cost.Cable))
	assert.Nil(t, line(a, cost.Demolition))

	electric := named(so.Alternatives, NameElectric)
	assert.InEpsilon(t, electric.Zones[0].Outcome.Electric.CableM, line(electric, cost.Cable).Quantity, 1e-12)
	assert.Nil(t, line(electric, cost.Plant))
	assert.Nil(t, line(electric, cost.Tube))

	old := priced().Site(site(existing()))
	torn := named(old.Alternatives, NameNewPour)
	assert.Equal(t, 137.5, line(torn, cost.Demolition).Quantity)
	assert.Equal(t, cost.Counted, line(torn, cost.Concrete).Uncounted, "poured for the heat")
	assert.Nil(t, line(torn, cost.Plant), "there is a plant already")
	cored := named(old.Alternatives, NameCored)
	assert.Equal(t, 1.0, line(cored, cost.Coring).Quantity)
	assert.InEpsilon(t, 2*1.0/0.3048, line(cored, cost.SawCut).Quantity, 1e-12, "two slots of 1 m, in ft as the row is")
	assert.Equal(t, 28.0, line(cored, cost.Conduit).Quantity, "two runs of 15 m less the slots")
	assert.Nil(t, line(cored, cost.Tube))
	bare := priced().Site(site(existing(func(z *Zone) { z.Slab.Stage = ExistingUnheated })))
	assert.NotNil(t, line(named(bare.Alternatives, NameOverlay), cost.Plant), "there was none")
}

// TestMoneyAddsUp: totals are the sums of their rounded rows, to the cent.
func TestMoneyAddsUp(t *testing.T) {
	for _, z := range []Zone{pour(), existing(), existing(func(z *Zone) { z.Slab.Stage = ExistingUnheated })} {
		other := z
		other.Ref.ZoneID, other.Extent.AreaM2 = "2", 61
		so := priced().Site(site(z, other))
		for _, a := range so.Alternatives {
			sum, fresh, retrofit := cost.Money(0), cost.Money(0), cost.Money(0)
			for _, l := range a.Lines {
				sum += l.Amount.Value
				switch {
				case l.Item == cost.Contingency:
				case l.Retrofit:
					retrofit += l.Amount.Value
				default:
					fresh += l.Amount.Value
				}
			}
			assert.Equal(t, units.Some(sum), a.FirstCost, a.Name)
			for _, l := range a.Lines {
				if l.Item == cost.Contingency {
					base, share := fresh, 0.10
					if l.Retrofit {
						base, share = retrofit, 0.20
					}
					assert.Equal(t, cost.Money(math.Round(float64(base)*share)), l.Amount.Value)
				}
			}
			for _, y := range a.Years {
				assert.Equal(t, units.Some(y.Energy.Value+y.Demand.Value+y.Standing.Value+y.Pump.Value+y.Care.Value+y.Clearing.Value), y.Total, a.Name)
			}
			life := a.Life.Value
			total := life.First + life.Replacement - life.Residual
			for _, s := range life.Streams {
				total += s
			}
			assert.Equal(t, total, life.Total, a.Name)
			if !a.Base {
				assert.Equal(t, so.Alternatives[0].Life.Value.Total-life.Total, a.Savings.Value.Net, a.Name)
			}
		}
		asIn := named(so.Alternatives, NameAsInSites)
		if asIn == nil {
			continue
		}
		for w := range cost.Winters {
			y := asIn.Years[w]
			assert.Equal(t, so.Summary.Winter[w].Value, y.Total.Value-y.Care.Value-y.Clearing.Value, "the same energy as on the other sheets")
		}
	}
}

func TestOwnFirstCostWins(t *testing.T) {
	so := priced().Site(site(pour(func(z *Zone) { z.Money.FirstCost = units.Some(31234.56) })))
	a := named(so.Alternatives, NameAsInSites)
	assert.Equal(t, units.Some(cost.Money(3123456)), a.FirstCost, "an offer bears no contingency")
	assert.NotNil(t, line(a, cost.Tube), "quantities stay")
	assert.Equal(t, cost.OwnInstead, line(a, cost.Tube).Uncounted)
	other := named(so.Alternatives, NameElectric)
	assert.Nil(t, line(other, cost.OwnFigure), "it is of the zone as in Sites")
	assert.NotEqual(t, a.FirstCost, other.FirstCost)
	blank := priced(func(in *Inputs) { in.UnitCosts = nil }).Site(site(pour(func(z *Zone) { z.Money.FirstCost = units.Some(31234.56) })))
	assert.Equal(t, units.Some(cost.Money(3123456)), named(blank.Alternatives, NameAsInSites).FirstCost, "without any unit cost too")
}

func TestBlankUnitCosts(t *testing.T) {
	so := priced(func(in *Inputs) { in.UnitCosts = unitCosts[:4] }).Site(site(pour()))
	a := named(so.Alternatives, NameAsInSites)
	assert.False(t, a.FirstCost.Known)
	assert.False(t, line(a, cost.Tube).Amount.Known)
	assert.Positive(t, line(a, cost.Tube).Quantity)
	assert.False(t, a.Life.Known)
	assert.Zero(t, a.Rank)
	list := found(so.Summary.Findings, CodeNoUnitCost)
	require.Len(t, list, 1, "one finding says why")
	assert.Contains(t, arg(list[0], "items").Text, "tube")
}

// TestBreakEvenByTheEngine: at the price found, the engine itself finds no net savings.
func TestBreakEvenByTheEngine(t *testing.T) {
	proven := 0
	for name, z := range map[string]Zone{"existing": existing(), "pour": pour(), "cable": pour(func(z *Zone) { z.Heat.Kind, z.Heat.EnergyID = Electric, "power" })} {
		for _, a := range priced().Site(site(z)).Alternatives {
			b := a.BreakEven
			if !b.Known {
				continue
			}
			so := priced(func(in *Inputs) {
				in.Energies = append([]cost.Energy(nil), in.Energies...)
				for i := range in.Energies {
					if in.Energies[i].ID == b.Value.EnergyID {
						in.Energies[i].Price = units.Some(b.Value.Price)
					}
				}
			}).Site(site(z))
			again := named(so.Alternatives, a.Name)
			require.NotNil(t, again, "%s: %s", name, a.Name)
			assert.InDelta(t, 0, float64(again.Savings.Value.Net), 60, "%s: %s at %g: within what rounding yearly amounts to cents makes over 25 years", name, a.Name, b.Value.Price)
			proven++
		}
	}
	assert.Greater(t, proven, 4)
}

func TestSensitivity(t *testing.T) {
	so := priced().Site(site(pour()))
	a := named(so.Alternatives, NameAsInSites)
	require.Len(t, a.Sensitivity, 3)
	for i, s := range a.Sensitivity {
		if i > 0 {
			assert.GreaterOrEqual(t, a.Sensitivity[i-1].Span(), s.Span(), "the widest first")
		}
		switch s.Moves {
		case MovesFirstCost:
			assert.InDelta(t, 0.2*float64(a.FirstCost.Value), float64(a.Savings.Value.Net-s.NetHigh), 1)
			assert.InDelta(t, -0.2*float64(a.FirstCost.Value), float64(a.Savings.Value.Net-s.NetLow), 1)
		case MovesPrice:
			dearer := priced(func(in *Inputs) {
				in.Energies = append([]cost.Energy(nil), in.Energies...)
				for i := range in.Energies {
					in.Energies[i].Price.Value *= 1.2
				}
			}).Site(site(pour()))
			assert.InDelta(t, float64(named(dearer.Alternatives, NameAsInSites).Savings.Value.Net), float64(s.NetHigh), 20, "as the engine finds it at that price")
		case MovesWinter:
			assert.Less(t, s.PresentLow, s.PresentHigh)
		}
	}
}

func TestRank(t *testing.T) {
	alternative := func(pv cost.Money, lost bool) AlternativeOutcome {
		a := AlternativeOutcome{Life: units.Some(cost.Life{Total: pv})}
		if lost {
			a.Lost = []Lost{{"1", lacksHeat}}
		}
		return a
	}
	list := []AlternativeOutcome{alternative(100, true), alternative(500, false), {}, alternative(300, false), alternative(300, false), alternative(50, true), alternative(900, false)}
	rank(list)
	var ranks []int
	for _, a := range list {
		ranks = append(ranks, a.Rank)
	}
	assert.Equal(t, []int{6, 3, 0, 1, 1, 5, 4}, ranks)
}

// TestNamedAlternatives: whole zones take the place of those they name; the others stay as they are.
func TestNamedAlternatives(t *testing.T) {
	old, fresh := existing(), pour(func(z *Zone) { z.Ref.ZoneID = "2" })
	changed := old
	changed.Sensing.SlabSensor = Yes
	wrong := fresh
	wrong.Slab.DepthM = units.Some(0.5)
	wrong.Ref.Entries = []Entry{{Field: "depth", At: finding.Cell{Sheet: "Alternatives", Ref: "E3", Row: 3, Col: 5}}}
	s := site(old, fresh)
	s.Alternatives = []Alternative{{Name: "Sensor first", Zones: []Zone{changed}}, {Name: "Too deep", Zones: []Zone{wrong}}}
	so := priced().Site(s)
	assert.Equal(t, []string{NameBase, NameAsInSites, "Sensor first", "Too deep"}, allNames(so.Alternatives))
	assert.False(t, so.Summary.Proposed)
	a := named(so.Alternatives, "Sensor first")
	require.NoError(t, a.Err)
	assert.Equal(t, "aerial detector + slab sensor", a.Zones[0].Strategy)
	assert.False(t, a.Zones[0].ClearingNow)
	assert.Equal(t, so.Outcomes[1].Sensing.Strategy, a.Zones[1].Strategy, "a pour that is not named is as in Sites")
	assert.True(t, a.Zones[1].Heated)
	deep := named(so.Alternatives, "Too deep")
	require.Error(t, deep.Err)
	assert.False(t, deep.Life.Known)
	assert.Zero(t, deep.Rank)
	assert.Equal(t, "manual", deep.Zones[0].Strategy, "an existing slab that is not named keeps its control of today")
	assert.True(t, deep.Zones[0].ClearingNow)
	list := found(so.Summary.Findings, "pipe-outside-slab")
	require.Len(t, list, 1)
	assert.Equal(t, "E3", list[0].At.Ref, "at the cell really typed")
	assert.Equal(t, "2", list[0].Zone)
	assert.Len(t, found(priced().Check(s), "pipe-outside-slab"), 1, "check finds it too")
	for _, o := range so.Outcomes {
		assert.Empty(t, found(o.Findings, "pipe-outside-slab"), "the zones as in Sites are not touched")
	}
}

func TestNoComparisonWithoutAllZones(t *testing.T) {
	so := priced().Site(site(pour(), pour(func(z *Zone) { z.Ref.ZoneID, z.Place.Station = "2", "nowhere" })))
	assert.Empty(t, so.Alternatives)
	assert.False(t, so.Summary.Budget[1].Known)
}

func TestDecisionSteersTheBudget(t *testing.T) {
	decided := func(decision, chosen string) (SiteOutcome, Summary) {
		so := priced().Site(site(pour(func(z *Zone) { z.Money.Decision, z.Money.ChosenAlternative = decision, chosen })))
		return so, so.Summary
	}
	so, s := decided("", "")
	base, asIn, electric := so.Alternatives[0], named(so.Alternatives, NameAsInSites), named(so.Alternatives, NameElectric)
	assert.Equal(t, base.Years[1].Total, s.Budget[1], "an open site counts as it is now")
	assert.Equal(t, units.Some(cost.Money(0)), s.Spend)
	_, s = decided(portfolio.Approved, "")
	assert.Equal(t, asIn.Years[1].Total, s.Budget[1])
	assert.Equal(t, asIn.FirstCost, s.Spend)
	_, s = decided(portfolio.Approved, "Electric HEAT")
	assert.Equal(t, NameElectric, s.Chosen, "by its own name")
	assert.Equal(t, electric.Years[1].Total, s.Budget[1])
	assert.Equal(t, electric.FirstCost, s.Spend)
	_, s = decided(portfolio.Deferred, NameElectric)
	assert.Equal(t, base.Years[1].Total, s.Budget[1])
	_, s = decided(portfolio.Approved, "windmill")
	assert.Empty(t, s.Chosen)
	assert.Len(t, found(s.Findings, CodeAlternativeUnknown), 1)
	entry, included := s.Portfolio()
	assert.True(t, included)
	assert.Equal(t, s.Budget, entry.Budget)
	assert.Len(t, entry.Options, len(so.Alternatives))
	two := priced().Site(site(pour(func(z *Zone) { z.Money.ChosenAlternative = NameElectric }), pour(func(z *Zone) { z.Ref.ZoneID, z.Money.ChosenAlternative = "2", NameNoHousing })))
	assert.Len(t, found(two.Summary.Findings, CodeChoicesDiffer), 1)
	assert.Equal(t, NameElectric, two.Summary.Chosen)
}

// TestCare: yearly items of Costs count where there is heat.
func TestCare(t *testing.T) {
	so := priced().Site(site(pour()))
	a := named(so.Alternatives, NameAsInSites)
	require.Len(t, a.Cares, 3)
	assert.Equal(t, units.Some(cost.Money(42000)), a.Cares[0].Amount)
	assert.Equal(t, units.Some(cost.Money(math.Round(float64(a.FirstCost.Value)/100))), a.Cares[1].Amount, "a hundredth of the first cost")
	assert.Equal(t, units.Some(cost.FromMain(137.5*0.9, "USD")), a.Cares[2].Amount)
	assert.Empty(t, so.Alternatives[0].Cares, "nothing to care for without heat")
}

func TestAlternativeSteps(t *testing.T) {
	for _, z := range []Zone{pour(), existing()} {
		so := priced().Site(site(z))
		for _, a := range so.Alternatives {
			steps := a.Steps()
			seen := map[string]bool{}
			for i, s := range steps {
				assert.False(t, seen[s.Symbol], "%s: %s stands twice", a.Name, s.Symbol)
				assert.NotEmpty(t, s.Source, s.Symbol)
				assert.NotEmpty(t, s.Name, s.Symbol)
				assert.Equal(t, i == 0, s.Group != "", s.Symbol)
				for _, from := range s.From {
					assert.True(t, seen[from], "%s: %s rests on %s, which does not stand before it", a.Name, s.Symbol, from)
				}
				seen[s.Symbol] = true
			}
			shows := func(what string, m cost.Money) { assert.True(t, stands(steps, m.Main("USD")), "%s: %s", a.Name, what) }
			for _, l := range a.Lines {
				if l.Uncounted == cost.Counted {
					shows(l.Item, l.Amount.Value)
				}
			}
			for i, s := range a.Life.Value.Streams {
				shows(fmt.Sprint("stream ", i), s)
				assert.True(t, stands(steps, a.Life.Value.Factors[i]))
			}
			for _, e := range a.Flows.Replacements {
				shows("replacement", e.Amount)
			}
			for _, m := range []cost.Money{a.FirstCost.Value, a.Life.Value.Total, a.Years[0].Total.Value, a.Years[1].Total.Value, a.Years[2].Total.Value} {
				shows("total", m)
			}
			if a.Savings.Known {
				shows("net savings", a.Savings.Value.Net)
				assert.True(t, seen["NS"] && strings.Contains(fmt.Sprint(seen), "ΔI"))
			}
		}
	}
}

// TestNominalRatesValueAsTheRealOnesInThem: a study at nominal rates with inflation is the same study at the real ones (NIST Handbook 135: both give
// the same present value).
func TestNominalRatesValueAsTheRealOnesInThem(t *testing.T) {
	const inflation, discount, escalation, ofRow = 0.025, 0.03, 0.01, -0.005
	nominal := func(real float64) float64 { return (1+real)*(1+inflation) - 1 }
	study := func(d, e, row float64, inflation units.Maybe[float64], defaults ...Default) *AlternativeOutcome {
		so := priced(func(in *Inputs) {
			s := &in.Settings
			s.DiscountRate, s.EnergyEscalation, s.Inflation, s.Defaults = d, e, inflation, defaults
			in.Energies = append([]cost.Energy(nil), in.Energies...)
			for i := range in.Energies {
				if in.Energies[i].Carrier == cost.Electricity {
					in.Energies[i].Escalation = units.Some(row)
				}
			}
		}).Site(site(pour()))
		return named(so.Alternatives, NameAsInSites)
	}
	real := study(discount, escalation, ofRow, units.Maybe[float64]{})
	told := study(nominal(discount), nominal(escalation), nominal(ofRow), units.Some(inflation))
	require.True(t, real.Life.Known)
	assert.Equal(t, real.Life.Value.Total, told.Life.Value.Total)
	assert.Equal(t, real.Savings.Value.Net, told.Savings.Value.Net)
	assert.NotEqual(t, study(nominal(discount), nominal(escalation), nominal(ofRow), units.Maybe[float64]{}).Life.Value.Total, real.Life.Value.Total, "the rates matter")

	usual := study(discount, escalation, nominal(ofRow), units.Some(inflation), Default{Field: "discount_rate"}, Default{Field: "energy_escalation"})
	assert.Equal(t, real.Life.Value.Total, usual.Life.Value.Total, "rates that nobody told are real")

	d := map[string]float64{}
	for _, s := range told.Steps() {
		d[s.Symbol] = s.Value
	}
	assert.InDelta(t, (1+d["D"])/(1+d["I_g"])-1, d["d"], 1e-12)
}

func TestATierBreaksEvenAtNoOnePrice(t *testing.T) {
	so := priced(func(in *Inputs) {
		in.Energies = append([]cost.Energy(nil), in.Energies...)
		for i := range in.Energies {
			in.Energies[i].TierUnits, in.Energies[i].TierPrice = units.Some(100.0), units.Some(2*in.Energies[i].Price.Value)
		}
	}).Site(site(pour()))
	plain := priced().Site(site(pour()))
	a, b := named(so.Alternatives, NameAsInSites), named(plain.Alternatives, NameAsInSites)
	assert.Greater(t, a.Years[1].Energy.Value, b.Years[1].Energy.Value, "what is beyond the tier is dearer")
	assert.True(t, b.BreakEven.Known)
	assert.False(t, a.BreakEven.Known)
	assert.NotEmpty(t, a.Sensitivity)
}

// TestClearingFollowsTheSnowThatIsLeft: a way keeps of the clearing of now what share of its snow hours it leaves, a worse one all of it, as the base does.
func TestClearingFollowsTheSnowThatIsLeft(t *testing.T) {
	for name, z := range map[string]Zone{"pour": pour(), "manual today": existing(), "a better control today": existing(func(z *Zone) { z.Sensing.ControlNow = inPavementDetector })} {
		so := priced().Site(site(z))
		base := so.Alternatives[0]
		told := cost.FromMain(z.Money.ClearingCost.Value, "USD")
		assert.Equal(t, told, base.Years[1].Clearing.Value, name)
		now, _ := base.Zones[0].Season()
		left := map[cost.Money]bool{}
		for _, a := range so.Alternatives[1:] {
			mine, found := a.Zones[0].Season()
			require.True(t, found)
			share := min(1, mine.SnowOnSurfaceH.Value/now.SnowOnSurfaceH.Value)
			for w := range a.Years {
				assert.Equal(t, cost.FromMain(z.Money.ClearingCost.Value*share, "USD"), a.Years[w].Clearing.Value, "%s: %s", name, a.Name)
			}
			assert.InDelta(t, share, a.Zones[0].Clearing.Share, 1e-12)
			left[a.Years[1].Clearing.Value] = true
		}
		if name == "pour" {
			assert.NotContains(t, left, told, "heat leaves less than none")
			assert.Greater(t, len(left), 1, "ways that leave more snow leave more clearing")
		}
	}
}
