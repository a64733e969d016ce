package ingest

import (
	"math"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
	"thawbook/ingest/sheet"
)

// placed is a column where a sheet has it.
type placed[T any] struct {
	columns.Column[T]
	col     int    // 0: the sheet has no such column
	typed   string // its heading as typed
	measure measure
	folded  map[string]string // choices and their synonyms, folded
	words   []string          // the folded choices alone
}

// taken is what was read of one cell.
type taken struct {
	entry    calc.Entry
	findings []finding.Finding
	failed   bool
}

// place makes a column ready to be read under a heading.
func place[T any](c columns.Column[T], col int, heading string) placed[T] {
	p := placed[T]{Column: c, col: col, typed: heading}
	p.measure = measure{quantity: c.Quantity, percentAbove: c.PercentAbove, money: c.Money}
	if len(c.Choices) == 0 {
		return p
	}
	p.folded = map[string]string{}
	for word, choice := range c.Synonyms {
		p.folded[word] = choice
	}
	for _, choice := range c.Choices {
		p.folded[foldAll(choice)] = choice
		p.words = append(p.words, foldAll(choice))
	}
	return p
}

// read puts the value of a cell into v.
func (p *placed[T]) read(r reading, c sheet.Cell, v *T) taken {
	t := taken{entry: calc.Entry{Field: p.Field, Heading: p.typed, Typed: shownText(c)}}
	switch {
	case c.Is(sheet.Error) || isErrorValue(c.Text):
		t.fail(CodeErrorValue)
	case c.Is(sheet.Uncalculated):
		t.fail(CodeNoValue)
	default:
		p.put(r, c, v, &t)
	}
	for i := range t.findings {
		f := &t.findings[i]
		f.Field = p.Field
		f.Args = append([]finding.Arg{finding.Words("heading", p.Heading), finding.Words("typed", t.entry.Typed)}, f.Args...)
	}
	return t
}

// shownText is the text of a cell as a person sees it.
func shownText(c sheet.Cell) string {
	switch {
	case c.Shown != "":
		return c.Shown
	case c.Is(sheet.Bool) && c.Text == "1":
		return "TRUE"
	case c.Is(sheet.Bool):
		return "FALSE"
	}
	return clean(c.Text)
}

// isErrorValue tells the error values of a spreadsheet, as text.
func isErrorValue(text string) bool {
	switch clean(text) {
	case "#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#SPILL!", "#CALC!":
		return true
	}
	return false
}

func (t *taken) fail(code finding.Code, args ...finding.Arg) {
	t.failed = true
	t.findings = append(t.findings, finding.Finding{Code: code, Severity: finding.Error, Args: args})
}

func (t *taken) tell(s finding.Severity, code finding.Code, args ...finding.Arg) {
	t.findings = append(t.findings, finding.Finding{Code: code, Severity: s, Args: args})
}

// put reads the cell as the kind of place that the column points to.
func (p *placed[T]) put(r reading, c sheet.Cell, v *T, t *taken) {
	switch to := p.At(v).(type) {
	case *string:
		p.putText(c, to, t)
	case *float64:
		if x, ok := p.number(r, c, t); ok {
			*to = x
		}
	case *units.Maybe[float64]:
		if x, ok := p.number(r, c, t); ok {
			*to = units.Some(x)
		}
	case columns.Amount:
		if x, ok := p.number(r, c, t); ok {
			*to.Value, *to.Known = x, true
		}
	case *bool:
		if word, ok := p.choice(c, t); ok {
			*to = word == p.Choices[1]
		}
	case *units.Maybe[bool]:
		if word, ok := p.choice(c, t); ok {
			*to = units.Some(word == p.Choices[1])
		}
	case *units.System:
		if word, ok := p.choice(c, t); ok && word == p.Choices[1] {
			*to = units.IP
		}
	case *calc.Pipe:
		p.putPipe(r, c, to, t)
	case *season.Day:
		p.putDay(c, to, t)
	case *columns.Date:
		*to = columns.Date(shownText(c))
		t.entry.Word = string(*to)
	case *columns.Month:
		p.putMonth(c, to, t)
	case *columns.NumberList:
		p.putNumbers(r, c, to, t)
	case *columns.ChoiceList:
		p.putChoices(c, to, t)
	}
}

func (p *placed[T]) putText(c sheet.Cell, to *string, t *taken) {
	if len(p.Choices) > 0 {
		if word, ok := p.choice(c, t); ok {
			*to = word
		}
		return
	}
	*to = text(c)
	t.entry.Word = *to
	if c.Is(sheet.Date) {
		t.tell(finding.Info, CodeDateInText)
	}
}

