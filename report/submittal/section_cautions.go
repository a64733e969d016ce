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

// cautionRows are what can hurt someone on this site, with why each is shown, and what to ask the authority having jurisdiction.
func cautionRows(v report.View) []core.Row {
	s := on(v)
	var rows []core.Row
	if found := s.matches(v.Tables.Cautions); len(found) > 0 {
		rows = append(rows, s.lead(s.say("cautions-intro"), bodyStyle)...)
		list := make([]cells, len(found))
		for i, m := range found {
			line := v.Words.Line(words.Cautions, m.code)
			list[i] = cells{texts: []string{sentence(line[0]), sentence(line[1]), s.ids(m.zones)}}
		}
		rows = append(rows, s.table([]column{{title: s.say("caution"), width: 55}, {title: s.say("why-shown"), width: 36}, {title: s.say("zones"), width: 9}}, list)...)
	}
	rows = append(rows, s.part(s.say("topics"))...)
	rows = append(rows, s.lead(s.say("topics-intro", finding.Words("country", or(v.Settings.Country))), bodyStyle)...)
	for _, m := range s.matches(v.Tables.Topics) {
		rows = append(rows, s.bullet(sentence(v.Words.Line(words.Topics, m.code)[0]))...)
	}
	return append(rows, s.paragraph(s.say("deferral"), bodyStyle)...)
}
