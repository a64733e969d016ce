package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/finding"
	sums "thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/sheets/book"
	"thawbook/report/words"
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
	source    *source
	file      *excelize.File // makes our sheets; they are put into the source
	tables    []*table
	looks     *looks
	portfolio *sums.Portfolio
	found     []finding.Finding
	linked    bool // the user's sheets stand in the same workbook
}

// Create opens a copy of the workbook at path, without touching the file, or a workbook of their own where path is empty, and adds the result
// sheets. Sheets of an earlier run, known by their mark, are filled again in place. A workbook that can't take them without loss is told by a
// finding, and the results get a workbook of their own.
func Create(path string, v Head) (*Writer, error) {
	var found []finding.Finding
	if path != "" {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		w, err := beside(data, v)
		if err == nil {
			return w, nil
		}
		found = append(found, finding.New(finding.Warning, CodeResultsSeparate, "", finding.Words("why", v.why(err))))
	}
	b, err := book.New(v.Program, v.Settings.Project)
	if err != nil {
		return nil, err
	}
	s, err := sourceOf(b)
	if err != nil {
		return nil, err
	}
	w, err := begin(s, v, false)
	if err != nil {
		return nil, err
	}
	w.found = found
	return w, nil
}

// beside puts the result sheets beside the user's own.
func beside(data []byte, v Head) (*Writer, error) {
	s, err := openSource(data)
	if err != nil {
		return nil, err
	}
	return begin(s, v, true)
}

// begin adds the result sheets with their headings, and what the basis holds before the first site.
func begin(s *source, v Head, linked bool) (w *Writer, err error) {
	file := s.generator()
	w = &Writer{head: v, source: s, file: file, linked: linked, portfolio: sums.New(v.Settings.Currency)}
	defer func() {
		if p := recover(); p != nil { // the library panics on styles that it does not know
			err = fmt.Errorf("%v", p)
		}
		if err != nil {
			err = errors.Join(err, file.Close())
		}
	}()
	w.looks = &looks{file: w.file, made: map[string]int{}, font: book.Font(s.styles), style: v.Words.Show}
	if w.looks.all(); w.looks.err != nil {
		return nil, w.looks.err
	}
	for _, one := range all() {
		if _, known := s.marked[one.Key]; one.Key == changesKey && !known {
			continue // it comes when something has changed
		}
		if err := w.add(one); err != nil {
			return nil, err
		}
	}
	if s.book.Signed() {
		w.found = append(w.found, finding.New(finding.Warning, CodeCopyUnsigned, ""))
	}
	r := w.row()
	for _, line := range slices.Concat(methodLines(v.Words, v.Program), constantLines(v.Words)) {
		r.Line = line
		w.table("basis").put(r)
	}
	return w, w.err()
}

// add makes or finds a result sheet and opens it.
func (w *Writer) add(s sheet) error {
	t := &table{sheet: s}
	if m, found := w.source.marked[s.Key]; found {
		before, hurdle, err := readEarlier(w.source.book, s, m, w.looks.isOurs)
		if err != nil {
			return err
		}
		if hurdle == "" {
			t.before, t.name, t.part = before, m.sheet.Name, m.sheet.Part
			if _, taken := w.source.taken[strings.ToLower(s.Name)]; taken && !strings.EqualFold(t.name, s.Name) {
				w.tellTaken(t)
			}
		} else {
			w.leave(t, m, hurdle)
		}
	}
	if t.part == "" {
		if err := errors.Join(w.newSheet(t), w.tellAstray(t)); err != nil {
			return err
		}
	}
	if err := w.generate(t); err != nil {
		return err
	}
	w.tables = append(w.tables, t)
	return w.open(t)
}

// leave tells of a sheet of an earlier run that holds something that can't be carried over. It stays as it is; ours goes elsewhere.
func (w *Writer) leave(t *table, m mark, why hurdle) {
	t.name = w.source.free(t.Name)
	f := finding.New(finding.Warning, CodeSheetKept, "", finding.Words("sheet", m.sheet.Name), finding.Words("why", w.head.Words.Say(string(why))), finding.Words("ours", t.name))
	f.At = finding.Cell{Sheet: m.sheet.Name}
	w.found = append(w.found, f)
}

// newSheet adds a sheet to the workbook under its name, or under the first free one like it.
func (w *Writer) newSheet(t *table) (err error) {
	if t.name == "" {
		if t.name = w.source.free(t.Name); t.name != t.Name {
			w.tellTaken(t)
		}
	}
	t.part, err = w.source.book.AddSheet(t.name)
	return err
}

// tellTaken tells of a sheet of the user's that has the name of ours.
func (w *Writer) tellTaken(t *table) {
	f := finding.New(finding.Warning, CodeSheetNameTaken, "", finding.Words("sheet", t.Name), finding.Words("ours", t.name))
	f.At = finding.Cell{Sheet: t.Name}
	w.found = append(w.found, f)
}

