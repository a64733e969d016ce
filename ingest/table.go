package ingest

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
	"thawbook/ingest/sheet"
)

// layout is where a sheet has its columns.
type layout struct {
	sheet string
	head  int           // row of the headings
	key   finding.Field // the column that names a row
	col   map[finding.Field]int
}

// at returns the cell of a column in a row; false where the sheet has no such column.
func (l layout) at(row int, f finding.Field) (finding.Cell, bool) {
	col := l.col[f]
	if col == 0 || row == 0 {
		return finding.Cell{}, false
	}
	return cellAt(l.sheet, row, col), true
}

func cellAt(sheetName string, row, col int) finding.Cell {
	return finding.Cell{Sheet: sheetName, Ref: sheet.Ref(row, col), Row: row, Col: col}
}

// record is what was read beside the values of a row.
type record struct {
	row      int
	layout   layout
	entries  []calc.Entry
	defaults []calc.Default
	findings []finding.Finding // with their cells
	failed   bool              // a cell of it yields no value
	cells    []*sheet.Cell     // by place in the sheet's columns, nil where blank: for a row that is laid over it
}

// table reads one sheet as rows of T.
type table[T any] struct {
	read    reading
	sheet   string
	columns []columns.Column[T]
	names   map[string]int // folded heading or alias: place in columns
	each    func(v T, r record)

	filled   bool // the sheet is not blank
	placed   []placed[T]
	atCol    map[int]int // column of the sheet: place in placed
	layout   layout
	begun    bool      // a row below the headings was met
	best     candidate // the row most like a heading row, until there is one
	findings []finding.Finding
	told     map[finding.Code]bool // told once a sheet
}

// candidate is a row that may be the heading row.
type candidate struct {
	row      sheet.Row
	matched  map[int]sheet.Cell // place in columns: its heading
	repaired map[int]bool
	twice    []sheet.Cell
	unknown  []sheet.Cell
	missing  int // place in columns of a required heading that is not there; -1: none
}

// readTable reads a sheet. What it tells of headings and rows without values it returns; what it tells of a row comes with that row.
func readTable[T any](r reading, s sheet.Sheet, cols []columns.Column[T], each func(T, record)) (*table[T], error) {
	t := &table[T]{read: r, sheet: s.Name, columns: cols, names: map[string]int{}, each: each, told: map[finding.Code]bool{}, best: candidate{missing: -1}}
	for i, c := range cols {
		for _, name := range append([]string{c.Heading}, c.Aliases...) {
			t.names[fold(name)] = i
		}
	}
	if s.Hidden {
		t.tell(finding.Info, CodeSheetHidden, sheet.Cell{}, finding.Words("sheet", s.Name))
	}
	for row, err := range s.Rows {
		if err != nil {
			return t, err
		}
		t.filled = true
		if t.placed == nil {
			t.seek(row)
			continue
		}
		t.take(row)
	}
	return t, nil
}

// found says whether the sheet has a heading row.
func (t *table[T]) found() bool { return t.placed != nil }

// seek looks whether a row is the heading row: at least two known headings, all required ones among them.
func (t *table[T]) seek(row sheet.Row) {
	c := t.match(row)
	if len(c.matched) >= 2 && c.missing < 0 {
		t.begin(c)
		return
	}
	if len(c.matched) > len(t.best.matched) {
		t.best = c
	}
}

// match finds the known headings of a row. A required heading that is missing is looked for among those that are nearly it.
func (t *table[T]) match(row sheet.Row) candidate {
	c := candidate{row: row, matched: map[int]sheet.Cell{}, repaired: map[int]bool{}, missing: -1}
	for _, cell := range row.Cells {
		i, known := t.column(cell.Text)
		_, had := c.matched[i]
		switch {
		case !known:
			c.unknown = append(c.unknown, cell)
		case had:
			c.twice = append(c.twice, cell)
		default:
			c.matched[i] = cell
		}
	}
	if len(c.matched) == 0 {
		return c
	}
	for i, col := range t.columns {
		if _, had := c.matched[i]; col.Required && !had && !t.mend(&c, i) && c.missing < 0 {
			c.missing = i
		}
	}
	return c
}

