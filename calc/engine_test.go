package calc

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// TestWholeZone: a row with a site, an area and a station gives every part of an outcome.
func TestWholeZone(t *testing.T) {
	o := outcome(t, engine())
	require.NoError(t, o.Err)
	require.NotNil(t, o.Load)
	require.NotNil(t, o.Slab)
	require.NotNil(t, o.Reset)
	require.NotNil(t, o.Sensing)
	assert.Equal(t, StatusOK, o.Status())
	assert.Equal(t, surface.Hourly, o.Load.Method)
	require.Len(t, o.Seasons, len(season.Strategies))
	for _, r := range o.Seasons {
		assert.Len(t, r.Years, 3, "%s: less snow, as it is, more snow", r.Strategy)
	}
	assert.Len(t, o.Winters, 3)
	assert.Len(t, o.Costs, len(season.Strategies)*len(cost.Winters))
	chosen, known := o.Chosen()
	require.True(t, known)
	assert.Equal(t, o.Sensing.Strategy, string(chosen.Strategy))
	year, known := o.ChosenCost(cost.TypicalWinter)
	require.True(t, known)
	assert.True(t, year.Total.Known)
	assert.Equal(t, "gas", o.Tariff.ID)
	assert.Equal(t, weather.Typical, o.Weather.Kind)
	assert.Equal(t, 5088.0, o.Weather.SeasonHours, "212 days from 1 October to 30 April")
	for _, f := range o.Findings {
		assert.Equal(t, [2]string{"S", "1"}, [2]string{f.Site, f.Zone}, f.Code)
	}
}

// TestServiceLevelOrder: the cell, then Settings, then the use, then the last resort; and the load rests on what was taken.
func TestServiceLevelOrder(t *testing.T) {
	settings := func(in *Inputs) {
		in.Settings.DefaultSnowFree, in.Settings.DefaultPercentile = units.Some(0.7), units.Some(93.0)
	}
	cell := func(z *Zone) { z.Service.SnowFree, z.Service.Percentile = units.Some(0.2), units.Some(80.0) }
	none := func(z *Zone) { z.Extent.Use = "" }
	for _, tt := range []struct {
		name              string
		o                 Outcome
		ratio, percentile float64
	}{
		{"cell", outcome(t, engine(settings), cell), 0.2, 80},
		{"Settings", outcome(t, engine(settings)), 0.7, 93},
		{"use", outcome(t, engine()), 0.5, 90},
		{"last resort", outcome(t, engine(), none), 1, 98},
	} {
		assert.Equal(t, tt.ratio, tt.o.Load.Input.SnowFree, tt.name)
		assert.Equal(t, tt.percentile, tt.o.Load.Input.Percentile, tt.name)
	}
}

// TestSizing: installed output as the page on defaults has it.
func TestSizing(t *testing.T) {
	e := engine()
	needed := func(o Outcome) float64 { return math.Ceil((o.Load.DesignWM2+o.Slab.BackWM2)/10) * 10 }
	light := func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(60.0) }
	o := outcome(t, e)
	assert.Equal(t, max(200, needed(o)), o.Design.InstalledWM2.Value)
	assert.Equal(t, needed(o) < 200, len(found(o.Findings, CodeInstalledFloor)) == 1)
	heavy := outcome(t, e, func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(411.0) })
	assert.Equal(t, needed(heavy), heavy.Design.InstalledWM2.Value, "rounded up to 10 W/m²")
	assert.False(t, heavy.Design.FloorRules)
	floor := outcome(t, e, light)
	assert.Equal(t, 200.0, floor.Design.InstalledWM2.Value)
	assert.True(t, floor.Design.FloorRules)
	stair := outcome(t, e, light, func(z *Zone) { z.Extent.Use = Stair })
	assert.Equal(t, 300.0, stair.Design.InstalledWM2.Value)
	existing := outcome(t, e, light, func(z *Zone) { z.Slab.Stage = ExistingHeated })
	assert.Equal(t, needed(existing), existing.Design.InstalledWM2.Value, "what the design asks for, without the floor")
	assert.Len(t, found(existing.Findings, CodeInstalledAssumed), 1)
	told := outcome(t, e, func(z *Zone) { z.Heat.InstalledWM2 = units.Some(155.0) })
	assert.Equal(t, 155.0, told.Design.InstalledWM2.Value)
	below := found(told.Findings, CodeInstalledBelow)
	require.Len(t, below, 1)
	assert.Equal(t, told.Design.UnmetHours.Value, arg(below[0], "hours").Number)
	assert.Greater(t, told.Design.UnmetHours.Value, outcome(t, e).Design.UnmetHours.Value, "less output serves fewer hours")
}

