package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/report"
	"thawbook/report/words"
)

func hasCautions(v report.View) bool { return len(v.Site.Outcomes) > 0 }

// matched is a code that fits some zones.
type matched struct {
	code  string
	zones []calc.Outcome
}

// matches asks a decision table for every zone; a code that several zones call for stands once.
func (s sheet) matches(t facts.Table) []matched {
	var out []matched
	at := map[string]int{}
	for _, o := range s.Site.Outcomes {
		for _, code := range t.Codes(o.Facts(s.Settings)) {
			i, found := at[code]
			if !found {
				i = len(out)
				at[code] = i
				out = append(out, matched{code: code})
			}
			out[i].zones = append(out[i].zones, o)
		}
	}
	return out
}

// topics are what to ask, in two columns.
func (s sheet) topics(list []matched) []core.Row {
	items := make([]item, len(list))
	for i, m := range list {
		items[i] = item{"–", sentence(s.Words.Line(words.Topics, m.code)[0])}
	}
	return s.columns(items, 2, 3)
}

// cautionRows are what can hurt someone on this site, with why each is shown, and what to ask the authority having jurisdiction.
func cautionRows(v report.View) []core.Row {
	s := on(v)
	var rows []core.Row
	if found := s.matches(v.Tables.Cautions); len(found) > 0 {
		rows = append(rows, s.lead(s.say("cautions-intro"), bodyStyle)...)
		list := make([]cells, len(found))
		for i, m := range found {
			line := v.Words.Line(words.Cautions, m.code)
			list[i] = cells{texts: []string{sentence(line[0]), s.ids(m.zones)}, aside: sentence(line[1])}
		}
		rows = append(rows, s.dense([]column{{title: s.say("caution"), width: 92, aside: true}, {title: s.say("zones"), width: 8, zones: true}}, list)...)
	}
	rows = append(rows, s.part(s.say("topics"))...)
	rows = append(rows, s.lead(s.say("topics-intro", finding.Words("country", or(v.Settings.Country))), bodyStyle)...)
	rows = append(rows, s.topics(s.matches(v.Tables.Topics))...)
	return append(rows, s.paragraph(s.say("deferral"), bodyStyle)...)
}
