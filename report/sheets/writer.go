package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/show"
	"thawbook/report/words"
)

// Codes of findings about the workbook that is written.
const (
	CodeSheetNameTaken  finding.Code = "sheet-name-taken"
	CodeResultsSeparate finding.Code = "results-separate"
)

const (
	markPrefix  = "thawbook." // of the defined name that marks a sheet as ours, whatever its name
	digits      = 7           // significant digits of a number in a cell
	mostLinks   = 65000       // of a sheet; the format allows 65,530
	headHeight  = 44.0        // points
	rowHeight   = 13.5        // points, one line
	mostHeight  = 162.0       // points, twelve lines: a longer text is all there, but not all in sight
	textLimit   = 32767       // characters of a cell
	perWidth    = 0.85        // column width that a character takes, with what is lost at the ends of lines
	landscape   = "landscape"
	paperA4     = 9
	paperLetter = 1
)

// Head is what a workbook of results needs to know before the first site.
type Head struct {
	Settings calc.Settings
	Headings report.Headings
	Words    *words.Words
	Program  string // "thawbook 0.1.0"
}

// Writer writes the result sheets. Rows are streamed: Site takes what it needs of an outcome and keeps nothing of it.
type Writer struct {
	head      Head
	file      *excelize.File
	tables    []*table
	looks     *looks
	portfolio report.Portfolio
	found     []finding.Finding
	linked    bool
}

// Create opens a copy of the workbook at source, without touching the file, or a workbook of their own where source is empty, and adds the
// result sheets. Sheets of an earlier run, known by their mark, are emptied and filled again. A workbook that can't take them is told by a finding,
// and the results get a workbook of their own.
func Create(source string, v Head) (*Writer, error) {
	var found []finding.Finding
	if source != "" {
		data, err := os.ReadFile(source)
		if err != nil {
			return nil, err
		}
		w, err := beside(data, source, v)
		if err == nil {
			return w, nil
		}
		found = append(found, finding.New(finding.Warning, CodeResultsSeparate, "", finding.Words("why", err.Error())))
	}
	w := &Writer{head: v, file: excelize.NewFile(), found: found}
	const made = "2000-01-01T00:00:00Z" // the same input has the same bytes
	if err := w.file.SetDocProps(&excelize.DocProperties{Creator: v.Program, Title: v.Settings.Project, Created: made, Modified: made}); err != nil {
		return nil, err
	}
	return w, w.begin(nil, nil)
}

// beside puts the result sheets beside the user's own.
func beside(data []byte, source string, v Head) (w *Writer, err error) {
	defer func() {
		if p := recover(); p != nil { // the library panics on styles that lack a list
			err = fmt.Errorf("%v", p)
		}
	}()
	data, reused, parts, err := prepare(data)
	if err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: unzippedLimit, UnzipXMLSizeLimit: 16 << 20})
	if err != nil {
		return nil, err
	}
	f.Path = source // its ending tells .xlsx from .xlsm
	w = &Writer{head: v, file: f, linked: true}
	yes := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &yes}); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	if err := w.begin(reused, parts); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return w, nil
}

// begin adds the result sheets with their headings, and what the basis holds before the first site.
func (w *Writer) begin(reused map[string]string, parts map[string]bool) error {
	font, err := w.file.GetDefaultFont()
	if err != nil {
		return err
	}
	w.file.SetZipWriter(newSortedZip)
	w.looks = &looks{file: w.file, made: map[string]int{}, font: font, style: w.head.Words.Show}
	if err := w.addSheets(reused, parts); err != nil {
		return err
	}
	for _, t := range w.tables {
		if err := w.open(t); err != nil {
			return err
		}
	}
	r := w.row()
	for _, line := range slices.Concat(methodLines(w.head.Words, w.head.Program), constantLines(w.head.Words)) {
		r.Line = line
		w.table("basis").put(r)
	}
	return w.err()
}