// TestTotal: (design flux + back loss) × area + edge loss, term by term.
func TestTotal(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Extent.PerimeterM = units.Some(51.5) })
	edge := 51.5 * 1.5 * (o.Slab.SensorC.Value - o.Load.Hour.Value.AirC)
	assert.InEpsilon(t, edge, o.Design.EdgeW.Value, 1e-12)
	assert.InEpsilon(t, (o.Load.DesignWM2+o.Slab.BackWM2)*137.5+edge, o.Design.TotalW.Value, 1e-12)
	insulated := outcome(t, engine(), func(z *Zone) { z.Extent.PerimeterM, z.Slab.EdgeInsulation = units.Some(51.5), true })
	assert.InEpsilon(t, edge*0.6/1.5, insulated.Design.EdgeW.Value, 1e-12)
}

// TestGivenFluxWithoutClimate: load and slab run; what needs an outdoor temperature is blank, and a finding says so.
func TestGivenFluxWithoutClimate(t *testing.T) {
	given := func(z *Zone) { z.Place.Station, z.Service.DesignFluxWM2 = "", units.Some(330.0) }
	so := engine().Site(site(zone(given)))
	o := so.Outcomes[0]
	require.NoError(t, o.Err)
	require.NotNil(t, o.Load)
	require.NotNil(t, o.Slab)
	assert.Equal(t, surface.Given, o.Load.Method)
	assert.Equal(t, 330.0, o.Load.DesignWM2)
	assert.False(t, o.Load.Frequency.Known)
	assert.False(t, o.Slab.EdgeW.Known)
	assert.False(t, o.Design.EdgeW.Known)
	assert.InEpsilon(t, (330+o.Slab.BackWM2)*137.5, o.Design.TotalW.Value, 1e-12, "the total leaves the edge out")
	assert.False(t, o.Slab.WarmUpHours.Known)
	assert.Nil(t, o.Reset)
	assert.Empty(t, o.Seasons)
	assert.Empty(t, o.Costs)
	assert.Equal(t, 8.0, o.Zone.Slab.GroundC.Value)
	assert.Len(t, found(o.Findings, CodeMissingInput), 1)
	assert.Equal(t, StatusError, o.Status())
	assert.Equal(t, Incomplete, so.Summary.Status)
	assert.Equal(t, 1, so.Summary.Incomplete)
	assert.True(t, so.Summary.TotalW.Known)
	assert.False(t, so.Summary.YearlyCost.Known)
	short := outcome(t, engine(), given, func(z *Zone) { z.Heat.InstalledWM2 = units.Some(300.0) })
	assert.Len(t, found(short.Findings, CodeInstalledShort), 1, "it is too little whether or not hours can be counted")
	wrong := outcome(t, engine(), given, func(z *Zone) { z.Siting.EdgeM = units.Some(0.1) })
	assert.Nil(t, wrong.Load, "an error in another cell still stops it")
}

// TestGivenFluxWithClimate: the design hour of the climate gives edge loss, reset and season.
func TestGivenFluxWithClimate(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(330.0) })
	assert.Equal(t, 330.0, o.Load.DesignWM2)
	assert.True(t, o.Load.Hour.Known && o.Design.EdgeW.Known && o.Load.Frequency.Known)
	assert.NotNil(t, o.Reset)
	assert.Len(t, o.Seasons, len(season.Strategies))
	assert.Equal(t, StatusOK, o.Status())
}

// TestDesignHour: one hour has no percentile, no reset wind and no winter.
func TestDesignHour(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Place.Station = "One Hour" })
	require.NoError(t, o.Err)
	assert.Equal(t, surface.DesignHour, o.Load.Method)
	assert.False(t, o.Load.Frequency.Known || o.Design.UnmetHours.Known)
	assert.True(t, o.Design.EdgeW.Known)
	assert.Nil(t, o.Reset)
	assert.Empty(t, o.Seasons)
	assert.Equal(t, StatusOK, o.Status())
	assert.Equal(t, weather.RuleDesignHour, o.Weather.Rule)
}

