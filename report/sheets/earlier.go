package sheets

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
)

// earlier is a result sheet that an earlier run wrote and a person may have worked on since.
type earlier struct {
	mark
	root   string           // the start tag of the sheet
	pieces []piece          // what stands beside its rows, in order
	at     []int            // column of each of our columns; 0 where it is missing
	width  int              // the last column in use
	rows   map[string][]int // rows by their key; of those with the same key, in order
	names  map[int]rowName  // of rows of results
	kept   map[int]*keptRow
	looks  map[int]rowLook // of rows that a person changed as a whole
	view   rowView
	sums   checkSums       // of what now stands there
	theirs map[int]string  // headings of a person's columns
	heads  map[int]string  // all headings
	fill   map[int]rawCell // formulas that fill a whole column of a person
	last   int             // last row of results
	table  *earlierTable
	links  []book.Relation
	shared []string // texts that the workbook's cells share

	theirLinks string // links of a person's cells, as they now stand
}

// keptRow is what a person left in a row.
type keptRow struct {
	cells  []rawCell   // in their own columns; below the results, all of them
	over   []rawCell   // formulas that they put in place of our values
	styles map[int]int // formats that they gave to our cells, by column
}

// piece is an element of a sheet as it stands there.
type piece struct{ name, text string }

// earlierTable is the table over the results.
type earlierTable struct {
	part string
	area span
	end  int // its last row of data
	view rowView
}

// hurdle says what on a sheet of ours can't be carried over: the code of a sentence.
type hurdle string

// What can't be carried over.
const (
	hurdleHeadings hurdle = "hurdle-headings"
	hurdleKeys     hurdle = "hurdle-keys"
	hurdleTables   hurdle = "hurdle-tables"
	hurdleParts    hurdle = "hurdle-parts"
	hurdleMerged   hurdle = "hurdle-merged"
	hurdleArrays   hurdle = "hurdle-arrays"
	hurdleWritten  hurdle = "hurdle-written"
)

// carried are the kinds of parts of a sheet that stay with it when it is filled again.
var carried = []string{"hyperlink", "table", "drawing", "comments", "vmlDrawing", "threadedComment", "printerSettings", "slicer", "image", "customProperty"}

// fewest is how many of our columns a row of results fills at least; fewer is what a person wrote between or below them.
const fewest = 3

// reader reads a sheet of an earlier run.
type reader struct {
	*earlier
	columns  []SheetColumn
	keys     []int // of our columns, those that make the key
	ours     func(style int) bool
	owned    [mostColumns + 1]bool  // our columns
	of       [mostColumns + 1]int   // which of ours each of them is
	formulas map[int]map[int]string // of a person's columns: column → row → formula
	groups   map[string]rawCell     // formulas that cells share, by their number
	hurdle   hurdle
}

// readEarlier reads a sheet of an earlier run. hurdle is not empty where something of a person's can't be carried over.
func readEarlier(b *book.Book, s sheet, m mark, ours func(style int) bool) (*earlier, hurdle, error) {
	text, err := b.Part(m.sheet.Part)
	if err != nil {
		return nil, "", err
	}
	e := &earlier{mark: m, rows: map[string][]int{}, names: map[int]rowName{}, kept: map[int]*keptRow{}, looks: map[int]rowLook{}, sums: newSums(len(s.Columns)), theirs: map[int]string{}, fill: map[int]rawCell{}, at: make([]int, len(s.Columns))}
	data, why, err := e.envelope(text)
	if err != nil || why != "" {
		return nil, why, err
	}
	if why, err := e.relations(b); err != nil || why != "" {
		return nil, why, err
	}
	r := &reader{earlier: e, columns: s.Columns, keys: s.keyColumns(), ours: ours, formulas: map[int]map[int]string{}, groups: map[string]rawCell{}}
	if bytes.Contains(data, []byte(`t="s"`)) {
		if r.shared, err = b.Strings(); err != nil {
			return nil, "", err
		}
	}
	r.read(string(data))
	return e, r.hurdle, nil
}

// envelope takes apart what stands around the rows.
func (e *earlier) envelope(text []byte) (data []byte, why hurdle, err error) {
	before, data, after, found := cutRows(text)
	if !found {
		return nil, hurdleWritten, nil
	}
	frame := slices.Concat(before, []byte("<sheetData/>"), after)
	root, err := book.Parse(frame, 4)
	if err != nil {
		return nil, "", err
	}
	e.root = string(frame[root.Start:root.Open])
	for _, k := range root.Kids {
		e.pieces = append(e.pieces, piece{k.Local, k.In(frame)})
		e.view.add(k)
		switch {
		case !slices.Contains(order, k.Local):
			why = hurdleParts // of a later edition: no one knows where it may stand
		case k.Local == "mergeCells" && mergesRows(k.In(frame)):
			why = hurdleMerged
		}
	}
	return data, why, nil
}