// addSheets makes or finds the result sheets and marks them.
func (w *Writer) addSheets(reused map[string]string, parts map[string]bool) error {
	for _, s := range all() {
		name, found := reused[s.Key]
		if !found {
			var err error
			if name, err = w.newSheet(s.Name, parts); err != nil {
				return err
			}
			if err := w.mark(s.Key, name); err != nil {
				return err
			}
		}
		w.tables = append(w.tables, &table{sheet: s, name: name})
	}
	return nil
}

// newSheet adds a sheet of that name, or of the first free one like it.
func (w *Writer) newSheet(wanted string, parts map[string]bool) (string, error) {
	if !w.linked && len(w.tables) == 0 {
		return wanted, w.file.SetSheetName(w.file.GetSheetName(0), wanted)
	}
	name := wanted
	for n := 2; ; n++ {
		index, err := w.file.GetSheetIndex(name)
		if err != nil {
			return "", err
		}
		if index < 0 {
			break
		}
		name = fmt.Sprintf("%s (%d)", wanted, n)
	}
	if name != wanted {
		f := finding.New(finding.Warning, CodeSheetNameTaken, "", finding.Words("sheet", wanted), finding.Words("ours", name))
		f.At = finding.Cell{Sheet: wanted}
		w.found = append(w.found, f)
	}
	if part := w.nextPart(); parts[part] {
		return "", fmt.Errorf("the workbook numbers its sheets in an unusual way (%s is taken)", part)
	}
	_, err := w.file.NewSheet(name)
	return name, err
}

// nextPart returns the part that the library will give the next sheet.
func (w *Writer) nextPart() string {
	most := 0
	for id := range w.file.GetSheetMap() {
		most = max(most, id)
	}
	return "xl/worksheets/sheet" + strconv.Itoa(most+1) + ".xml"
}

// mark writes the defined name by which a later run knows the sheet, also when it was renamed.
func (w *Writer) mark(key, name string) error {
	mark := &excelize.DefinedName{Name: markPrefix + key, RefersTo: quoted(name) + "!$A$1"}
	_ = w.file.DeleteDefinedName(mark) // of a sheet that was deleted
	return w.file.SetDefinedName(mark)
}

func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }

// open sets a sheet up and writes its heading row.
func (w *Writer) open(t *table) error {
	t.writer = w
	if err := w.page(t); err != nil {
		return err
	}
	if err := w.file.SetSheetDimension(t.name, ""); err != nil { // a new sheet says it ends at A1, and some readers believe it
		return err
	}
	stream, err := w.file.NewStreamWriter(t.name)
	if err != nil {
		return err
	}
	t.stream = stream
	if err := t.stream.SetPanes(&excelize.Panes{Freeze: true, XSplit: t.Frozen, YSplit: 1, TopLeftCell: cellName(t.Frozen+1, 2), ActivePane: "bottomRight"}); err != nil {
		return err
	}
	t.cells = make([]excelize.Cell, len(t.Columns))
	t.values = make([]any, len(t.Columns))
	t.style = make([]int, len(t.Columns))
	for i, c := range t.Columns {
		if err := t.stream.SetColWidth(i+1, i+1, width(c, w.head.Words.Show)); err != nil {
			return err
		}
		t.cells[i] = excelize.Cell{StyleID: w.looks.head(c.Look == Money || c.Look == Budget || c.Quantity != units.Text), Value: heading(c, w.head.Words.Show)}
		t.values[i] = &t.cells[i]
		t.style[i] = t.look(c)
	}
	t.rows = 1
	return t.stream.SetRow("A1", t.values, excelize.RowOpts{Height: headHeight})
}

