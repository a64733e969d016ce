package sheets

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"thawbook/calc/finding"
	"thawbook/report/sheets/book"
)

// Codes of findings about the workbook that is written.
const (
	CodeSheetNameTaken  finding.Code = "sheet-name-taken"
	CodeResultsSeparate finding.Code = "results-separate"
	CodeSheetKept       finding.Code = "sheet-left-as-it-is"
	CodeCopyUnsigned    finding.Code = "copy-unsigned"
)

// markPrefix begins the defined name that marks a sheet as ours, whatever its name. It spans the sheet's headings.
const markPrefix = "thawbook."

// source is the workbook that the result sheets go into.
type source struct {
	book   *book.Book
	styles []byte            // what its styles are before ours come to them
	taken  map[string]string // names of its sheets and of ours, in lower case → as written
	tables map[string]bool   // names of tables and defined names, in lower case
	marked map[string]mark   // sheets of an earlier run, by key
	names  []book.Sheet      // its sheets, in their order
	sums   map[string]string // check sums of our sheets as they were written, by key
	astray map[string]string // names of sheets that are not there, and that a mark still leads to, by key

	lastTable int // the greatest number of a table
}

// mark is where an earlier run left a sheet.
type mark struct {
	sheet    book.Sheet
	index    int
	row, end int // of the headings: their row, and the last of their columns
}

// openSource takes a workbook apart.
func openSource(data []byte) (*source, error) {
	b, err := book.Open(data)
	if err != nil {
		return nil, err
	}
	return sourceOf(b)
}

func sourceOf(b *book.Book) (*source, error) {
	s := &source{book: b, taken: map[string]string{}, tables: map[string]bool{}, marked: map[string]mark{}, astray: map[string]string{}, sums: map[string]string{}}
	styles, err := b.Styles()
	if err != nil {
		return nil, err
	}
	s.styles = styles
	list, err := b.Sheets()
	if err != nil {
		return nil, err
	}
	s.names = list
	for _, sheet := range list {
		s.taken[strings.ToLower(sheet.Name)] = sheet.Name
	}
	names, err := b.Names()
	if err != nil {
		return nil, err
	}
	for _, n := range names {
		s.tables[strings.ToLower(n.Name)] = true
		s.noteMark(n, list)
	}
	return s, s.noteTables(list)
}

// noteMark remembers a sheet that an earlier run marked. A copy that a person made of such a sheet has a name for itself alone, and is theirs.
func (s *source) noteMark(n book.Name, list []book.Sheet) {
	key, ours := strings.CutPrefix(n.Name, markPrefix)
	if !ours || n.Sheet >= 0 {
		return
	}
	if sheet, is := strings.CutPrefix(n.Name, sumsPrefix); is {
		s.sums[sheet] = n.Text
		return
	}
	sheet, area := cutReference(n.Text)
	at, err := spanOf(area)
	if err != nil {
		return // the cells that it named were deleted
	}
	i := slices.IndexFunc(list, func(l book.Sheet) bool { return l.Name == sheet })
	switch {
	case i < 0:
		s.astray[key] = sheet
	case s.book.Has(list[i].Part):
		s.marked[key] = mark{sheet: list[i], index: i, row: at.top.row, end: at.bottom.col}
	}
}

// noteTables remembers the names of tables, which no second one may have.
func (s *source) noteTables(list []book.Sheet) error {
	for _, l := range list {
		relations, err := s.book.Relations(l.Part)
		if err != nil {
			return err
		}
		for _, r := range relations {
			if r.Kind() != "table" {
				continue
			}
			text, err := s.book.Part(r.Part)
			if err != nil {
				return err
			}
			root, err := book.Parse(text, 1)
			if err != nil {
				return err
			}
			s.tables[strings.ToLower(root.Attr("displayName"))] = true
			s.tables[strings.ToLower(root.Attr("name"))] = true
			id, _ := strconv.Atoi(root.Attr("id"))
			s.lastTable = max(s.lastTable, id)
		}
	}
	return nil
}

// free returns the first free name like the wanted one.
func (s *source) free(wanted string) string {
	name := wanted
	for n := 2; s.taken[strings.ToLower(name)] != ""; n++ {
		name = fmt.Sprintf("%s (%d)", wanted, n)
	}
	s.taken[strings.ToLower(name)] = name
	return name
}

// freeTable returns the first free name of a table for a sheet.
func (s *source) freeTable(sheet string) string {
	wanted := strings.Join(strings.FieldsFunc(sheet, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), "_")
	if first, _ := utf8.DecodeRuneInString(wanted); !unicode.IsLetter(first) {
		wanted = "Results_" + wanted
	}
	name := wanted
	for n := 2; s.tables[strings.ToLower(name)]; n++ {
		name = fmt.Sprintf("%s_%d", wanted, n)
	}
	s.tables[strings.ToLower(name)] = true
	return name
}

// generator returns a workbook of the spreadsheet library that begins with the styles of the source. It makes our sheets, and nothing else of it
// is used.
func (s *source) generator() *excelize.File {
	f := excelize.NewFile()
	f.Pkg.Store("xl/styles.xml", s.styles)
	f.Styles = nil // read again when they are asked for
	return f
}

// why returns the words of what stands against a workbook.
func (h Head) why(err error) string {
	if r := (*book.Refusal)(nil); errors.As(err, &r) {
		return h.Words.Say(r.Code, r.Args...)
	}
	return h.Words.Say("refused-broken", finding.Words("cause", err.Error()))
}

// cutReference splits 'Results Summary'!$A$1:$C$1 into its sheet and its cells.
func cutReference(reference string) (sheet, cells string) {
	at := strings.LastIndexByte(reference, '!')
	if at < 0 {
		return "", reference
	}
	sheet, cells = strings.TrimSpace(reference[:at]), reference[at+1:]
	if quoted, is := strings.CutPrefix(sheet, "'"); is {
		sheet = strings.ReplaceAll(strings.TrimSuffix(quoted, "'"), "''", "'")
	}
	return sheet, cells
}

func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }
