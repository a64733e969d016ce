package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// worked is a calculation: what was given, two values to a row, then line by line symbol, what it is, value, equation and source.
func (s sheet) worked(title string, steps []trace.Step, from *references) []core.Row {
	var given, found []trace.Step
	var told []string
	for _, step := range steps {
		switch {
		case step.Equation != "":
			found = append(found, step)
		case step.Quantity == units.Text:
			told = append(told, step.Name+": "+or(step.Text)+" "+from.mark(step.Source))
		default:
			given = append(given, step)
		}
	}
	var out []core.Row
	if len(given) > 0 {
		out = append(append(out, s.part(title+": "+s.say("given"))...), s.given(given, from)...)
		if len(told) > 0 {
			out = append(out, s.paragraph(capital(strings.Join(told, "; "))+".", style{size: denseStyle.size, grey: denseStyle.grey})...)
		}
	}
	if len(found) > 0 {
		out = append(append(out, s.part(title+": "+s.say("calculated"))...), s.calculated(found, from)...)
	}
	return out
}

// given sets what a calculation begins with, first down the left half, then down the right one.
func (s sheet) given(steps []trace.Step, from *references) []core.Row {
	more := s.longUnits()
	one := []column{{title: s.say("symbol"), width: 8, formula: true}, {title: s.say("what-it-is"), width: 24 - more}, {title: s.say("value"), width: 12 + more, right: true}, {title: s.say("source"), width: 6}}
	two := append(append([]column{}, one...), one...)
	two[1].width, two[3].width = two[1].width-1, two[3].width+1 // its heading needs room before the right half
	half := (len(steps) + 1) / 2
	rows := make([]cells, half)
	for i := range rows {
		rows[i].texts = s.givenCells(steps[i], from)
		if i+half < len(steps) {
			rows[i].texts = append(rows[i].texts, s.givenCells(steps[i+half], from)...)
		} else {
			rows[i].texts = append(rows[i].texts, "", "", "", "")
		}
	}
	return s.dense(two, rows)
}

func (s sheet) givenCells(step trace.Step, from *references) []string {
	return []string{symbol(step), step.Name, s.valueOf(step), from.mark(step.Source)}
}

func (s sheet) calculated(steps []trace.Step, from *references) []core.Row {
	more := s.longUnits()
	cols := []column{{title: s.say("symbol"), width: 10, formula: true}, {title: s.say("what-it-is"), width: 27}, {title: s.say("value"), width: 13 + more, right: true},
		{title: s.say("equation"), width: 41 - more, formula: true}, {title: s.say("source"), width: 9}}
	rows := make([]cells, len(steps))
	for i, step := range steps {
		rows[i].texts = []string{symbol(step), step.Name, s.valueOf(step), step.Equation, from.mark(step.Source)}
	}
	return s.dense(cols, rows)
}

// longUnits returns how much wider values stand for the long names of I-P units.
func (s sheet) longUnits() int {
	if s.Settings.Units == units.IP {
		return 3
	}
	return 0
}

// symbol returns a step's symbol, which never breaks at a space.
func symbol(step trace.Step) string { return strings.ReplaceAll(step.Symbol, " ", "\u00a0") }

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
