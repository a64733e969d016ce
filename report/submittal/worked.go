package submittal

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// sources numbers the sources of a section's equations, so that each is written out once.
type sources struct{ list []string }

const shortSource = 8 // runes: a source no longer than this is not numbered

// mark returns how a source is written in a table.
func (r *sources) mark(source string) string {
	if utf8.RuneCountInString(source) <= shortSource {
		return source
	}
	i := slices.Index(r.list, source)
	if i < 0 {
		i = len(r.list)
		r.list = append(r.list, source)
	}
	return fmt.Sprintf("[%d]", i+1)
}

// sourceList writes the numbered sources out.
func (s sheet) sourceList(r *sources) []core.Row {
	if len(r.list) == 0 {
		return nil
	}
	rows := s.part(s.say("sources"))
	for i, source := range r.list {
		rows = append(rows, s.indented(fmt.Sprintf("[%d]", i+1), sentence(source), noteStyle, 7)...)
	}
	return rows
}

// worked is a calculation line by line: symbol, what it is, value, equation, source.
func (s sheet) worked(title string, steps []trace.Step, from *sources) []core.Row {
	if len(steps) == 0 {
		return nil
	}
	cols := []column{{title: s.say("symbol"), width: 13, formula: true}, {title: s.say("what-it-is"), width: 26}, {title: s.say("value"), width: 17, right: true},
		{title: s.say("equation"), width: 36, formula: true}, {title: s.say("source"), width: 8}}
	rows := make([]cells, len(steps))
	for i, step := range steps {
		value := or(step.Text)
		if step.Quantity != units.Text {
			value = s.exact(step.Value, step.Quantity)
		}
		rows[i] = cells{texts: []string{step.Symbol, step.Name, value, step.Equation, from.mark(step.Source)}}
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
