package terminal

import (
	"io"
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/record"
	"thawbook/report/words"
)

// Field is what people know a value of the record by, and its quantity.
type Field struct {
	Heading  string
	Quantity units.Quantity
}

// Fields are those of the input sheets, by their names in the record.
type Fields map[string]Field

// comparison is a page that tells what moved.
type comparison struct {
	page
	texts  *words.Words
	fields Fields
}

const mostCauses = 40 // that are listed before the rest is counted

// Changes writes what differs between two runs, what moved, and what moved it.
func Changes(w io.Writer, texts *words.Words, c record.Compared, fields Fields) error {
	p := &comparison{page{w: w}, texts, fields}
	for i, r := range []record.Run{c.Before, c.Now} {
		code := [...]string{"changes-before", "changes-now"}[i]
		p.text(0, texts.Say(code, finding.Words("file", r.File), finding.Words("input", r.Input), finding.Words("version", r.Program.Name+" "+r.Program.Version)))
	}
	p.differing(c.Causes)
	p.line("")
	switch {
	case len(c.Changes) > 0:
		p.line(texts.Say("changes-moved"))
	case len(c.Ways) == 0:
		p.line(texts.Say("changes-none"))
	}
	for i, m := range c.Moved() {
		if i == 0 || movedIn(m) != movedIn(c.Moved()[i-1]) {
			p.text(2, movedIn(m))
		}
		p.moved(m)
		if last := i == len(c.Changes)-1; last || movedIn(m) != movedIn(c.Moved()[i+1]) || !slices.Equal(c.Changes[i].Causes, c.Changes[i+1].Causes) {
			p.why(c, c.Changes[i].Causes)
		}
	}
	p.ways(c.Ways)
	return p.err
}

// ways tells what moved of alternatives and decisions; all that differs above may have moved it.
func (p *comparison) ways(list []record.WayMoved) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line(p.texts.Say("changes-ways"))
	before := ""
	for _, w := range list {
		of := w.Site
		if w.Alternative != nil {
			of += ", " + *w.Alternative
		}
		if of != before {
			p.text(2, of)
		}
		before = of
		shown := func(v record.Value) string {
			if w.Money() && v.Number.Known {
				return p.texts.Show.Plain(v.Number.Value, cost.Decimals(p.texts.Show.Currency)) + " " + p.texts.Show.Currency
			}
			return p.word(v.Word)
		}
		p.text(4, p.texts.Say("changes-line", finding.Words("what", p.texts.Say("change-way-"+strings.ReplaceAll(w.What, "_", "-"))), finding.Words("before", shown(w.Before)), finding.Words("now", shown(w.Now))))
	}
}

func movedIn(m report.Change) string { return m.Site + "/" + m.Zone }

// ChangesJSON writes the same for other programs.
func ChangesJSON(w io.Writer, c record.Compared) error { return writeJSON(w, c) }

func (p *comparison) differing(causes []record.Cause) {
	p.line("")
	if len(causes) == 0 {
		p.line(p.texts.Say("changes-same-input"))
		return
	}
	p.line(p.texts.Say("changes-differs"))
	for _, c := range causes[:min(len(causes), mostCauses)] {
		p.text(2, p.cause(c))
	}
	if left := len(causes) - mostCauses; left > 0 {
		p.text(2, p.texts.Say("changes-more", number(p.texts, "count", left)))
	}
}

// cause tells a cause with what it was and is.
func (p *comparison) cause(c record.Cause) string {
	f := p.fields[c.Name]
	name := f.Heading
	if name == "" {
		name = c.Name
	}
	return p.texts.Say(c.Kind, finding.Words("place", place(c)), finding.Words("name", name), finding.Words("before", p.value(c.Before.Value, f.Quantity)), finding.Words("now", p.value(c.Now.Value, f.Quantity)))
}

// place is the zone of a cause, or the row of a price.
func place(c record.Cause) string {
	of := func(a, b *string) string { return *a + "/" + *b }
	switch {
	case c.Site != nil && c.Zone != nil:
		return of(c.Site, c.Zone)
	case c.Sheet != nil && c.Row != nil:
		return of(c.Sheet, c.Row)
	}
	return ""
}

// value writes a value of the record in the reader's unit.
func (p *comparison) value(v record.Value, q units.Quantity) string {
	switch {
	case v.Word != "":
		return v.Word
	case !v.Number.Known:
		return p.texts.Say("changes-blank")
	case q == units.Share:
		return p.texts.Show.With(v.Number.Value, q)
	case q == units.Number:
		return p.texts.Show.Digits(v.Number.Value, priceDigits)
	}
	return p.texts.Show.With(q.In(units.SI).ToBase(v.Number.Value), q)
}

const priceDigits = 7 // as many as the record holds

func (p *comparison) moved(m report.Change) {
	show := p.texts.Show
	was, is := p.number(m, m.Before), p.number(m, m.Now)
	if m.Quantity == units.Text && !m.Money {
		was, is = p.word(m.BeforeText), p.word(m.NowText)
	} else if was == is {
		was, is = p.exact(m, m.Before.Value), p.exact(m, m.Now.Value)
	}
	line := p.texts.Say("changes-line", finding.Words("what", p.texts.Say(m.What)), finding.Words("before", was), finding.Words("now", is))
	if share := m.Share(); share.Known {
		sign := ""
		if share.Value > 0 {
			sign = "+"
		}
		line += " (" + sign + show.With(share.Value, units.Share) + ")"
	}
	p.text(4, line)
}

func (p *comparison) number(m report.Change, v units.Maybe[float64]) string {
	show := p.texts.Show
	switch {
	case !v.Known:
		return p.texts.Say("changes-blank")
	case m.Money:
		return show.Plain(v.Value, cost.Decimals(show.Currency)) + " " + show.Currency
	}
	return show.With(v.Value, m.Quantity)
}

// exact writes a number with more digits than are usual, where those usual do not show that it moved.
func (p *comparison) exact(m report.Change, v float64) string {
	show := p.texts.Show
	if m.Money {
		return p.number(m, units.Some(v))
	}
	return strings.TrimSpace(show.Digits(m.Quantity.In(show.Units).FromBase(v), priceDigits) + " " + show.Unit(m.Quantity))
}

func (p *comparison) word(text string) string {
	if text == "" {
		return p.texts.Say("changes-blank")
	}
	return text
}

// why tells what moved the results above: one cause alone did; several may have, each or together.
func (p *comparison) why(c record.Compared, causes []int) {
	switch len(causes) {
	case 0:
		p.text(6, p.texts.Say("changes-unexplained"))
	case 1:
		p.text(6, p.texts.Say("changes-by", finding.Words("cause", p.cause(c.Causes[causes[0]]))))
	default:
		p.text(6, p.texts.Say("changes-by-several"))
		for _, at := range causes[:min(len(causes), mostBehind)] {
			p.text(8, p.cause(c.Causes[at]))
		}
		if left := len(causes) - mostBehind; left > 0 {
			p.text(8, p.texts.Say("changes-more", number(p.texts, "count", left)))
		}
	}
}

const mostBehind = 5 // causes that are listed behind a result