// generate adds the sheet to those that the library makes.
func (w *Writer) generate(t *table) error {
	if len(w.tables) == 0 {
		if err := w.file.SetSheetName(w.file.GetSheetName(0), t.name); err != nil {
			return err
		}
	} else if _, err := w.file.NewSheet(t.name); err != nil {
		return err
	}
	for id, name := range w.file.GetSheetMap() {
		if name == t.name {
			t.made = fmt.Sprintf("xl/worksheets/sheet%d.xml", id)
		}
	}
	return nil
}

// made returns the sheet that the library makes under that name; nil for any other part.
func (w *Writer) made(part string) *table {
	for _, t := range w.tables {
		if t.made == part {
			return t
		}
	}
	return nil
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
	return w.file.SetHeaderFooter(t.name, &excelize.HeaderFooterOptions{OddFooter: footer})
}

// pages returns how many pages a sheet's columns take side by side.
func (t *table) pages() int {
	total := 0.0
	for _, c := range t.Columns {
		total += width(c, t.show())
	}
	return int(math.Ceil(total / pageWidth))
}

// titles names the rows and columns that every printed page repeats.
func (t *table) titles() string {
	titles := quoted(t.name) + "!$1:$1"
	if t.Frozen > 0 && t.pages() > 1 {
		last, _ := excelize.ColumnNumberToName(t.Frozen)
		titles = fmt.Sprintf("%s!$A:$%s,%s", quoted(t.name), last, titles)
	}
	return titles
}

// Findings returns what is to be told about the workbook itself. Pass them on to Finish with all others.
func (w *Writer) Findings() []finding.Finding { return w.found }

// Site appends a site's rows to every sheet. pdf is the site's document, relative to the workbook; empty without one.
func (w *Writer) Site(so calc.SiteOutcome, pdf string) error {
	if entry, included := so.Summary.Portfolio(); included {
		w.portfolio.Add(entry)
	}
	r := w.row()
	r.Site, r.PDF = &so, pdf
	for _, t := range w.tables {
		if t.Rows != nil {
			t.Rows(r, w.head.Words.Show.Units, t.put)
		}
	}
	return w.err()
}

// Complete fills the sheets that only the end can fill, all but the findings, and returns the findings of the whole run with those about the
// workbook: what a person left in rows that are gone. No site can be added after it.
func (w *Writer) Complete(b Basis, changes []report.Change, list []finding.Finding) ([]finding.Finding, error) {
	r := w.row()
	portfolioRows(report.Portfolio{Portfolio: w.portfolio, Terms: report.TermsOf(w.head.Settings)}, r, w.table("portfolio").put)
	for _, line := range b.Files {
		r.Line = line
		w.table("basis").put(r)
	}
	if err := w.changes(changes, r); err != nil {
		return nil, err
	}
	list = report.Merge(append(slices.Clone(list), w.found...))
	var lost []finding.Finding
	for _, t := range w.tables {
		found, err := w.lost(t, list)
		if err != nil {
			return nil, err
		}
		lost = append(lost, found...)
	}
	return report.Merge(append(list, lost...)), w.err()
}

// Finish writes the findings and closes all sheets. Nothing can be added after it.
func (w *Writer) Finish(list []finding.Finding) error {
	findings := w.table(findingsKey)
	findingRows(list, w.row(), findings.put)
	if err := w.err(); err != nil {
		return err
	}
	for _, t := range w.tables {
		if err := t.close(); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
	}
	return w.put()
}

// row is what every row holds.
func (w *Writer) row() Row {
	return Row{Words: w.head.Words, Headings: w.head.Headings, Linked: w.linked}
}

// put puts our sheets, and all that hangs on them, into the workbook.
func (w *Writer) put() error {
	g := &generated{writer: w, parts: map[string]*bytes.Buffer{}}
	w.file.SetZipWriter(func(io.Writer) excelize.ZipWriter { return g })
	if _, err := w.file.WriteTo(io.Discard); err != nil {
		return err
	}
	if g.err != nil {
		return g.err
	}
	if err := w.source.book.GrowStyles(w.source.styles, g.parts["xl/styles.xml"].Bytes()); err != nil {
		return err
	}
	for _, t := range w.tables {
		if err := w.hang(t, g); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
	}
	return w.register()
}

// hang puts what a sheet leads to into the workbook.
func (w *Writer) hang(t *table, g *generated) error {
	b := w.source.book
	made := map[string]string{} // part of the library's, by kind
	if rels := g.parts[relsPart(t.made)]; rels != nil {
		list, err := book.RelationsIn(rels.Bytes(), t.made)
		if err != nil {
			return err
		}
		for _, r := range list {
			made[r.Kind()] = r.Part
		}
	}
	var err error
	if t.before != nil {
		if err := t.carryParts(b); err != nil {
			return err
		}
	}
	if t.tabled {
		if t.tablePart, err = w.putTable(g.parts[made["table"]].Bytes()); err != nil {
			return err
		}
	}
	switch {
	case made["drawing"] == "":
	case t.drawn:
		if t.drawPart, err = w.putDrawing(g, made["drawing"]); err != nil {
			return err
		}
	case t.before != nil:
		if err := w.renewChart(t, g, made["drawing"]); err != nil {
			return err
		}
	}
	list := t.relations()
	if len(list) == 0 && b.Has(relsPart(t.part)) {
		return b.Drop(relsPart(t.part))
	}
	return b.Relate(t.part, list)
}

