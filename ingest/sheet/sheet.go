// Package sheet reads a sheet as rows of raw cells with their addresses, from a workbook or from tables of text. It knows nothing of what the
// cells mean. A workbook is opened safely: what is broken, locked or too large is found out, never half read.
package sheet

import (
	"iter"

	"github.com/xuri/excelize/v2"
)

// Mark says how a cell is stored, as far as that decides how a person reads it.
type Mark uint16

// The marks.
const (
	Number       Mark = 1 << iota // stored as a number: its text has a decimal point whatever the country
	Percent                       // a number shown as percent
	Date                          // a number shown as a date or a time of day
	Bool                          // true or false, stored as 1 or 0
	Error                         // an error value such as #N/A
	Calculated                    // a formula without a stored value, calculated here
	Uncalculated                  // a formula without a stored value that could not be calculated
	Merged                        // the value of the merged cell above
	Unseen                        // in a hidden column
	formula                       // a formula without a stored value, not calculated yet
)

// Cell is a cell that is not blank.
type Cell struct {
	Row, Col int // from 1
	Text     string
	Shown    string // what a person sees of a date: 2026-01-31, or a time of day: 1:12
	Padded   string // what a person sees of a whole number whose format writes a fixed number of digits: 00012
	Mark     Mark
}

// Is says whether the cell bears any of the marks.
func (c Cell) Is(m Mark) bool { return c.Mark&m != 0 }

// Ref returns the address of a cell: C7.
func Ref(row, col int) string {
	name, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		return ""
	}
	return name
}

// Row is a row with something in it.
type Row struct {
	Number int
	Hidden bool
	Cells  []Cell // in the order of columns, none of them blank
}

// Cell returns the cell in a column; false when it is blank.
func (r Row) Cell(col int) (Cell, bool) {
	for _, c := range r.Cells {
		if c.Col == col {
			return c, true
		}
	}
	return Cell{}, false
}

// Sheet is one sheet of a file.
type Sheet struct {
	Name   string
	Hidden bool
	Rows   iter.Seq2[Row, error] // rows that are not blank, from the top; an error is the last
}

// File is what was opened. Close it when its rows are read.
type File struct {
	Sheets []Sheet
	SHA256 string
	book   *excelize.File
}

// Close frees what an open workbook holds, temporary files among it.
func (f *File) Close() error {
	if f.book == nil {
		return nil
	}
	return f.book.Close()
}