// TestExistingUnheated: a load, a sensing proposal and the unheated season; nothing that heats.
func TestExistingUnheated(t *testing.T) {
	so := engine().Site(site(zone(func(z *Zone) { z.Slab.Stage = ExistingUnheated })))
	o := so.Outcomes[0]
	require.NoError(t, o.Err)
	assert.NotNil(t, o.Load)
	assert.NotNil(t, o.Sensing)
	assert.Nil(t, o.Slab)
	assert.Nil(t, o.Reset)
	assert.Empty(t, o.Costs)
	assert.Equal(t, Design{}, o.Design)
	require.Len(t, o.Seasons, 1)
	assert.Equal(t, season.Unheated, o.Seasons[0].Strategy)
	assert.Zero(t, o.Seasons[0].EnergyKWhM2)
	assert.Positive(t, o.Seasons[0].SnowOnSurfaceH.Value)
	chosen, known := o.Chosen()
	assert.True(t, known)
	assert.Equal(t, season.Unheated, chosen.Strategy)
	assert.Empty(t, found(o.Findings, CodeEnergyNotTold))
	assert.False(t, so.Summary.YearlyCost.Known, "a site without heat has no cost of heat")
	assert.False(t, so.Summary.TotalW.Known)
}

// TestChosenFollowsTheKit: the chosen strategy is the one that kit and idling wish name.
func TestChosenFollowsTheKit(t *testing.T) {
	for _, change := range []func(*Zone){
		nil,
		func(z *Zone) { z.Sensing.Idling = units.Some(true) },
		func(z *Zone) { z.Extent.Use, z.Sensing.MastAvailable = EmergencyEntrance, Yes },
		func(z *Zone) { z.Sensing.Start = sensing.StartManual },
		func(z *Zone) { z.Slab.Stage, z.Sensing.MastAvailable = ExistingHeated, Yes },
	} {
		z := zone()
		if change != nil {
			change(&z)
		}
		so := engine().Site(site(z))
		o := so.Outcomes[0]
		chosen, known := o.Chosen()
		require.True(t, known, "%s is no strategy", o.Sensing.Strategy)
		assert.Equal(t, o.Sensing.Strategy, string(chosen.Strategy))
		if o.Zone.Sensing.Start == sensing.StartManual {
			assert.Contains(t, []season.Strategy{season.Manual, season.ManualSlab}, chosen.Strategy)
		}
		year, _ := o.ChosenCost(cost.TypicalWinter)
		assert.Equal(t, units.Some(year.Total.Value), so.Summary.YearlyCost)
	}
}

// TestStatusOfASite: in the words of Results Summary.
func TestStatusOfASite(t *testing.T) {
	quiet := func(z *Zone) {
		z.Place.Station, z.Extent.Drain, z.Extent.PerimeterM, z.Heat.InstalledWM2 = "Three Winters", Yes, units.Some(60.0), units.Some(800.0)
		z.Slab.ThicknessM, z.Sensing.Housing, z.Sensing.MastAvailable = units.Some(0.2), Yes, Yes
		z.Heat.SupplyLimitC = units.Some(100.0)
	}
	bad := func(z *Zone) { z.Siting.EdgeM = units.Some(0.1) }
	refused := func(z *Zone) { z.Ref.Refused = true }
	lost := func(z *Zone) { z.Place.Station = "" }
	later := func(z *Zone) { z.Ref.Include = "later" }
	for _, tt := range []struct {
		name                         string
		zones                        []Zone
		want                         string
		errors, incomplete, outcomes int
	}{
		{"warnings", []Zone{zone()}, DoneCheck, 0, 0, 1},
		{"a cell out of range", []Zone{zone(), zone(bad)}, Failed, 1, 0, 2},
		{"without climate", []Zone{zone(), zone(lost)}, Incomplete, 0, 1, 2},
		{"error before incomplete", []Zone{zone(lost), zone(bad), zone()}, Failed, 1, 1, 3},
		{"all later", []Zone{zone(later), zone(later)}, NotIncluded, 0, 0, 0},
		{"one later", []Zone{zone(later), zone()}, DoneCheck, 0, 0, 1},
		{"none at all", nil, NotIncluded, 0, 0, 0},
	} {
		so := engine().Site(site(tt.zones...))
		assert.Equal(t, tt.want, so.Summary.Status, tt.name)
		assert.Equal(t, tt.errors, so.Summary.Errors, tt.name)
		assert.Equal(t, tt.incomplete, so.Summary.Incomplete, tt.name)
		assert.Len(t, so.Outcomes, tt.outcomes, tt.name)
		assert.Equal(t, tt.outcomes, so.Summary.Zones, tt.name)
	}
	so := engine().Site(site(zone(quiet)))
	assert.Equal(t, Done, so.Summary.Status, "%v", so.Summary.Findings)
	assert.Zero(t, so.Summary.Warnings)
	listed := engine().Site(site(zone(refused)))
	require.Len(t, listed.Outcomes, 1)
	assert.Nil(t, listed.Outcomes[0].Load, "a row with a cell that can't be read is listed and not calculated")
	assert.Equal(t, StatusError, listed.Outcomes[0].Status())
	assert.Equal(t, Failed, listed.Summary.Status)
	assert.Equal(t, 1, listed.Summary.Errors)
	assert.False(t, listed.Summary.TotalW.Known, "blank, never 0")
}