// column finds the column of a heading: the words before the first bracket, or before a unit that stands without brackets.
func (t *table[T]) column(heading string) (int, bool) {
	if i, known := t.names[fold(heading)]; known {
		return i, true
	}
	words := strings.Fields(clean(heading))
	for n := len(words) - 1; n > 0; n-- {
		i, known := t.names[fold(strings.Join(words[:n], " "))]
		if !known {
			continue
		}
		if _, unit := unitOf(t.columns[i].Quantity, strings.Join(words[n:], " ")); unit {
			return i, true
		}
	}
	return 0, false
}

// mend takes the one unknown heading that is nearly a required one.
func (t *table[T]) mend(c *candidate, i int) bool {
	names := t.namesOf(i)
	at := -1
	for k, cell := range c.unknown {
		if nearest(fold(cell.Text), names) == "" {
			continue
		}
		if at >= 0 {
			return false
		}
		at = k
	}
	if at < 0 {
		return false
	}
	c.matched[i], c.repaired[i] = c.unknown[at], true
	c.unknown = append(c.unknown[:at:at], c.unknown[at+1:]...)
	return true
}

func (t *table[T]) namesOf(i int) []string {
	names := []string{fold(t.columns[i].Heading)}
	for _, a := range t.columns[i].Aliases {
		names = append(names, fold(a))
	}
	return names
}

// begin takes a row as the heading row and tells what is odd about it.
func (t *table[T]) begin(c candidate) {
	t.layout = layout{sheet: t.sheet, head: c.row.Number, col: map[finding.Field]int{}}
	for _, col := range t.columns {
		if col.Required {
			t.layout.key = col.Field
			break
		}
	}
	t.atCol = map[int]int{}
	t.placed = make([]placed[T], len(t.columns))
	for i, col := range t.columns {
		cell, had := c.matched[i]
		if !had {
			t.placed[i] = place(col, 0, col.Heading)
			continue
		}
		t.placed[i] = place(col, cell.Col, clean(cell.Text))
		t.layout.col[col.Field] = cell.Col
		t.atCol[cell.Col] = i
		if c.repaired[i] {
			t.tell(finding.Warning, CodeHeadingRepaired, cell, finding.Words("typed", clean(cell.Text)), finding.Words("heading", col.Heading))
		}
		t.unit(&t.placed[i], cell)
	}
	for _, cell := range c.twice {
		t.tell(finding.Warning, CodeHeadingTwice, cell, finding.Words("heading", clean(cell.Text)))
	}
	t.tellUnknown(c)
	t.tellHidden(c)
}

// tellHidden tells which known columns a person doesn't see.
func (t *table[T]) tellHidden(c candidate) {
	var hidden []sheet.Cell
	for _, cell := range c.row.Cells {
		if _, known := t.atCol[cell.Col]; known && cell.Is(sheet.Unseen) {
			hidden = append(hidden, cell)
		}
	}
	if len(hidden) == 0 {
		return
	}
	names := make([]string, len(hidden))
	for i, cell := range hidden {
		names[i] = clean(cell.Text)
	}
	t.tell(finding.Info, CodeColumnsHidden, hidden[0], finding.Words("sheet", t.sheet), finding.Words("headings", strings.Join(names, ", ")))
}

// unit reads the unit of a heading. A bracket that holds no known unit is left alone.
func (t *table[T]) unit(p *placed[T], cell sheet.Cell) {
	if p.Quantity == units.Text {
		return
	}
	texts := brackets(p.typed)
	for _, text := range texts {
		if u, known := unitOf(p.Quantity, text); known {
			p.measure.unit, p.measure.told = u, true
			return
		}
	}
	words := strings.Fields(p.typed)
	for n := 1; n < len(words) && len(texts) == 0; n++ {
		if _, known := t.names[fold(strings.Join(words[:n], " "))]; !known {
			continue
		}
		if u, known := unitOf(p.Quantity, strings.Join(words[n:], " ")); known {
			p.measure.unit, p.measure.told = u, true
		}
	}
	if usual := p.Quantity.In(t.read.system).Symbol; len(texts) > 0 && !p.measure.told && !bare(p.Quantity) {
		t.tell(finding.Info, CodeHeadingUnit, cell, finding.Words("heading", p.typed), finding.Words("unit", usual))
	}
}

