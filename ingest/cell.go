package ingest

import (
	"math"
	"regexp"
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
	p.measure = measure{quantity: c.Quantity, percentAbove: c.PercentAbove, money: c.Money, directions: c.Directions}
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
		if p.Bookkeeping && f.Severity == finding.Error {
			f.Severity = finding.Warning
		}
	}
	t.failed = t.failed && !p.Bookkeeping
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
	case c.Is(sheet.Number):
		return typedNumber(clean(c.Text))
	}
	return clean(c.Text)
}

// shownDigits are the digits of a number that a spreadsheet shows at most; those behind are noise of the binary fraction it stores.
const shownDigits = 15

// typedNumber writes a stored number as it was typed: without noise and without an exponent, unless it is beyond what anyone types.
func typedNumber(stored string) string {
	digits := strings.TrimLeft(strings.NewReplacer("-", "", ".", "").Replace(stored), "0")
	v, err := strconv.ParseFloat(stored, 64)
	if err != nil || !strings.ContainsAny(stored, ".eE") || !strings.ContainsAny(stored, "eE") && len(digits) <= shownDigits {
		return stored
	}
	return plainNumber(v)
}

// plainNumber writes a number with the digits that a spreadsheet shows.
func plainNumber(v float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', shownDigits, 64), 64)
	if size := math.Abs(v); err != nil || size >= 1e21 || size != 0 && size < 1e-12 {
		return strconv.FormatFloat(v, 'g', shownDigits, 64)
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
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
		p.putDate(c, to, t)
	case *columns.Pattern:
		p.putPattern(c, to, t)
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
	if c.Padded != "" {
		*to, t.entry.Typed = c.Padded, c.Padded
	}
	t.entry.Word = *to
	if c.Is(sheet.Date) {
		t.tell(finding.Info, CodeDateInText)
	}
}

// text is the cell as words, as it is seen, with spaces as one.
func text(c sheet.Cell) string { return strings.Join(strings.Fields(shownText(c)), " ") }

// number reads the cell as a number of the column and holds it to the column's range.
func (p *placed[T]) number(r reading, c sheet.Cell, t *taken) (float64, bool) {
	f, code := r.number(c, p.measure)
	t.entry.Quantity, t.entry.Number = p.Quantity, f.value
	if code == CodeNotNumber && p.Required {
		code = CodeNumberRequired
	}
	if code != "" {
		t.entry.Quantity, t.entry.Word = units.Text, t.entry.Typed
		t.fail(code, finding.Words("unit", p.Quantity.In(r.system).Symbol))
		return 0, false
	}
	value := finding.Typed("value", f.value, p.Quantity)
	if p.Ranged() && !within(f.value, p.Min, p.Max) {
		t.fail(p.rangeCode(), value, finding.Typed("least", p.Min, p.Quantity), finding.Typed("most", p.Max, p.Quantity))
		return 0, false
	}
	if whole[p.Quantity] && f.value != math.Trunc(f.value) {
		t.fail(CodeNotWhole)
		return 0, false
	}
	switch {
	case f.fraction:
		t.tell(finding.Info, CodeFraction, value)
	case f.ambiguous && r.markTold:
		t.tell(finding.Info, CodeMarkAmbiguous, value)
	case f.ambiguous:
		t.tell(finding.Info, CodeNumberAmbiguous, value)
	case f.repaired:
		t.tell(finding.Info, CodeNumberRead, value)
	}
	return f.value, true
}

// whole are the quantities that come in whole numbers only.
var whole = map[units.Quantity]bool{units.Count: true, units.Years: true, units.Months: true}

// rangeCode returns the code of a number outside the column's range.
func (p *placed[T]) rangeCode() finding.Code {
	switch {
	case p.RangeCode != "":
		return p.RangeCode
	case p.Max >= columns.Most:
		return CodeTooSmall
	}
	return CodeOutOfRange
}

// slack allows for what a conversion does to the last digits of a limit. A limit of 0 has none.
const slack = 1e-9

func within(v, least, most float64) bool {
	return v >= least-slack*math.Abs(least) && v <= most+slack*math.Abs(most)
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
		t.fail(CodeOutOfRange, finding.Typed("value", pipe.OuterM, p.Quantity), finding.Typed("least", p.Min, p.Quantity), finding.Typed("most", p.Max, p.Quantity))
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

// putDate keeps the words that stand in a date's place, and tells them.
func (p *placed[T]) putDate(c sheet.Cell, to *columns.Date, t *taken) {
	*to = columns.Date(shownText(c))
	t.entry.Word = string(*to)
	if !c.Is(sheet.Date) && !isDate(string(*to)) {
		t.tell(finding.Warning, CodeNotDate)
	}
}

// putPattern keeps a pattern as it is, and tells what in it is filled by nothing.
func (p *placed[T]) putPattern(c sheet.Cell, to *columns.Pattern, t *taken) {
	*to = columns.Pattern(text(c))
	t.entry.Word = string(*to)
	rest := t.entry.Word
	for _, known := range columns.Placeholders() {
		rest = strings.ReplaceAll(rest, known, "")
	}
	if strange := placeholder.FindString(rest); strange != "" {
		t.tell(finding.Warning, CodePlaceholder, finding.Words("placeholder", strange), finding.Words("choices", strings.Join(columns.Placeholders(), ", ")))
	}
}

// placeholder is what looks like one, closed or not.
var placeholder = regexp.MustCompile(`\{[^{}]*\}?|\}`)

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
