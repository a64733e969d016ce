package sheet

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Limits of what is read at all.
const (
	MostUnzipped = 512 << 20 // bytes of a workbook, unzipped
	mostZipped   = 256 << 20 // bytes of a workbook as it lies on the disk
	mostRows     = 200_000   // rows with something in them, in one sheet
)

// The reasons why a file, or a sheet of it, can't be read. Test with errors.Is.
var (
	ErrMissing     = errors.New("no such file")
	ErrUnreadable  = errors.New("not readable")
	ErrNotWorkbook = errors.New("not a workbook")
	ErrOldFormat   = errors.New("a workbook of the old .xls format")
	ErrEncrypted   = errors.New("a workbook with a password")
	ErrTooLarge    = errors.New("too large")
	ErrDamaged     = errors.New("damaged")
)

// Open opens a workbook, .xlsx or .xlsm. Its file is read once and let go.
//
// Errors: one of the reasons above, with what the operating system or the libraries said of it.
func Open(path string) (*File, error) {
	data, err := load(path)
	if err != nil {
		return nil, err
	}
	if err := sniff(data); err != nil {
		return nil, err
	}
	parts, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	if !holdsWorkbook(parts) {
		return nil, fmt.Errorf("%w: a package of another kind", ErrNotWorkbook)
	}
	if err := weigh(parts); err != nil {
		return nil, err
	}
	book, err := openBook(data)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(data)
	f := &File{SHA256: hex.EncodeToString(sum[:]), book: book}
	in, err := newInspector(parts, book)
	if err != nil {
		return nil, errors.Join(err, book.Close())
	}
	source := workbook{book: book, inspector: in, date1904: in.date1904}
	for _, s := range in.sheets {
		f.Sheets = append(f.Sheets, Sheet{Name: s.name, Hidden: s.hidden, Rows: source.rows(s)})
	}
	return f, nil
}

// load reads the file's bytes.
func load(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%w: %w", ErrMissing, err)
	case err != nil:
		return nil, fmt.Errorf("%w: %w", ErrUnreadable, err)
	case info.IsDir():
		return nil, fmt.Errorf("%w: a folder", ErrNotWorkbook)
	case info.Size() > mostZipped:
		return nil, fmt.Errorf("%w: %d bytes", ErrTooLarge, info.Size())
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrUnreadable, err)
	}
	return data, nil
}

// sniff tells by its first bytes what a file is that is no workbook we can read.
func sniff(data []byte) error {
	if bytes.HasPrefix(data, []byte("PK\x03\x04")) {
		return nil
	}
	if !bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")) {
		return ErrNotWorkbook
	}
	// The container of old Office files also holds new ones that are locked; the name of that stream stands in it in UTF-16.
	var name []byte
	for _, c := range []byte("EncryptedPackage") {
		name = append(name, c, 0)
	}
	if bytes.Contains(data, name) {
		return ErrEncrypted
	}
	return ErrOldFormat
}