// mergesRows says whether cells of several rows are merged, which rows in another order would tear apart.
func mergesRows(text string) bool {
	root, err := book.Parse([]byte(text), 2)
	if err != nil {
		return true
	}
	for _, k := range root.Kids {
		if s, err := spanOf(k.Attr("ref")); err != nil || s.top.row != s.bottom.row {
			return true
		}
	}
	return false
}

// relations looks at the parts that the sheet leads to.
func (e *earlier) relations(b *book.Book) (hurdle, error) {
	list, err := b.Relations(e.sheet.Part)
	if err != nil {
		return "", err
	}
	e.links = list
	for _, r := range list {
		kind := r.Kind()
		switch {
		case !slices.Contains(carried, kind):
			return hurdleParts, nil
		case kind == "hyperlink":
		case !b.Has(r.Part):
			return "", fmt.Errorf("%s is missing", r.Part)
		case kind == "comments" || kind == "threadedComment":
			if _, _, err := comments(b, r.Part); err != nil { // found now, before anything is written
				return "", err
			}
		case kind != "table":
		case e.table != nil:
			return hurdleTables, nil
		default:
			if e.table, err = readTable(b, r.Part); err != nil {
				return "", err
			}
			if e.table != nil {
				e.view.filtered = append(e.view.filtered, e.table.view.filtered...)
				e.view.sorted = append(e.view.sorted, e.table.view.sorted...)
			}
			if e.table == nil || e.table.area.top.col != 1 || e.table.area.top.row != 1 {
				return hurdleTables, nil
			}
		}
	}
	return "", nil
}

// readTable reads where a table lies; nil where it is fed from elsewhere, or is none.
func readTable(b *book.Book, part string) (*earlierTable, error) {
	text, err := b.Part(part)
	if err != nil {
		return nil, err
	}
	root, err := book.Parse(text, 4)
	if err != nil {
		return nil, err
	}
	inner, err := b.Relations(part)
	if err != nil || len(inner) > 0 {
		return nil, err
	}
	area, err := spanOf(root.Attr("ref"))
	if err != nil {
		return nil, nil // it lies nowhere
	}
	totals, _ := strconv.Atoi(root.Attr("totalsRowCount"))
	t := &earlierTable{part: part, area: area, end: area.bottom.row - totals}
	for _, k := range root.Kids {
		t.view.add(k)
	}
	return t, nil
}

// read reads the rows.
func (r *reader) read(data string) {
	var rows [][]rawCell
	headings := map[int]string{}
	var cells []rawCell // of a row; used again for the next
	r.heads = headings
	eachRow(data, func(row int, tag, inner string) {
		cells = cells[:0]
		eachCell(row, inner, func(c rawCell) {
			if row == 1 && c.filled() {
				headings[c.col] = strings.TrimSpace(c.text(r.shared))
			}
			r.width = max(r.width, c.col)
			cells = append(cells, c)
		})
		if row == 1 {
			r.match(headings)
		}
		if l := lookOf(row, tag, len(r.view.filtered) > 0); l != (rowLook{}) {
			r.looks[row] = l
		}
		if !r.settle(row, cells) {
			rows = append(rows, slices.Clone(cells))
		}
	})
	if len(headings) == 0 && len(rows) > 0 {
		r.hurdle = cmp.Or(r.hurdle, hurdleHeadings)
	}
	r.below(rows)
	r.fillDown()
	if len(r.kept) > 0 && slices.ContainsFunc(r.keys, func(k int) bool { return r.at[k] == 0 }) {
		r.hurdle = cmp.Or(r.hurdle, hurdleKeys)
	}
}

// match finds our columns by their headings, whatever their units, and what became of those that were given another heading.
func (r *reader) match(headings map[int]string) {
	owner := map[int]int{}
	columns := slices.Sorted(maps.Keys(headings))
	for i, c := range r.columns {
		for _, col := range columns {
			if _, taken := owner[col]; !taken && bare(headings[col]) == bare(c.Heading) {
				owner[col], r.at[i] = i, col
				break
			}
		}
	}
	for _, col := range columns { // a heading that was changed, in its old place
		before, known := owner[col-1]
		_, taken := owner[col]
		if next := before + 1; !taken && known && col <= r.end && next < len(r.columns) && r.at[next] == 0 {
			owner[col], r.at[next] = next, col
		}
	}
	if len(owner) == 0 && len(headings) > 0 || r.mark.row != 1 {
		r.hurdle = hurdleHeadings
	}
	for _, col := range columns {
		if _, ours := owner[col]; !ours {
			r.theirs[col] = headings[col]
		}
	}
	for col, i := range owner {
		r.owned[col], r.of[col] = true, i
	}
}

// bare returns a heading without the unit in brackets behind it.
func bare(heading string) string {
	if at := strings.LastIndex(heading, " ["); at > 0 && strings.HasSuffix(heading, "]") {
		return heading[:at]
	}
	return heading
}

