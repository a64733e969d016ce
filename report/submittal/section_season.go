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
	from, drawn := s.references(), drawnWinters{map[ran]string{}, map[stormOf]string{}}
	var list []calculation
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
		if steps := stepsOf(o).season; len(steps) > 0 {
			list = append(list, calculation{[]calc.Outcome{o}, steps})
		}
	}
	return append(rows, s.workedTogether(s.say("worked-season"), list, from)...)
}

// ran is a winter that was run under a strategy: of zones that share one, the first shows it.
type ran struct {
	season.Input
	season.Strategy
}

// stormOf is what a storm is drawn for: of zones at one station under one strategy, the first shows it.
type stormOf struct {
	station string
	season.Strategy
}

// drawnWinters are the zones that show a winter or a storm, by their titles.
type drawnWinters struct {
	winters map[ran]string
	storms  map[stormOf]string
}

// chosenWinter shows the chosen strategy's months, one of its storms, and the delays that its storms ask for.
func (s sheet) chosenWinter(o calc.Outcome, drawn drawnWinters) []core.Row {
	r, found := o.Chosen()
	if !found {
		return nil
	}
	winter, storm := ran{r.Input, r.Strategy}, stormOf{o.Weather.Station, r.Strategy}
	if zone, before := drawn.winters[winter]; before {
		return append(s.delays(o, r), s.paragraph(s.say("winter-shown", finding.Words("zone", zone)), noteStyle)...)
	}
	drawn.winters[winter] = s.zoneTitle(o.Zone)
	rows := s.monthChart(o, r)
	if zone, before := drawn.storms[storm]; before {
		rows = append(rows, s.paragraph(s.say("storm-shown", finding.Words("zone", zone)), noteStyle)...)
	} else if picture := s.stormChart(o, r); picture != nil {
		drawn.storms[storm] = s.zoneTitle(o.Zone)
		rows = append(rows, picture...)
	}
	return append(rows, s.delays(o, r)...)
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
