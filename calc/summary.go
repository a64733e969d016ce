package calc

import (
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/calc/weather"
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
	s := Summary{SiteID: so.Site.ID, SiteName: so.Site.Name, Zones: len(so.Outcomes), Revision: so.Site.Issue(e.in.Settings).Name}
	if len(so.Site.Zones) > 0 {
		s.Region, s.Owner = so.Site.Zones[0].Ref.Region, so.Site.Zones[0].Ref.Owner
	}
	var area, total sum[float64]
	var amounts [3]sum[cost.Money]
	var kits []string
	for _, o := range so.Outcomes {
		area.add(units.Maybe[float64]{Value: o.Zone.Extent.AreaM2, Known: o.Zone.Extent.AreaM2 > 0})
		s.count(o)
		s.Findings = append(s.Findings, o.Findings...)
		s.ExamplePrices = s.ExamplePrices || len(o.Costs) > 0 && (o.Tariff.Example || o.PumpTariff.Example)
		if !o.unheated() {
			total.add(o.Design.TotalW)
			s.Unwintered = s.Unwintered || len(o.Seasons) == 0
			for i, w := range cost.Winters {
				year, _ := o.ChosenCost(w)
				amounts[i].add(year.Total)
			}
		}
		if o.Sensing != nil && !slices.Contains(kits, o.Sensing.KitName()) {
			kits = append(kits, o.Sensing.KitName())
		}
	}
	zonal := len(s.Findings)
	s.Kits = strings.Join(kits, "; ")
	s.AreaM2, s.TotalW = area.value(), total.value()
	for i := range amounts {
		s.Winter[i] = amounts[i].value()
	}
	s.YearlyCost, s.Recorded = s.Winter[1], recorded(so.Outcomes)
	s.Findings = append(s.Findings, alternativeFindings(so)...)
	s.Findings = append(s.Findings, s.decide(so)...)
	for _, f := range s.Findings[zonal:] {
		if f.Severity == finding.Warning {
			s.Warnings++
		}
	}
	s.Status = s.status()
	return s
}

// recorded adds up what the heated zones of a site cost in each winter of their record; none where they don't rest on records with the same winters.
func recorded(list []Outcome) portfolio.Recorded {
	var out portfolio.Recorded
	for _, o := range list {
		if o.unheated() {
			continue
		}
		if len(o.Winters) < 2 || o.Weather.Kind != weather.Observed {
			return portfolio.Recorded{}
		}
		if out.Winters == nil {
			shares := o.Snow.shares()
			out = portfolio.Recorded{Winters: make([]portfolio.Winter, len(o.Winters)), Mild: shares[0], Severe: shares[2]}
		}
		if !addWinters(out.Winters, o.Winters) {
			return portfolio.Recorded{}
		}
	}
	return out
}

// addWinters adds a zone's winters to those of its site; false where they are others or lack a cost.
func addWinters(sum []portfolio.Winter, zone []WinterCost) bool {
	if len(sum) != len(zone) {
		return false
	}
	for i, w := range zone {
		if !w.Cost.Total.Known || sum[i].Label != "" && sum[i].Label != w.Label {
			return false
		}
		sum[i].Label = w.Label
		sum[i].Total += w.Cost.Total.Value
	}
	return true
}

// incomplete are the findings of a zone that lacks an input without which it can't be calculated.
var incomplete = []finding.Code{CodeMissingInput, CodeStationRefused}

// count adds a zone to the counts of errors, incomplete zones and warnings.
func (s *Summary) count(o Outcome) {
	switch {
	case slices.ContainsFunc(o.Findings, func(f finding.Finding) bool { return slices.Contains(incomplete, f.Code) }):
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

// Tell adds findings that the calculation did not make: of reading, of documents. A warning among them makes a site that is done one to check.
func (s *Summary) Tell(list ...finding.Finding) {
	s.Findings = append(s.Findings, list...)
	for _, f := range list {
		if f.Severity == finding.Warning {
			s.Warnings++
		}
	}
	if finding.Worst(list) <= finding.Warning && s.Status == Done {
		s.Status = DoneCheck
	}
}

// sum adds what zones have. It is blank without a zone, and once one of them has none.
type sum[T float64 | cost.Money] struct {
	of     T
	some   bool
	broken bool
}

func (s *sum[T]) add(v units.Maybe[T]) {
	s.of += v.Value
	s.some, s.broken = true, s.broken || !v.Known
}

func (s sum[T]) value() units.Maybe[T] {
	if !s.some || s.broken {
		return units.Maybe[T]{}
	}
	return units.Some(s.of)
}

// unheated says whether the zone is an existing pavement without heat: it costs nothing to heat and adds to no plant.
func (o Outcome) unheated() bool { return o.Zone.Slab.Stage == ExistingUnheated }

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
