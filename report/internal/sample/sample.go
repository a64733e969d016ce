// Package sample makes outcomes for the tests of documents: invented numbers of a likely size, so that every column, key and line has something
// to show. They prove nothing about the engineering.
package sample

import (
	"fmt"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Site returns the n-th invented site: a walk with everything known and a drive without a price; every seventh site has no climate, every
// eleventh is not included.
func Site(n int) calc.SiteOutcome {
	id := fmt.Sprintf("S%03d", n)
	site := calc.Site{ID: id, Name: []string{"Clinic Nord", "Alder House", "Hôtel du Lac", "Depot 4 & yard"}[n%4]}
	region := []string{"North", "South", ""}[n%3]
	walk, drive := zone(id, site.Name, "1", "Entrance walk", region, 120.5+float64(n%9)), zone(id, site.Name, "2", "Drive", region, 480)
	drive.Extent.Use, drive.Ref.Row = "drive", 9
	site.Zones = []calc.Zone{walk, drive}
	out := calc.SiteOutcome{Site: site}
	out.Summary = calc.Summary{SiteID: id, SiteName: site.Name, Region: region, Owner: "Harbour Trust", Revision: "B", Zones: 2}
	switch {
	case n%11 == 10:
		walk.Ref.Include, drive.Ref.Include = "later", "no"
		out.Excluded = []calc.Excluded{{Ref: walk.Ref, Why: "include-later"}, {Ref: drive.Ref, Why: "include-no"}}
		out.Summary.Zones, out.Summary.Status = 0, calc.NotIncluded
	case n%7 == 6:
		out.Outcomes = []calc.Outcome{Piped(Whole(walk)), Bare(drive)}
		out.Summary.Status, out.Summary.Incomplete, out.Summary.AreaM2, out.Summary.Unwintered = calc.Incomplete, 1, units.Some(600.0), true
	default:
		out.Outcomes = []calc.Outcome{Piped(Whole(walk)), Cabled(Unpriced(drive))}
		out.Summary.Status, out.Summary.Warnings = calc.DoneCheck, 2
		out.Summary.AreaM2, out.Summary.TotalW = units.Some(600.5), units.Some(281_456.78)
		out.Summary.Kits = "aerial detector + slab temperature sensor; in-pavement detector"
		out.Summary.Winter = [3]units.Maybe[cost.Money]{units.Some(cost.Money(311_250)), units.Some(cost.Money(412_345 + int64(n))), units.Some(cost.Money(598_700))}
		out.Summary.YearlyCost, out.Summary.ExamplePrices = out.Summary.Winter[1], n%2 == 0
	}
	out.Plants = plants(out.Outcomes)
	for _, o := range out.Outcomes {
		out.Summary.Findings = append(out.Summary.Findings, o.Findings...)
	}
	return out
}

// Sites returns the first n sites.
func Sites(n int) []calc.SiteOutcome {
	out := make([]calc.SiteOutcome, n)
	for i := range out {
		out[i] = Site(i)
	}
	return out
}

func zone(site, siteName, id, name, region string, areaM2 float64) calc.Zone {
	z := calc.Zone{Ref: calc.Ref{SiteID: site, SiteName: siteName, ZoneID: id, ZoneName: name, Region: region, Owner: "Harbour Trust", Row: 8}}
	z.Ref.Entries = []calc.Entry{
		{Field: "site_id", Heading: "Site ID", Typed: site, Word: site},
		{Field: "area", Heading: "Area", Typed: "1,297 sq ft", Number: areaM2, Quantity: units.Area},
		{Field: "slab_thickness", Heading: "Slab thickness [mm]", Typed: "150", Number: 0.15, Quantity: units.Thickness},
	}
	z.Ref.Defaults = []calc.Default{
		{Field: "percentile", Number: 95, Quantity: units.Percent, Source: "level-by-use"},
		{Field: "stage", Word: calc.NewPour, Source: "level-last-resort"},
		{Field: "perimeter", Number: 44.2, Quantity: units.Length, Source: "perimeter-of-square"},
	}
	z.Extent = calc.Extent{AreaM2: areaM2, PerimeterM: units.Some(44.2), WindLengthM: units.Some(6.1), Use: "walk"}
	z.Slab = calc.Slab{Stage: calc.NewPour, Support: calc.OnGround, Surface: calc.Concrete}
	z.Heat = calc.Heat{Kind: calc.Hydronic, EnergyID: "gas", DropK: 11}
	z.Money.Decision = "open"
	return z
}

// Whole returns an outcome in which everything is known.
func Whole(z calc.Zone) calc.Outcome {
	o := calc.Outcome{Zone: z, Load: load(z), Reset: curve(), Sensing: choice(), Tariff: cost.Energy{ID: "gas", Unit: "m³", Example: true}}
	o.Weather = calc.WeatherUsed{Station: "Burlington", Years: 1, Kind: weather.Typical, Rule: weather.RuleCodesSnow, SeasonHours: 5088,
		Sources: []weather.Source{{File: "burlington.epw", SHA256: "00ff"}}}
	o.Slab = &slab.Solution{CoreResistance: 0.0179, BackWM2: 18.2, EdgeW: units.Some(812.4), SensorC: units.Some(3.71), MeanFluidC: units.Some(31.25), PipeSurfaceC: units.Some(28.5)}
	o.Design = calc.Design{BackWM2: units.Some(18.2), EdgeW: units.Some(812.4), TotalW: units.Some(64_012.3), InstalledWM2: units.Some(540.0), FloorWM2: 200, UnmetHours: units.Some(6.0)}
	limits := o.Reset.Limits(setpoint.Plant{InstalledWM2: 540, SupplyLimitC: units.Some(55.0), ShutOffC: 4.4, DesignSupply: units.Some(48.2)})
	o.Limits = &limits
	o.Snow = calc.SnowSpread{Rule: calc.RuleSnowFactors, Winters: 1, Variation: 0.4, MildFactor: 0.488, SevereFactor: 1.512}
	for i, s := range season.Strategies {
		o.Seasons = append(o.Seasons, winter(i, s))
		for w, name := range cost.Winters {
			o.Costs = append(o.Costs, bill(string(s), name, int64(90_000+1_000*i+40_000*w)))
		}
	}
	warning := finding.New(finding.Warning, "sheet-name-taken", "area", finding.Words("sheet", "A"), finding.Words("ours", "B"))
	warning.Site, warning.Zone = z.Ref.SiteID, z.Ref.ZoneID
	warning.At = finding.Cell{Sheet: "Sites", Ref: "F8", Row: 8, Col: 6}
	o.Findings = []finding.Finding{warning}
	return o
}

// Unpriced returns an outcome without money.
func Unpriced(z calc.Zone) calc.Outcome {
	o := Whole(z)
	for i := range o.Costs {
		c := &o.Costs[i]
		*c = cost.Year{Strategy: c.Strategy, Winter: c.Winter, HeatKWh: c.HeatKWh, FuelUnits: c.FuelUnits, PeakKW: c.PeakKW}
	}
	return o
}

// Bare returns an outcome of which nothing could be calculated.
func Bare(z calc.Zone) calc.Outcome {
	missing := finding.New(finding.Error, "results-separate", "station", finding.Words("why", "no climate"))
	missing.Site, missing.Zone, missing.At = z.Ref.SiteID, z.Ref.ZoneID, finding.Cell{Sheet: "Sites", Ref: "C9", Row: 9, Col: 3}
	return calc.Outcome{Zone: z, Findings: []finding.Finding{missing}}
}

func load(z calc.Zone) *surface.Load {
	l := &surface.Load{Method: surface.Hourly, SnowHours: 341, QuarterHours: 300, PercentileWM2: 471.2, ToPercentileWM2: 1.3, StairsWM2: 0, MarginWM2: 47.1,
		DesignWM2: 518.3, UnmetHours: units.Some(17.0), InfraredWM2: units.Some(502.9), OneTypicalYear: true}
	l.Input = surface.Input{LengthM: 6.1, SnowFree: 0.5, Percentile: 95, Margin: 1.1, WindFactor: 1}
	l.Hour = units.Some(surface.Terms{Month: 1, Day: 13, Clock: 7, Year: "typical", AirC: -8.3, DewC: -10, WindMS: 8.81, SnowMMH: 2.54, FilmCoefficient: 23.41,
		Sensible: 14, Melt: 235.5, Convection: 150.25, Radiation: 70.125, Evaporation: -0.0001, Total: 469.9})
	var f surface.Frequency
	for r := range f {
		for p := range f[r] {
			f[r][p] = 60 + 100*float64(r) + 25*float64(p)
		}
	}
	l.Frequency, l.Quarter = units.Some(f), units.Some(f)
	return l
}

func curve() *setpoint.Curve {
	c, err := setpoint.Reset(setpoint.Input{MeltC: 3, IdleC: 0.5, LengthM: 6.1, WindMS: 4.4, ElevationM: 104, CoreResistance: 0.0179, LevelResistance: 0.06, BelowResistance: 1.5, BelowC: 8,
		CoverResistance: 0.05, PipeResistance: 0.1, DropK: 11})
	if err != nil {
		panic(err)
	}
	return &c
}

func choice() *sensing.Choice {
	return &sensing.Choice{Kit: []sensing.Device{sensing.AerialDetector, sensing.SlabSensor}, Start: sensing.StartDetector, Stop: sensing.StopTimer, OutdoorReset: true,
		Strategy: string(season.AerialSlab)}
}

func winter(i int, s season.Strategy) season.Result {
	n := float64(i)
	in := season.Input{Start: season.Day{Month: 10, Day: 1}, End: season.Day{Month: 4, Day: 30}}
	return season.Result{Input: in, Strategy: s, Estimate: season.Transient, SeasonHours: 5088, HoursOff: 4588 - 10*n, HoursIdling: 10 * n, HoursMelting: 400, HoursDrying: 100,
		EnergyKWhM2: 40*n + 0.123456789, IdlingKWhM2: 2 * n, BackKWhM2: 3 * n, EdgeDegreeHours: 1500 * n}
}

func bill(strategy string, w cost.Winter, minor int64) cost.Year {
	m := cost.Money(minor)
	return cost.Year{Strategy: strategy, Winter: w, HeatKWh: 24_123.456789, FuelUnits: 2_700.5, PeakKW: 64.25, Energy: units.Some(m), Demand: units.Some(cost.Money(0)),
		Standing: units.Some(cost.Money(18_000)), Pump: units.Maybe[cost.Money]{}, Total: units.Some(m + 18_000), CO2Kg: units.Some(5_021.5)}
}
