package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/chart"
	"thawbook/report/show"
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
	rows := s.lead(s.say("season-intro"), bodyStyle)
	from := &sources{}
	if v.Site.Summary.ExamplePrices {
		rows = append(rows, s.lead(s.say("example-prices"), bodyStyle)...)
	}
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
	return append(rows, s.sourceList(from)...)
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

func (s sheet) strategies(o calc.Outcome) []core.Row {
	snow, money := false, priced(o)
	for _, r := range o.Seasons {
		snow = snow || r.SnowOnSurfaceH.Known
	}
	cols := []column{{title: s.say("strategy"), width: 30}, {title: s.say("hours-off"), width: 9, right: true}, {title: s.say("hours-idling"), width: 9, right: true},
		{title: s.say("hours-melting"), width: 9, right: true}, {title: s.say("hours-drying"), width: 9, right: true},
		{title: s.unit("energy", units.EnergyPerArea), width: 12, right: true}, {title: s.unit("energy-back", units.EnergyPerArea), width: 10, right: true}}
	if snow {
		cols[0].width -= 8
		cols = append(cols, column{title: s.say("snow-on-surface"), width: 8, right: true})
	}
	if money {
		cols = append(cols, column{title: s.priced("yearly-cost"), width: 12, right: true})
	} else {
		cols[0].width += 12
	}
	rows := make([]cells, len(o.Seasons))
	for i, r := range o.Seasons {
		name := string(r.Strategy)
		bold := isChosen(o, r.Strategy)
		if bold {
			name = s.say("chosen-mark", finding.Words("strategy", name))
		}
		texts := []string{name, s.number(r.HoursOff, units.Hours), s.number(r.HoursIdling, units.Hours), s.number(r.HoursMelting, units.Hours), s.number(r.HoursDrying, units.Hours),
			s.number(r.EnergyKWhM2, units.EnergyPerArea), s.number(r.BackKWhM2, units.EnergyPerArea)}
		if snow {
			texts = append(texts, s.bare(r.SnowOnSurfaceH, units.Hours))
		}
		if money {
			texts = append(texts, s.amount(yearOf(o, r.Strategy)))
		}
		rows[i] = cells{texts: texts, bold: bold}
	}
	return append(s.part(s.say("by-strategy")), s.table(cols, rows)...)
}

// strategyChart shows the yearly cost of each strategy, or the energy where there is no price.
func (s sheet) strategyChart(o calc.Outcome) []core.Row {
	bars := make([]chart.Bar, len(o.Seasons))
	money := priced(o)
	axis := chart.WithUnit(s.say("energy"), s.Words.Show.Unit(units.EnergyPerArea))
	if money {
		axis = chart.WithUnit(s.say("yearly-cost-typical"), s.Settings.Currency)
	}
	for i, r := range o.Seasons {
		bars[i] = chart.Bar{Name: string(r.Strategy), Chosen: isChosen(o, r.Strategy), Value: units.EnergyPerArea.In(s.Settings.Units).FromBase(r.EnergyKWhM2), Label: s.number(r.EnergyKWhM2, units.EnergyPerArea)}
		if money {
			year := yearOf(o, r.Strategy)
			bars[i].Value, bars[i].Label = 0, show.NotAvailable
			if year.Known {
				bars[i].Value = year.Value.Main(s.Settings.Currency)
				bars[i].Label = s.Words.Show.Plain(bars[i].Value, 0)
			}
		}
	}
	drawn, err := s.look().Bars(axis, bars)
	if err != nil {
		panic(err) // every bar is a number
	}
	return s.drawing(drawn, 12+4.2*float64(len(bars)))
}
