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

// sourceList writes the numbered sources out, one behind the other.
func (s sheet) sourceList(r *sources) []core.Row {
	if len(r.list) == 0 {
		return nil
	}
	out := make([]string, len(r.list))
	for i, source := range r.list {
		out[i] = fmt.Sprintf("[%d]\u00a0%s", i+1, sentence(source))
	}
	return append(s.part(s.say("sources")), s.paragraph(strings.Join(out, " "), noteStyle)...)
}

// worked is a calculation: what was given, in running text, then line by line symbol, what it is, value, equation and source.
func (s sheet) worked(title string, steps []trace.Step, from *sources) []core.Row {
	cols := []column{{title: s.say("symbol"), width: 13, formula: true}, {title: s.say("what-it-is"), width: 26}, {title: s.say("value"), width: 16, right: true},
		{title: s.say("equation"), width: 38, formula: true}, {title: s.say("source"), width: 7}}
	var given []string
	var rows []cells
	for _, step := range steps {
		mark := from.mark(step.Source)
		if step.Equation == "" {
			given = append(given, s.given(step, mark))
			continue
		}
		rows = append(rows, cells{texts: []string{step.Symbol, step.Name, s.valueOf(step), step.Equation, mark}})
	}
	if len(steps) == 0 {
		return nil
	}
	out := s.part(title)
	if len(given) > 0 {
		out = append(out, s.lead(s.say("given", finding.Words("list", strings.Join(given, "; "))), style{size: 7.5, grey: 20, formula: true})...)
	}
	return append(out, s.table(cols, rows)...)
}

func (s sheet) valueOf(step trace.Step) string {
	if step.Quantity == units.Text {
		return or(step.Text)
	}
	return s.exact(step.Value, step.Quantity)
}

// given writes a value without an equation: "L = 6.10 m, length in the wind's direction, input".
func (s sheet) given(step trace.Step, mark string) string {
	gap := "\u00a0"
	if step.Quantity == units.Text {
		gap = " "
	}
	between := ", "
	if strings.HasPrefix(mark, "[") {
		between = "\u00a0"
	}
	return step.Symbol + gap + "=" + gap + s.valueOf(step) + ", " + step.Name + between + mark
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
