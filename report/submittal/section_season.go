package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/report"
)

func hasSeason(v report.View) bool {
	for _, o := range v.Site.Outcomes {
		if len(o.Seasons) > 0 {
			return true
		}
	}
	return false
}

// seasonRows are hours, energy and cost of every strategy, zone by zone.
func seasonRows(v report.View) []core.Row {
	s := on(v)
	intro := s.say("season-intro")
	from, drawn := s.references(), map[ran]string{}
	if v.Site.Summary.ExamplePrices {
		intro += " " + s.say("example-prices")
	}
	rows := s.lead(intro, bodyStyle)
	for _, o := range v.Site.Outcomes {
		if len(o.Seasons) == 0 {
			continue
		}
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		rows = append(rows, s.lead(s.say("estimate", finding.Words("estimate", o.Seasons[0].Estimate), finding.Value("hours", o.Seasons[0].SeasonHours, units.Hours)), bodyStyle)...)
		rows = append(rows, s.strategies(o)...)
		rows = append(rows, s.winters(o)...)
		rows = append(rows, s.metered(o)...)
		rows = append(rows, s.chosenWinter(o, drawn)...)
		rows = append(rows, s.workedSeason(o, from)...)
	}
	return rows
}

// ran is a winter that was run under a strategy: of zones that share one, the first shows it.
type ran struct {
	season.Input
	season.Strategy
}

// chosenWinter shows the chosen strategy's months, one of its storms, and the delays that its storms ask for.
func (s sheet) chosenWinter(o calc.Outcome, drawn map[ran]string) []core.Row {
	r, found := o.Chosen()
	if !found {
		return nil
	}
	key := ran{r.Input, r.Strategy}
	if zone, before := drawn[key]; before {
		return append(s.delays(o, r), s.paragraph(s.say("winter-shown", finding.Words("zone", zone)), noteStyle)...)
	}
	drawn[key] = s.zoneTitle(o.Zone)
	return append(append(s.monthChart(o, r), s.stormChart(o, r)...), s.delays(o, r)...)
}

// isChosen says whether a strategy is the one that the zone's kit names.
func isChosen(o calc.Outcome, strategy season.Strategy) bool {
	chosen, found := o.Chosen()
	return found && chosen.Strategy == strategy
}

// yearOf returns what a strategy costs in a typical winter.
func yearOf(o calc.Outcome, strategy season.Strategy) units.Maybe[cost.Money] {
	for _, c := range o.Costs {
		if c.Strategy == string(strategy) && c.Winter == cost.TypicalWinter {
			return c.Total
		}
	}
	return units.Maybe[cost.Money]{}
}

// priced says whether any strategy of the zone has a cost.
func priced(o calc.Outcome) bool {
	for _, c := range o.Costs {
		if c.Total.Known {
			return true
		}
	}
	return false
}