// tellUnknown lists the headings that are left alone, each with the known one it is nearly.
func (t *table[T]) tellUnknown(c candidate) {
	var free []string
	for name, i := range t.names {
		if _, had := c.matched[i]; !had {
			free = append(free, name)
		}
	}
	for _, cell := range c.unknown {
		typed := finding.Words("typed", clean(cell.Text))
		if near := nearest(fold(cell.Text), free); near != "" {
			t.tell(finding.Warning, CodeHeadingMisspelt, cell, typed, finding.Words("heading", t.columns[t.names[near]].Heading))
			continue
		}
		t.tell(finding.Info, CodeHeadingUnknown, cell, typed)
	}
}

func (t *table[T]) tell(s finding.Severity, code finding.Code, at sheet.Cell, args ...finding.Arg) {
	t.findings = append(t.findings, finding.Finding{Code: code, Severity: s, At: cellAt(t.sheet, at.Row, at.Col), Args: args})
}

// tellOnce tells a thing once a sheet, at the first cell where it is met.
func (t *table[T]) tellOnce(code finding.Code, at sheet.Cell) {
	if !t.told[code] {
		t.told[code] = true
		t.tell(finding.Info, code, at, finding.Words("sheet", t.sheet))
	}
}

// take reads a row below the headings.
func (t *table[T]) take(row sheet.Row) {
	first := row.Cells[0]
	if row.Hidden {
		t.tellOnce(CodeRowsHidden, first)
	}
	for _, c := range row.Cells {
		if c.Is(sheet.Merged) {
			t.tellOnce(CodeCellsMerged, c)
		}
		if c.Is(sheet.Calculated) {
			t.tellOnce(CodeCellsCalculated, c)
		}
	}
	begun := t.begun
	t.begun = true
	if !begun && t.unitsRow(row) || t.aside(row) {
		return
	}
	t.parse(row)
}

// unitsRow takes the row below the headings as the units of the columns, where it holds units and no number. The unit of a heading goes before
// that of the row.
func (t *table[T]) unitsRow(row sheet.Row) bool {
	found := map[int]units.Unit{}
	strange := 0
	for _, c := range row.Cells {
		i, here := t.atCol[c.Col]
		if !here || t.placed[i].Quantity == units.Text {
			continue
		}
		if c.Is(sheet.Number | sheet.Date | sheet.Bool | sheet.Error) {
			return false
		}
		text := strings.Trim(clean(c.Text), "[]()")
		if u, known := unitOf(t.placed[i].Quantity, text); known {
			found[i] = u
		} else if strings.ContainsAny(text, "0123456789") {
			return false
		} else if !bare(t.placed[i].Quantity) {
			strange++
		}
	}
	if len(found) <= strange {
		return false
	}
	t.tell(finding.Info, CodeRowUnits, row.Cells[0])
	for i := range t.placed {
		u, known := found[i]
		if p := &t.placed[i]; known {
			t.unitBelow(p, u, sheet.Cell{Row: row.Number, Col: p.col})
		}
	}
	return true
}

// unitBelow takes a unit that stands below a heading. One that the heading contradicts is told.
func (t *table[T]) unitBelow(p *placed[T], u units.Unit, at sheet.Cell) {
	if p.measure.told && p.measure.unit.Symbol != u.Symbol {
		t.tell(finding.Warning, CodeUnitsDiffer, at, finding.Words("heading", p.typed), finding.Words("typed", u.Symbol), finding.Words("unit", p.measure.unit.Symbol))
		return
	}
	p.measure.unit, p.measure.told = u, true
}

// totals are the words that begin a row of sums, folded.
var totals = map[string]bool{"total": true, "totals": true, "sum": true, "subtotal": true, "grandtotal": true, "totalarea": true, "sums": true,
	"summe": true, "gesamt": true, "totale": true, "totaal": true, "suma": true, "summa": true, "yhteensa": true}

