package sheets

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
)

// The ids of what our sheets lead to, the same on every run.
const (
	tableID = "rIdTable"
	drawID  = "rIdDrawing"
	linkID  = "rIdLink"
)

// order is the order of the elements of a sheet.
var order = []string{"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection", "protectedRanges", "scenarios", "autoFilter",
	"sortState", "dataConsolidate", "customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins",
	"pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing", "legacyDrawing", "legacyDrawingHF",
	"drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst"}

// frame is what stands around the rows of a sheet: by the name of the element, as text.
type frame struct {
	root   string
	pieces map[string]string
}

func (f *frame) add(name, text string) { f.pieces[name] += text }

// text returns what stands before and behind the rows.
func (f *frame) text() (before, after string) {
	var head, tail strings.Builder
	head.WriteString(book.Header + f.root)
	b := &head
	for _, name := range order {
		if name == "sheetData" {
			b = &tail
			continue
		}
		b.WriteString(f.pieces[name])
	}
	tail.WriteString("</worksheet>")
	return head.String(), tail.String()
}

// compose puts a sheet together: what the library made, our links, and what a person left on the sheet of the run before.
func (t *table) compose(made []byte) ([][]byte, error) {
	before, rows, tail, found := cutRows(made)
	if !found {
		return nil, fmt.Errorf("%s: the sheet that was made has no rows", t.name)
	}
	outer := slices.Concat(before, []byte("<sheetData/>"), tail)
	root, err := book.Parse(outer, 2)
	if err != nil {
		return nil, err
	}
	f := &frame{root: string(outer[root.Start:root.Open]), pieces: map[string]string{}}
	for _, k := range root.Kids {
		f.add(k.Local, k.In(outer))
	}
	t.finishFrame(f)
	pieces := [][]byte{rows}
	if t.before != nil {
		t.before.frame(t, f)
		pieces = t.join(rows)
	}
	head, foot := f.text()
	return slices.Concat([][]byte{[]byte(head + "<sheetData>")}, pieces, [][]byte{[]byte("</sheetData>" + foot)}), nil
}

// cutRows cuts a sheet into its rows and what stands before and behind them. Their end is looked for from the end of all, since they are long.
func cutRows(text []byte) (before, rows, after []byte, found bool) {
	open := bytes.Index(text, []byte("<sheetData"))
	if open < 0 {
		return nil, nil, nil, false
	}
	begin := open + bytes.IndexByte(text[open:], '>') + 1
	if text[begin-2] == '/' {
		return text[:open], nil, text[begin:], true
	}
	const end = "</sheetData>"
	to := bytes.LastIndex(text, []byte(end))
	if to < begin {
		return nil, nil, nil, false
	}
	return text[:open], text[begin:to], text[to+len(end):], true
}

// finishFrame puts in what the library does not know of or numbers in its own way.
func (t *table) finishFrame(f *frame) {
	last := max(t.rows, 1)
	f.pieces["dimension"] = fmt.Sprintf(`<dimension ref="A1:%s"/>`, place{col: t.width(), row: last})
	f.pieces["sheetViews"] = strings.Replace(f.pieces["sheetViews"], ` tabSelected="true"`, "", 1) // two selected sheets are worked on at once
	f.pieces["hyperlinks"] = ""
	if links := t.linkText(); links != "" {
		f.pieces["hyperlinks"] = "<hyperlinks>" + links + "</hyperlinks>"
	}
	delete(f.pieces, "tableParts")
	if t.tabled {
		f.pieces["tableParts"] = `<tableParts count="1"><tablePart r:id="` + tableID + `"/></tableParts>`
	}
	if f.pieces["drawing"] != "" {
		f.pieces["drawing"] = `<drawing r:id="` + drawID + `"/>`
		t.drawn = true
	}
}

// linkText returns our links.
func (t *table) linkText() string {
	var s strings.Builder
	for i, l := range t.links {
		if l.File != "" {
			fmt.Fprintf(&s, `<hyperlink ref="%s" r:id="%s%d"/>`, l.at, linkID, i+1)
			continue
		}
		fmt.Fprintf(&s, `<hyperlink ref="%s" location="%s"/>`, l.at, book.Escape(l.Cell))
	}
	return s.String()
}

// relations returns what the sheet leads to: what stays of the run before, then what is ours.
func (t *table) relations() []book.Relation {
	var list []book.Relation
	if t.before != nil {
		list = t.before.relationsKept()
	}
	if t.tabled && t.tablePart != "" {
		list = append(list, book.Relation{ID: tableID, Type: book.RelationType("table"), Part: t.tablePart})
	}
	if t.drawn && t.drawPart != "" {
		list = append(list, book.Relation{ID: drawID, Type: book.RelationType("drawing"), Part: t.drawPart})
	}
	for i, l := range t.links {
		if l.File != "" {
			list = append(list, book.Relation{ID: linkID + strconv.Itoa(i+1), Type: book.RelationType("hyperlink"), Target: relative(l.File)})
		}
	}
	return list
}

