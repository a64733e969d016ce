package sheets

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// alternatives has a row for each way of doing a site, the base case first.
func alternatives() sheet {
	return sheet{Key: "alternatives", Name: "Results Alternatives", Frozen: 3, Columns: append(siteColumns(),
		SheetColumn{Key: "alternative", Heading: "Alternative", Width: 40, Get: func(r Row) any { return r.Alternative.Name }},
		SheetColumn{Key: "rank", Heading: "Rank", Quantity: units.Count, Get: func(r Row) any { return known(r.Alternative.Rank > 0, float64(r.Alternative.Rank)) }},
		ofAlternative("first-cost", "First cost", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] { return a.FirstCost }),
		ofAlternative("yearly-mild", "Yearly cost, mild winter", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] { return a.Years[0].Total }),
		ofAlternative("yearly-typical", "Yearly cost, typical winter", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] { return a.Years[1].Total }),
		ofAlternative("yearly-severe", "Yearly cost, severe winter", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] { return a.Years[2].Total }),
		ofAlternative("present-value", "Present value", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] {
			return units.Maybe[cost.Money]{Value: a.Life.Value.Total, Known: a.Life.Known}
		}),
		ofAlternative("net-savings", "Net savings", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] {
			return units.Maybe[cost.Money]{Value: a.Savings.Value.Net, Known: a.Savings.Known}
		}),
		SheetColumn{Key: "sir", Heading: "Savings-to-investment ratio", Quantity: units.Factor, Get: func(r Row) any { return r.Alternative.Savings.Value.SIR }},
		SheetColumn{Key: "simple-payback", Heading: "Simple payback", Quantity: units.Years, Get: func(r Row) any { return r.Alternative.Savings.Value.SimpleY }},
		SheetColumn{Key: "discounted-payback", Heading: "Discounted payback", Quantity: units.Years, Get: func(r Row) any { return r.Alternative.Savings.Value.DiscountedY }},
		SheetColumn{Key: "lost", Heading: "Wanted functions that it lacks", Quantity: units.Count, Get: func(r Row) any { return float64(len(r.Alternative.Lost)) }},
		SheetColumn{Key: "proposed", Heading: "Proposed here", Width: 30, Get: func(r Row) any {
			if r.Alternative.Proposed {
				return r.Words.Say("proposed-here")
			}
			return nil
		}},
		SheetColumn{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Site.Summary.ExamplePrices) }},
	), Rows: eachAlternative}
}

func ofAlternative(key, heading string, get func(*calc.AlternativeOutcome) units.Maybe[cost.Money]) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Look: Money, Get: func(r Row) any { return get(r.Alternative) }}
}

func eachAlternative(r Row, _ units.System, put func(Row)) {
	for i := range r.Site.Alternatives {
		r.Alternative = &r.Site.Alternatives[i]
		put(r)
	}
}
