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

// topics are set in two columns.
func (s sheet) topics(list []matched) []core.Row {
	half := (len(list) + 1) / 2
	rows := make([]cells, half)
	text := func(i int) string { return sentence(s.Words.Line(words.Topics, list[i].code)[0]) }
	for i := range rows {
		rows[i].texts = []string{"– " + text(i), ""}
		if i+half < len(list) {
			rows[i].texts[1] = "– " + text(i+half)
		}
	}
	return s.tableAs(lists, []column{{width: 50}, {width: 50}}, rows)
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
		rows = append(rows, s.dense([]column{{title: s.say("caution"), width: 52}, {title: s.say("why-shown"), width: 40}, {title: s.say("zones"), width: 8, zones: true}}, list)...)
	}
	rows = append(rows, s.part(s.say("topics"))...)
	rows = append(rows, s.lead(s.say("topics-intro", finding.Words("country", or(v.Settings.Country))), bodyStyle)...)
	rows = append(rows, s.topics(s.matches(v.Tables.Topics))...)
	return append(rows, s.paragraph(s.say("deferral"), bodyStyle)...)
}
