package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// winters is the cost of the chosen strategy in a mild, a typical and a severe winter, part by part.
func (s sheet) winters(o calc.Outcome) []core.Row {
	cols := []column{{title: s.say("winter"), width: 12}, {title: s.unit("heat", units.Energy), width: 13, right: true}}
	for _, code := range []string{"cost-energy", "cost-demand", "cost-standing", "cost-pump"} {
		cols = append(cols, column{title: s.priced(code), width: 12, right: true})
	}
	cols = append(cols, column{title: s.priced("cost-total"), width: 15, right: true}, column{title: s.unit("co2", units.Mass), width: 12, right: true})
	var rows []cells
	for _, w := range cost.Winters {
		y, found := o.ChosenCost(w)
		if !found {
			continue
		}
		rows = append(rows, cells{texts: []string{s.say("winter-" + string(w)), s.number(y.HeatKWh, units.Energy), s.amount(y.Energy), s.amount(y.Demand), s.amount(y.Standing), s.amount(y.Pump),
			s.amount(y.Total), s.bare(y.CO2Kg, units.Mass)}})
	}
	if len(rows) == 0 {
		return nil
	}
	out := append(s.part(s.weathered(o, s.say("chosen-winters", finding.Words("strategy", o.Sensing.Strategy)))), s.table(cols, rows)...)
	if text := s.spread(o); text != "" {
		out = append(out, s.paragraph(text, noteStyle)...)
	}
	return out
}
