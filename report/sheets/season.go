package sheets

import (
	"thawbook/calc/cost"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// seasons is a row for each zone and strategy.
func seasons() sheet {
	return sheet{Key: "season", Name: "Results Season", Frozen: 5, Columns: append(append(zoneColumns(),
		SheetColumn{Key: "strategy", Heading: "Strategy", Width: 38, Look: Chosen, Get: func(r Row) any { return string(r.Season.Strategy) }},
		SheetColumn{Key: "chosen", Heading: "Chosen", Width: 9, Get: chosen},
		SheetColumn{Key: "estimate", Heading: "Made as", Width: 16, Get: func(r Row) any { return r.Season.Estimate }},
		SheetColumn{Key: "weather", Heading: "Weather", Width: 13, Get: func(r Row) any { return string(r.Zone.Weather.Kind) }},
		ofSeason("off", "Hours off", units.Hours, func(s *season.Result) any { return s.HoursOff }),
		ofSeason("idling", "Hours idling", units.Hours, func(s *season.Result) any { return s.HoursIdling }),
		ofSeason("melting", "Hours melting", units.Hours, func(s *season.Result) any { return s.HoursMelting }),
		ofSeason("drying", "Hours drying", units.Hours, func(s *season.Result) any { return s.HoursDrying }),
		ofSeason("season", "Hours of the season", units.Hours, func(s *season.Result) any { return s.SeasonHours }),
		ofSeason("energy", "Heat into the slab", units.EnergyPerArea, func(s *season.Result) any { return s.EnergyKWhM2 }),
		ofSeason("idling-energy", "Heat while idling", units.EnergyPerArea, func(s *season.Result) any { return s.IdlingKWhM2 }),
		ofSeason("up", "Heat upward", units.EnergyPerArea, func(s *season.Result) any { return s.EnergyKWhM2 - s.BackKWhM2 }),
		ofSeason("back", "Heat as back loss", units.EnergyPerArea, func(s *season.Result) any { return s.BackKWhM2 }),
		SheetColumn{Key: "edge", Heading: "Edge loss, beside it", Quantity: units.EnergyPerArea, Get: func(r Row) any { return r.Zone.EdgeKWhM2(*r.Season) }},
		ofSeason("snow", "Hours with snow on the surface", units.Hours, func(s *season.Result) any { return s.SnowOnSurfaceH }),
		ofSeason("bare", "Snowfall hours bare", units.Share, func(s *season.Result) any { return s.BareShare }),
		ofSeason("refreeze", "Refreezing events", units.Count, func(s *season.Result) any { return s.RefreezeEvents }),
		ofSeason("locked-out", "Snowfall hours locked out by cold", units.Hours, func(s *season.Result) any { return s.LockedOutHours }),
	), groundColumns()...), Rows: eachSeason}
}

func ofSeason(key, heading string, q units.Quantity, get func(*season.Result) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Quantity: q, Get: func(r Row) any { return get(r.Season) }}
}

func eachSeason(r Row, system units.System, put func(Row)) {
	eachZone(r, system, func(r Row) {
		for i := range r.Zone.Seasons {
			r.Season = &r.Zone.Seasons[i]
			r.IsChosen = isChosen(r, string(r.Season.Strategy))
			put(r)
		}
	})
}

// costs is a row for each zone, strategy and winter.
func costs() sheet {
	return sheet{Key: "cost", Name: "Results Cost", Frozen: 6, Columns: append(zoneColumns(),
		SheetColumn{Key: "strategy", Heading: "Strategy", Width: 38, Look: Chosen, Get: func(r Row) any { return r.Cost.Strategy }},
		SheetColumn{Key: "winter", Heading: "Winter", Width: 9, Get: func(r Row) any { return string(r.Cost.Winter) }},
		SheetColumn{Key: "chosen", Heading: "Chosen", Width: 9, Get: chosen},
		SheetColumn{Key: "heat", Heading: "Heat", Quantity: units.Energy, Get: func(r Row) any { return r.Cost.HeatKWh }},
		SheetColumn{Key: "energy-id", Heading: "Energy ID", Width: 12, Get: func(r Row) any { return r.Zone.Zone.Heat.EnergyID }},
		SheetColumn{Key: "fuel", Heading: "Energy bought", Quantity: units.Number, Get: func(r Row) any { return r.Cost.FuelUnits }},
		SheetColumn{Key: "fuel-unit", Heading: "Unit bought", Width: 10, Get: func(r Row) any { return r.Zone.Tariff.Unit }},
		SheetColumn{Key: "peak", Heading: "Peak", Quantity: units.ElectricPower, Get: func(r Row) any { return r.Cost.PeakKW * kilowatt }},
		SheetColumn{Key: "pump-electricity", Heading: "Electricity of the pump", Quantity: units.Energy, Get: func(r Row) any { return known(r.Cost.Pumps.PowerW > 0, r.Cost.Pumps.KWh) }},
		money("energy", "Energy", func(y *cost.Year) units.Maybe[cost.Money] { return y.Energy }),
		money("demand", "Demand", func(y *cost.Year) units.Maybe[cost.Money] { return y.Demand }),
		money("standing", "Standing charge", func(y *cost.Year) units.Maybe[cost.Money] { return y.Standing }),
		money("pump", "Pump", func(y *cost.Year) units.Maybe[cost.Money] { return y.Pump }),
		money("total", "Total", func(y *cost.Year) units.Maybe[cost.Money] { return y.Total }),
		SheetColumn{Key: "co2", Heading: "CO2", Quantity: units.Mass, Get: func(r Row) any { return r.Cost.CO2Kg }},
		SheetColumn{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Site.Summary.ExamplePrices) }},
	), Rows: eachCost}
}

const kilowatt = 1000 // W: the base unit of a power

func money(key, heading string, get func(*cost.Year) units.Maybe[cost.Money]) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Look: Money, Get: func(r Row) any { return get(r.Cost) }}
}

func eachCost(r Row, system units.System, put func(Row)) {
	eachZone(r, system, func(r Row) {
		for i := range r.Zone.Costs {
			r.Cost = &r.Zone.Costs[i]
			r.IsChosen = isChosen(r, r.Cost.Strategy)
			put(r)
		}
	})
}

func isChosen(r Row, strategy string) bool {
	return r.Zone.Sensing != nil && r.Zone.Sensing.Strategy == strategy
}

func chosen(r Row) any {
	if !r.IsChosen {
		return nil
	}
	return r.Words.Say("chosen")
}