// text is the cell as words: a long whole number without its exponent, a date as it is seen, spaces as one.
func text(c sheet.Cell) string {
	s := shownText(c)
	if c.Is(sheet.Number) && strings.ContainsAny(s, "eE") {
		if v, err := strconv.ParseFloat(s, 64); err == nil {
			return strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	return strings.Join(strings.Fields(s), " ")
}

// number reads the cell as a number of the column and holds it to the column's range.
func (p *placed[T]) number(r reading, c sheet.Cell, t *taken) (float64, bool) {
	f, code := r.number(c, p.measure)
	t.entry.Quantity, t.entry.Number = p.Quantity, f.value
	if code != "" {
		t.entry.Quantity, t.entry.Word = units.Text, t.entry.Typed
		t.fail(code, finding.Words("unit", p.Quantity.In(r.system).Symbol))
		return 0, false
	}
	value := finding.Value("value", f.value, p.Quantity)
	if p.Ranged() && !within(f.value, p.Min, p.Max) {
		code := CodeOutOfRange
		if p.RangeCode != "" {
			code = p.RangeCode
		}
		t.fail(code, value, finding.Value("least", p.Min, p.Quantity), finding.Value("most", p.Max, p.Quantity))
		return 0, false
	}
	if p.Quantity == units.Count && f.value != math.Trunc(f.value) {
		t.fail(CodeNotWhole, value)
		return 0, false
	}
	switch {
	case f.fraction:
		t.tell(finding.Info, CodeFraction, value)
	case f.ambiguous:
		t.tell(finding.Info, CodeNumberAmbiguous, value)
	case f.repaired:
		t.tell(finding.Info, CodeNumberRead, value)
	}
	return f.value, true
}

// within allows for what a conversion does to the last digits of a limit.
func within(v, least, most float64) bool {
	slack := 1e-9 * max(math.Abs(least), math.Abs(most))
	return v >= least-slack && v <= most+slack
}

// choice finds the choice that a word means.
func (p *placed[T]) choice(c sheet.Cell, t *taken) (string, bool) {
	word, near := p.choose(shownText(c))
	if word == "" && c.Is(sheet.Bool) {
		word, near = p.choose(c.Text)
	}
	if word == "" {
		t.entry.Word = t.entry.Typed
		t.fail(CodeNotChoice, finding.Words("choices", strings.Join(p.Choices, ", ")))
		return "", false
	}
	t.entry.Word = word
	if near {
		t.tell(finding.Warning, CodeChoiceRepaired, finding.Words("taken", word))
	}
	return word, true
}

// choose returns the choice that is written like a word, and whether letters had to be mended.
func (p *placed[T]) choose(typed string) (word string, near bool) {
	for _, choice := range p.Choices {
		if strings.EqualFold(choice, typed) {
			return choice, false
		}
	}
	for _, key := range []string{fold(typed), foldAll(typed)} {
		if choice, found := p.folded[key]; found {
			return choice, false
		}
	}
	if like := nearest(fold(typed), p.words); like != "" {
		return p.folded[like], true
	}
	return "", false
}

func (p *placed[T]) putPipe(r reading, c sheet.Cell, to *calc.Pipe, t *taken) {
	t.entry.Word = t.entry.Typed
	typed := t.entry.Typed
	if p.measure.told && c.Is(sheet.Number) {
		typed += " " + p.measure.unit.Symbol
	}
	pipe, ok := r.pipe(typed)
	if !ok {
		t.fail(CodePipe)
		return
	}
	if !within(pipe.OuterM, p.Min, p.Max) {
		t.fail(CodeOutOfRange, finding.Value("value", pipe.OuterM, p.Quantity), finding.Value("least", p.Min, p.Quantity), finding.Value("most", p.Max, p.Quantity))
		return
	}
	*to = pipe
}

func (p *placed[T]) putDay(c sheet.Cell, to *season.Day, t *taken) {
	d, ok := day(shownText(c))
	t.entry.Word = t.entry.Typed
	if !ok {
		t.fail(CodeNotDay)
		return
	}
	*to = d
}

func (p *placed[T]) putMonth(c sheet.Cell, to *columns.Month, t *taken) {
	m := month(shownText(c))
	t.entry.Word = t.entry.Typed
	if m == 0 {
		t.fail(CodeNotMonth)
		return
	}
	*to = columns.Month(m)
}

func (p *placed[T]) putNumbers(r reading, c sheet.Cell, to *columns.NumberList, t *taken) {
	if c.Is(sheet.Number) {
		if v, ok := p.number(r, c, t); ok {
			*to = columns.NumberList(strconv.FormatFloat(v, 'g', -1, 64))
		}
		return
	}
	var list []string
	for _, one := range split(c.Text) {
		v, ok := p.number(r, sheet.Cell{Row: c.Row, Col: c.Col, Text: one}, t)
		if !ok {
			return
		}
		list = append(list, strconv.FormatFloat(v, 'g', -1, 64))
	}
	t.entry.Quantity, t.entry.Word = units.Text, strings.Join(list, "; ")
	*to = columns.NumberList(t.entry.Word)
}

func (p *placed[T]) putChoices(c sheet.Cell, to *columns.ChoiceList, t *taken) {
	var list []string
	for _, one := range split(c.Text) {
		word, ok := p.choice(sheet.Cell{Row: c.Row, Col: c.Col, Text: one}, t)
		if !ok {
			return
		}
		list = append(list, word)
	}
	t.entry.Word = strings.Join(list, "; ")
	*to = columns.ChoiceList(t.entry.Word)
}

// split parts a list at its semicolons and lines.
func split(list string) []string {
	var out []string
	for _, one := range strings.FieldsFunc(list, func(r rune) bool { return r == ';' || r == '\n' }) {
		if one = clean(one); one != "" {
			out = append(out, one)
		}
	}
	return out
}

// fillDefault puts the column's default into v and returns it as it is to be listed; false where the column has none, or one that is not worth
// listing.
func (p *placed[T]) fillDefault(r reading, v *T) (calc.Default, bool) {
	text := p.Default
	if r.system == units.IP && p.DefaultIP != "" {
		text = p.DefaultIP
	}
	if text == "" {
		return calc.Default{}, false
	}
	c := sheet.Cell{Text: text}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		c.Mark = sheet.Number
	}
	t := taken{entry: calc.Entry{Typed: text}}
	bareColumn := *p
	bareColumn.measure.told = false // a default brings its own unit, whatever the heading's
	bareColumn.put(reading{system: r.system}, c, v, &t)
	d := calc.Default{Field: p.Field, Number: t.entry.Number, Quantity: t.entry.Quantity, Word: t.entry.Word, Source: p.DefaultSource}
	return d, p.DefaultSource != ""
}
