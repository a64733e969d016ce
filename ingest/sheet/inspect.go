package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// inspector looks at the XML of a workbook's parts before the spreadsheet library streams them: whether they are whole, and what the stream of
// raw values does not tell: which cells are stored as numbers, shown as percent or as dates, hidden, merged, or formulas without a value.
type inspector struct {
	parts    map[string]*zip.File
	sheets   []part
	percent  map[string]bool // by index of a cell's style
	date     map[string]bool
	padded   map[string]padding
	date1904 bool
	charset  func(charset string, input io.Reader) (io.Reader, error)
}

// part is a sheet and the part of the package that holds it.
type part struct {
	name, path string
	hidden     bool
}

// marks is what inspection found in one sheet.
type marks struct {
	rows   []rowMarks // rows that hold a value or a formula, by ascending number
	cursor int
	merged map[int][]merge // by their first column
	ranges int
}

type rowMarks struct {
	number int
	hidden bool
	cells  []Mark          // by column
	padded map[int]padding // by column, from 1: the cells whose format pads
}

// merge is a merged range of one column or more; only its first column is filled downwards.
type merge struct {
	row, last int
	cell      Cell
}

// row returns the marks of a row. Rows are asked for in ascending order.
func (m *marks) row(number int) *rowMarks {
	for m.cursor < len(m.rows) && m.rows[m.cursor].number < number {
		m.cursor++
	}
	if m.cursor < len(m.rows) && m.rows[m.cursor].number == number {
		return &m.rows[m.cursor]
	}
	return nil
}

// above returns the merged range that covers a cell in its first column.
func (m *marks) above(row, col int) *merge {
	list := m.merged[col]
	for i := range list {
		if list[i].row <= row && row <= list[i].last {
			return &list[i]
		}
	}
	return nil
}

