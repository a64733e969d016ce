package calc

import (
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Statuses of a site on Results Summary, in the words of the sheet.
const (
	Done        = "done"
	DoneCheck   = "done, check"
	Incomplete  = "incomplete"
	Failed      = "error"
	NotIncluded = "not included"
)

// summarise keeps what is needed of a site once its documents are written.
func (e *Engine) summarise(so SiteOutcome) Summary {
	s := Summary{SiteID: so.Site.ID, SiteName: so.Site.Name, Zones: len(so.Outcomes), Revision: e.in.Settings.Revision}
	if len(so.Site.Zones) > 0 {
		s.Region, s.Owner = so.Site.Zones[0].Ref.Region, so.Site.Zones[0].Ref.Owner
	}
	var total float64
	whole := len(so.Outcomes) > 0
	amounts := [3]units.Maybe[cost.Money]{units.Some(cost.Money(0)), units.Some(cost.Money(0)), units.Some(cost.Money(0))}
	var kits []string
	for _, o := range so.Outcomes {
		s.AreaM2 += o.Zone.Extent.AreaM2
		s.count(o)
		s.Findings = append(s.Findings, o.Findings...)
		s.ExamplePrices = s.ExamplePrices || (o.Tariff.Example && len(o.Costs) > 0)
		if o.Design.TotalW.Known {
			total += o.Design.TotalW.Value
		} else if o.Zone.Slab.Stage != ExistingUnheated {
			whole = false
		}
		for i, w := range cost.Winters {
			amounts[i] = plus(amounts[i], o, w)
		}
		if o.Sensing != nil && !slices.Contains(kits, o.Sensing.KitName()) {
			kits = append(kits, o.Sensing.KitName())
		}
	}
	s.Kits = strings.Join(kits, "; ")
	if whole {
		s.TotalW = units.Some(total)
	}
	if len(so.Outcomes) > 0 {
		s.Winter, s.YearlyCost = amounts, amounts[1]
	}
	s.Status = s.status()
	return s
}

// count adds a zone to the counts of errors, incomplete zones and warnings.
func (s *Summary) count(o Outcome) {
	missing := slices.ContainsFunc(o.Findings, func(f finding.Finding) bool { return f.Code == CodeMissingInput })
	switch {
	case missing:
		s.Incomplete++
	case o.Status() == StatusError:
		s.Errors++
	}
	for _, f := range o.Findings {
		if f.Severity == finding.Warning {
			s.Warnings++
		}
	}
}

// plus adds a zone's chosen strategy in a winter; the sum is blank once a zone's amount is. A pavement without heat costs nothing to heat.
func plus(sum units.Maybe[cost.Money], o Outcome, w cost.Winter) units.Maybe[cost.Money] {
	if o.Zone.Slab.Stage == ExistingUnheated && o.Status() == StatusOK {
		return sum
	}
	year, found := o.ChosenCost(w)
	if !sum.Known || !found || !year.Total.Known {
		return units.Maybe[cost.Money]{}
	}
	return units.Some(sum.Value + year.Total.Value)
}

func (s Summary) status() string {
	switch {
	case s.Zones == 0:
		return NotIncluded
	case s.Errors > 0:
		return Failed
	case s.Incomplete > 0:
		return Incomplete
	case s.Warnings > 0:
		return DoneCheck
	}
	return Done
}
