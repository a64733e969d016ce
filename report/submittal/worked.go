package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// worked is a calculation: what was given, running on, then line by line symbol, what it is with its equation, value and source.
func (s sheet) worked(title string, steps []trace.Step, from *references) []core.Row {
	var out []core.Row
	if given := givenOf(steps); len(given) > 0 {
		out = append(out, s.part(title+": "+s.say("given"))...)
		out = append(out, s.paragraph(s.given(given, from), givenStyle)...)
	}
	found := slices.DeleteFunc(slices.Clone(steps), func(step trace.Step) bool { return step.Equation == "" })
	if len(found) > 0 {
		out = append(append(out, s.part(title+": "+s.say("calculated"))...), s.calculated(found, from)...)
	}
	return out
}

// given runs on what a calculation begins with: symbol, value, what it is and its source, each as one piece that a line holds as far as it can; words come last.
func (s sheet) given(steps []trace.Step, from *references) string {
	var texts, told []string
	for _, step := range steps {
		if step.Quantity == units.Text {
			told = append(told, step.Name+": "+or(step.Text)+" "+from.mark(step.Source))
			continue
		}
		texts = append(texts, s.say("given-step", finding.Words("step", s.result(step)), finding.Words("source", from.mark(step.Source))))
	}
	return strings.Join(append(texts, told...), ";  ") + "."
}

// result is a step in running text: symbol, value and what it is.
func (s sheet) result(step trace.Step) string {
	return s.say("result-step", finding.Words("symbol", unbroken(step.Symbol)), finding.Words("value", strings.ReplaceAll(s.valueOf(step), " ", "\u00a0")), finding.Words("name", step.Name))
}

// leastSolved is how many steps in a row of one and the same equation stand as one: the results of a field that was solved once.
const leastSolved = 3

// calculated sets what follows, a step to a row: its name and its equation run on, so that most rows are one line.
func (s sheet) calculated(steps []trace.Step, from *references) []core.Row {
	more := s.longUnits()
	cols := []column{{title: s.say("symbol"), width: 9, formula: true}, {title: s.say("what-and-how"), width: 68 - more, formula: true},
		{title: s.say("value"), width: 14 + more, right: true}, {title: s.say("source"), width: 9}}
	var rows []cells
	for i := 0; i < len(steps); {
		step, n := steps[i], sameEquation(steps[i:])
		if n < leastSolved {
			rows = append(rows, cells{texts: []string{unbroken(step.Symbol), s.say("step", finding.Words("name", step.Name), finding.Words("equation", step.Equation)), s.valueOf(step), from.mark(step.Source)}})
			i++
			continue
		}
		texts := make([]string, n)
		for j := range texts {
			texts[j] = s.result(steps[i+j])
		}
		rows = append(rows, cells{texts: []string{"", s.say("solved", finding.Words("equation", step.Equation), finding.Words("results", strings.Join(texts, ";  "))), "", from.mark(step.Source)}})
		i += n
	}
	return s.dense(cols, rows)
}

// sameEquation counts the steps from the first on that have its equation and its source.
func sameEquation(steps []trace.Step) int {
	n := 1
	for n < len(steps) && steps[n].Equation == steps[0].Equation && steps[n].Source == steps[0].Source {
		n++
	}
	return n
}

// longUnits returns how much wider values stand for the long names of I-P units.
func (s sheet) longUnits() int {
	if s.Settings.Units == units.IP {
		return 3
	}
	return 0
}

// unbroken returns a symbol that never breaks at a space.
func unbroken(symbol string) string { return strings.ReplaceAll(symbol, " ", "\u00a0") }

func (s sheet) valueOf(step trace.Step) string {
	if step.Quantity == units.Text {
		return or(step.Text)
	}
	return s.exact(step.Value, step.Quantity)
}

// hour tells the design hour in a sentence; empty without one.
func (s sheet) hour(l surface.Load) string {
	if !l.Hour.Known {
		return ""
	}
	h := l.Hour.Value
	code, when := "hour-given", show.Hour(h)
	if when != "" {
		code = "hour"
	}
	return s.say(code, finding.Words("when", when), finding.Value("air", h.AirC, units.Temperature), finding.Value("dew", h.DewC, units.Temperature),
		finding.Value("wind", h.WindMS, units.Speed), finding.Value("snow", h.SnowMMH, units.SnowRate))
}
