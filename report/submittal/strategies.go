package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
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
	return append(s.part(s.weathered(o, s.say("by-strategy"))), table...)
}
