package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/sensing"
	"thawbook/report"
	"thawbook/report/words"
)

func hasOperation(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Operation != nil && len(o.Operation.Sequence) > 0 })
}

func hasScreen(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Sensing != nil && len(o.Sensing.Screen) > 0 })
}

// sequenceRows tell state by state how each zone runs, with its set points; zones that run alike stand together.
func sequenceRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("sequence-intro"), bodyStyle)
	keys, zones := groups(v.Site.Outcomes, func(o calc.Outcome) (string, bool) {
		if o.Operation == nil || len(o.Operation.Sequence) == 0 {
			return "", false
		}
		return strings.Join(s.sequence(o.Operation.Sequence), "\n"), true
	})
	cols := []column{{title: s.say("state"), width: 18}, {title: s.say("what-happens"), width: 82}}
	for _, k := range keys {
		rows = append(rows, s.zoneHeading(s.zonesTitle(len(zones[k]), s.names(zones[k])))...)
		lines := zones[k][0].Operation.Sequence
		var list []cells
		state := ""
		for i, text := range s.sequence(lines) {
			name := ""
			if lines[i].State != state {
				state = lines[i].State
				name = capital(state)
			}
			if name == "" && state != faults {
				list[len(list)-1].texts[1] += " " + text
				continue
			}
			list = append(list, cells{texts: []string{name, text}})
		}
		rows = append(rows, s.dense(cols, list)...)
	}
	return rows
}

// faults is the state whose lines are not read one after another: each stands by itself.
const faults = "sensor fault"

// sequence returns the sentences of a sequence.
func (s sheet) sequence(lines []sensing.Line) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = sentence(s.Words.Line(words.Sequence, l.Code, l.Args...)[0])
	}
	return out
}

// screenRows are what an energy code asks of the control and whether the set can do it, the questions behind it, and the deferral.
func screenRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("screen-intro"), bodyStyle)
	said, zones := groups(v.Site.Outcomes, func(o calc.Outcome) (string, bool) {
		if o.Sensing == nil || len(o.Sensing.Screen) == 0 {
			return "", false
		}
		return s.screened(*o.Sensing), true
	})
	cols := []column{{title: s.say("asked"), width: 27}, {title: s.say("answer"), width: 14}, {title: s.say("why"), width: 47}, {title: s.say("zones"), width: 12, zones: true}}
	var list []cells
	var questions []string
	for _, asked := range []string{sensing.AskedPavement, sensing.AskedOutdoor, sensing.AskedMoisture, ""} {
		for _, k := range said {
			for _, x := range zones[k][0].Sensing.Screen {
				why := report.Said(s.Words, words.Screen, x.Why)
				switch {
				case x.Asked != asked:
				case asked != "":
					list = append(list, cells{texts: []string{report.Asked(s.Words, x), x.Answer, why, s.ids(zones[k])}})
				case !slices.Contains(questions, why):
					questions = append(questions, why)
				}
			}
		}
	}
	rows = append(rows, s.dense(cols, list)...)
	if len(questions) > 0 {
		rows = append(rows, s.part(s.say("ask-authority"))...)
		for _, q := range questions {
			rows = append(rows, s.bullet(q)...)
		}
	}
	return append(rows, s.paragraph(s.say("screen-deferral"), bodyStyle)...)
}

// screened is all that the screen says of a set, so that zones of which the same is said stand together.
func (s sheet) screened(c sensing.Choice) string {
	var b strings.Builder
	for _, x := range c.Screen {
		b.WriteString(x.Asked + "\t" + x.Answer + "\t" + report.Said(s.Words, words.Screen, x.Why) + "\n")
	}
	return b.String()
}
