package submittal

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/trace"
	"thawbook/report"
)

// references numbers the sources of the document's equations and given values, so that each is written out once.
type references struct{ list []string }

const shortSource = 9 // runes: a source no longer than this is not numbered

// references collects the sources of all calculations, in the order in which the document shows them.
func (s sheet) references() *references {
	r := &references{}
	zones := make([]zoneSteps, len(s.Site.Outcomes))
	for i, o := range s.Site.Outcomes {
		zones[i] = stepsOf(o)
	}
	for _, chapter := range []func(*zoneSteps) *[]trace.Step{loadChapter, heatChapter, resetChapter, seasonChapter} {
		for i := range zones {
			for _, step := range *chapter(&zones[i]) {
				r.mark(step.Source)
			}
		}
	}
	for _, p := range s.Site.Plants {
		for _, step := range plantSteps(p) {
			r.mark(step.Source)
		}
	}
	return r
}

// mark returns how a source is written in a table: "input", "[3]", or "[3] eq. 4" for an equation of a work.
func (r *references) mark(source string) string {
	if utf8.RuneCountInString(source) <= shortSource {
		return source
	}
	work, equation, found := strings.Cut(source, " eq. ")
	if !found || strings.ContainsAny(equation, ";:") {
		return r.number(source)
	}
	return r.number(work) + " eq.\u00a0" + equation
}

func (r *references) number(work string) string {
	i := slices.Index(r.list, work)
	if i < 0 {
		i = len(r.list)
		r.list = append(r.list, work)
	}
	return fmt.Sprintf("[%d]", i+1)
}

func hasSources(v report.View) bool {
	return len(v.Site.Plants) > 0 || slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Load != nil })
}

// sourceRows write the numbered sources out.
func sourceRows(v report.View) []core.Row {
	s := on(v)
	list := s.references().list
	items := make([]item, len(list))
	for i, work := range list {
		items[i] = item{fmt.Sprintf("[%d]", i+1), sentence(work)}
	}
	return append(s.lead(s.say("sources-intro"), bodyStyle), s.columns(items, 3, 6)...)
}
