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
	from := s.references()
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
		rows = append(rows, s.strategyChart(o)...)
		rows = append(rows, s.winters(o, from)...)
	}
	return rows
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
