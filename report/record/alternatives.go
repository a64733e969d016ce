package record

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// alternative is an alternative of a site as the record holds it: yearly cost in a typical winter, paybacks against the base case.
func (m maker) alternative(site string, a calc.AlternativeOutcome) Alternative {
	out := Alternative{Site: site, Alternative: a.Name, FirstCost: m.amount(a.FirstCost), YearlyCost: m.amount(a.Years[1].Total), Rank: a.Rank, BaseCase: a.Base, Proposed: a.Proposed}
	if a.Life.Known {
		out.PresentValue = m.amount(units.Some(a.Life.Value.Total))
	} else {
		out.PresentValue = m.amount(units.Maybe[cost.Money]{})
	}
	if s := a.Savings; s.Known {
		out.SimplePaybackY, out.DiscountedPaybackY, out.SavingsToInvestment = Number{s.Value.SimpleY}, Number{s.Value.DiscountedY}, Number{s.Value.SIR}
	}
	return out
}