func TestSummaryAddsUp(t *testing.T) {
	first := zone(func(z *Zone) { z.Ref.Region, z.Ref.Owner = "East", "Owner" })
	second := zone(func(z *Zone) { z.Ref.ZoneID, z.Extent.AreaM2 = "2", 61 })
	so := engine().Site(site(first, second))
	s, a, b := so.Summary, so.Outcomes[0], so.Outcomes[1]
	assert.Equal(t, "East", s.Region)
	assert.Equal(t, "Owner", s.Owner)
	assert.Equal(t, "B", s.Revision)
	assert.Equal(t, units.Some(198.5), s.AreaM2)
	assert.Equal(t, a.Design.TotalW.Value+b.Design.TotalW.Value, s.TotalW.Value)
	for i, w := range cost.Winters {
		x, _ := a.ChosenCost(w)
		y, _ := b.ChosenCost(w)
		assert.Equal(t, units.Some(x.Total.Value+y.Total.Value), s.Winter[i], w)
	}
	assert.Equal(t, s.Winter[1], s.YearlyCost)
	assert.Len(t, s.Findings, len(a.Findings)+len(b.Findings)+len(alternativeFindings(so)))
	blank := engine().Site(site(first, zone(func(z *Zone) { z.Heat.EnergyID = "" })))
	assert.False(t, blank.Summary.YearlyCost.Known, "a sum with a blank part is blank")
	assert.True(t, blank.Summary.TotalW.Known)
}

func TestExcludedZones(t *testing.T) {
	so := engine().Site(site(zone(func(z *Zone) { z.Ref.Include = "no" }), zone(), zone(func(z *Zone) { z.Ref.Include, z.Ref.ZoneID = "later", "3" })))
	require.Len(t, so.Outcomes, 1)
	require.Len(t, so.Excluded, 2)
	assert.Equal(t, "include-no", so.Excluded[0].Why)
	assert.Equal(t, "include-later", so.Excluded[1].Why)
	assert.Equal(t, "3", so.Excluded[1].Ref.ZoneID)
	assert.Empty(t, engine().Check(site(zone(func(z *Zone) { z.Ref.Include, z.Siting.EdgeM = "no", units.Some(0.1) }))))
}

// broken is a station whose hours belong to no month: the winter panics on it.
func broken(name string) weather.Station {
	s := weather.Station{Name: name, LatDeg: 44, LonDeg: -73, Kind: weather.Observed, Digest: "broken"}
	y := madeYear("2001", 7, false)
	for i := range y.Hours {
		if y.Hours[i].Month == 11 {
			y.Hours[i].Month = 13
		}
	}
	s.Years = []weather.Year{y}
	return s
}

