package submittal

import (
	"math"
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// calculation is the steps of a chapter for some zones that share them.
type calculation struct {
	zones []calc.Outcome
	steps []trace.Step
}

// sideBySide is how many calculations stand in one table.
const sideBySide = 3

// workedTogether sets the calculations of a site's zones side by side, each equation once. What is given is written out for the first; of the others only what differs.
func (s sheet) workedTogether(title string, list []calculation, from *references) []core.Row {
	if len(list) == 0 {
		return nil
	}
	if len(s.Site.Outcomes) == 1 {
		return s.worked(title, list[0].steps, from)
	}
	var zones []calc.Outcome
	for _, c := range list {
		zones = append(zones, c.zones...)
	}
	rows := s.zoneHeading(s.ofZone(title, zones...))
	rows = append(rows, s.givenTogether(list, from)...)
	tables := (len(list) + sideBySide - 1) / sideBySide
	for i := range tables {
		rows = append(rows, s.calculatedTogether(list[i*len(list)/tables:(i+1)*len(list)/tables], from)...)
	}
	return rows
}

// idsTitle names zones by their IDs alone.
func (s sheet) idsTitle(zones []calc.Outcome) string {
	if len(zones) == len(s.Site.Outcomes) {
		return s.say("all-zones")
	}
	return s.zonesTitle(len(zones), s.ids(zones))
}

// ofZone is the title of a figure, with its zone where the site has several: a figure may stand behind the heading of the next one.
func (s sheet) ofZone(title string, zones ...calc.Outcome) string {
	if len(s.Site.Outcomes) == 1 {
		return title
	}
	return s.say("worked-of", finding.Words("title", title), finding.Words("zones", s.idsTitle(zones)))
}

func (s sheet) givenTogether(list []calculation, from *references) []core.Row {
	rows := s.part(capital(s.say("given")))
	first := givenOf(list[0].steps)
	for i, c := range list {
		given := givenOf(c.steps)
		code := "given-of"
		if i > 0 {
			given = slices.DeleteFunc(given, func(step trace.Step) bool {
				return slices.ContainsFunc(first, func(f trace.Step) bool { return sameValue(step, f) })
			})
			code = "given-but-for"
			if len(given) == 0 {
				code = "given-alike"
			}
		}
		rows = append(rows, s.paragraph(s.say(code, finding.Words("zones", s.idsTitle(c.zones)), finding.Words("first", s.idsTitle(list[0].zones)), finding.Words("list", s.given(given, from))), givenStyle)...)
	}
	return rows
}

func sameValue(a, b trace.Step) bool {
	return a.Symbol == b.Symbol && a.Name == b.Name && a.Value == b.Value && a.Quantity == b.Quantity && a.Text == b.Text
}

// givenOf are the steps that a calculation begins with, and those that are words.
func givenOf(steps []trace.Step) []trace.Step {
	return slices.DeleteFunc(slices.Clone(steps), func(step trace.Step) bool { return step.Equation != "" })
}

// calculatedTogether is a table with a column of values for each calculation.
func (s sheet) calculatedTogether(list []calculation, from *references) []core.Row {
	lines := aligned(list)
	if len(lines) == 0 {
		return nil
	}
	wide := s.widest(lines)
	cols := []column{{title: s.say("symbol"), width: 9, formula: true}, {title: s.say("what-and-how"), width: grid - 9 - 9 - wide*len(list), formula: true}}
	for _, c := range list {
		cols = append(cols, column{title: s.idsTitle(c.zones), width: wide, right: true})
	}
	cols = append(cols, column{title: s.say("source"), width: 9})
	rows := make([]cells, len(lines))
	for i, l := range lines {
		texts := []string{unbroken(l.step.Symbol), s.say("step", finding.Words("name", l.step.Name), finding.Words("equation", l.step.Equation))}
		for _, found := range l.found {
			text := s.say("not-there")
			if found != nil {
				text = s.valueOf(*found)
			}
			texts = append(texts, text)
		}
		rows[i].texts = append(texts, from.mark(l.step.Source))
	}
	return append(s.part(capital(s.say("calculated"))), s.dense(cols, rows)...)
}

// widest returns the width of a column that holds every value on one line, in hundredths of the text's width.
func (s sheet) widest(lines []line) int {
	most := 0.0
	for _, l := range lines {
		for _, found := range l.found {
			if found != nil {
				most = max(most, denseStyle.width(clean(s.valueOf(*found)), 0))
			}
		}
	}
	return min(int(math.Ceil((most+reasons.gap)*grid/s.paper.text())), 18)
}

// line is a step with what each of several calculations found by it; nil where one has no such step.
type line struct {
	step  trace.Step
	found []*trace.Step
}

// aligned puts the steps of several calculations into one order: a step of the same symbol and equation is one line, another stands where its own calculation has it.
func aligned(list []calculation) []line {
	var lines []line
	for k, c := range list {
		at := 0
		for i, step := range c.steps {
			if step.Equation == "" || step.Quantity == units.Text && strings.TrimSpace(step.Text) == "" {
				continue
			}
			same := slices.IndexFunc(lines[at:], func(l line) bool {
				return l.step.Symbol == step.Symbol && l.step.Equation == step.Equation && l.step.Source == step.Source
			})
			if same < 0 {
				lines = slices.Insert(lines, at, line{step, make([]*trace.Step, len(list))})
				same = 0
			}
			at += same
			lines[at].found[k] = &c.steps[i]
			at++
		}
	}
	return lines
}
