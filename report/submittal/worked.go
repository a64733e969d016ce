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

// worked is a calculation line by line: symbol, what it is, value, equation, source.
func (s sheet) worked(title string, steps []trace.Step) []core.Row {
	if len(steps) == 0 {
		return nil
	}
	cols := []column{{title: s.say("symbol"), width: 11, formula: true}, {title: s.say("what-it-is"), width: 23}, {title: s.say("value"), width: 15, right: true},
		{title: s.say("equation"), width: 28, formula: true}, {title: s.say("source"), width: 23}}
	rows := make([]cells, len(steps))
	for i, step := range steps {
		value := step.Text
		if value == "" {
			value = s.exact(step.Value, step.Quantity)
		}
		rows[i] = cells{texts: []string{step.Symbol, step.Name, value, step.Equation, step.Source}}
	}
	return append(s.part(title), s.table(cols, rows)...)
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

func hasAnySuffix(text string, ends ...string) bool {
	for _, end := range ends {
		if strings.HasSuffix(text, end) {
			return true
		}
	}
	return false
}