// TestPanicStaysWithItsZone: whatever a zone's data do, it is its own error; the others stand as if it were not there, and so does their bill.
func TestPanicStaysWithItsZone(t *testing.T) {
	e := engine(func(in *Inputs) { in.Climate.Stations = append(in.Climate.Stations, broken("Broken")) })
	bad := func(z *Zone) { z.Place.Station, z.Ref.ZoneID = "Broken", "0" }
	so := e.Site(site(zone(bad), zone(), zone(bad)))
	require.Len(t, so.Outcomes, 3)
	for _, i := range []int{0, 2} {
		o := so.Outcomes[i]
		require.Error(t, o.Err)
		assert.Equal(t, StatusError, o.Status())
		assert.Len(t, found(o.Findings, CodeZoneFailed), 1)
		assert.Empty(t, o.Costs)
	}
	alone := engine().Site(site(zone()))
	assert.Equal(t, alone.Outcomes[0], so.Outcomes[1])
	assert.Equal(t, Failed, so.Summary.Status)
}

// TestZoneWithoutAllStrategies: a zone whose winters are not there gets no bill and harms no other.
func TestZoneWithoutAllStrategies(t *testing.T) {
	e := engine()
	list := []Outcome{outcome(t, e), outcome(t, e)}
	list[0].Seasons, list[0].Costs, list[1].Costs = list[0].Seasons[:3], nil, nil
	assert.NotPanics(t, func() { e.bills(list) })
	assert.Empty(t, list[0].Costs)
	assert.Len(t, list[1].Costs, len(season.Strategies)*len(cost.Winters))
}

func TestNoSnow(t *testing.T) {
	e := engine(func(in *Inputs) {
		st := &in.Climate.Stations[0]
		y := madeYear("typical", 7, false)
		for i := range y.Hours {
			y.Hours[i].SnowMM = 0
		}
		*st = weather.NewStation(st.Name, northHere, st.Kind, []weather.Year{y}, nil)
	})
	o := outcome(t, e)
	require.NoError(t, o.Err)
	assert.Len(t, found(o.Findings, CodeNoSnow), 1)
	assert.Equal(t, StatusError, o.Status())
}

// bill returns the total of the shared amounts of one strategy and winter.
func bill(list []Outcome, strategy string, w cost.Winter, part func(cost.Year) units.Maybe[cost.Money]) (sum cost.Money, group units.Maybe[cost.Money]) {
	for _, o := range list {
		for _, y := range o.Costs {
			if y.Strategy == strategy && y.Winter == w {
				sum += part(y).Value
				group = y.Group.Standing
			}
		}
	}
	return sum, group
}

// TestZonesShareABill: the standing charge of a site is paid once, and the zones' parts add up to it exactly; zones on another row don't share it.
func TestZonesShareABill(t *testing.T) {
	so := engine().Site(site(zone(), zone(func(z *Zone) { z.Ref.ZoneID, z.Extent.AreaM2, z.Heat.EnergyID = "2", 33.3, "GAS" }),
		zone(func(z *Zone) { z.Ref.ZoneID, z.Extent.AreaM2, z.Extent.Use = "3", 411, Stair }), zone(func(z *Zone) { z.Ref.ZoneID, z.Heat.EnergyID = "4", "power" })))
	standing := cost.FromMain(23.77*12, "USD")
	for _, s := range season.Strategies {
		for _, w := range cost.Winters {
			sum, group := bill(so.Outcomes[:3], string(s), w, func(y cost.Year) units.Maybe[cost.Money] { return y.Standing })
			if s == season.Unheated {
				assert.Zero(t, sum)
				continue
			}
			assert.Equal(t, standing, sum, "%s, %s", s, w)
			assert.Equal(t, units.Some(standing), group)
			parts, _ := bill(so.Outcomes[:3], string(s), w, func(y cost.Year) units.Maybe[cost.Money] { return y.Demand })
			for _, y := range so.Outcomes[0].Costs {
				if y.Strategy == string(s) && y.Winter == w {
					assert.Equal(t, y.Group.Demand.Value, parts, "%s, %s: demand", s, w)
					assert.Equal(t, 3, y.Group.Zones)
				}
			}
		}
	}
	for _, y := range so.Outcomes[3].Costs {
		assert.Equal(t, 1, y.Group.Zones)
		assert.False(t, y.Standing.Known)
	}
}

