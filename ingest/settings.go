package ingest

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
	"thawbook/ingest/sheet"
)

// settingsReader reads the lines of Settings: a name and, right of it, a value.
type settingsReader struct {
	sheet    string
	lines    []placed[calc.Settings]
	names    map[string]int
	cells    map[int]sheet.Cell // values met, by place in lines
	headings map[int]string
	rates    []rateLine
	rows     map[finding.Field]finding.Cell
	findings []finding.Finding
}

type rateLine struct {
	currency string
	name     string
	cell     sheet.Cell
}

// readSettings reads the sheet. The units and the decimal mark are settled before any number is read.
func readSettings(s sheet.Sheet) (calc.Settings, *settingsReader, error) {
	r := &settingsReader{sheet: s.Name, names: map[string]int{}, cells: map[int]sheet.Cell{}, headings: map[int]string{}, rows: map[finding.Field]finding.Cell{}}
	for i, c := range columns.Settings() {
		r.lines = append(r.lines, place(c, 0, c.Heading))
		for _, name := range append([]string{c.Heading}, c.Aliases...) {
			r.names[fold(name)] = i
		}
	}
	if s.Rows != nil {
		for row, err := range s.Rows {
			if err != nil {
				return calc.Settings{}, r, err
			}
			r.line(row)
		}
	}
	return r.settle(), r, nil
}

// line notes one name with its value.
func (r *settingsReader) line(row sheet.Row) {
	name := row.Cells[0]
	if name.Is(sheet.Number) || len(row.Cells) < 2 && !r.known(name.Text) {
		return // a title, a note
	}
	var value sheet.Cell
	if len(row.Cells) > 1 && row.Cells[1].Col == name.Col+1 {
		value = row.Cells[1] // farther right stand notes
	}
	if currency, isRate := rateOf(name.Text); isRate {
		r.rate(currency, name, value)
		return
	}
	i, known := r.names[fold(name.Text)]
	_, had := r.cells[i]
	switch {
	case !known:
		r.unknown(name, value)
	case value.Text == "" && !value.Is(sheet.Uncalculated):
		r.rows[r.lines[i].Field] = cellAt(r.sheet, name.Row, name.Col+1)
	case had:
		r.tell(finding.Warning, CodeSettingTwice, name, finding.Words("typed", clean(name.Text)))
	default:
		r.cells[i], r.headings[i] = value, clean(name.Text)
		r.rows[r.lines[i].Field] = cellAt(r.sheet, value.Row, value.Col)
	}
}

func (r *settingsReader) known(name string) bool {
	_, known := r.names[fold(name)]
	return known
}

// unknown tells a name that is left alone. The headings of the sheet are none.
func (r *settingsReader) unknown(name, value sheet.Cell) {
	if second := fold(value.Text); second == "value" || second == "values" {
		return
	}
	typed := finding.Words("typed", clean(name.Text))
	words := make([]string, 0, len(r.names))
	for w := range r.names {
		words = append(words, w)
	}
	if near := nearest(fold(name.Text), words); near != "" {
		r.tell(finding.Warning, CodeSettingMisspelt, name, typed, finding.Words("heading", r.lines[r.names[near]].Heading))
		return
	}
	r.tell(finding.Info, CodeSettingUnknown, name, typed)
}

// rateOf returns the currency of a line such as "Rate CAD".
func rateOf(name string) (string, bool) {
	words := strings.Fields(clean(name))
	if len(words) != 2 || !strings.EqualFold(words[0], columns.RatePrefix) || foldAll(words[1]) == "date" {
		return "", false
	}
	return strings.ToUpper(words[1]), true
}

func (r *settingsReader) rate(currency string, name, value sheet.Cell) {
	if !isCurrency(currency) {
		r.tell(finding.Error, CodeRateName, name, finding.Words("typed", clean(name.Text)))
		return
	}
	r.rates = append(r.rates, rateLine{currency, clean(name.Text), value})
}

// isCurrency says whether a text is three capital letters.
func isCurrency(text string) bool {
	return len(text) == 3 && strings.IndexFunc(text, func(r rune) bool { return r < 'A' || r > 'Z' }) < 0
}

func (r *settingsReader) tell(s finding.Severity, code finding.Code, at sheet.Cell, args ...finding.Arg) {
	r.findings = append(r.findings, finding.Finding{Code: code, Severity: s, At: cellAt(r.sheet, at.Row, at.Col), Args: args})
}

// settle reads the values, those first that say how to read the others.
func (r *settingsReader) settle() calc.Settings {
	var set calc.Settings
	first := map[finding.Field]bool{"units": true, "decimal_mark": true, "currency": true}
	for i := range r.lines {
		if first[r.lines[i].Field] {
			r.value(i, reading{}, &set)
		}
	}
	set.Currency = strings.ToUpper(set.Currency)
	if set.Currency != "" && !isCurrency(set.Currency) {
		f := finding.New(finding.Error, CodeCurrencyName, "currency", finding.Words("typed", set.Currency))
		f.At = r.rows["currency"]
		r.findings = append(r.findings, f)
		set.Currency = ""
	}
	how := r.reading(set)
	for i := range r.lines {
		if !first[r.lines[i].Field] {
			r.value(i, how, &set)
		}
	}
	r.readRates(how, &set)
	return set
}

// reading returns how the numbers of a workbook with these settings are read.
func (r *settingsReader) reading(set calc.Settings) reading {
	_, markTold := r.cells[r.names[fold("Decimal mark")]]
	return reading{system: set.Units, comma: set.DecimalMark == ",", markTold: markTold, currency: set.Currency}
}

// value reads one line, or fills its default. A value that can't be read leaves the default.
func (r *settingsReader) value(i int, how reading, set *calc.Settings) {
	p := &r.lines[i]
	cell, given := r.cells[i]
	failed := false
	if given {
		p.typed = r.headings[i]
		for _, text := range brackets(p.typed) {
			if u, known := unitOf(p.Quantity, text); known {
				p.measure.unit, p.measure.told = u, true
			}
		}
		got := p.read(how, cell, set)
		failed = got.failed
		for _, f := range got.findings {
			f.At = cellAt(r.sheet, cell.Row, cell.Col)
			r.findings = append(r.findings, f)
		}
	}
	if given && !failed {
		return
	}
	if d, listed := p.fillDefault(how, set); listed {
		set.Defaults = append(set.Defaults, d)
	}
}

// readRates reads what a unit of each foreign currency is worth.
func (r *settingsReader) readRates(how reading, set *calc.Settings) {
	for _, line := range r.rates {
		rate := columns.Column[calc.Rate]{Field: columns.RateField, Heading: line.name, Quantity: units.Number, Min: 1e-6, Max: 1e6,
			At: func(v *calc.Rate) any { return &v.Worth }}
		p := place(rate, line.cell.Col, line.name)
		v := calc.Rate{Currency: line.currency}
		if line.cell.Text == "" {
			continue
		}
		got := p.read(how, line.cell, &v)
		for _, f := range got.findings {
			f.At = cellAt(r.sheet, line.cell.Row, line.cell.Col)
			r.findings = append(r.findings, f)
		}
		if !got.failed {
			set.Rates = append(set.Rates, v)
		}
	}
}