// page sets how a sheet is printed.
func (w *Writer) page(t *table) error {
	orientation, size, tall, yes := landscape, paperA4, 0, true
	wide := t.pages()
	if w.head.Words.Show.Units == units.IP {
		size = paperLetter
	}
	if err := w.file.SetSheetProps(t.name, &excelize.SheetPropsOptions{FitToPage: &yes}); err != nil {
		return err
	}
	if err := w.file.SetPageLayout(t.name, &excelize.PageLayoutOptions{Orientation: &orientation, Size: &size, FitToWidth: &wide, FitToHeight: &tall}); err != nil {
		return err
	}
	margin, edge, foot := 0.4, 0.7, 0.3 // inches
	if err := w.file.SetPageMargins(t.name, &excelize.PageLayoutMarginsOptions{Left: &margin, Right: &margin, Top: &margin, Bottom: &edge, Footer: &foot}); err != nil {
		return err
	}
	footer := "&L" + strings.ReplaceAll(w.head.Settings.Project, "&", "&&") + "&C&A&R&P / &N"
	if err := w.file.SetHeaderFooter(t.name, &excelize.HeaderFooterOptions{OddFooter: footer}); err != nil {
		return err
	}
	titles := fmt.Sprintf("%s!$1:$1", quoted(t.name))
	if t.Frozen > 0 && wide > 1 {
		last, _ := excelize.ColumnNumberToName(t.Frozen)
		titles = fmt.Sprintf("%s!$A:$%s,%s", quoted(t.name), last, titles)
	}
	err := w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: t.name})
	if errors.Is(err, excelize.ErrDefinedNameDuplicate) { // of an earlier run
		return nil
	}
	return err
}

// pages returns how many pages a sheet's columns take side by side.
func (t *table) pages() int {
	total := 0.0
	for _, c := range t.Columns {
		total += width(c, t.writer.head.Words.Show)
	}
	return int(math.Ceil(total / pageWidth))
}

// Findings returns what is to be told about the workbook itself. Pass them on to Finish with all others.
func (w *Writer) Findings() []finding.Finding { return w.found }

// Site appends a site's rows to every sheet. pdf is the site's document, relative to the workbook; empty without one.
func (w *Writer) Site(so calc.SiteOutcome, pdf string) error {
	w.portfolio.Add(so.Summary)
	r := w.row()
	r.Site, r.PDF = &so, pdf
	for _, t := range w.tables {
		if t.Rows != nil {
			t.Rows(r, w.head.Words.Show.Units, t.put)
		}
	}
	return w.err()
}

// Finish writes the sheets that only the end can fill, and closes all. Nothing can be added after it.
func (w *Writer) Finish(list []finding.Finding, b Basis) error {
	r := w.row()
	portfolioRows(&w.portfolio, r, w.table("portfolio").put)
	findingRows(list, r, w.table("findings").put)
	for _, line := range b.Files {
		r.Line = line
		w.table("basis").put(r)
	}
	if err := w.err(); err != nil {
		return err
	}
	for _, t := range w.tables {
		if err := w.file.AutoFilter(t.name, "A1:"+cellName(len(t.Columns), max(t.rows, 2)), nil); err != nil {
			return err
		}
		if err := t.stream.Flush(); err != nil {
			return err
		}
	}
	return nil
}

// row is what every row holds.
func (w *Writer) row() Row {
	return Row{Words: w.head.Words, Headings: w.head.Headings, Linked: w.linked}
}

// WriteTo writes the workbook. The same input has the same bytes.
func (w *Writer) WriteTo(out io.Writer) (int64, error) { return w.file.WriteTo(out) }

// Close removes what was kept aside on disk for a large workbook.
func (w *Writer) Close() error { return w.file.Close() }

func (w *Writer) table(key string) *table {
	return w.tables[slices.IndexFunc(w.tables, func(t *table) bool { return t.Key == key })]
}

// err returns the first error of any sheet.
func (w *Writer) err() error {
	for _, t := range w.tables {
		if t.err != nil {
			return fmt.Errorf("%s: %w", t.name, t.err)
		}
	}
	return w.looks.err
}

// table is a result sheet while it is written.
type table struct {
	sheet
	writer *Writer
	name   string // in this workbook
	stream *excelize.StreamWriter
	rows   int
	links  int
	style  []int // by column
	cells  []excelize.Cell
	values []any // points into cells; used again for every row
	err    error
}