// TestNoMoney: without an energy, a price or a rate the quantities stand, money is blank, and each zone says once why.
func TestNoMoney(t *testing.T) {
	for _, tt := range []struct {
		id   string
		code finding.Code
		fuel bool
	}{{"", CodeEnergyNotTold, false}, {"coal", CodeEnergyUnknown, false}, {"no price", CodeNoPrice, true}, {"no heat", CodeNoHeatContent, false}, {"foreign", CodeCurrencyWithoutRate, true}} {
		change := func(z *Zone) { z.Heat.EnergyID = tt.id }
		so := engine().Site(site(zone(change), zone(change)))
		for _, o := range so.Outcomes {
			require.NoError(t, o.Err, tt.id)
			assert.Equal(t, StatusOK, o.Status(), tt.id)
			assert.Len(t, found(o.Findings, tt.code), 1, tt.id)
			assert.Len(t, o.Seasons, len(season.Strategies), tt.id)
			year, known := o.ChosenCost(cost.TypicalWinter)
			assert.Equal(t, tt.fuel, known, tt.id)
			if known {
				assert.False(t, year.Total.Known || year.Energy.Known || year.Standing.Known || year.Demand.Known, tt.id)
				assert.Positive(t, year.FuelUnits, tt.id)
				assert.Positive(t, year.CO2Kg.Value, tt.id)
			}
		}
		assert.False(t, so.Summary.YearlyCost.Known, tt.id)
	}
}

func TestForeignCurrencyWithRate(t *testing.T) {
	change := func(z *Zone) { z.Heat.EnergyID = "foreign" }
	worth := func(w float64) cost.Money {
		o := outcome(t, engine(func(in *Inputs) { in.Settings.Rates = []Rate{{"EUR", 9}, {"CAD", w}} }), change)
		assert.Empty(t, found(o.Findings, CodeCurrencyWithoutRate))
		year, _ := o.ChosenCost(cost.TypicalWinter)
		return year.Total.Value - year.Pump.Value // pumps are paid in the workbook's currency
	}
	assert.InDelta(t, 2*float64(worth(0.5)), float64(worth(1)), 2, "to a cent of each rounding")
}

// TestPumps: the electricity of a hydronic zone's pump is bought by its own row of Energy.
func TestPumps(t *testing.T) {
	o := outcome(t, engine())
	year, _ := o.ChosenCost(cost.TypicalWinter)
	require.NotNil(t, o.Piping)
	assert.Equal(t, "power", o.PumpTariff.ID, "gas heats, electricity pumps")
	assert.Equal(t, o.Piping.Head.PumpW, year.Pumps.PowerW)
	assert.Greater(t, year.Pumps.Hours, 24.0)
	assert.Equal(t, units.Some(cost.FromMain(o.Piping.Head.PumpW/1000*year.Pumps.Hours*0.17, "USD")), year.Pump)
	assert.Equal(t, year.Energy.Value+year.Standing.Value+year.Demand.Value+year.Pump.Value, year.Total.Value)
	for _, y := range o.Costs {
		if y.Strategy == string(season.Unheated) {
			assert.Zero(t, y.Pumps.Hours, "nothing runs")
		}
	}
	assert.Empty(t, found(o.Findings, CodePumpsNotPriced))

	none := outcome(t, engine(func(in *Inputs) { in.Energies = []cost.Energy{gas} }))
	without, _ := none.ChosenCost(cost.TypicalWinter)
	assert.False(t, without.Pump.Known)
	assert.Equal(t, year.Pumps.KWh, without.Pumps.KWh, "kWh stand without a price")
	assert.Equal(t, year.Total.Value-year.Pump.Value, without.Total.Value)
	assert.Len(t, found(none.Findings, CodePumpsNotPriced), 1)

	cable := outcome(t, engine(), func(z *Zone) { z.Heat.Kind, z.Heat.EnergyID = Electric, "power" })
	bought, _ := cable.ChosenCost(cost.TypicalWinter)
	assert.Zero(t, bought.Pumps)
	assert.False(t, bought.Pump.Known, "cables need no pump")
	assert.Empty(t, found(cable.Findings, CodePumpsNotPriced))
}

func TestClearingCheaper(t *testing.T) {
	year, _ := outcome(t, engine()).ChosenCost(cost.TypicalWinter)
	heat := year.Total.Value.Main("USD")
	clearing := func(amount float64) int {
		return len(found(outcome(t, engine(), func(z *Zone) { z.Money.ClearingCost = units.Some(amount) }).Findings, CodeClearingCheaper))
	}
	assert.Equal(t, 1, clearing(heat-0.01))
	assert.Equal(t, 0, clearing(heat))
}