// newInspector reads which sheets there are, where they stand, and which styles show percent or dates.
func newInspector(parts *zip.Reader, book *excelize.File) (*inspector, error) {
	in := &inspector{charset: book.CharsetReader, parts: map[string]*zip.File{}, percent: map[string]bool{}, date: map[string]bool{},
		padded: map[string]padding{}}
	for _, p := range parts.File {
		in.parts[strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(p.Name, `\`, "/"), "/"))] = p
	}
	root, err := in.root()
	if err != nil {
		return nil, err
	}
	if err := in.readSheets(root); err != nil {
		return nil, err
	}
	if err := in.readStyles(); err != nil {
		return nil, err
	}
	return in, in.whole("xl/sharedstrings.xml")
}

type relations struct {
	List []struct {
		ID     string `xml:"Id,attr"`
		Type   string `xml:"Type,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// root returns the path of the workbook part.
func (in *inspector) root() (string, error) {
	var rels relations
	if err := in.decode("_rels/.rels", &rels); err != nil {
		return "", err
	}
	for _, r := range rels.List {
		if strings.HasSuffix(r.Type, "/officeDocument") {
			return strings.TrimPrefix(r.Target, "/"), nil
		}
	}
	return "", fmt.Errorf("%w: no workbook part", ErrDamaged)
}

func (in *inspector) readSheets(root string) error {
	var book struct {
		Props struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			Name  string     `xml:"name,attr"`
			State string     `xml:"state,attr"`
			Attrs []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	if err := in.decode(root, &book); err != nil {
		return err
	}
	in.date1904 = book.Props.Date1904 == "1" || book.Props.Date1904 == "true"
	var rels relations
	if err := in.decode(path.Join(path.Dir(root), "_rels", path.Base(root)+".rels"), &rels); err != nil {
		return err
	}
	target := map[string]string{}
	for _, r := range rels.List {
		if !strings.HasSuffix(r.Type, "/worksheet") {
			continue
		}
		if strings.HasPrefix(r.Target, "/") {
			target[r.ID] = r.Target[1:]
		} else {
			target[r.ID] = path.Join(path.Dir(root), r.Target)
		}
	}
	for _, s := range book.Sheets {
		for _, a := range s.Attrs {
			if a.Name.Local == "id" && target[a.Value] != "" {
				in.sheets = append(in.sheets, part{s.Name, target[a.Value], s.State == "hidden" || s.State == "veryHidden"})
			}
		}
	}
	return nil
}

// readStyles notes the styles that show a number as percent, as a date or as a time of day. A workbook without styles has none.
func (in *inspector) readStyles() error {
	const styles = "xl/styles.xml"
	if in.parts[styles] == nil {
		return nil
	}
	var sheet struct {
		Formats []struct {
			ID   string `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format string `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := in.decode(styles, &sheet); err != nil {
		return err
	}
	codes := map[string]string{"9": "0%", "10": "0.00%"} // built in, as those of dates
	for _, ids := range [][2]int{{14, 22}, {27, 36}, {45, 47}, {50, 58}} {
		for id := ids[0]; id <= ids[1]; id++ {
			codes[strconv.Itoa(id)] = "yyyy-mm-dd"
		}
	}
	for _, f := range sheet.Formats {
		codes[f.ID] = f.Code
	}
	for i, c := range sheet.Cells {
		code := bareFormat(codes[c.Format])
		in.percent[strconv.Itoa(i)] = strings.Contains(code, "%")
		in.date[strconv.Itoa(i)] = strings.ContainsAny(code, "ymdhs")
		if p, pads := paddingOf(codes[c.Format]); pads {
			in.padded[strconv.Itoa(i)] = p
		}
	}
	return nil
}

// bareFormat returns the first section of a number format without quoted words, escapes, colours and the word General.
func bareFormat(code string) string {
	var b strings.Builder
	quoted, bracket, skip := false, false, false
	for _, r := range strings.ToLower(code) {
		switch {
		case skip:
			skip = false
		case quoted:
			quoted = r != '"'
		case bracket:
			bracket = r != ']'
		case r == '"':
			quoted = true
		case r == '[':
			bracket = true
		case r == '\\' || r == '_' || r == '*':
			skip = true
		case r == ';':
			return strings.ReplaceAll(b.String(), "general", "")
		default:
			b.WriteRune(r)
		}
	}
	return strings.ReplaceAll(b.String(), "general", "")
}

// open opens a part of the package.
func (in *inspector) open(name string) (io.ReadCloser, error) {
	p := in.parts[strings.ToLower(name)]
	if p == nil {
		return nil, fmt.Errorf("%w: %s is missing", ErrDamaged, name)
	}
	r, err := p.Open()
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %w", ErrDamaged, name, err)
	}
	return struct {
		io.Reader
		io.Closer
	}{io.LimitReader(r, MostUnzipped), r}, nil
}

func (in *inspector) decode(name string, v any) error {
	r, err := in.open(name)
	if err != nil {
		return err
	}
	defer r.Close()
	if err := in.decoder(r).Decode(v); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDamaged, name, err)
	}
	return nil
}

// decoder reads XML with the spreadsheet library's own idea of character sets.
func (in *inspector) decoder(r io.Reader) *xml.Decoder {
	d := xml.NewDecoder(r)
	d.CharsetReader = in.charset
	return d
}

// whole says whether a part, if there is one, is XML to its end.
func (in *inspector) whole(name string) error {
	if in.parts[name] == nil {
		return nil
	}
	r, err := in.open(name)
	if err != nil {
		return err
	}
	defer r.Close()
	d := in.decoder(r)
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fmt.Errorf("%w: %s: %w", ErrDamaged, name, err)
		}
	}
}

// inspect reads the XML of a sheet to its end.
func (in *inspector) inspect(s part) (*marks, error) {
	r, err := in.open(s.path)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	w := walker{in: in, marks: &marks{merged: map[int][]merge{}}, decoder: in.decoder(r)}
	for {
		token, err := w.decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err == nil {
			err = w.step(token)
		}
		if errors.Is(err, ErrTooLarge) {
			return nil, fmt.Errorf("%w: sheet %q", err, s.name)
		}
		if err != nil {
			return nil, fmt.Errorf("%w: sheet %q: %w", ErrDamaged, s.name, err)
		}
	}
	if !w.sheetData {
		return nil, fmt.Errorf("%w: sheet %q holds no rows", ErrDamaged, s.name)
	}
	return w.marks, nil
}

// walker goes through the elements of a sheet.
type walker struct {
	in        *inspector
	marks     *marks
	decoder   *xml.Decoder
	sheetData bool
	unseen    [][2]int // hidden columns, from and to
	row       rowMarks
	number    int // of the row, those without a number counted on
	col       int
	cell      cellState
}

// cellState is what was seen of the cell that is open.
type cellState struct {
	open, formula   bool
	inValue, stored bool // a value stands there, be it an empty text
	value           bool // and it is not empty
	kind, style     string
}

func (w *walker) step(token xml.Token) error {
	switch t := token.(type) {
	case xml.StartElement:
		return w.start(t)
	case xml.EndElement:
		return w.end(t.Name.Local)
	case xml.CharData:
		if w.cell.inValue && len(t) > 0 {
			w.cell.value = true
		}
	}
	return nil
}

func (w *walker) start(t xml.StartElement) error {
	switch t.Name.Local {
	case "sheetData":
		w.sheetData = true
	case "col":
		w.column(t.Attr)
	case "row":
		return w.startRow(t.Attr)
	case "c":
		return w.startCell(t.Attr)
	case "f":
		w.cell.formula = w.cell.open
	case "v", "t":
		w.cell.inValue, w.cell.stored = w.cell.open, true
	case "mergeCell":
		w.merge(attr(t.Attr, "ref"))
	}
	return nil
}

// column notes a range of columns that is hidden.
func (w *walker) column(attrs []xml.Attr) {
	from, err := strconv.Atoi(attr(attrs, "min"))
	to, err2 := strconv.Atoi(attr(attrs, "max"))
	if hidden := attr(attrs, "hidden"); err == nil && err2 == nil && (hidden == "1" || hidden == "true") {
		w.unseen = append(w.unseen, [2]int{from, to})
	}
}

func (w *walker) startRow(attrs []xml.Attr) error {
	last := w.number
	w.number++
	if r := attr(attrs, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil || n < 1 || n > excelize.TotalRows {
			return fmt.Errorf("row %q", r)
		}
		w.number = n
	}
	if w.number <= last {
		return fmt.Errorf("row %d follows row %d", w.number, last)
	}
	hidden := attr(attrs, "hidden")
	w.row = rowMarks{number: w.number, hidden: hidden == "1" || hidden == "true"}
	w.col = 0
	return nil
}

func (w *walker) startCell(attrs []xml.Attr) error {
	w.col++
	if r := attr(attrs, "r"); r != "" {
		col, row, err := excelize.CellNameToCoordinates(r)
		if err != nil || row != w.number {
			return fmt.Errorf("cell %q in row %d", r, w.number)
		}
		w.col = col
	}
	w.cell = cellState{open: true, kind: attr(attrs, "t"), style: attr(attrs, "s")}
	return nil
}

func (w *walker) end(name string) error {
	switch name {
	case "v", "t":
		w.cell.inValue = false
	case "c":
		w.endCell()
	case "row":
		if len(w.row.cells) == 0 {
			return nil
		}
		if len(w.marks.rows) >= mostRows {
			return fmt.Errorf("%w: more than %d rows", ErrTooLarge, mostRows)
		}
		w.marks.rows = append(w.marks.rows, w.row)
	}
	return nil
}

// endCell notes the cell that closes, if it holds anything.
func (w *walker) endCell() {
	c := w.cell
	w.cell = cellState{}
	if !c.open || (!c.value && !c.formula) || w.col < 1 || w.col > excelize.MaxColumns {
		return
	}
	for len(w.row.cells) < w.col {
		w.row.cells = append(w.row.cells, 0)
	}
	mark := w.in.mark(c)
	for _, r := range w.unseen {
		if r[0] <= w.col && w.col <= r[1] {
			mark |= Unseen
		}
	}
	w.row.cells[w.col-1] = mark
	if p, pads := w.in.padded[c.style]; pads && mark&Number != 0 {
		if w.row.padded == nil {
			w.row.padded = map[int]padding{}
		}
		w.row.padded[w.col] = p
	}
}

// mark turns what was seen of a cell into its marks.
func (in *inspector) mark(c cellState) Mark {
	var m Mark
	switch c.kind {
	case "", "n":
		m = Number
		if in.percent[c.style] {
			m |= Percent
		} else if in.date[c.style] {
			m |= Date
		}
	case "b":
		m = Bool
	case "e":
		m = Error
	}
	if c.formula && !c.value && !(c.stored && c.kind == "str") {
		m |= formula
	}
	return m
}

// mostMerged bounds the merged ranges that are looked at: beyond it a sheet is a drawing, not a table.
const mostMerged = 2000

func (w *walker) merge(ref string) {
	first, last, found := strings.Cut(ref, ":")
	if !found || w.marks.ranges >= mostMerged {
		return
	}
	col, row, err := excelize.CellNameToCoordinates(first)
	_, bottom, err2 := excelize.CellNameToCoordinates(last)
	if err != nil || err2 != nil || bottom <= row {
		return
	}
	w.marks.ranges++
	w.marks.merged[col] = append(w.marks.merged[col], merge{row: row, last: bottom})
}

func attr(list []xml.Attr, name string) string {
	for _, a := range list {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}