// holdsWorkbook tells a workbook from the other kinds of zipped packages: texts, workbooks of other programs, the binary kind.
func holdsWorkbook(parts *zip.Reader) bool {
	found := false
	for _, p := range parts.File {
		name := strings.ToLower(p.Name)
		if name == "xl/workbook.bin" {
			return false
		}
		found = found || strings.HasPrefix(strings.ReplaceAll(name, `\`, "/"), "xl/")
	}
	return found
}

// weigh adds up what the parts say they unzip to. A part that holds more than it says fails when it is read.
func weigh(parts *zip.Reader) error {
	var total uint64
	for _, p := range parts.File {
		total += p.UncompressedSize64
		if total > MostUnzipped || p.UncompressedSize64 > MostUnzipped {
			return fmt.Errorf("%w: more than %d bytes unzipped", ErrTooLarge, MostUnzipped)
		}
	}
	return nil
}

// openBook opens the workbook with the spreadsheet library; a panic of it is a damaged file.
func openBook(data []byte) (book *excelize.File, err error) {
	defer func() {
		if p := recover(); p != nil {
			book, err = nil, fmt.Errorf("%w: %v", ErrDamaged, p)
		}
	}()
	book, err = excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true, UnzipSizeLimit: MostUnzipped})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return book, nil
}

// workbook is the source of the sheets of an open workbook.
type workbook struct {
	book      *excelize.File
	inspector *inspector
	date1904  bool
}

// rows returns the rows of a sheet. Its XML is inspected first, since the library ends in silence where it is broken.
func (w workbook) rows(s part) func(yield func(Row, error) bool) {
	return func(yield func(Row, error) bool) {
		defer func() {
			if p := recover(); p != nil {
				if _, ours := p.(libraryPanic); !ours {
					panic(p)
				}
				yield(Row{}, fmt.Errorf("%w: sheet %q", ErrDamaged, s.name))
			}
		}()
		marks, err := w.inspector.inspect(s)
		if err != nil {
			yield(Row{}, err)
			return
		}
		if err := w.stream(s, marks, yield); err != nil {
			yield(Row{}, fmt.Errorf("%w: sheet %q: %w", ErrDamaged, s.name, err))
		}
	}
}

// libraryPanic marks a panic that arose in the spreadsheet library.
type libraryPanic struct{ cause any }

// stream gives the rows that hold something, each cell with its marks.
func (w workbook) stream(s part, marks *marks, yield func(Row, error) bool) error {
	rows, err := w.book.Rows(s.name)
	if err != nil {
		return err
	}
	defer rows.Close()
	number, seen := 0, 0
	for next(rows) {
		number++
		texts, err := columns(rows)
		if err != nil {
			return err
		}
		m := marks.row(number)
		if m == nil && len(texts) == 0 {
			continue
		}
		if m != nil {
			seen++
		}
		row := w.row(s.name, number, texts, m, marks)
		if len(row.Cells) == 0 {
			continue
		}
		if !yield(row, nil) {
			return nil
		}
	}
	if err := rows.Error(); err != nil {
		return err
	}
	if seen < len(marks.rows) {
		return fmt.Errorf("%d of %d rows readable", seen, len(marks.rows))
	}
	return nil
}

func next(rows *excelize.Rows) bool {
	defer rethrow()
	return rows.Next()
}

func columns(rows *excelize.Rows) ([]string, error) {
	defer rethrow()
	return rows.Columns(excelize.Options{RawCellValue: true})
}

func rethrow() {
	if p := recover(); p != nil {
		panic(libraryPanic{p})
	}
}

// row joins the texts of a row with the marks of its cells, and fills what merged cells above cover.
func (w workbook) row(name string, number int, texts []string, m *rowMarks, all *marks) Row {
	row := Row{Number: number}
	width := len(texts)
	if m != nil {
		row.Hidden = m.hidden
		width = max(width, len(m.cells))
	}
	row.Cells = make([]Cell, 0, width)
	for i := range width {
		c := Cell{Row: number, Col: i + 1}
		if i < len(texts) {
			c.Text = texts[i]
		}
		if m != nil && i < len(m.cells) {
			c.Mark = m.cells[i]
			c.Padded = m.padded[c.Col].write(c.Text)
		}
		w.finish(name, &c)
		if anchor := all.above(number, i+1); anchor != nil {
			if anchor.row == number {
				anchor.cell = c
			} else if strings.TrimSpace(c.Text) == "" && anchor.cell.Text != "" {
				c = anchor.cell
				c.Row, c.Mark = number, c.Mark|Merged
			}
		}
		if strings.TrimSpace(c.Text) != "" || c.Is(Uncalculated) {
			row.Cells = append(row.Cells, c)
		}
	}
	return row
}

// finish calculates a formula without a stored value and writes a date as it is seen.
func (w workbook) finish(name string, c *Cell) {
	if c.Is(formula) {
		c.Mark &^= formula
		c.Text, c.Mark = w.calculate(name, *c)
	}
	if c.Is(Date) {
		c.Shown = w.shown(c.Text)
	}
}

// calculate returns the value of a formula that has none stored.
func (w workbook) calculate(name string, c Cell) (text string, m Mark) {
	m = c.Mark | Uncalculated
	defer func() {
		if recover() != nil {
			text = ""
		}
	}()
	value, err := w.book.CalcCellValue(name, Ref(c.Row, c.Col), excelize.Options{RawCellValue: true})
	if err != nil || value == "" {
		return "", m
	}
	m = c.Mark | Calculated
	if _, err := strconv.ParseFloat(value, 64); err == nil {
		return value, m | Number
	}
	return value, m &^ (Number | Date | Percent)
}

// shown returns a stored day as 2026-01-31 and a stored time of day as 1:12.
func (w workbook) shown(text string) string {
	serial, err := strconv.ParseFloat(text, 64)
	if err != nil || serial < 0 {
		return ""
	}
	if serial < 1 {
		minutes := int(serial*24*60 + 0.5)
		return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
	}
	day, err := excelize.ExcelDateToTime(serial, w.date1904)
	if err != nil {
		return ""
	}
	return day.Format(time.DateOnly)
}
