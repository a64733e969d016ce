package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/report"
	"thawbook/report/words"
)

func hasChecklist(v report.View) bool {
	for _, o := range v.Site.Outcomes {
		if o.Sensing != nil && len(o.Sensing.Checklist) > 0 {
			return true
		}
	}
	return false
}

// checklistRows are the siting lines by phase, each with the failure it prevents, the zones it is for and a box to tick.
func checklistRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("checklist-intro"), bodyStyle)
	zones := map[string][]calc.Outcome{}
	for _, o := range v.Site.Outcomes {
		if o.Sensing == nil {
			continue
		}
		for _, code := range o.Sensing.Checklist {
			zones[code] = append(zones[code], o)
		}
	}
	cols := []column{{title: "", width: 3}, {title: s.say("do"), width: 52}, {title: s.say("prevents"), width: 37}, {title: s.say("zones"), width: 8, zones: true}}
	phase := ""
	var list []cells
	for _, code := range v.Words.Codes(words.Checklist) { // the file's order is the order of phases
		if zones[code] == nil {
			continue
		}
		line := v.Words.Line(words.Checklist, code)
		if line[0] != phase {
			phase = line[0]
			list = append(list, cells{texts: []string{"", capital(phase), "", ""}, group: true})
		}
		list = append(list, cells{texts: []string{"□", line[1], line[2], s.ids(zones[code])}})
	}
	return append(rows, s.dense(cols, list)...)
}
