package starter

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
)

// head is a heading of a sheet: a column's own, or one that a person wrote.
type head struct {
	text   string
	column column // of nothing but a group when the heading is a person's own
	known  bool
}

// heads returns the headings of a sheet.
func (b *builder) heads(list []column, t *table) []head {
	if b.every || t.headings == nil {
		return b.everyHead(list, t)
	}
	var out []head
	group := list[0].group
	for _, text := range t.headings {
		h := head{text: text, column: column{group: group}}
		for _, c := range list {
			if c.called(text) {
				h = head{text, c, true}
				group = c.group
			}
		}
		out = append(out, h)
	}
	return out
}

// startFields are the columns that stand first in the sheet to be filled: with them alone a row gives a result and its cost.
var startFields = []finding.Field{"site_id", "site_name", "zone_id", "zone_name", "station", "area", "use", "stage", "energy_id"}

// startGroup is the group that they then make.
const startGroup = "start"

// startFirst puts the columns to be filled first before the others.
func startFirst(list []column) []column {
	var front, rest []column
	for _, f := range startFields {
		for _, c := range list {
			if c.field == f && c.sheet == columns.SheetSites {
				c.group = startGroup
				front = append(front, c)
			}
		}
	}
	for _, c := range list {
		if c.sheet != columns.SheetSites || !slices.Contains(startFields, c.field) {
			rest = append(rest, c)
		}
	}
	return append(front, rest...)
}

// everyHead returns the headings of all columns and puts the cells of a table, if any, under them.
func (b *builder) everyHead(list []column, t *table) []head {
	list = startFirst(list)
	out := make([]head, len(list))
	at := make([]int, len(t.headings))
	for i, c := range list {
		out[i] = head{c.title(b.system), c, true}
		for j, text := range t.headings {
			if c.called(text) {
				at[j] = i
			}
		}
	}
	for i, row := range t.rows {
		wide := make([]string, len(list))
		for j, cell := range row {
			wide[at[j]] = cell
		}
		t.rows[i] = wide
	}
	return out
}

// grid writes a sheet of headings and rows.
func (b *builder) grid(sheet string, heads []head, t *table) error {
	title := b.texts.say("title-" + strings.ToLower(sheet))
	if len(t.titles) > 0 {
		title = t.titles[0]
	}
	headRow := 2
	if heads[0].column.group != "" {
		headRow = 3
	}
	steps := []func() error{
		func() error { return b.widths(sheet, heads, t) },
		func() error { return b.top(sheet, title, headRow) },
		func() error { return b.bands(sheet, heads, headRow-1) },
		func() error { return b.headings(sheet, heads, headRow) },
		func() error { return b.rows(sheet, t, headRow+1) },
		func() error { return b.notes(sheet, heads, headRow+1) },
		func() error { return b.page(sheet, heads, headRow) },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) top(sheet, title string, headRow int) error {
	if err := b.put(sheet, 1, 1, title, b.looks.title); err != nil {
		return err
	}
	heights := map[int]float64{1: topHeight, headRow: headHeight}
	if headRow > 2 {
		heights[headRow-1] = bandHeight
	}
	for row, h := range heights {
		if err := b.file.SetRowHeight(sheet, row, h); err != nil {
			return err
		}
	}
	return nil
}

// bands writes the names of the groups above the headings, each over its columns.
func (b *builder) bands(sheet string, heads []head, row int) error {
	if heads[0].column.group == "" {
		return nil
	}
	for first, n := 0, 0; first < len(heads); n++ {
		last := first
		for last+1 < len(heads) && heads[last+1].column.group == heads[first].column.group {
			last++
		}
		name := b.texts.say("group-" + strings.ReplaceAll(heads[first].column.group, " ", "-"))
		if err := b.file.SetCellStyle(sheet, ref(row, first+1), ref(row, last+1), b.looks.band[n%2]); err != nil {
			return err
		}
		if err := b.file.SetCellValue(sheet, ref(row, first+1), name); err != nil {
			return err
		}
		first = last + 1
	}
	return nil
}

func (b *builder) headings(sheet string, heads []head, row int) error {
	for i, h := range heads {
		look := b.looks.headNumbers
		switch {
		case h.column.required:
			look = b.looks.must
		case h.column.quantity == units.Text:
			look = b.looks.headWords
		}
		if err := b.put(sheet, row, i+1, h.text, look); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) rows(sheet string, t *table, first int) error {
	for i, cells := range t.rows {
		for j, cell := range cells {
			if err := b.cell(sheet, ref(first+i, j+1), cell); err != nil {
				return err
			}
		}
		if t.hidden[i] {
			if err := b.file.SetRowVisible(sheet, first+i, false); err != nil {
				return err
			}
		}
	}
	return nil
}

// plainNumber is a cell that a spreadsheet program would store as a number wherever it is typed.
var plainNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// cell stores what a person typed.
func (b *builder) cell(sheet, at, typed string) error {
	switch {
	case typed == "":
		return nil
	case strings.HasPrefix(typed, "="):
		return b.file.SetCellFormula(sheet, at, typed)
	case plainNumber.MatchString(typed):
		v, err := strconv.ParseFloat(typed, 64)
		if err != nil {
			return err
		}
		return b.file.SetCellFloat(sheet, at, v, -1, 64)
	}
	return b.file.SetCellStr(sheet, at, typed)
}

// put writes a text with a look.
func (b *builder) put(sheet string, row, col int, text string, look int) error {
	if err := b.file.SetCellStr(sheet, ref(row, col), text); err != nil {
		return err
	}
	return b.file.SetCellStyle(sheet, ref(row, col), ref(row, col), look)
}

// ref returns the address of a cell.
func ref(row, col int) string {
	name, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		panic(err) // rows and columns are counted here
	}
	return name
}

const (
	lastNoted  = 3000 // the row to which drop-downs and notes reach
	leastWidth = 9.0
	textWidth  = 18.0
	mostWidth  = 34.0
	mostNote   = 255 // characters that a spreadsheet program takes in a note, and in a list
	mostTitle  = 32  // and in a note's title
)

// notes gives the cells below each heading a note that tells what belongs there and, where there are choices, a drop-down. Nothing is refused:
// other spellings are understood by the reader, which says so.
func (b *builder) notes(sheet string, heads []head, first int) error {
	for i, h := range heads {
		if !h.known {
			continue
		}
		if err := b.note(sheet, ref(first, i+1)+":"+ref(lastNoted, i+1), h.column); err != nil {
			return fmt.Errorf("%s: %w", h.text, err)
		}
	}
	return nil
}

func (b *builder) note(sheet, cells string, c column) error {
	v := excelize.NewDataValidation(true)
	v.Sqref = cells
	v.SetInput(cut(c.heading, mostTitle), cut(b.texts.note(c, b.system), mostNote))
	switch {
	case c.field == stationField:
		v.SetSqrefDropList(b.stationCells())
	case len(c.choices) > 0 && listable(c.choices):
		if err := v.SetDropList(c.choices); err != nil {
			return err
		}
	}
	return b.file.AddDataValidation(sheet, v)
}

// listable says whether choices can stand in a drop-down, whose entries a comma parts.
func listable(choices []string) bool { return !strings.Contains(strings.Join(choices, ""), ",") }

// cut shortens a text to a number of characters.
func cut(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-1]) + "…"
}

