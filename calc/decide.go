package calc

import (
	"cmp"
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
)

// decide finds the alternative that the owner chose and what the decision makes of the budget. A site counts as it is now until an alternative is
// approved; approved without a name is the site as in Sites.
func (s *Summary) decide(so SiteOutcome) []finding.Finding {
	found := s.choose(so)
	list := so.Alternatives
	if len(list) == 0 {
		return found
	}
	for _, a := range list {
		s.Alternatives = append(s.Alternatives, a.Option())
		s.Proposed = s.Proposed || a.Proposed
		s.ExamplePrices = s.ExamplePrices || a.example()
	}
	s.Now = s.Alternatives[0].Yearly
	s.Budget, s.Spend = s.Now, units.Some(cost.Money(0))
	if s.Decision != portfolio.Approved {
		return found
	}
	name := cmp.Or(s.Chosen, NameAsInSites)
	for _, o := range s.Alternatives {
		if o.Name == name {
			s.Budget, s.Spend = o.Yearly, o.FirstCost
		}
	}
	return found
}

// choose takes the choice and the decision that the zones tell: the first that is told, with a warning where another zone tells another.
func (s *Summary) choose(so SiteOutcome) []finding.Finding {
	var found []finding.Finding
	tell := func(z Zone, code finding.Code, field finding.Field, args ...finding.Arg) {
		f := finding.New(finding.Warning, code, field, args...)
		f.Site, f.Zone = z.Ref.SiteID, z.Ref.ZoneID
		found = append(found, f)
	}
	for _, o := range so.Outcomes {
		m := o.Zone.Money
		for _, c := range []struct {
			told string
			into *string
			at   finding.Field
		}{{canonical(so.Alternatives, m.ChosenAlternative), &s.Chosen, "chosen_alternative"}, {m.Decision, &s.Decision, "decision"}} {
			switch {
			case c.told == "":
			case *c.into == "":
				*c.into = c.told
			case *c.into != c.told:
				tell(o.Zone, CodeChoicesDiffer, c.at, finding.Words("typed", c.told), finding.Words("taken", *c.into))
			}
		}
		if m.ChosenAlternative != "" && canonical(so.Alternatives, m.ChosenAlternative) == "" && len(so.Alternatives) > 0 {
			tell(o.Zone, CodeAlternativeUnknown, "chosen_alternative", finding.Words("typed", m.ChosenAlternative), finding.Words("names", alternativeNames(so.Alternatives)))
		}
	}
	return found
}

// canonical returns an alternative's own name for a name as typed; "" where there is none.
func canonical(list []AlternativeOutcome, typed string) string {
	for _, a := range list {
		if fold(a.Name) == fold(typed) {
			return a.Name
		}
	}
	return ""
}

func alternativeNames(list []AlternativeOutcome) string {
	var all []string
	for _, a := range list {
		all = append(all, a.Name)
	}
	return strings.Join(all, ", ")
}

// Option returns what a portfolio needs of the alternative.
func (a AlternativeOutcome) Option() portfolio.Option {
	o := portfolio.Option{Name: a.Name, Base: a.Base, AsInSites: a.AsInSites, Proposed: a.Proposed, FirstCost: a.FirstCost, Lost: len(a.Lost) > 0, Rank: a.Rank}
	if a.Err != nil {
		o.FirstCost = units.Maybe[cost.Money]{}
	}
	for w, y := range a.Years {
		o.Yearly[w] = y.Total
	}
	if a.Life.Known {
		o.PresentValue = units.Some(a.Life.Value.Total)
	}
	if s := a.Savings; s.Known {
		o.NetSavings, o.SIR, o.AIRR = units.Some(s.Value.Net), s.Value.SIR, s.Value.AIRR
		o.SimpleY, o.DiscountedY = s.Value.SimpleY, s.Value.DiscountedY
	}
	return o
}

