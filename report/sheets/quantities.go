package sheets

import (
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// taken is a line of what an alternative costs: once, or every year.
type taken struct {
	cost.Line
	yearly bool
}

// quantities is a row for each line of what the alternatives cost.
func quantities() sheet {
	return sheet{Key: "quantities", Name: "Results Quantities", Frozen: 5, Columns: append(siteColumns(),
		ofTaken("zone", "Zone ID", 9, func(_ Row, l taken) any { return l.Zone }),
		SheetColumn{Key: "alternative", Heading: "Alternative", Width: 30, Get: func(r Row) any { return r.Alternative.Name }},
		ofTaken("item", "Item", 26, func(_ Row, l taken) any { return l.Item }),
		ofTaken("paid", "Paid", 9, func(r Row, l taken) any { return r.Words.Say(paidWord[l.yearly]) }),
		SheetColumn{Key: "quantity", Heading: "Quantity", Quantity: units.Number, Get: func(r Row) any { return r.Taken.Quantity }},
		ofTaken("unit", "Unit", 12, func(_ Row, l taken) any { return l.Unit }),
		SheetColumn{Key: "unit-cost", Heading: "Unit cost", Quantity: units.Number, Get: func(r Row) any { return r.Taken.UnitCost }},
		ofTaken("unit-cost-currency", "Currency of the unit cost", 12, func(_ Row, l taken) any { return currencyOf(l) }),
		SheetColumn{Key: "amount", Heading: "Amount", Look: Money, Get: func(r Row) any { return r.Taken.Amount }},
		ofTaken("uncounted", "Not counted", 36, func(r Row, l taken) any { return uncounted(r, l) }),
		ofTaken("quantity-from", "Quantity from", 46, func(r Row, l taken) any { return quantityFrom(r, l) }),
		ofTaken("cost-from", "Unit cost from", 16, func(r Row, l taken) any { return costFrom(r, l) }),
		SheetColumn{Key: "life", Heading: "Replaced after", Quantity: units.Years, Get: func(r Row) any { return r.Taken.LifeYears }},
		SheetColumn{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Taken.Example) }},
	), Rows: eachTaken}
}

func ofTaken(key, heading string, width float64, get func(Row, taken) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Width: width, Get: func(r Row) any { return get(r, r.Taken) }}
}

// eachTaken hands over the lines of the first cost of each alternative, then those of its yearly care.
func eachTaken(r Row, system units.System, put func(Row)) {
	eachAlternative(r, system, func(r Row) {
		for _, l := range r.Alternative.Lines {
			r.Taken = taken{Line: l}
			put(r)
		}
		for _, c := range r.Alternative.Cares {
			r.Taken = taken{yearly: true, Line: cost.Line{Item: c.Item, Unit: c.Unit, Quantity: c.Quantity, UnitCost: c.UnitCost, Currency: c.Currency, Amount: c.Amount, CostFrom: cost.FromCosts,
				CostAt: c.At, Example: c.Example}}
			put(r)
		}
	})
}

// paidWord is the code of how often a line is paid.
var paidWord = map[bool]string{false: "paid-once", true: "paid-yearly"}

func uncounted(r Row, l taken) any {
	switch {
	case l.Uncounted != cost.Counted:
		return r.Words.Say("uncounted-" + string(l.Uncounted))
	case l.Blank():
		return r.Words.Say("uncounted-no-unit-cost")
	}
	return nil
}

func quantityFrom(r Row, l taken) any {
	if l.QuantityFrom == "" {
		return r.Words.Say("quantity-care")
	}
	return r.Words.Say(l.QuantityFrom)
}

// costFrom names the sheet of a unit cost, and its cell where it has one.
func costFrom(_ Row, l taken) any {
	return strings.TrimSpace(sheetOf(l.CostAt, l.CostFrom) + " " + l.CostAt.Ref)
}

func sheetOf(at finding.Cell, otherwise string) string {
	if at.Sheet != "" {
		return at.Sheet
	}
	return otherwise
}

func currencyOf(l taken) any {
	if !l.UnitCost.Known {
		return nil
	}
	return l.Currency
}