// look returns the style of a column's cells.
func (t *table) look(c SheetColumn) int {
	l := t.writer.looks
	switch {
	case c.Look == Money:
		return l.money()
	case c.Look == Budget:
		return l.number(0)
	case c.Look == Wrapped:
		return l.wrapped()
	case c.Quantity != units.Text:
		return l.quantity(c.Quantity)
	}
	return l.plain()
}

// put writes a row.
func (t *table) put(r Row) {
	if t.err != nil {
		return
	}
	t.rows++
	lines := 1
	for i, c := range t.Columns {
		t.cells[i] = excelize.Cell{StyleID: t.style[i]}
		t.fill(i, c, r)
		if text, is := t.cells[i].Value.(string); is && c.Look == Wrapped {
			lines = max(lines, wrappedLines(text, c.Width))
		}
	}
	height := excelize.RowOpts{Height: min(float64(lines)*rowHeight, mostHeight)}
	t.err = t.stream.SetRow(cellName(1, t.rows), t.values, height)
}

// fill puts a value into the cell of a column, in the reader's unit. What is blank, not a number or infinite leaves the cell empty.
func (t *table) fill(i int, c SheetColumn, r Row) {
	t.values[i] = &t.cells[i] // without a value: a line under an empty cell
	show := t.writer.head.Words.Show
	measured := func(v float64, q units.Quantity) { t.number(i, q.In(show.Units).FromBase(v), show.Decimals(q)) }
	switch v := c.Get(r).(type) {
	case nil:
	case string:
		t.text(i, v)
		switch {
		case c.Look == Status:
			t.cells[i].StyleID = t.writer.looks.status(v)
		case c.Look == Chosen && r.IsChosen:
			t.cells[i].StyleID = t.writer.looks.chosen()
		}
	case int:
		t.set(i, v)
	case float64:
		measured(v, c.Quantity)
	case units.Maybe[float64]:
		if v.Known {
			measured(v.Value, c.Quantity)
		}
	case units.Maybe[cost.Money]:
		if v.Known {
			t.set(i, v.Value.Main(show.Currency))
		}
	case Measured:
		t.cells[i].StyleID = t.writer.looks.among(show.Decimals(v.Quantity))
		measured(v.Value, v.Quantity)
	case Link:
		t.link(i, v)
	default:
		t.err = fmt.Errorf("column %s: a cell can't hold %T", c.Key, v)
	}
}

func (t *table) text(i int, v string) {
	if v == "" {
		return
	}
	if len(v) > textLimit {
		v = strings.ToValidUTF8(v[:textLimit-3], "") + "…"
	}
	t.set(i, v)
}

// number puts a number, in the reader's unit, into a cell that shows some decimals of it.
func (t *table) number(i int, v float64, decimals int) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	if v < 0 && v*math.Pow10(decimals) > -0.5 {
		v = 0 // a cell would show −0
	}
	t.set(i, show.Significant(v, digits))
}

func (t *table) set(i int, v any) { t.cells[i].Value = v }

func (t *table) link(i int, l Link) {
	t.text(i, l.Text)
	if l.Text == "" || t.links >= mostLinks {
		return
	}
	t.links++
	target, kind := l.Cell, "Location"
	if l.File != "" {
		target, kind = relative(l.File), "External"
	}
	t.cells[i].StyleID = t.writer.looks.link()
	if err := t.writer.file.SetCellHyperLink(t.name, cellName(i+1, t.rows), target, kind); err != nil {
		t.err = err
	}
}

// relative escapes what a link to a file must not hold as it is.
func relative(file string) string {
	return strings.NewReplacer("%", "%25", " ", "%20", "#", "%23", "?", "%3F").Replace(file)
}

// wrappedLines estimates how many lines a text takes in a column.
func wrappedLines(text string, width float64) int {
	n := 0
	for line := range strings.SplitSeq(text, "\n") {
		n += max(1, int(math.Ceil(float64(utf8.RuneCountInString(line))*perWidth/width)))
	}
	return n
}

func cellName(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic(err) // both come from our own counting
	}
	return name
}
