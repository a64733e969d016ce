package plant

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceZones    = "zones of the site"
	sourceSum      = "no diversity: one storm calls all zones"
	sourceJudged   = "judgement"
	sourcePractice = "common practice"
	sourceAir      = "annex of a US gas code; the rating plate wins"
	sourceFan      = "field practice for units with a fan; the rating plate wins"
	sourceMixed    = "heat balance of the mixed return"
)

// Steps tells how the numbers of the plant came about: each zone's part, then the sums. Symbols of a zone carry its ID.
func (o Output) Steps() []trace.Step {
	var steps []trace.Step
	for i, z := range o.Input.Zones {
		steps = append(steps, o.Needs[i].steps(z)...)
	}
	if len(steps) > 0 {
		steps[0].Group = "plant"
	}
	return append(append(steps, o.sums()...), o.air()...)
}

func (n Need) steps(z Zone) []trace.Step {
	of := func(symbol, name string, v float64, q units.Quantity, source, equation string, from ...string) trace.Step {
		for i := range from {
			from[i] += ", " + z.ID
		}
		return trace.Step{Symbol: symbol + ", " + z.ID, Name: name, Value: v, Quantity: q, Equation: equation, Source: source, From: from}
	}
	list := []trace.Step{
		of("A", "area", z.AreaM2, units.Area, sourceZones, ""),
		of("q_zone", "design flux up and back loss", z.DesignWM2, units.Flux, sourceZones, ""),
	}
	if z.InstalledWM2.Known {
		list = append(list, of("q_installed", "installed output", z.InstalledWM2.Value, units.Flux, sourceZones, ""))
	}
	equation, from := "q_plant = q_zone", "q_zone"
	if z.InstalledWM2.Known {
		equation, from = "q_plant = q_installed", "q_installed"
	}
	list = append(list,
		of("q_plant", "asked of the plant", n.WM2, units.Flux, sourceSum, equation, from),
		of("Q_edge", "edge loss", z.EdgeW, units.Power, sourceZones, ""),
		of("Q_zone", "heat of the zone", n.HeatW, units.Power, sourceSum, "Q_zone = q_plant A + Q_edge", "q_plant", "A", "Q_edge"),
		of("t_need", "supply that the zone needs at the design flux", z.SupplyC, units.Temperature, sourceZones, ""))
	given, rests := "t_supply = t_need", []string{"t_need"}
	if z.LimitC.Known {
		list = append(list, of("t_limit", "hottest supply that the zone bears", z.LimitC.Value, units.Temperature, sourceZones, ""))
		given, rests = "t_supply = least of t_need and t_limit", []string{"t_need", "t_limit"}
	}
	list = append(list,
		of("t_supply", "supply that the zone is given", n.SupplyC, units.Temperature, sourceZones, given, rests...),
		of("ΔT", "supply less return at the design flux", z.DropK, units.TemperatureDiff, sourceZones, ""),
		of("ΔT_full", "supply less return at what is asked of the plant", z.FullDropK, units.TemperatureDiff, sourceZones, ""),
		of("C", "heat per kelvin of drop, W/K", n.CapacityWK, units.Number, sourceMixed, "C = Q_zone / ΔT_full", "Q_zone", "ΔT_full"),
		of("t_return", "return of the zone", n.ReturnC, units.Temperature, sourceMixed, "t_return = t_supply − ΔT", "t_supply", "ΔT"),
		of("t_slab", "slab at the sensor", z.SlabC, units.Temperature, sourceZones, ""),
		of("Δt_slab", "supply needed less slab", n.SlabDiffK, units.TemperatureDiff, sourcePractice, "Δt_slab = t_need − t_slab", "t_need", "t_slab"))
	if n.StartMostC.Known {
		list = append(list, of("t_start", "slab before a start", z.StartC.Value, units.Temperature, sourceZones, ""),
			of("t_supply,start", "hottest supply at a cold start", n.StartMostC.Value, units.Temperature, sourcePractice, "t_supply,start = t_start + 28 K", "t_start"))
	}
	return list
}

