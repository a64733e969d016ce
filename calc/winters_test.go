package calc

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// ofYears returns a station of observed winters that stand alone, each colder than the one before.
func ofYears(n int) weather.Station {
	var years []weather.Year
	for i := range n {
		years = append(years, madeYear(fmt.Sprint(2000+2*i), 7.5-0.5*float64((i*3)%n), false))
	}
	return weather.NewStation("Years", northHere, weather.Observed, years, nil)
}

// inYears calculates a zone at a station of so many winters.
func inYears(t *testing.T, n int, change ...func(*Zone)) Outcome {
	e := engine(func(in *Inputs) { in.Climate.Stations = append(in.Climate.Stations, ofYears(n)) })
	return outcome(t, e, append(change, func(z *Zone) { z.Place.Station = "Years" })...)
}

// inOrder holds the costs of every strategy to the order of the winters.
func inOrder(t *testing.T, o Outcome, about string) {
	t.Helper()
	for s := range season.Strategies {
		year := o.Costs[3*s : 3*s+3]
		for w := range 2 {
			assert.LessOrEqual(t, year[w].Total.Value, year[w+1].Total.Value, "%s: %s, %s", about, year[w].Strategy, year[w+1].Winter)
		}
	}
}

// TestOneWinterHasLessAndMoreSnow: a station with one winter has it again with its snow times 1 ∓ 1.28 CV; what follows snow takes more with more.
func TestOneWinterHasLessAndMoreSnow(t *testing.T) {
	o := outcome(t, engine())
	assert.Equal(t, SnowSpread{Rule: RuleSnowFactors, Winters: 1, Variation: 0.35, Assumed: true, MildFactor: 1 - 1.28*0.35, SevereFactor: 1 + 1.28*0.35}, o.Snow)
	for _, s := range []season.Strategy{season.Aerial, season.AerialSlab, season.Pavement, season.BothDetectors} {
		y := bySensing(o.Seasons, s).Years
		assert.Equal(t, [3]float64{o.Snow.MildFactor, 1, o.Snow.SevereFactor}, [3]float64{y[0].SnowFactor, y[1].SnowFactor, y[2].SnowFactor})
		assert.Less(t, y[0].EnergyKWhM2, y[1].EnergyKWhM2, s)
		assert.Less(t, y[1].EnergyKWhM2, y[2].EnergyKWhM2, s)
	}
	inOrder(t, o, "one winter")
	mild, _ := snowFactors(weather.Station{SnowVariation: units.Some(1.2)})
	assert.Zero(t, mild, "never below none")
	even := outcome(t, engine(func(in *Inputs) { in.Climate.Stations[0].SnowVariation = units.Some(0.0) }))
	assert.Len(t, even.Winters, 1, "without variation all winters are one")
	inOrder(t, even, "no variation")
}

// TestSeveralWintersAreRankedByCost: with two to four winters the cheapest, the median and the dearest, from five on the 10th, 50th and 90th percentile.
func TestSeveralWintersAreRankedByCost(t *testing.T) {
	for _, tt := range []struct {
		winters int
		rule    string
		places  [3]float64 // from 0, by hand
	}{{2, RuleExtremes, [3]float64{0, 0.5, 1}}, {3, RuleExtremes, [3]float64{0, 1, 2}}, {4, RuleExtremes, [3]float64{0, 1.5, 3}},
		{5, RulePercentiles, [3]float64{0.4, 2, 3.6}}, {11, RulePercentiles, [3]float64{1, 5, 9}}} {
		o := inYears(t, tt.winters)
		assert.Equal(t, SnowSpread{Rule: tt.rule, Winters: tt.winters}, o.Snow)
		require.Len(t, o.Winters, tt.winters)
		totals := make([]float64, tt.winters)
		for i, w := range o.Winters {
			assert.Equal(t, fmt.Sprint(2000+2*i), w.Label)
			totals[i] = w.Cost.Total.Value.Main("USD")
		}
		slices.Sort(totals)
		for k, w := range cost.Winters {
			year, _ := o.ChosenCost(w)
			low := int(tt.places[k] + 1e-9)
			want := totals[low]
			if high := low + 1; high < tt.winters {
				want += (tt.places[k] - float64(low)) * (totals[high] - totals[low])
			}
			assert.InDelta(t, want, year.Total.Value.Main("USD"), 0.021, "%s of %d winters, to the cent of each rounded part", w, tt.winters)
		}
		inOrder(t, o, fmt.Sprint(tt.winters, " winters"))
	}
}

// TestSeasonIsTheAverageOfItsWinters: energy, not the year that ranks in the middle.
func TestSeasonIsTheAverageOfItsWinters(t *testing.T) {
	o := inYears(t, 3)
	for _, r := range o.Seasons {
		require.Len(t, r.Years, 3)
		sum := 0.0
		for _, y := range r.Years {
			sum += y.EnergyKWhM2
		}
		assert.InDelta(t, sum/3, r.EnergyKWhM2, 1e-9, r.Strategy)
	}
}

