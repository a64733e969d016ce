package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

func hasSensing(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Sensing != nil })
}

// sensingRows tell for each zone what senses, what is lacking, why, and which kits were rejected.
func sensingRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("sensing-intro"), bodyStyle)
	for _, o := range v.Site.Outcomes {
		if o.Sensing == nil {
			continue
		}
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		rows = append(rows, s.choice(o)...)
		rows = append(rows, s.placing(o)...)
		rows = append(rows, s.parts(o)...)
	}
	return rows
}

func (s sheet) choice(o calc.Outcome) []core.Row {
	c := o.Sensing
	var rows []core.Row
	if len(c.Lacking) > 0 {
		rows = append(rows, s.part(s.say("lacking"))...)
		for _, code := range c.Lacking {
			rows = append(rows, s.bullet(s.reason(code))...)
		}
	}
	lead := ""
	if c.LeadM > 0 {
		lead = s.with(c.LeadM, units.Length)
	}
	rows = append(rows, s.pairs([][2]string{
		{s.say("kit"), c.KitName()}, {s.say("begins"), s.texts(c.Begins)},
		{s.say("controller"), or(c.Controller)}, {s.say("ends"), s.texts(c.Ends)},
		{s.say("lead"), or(lead)}, {s.say("limits"), s.texts(c.Limits)},
		{s.say("strategy"), or(c.Strategy)}, {s.say("stage"), or(o.Zone.Slab.Stage)},
	})...)
	if len(c.Reasons) > 0 {
		rows = append(rows, s.part(s.say("why"))...)
		for _, r := range c.Reasons {
			text := s.reason(r.Code)
			if len(r.Facts) > 0 {
				text += " " + s.say("rests-on", finding.Words("facts", strings.Join(r.Facts, ", ")))
			}
			rows = append(rows, s.bullet(text)...)
		}
	}
	if len(c.Offers) > 0 {
		rows = append(rows, s.part(s.say("offers"))...)
		for _, code := range c.Offers {
			rows = append(rows, s.bullet(s.reason(code))...)
		}
		rows = append(rows, s.options(o.Options)...)
	}
	if len(c.Rejected) > 0 {
		var list []cells
		at := map[string]int{}
		for _, r := range c.Rejected { // kits that one rule rejects stand together
			i, found := at[r.Code]
			if !found {
				at[r.Code] = len(list)
				list = append(list, cells{texts: []string{r.Kit, s.reason(r.Code)}})
				continue
			}
			list[i].texts[0] += "; " + r.Kit
		}
		rows = append(rows, s.part(s.say("rejected"))...)
		rows = append(rows, s.table([]column{{title: s.say("kit"), width: 34}, {title: s.say("why-not"), width: 66}}, list)...)
	}
	return rows
}

// reason returns the sentence of a rule.
func (s sheet) reason(code string) string { return sentence(s.Words.Line(words.Reasons, code)[0]) }

// texts returns the sentences of several codes in one line.
func (s sheet) texts(codes []string) string {
	out := make([]string, len(codes))
	for i, code := range codes {
		table := words.Sentences
		if s.Words.Has(words.Reasons, code) {
			table = words.Reasons
		}
		out[i] = s.Words.Line(table, code)[0]
	}
	return or(strings.Join(out, " "))
}
