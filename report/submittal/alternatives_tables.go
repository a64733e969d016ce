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

// abreast is how many ways stand side by side in a table.
const abreast = 4

// beside sets a table with a column for each way and a row for each name.
func (s sheet) beside(list []calc.AlternativeOutcome, names []string, cell func(a calc.AlternativeOutcome, row int) string, bold func(row int) bool) []core.Row {
	var rows []core.Row
	for part := range slices.Chunk(list, abreast) {
		cols := []column{{width: 32}}
		for _, a := range part {
			cols = append(cols, column{title: a.Name, width: 68 / abreast, right: true})
		}
		cols = append(cols, column{empty: true, width: 68/abreast*(abreast-len(part)) + 68%abreast})
		if cols[len(cols)-1].width == 0 {
			cols = cols[:len(cols)-1]
		}
		lines := make([]cells, len(names))
		for i, name := range names {
			texts := []string{name}
			for _, a := range part {
				texts = append(texts, cell(a, i))
			}
			lines[i] = cells{texts: append(texts, make([]string, len(cols)-len(texts))...), bold: bold(i)}
		}
		rows = append(rows, s.dense(cols, lines)...)
	}
	return rows
}

// firstCosts is what each way's first cost is made of, item by item.
func (s sheet) firstCosts() []core.Row {
	list := slices.DeleteFunc(slices.Clone(s.Site.Alternatives), func(a calc.AlternativeOutcome) bool { return len(a.Lines) == 0 })
	var items []string
	for _, a := range list {
		for _, l := range a.Lines {
			if !slices.Contains(items, l.Item) {
				items = append(items, l.Item)
			}
		}
	}
	if len(items) == 0 {
		return nil
	}
	slices.SortStableFunc(items, func(a, b string) int { return lastOf(a) - lastOf(b) })
	total := len(items)
	rows := s.part(s.priced("first-cost-by-item"))
	rows = append(rows, s.beside(list, append(items, s.say("first-cost")), func(a calc.AlternativeOutcome, row int) string {
		if row == total {
			return s.rounded(a.FirstCost)
		}
		return s.itemAmount(a.Lines, items[row])
	}, func(row int) bool { return row == total })...)
	return append(rows, s.paragraph(s.say("first-cost-note"), noteStyle)...)
}

// lastOf puts the contingency behind what it is a share of.
func lastOf(item string) int {
	if item == cost.Contingency {
		return 1
	}
	return 0
}

// itemAmount is what the lines of an item come to: their sum, why they don't count, or that a unit cost is missing.
func (s sheet) itemAmount(lines []cost.Line, item string) string {
	var mine []cost.Line
	why := cost.Counted
	for _, l := range lines {
		if l.Item == item && l.Uncounted == cost.Counted {
			mine = append(mine, l)
		} else if l.Item == item {
			why = l.Uncounted
		}
	}
	switch {
	case len(mine) > 0:
		return s.rounded(cost.Sum(mine))
	case why != cost.Counted:
		return s.say(string(why))
	}
	return dash
}

// lifeCycles is what the present value of each way is made of, and how it stands against the base case.
func (s sheet) lifeCycles() []core.Row {
	list := slices.DeleteFunc(slices.Clone(s.Site.Alternatives), func(a calc.AlternativeOutcome) bool { return !a.Life.Known })
	if len(list) == 0 {
		return nil
	}
	parts := s.lifeParts(list)
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = p.name
	}
	rows := s.part(s.priced("life-cycle"))
	rows = append(rows, s.beside(list, names, func(a calc.AlternativeOutcome, row int) string { return parts[row].of(a) }, func(row int) bool { return parts[row].bold })...)
	return append(rows, s.paragraph(s.say("life-cycle-note"), noteStyle)...)
}

// lifePart is a row of the life cycle.
type lifePart struct {
	name string
	of   func(calc.AlternativeOutcome) string
	bold bool
}

func (s sheet) lifeParts(list []calc.AlternativeOutcome) []lifePart {
	sum := func(code string, bold bool, of func(cost.Life) cost.Money) lifePart {
		return lifePart{s.say(code), func(a calc.AlternativeOutcome) string { return s.rounded(units.Some(of(a.Life.Value))) }, bold}
	}
	saved := func(code string, bold bool, of func(cost.Savings) string) lifePart {
		return lifePart{s.say(code), func(a calc.AlternativeOutcome) string {
			if !a.Savings.Known {
				return dash
			}
			return of(a.Savings.Value)
		}, bold}
	}
	amount := func(code string, bold bool, of func(cost.Savings) cost.Money) lifePart {
		return saved(code, bold, func(v cost.Savings) string { return s.rounded(units.Some(of(v))) })
	}
	parts := []lifePart{{s.say("life-snow"), s.snowOn, false}, sum("first-cost", false, func(l cost.Life) cost.Money { return l.First }), sum("life-replacements", false, func(l cost.Life) cost.Money { return l.Replacement }),
		sum("life-residual", false, func(l cost.Life) cost.Money { return -l.Residual })}
	for _, name := range streams(list) {
		parts = append(parts, lifePart{s.streamName(name), func(a calc.AlternativeOutcome) string { return s.streamValue(a, name) }, false})
	}
	return append(parts, sum("present-value", true, func(l cost.Life) cost.Money { return l.Total }),
		amount("life-saved", false, func(v cost.Savings) cost.Money { return v.Operating }),
		amount("life-invested", false, func(v cost.Savings) cost.Money { return v.Invested }),
		amount("net-savings", true, func(v cost.Savings) cost.Money { return v.Net }),
		saved("life-sir", false, func(v cost.Savings) string {
			return ifKnown(v.SIR, func(r units.Maybe[float64]) string { return s.bare(r, units.Factor) })
		}),
		saved("life-airr", false, func(v cost.Savings) string {
			return ifKnown(v.AIRR, func(r units.Maybe[float64]) string { return s.maybe(r, units.Share) })
		}))
}

// snowOn is the hours with snow on the surface of a way, of several zones the mean by area.
func (s sheet) snowOn(a calc.AlternativeOutcome) string {
	hours, area := 0.0, 0.0
	for _, z := range a.Zones {
		r, found := z.Season()
		if !found || !r.SnowOnSurfaceH.Known {
			return dash
		}
		m2 := z.Outcome.Zone.Extent.AreaM2
		hours, area = hours+m2*r.SnowOnSurfaceH.Value, area+m2
	}
	if area == 0 {
		return dash
	}
	return s.number(hours/area, units.Hours)
}

// streams lists the names of yearly costs in order of the first.
func streams(list []calc.AlternativeOutcome) []string {
	var names []string
	for _, a := range list {
		for _, f := range a.Flows.Streams {
			if !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	return names
}

func (s sheet) streamName(name string) string {
	switch name {
	case cost.CareStream, cost.ClearingStream:
		return s.say("life-" + name)
	}
	return s.say("life-energy", finding.Words("energy", strings.TrimSpace(name)))
}

func (s sheet) streamValue(a calc.AlternativeOutcome, name string) string {
	for i, f := range a.Flows.Streams {
		if f.Name == name {
			return s.rounded(units.Some(a.Life.Value.Streams[i]))
		}
	}
	return dash
}