// TestRankIsByCost: a demand charge can make another winter the dearest than the one with the most heat.
func TestRankIsByCost(t *testing.T) {
	heat := func(kWh, peak float64) cost.Use {
		u := cost.Use{Strategy: "s", AreaM2: 1, HeatKWh: kWh}
		u.Months[0] = cost.MonthUse{HeatKWh: kWh, PeakKW: peak}
		return u
	}
	tariff := cost.Energy{Price: units.Some(0.1), HeatKWh: 1, Efficiency: 1, DemandKWMonth: units.Some(10.0), BillingMonths: 12}
	for _, tt := range []struct {
		name   string
		price  units.Maybe[float64]
		places []int
	}{{"cost", tariff.Price, []int{1, 3, 2}}, {"units bought where there is no price", units.Maybe[float64]{}, []int{1, 2, 3}}} {
		l := ladder{uses: []cost.Use{heat(100, 1), heat(200, 5), heat(300, 2)}}
		tariff.Price = tt.price
		for _, u := range l.uses {
			y, err := cost.Bill(cost.Tariff{Energy: tariff}, cost.Tariff{}, "USD", []cost.Use{u})
			require.NoError(t, err)
			l.winters = append(l.winters, WinterCost{Cost: y[0]})
		}
		l.rank()
		var places []int
		for _, w := range l.winters {
			places = append(places, w.Place)
		}
		assert.Equal(t, tt.places, places, "%s: 20, 70 and 50 by hand", tt.name)
	}
}

// TestZonesOfABillWithOtherStations: a zone's amounts are those it has beside a zone of the same station.
func TestZonesOfABillWithOtherStations(t *testing.T) {
	e := engine(func(in *Inputs) { in.Climate.Stations = append(in.Climate.Stations, ofYears(5)) })
	at := func(station, id string) Zone {
		return zone(func(z *Zone) { z.Place.Station, z.Ref.ZoneID = station, id })
	}
	mixed := e.Site(site(at("Years", "1"), at("Northville", "2"))).Outcomes
	same := e.Site(site(at("Years", "1"), at("Years", "2"))).Outcomes
	require.Len(t, mixed[0].Winters, 5)
	require.Len(t, mixed[1].Winters, 3)
	for i, y := range mixed[0].Costs {
		assert.InDelta(t, float64(same[0].Costs[i].Total.Value), float64(y.Total.Value), 1, "to the cent that sharing moves")
		assert.Equal(t, same[0].Costs[i].HeatKWh, y.HeatKWh)
	}
	inOrder(t, mixed[0], "five winters")
	inOrder(t, mixed[1], "one winter")
}

// TestWintersInOrderWhateverTheZone: severe never costs less than typical, mild never more.
func TestWintersInOrderWhateverTheZone(t *testing.T) {
	e := engine(func(in *Inputs) { in.Climate.Stations = append(in.Climate.Stations, ofYears(6)) })
	d := dice{rand.New(rand.NewPCG(5, 8))}
	priced := 0
	for range 12 {
		o := outcome(t, e, func(z *Zone) {
			*z = d.zone([]string{"Northville", "Three Winters", "Years", "Southville"}[d.IntN(4)])
			z.Heat.EnergyID = d.one("gas", "power")
		})
		if len(o.Costs) > 0 {
			inOrder(t, o, o.Zone.Place.Station)
			priced++
		}
	}
	assert.Positive(t, priced)
}

// TestNearlyAlikeZonesShareTheirWinters: what the winter's key rounds does not tell two zones apart, more does.
func TestNearlyAlikeZonesShareTheirWinters(t *testing.T) {
	e := engine()
	told := func(length, ground float64) func(*Zone) {
		return func(z *Zone) { z.Extent.WindLengthM, z.Slab.GroundC = units.Some(length), units.Some(ground) }
	}
	first := outcome(t, e, told(4.01, 8.01))
	for _, tt := range []struct {
		length, ground float64
		shared         bool
	}{{4.04, 7.98, true}, {4.06, 8, false}, {4, 8.2, false}} {
		o := outcome(t, e, told(tt.length, tt.ground))
		assert.Equal(t, tt.shared, &o.Seasons[0] == &first.Seasons[0], "%+v", tt)
	}
}