// widths gives each column the width of its heading in three lines, or of what stands below.
func (b *builder) widths(sheet string, heads []head, t *table) error {
	for i, h := range heads {
		name, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		look := b.looks.body // numbers stand right, and left where they are typed as text
		if h.column.quantity == units.Text {
			look = b.looks.words
		}
		if err := b.file.SetColStyle(sheet, name, look); err != nil {
			return err
		}
		if err := b.file.SetColWidth(sheet, name, name, width(h, i, t)); err != nil {
			return err
		}
	}
	return nil
}

func width(h head, at int, t *table) float64 {
	w := leastWidth
	for word := range strings.FieldsSeq(h.text) {
		w = max(w, float64(utf8.RuneCountInString(word))+2.5)
	}
	w = max(w, float64(utf8.RuneCountInString(h.text))/3+4)
	if h.column.required {
		w += 3
	}
	for _, choice := range h.column.choices {
		w = max(w, min(float64(utf8.RuneCountInString(choice))+3, textWidth))
	}
	if h.known && h.column.quantity == units.Text && len(h.column.choices) == 0 && len(t.rows) == 0 && !h.column.required {
		w = max(w, textWidth)
	}
	for _, row := range t.rows {
		if at < len(row) {
			w = max(w, min(float64(utf8.RuneCountInString(row[at]))+2, mostWidth))
		}
	}
	return w
}

// pageWidth is the characters that one landscape page across still shows legibly.
const pageWidth = 150.0

// page freezes the headings and the first column and sets up printing: landscape, headings and names on each page.
func (b *builder) page(sheet string, heads []head, headRow int) error {
	total := 0.0
	for i := range heads {
		name, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		w, err := b.file.GetColWidth(sheet, name)
		if err != nil {
			return err
		}
		total += w
	}
	if err := b.file.SetPanes(sheet, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: headRow, TopLeftCell: ref(headRow+1, 2), ActivePane: "bottomRight",
		Selection: []excelize.Selection{{SQRef: ref(headRow+1, 2), ActiveCell: ref(headRow+1, 2), Pane: "bottomRight"}}}); err != nil {
		return err
	}
	titles := fmt.Sprintf("'%s'!$A:$A,'%s'!$1:$%d", sheet, sheet, headRow)
	if err := b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: sheet}); err != nil {
		return err
	}
	return b.landscape(sheet, int(total/pageWidth)+1)
}

// landscape sets a sheet to print across so many pages.
func (b *builder) landscape(sheet string, pages int) error {
	orientation, paper, down, fit := "landscape", 9, 0, true // 9 is A4
	if err := b.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &orientation, Size: &paper, FitToWidth: &pages, FitToHeight: &down}); err != nil {
		return err
	}
	colour := tabOthers
	if sheet == columns.SheetSites {
		colour = tabSites
	}
	if err := b.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit, TabColorRGB: &colour}); err != nil {
		return err
	}
	margin := 0.4 // in
	if err := b.file.SetPageMargins(sheet, &excelize.PageLayoutMarginsOptions{Left: &margin, Right: &margin, Top: &margin}); err != nil {
		return err
	}
	return b.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&L&A&R&P / &N"})
}
