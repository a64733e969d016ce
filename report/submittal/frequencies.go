package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// frequent is what a table of frequencies shows: of zones that share it, the first shows it.
type frequent struct {
	all     surface.Frequency
	quarter units.Maybe[surface.Frequency]
	hours   float64
}

// frequencies is the flux at the printed shares of the snowfall hours, for three free-area ratios, over all hours and over those of at least 0.25 mm.
func (s sheet) frequencies(o calc.Outcome, shown map[frequent]string) []core.Row {
	l := *o.Load
	if !l.Frequency.Known {
		return nil
	}
	key := frequent{l.Frequency.Value, l.Quarter, l.SnowHours}
	if zone, before := shown[key]; before {
		return s.paragraph(s.say("frequencies-shown", finding.Words("zone", zone)), bodyStyle)
	}
	shown[key] = s.zoneTitle(o.Zone)
	cols := []column{{title: s.say("hours-counted"), width: 38}, {title: s.say("ratio"), width: 8, right: true, formula: true}}
	for _, p := range surface.Percentiles {
		cols = append(cols, column{title: s.Words.Show.Plain(p, 0) + "\u00a0%", width: 9, right: true})
	}
	rows := s.frequencyRows(s.say("hours-all", finding.Value("hours", l.SnowHours, units.Hours)), l.Frequency.Value)
	if l.Quarter.Known {
		rows = append(rows, s.frequencyRows(s.say("hours-quarter", finding.Value("hours", l.QuarterHours, units.Hours)), l.Quarter.Value)...)
	}
	table := s.dense(cols, rows)
	whole(table)
	return append(s.part(s.say("frequencies", finding.Words("unit", s.Words.Show.Unit(units.Flux)))), table...)
}

func (s sheet) frequencyRows(name string, f surface.Frequency) []cells {
	out := make([]cells, len(surface.Ratios))
	for i, ratio := range surface.Ratios {
		texts := []string{"", s.Words.Show.Plain(ratio, 1)}
		if i == 0 {
			texts[0] = name
		}
		for _, flux := range f[i] {
			texts = append(texts, s.number(flux, units.Flux))
		}
		out[i] = cells{texts: texts}
	}
	return out
}