// settle takes in a row of results, with what a person left in it. It returns false for a row that is none.
func (r *reader) settle(row int, cells []rawCell) bool {
	if row == 1 {
		r.keep(row, cells)
		return true
	}
	if r.table != nil && row > r.table.end {
		return len(cells) == 0
	}
	filled := 0
	for _, c := range cells {
		if c.filled() && r.owned[c.col] {
			filled++
		}
	}
	key, name, first := r.key(cells)
	if filled < fewest || first == "" {
		return !slices.ContainsFunc(cells, rawCell.filled)
	}
	r.rows[key] = append(r.rows[key], row)
	r.names[row] = name
	r.last = row
	r.sum(key, cells)
	r.keep(row, cells)
	return true
}

// sum takes a row into the sums.
func (r *reader) sum(key string, cells []rawCell) {
	r.sums.rows++
	h := digest(fnvBasis, key)
	for _, c := range cells {
		if c.filled() && r.owned[c.col] {
			r.sums.add(r.of[c.col], h, c.text(r.shared), slices.Contains(r.keys, r.of[c.col]))
		}
	}
}

// key returns the key of a row, the same as people read it, and the first part of it that is not empty.
func (r *reader) key(cells []rawCell) (key string, name rowName, first string) {
	var parts, said []string
	for _, k := range r.keys {
		text := ""
		if i := slices.IndexFunc(cells, func(c rawCell) bool { return c.col == r.at[k] }); i >= 0 {
			text = strings.TrimSpace(cells[i].text(r.shared))
		}
		parts = append(parts, text)
		if text != "" {
			said = append(said, text)
			first = cmp.Or(first, text)
		}
		switch r.columns[k].Key {
		case "site":
			name.site = text
		case "zone":
			name.zone = text
		}
	}
	name.name = strings.Join(said, ", ")
	return strings.Join(parts, keyMark), name, first
}

const keyMark = "\x00" // between the parts of a key

// keep keeps what a person left in a row of results.
func (r *reader) keep(row int, cells []rawCell) {
	k := keptRow{}
	for _, c := range cells {
		owned := r.owned[c.col]
		if owned && row > 1 && strings.Contains(c.inner, "<f") {
			k.over = append(k.over, c)
		}
		switch {
		case !owned && (c.filled() || c.style != 0):
			k.cells = append(k.cells, r.plain(c))
		case owned && c.style != 0 && !r.ours(c.style):
			if k.styles == nil {
				k.styles = map[int]int{}
			}
			k.styles[c.col] = c.style
		}
	}
	if len(k.cells) > 0 || len(k.over) > 0 || k.styles != nil {
		r.kept[row] = &k
	}
}

// below keeps what stands below the results, or between them.
func (r *reader) below(rows [][]rawCell) {
	for _, cells := range rows {
		k := &keptRow{}
		for _, c := range cells {
			if c.filled() || c.style != 0 {
				k.cells = append(k.cells, r.plain(c))
			}
		}
		if len(k.cells) > 0 {
			r.kept[cells[0].row] = k
		}
	}
}

// plain gives a cell a formula of its own where it shares one, since rows may part.
func (r *reader) plain(c rawCell) rawCell {
	tag, formula, is := within(c.inner, "f")
	if !is {
		return c
	}
	group := book.TagAttr(tag, "si")
	switch book.TagAttr(tag, "t") {
	case "array":
		if s, err := spanOf(book.TagAttr(tag, "ref")); err != nil || !s.single && s.top != s.bottom {
			r.hurdle = cmp.Or(r.hurdle, hurdleArrays)
		}
		return c
	case "dataTable":
		r.hurdle = cmp.Or(r.hurdle, hurdleArrays)
		return c
	case "shared":
		if formula != "" {
			first := c
			first.inner = formula
			r.groups[group] = first
		} else if first, known := r.groups[group]; known {
			formula = book.Escape(copied(book.Unescape(first.inner), c.row-first.row, c.col-first.col))
		} else {
			r.hurdle = cmp.Or(r.hurdle, hurdleArrays)
		}
	}
	c.inner = setFormula(c.inner, "<f>", formula)
	if !r.owned[c.col] {
		if r.formulas[c.col] == nil {
			r.formulas[c.col] = map[int]string{}
		}
		r.formulas[c.col][c.row] = book.Unescape(formula)
	}
	return c
}

// setFormula puts another formula into a cell.
func setFormula(inner, tag, formula string) string {
	from := strings.Index(inner, "<f")
	to := strings.Index(inner, "</f>")
	if to >= 0 {
		to += len("</f>")
	} else {
		to = from + strings.IndexByte(inner[from:], '>') + 1
	}
	return inner[:from] + tag + formula + "</f>" + inner[to:]
}

// fillDown finds the columns in which each row of results has the same formula: new rows get it too.
func (r *reader) fillDown() {
	for col, formulas := range r.formulas {
		same := ""
		for row := range r.names {
			formula, there := formulas[row]
			seen := copied(formula, 2-row, 0)
			if !there || same != "" && seen != same {
				same = ""
				break
			}
			same = seen
		}
		if same == "" || len(r.names) < 2 {
			continue
		}
		cells := r.kept[r.last].cells
		if i := slices.IndexFunc(cells, func(c rawCell) bool { return c.col == col }); i >= 0 {
			r.fill[col] = cells[i]
		}
	}
}
