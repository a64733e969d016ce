package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/sensing"
	"thawbook/report"
	"thawbook/report/words"
)

func hasChecks(v report.View) bool { return hasSiting(v) || hasTests(v) || hasCare(v) }

// checkRows are what is ticked and signed by hand: siting, commissioning and yearly care.
func checkRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("checklist-intro"), bodyStyle)
	if hasSiting(v) {
		rows = append(rows, s.siting()...)
	}
	if hasTests(v) {
		rows = append(rows, s.commissioning()...)
	}
	if hasCare(v) {
		rows = append(rows, s.care()...)
	}
	return rows
}

func hasTests(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Operation != nil && len(o.Operation.Tests) > 0 })
}

func hasCare(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Operation != nil && len(o.Operation.Care) > 0 })
}

func hasSiting(v report.View) bool {
	for _, o := range v.Site.Outcomes {
		if o.Sensing != nil && len(o.Sensing.Checklist) > 0 {
			return true
		}
	}
	return false
}

// ticked are the columns of what is ticked: the failure that a line prevents runs on behind it.
func (s sheet) ticked() []column {
	return []column{{width: 3}, {title: s.say("do"), width: 89, aside: true}, {title: s.say("zones"), width: 8, zones: true}}
}

// siting are the siting lines by phase, each with the failure it prevents, the zones it is for and a box to tick.
func (s sheet) siting() []core.Row {
	zones := map[string][]calc.Outcome{}
	for _, o := range s.Site.Outcomes {
		if o.Sensing == nil {
			continue
		}
		for _, code := range o.Sensing.Checklist {
			zones[code] = append(zones[code], o)
		}
	}
	cols := s.ticked()
	phase := ""
	var list []cells
	for _, code := range s.Words.Codes(words.Checklist) { // the file's order is the order of phases
		if zones[code] == nil {
			continue
		}
		line := s.Words.Line(words.Checklist, code)
		if line[0] != phase {
			phase = line[0]
			list = append(list, cells{texts: []string{"", capital(phase), ""}, group: true})
		}
		list = append(list, cells{texts: []string{"□", line[1], s.ids(zones[code])}, aside: line[2]})
	}
	return append(s.part(s.say("checks-siting")), s.dense(cols, append(list, s.optionLines()...))...)
}

// optionLines are the siting lines of offers that are not the choice, under a heading that says so.
func (s sheet) optionLines() []cells {
	zones := map[string][]calc.Outcome{}
	for _, o := range s.Site.Outcomes {
		seen := map[string]bool{} // two options of a zone share lines
		for _, option := range o.Options {
			for _, code := range option.Checklist {
				if !seen[code] {
					zones[code] = append(zones[code], o)
				}
				seen[code] = true
			}
		}
	}
	if len(zones) == 0 {
		return nil
	}
	list := []cells{{texts: []string{"", s.say("checks-option"), ""}, group: true}}
	for _, code := range s.Words.Codes(words.Checklist) {
		if zones[code] != nil {
			line := s.Words.Line(words.Checklist, code)
			list = append(list, cells{texts: []string{"□", line[1], s.ids(zones[code])}, aside: line[2]})
		}
	}
	return list
}

// commissioning are the tests with their pass values for this site, and room for what was measured and who saw it.
func (s sheet) commissioning() []core.Row {
	cols := []column{{title: s.say("test"), width: 38}, {title: s.say("passes"), width: 34}, {title: s.say("zones"), width: 8, zones: true}, {title: s.say("found"), width: 11}, {title: s.say("initials"), width: 9}}
	var list []cells
	for _, l := range s.spoken(words.Tests, func(o calc.Operation) []sensing.Line { return o.Tests }) {
		list = append(list, cells{texts: []string{l.texts[0], l.texts[1], s.ids(l.zones), "", ""}, least: 6})
	}
	return append(s.part(s.say("checks-tests")), s.dense(cols, list)...)
}

// care is what keeps it working, by season, each line with the failure it prevents.
func (s sheet) care() []core.Row {
	cols := s.ticked()
	when := ""
	var list []cells
	for _, l := range s.spoken(words.Care, func(o calc.Operation) []sensing.Line { return o.Care }) {
		if l.texts[0] != when {
			when = l.texts[0]
			list = append(list, cells{texts: []string{"", capital(when), ""}, group: true})
		}
		list = append(list, cells{texts: []string{"□", l.texts[1], s.ids(l.zones)}, aside: l.texts[2]})
	}
	return append(s.part(s.say("checks-care")), s.dense(cols, list)...)
}
