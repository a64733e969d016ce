package cost

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	fromSheet = "Energy sheet"
	fromPlant = "season of the strategy, area and edge"
	byRule    = "engineering method, section 7"
)

// Steps tells how the year came about: what was bought, at what price, and how charges that zones share were parted. Amounts in the main unit of
// Year.Currency; a blank amount has no step.
func (y Year) Steps(e Energy) []trace.Step {
	list := []trace.Step{
		{Symbol: "strategy", Name: "strategy", Quantity: units.Text, Text: y.Strategy},
		{Symbol: "winter", Name: "winter", Quantity: units.Text, Text: string(y.Winter)},
		{Symbol: "Q", Name: "heat into the pavement", Value: y.HeatKWh, Quantity: units.Energy, Source: fromPlant},
		{Symbol: "η", Name: "plant efficiency", Value: e.Efficiency, Quantity: units.Factor, Source: fromSheet},
		{Symbol: "H", Name: "heat content of a unit, kWh", Value: e.HeatKWh, Quantity: units.Number, Source: fromSheet},
		{Symbol: "U", Name: "units bought, " + e.Unit, Value: y.FuelUnits, Quantity: units.Number, Equation: "U = Q / η / H", Source: byRule, From: []string{"Q", "η", "H"}},
		{Symbol: "P", Name: "greatest monthly peak", Value: y.PeakKW * 1000, Quantity: units.ElectricPower, Source: fromPlant},
	}
	if y.CO2Kg.Known {
		list = append(list,
			trace.Step{Symbol: "c", Name: "CO2 of a unit, kg", Value: e.CO2KgUnit.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "CO2", Name: "CO2", Value: y.CO2Kg.Value, Quantity: units.Mass, Equation: "CO2 = U c", Source: byRule, From: []string{"U", "c"}})
	}
	if !y.Total.Known {
		return list
	}
	return append(append(append(list, y.energySteps(e)...), y.sharedSteps(e)...), y.sumSteps()...)
}

// energySteps tells of the price and of what the zone pays by it.
func (y Year) energySteps(e Energy) []trace.Step {
	list := []trace.Step{
		{Symbol: "p", Name: "price of a unit, " + e.Currency, Value: e.Price.Value, Quantity: units.Number, Source: fromSheet},
		{Symbol: "w", Name: "worth of one " + e.Currency + " in " + y.Currency, Value: y.Worth, Quantity: units.Number, Source: "Settings sheet"},
		y.money("K_e", "energy", y.Energy, "K_e = U p w", "U", "p", "w"),
	}
	if y.Pump.Known {
		list = append(list, y.money("K_p", "pump energy", y.Pump, "K_p = pump kWh / H p w", "H", "p", "w"))
	}
	return list
}

// sharedSteps tells of the charges of the group and of the zone's part.
func (y Year) sharedSteps(e Energy) []trace.Step {
	g := y.Group
	var list []trace.Step
	if y.Demand.Known {
		list = append(list,
			trace.Step{Symbol: "d", Name: "demand charge per kW and month, " + e.Currency, Value: e.DemandKWMonth.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "ΣP", Name: "kW bought at the months' peaks, all zones of the site", Value: g.KWMonths, Quantity: units.Number, Equation: "ΣP = Σ months Σ zones P / η", Source: byRule, From: []string{"η"}},
			trace.Step{Symbol: "ΣP_z", Name: "kW bought at the months' peaks, this zone", Value: g.ZoneKWMonths, Quantity: units.Number, Equation: "ΣP_z = Σ months P / η", Source: byRule, From: []string{"η"}},
			y.money("D", "demand charge of the site", g.Demand, "D = d ΣP w", "d", "ΣP", "w"),
			y.money("K_d", "demand", y.Demand, "K_d = D ΣP_z/ΣP, rest by largest remainder", "D", "ΣP_z", "ΣP"))
	}
	if y.Standing.Known {
		list = append(list,
			trace.Step{Symbol: "s", Name: "standing charge a month, " + e.Currency, Value: e.StandingMonth.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "n", Name: "billing months", Value: e.BillingMonths, Quantity: units.Months, Source: fromSheet},
			trace.Step{Symbol: "ΣA", Name: "area, all zones of the site", Value: g.AreaM2, Quantity: units.Area, Source: fromPlant},
			trace.Step{Symbol: "A", Name: "area, this zone", Value: g.ZoneAreaM2, Quantity: units.Area, Source: fromPlant},
			y.money("S", "standing charge of the site", g.Standing, "S = s n w; 0 without a plant", "s", "n", "w"),
			y.money("K_s", "standing charge", y.Standing, "K_s = S A/ΣA, rest by largest remainder", "S", "A", "ΣA"))
	}
	return list
}

// sumSteps tells of the total.
func (y Year) sumSteps() []trace.Step {
	from := []string{"K_e"}
	for _, part := range []struct {
		symbol string
		amount units.Maybe[Money]
	}{{"K_d", y.Demand}, {"K_s", y.Standing}, {"K_p", y.Pump}} {
		if part.amount.Known {
			from = append(from, part.symbol)
		}
	}
	return []trace.Step{y.money("K", "cost of the winter", y.Total, "K = K_e + K_d + K_s + K_p, what is known of them", from...)}
}

func (y Year) money(symbol, name string, m units.Maybe[Money], equation string, from ...string) trace.Step {
	return trace.Step{Symbol: symbol, Name: name + ", " + y.Currency, Value: m.Value.Main(y.Currency), Quantity: units.Number, Equation: equation, Source: byRule, From: from}
}
