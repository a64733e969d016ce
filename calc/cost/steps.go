package cost

import (
	"cmp"

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
func (y Year) Steps(e, pumps Energy) []trace.Step {
	list := []trace.Step{
		{Group: "cost", Symbol: "strategy billed", Name: "strategy", Text: y.Strategy, Source: fromPlant},
		{Symbol: "winter", Name: "winter", Text: string(y.Winter), Source: fromPlant},
		{Symbol: "E_heat", Name: "heat into the pavement", Value: y.HeatKWh, Quantity: units.Energy, Source: fromPlant},
		{Symbol: "η", Name: "plant efficiency", Value: e.Efficiency, Quantity: units.Factor, Source: fromSheet},
		{Symbol: "H", Name: "heat content of a unit, kWh", Value: e.HeatKWh, Quantity: units.Number, Source: fromSheet},
		{Symbol: "U", Name: "units bought, " + e.Unit, Value: y.FuelUnits, Quantity: units.Number, Equation: "U = E_heat / η / H", Source: byRule, From: []string{"E_heat", "η", "H"}},
		{Symbol: "P_peak", Name: "greatest monthly peak", Value: units.ElectricPower.In(units.SI).ToBase(y.PeakKW), Quantity: units.ElectricPower, Source: fromPlant},
	}
	list = append(append(list, y.pumpSteps(pumps)...), y.carbonSteps(e, pumps)...)
	if !y.Total.Known {
		return list
	}
	list = append(list, y.energySteps(e)...)
	if y.Pump.Known {
		list = append(list, y.pumpPriceSteps(pumps)...)
	}
	return append(append(list, y.sharedSteps(e)...), y.sumSteps()...)
}

// pumpSteps tells of the electricity of the pumps.
func (y Year) pumpSteps(e Energy) []trace.Step {
	p := y.Pumps
	if p.PowerW == 0 {
		return nil
	}
	list := []trace.Step{
		{Symbol: "P_p", Name: "power of the pumps at the wire", Value: p.PowerW, Quantity: units.ElectricPower, Source: "layout of the loops"},
		{Symbol: "n_p", Name: "hours idling, melting and drying, in which they run", Value: p.Hours, Quantity: units.Hours, Source: fromPlant},
		{Symbol: "E_p", Name: "electricity of the pumps", Value: p.KWh, Quantity: units.Energy, Equation: "E_p = P_p n_p", Source: byRule, From: []string{"P_p", "n_p"}},
	}
	if e.HeatKWh > 0 {
		list = append(list,
			trace.Step{Symbol: "H_p", Name: "energy in a unit of " + e.ID + ", which the pumps use, kWh", Value: e.HeatKWh, Quantity: units.Number, Source: fromSheet},
			trace.Step{Symbol: "U_p", Name: "units bought for the pumps, " + e.Unit, Value: p.Units, Quantity: units.Number, Equation: "U_p = E_p / H_p", Source: byRule, From: []string{"E_p", "H_p"}})
	}
	return list
}

// carbonSteps tells of CO2, with that of the pumps where it is known.
func (y Year) carbonSteps(e, pumps Energy) []trace.Step {
	if !y.CO2Kg.Known {
		return nil
	}
	total := trace.Step{Symbol: "CO2", Name: "CO2", Value: y.CO2Kg.Value, Quantity: units.Mass, Equation: "CO2 = U c_CO2", Source: byRule, From: []string{"U", "c_CO2"}}
	list := []trace.Step{{Symbol: "c_CO2", Name: "CO2 of a unit, kg", Value: e.CO2KgUnit.Value, Quantity: units.Number, Source: fromSheet}}
	if y.Pumps.Units > 0 && pumps.CO2KgUnit.Known {
		list = append(list, trace.Step{Symbol: "c_p", Name: "CO2 of a unit for the pumps, kg", Value: pumps.CO2KgUnit.Value, Quantity: units.Number, Source: fromSheet})
		total.Equation, total.From = "CO2 = U c_CO2 + U_p c_p", append(total.From, "U_p", "c_p")
	}
	return append(list, total)
}

// pumpPriceSteps tells what the pumps cost.
func (y Year) pumpPriceSteps(e Energy) []trace.Step {
	return []trace.Step{
		{Symbol: "p_p", Name: "price of a unit for the pumps, " + cmp.Or(e.Currency, y.Currency), Value: e.Price.Value, Quantity: units.Number, Source: fromSheet},
		{Symbol: "w_p", Name: "worth of one " + cmp.Or(e.Currency, y.Currency) + " in " + y.Currency, Value: y.Pumps.Worth, Quantity: units.Number, Source: "Settings sheet"},
		y.money("K_p", "pump energy", y.Pump, "K_p = U_p p_p w_p", "U_p", "p_p", "w_p"),
	}
}

// energySteps tells of the price and of what the zone pays by it.
func (y Year) energySteps(e Energy) []trace.Step {
	list := []trace.Step{
		{Symbol: "p_unit", Name: "price of a unit, " + e.Currency, Value: e.Price.Value, Quantity: units.Number, Source: fromSheet},
		{Symbol: "w_rate", Name: "worth of one " + e.Currency + " in " + y.Currency, Value: y.Worth, Quantity: units.Number, Source: "Settings sheet"},
	}
	if !y.Group.Energy.Known {
		return append(list, y.money("K_e", "energy", y.Energy, "K_e = U p_unit w_rate", "U", "p_unit", "w_rate"))
	}
	g := y.Group
	return append(list,
		trace.Step{Symbol: "L_tier", Name: "units a month at that price, " + e.Unit, Value: e.TierUnits.Value, Quantity: units.Number, Source: fromSheet},
		trace.Step{Symbol: "p_above", Name: "price of a unit beyond them, " + e.Currency, Value: e.TierPrice.Value, Quantity: units.Number, Source: fromSheet},
		trace.Step{Symbol: "ΣU", Name: "units bought, all zones of the site, " + e.Unit, Value: g.Units, Quantity: units.Number, Equation: "ΣU = Σ zones U", Source: byRule, From: []string{"U"}},
		trace.Step{Symbol: "ΣU_above", Name: "of them beyond the months' first tiers, " + e.Unit, Value: g.UnitsAbove, Quantity: units.Number, Equation: "ΣU_above = Σ months max(0, Σ zones U_month − L_tier)", Source: byRule, From: []string{"L_tier"}},
		y.money("E_site", "energy of the site", g.Energy, "E_site = [(ΣU − ΣU_above) p_unit + ΣU_above p_above] w_rate", "ΣU", "ΣU_above", "p_unit", "p_above", "w_rate"),
		y.money("K_e", "energy", y.Energy, "K_e = E_site U/ΣU, rest by largest remainder", "E_site", "U", "ΣU"))
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