// join puts a person's cells into the rows, and their rows below them.
func (t *table) join(rows []byte) [][]byte {
	var pieces [][]byte
	from := map[int]int{} // the row of the run before, by the new one
	for old, now := range t.moves.to {
		from[now] = old
	}
	from[1] = 1
	done := 0
	row := 0
	for at := 0; ; {
		open := bytes.Index(rows[at:], []byte("<row "))
		if open < 0 {
			break
		}
		open += at
		begin := open + bytes.IndexByte(rows[open:], '>') + 1
		end := begin + bytes.Index(rows[begin:], []byte("</row>"))
		at = end
		row++
		cells, look := t.cellsFor(row, from), t.before.looks[from[row]]
		if look != (rowLook{}) {
			pieces = append(pieces, rows[done:open], []byte(look.onto(string(rows[open:begin]))))
			done = begin
		}
		if len(cells) > 0 {
			pieces = append(pieces, rows[done:begin], merged(string(rows[begin:end]), cells))
			done = end
		}
	}
	pieces = append(pieces, rows[done:])
	return append(pieces, t.rowsBelow())
}

// cellsFor returns a person's cells for a row: those that they left, or the formulas that fill their columns.
func (t *table) cellsFor(row int, from map[int]int) []rawCell {
	old, known := from[row]
	var cells []rawCell
	if known {
		if k := t.before.kept[old]; k != nil {
			for _, c := range k.cells {
				cells = append(cells, t.moved(c, row))
			}
		}
		return cells
	}
	for _, c := range t.before.fill {
		_, formula, _ := within(c.inner, "f")
		c.inner = "<f>" + book.Escape(copied(book.Unescape(formula), row-c.row, 0)) + "</f>"
		c.row = row
		cells = append(cells, c)
	}
	slices.SortFunc(cells, func(a, b rawCell) int { return a.col - b.col })
	return cells
}

// moved returns a cell in its new row. What its formula names is still what it named.
func (t *table) moved(c rawCell, row int) rawCell {
	c.row = row
	tag, formula, is := within(c.inner, "f")
	if !is {
		return c
	}
	text := book.Escape(t.moves.formula(book.Unescape(formula), t.name))
	if book.TagAttr(tag, "t") == "array" {
		tag = strings.TrimSuffix(book.WithoutAttr(tag, "ref"), ">") + ` ref="` + place{col: c.col, row: row}.String() + `">`
	} else {
		tag = "<f>"
	}
	c.inner = setFormula(c.inner, tag, text)
	return c
}

// xml returns the cell as it stands in a sheet.
func (c rawCell) xml() string {
	attrs := strings.TrimSuffix(strings.TrimSuffix(book.WithoutAttr(c.tag, "r"), ">"), "/")[len("<c"):]
	return fmt.Sprintf(`<c r="%s"%s>%s</c>`, place{col: c.col, row: c.row}, strings.TrimRight(attrs, " "), c.inner)
}

// merged puts cells between those of a row, in the order of columns. Where both have one, it is the person's.
func merged(inner string, theirs []rawCell) []byte {
	var out bytes.Buffer
	put := func(until int) {
		for len(theirs) > 0 && theirs[0].col < until {
			out.WriteString(theirs[0].xml())
			theirs = theirs[1:]
		}
	}
	eachCell(0, inner, func(c rawCell) {
		put(c.col)
		if len(theirs) == 0 || theirs[0].col != c.col {
			out.WriteString(c.tag + c.inner + "</c>") // the library never leaves a cell open
		}
	})
	put(mostColumns + 1)
	return out.Bytes()
}

// rowsBelow returns the rows that a person wrote below the results.
func (t *table) rowsBelow() []byte {
	var out bytes.Buffer
	for _, old := range t.before.rowsBelow() {
		row, _ := t.moves.row(old)
		out.WriteString(t.before.looks[old].onto(fmt.Sprintf(`<row r="%d">`, row)))
		for _, c := range t.before.kept[old].cells {
			out.WriteString(t.moved(c, row).xml())
		}
		out.WriteString("</row>")
	}
	return out.Bytes()
}

// rowsBelow lists the rows below the results, in order.
func (e *earlier) rowsBelow() []int {
	var list []int
	for row := range e.kept {
		if row > max(e.last, 1) {
			list = append(list, row)
		}
	}
	slices.Sort(list)
	return list
}
