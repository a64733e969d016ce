package columns

import (
	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// What a carrier may be.
const (
	Gas         = "gas"
	Oil         = "oil"
	Propane     = "propane"
	Electricity = "electricity"
	District    = "district heat"
	Other       = "other"
)

// EfficiencyDefaults is the plant efficiency by carrier where none is told. Judgement; propane as gas. Another carrier has none.
var EfficiencyDefaults = map[string]float64{Gas: 0.85, Oil: 0.83, Propane: 0.85, Electricity: 1, District: 0.98}

var priceStatus = []string{"own", "example"} // the places of false and true

// Energy returns the columns of Energy. A row is a carrier at a price.
func Energy() []Column[cost.Energy] {
	return sheetOf(SheetEnergy, []Column[cost.Energy]{
		{Field: "energy_row", Heading: "Energy ID", Aliases: []string{"ID", "Energy"}, Required: true, Help: "The name that Sites uses.", At: func(e *cost.Energy) any { return &e.ID }},
		{Field: "energy_carrier", Heading: "Carrier", Aliases: []string{"Fuel", "Energy carrier"}, Required: true, Choices: []string{Gas, Oil, Propane, Electricity, District, Other},
			Synonyms: map[string]string{"naturalgas": Gas, "heatingoil": Oil, "fueloil": Oil, "lpg": Propane, "electric": Electricity, "power": Electricity, "district": District, "steam": District},
			Help:     "What is bought.", At: func(e *cost.Energy) any { return &e.Carrier }},
		{Field: "energy_unit", Heading: "Unit", Aliases: []string{"Sold in"}, Required: true, Help: "As it is sold: kWh, m³, therm, L, gal.", At: func(e *cost.Energy) any { return &e.Unit }},
		{Field: "energy_price", Heading: "Price per unit", Aliases: []string{"Price", "Unit price"}, Quantity: units.Number, Max: Most, Money: true, Help: "Blank: energy is given and money stays empty.", At: func(e *cost.Energy) any { return &e.Price }},
		{Field: "energy_tier", Heading: "Units a month at that price", Aliases: []string{"First tier", "Tier limit"}, Quantity: units.Number, Max: Most, Help: "Of the bill of a site. Blank: one price.", At: func(e *cost.Energy) any { return &e.TierUnits }},
		{Field: "energy_tier_price", Heading: "Price per unit beyond them", Aliases: []string{"Second tier price", "Tier price"}, Quantity: units.Number, Max: Most, Money: true, Help: "Goes with Units a month at that price.", At: func(e *cost.Energy) any { return &e.TierPrice }},
		{Field: "energy_heat_content", Heading: "Heat content per unit", Aliases: []string{"Heat content", "Heat content (gross)", "Calorific value"}, Quantity: units.Energy, Min: 0.01, Max: 1e5,
			Help: "Gross (upper) heat content of one unit. Blank is enough where the unit is itself one of energy.", At: func(e *cost.Energy) any { return &e.HeatKWh }},
		{Field: "energy_efficiency", Heading: "Plant efficiency", Aliases: []string{"Efficiency", "Boiler efficiency", "COP"}, Quantity: units.Factor, Min: 0.3, Max: 6, PercentAbove: 6,
			Help: "Heat out over gross heat in, over the season; a heat pump is above 100 %. Blank: by carrier.", At: func(e *cost.Energy) any { return &e.Efficiency }},
		{Field: "energy_standing", Heading: "Standing charge a month", Aliases: []string{"Standing charge", "Fixed charge"}, Quantity: units.Number, Max: Most, Money: true, Help: "Shared by the zones of a site that use this row.", At: func(e *cost.Energy) any { return &e.StandingMonth }},
		{Field: "energy_demand", Heading: "Demand charge per kW and month", Aliases: []string{"Demand charge", "Demand charge per kW"}, Quantity: units.Number, Max: Most, Money: true, Help: "On the highest demand of each month.", At: func(e *cost.Energy) any { return &e.DemandKWMonth }},
		{Field: "energy_billing_months", Heading: "Billing months", Quantity: units.Count, Min: 1, Max: 12, Default: "12", DefaultSource: "billing-whole-year", Help: "Months of a year in which the standing charge is due.", At: func(e *cost.Energy) any { return &e.BillingMonths }},
		{Field: "energy_co2", Heading: "CO2 per unit", Aliases: []string{"CO2", "Emissions per unit"}, Quantity: units.Mass, Max: 1e4, Help: "Of one unit sold.", At: func(e *cost.Energy) any { return &e.CO2KgUnit }},
		{Field: "energy_price_escalation", Heading: "Escalation", Aliases: []string{"Price escalation"}, Quantity: units.Share, Max: 0.15, PercentAbove: 1, Help: "Of its price a year, above inflation; nominal where General inflation is given in Settings. Blank: Energy escalation in Settings.", At: func(e *cost.Energy) any { return &e.Escalation }},
		{Field: "energy_currency", Heading: "Currency", Help: "Blank: the workbook's. Another one needs its rate in Settings.", At: func(e *cost.Energy) any { return &e.Currency }},
		{Field: "energy_price_status", Heading: "Price status", Choices: priceStatus, Default: "own", Help: "example: made up for the starter or the demo; every page with money then says so.", At: func(e *cost.Energy) any { return &e.Example }},
	})
}
