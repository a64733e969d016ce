package sheets

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
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
		ofAlternative("clearing", "Of it clearing, typical winter", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] { return a.Years[1].Clearing }),
		ofAlternative("present-value", "Present value", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] {
			return units.Maybe[cost.Money]{Value: a.Life.Value.Total, Known: a.Life.Known}
		}),
		ofAlternative("net-savings", "Net savings", func(a *calc.AlternativeOutcome) units.Maybe[cost.Money] {
			return units.Maybe[cost.Money]{Value: a.Savings.Value.Net, Known: a.Savings.Known}
		}),
		SheetColumn{Key: "sir", Heading: "Savings-to-investment ratio", Quantity: units.Factor, Get: func(r Row) any { return r.Alternative.Savings.Value.SIR }},
		SheetColumn{Key: "airr", Heading: "Adjusted internal rate of return", Quantity: units.Share, Get: func(r Row) any { return r.Alternative.Savings.Value.AIRR }},
		SheetColumn{Key: "simple-payback", Heading: "Simple payback", Quantity: units.Years, Get: func(r Row) any { return r.Alternative.Savings.Value.SimpleY }},
		SheetColumn{Key: "discounted-payback", Heading: "Discounted payback", Quantity: units.Years, Get: func(r Row) any { return r.Alternative.Savings.Value.DiscountedY }},
		SheetColumn{Key: "co2", Heading: "CO2 of a year, typical winter", Quantity: units.Mass, Get: func(r Row) any { return r.Alternative.Years[1].CO2Kg }},
		SheetColumn{Key: "break-even", Heading: "Break-even price of energy", Quantity: units.Factor, Get: func(r Row) any {
			return units.Maybe[float64]{Value: r.Alternative.BreakEven.Value.Price, Known: r.Alternative.BreakEven.Known}
		}},
		SheetColumn{Key: "break-even-energy", Heading: "Energy, unit and price now", Width: 26, Get: breakEvenOf},
		SheetColumn{Key: "net-low", Heading: "Net savings, least of price, winter and first cost moved", Look: Money, Get: ofSwing(func(s calc.Sensitivity) cost.Money { return min(s.NetLow, s.NetHigh) }, slices.Min[[]cost.Money])},
		SheetColumn{Key: "net-high", Heading: "Net savings, greatest of them", Look: Money, Get: ofSwing(func(s calc.Sensitivity) cost.Money { return max(s.NetLow, s.NetHigh) }, slices.Max[[]cost.Money])},
		SheetColumn{Key: "lost", Heading: "Wanted functions that it lacks", Quantity: units.Count, Get: func(r Row) any { return float64(len(r.Alternative.Lost)) }},
		SheetColumn{Key: "lacks", Heading: "What it lacks", Width: 50, Look: Wrapped, Get: lacks},
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

// breakEvenOf tells which energy a break-even price is of, and what it costs now.
func breakEvenOf(r Row) any {
	b := r.Alternative.BreakEven
	if !b.Known {
		return nil
	}
	return r.Words.Say("break-even-of", finding.Words("energy", b.Value.EnergyID), finding.Words("unit", b.Value.Currency+"/"+b.Value.Unit), finding.Words("now", r.Words.Show.Digits(b.Value.Now, 3)))
}

// ofSwing takes an end of each sensitivity and picks one of them.
func ofSwing(end func(calc.Sensitivity) cost.Money, pick func([]cost.Money) cost.Money) func(Row) any {
	return func(r Row) any {
		var ends []cost.Money
		for _, s := range r.Alternative.Sensitivity {
			ends = append(ends, end(s))
		}
		if len(ends) == 0 {
			return nil
		}
		return units.Some(pick(ends))
	}
}

// lacks tells the functions that were wanted in a zone and are not there.
func lacks(r Row) any {
	var lines []string
	for _, l := range r.Alternative.Lost {
		lines = append(lines, l.Zone+": "+report.Lacks(r.Words, l.Code))
	}
	return strings.Join(lines, "\n")
}

func eachAlternative(r Row, _ units.System, put func(Row)) {
	for i := range r.Site.Alternatives {
		r.Alternative = &r.Site.Alternatives[i]
		put(r)
	}
}
