package columns

import (
	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// Costs returns the columns of Costs. A row is the unit cost of an item.
func Costs() []Column[cost.UnitCost] {
	return sheetOf(SheetCosts, []Column[cost.UnitCost]{
		{Field: "cost_item", Heading: "Item", Aliases: []string{"Cost item", "Description"}, Required: true, Help: "What is bought or done.", At: func(c *cost.UnitCost) any { return &c.Item }},
		{Field: "cost_unit", Heading: "Unit", Aliases: []string{"Per"}, Required: true, Help: "What one of it is: m, m², piece, kW. A yearly cost ends in year: year, zone year, m² year, % year (of the first cost).", At: func(c *cost.UnitCost) any { return &c.Unit }},
		{Field: "cost_amount", Heading: "Unit cost", Aliases: []string{"Cost", "Price", "Cost per unit"}, Quantity: units.Number, Max: Most, Money: true, Help: "Blank: the quantity is given and money stays empty.", At: func(c *cost.UnitCost) any { return &c.Cost }},
		{Field: "cost_life", Heading: "Life", Aliases: []string{"Service life", "Lasts"}, Quantity: units.Years, Min: 1, Max: 100, Help: "Years until it is replaced. Blank: it lasts as long as the study.", At: func(c *cost.UnitCost) any { return &c.LifeYears }},
		{Field: "cost_currency", Heading: "Currency", Help: "Blank: the workbook's.", At: func(c *cost.UnitCost) any { return &c.Currency }},
		{Field: "cost_price_status", Heading: "Price status", Choices: priceStatus, Default: "own", Help: "example: edit me.", At: func(c *cost.UnitCost) any { return &c.Example }},
	})
}