// aside tells the rows that hold no values: sums, notes, headings once more.
func (t *table[T]) aside(row sheet.Row) bool {
	first := row.Cells[0]
	words := finding.Words("typed", shownText(first))
	if totals[fold(first.Text)] {
		t.tell(finding.Info, CodeRowTotal, first, words)
		return true
	}
	known, heads := 0, 0
	for _, c := range row.Cells {
		i, here := t.atCol[c.Col]
		if !here {
			continue
		}
		known++
		if clean(c.Text) == t.placed[i].typed {
			heads++
		}
	}
	key, required, hasKey := t.required(row)
	switch {
	case heads >= 2 && heads == known:
		t.tell(finding.Info, CodeRowRepeatsHead, first)
	case len(row.Cells) == 1 && hasKey && len(strings.Fields(first.Text)) < 3:
		t.tell(finding.Warning, CodeRowLonely, first, words)
	case len(row.Cells) == 1 || known == 0 || (!hasKey && required == 0 && known < 3):
		t.tell(finding.Info, CodeRowNote, first, words)
	case !hasKey:
		at := sheet.Cell{Row: row.Number, Col: t.layout.col[key.Field]}
		t.tell(finding.Error, CodeKeyMissing, at, finding.Words("heading", key.Heading))
	default:
		return false
	}
	return true
}

// required returns the column that names a row, how many of the other required cells are filled, and whether the name is.
func (t *table[T]) required(row sheet.Row) (key *placed[T], filled int, hasKey bool) {
	for i := range t.placed {
		p := &t.placed[i]
		if !p.Required {
			continue
		}
		_, here := row.Cell(p.col)
		if key == nil {
			key, hasKey = p, here
		} else if here {
			filled++
		}
	}
	return key, filled, hasKey
}

// laid is a cell with the column under whose heading it is read.
type laid[T any] struct {
	column  *placed[T]
	cell    *sheet.Cell // nil: blank
	at      finding.Cell
	beneath bool // it is of a row beneath, where what it tells was told
	above   bool // it is of a row laid over another: its entry keeps its address
}

// parse reads the values of a row.
func (t *table[T]) parse(row sheet.Row) {
	r := record{row: row.Number, layout: t.layout, cells: make([]*sheet.Cell, len(t.placed))}
	for i := range row.Cells {
		if k, here := t.atCol[row.Cells[i].Col]; here {
			r.cells[k] = &row.Cells[i]
		}
	}
	list := make([]laid[T], len(t.placed))
	for i := range t.placed {
		list[i] = t.laid(r, i)
	}
	var v T
	values(t.read, list, &v, &r)
	t.each(v, r)
}

// laid returns a row's cell of a column, by its place.
func (t *table[T]) laid(r record, i int) laid[T] {
	return laid[T]{column: &t.placed[i], cell: r.cells[i], at: cellAt(t.sheet, r.row, t.placed[i].col)}
}

// values reads cells into v. A cell that is not there gets its default, or is missed.
func values[T any](how reading, list []laid[T], v *T, r *record) {
	for _, l := range list {
		if l.cell == nil {
			l.blank(how, v, r)
			continue
		}
		got := l.column.read(how, *l.cell, v)
		if l.above {
			got.entry.At = l.at
		}
		r.entries = append(r.entries, got.entry)
		r.failed = r.failed || got.failed
		for _, f := range got.findings {
			if f.At = l.at; !l.beneath {
				r.findings = append(r.findings, f)
			}
		}
	}
}

// blank fills a cell that is not there with its default, or misses it.
func (l laid[T]) blank(how reading, v *T, r *record) {
	p := l.column
	if p.Required {
		r.failed = true
		r.findings = append(r.findings, finding.Finding{Code: CodeRequired, Severity: finding.Error, Field: p.Field,
			At: l.at, Args: []finding.Arg{finding.Words("heading", p.Heading)}})
		return
	}
	if d, listed := p.fillDefault(how, v); listed {
		r.defaults = append(r.defaults, d)
	}
}
