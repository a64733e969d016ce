package terminal

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/sensing"
	"thawbook/report"
	"thawbook/report/words"
)

// devices tells what senses: number, place and parts of the devices, the energy-code screen, and how the zone runs.
func (p *page) devices(texts *words.Words, o calc.Outcome) {
	if o.Sensing == nil {
		return
	}
	c := *o.Sensing
	p.heading(texts.Say("explain-sensing"))
	p.labelled(texts.Say("explain-kit"), c.KitName())
	for _, code := range c.Lacking {
		p.labelled(texts.Say("explain-lacking"), texts.Line(words.Reasons, code)[0])
	}
	for _, r := range c.Reasons {
		p.labelled(texts.Say("explain-why"), report.Said(texts, words.Reasons, r))
	}
	for _, n := range c.Numbers {
		p.labelled(report.Pieces(texts, n), or(report.Said(texts, words.Reasons, n.Reasons...), texts.Say("explain-one-does")))
	}
	if c.Plan != nil {
		for _, m := range c.Plan.Marks {
			p.labelled(texts.Say("explain-place"), report.Place(texts, *c.Plan, m)+" "+report.Said(texts, words.Reasons, m.Reasons...))
		}
	}
	p.parts(texts, c.Selection)
	for _, s := range c.Screen {
		p.labelled(report.Asked(texts, s), screenAnswer(s)+report.Said(texts, words.Screen, s.Why))
	}
	p.operation(texts, o.Operation)
}

func screenAnswer(s sensing.Screened) string {
	if s.Asked == "" {
		return ""
	}
	return s.Answer + ": "
}

func (p *page) parts(texts *words.Words, sel *sensing.Selection) {
	if sel == nil {
		return
	}
	for _, piece := range sel.Pieces {
		p.labelled(texts.Say("explain-part"), report.Bought(texts, piece))
	}
	for _, r := range append(append([]sensing.Reason{}, sel.Missing...), sel.Verify...) {
		p.labelled(texts.Say("explain-part-open"), report.Said(texts, words.Reasons, r))
	}
	for _, u := range sel.Unfit {
		p.labelled(texts.Say("explain-part-not"), u.Part+": "+report.Said(texts, words.Reasons, u.Why))
	}
}

// operation tells how the zone runs, state by state.
func (p *page) operation(texts *words.Words, op *calc.Operation) {
	if op == nil || len(op.Sequence) == 0 {
		return
	}
	p.heading(texts.Say("explain-sequence"))
	state := ""
	for _, l := range op.Sequence {
		name := ""
		if l.State != state {
			state, name = l.State, l.State
		}
		p.labelled(name, report.Said(texts, words.Sequence, sensing.Reason{Code: l.Code, Args: l.Args}))
	}
}

func or(text, other string) string {
	if strings.TrimSpace(text) == "" {
		return other
	}
	return text
}
