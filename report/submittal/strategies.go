package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/chart"
	"thawbook/report/show"
)

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
			texts = append(texts, s.rounded(yearOf(o, r.Strategy)))
		}
		rows[i] = cells{texts: texts, bold: bold}
	}
	table := s.table(cols, rows)
	whole(table)
	return append(s.part(s.say("by-strategy")), table...)
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
				bars[i].Value, bars[i].Label = year.Value.Main(s.Settings.Currency), s.rounded(year)
			}
		}
	}
	drawn, err := s.look().Bars(axis, bars)
	if err != nil {
		panic(err) // every bar is a number
	}
	return s.drawing(drawn, 10+3.5*float64(len(bars)))
}