func TestFindingsOfTheWinter(t *testing.T) {
	whole := outcome(t, engine())
	ground := func(strategy season.Strategy, change func(*season.Ground)) []finding.Finding {
		o, kit := whole, *whole.Sensing
		o.Findings, o.Seasons, o.Sensing, kit.Strategy = nil, slices.Clone(o.Seasons), &kit, string(strategy)
		for i := range o.Seasons {
			change(&o.Seasons[i].Ground)
		}
		o.judgeWinters()
		return o.Findings
	}
	hours := func(timer, delay float64) func(*season.Ground) {
		return func(g *season.Ground) { g.TimerH, g.OffDelayH = units.Some(timer), units.Some(delay) }
	}
	for _, tt := range []struct {
		name     string
		strategy season.Strategy
		change   func(*season.Ground)
		want     finding.Code
	}{
		{"as it is", season.PavementIdling, hours(4, 0.5), ""},
		{"energy open", season.PavementIdling, func(g *season.Ground) { g.EnergyResidual = 0.0011 }, CodeWinterOpen},
		{"water open", season.PavementIdling, func(g *season.Ground) { g.MassResidual = 0.0011 }, CodeWinterOpen},
		{"sky warmer by cloud", season.PavementIdling, func(g *season.Ground) { g.SkyApart = units.Some(0.151) }, CodeSkyApart},
		{"sky colder by cloud", season.PavementIdling, func(g *season.Ground) { g.SkyApart = units.Some(-0.151) }, CodeSkyApart},
		{"skies near", season.PavementIdling, func(g *season.Ground) { g.SkyApart = units.Some(0.149) }, ""},
		{"short timer", season.Aerial, hours(0.9, 0.5), CodeTimerUnusual},
		{"long timer", season.Aerial, hours(12.1, 0.5), CodeTimerUnusual},
		{"long timer of no use", season.Pavement, hours(12.1, 0.5), ""},
		{"long off-delay", season.Pavement, hours(4, 2.1), CodeOffDelayLong},
		{"long off-delay of no use", season.Aerial, hours(4, 2.1), ""},
		{"unheated", season.Unheated, hours(20, 3), ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var codes []finding.Code
			for _, f := range ground(tt.strategy, tt.change) {
				codes = append(codes, f.Code)
			}
			if tt.want == "" {
				assert.Empty(t, codes)
				return
			}
			assert.Equal(t, []finding.Code{tt.want}, codes)
		})
	}
}

// BenchmarkSite is a site of one zone whose winters nothing has run before.
func BenchmarkSite(b *testing.B) {
	for b.Loop() {
		engine().Site(site(zone()))
	}
}

// BenchmarkUnlikeZones is a site of 200 zones of which no two share a winter.
func BenchmarkUnlikeZones(b *testing.B) {
	var zones []Zone
	for i := range 200 {
		zones = append(zones, zone(func(z *Zone) {
			z.Ref.ZoneID, z.Slab.ConductivityWMK = fmt.Sprint(i), units.Some(1.2+0.002*float64(i))
		}))
	}
	b.ResetTimer()
	for b.Loop() {
		engine().Site(site(zones...))
	}
}

// Zones that share station, section and control share the section and the winters: neither is computed twice in a run.
func TestAlikeZonesShareTheirWork(t *testing.T) {
	e := engine()
	var first, work Work
	for i, area := range []float64{40, 90, 250} { // of one length in the wind's direction
		e.Site(site(zone(func(z *Zone) {
			z.Extent.AreaM2, z.Extent.WindLengthM, z.Heat.SpacingM = area, units.Some(3.0), units.Some(0.2)
		})))
		if work = e.Work(); i == 0 {
			first = work
		}
	}
	assert.Positive(t, first.Winters.Computed)
	assert.Equal(t, first.Sections.Computed, work.Sections.Computed)
	assert.Equal(t, first.Winters.Computed, work.Winters.Computed)
	assert.Equal(t, first.Loads.Computed, work.Loads.Computed)
	assert.GreaterOrEqual(t, work.Winters.Shared-first.Winters.Shared, 2)
}

// TestSummaryHasTheWintersOfARecord: what a site costs in each winter of its record, its zones added, for sites that share winters; none of one typical year.
func TestSummaryHasTheWintersOfARecord(t *testing.T) {
	e := engine(func(in *Inputs) { in.Climate.Stations = append(in.Climate.Stations, ofYears(4)) })
	at := func(station string) func(*Zone) { return func(z *Zone) { z.Place.Station = station } }
	second := zone(at("Years"), func(z *Zone) { z.Ref.ZoneID, z.Ref.Row = "2", 3 })
	so := e.Site(Site{ID: "S", Zones: []Zone{zone(at("Years")), second}})
	got := so.Summary.Recorded
	require.Len(t, got.Winters, 4)
	totals := map[cost.Money]bool{}
	for i, w := range got.Winters {
		assert.Equal(t, so.Outcomes[0].Winters[i].Label, w.Label)
		assert.Equal(t, so.Outcomes[0].Winters[i].Cost.Total.Value+so.Outcomes[1].Winters[i].Cost.Total.Value, w.Total)
		totals[w.Total] = true
	}
	assert.Len(t, totals, 4)
	assert.Equal(t, so.Outcomes[0].Snow.shares()[2], got.Severe)
	assert.Empty(t, e.Site(Site{ID: "S", Zones: []Zone{zone()}}).Summary.Recorded.Winters, "one typical year")
	assert.Empty(t, e.Site(Site{ID: "S", Zones: []Zone{zone(at("Years")), zone(func(z *Zone) { z.Ref.ZoneID, z.Ref.Row = "2", 3 })}}).Summary.Recorded.Winters, "one zone of another station")
}
