package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// options are what each offer takes, with its price where all of it is priced, and what the kit would be then.
func (s sheet) options(list []calc.Option) []core.Row {
	if len(list) == 0 {
		return nil
	}
	cols := []column{{title: s.say("option-for"), width: 20}, {title: s.say("option-takes"), width: 34}, {title: s.priced("amount"), width: 13, right: true}, {title: s.say("option-gives"), width: 33}}
	var rows []cells
	for _, o := range list {
		gives := s.say("option-then", finding.Words("kit", o.Gives.Kit), finding.Words("strategy", or(o.Gives.Strategy)))
		if o.Waits {
			rows = append(rows, cells{texts: []string{string(o.For), s.takes(o, false), s.sum(o.Total), ""}}, cells{texts: []string{s.say("option-after"), s.takes(o, true), s.sum(o.After), gives}})
			continue
		}
		rows = append(rows, cells{texts: []string{string(o.For), s.takes(o, false), s.sum(o.Total), gives}})
	}
	out := s.dense(cols, rows)
	if slices.ContainsFunc(list, func(o calc.Option) bool { return o.Example }) {
		out = append(out, s.paragraph(s.say("example-prices"), noteStyle)...)
	}
	return out
}

// takes lists the quantities that wait for a survey, or those that don't.
func (s sheet) takes(o calc.Option, after bool) string {
	var out []string
	for _, l := range o.Lines {
		if l.After != after {
			continue
		}
		quantity := s.say("option-count", finding.Value("count", l.Quantity, units.Count))
		if l.Unit == units.Length {
			quantity = s.with(l.Quantity, units.Length)
		}
		out = append(out, s.say("option-line", finding.Words("quantity", quantity), finding.Words("item", l.Item), finding.Words("price", s.inBrackets(l.Amount))))
	}
	return strings.Join(out, "; ")
}

// inBrackets writes an amount in brackets, or nothing.
func (s sheet) inBrackets(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return ""
	}
	return " (" + s.amount(m) + ")"
}
