package ingest

import (
	"errors"
	"io/fs"
	"path"
	"path/filepath"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/weather"
	"thawbook/ingest/columns"
	"thawbook/ingest/hourly"
	"thawbook/ingest/sheet"
)

// Read reads a workbook and the weather files it names.
//
// Errors: *Unusable, only for an input that can't be read at all. What is wrong with a cell, a row or a weather file is a finding.
func Read(name string) (*Book, error) {
	file, err := sheet.Open(name)
	if err != nil {
		return nil, unusable(name, err)
	}
	book, err := readFile(name, file, func(named string) (weather.Record, weather.Source, error) {
		return hourly.Read(Beside(name, named))
	})
	return book, errors.Join(err, file.Close())
}

// Beside returns the path of a file that a workbook names: counted from the workbook's folder, with separators of either kind.
func Beside(workbook, named string) string {
	named = filepath.FromSlash(strings.ReplaceAll(named, `\`, "/"))
	if filepath.IsAbs(named) {
		return named
	}
	return filepath.Join(filepath.Dir(workbook), named)
}

// ReadText reads tables of text in a folder, under the headings of the sheets: sites.tsv, climate.tsv and so on.
//
// Errors: as Read.
func ReadText(fsys fs.FS, dir string) (*Book, error) {
	file, err := sheet.FromText(fsys, dir)
	if err != nil {
		return nil, unusable(dir, err)
	}
	return readFile(dir, file, func(named string) (weather.Record, weather.Source, error) {
		in, err := fsys.Open(path.Join(dir, named))
		if err != nil {
			return weather.Record{}, weather.Source{}, &hourly.Error{Code: hourly.CodeUnreadable, Args: []finding.Arg{finding.Words("file", path.Base(named))}, Err: err}
		}
		defer in.Close()
		return hourly.ReadFrom(in, path.Base(named))
	})
}

// reader fills a book from the sheets of a file.
type reader struct {
	book  *Book
	file  *sheet.File
	how   reading
	files *files
	rated map[string]bool // currencies that were looked at
}

func readFile(name string, file *sheet.File, open openFile) (*Book, error) {
	r := &reader{file: file, files: newFiles(open), rated: map[string]bool{}, book: &Book{Path: name, SHA256: file.SHA256, layouts: map[string]layout{},
		zones: map[zoneName]zonePlace{}, sites: map[string]int{}, energy: map[string]int{}, climate: map[string]int{}}}
	for _, step := range []func() error{r.settings, r.energies, r.parts, r.costs, r.climateAndSites, r.revisions, r.accepted, r.attachments} {
		if err := step(); err != nil {
			var known *Unusable
			if errors.As(err, &known) {
				return nil, known
			}
			return nil, unusable(name, err)
		}
	}
	finding.Sort(r.book.Findings)
	return r.book, nil
}

// tellSheet tells a thing about a whole sheet.
func (r *reader) tellSheet(s finding.Severity, code finding.Code, sheetName string, args ...finding.Arg) {
	f := finding.New(s, code, "", append([]finding.Arg{finding.Words("sheet", sheetName)}, args...)...)
	f.At = finding.Cell{Sheet: sheetName}
	r.add(f)
}

func (r *reader) add(list ...finding.Finding) { r.book.Findings = append(r.book.Findings, list...) }

// sheetNamed returns the sheet of a name, its case and spaces aside. A second one of the same name is told and left alone.
func (r *reader) sheetNamed(name string) (sheet.Sheet, bool) {
	var found *sheet.Sheet
	for i, s := range r.file.Sheets {
		if foldAll(s.Name) != foldAll(name) {
			continue
		}
		if found != nil {
			r.tellSheet(finding.Warning, CodeSheetTwice, s.Name, finding.Words("taken", found.Name))
			continue
		}
		found = &r.file.Sheets[i]
	}
	if found == nil {
		return sheet.Sheet{}, false
	}
	return *found, true
}

func (r *reader) settings() error {
	s, _ := r.sheetNamed(columns.SheetSettings)
	if s.Hidden {
		r.tellSheet(finding.Info, CodeSheetHidden, s.Name)
	}
	set, read, err := readSettings(s)
	if err != nil {
		return err
	}
	r.book.Settings, r.book.settings = set, read.rows
	r.book.layouts[columns.SheetSettings] = layout{sheet: s.Name}
	r.how = read.reading(set)
	r.add(read.findings...)
	return nil
}

// readSheet reads a sheet that need not be there, and adds what it tells. A sheet without a heading row is left alone and told.
func readSheet[T any](r *reader, name string, cols []columns.Column[T], each func(T, record)) error {
	s, here := r.sheetNamed(name)
	if !here {
		return nil
	}
	t, err := readTable(r.how, s, cols, func(v T, row record) {
		r.add(row.findings...)
		each(v, row)
	})
	if err != nil {
		return err
	}
	r.add(t.findings...)
	if t.found() {
		r.book.layouts[name] = t.layout
	} else if t.filled {
		f := noHeadings(t)
		f.Severity = finding.Warning
		r.add(f)
	}
	return nil
}

func (r *reader) energies() error {
	return readSheet(r, columns.SheetEnergy, columns.Energy(), func(e cost.Energy, row record) {
		if !row.failed {
			row.failed = !r.settleEnergy(&e, row)
		}
		r.rate(e.Currency, row, "energy_currency")
		switch {
		case !r.once(r.book.energy, foldAll(e.ID), "energy_row", e.ID, row):
		case row.failed:
			r.book.RefusedEnergies = append(r.book.RefusedEnergies, e.ID)
		default:
			r.book.Energies = append(r.book.Energies, e)
		}
	})
}

// once notes the row of a name and tells a name that stands twice.
func (r *reader) once(rows map[string]int, key string, f finding.Field, name string, row record) bool {
	if name == "" {
		return false // its cell could not be read, which is told
	}
	if rows[key] == 0 {
		rows[key] = row.row
		return true
	}
	r.tellRow(finding.Error, CodeRowTwice, row, f, finding.Words("typed", name))
	return false
}

// tellRow tells a thing about a field of a row.
func (r *reader) tellRow(s finding.Severity, code finding.Code, row record, f finding.Field, args ...finding.Arg) {
	told := finding.New(s, code, f, args...)
	told.At = row.layout.cell(row.row, f)
	r.add(told)
}

func (r *reader) parts() error {
	rows := map[string]int{}
	return readSheet(r, columns.SheetParts, columns.Parts(), func(p sensing.Part, row record) {
		if r.once(rows, foldAll(p.Name), "part", p.Name, row) && !row.failed {
			p.At = row.layout.cell(row.row, "part_price")
			r.book.Parts = append(r.book.Parts, p)
		}
	})
}

func (r *reader) costs() error {
	rows := map[string]int{}
	return readSheet(r, columns.SheetCosts, columns.Costs(), func(c cost.UnitCost, row record) {
		c.Currency = strings.ToUpper(c.Currency)
		if c.Currency != "" && !isCurrency(c.Currency) {
			r.tellRow(finding.Error, CodeCurrencyName, row, "cost_currency", finding.Words("typed", c.Currency))
			row.failed = true
		}
		r.rate(c.Currency, row, "cost_currency")
		if r.once(rows, foldAll(c.Item)+"\t"+c.Unit, "cost_item", c.Item, row) && !row.failed {
			c.At = row.layout.cell(row.row, "cost_amount")
			r.book.Costs = append(r.book.Costs, c)
		}
	})
}