// example says whether an example price is in it.
func (a AlternativeOutcome) example() bool {
	for _, l := range a.Lines {
		if l.Example && l.Amount.Known && l.Uncounted == cost.Counted {
			return true
		}
	}
	for _, c := range a.Cares {
		if c.Example && c.Amount.Known {
			return true
		}
	}
	for _, z := range a.Zones {
		if z.Billed && (z.Tariff.Example || z.PumpTariff.Example && z.Years[1].Pump.Known) {
			return true
		}
	}
	return false
}

// Portfolio returns the site as a portfolio takes it; false where nothing of it is included.
func (s Summary) Portfolio() (portfolio.Site, bool) {
	return portfolio.Site{ID: s.SiteID, Name: s.SiteName, Region: s.Region, Owner: s.Owner, Zones: s.Zones, AreaM2: s.AreaM2.Or(0), TotalW: s.TotalW, Design: s.Winter, Recorded: s.Recorded,
		Now: s.Now, Budget: s.Budget, Spend: s.Spend, Decision: s.Decision, Chosen: s.Chosen, Options: s.Alternatives, Example: s.ExamplePrices, Proposed: s.Proposed, Unwintered: s.Unwintered}, s.Status != NotIncluded
}

// comparisonFindings tells what keeps the alternatives from being compared: each thing once a site, at the first zone.
func comparisonFindings(so SiteOutcome) []finding.Finding {
	if len(so.Alternatives) == 0 {
		return nil
	}
	var list []finding.Finding
	tell := func(z Zone, code finding.Code, field finding.Field, args ...finding.Arg) {
		f := finding.New(finding.Info, code, field, args...)
		f.Site, f.Zone = z.Ref.SiteID, z.Ref.ZoneID
		list = append(list, f)
	}
	for _, o := range so.Outcomes {
		if !o.Zone.Money.ClearingCost.Known {
			tell(o.Zone, CodeClearingNotTold, "clearing_cost")
			break
		}
	}
	for _, o := range so.Outcomes {
		if o.Zone.Slab.Stage == ExistingHeated && o.Zone.Sensing.ControlNow == "" {
			tell(o.Zone, CodeControlNotTold, "control_now", finding.Words("strategy", string(o.strategyNow())))
			break
		}
	}
	if items := unpriced(so.Alternatives); items != "" {
		tell(so.Outcomes[0].Zone, CodeNoUnitCost, "cost_amount", finding.Words("items", items))
	}
	return list
}

// unpriced lists the items without a unit cost.
func unpriced(list []AlternativeOutcome) string {
	var items []string
	had := map[string]bool{}
	for _, a := range list {
		for _, l := range a.Lines {
			if l.Blank() && l.Item != cost.Contingency && !had[l.Item] {
				had[l.Item] = true
				items = append(items, l.Item)
			}
		}
	}
	return strings.Join(items, ", ")
}

// alternativeFindings is what was found about alternatives: what keeps them from being compared, and of the zones that the user named what was not
// found of the same zone as in Sites.
func alternativeFindings(so SiteOutcome) []finding.Finding {
	list := comparisonFindings(so)
	for _, a := range so.Alternatives {
		if a.Proposed || a.Base || a.AsInSites {
			continue
		}
		for i, z := range a.Zones {
			list = append(list, z.Outcome.unlike(so.Outcomes[i].Findings)...)
		}
	}
	return list
}

// unlike returns what is wrong with a zone of an alternative that was not found of the same zone as in Sites, at the cell of Alternatives where the
// field was typed there.
func (o Outcome) unlike(known []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for _, f := range o.Findings {
		f.Site, f.Zone, f.At = o.Zone.Ref.SiteID, o.Zone.Ref.ZoneID, o.Zone.typedAt(f.Field)
		same := func(other finding.Finding) bool {
			return other.Code == f.Code && other.Field == f.Field && other.Zone == f.Zone
		}
		if f.Severity <= finding.Warning && !slices.ContainsFunc(known, same) {
			list = append(list, f)
		}
	}
	return list
}

// typedAt returns the cell of Alternatives in which a field was typed; none where it was typed in Sites.
func (z Zone) typedAt(f finding.Field) finding.Cell {
	for _, entry := range z.Ref.Entries {
		if entry.Field == f {
			return entry.At
		}
	}
	return finding.Cell{}
}
