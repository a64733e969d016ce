package cost

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	fromSheet = "Energy sheet"
	fromPlant = "winter of the strategy by its rank of cost, area and edge"
	byRule    = "bill of a site: units times price, charges shared over its zones"
)

// Steps tells how the year came about: what was bought, at what price, and how charges that zones share were parted. Amounts in the main unit of
// Year.Currency; a blank amount has no step.
func (y Year) Steps(e Energy) []trace.Step {
	list := []trace.Step{
		{Group: "cost", Symbol: "strategy billed", Name: "strategy", Text: y.Strategy, Source: fromPlant},
		{Symbol: "winter", Name: "winter", Text: string(y.Winter), Source: fromPlant},
		{Symbol: "E_heat", Name: "heat into the pavement", Value: y.HeatKWh, Quantity: units.Energy, Source: fromPlant},
		{Symbol: "η", Name: "plant efficiency", Value: e.Efficiency, Quantity: units.Factor, Source: fromSheet},
		{Symbol: "H", Name: "heat content of a unit, kWh", Value: e.HeatKWh, Quantity: units.Number, Source: fromSheet},
		{Symbol: "U", Name: "units bought, " + e.Unit, Value: y.FuelUnits, Quantity: units.Number, Equation: "U = E_heat / η / H", Source: byRule, From: []string{"E_heat", "η", "H"}},
		{Symbol: "P_peak", Name: "greatest monthly peak", Value: units.ElectricPower.In(units.SI).ToBase(y.PeakKW), Quantity: units.ElectricPower, Source: fromPlant},
	}
	if y.CO2Kg.Known {
		list = append(list,
			trace.Step{Symbol: "c_CO2", Name: "CO2 of a unit, kg", Value: e.CO2KgUnit.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "CO2", Name: "CO2", Value: y.CO2Kg.Value, Quantity: units.Mass, Equation: "CO2 = U c_CO2", Source: byRule, From: []string{"U", "c_CO2"}})
	}
	if !y.Total.Known {
		return list
	}
	return append(append(append(list, y.energySteps(e)...), y.sharedSteps(e)...), y.sumSteps()...)
}

// energySteps tells of the price and of what the zone pays by it.
func (y Year) energySteps(e Energy) []trace.Step {
	list := []trace.Step{
		{Symbol: "p_unit", Name: "price of a unit, " + e.Currency, Value: e.Price.Value, Quantity: units.Number, Source: fromSheet},
		{Symbol: "w_rate", Name: "worth of one " + e.Currency + " in " + y.Currency, Value: y.Worth, Quantity: units.Number, Source: "Settings sheet"},
		y.money("K_e", "energy", y.Energy, "K_e = U p_unit w_rate", "U", "p_unit", "w_rate"),
	}
	if y.Pump.Known {
		list = append(list, y.money("K_p", "pump energy", y.Pump, "K_p = pump kWh / H p_unit w_rate", "H", "p_unit", "w_rate"))
	}
	return list
}

// sharedSteps tells of the charges of the group and of the zone's part.
func (y Year) sharedSteps(e Energy) []trace.Step {
	g := y.Group
	var list []trace.Step
	if y.Demand.Known || y.Standing.Known {
		list = append(list, trace.Step{Symbol: "n_zones", Name: "zones of the site on this bill", Value: float64(g.Zones), Quantity: units.Count, Source: fromPlant})
	}
	if y.Demand.Known {
		list = append(list,
			trace.Step{Symbol: "d_kW", Name: "demand charge per kW and month, " + e.Currency, Value: e.DemandKWMonth.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "ΣP", Name: "kW bought at the months' peaks, all zones of the site", Value: g.KWMonths, Quantity: units.Number, Equation: "ΣP = Σ months Σ zones peak / η", Source: byRule, From: []string{"η"}},
			trace.Step{Symbol: "ΣP_z", Name: "kW bought at the months' peaks, this zone", Value: g.ZoneKWMonths, Quantity: units.Number, Equation: "ΣP_z = Σ months peak / η", Source: byRule, From: []string{"η"}},
			y.money("D_site", "demand charge of the site", g.Demand, "D_site = d_kW ΣP w_rate", "d_kW", "ΣP", "w_rate"),
			y.money("K_d", "demand", y.Demand, "K_d = D_site ΣP_z/ΣP, rest by largest remainder", "D_site", "ΣP_z", "ΣP"))
	}
	if y.Standing.Known {
		list = append(list,
			trace.Step{Symbol: "s_month", Name: "standing charge a month, " + e.Currency, Value: e.StandingMonth.Value, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "n_months", Name: "billing months", Value: e.BillingMonths, Quantity: units.Months, Source: fromSheet},
			trace.Step{Symbol: "ΣA", Name: "area, all zones of the site", Value: g.AreaM2, Quantity: units.Area, Source: fromPlant},
			trace.Step{Symbol: "A_zone", Name: "area, this zone", Value: g.ZoneAreaM2, Quantity: units.Area, Source: fromPlant},
			y.money("S_site", "standing charge of the site", g.Standing, "S_site = s_month n_months w_rate; 0 without a plant", "s_month", "n_months", "w_rate"),
			y.money("K_s", "standing charge", y.Standing, "K_s = S_site A_zone/ΣA, rest by largest remainder", "S_site", "A_zone", "ΣA"))
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