func (o Output) sums() []trace.Step {
	return []trace.Step{
		{Symbol: "Q_load", Name: "all zones at once", Value: o.LoadW, Quantity: units.Power, Equation: "Q_load = Σ Q_zone", Source: sourceSum, From: o.all("Q_zone")},
		{Symbol: "Q_mains", Name: "loss of the mains", Value: o.LossW, Quantity: units.Power, Equation: "Q_mains = 0.05 Q_load", Source: sourceJudged, From: []string{"Q_load"}},
		{Symbol: "Q_pickup", Name: "pick-up", Value: o.PickUpW, Quantity: units.Power, Equation: "Q_pickup = 0.10 Q_load", Source: sourceJudged, From: []string{"Q_load"}},
		{Symbol: "Q_net", Name: "net output of the plant; the next standard size is the engineer's choice", Value: o.NetW, Quantity: units.Power,
			Equation: "Q_net = Q_load + Q_mains + Q_pickup", Source: sourcePractice, From: []string{"Q_load", "Q_mains", "Q_pickup"}},
		{Symbol: "t_supply,site", Name: "supply temperature", Value: o.SupplyC, Quantity: units.Temperature, Equation: "greatest t_supply", Source: sourceMixed, From: o.all("t_supply")},
		{Symbol: "t_return,site", Name: "return temperature, mixed", Value: o.ReturnC, Quantity: units.Temperature, Equation: "t_return,site = Σ C t_return / Σ C", Source: sourceMixed, From: append(o.all("C"), o.all("t_return")...)},
		{Symbol: "ΔT_site", Name: "supply less return at the design flux", Value: o.DropK, Quantity: units.TemperatureDiff, Equation: "ΔT_site = t_supply,site − t_return,site", Source: sourceMixed, From: []string{"t_supply,site", "t_return,site"}},
		{Symbol: "ΔT_site,full", Name: "the same at the load, at most 14 K", Value: o.FullDropK, Quantity: units.TemperatureDiff, Equation: "ΔT_site,full = t_supply,site − Σ C (t_supply − ΔT_full) / Σ C", Source: sourcePractice,
			From: append(append([]string{"t_supply,site"}, o.all("C")...), append(o.all("t_supply"), o.all("ΔT_full")...)...)},
	}
}

// air tells of the burner's derating.
func (o Output) air() []trace.Step {
	list := []trace.Step{
		{Symbol: "z", Name: "elevation", Value: o.Input.ElevationM, Quantity: units.Elevation, Source: "input"},
		{Symbol: "f_z", Name: "share of its sea-level rating that the plant gives here", Value: o.Derate, Quantity: units.Share,
			Equation: "burner above 2,000 ft: f_z = 1 − 0.04 z/1000 ft; else 1", Source: sourceAir, From: []string{"z"}},
		{Symbol: "f_z,fan", Name: "the same with a fan", Value: o.DerateFan, Quantity: units.Share,
			Equation: "burner above 2,000 ft: f_z,fan = 1 − 0.02 z/1000 ft; else 1", Source: sourceFan, From: []string{"z"}},
	}
	if !o.RatedW.Known {
		return list
	}
	return append(list,
		trace.Step{Symbol: "Q_rated", Name: "rating at sea level", Value: o.RatedW.Value, Quantity: units.Power, Equation: "Q_rated = Q_net / f_z", Source: sourceAir, From: []string{"Q_net", "f_z"}},
		trace.Step{Symbol: "Q_rated,fan", Name: "rating at sea level, unit with a fan", Value: o.RatedFanW.Value, Quantity: units.Power, Equation: "Q_rated,fan = Q_net / f_z,fan", Source: sourceFan, From: []string{"Q_net", "f_z,fan"}})
}

// all returns a symbol of every zone.
func (o Output) all(symbol string) []string {
	var list []string
	for _, z := range o.Input.Zones {
		list = append(list, symbol+", "+z.ID)
	}
	return list
}