// TestCheckIsPartOfSite: Check and Site run the same rules.
func TestCheckIsPartOfSite(t *testing.T) {
	for _, change := range []func(*Zone){
		nil,
		func(z *Zone) { z.Place.Station = "" },
		func(z *Zone) { z.Siting.EdgeM, z.Slab.DepthM = units.Some(0.1), units.Some(0.2) },
		func(z *Zone) { z.Slab.Stage, z.Extent.Use = ExistingHeated, "" },
		func(z *Zone) { z.Place.Station, z.Service.DesignFluxWM2 = "nowhere", units.Some(200.0) },
		func(z *Zone) { z.Place.Station = "One Hour" },
	} {
		z := zone()
		if change != nil {
			change(&z)
		}
		e := engine()
		checked := e.Check(site(z))
		all := e.Site(site(z)).Outcomes[0].Findings
		require.GreaterOrEqual(t, len(all), len(checked))
		assert.Equal(t, checked, all[:len(checked)])
	}
}

// TestSouthernSeason: the season is mirrored, unless Settings tell it.
func TestSouthernSeason(t *testing.T) {
	south := func(z *Zone) { z.Place.Station = "Southville" }
	o := outcome(t, engine(), south)
	require.NoError(t, o.Err)
	assert.Equal(t, 214*24.0, o.Weather.SeasonHours, "1 April to 31 October")
	always := bySensing(o.Seasons, season.AlwaysOn)
	for m, month := range always.Months {
		assert.Equal(t, m >= 3 && m <= 9, month.EnergyKWhM2 > 0, "month %d", m+1)
	}
	assert.Greater(t, always.Months[6].EnergyKWhM2, always.Months[3].EnergyKWhM2)
	own := outcome(t, engine(func(in *Inputs) {
		in.Settings.SeasonStart, in.Settings.SeasonEnd, in.Settings.Defaults = season.Day{Month: 6, Day: 1}, season.Day{Month: 8, Day: 31}, nil
	}), south)
	assert.Equal(t, 92*24.0, own.Weather.SeasonHours)
}

func TestLockout(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Sensing.LowestMeltC = units.Some(-8.0) })
	chosen, _ := o.Chosen()
	require.Positive(t, chosen.LockedOutHours)
	list := found(o.Findings, CodeLockedOut)
	require.Len(t, list, 1)
	assert.Equal(t, chosen.LockedOutHours, arg(list[0], "hours").Number)
}

func TestSupplyLimit(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Heat.SpacingM, z.Heat.SupplyLimitC = units.Some(0.2), units.Some(200.0) })
	supply := o.Piping.Flow.SupplyC
	assert.GreaterOrEqual(t, o.Piping.Flow.MeanC, o.Slab.MeanFluidC.Value-1e-9, "what leaves by the edge passes wall and film too")
	for limit, n := range map[float64]int{supply - 0.01: 1, supply: 0} {
		list := found(outcome(t, engine(), func(z *Zone) { z.Heat.SpacingM, z.Heat.SupplyLimitC = units.Some(0.2), units.Some(limit) }).Findings, CodeSupplyAbove)
		require.Len(t, list, n)
	}
	for _, station := range []string{"One Hour", ""} {
		hour := outcome(t, engine(), func(z *Zone) {
			z.Place.Station, z.Service.DesignFluxWM2, z.Heat.SpacingM, z.Heat.SupplyLimitC = station, units.Some(400.0), units.Some(0.225), units.Some(30.0)
		})
		assert.Nil(t, hour.Limits)
		assert.Len(t, found(hour.Findings, CodeSupplyAbove), 1, "the limit counts without a reset curve too")
	}
	electric := outcome(t, engine(), func(z *Zone) { z.Heat.Kind = Electric })
	assert.False(t, electric.Slab.MeanFluidC.Known)
	assert.Empty(t, found(electric.Findings, CodeSupplyAbove))
	assert.False(t, electric.Reset.Points[0].SupplyMeltC.Known)
}

func TestSupportReachesTheSlab(t *testing.T) {
	for word, want := range map[string]slab.Support{OnGround: slab.OnGround, OverAir: slab.OpenAir, OverHeated: slab.HeatedSpace} {
		assert.Equal(t, want, outcome(t, engine(), func(z *Zone) { z.Slab.Support = word }).Slab.Section.Support, word)
	}
}

