package ingest

import (
	"errors"
	"path/filepath"

	"thawbook/calc/finding"
	"thawbook/ingest/sheet"
)

// Unusable is the error of an input that can't be read at all. Its sentence is that of Finding.Code in the table of findings.
type Unusable struct {
	Finding finding.Finding
	Err     error // the cause, where there is one
}

// Error names the code and the cause.
func (u *Unusable) Error() string {
	text := string(u.Finding.Code)
	for _, a := range u.Finding.Args {
		text += " " + a.Name + "=" + a.Text
	}
	if u.Err != nil {
		text += ": " + u.Err.Error()
	}
	return text
}

// Unwrap returns the cause.
func (u *Unusable) Unwrap() error { return u.Err }

// reasons are the codes of what the sheet reader says, the first that fits.
var reasons = []struct {
	err  error
	code finding.Code
}{
	{sheet.ErrMissing, CodeFileMissing}, {sheet.ErrOldFormat, CodeFileOld}, {sheet.ErrEncrypted, CodeFileEncrypted}, {sheet.ErrTooLarge, CodeFileTooLarge},
	{sheet.ErrNotWorkbook, CodeFileNotWorkbook}, {sheet.ErrDamaged, CodeFileDamaged}, {sheet.ErrUnreadable, CodeFileUnreadable},
}

// unusable turns an error of opening or streaming a file into its finding.
func unusable(path string, err error) *Unusable {
	u := &Unusable{Finding: finding.New(finding.Error, CodeFileUnreadable, "", finding.Words("file", filepath.Base(path))), Err: err}
	for _, r := range reasons {
		if errors.Is(err, r.err) {
			u.Finding.Code = r.code
			break
		}
	}
	return u
}

// noHeadings says why a sheet has no heading row: a required heading is missing, or nothing looks like headings at all.
func noHeadings[T any](t *table[T]) finding.Finding {
	sheetName := finding.Words("sheet", t.sheet)
	best := t.best
	if best.missing < 0 || len(best.matched) < 2 {
		f := finding.New(finding.Error, CodeNoHeadings, "", sheetName)
		f.At = finding.Cell{Sheet: t.sheet}
		return f
	}
	col := t.columns[best.missing]
	f := finding.New(finding.Error, CodeColumnMissing, col.Field, sheetName, finding.Words("heading", col.Heading))
	f.At = cellAt(t.sheet, best.row.Number, best.row.Cells[0].Col)
	return f
}