// putTable puts a table into the workbook under a number that none of its tables has.
func (w *Writer) putTable(text []byte) (string, error) {
	b := w.source.book
	part := b.Free("tables/table*.xml")
	root, err := book.Parse(text, 1)
	if err != nil {
		return "", err
	}
	w.source.lastTable++
	text = book.Apply(text, root.WithAttr(text, "id", fmt.Sprint(w.source.lastTable)))
	if err := b.Pack(part, text); err != nil {
		return "", err
	}
	return part, b.SetType(part, book.TableType)
}

// putDrawing puts a drawing and its chart into the workbook.
func (w *Writer) putDrawing(g *generated, made string) (string, error) {
	b := w.source.book
	chart, err := chartOf(g, made)
	if err != nil {
		return "", err
	}
	draw, drawn := b.Free("drawings/drawing*.xml"), b.Free("charts/chart*.xml")
	if err := b.Pack(drawn, g.parts[chart.Part].Bytes()); err != nil {
		return "", err
	}
	if err := b.SetType(drawn, book.ChartType); err != nil {
		return "", err
	}
	if err := b.Pack(draw, pinned(g.parts[made].Bytes())); err != nil {
		return "", err
	}
	if err := b.SetType(draw, book.DrawType); err != nil {
		return "", err
	}
	return draw, b.Relate(draw, []book.Relation{{ID: chart.ID, Type: book.RelationType("chart"), Part: drawn}})
}

// chartOf returns where the drawing that the library made leads to.
func chartOf(g *generated, drawing string) (book.Relation, error) {
	rels := g.parts[relsPart(drawing)]
	if rels == nil {
		return book.Relation{}, fmt.Errorf("%s leads to no chart", drawing)
	}
	list, err := book.RelationsIn(rels.Bytes(), drawing)
	if err != nil || len(list) != 1 {
		return book.Relation{}, errors.Join(err, fmt.Errorf("%s leads to %d parts", drawing, len(list)))
	}
	return list[0], nil
}

func relsPart(part string) string {
	return path.Join(path.Dir(part), "_rels", path.Base(part)+".rels")
}

// register marks our sheets in the workbook and asks for it to be calculated.
func (w *Writer) register() error {
	b := w.source.book
	list, err := b.Sheets()
	if err != nil {
		return err
	}
	var again []book.Sheet
	for _, t := range w.tables {
		index := slices.IndexFunc(list, func(s book.Sheet) bool { return s.Part == t.part })
		span := span{place{1, 1, true, true}, place{slices.Max(t.at), 1, true, true}, false}
		if err := b.SetName(book.Name{Name: markPrefix + t.Key, Sheet: -1, Text: quoted(t.name) + "!" + span.String()}); err != nil {
			return err
		}
		if err := errors.Join(t.setSums(b), t.setPrint(b, index)); err != nil {
			return err
		}
		if t.before != nil {
			again = append(again, t.before.sheet)
		}
	}
	if err := b.DropOrder(again); err != nil {
		return err
	}
	return b.CalculateOnLoad()
}

// setPrint says what of a sheet is printed, and what every page repeats. What a person has set since stays.
func (t *table) setPrint(b *book.Book, index int) error {
	if t.before == nil {
		if err := b.SetName(book.Name{Name: "_xlnm.Print_Titles", Sheet: index, Text: t.titles()}); err != nil {
			return err
		}
	}
	if t.printedChart() || t.Rows == nil || !t.charted {
		return nil
	}
	area := book.Name{Name: "_xlnm.Print_Area", Sheet: index, Text: t.cellsTo(t.width(), t.rows)}
	if t.before == nil {
		return b.SetName(area)
	}
	names, err := b.Names()
	if err != nil {
		return err
	}
	was := book.Name{Name: area.Name, Sheet: index, Text: t.cellsTo(t.before.width, t.before.last)}
	if slices.Contains(names, was) {
		return b.SetName(area)
	}
	return nil
}

// cellsTo names the cells from the first on.
func (t *table) cellsTo(col, row int) string {
	return quoted(t.name) + "!" + span{place{1, 1, true, true}, place{col, row, true, true}, false}.String()
}

// WriteTo writes the workbook. The same input has the same bytes.
func (w *Writer) WriteTo(out io.Writer) (int64, error) {
	c := &counter{out: out}
	err := w.source.book.Write(c)
	return c.n, err
}

type counter struct {
	out io.Writer
	n   int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.out.Write(p)
	c.n += int64(n)
	return n, err
}

// Close removes what was kept aside on disk for a large workbook.
func (w *Writer) Close() error { return w.file.Close() }

// table returns the sheet with a key; nil where there is none.
func (w *Writer) table(key string) *table {
	for _, t := range w.tables {
		if t.Key == key {
			return t
		}
	}
	return nil
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