// many returns twenty sites that share stations and differ in size and in some of their inputs.
func many() []Site {
	var list []Site
	for i := range 20 {
		change := func(z *Zone) {
			z.Extent.AreaM2 = 20 + float64(i*37%211)
			z.Extent.Use = [...]string{Walk, Drive, Stair, EmergencyEntrance, ""}[i%5]
			z.Place.Station = [...]string{"Northville", "Three Winters", "Southville", "Built In", "One Hour", "nowhere"}[i%6]
		}
		list = append(list, site(zone(change), zone(change, func(z *Zone) { z.Ref.ZoneID, z.Heat.EnergyID = "2", "power" })))
	}
	return list
}

// TestSameWhateverTheWorkers: eight goroutines that share an engine give what one gives that shares nothing.
func TestSameWhateverTheWorkers(t *testing.T) {
	withBuiltIn := func(in *Inputs) { in.Climate.BuiltIn = []weather.Statistics{normals(northHere, "Built In")} }
	sites := many()
	alone := make([]SiteOutcome, len(sites))
	one := engine(withBuiltIn)
	for i, s := range sites {
		alone[i] = one.Site(s)
	}
	shared, together := engine(withBuiltIn), make([]SiteOutcome, len(sites))
	var wg sync.WaitGroup
	for worker := range 8 {
		wg.Go(func() {
			for i := worker; i < len(sites); i += 8 {
				together[len(sites)-1-i] = shared.Site(sites[len(sites)-1-i])
			}
		})
	}
	wg.Wait()
	for i := range sites {
		require.True(t, reflect.DeepEqual(alone[i], together[i]), "site %d", i)
	}
	asked, computed := 0, map[*season.Result]bool{}
	for _, so := range together {
		for _, o := range so.Outcomes {
			if len(o.Seasons) > 0 {
				asked++
				computed[&o.Seasons[0]] = true
			}
		}
	}
	assert.Positive(t, asked)
	assert.Less(t, len(computed), asked, "winters are shared")
	again := engine(withBuiltIn)
	reversed := slices.Clone(sites)
	slices.Reverse(reversed)
	for i, s := range reversed {
		require.True(t, reflect.DeepEqual(alone[len(sites)-1-i], again.Site(s)), "the order of sites counts for nothing")
	}
}

// fortyZones is forty zones of three sections: the load, the area and the pipe's wall differ, which conduction does not ask for.
func fortyZones() Site {
	var zones []Zone
	for i := range 40 {
		zones = append(zones, zone(func(z *Zone) {
			z.Ref.ZoneID = strconv.Itoa(i)
			z.Extent.AreaM2 = 50 + float64(i)
			z.Service.DesignMargin = 1 + float64(i)/200
			z.Heat.SpacingM = units.Some([]float64{0.15, 0.2, 0.225}[i%3])
			z.Slab.InsulationM2KW = units.Some(0.9)
		}))
	}
	return site(zones...)
}

// TestSectionsAreSolvedOnce: a section is never solved twice in a run, whatever its zones ask of it. What more than three is solved belongs to the
// alternatives that are proposed; a second time nothing is.
func TestSectionsAreSolvedOnce(t *testing.T) {
	e := engine()
	sections := map[slab.Geometry]bool{}
	for _, o := range e.Site(fortyZones()).Outcomes {
		require.NotNil(t, o.Slab, "%v", o.Findings)
		sections[o.Slab.Section.Geometry()] = true
	}
	assert.Len(t, sections, 3)
	once := e.Work().Sections
	assert.Less(t, once.Computed, 10)
	assert.GreaterOrEqual(t, once.Shared, 40-3)
	e.Site(fortyZones())
	twice := e.Work().Sections
	assert.Equal(t, once.Computed, twice.Computed)
	assert.Greater(t, twice.Shared, once.Shared)
}

// BenchmarkFortyZones counts what forty zones of three sections compute and share.
func BenchmarkFortyZones(b *testing.B) {
	var work Work
	for b.Loop() {
		e := engine()
		e.Site(fortyZones())
		work = e.Work()
	}
	b.ReportMetric(float64(work.Sections.Computed), "sections/run")
	b.ReportMetric(float64(work.Sections.Shared), "shared/run")
}
