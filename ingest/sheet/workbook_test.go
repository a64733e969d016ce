package sheet_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/ingest/sheet"
)

// save writes a workbook made by fill into the test's folder and returns its path.
func save(t testing.TB, fill func(f *excelize.File), options ...excelize.Options) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "Sites"))
	fill(f)
	path := filepath.Join(t.TempDir(), "book.xlsx")
	require.NoError(t, f.SaveAs(path, options...))
	return path
}

// table fills Sites with a few rows.
func table(f *excelize.File) {
	for i := range 20 {
		_ = f.SetSheetRow("Sites", fmt.Sprintf("A%d", i+1), &[]any{fmt.Sprintf("S-%02d", i), 10.5 * float64(i+1)})
	}
}

// repack writes the parts of a workbook anew, each as change gives it back; nil leaves the part out.
func repack(t testing.TB, path string, change func(name string, data []byte) []byte) string {
	t.Helper()
	in, err := zip.OpenReader(path)
	require.NoError(t, err)
	defer in.Close()
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	for _, p := range in.File {
		r, err := p.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		if data = change(p.Name, data); data == nil {
			continue
		}
		w, err := out.Create(p.Name)
		require.NoError(t, err)
		_, err = w.Write(data)
		require.NoError(t, err)
	}
	require.NoError(t, out.Close())
	return write(t, b.Bytes())
}

func write(t testing.TB, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "written.xlsx")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// rows reads all rows of the first sheet.
func rows(path string) ([]sheet.Row, error) {
	f, err := sheet.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var all []sheet.Row
	for row, err := range f.Sheets[0].Rows {
		if err != nil {
			return all, err
		}
		all = append(all, row)
	}
	return all, nil
}

const sitesPart = "xl/worksheets/sheet1.xml"

func TestBrokenWorkbooksAreFoundOut(t *testing.T) {
	good := save(t, table)
	whole, err := os.ReadFile(good)
	require.NoError(t, err)
	replaced := func(part, old, new string) func(t *testing.T) string {
		return func(t *testing.T) string {
			return repack(t, good, func(name string, data []byte) []byte {
				if name == part {
					require.Contains(t, string(data), old)
					return []byte(strings.Replace(string(data), old, new, 1))
				}
				return data
			})
		}
	}
	cut := func(part string) func(t *testing.T) string {
		return func(t *testing.T) string {
			return repack(t, good, func(name string, data []byte) []byte {
				if name == part {
					return data[:len(data)*2/3]
				}
				return data
			})
		}
	}
	without := func(part string) func(t *testing.T) string {
		return func(t *testing.T) string {
			return repack(t, good, func(name string, data []byte) []byte {
				if name == part {
					return nil
				}
				return data
			})
		}
	}
	for _, tt := range []struct {
		name string
		path func(t *testing.T) string
		want error
	}{
		{"no file", func(t *testing.T) string { return filepath.Join(t.TempDir(), "none.xlsx") }, sheet.ErrMissing},
		{"a folder", func(t *testing.T) string { return t.TempDir() }, sheet.ErrNotWorkbook},
		{"an empty file", func(t *testing.T) string { return write(t, nil) }, sheet.ErrNotWorkbook},
		{"text", func(t *testing.T) string { return write(t, []byte("Site ID,Area\nA,1\n")) }, sheet.ErrNotWorkbook},
		{"a zipped file of another kind", func(t *testing.T) string {
			return repack(t, good, func(name string, data []byte) []byte {
				if strings.HasPrefix(name, "xl/") {
					return nil
				}
				return data
			})
		}, sheet.ErrNotWorkbook},
		{"the file cut short", func(t *testing.T) string { return write(t, whole[:len(whole)/2]) }, sheet.ErrDamaged},
		{"bytes changed", func(t *testing.T) string {
			bad := bytes.Clone(whole)
			for i := 200; i < len(bad)-2000; i += 97 {
				bad[i] ^= 0x55
			}
			return write(t, bad)
		}, sheet.ErrDamaged},
		{"an old .xls", func(t *testing.T) string {
			return write(t, append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 4096)...))
		}, sheet.ErrOldFormat},
		{"a password", func(t *testing.T) string { return save(t, table, excelize.Options{Password: "snow"}) }, sheet.ErrEncrypted},
		{"a sheet cut short", cut(sitesPart), sheet.ErrDamaged},
		{"shared strings cut short", cut("xl/sharedStrings.xml"), sheet.ErrDamaged},
		{"styles cut short", cut("xl/styles.xml"), sheet.ErrDamaged},
		{"the workbook part cut short", cut("xl/workbook.xml"), sheet.ErrDamaged},
		{"no workbook part", without("xl/workbook.xml"), sheet.ErrDamaged},
		{"no sheet part", without(sitesPart), sheet.ErrDamaged},
		{"a bad cell address", replaced(sitesPart, `r="B7"`, `r="7B"`), sheet.ErrDamaged},
		{"a cell in another row", replaced(sitesPart, `r="B7"`, `r="B3"`), sheet.ErrDamaged},
		{"rows out of order", replaced(sitesPart, `<row r="7"`, `<row r="3"`), sheet.ErrDamaged},
		{"a row beyond the last", replaced(sitesPart, `<row r="20"`, `<row r="9999999"`), sheet.ErrDamaged},
		{"a tag not closed", replaced(sitesPart, `</row>`, ``), sheet.ErrDamaged},
		{"an undefined entity", replaced(sitesPart, `<v>10.5</v>`, `<v>&bomb;</v>`), sheet.ErrDamaged},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := rows(tt.path(t))
			assert.ErrorIs(t, err, tt.want)
		})
	}
}

// A bomb may be honest about its size, or say that it is small.
func TestBombIsNotUnzipped(t *testing.T) {
	for _, tt := range []struct {
		name  string
		holds int64  // bytes
		says  uint64 // bytes
		want  error
	}{
		{"honest", 1 << 20, sheet.MostUnzipped + 1, sheet.ErrTooLarge},
		{"not honest", 32 << 20, 1000, sheet.ErrDamaged},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var packed bytes.Buffer
			w, err := flate.NewWriter(&packed, flate.BestSpeed)
			require.NoError(t, err)
			_, err = w.Write([]byte(strings.Repeat(" ", int(tt.holds))))
			require.NoError(t, err)
			require.NoError(t, w.Close())
			var b bytes.Buffer
			out := zip.NewWriter(&b)
			in, err := zip.OpenReader(save(t, table))
			require.NoError(t, err)
			defer in.Close()
			for _, p := range in.File {
				if p.Name != sitesPart {
					require.NoError(t, out.Copy(p))
				}
			}
			part, err := out.CreateRaw(&zip.FileHeader{Name: sitesPart, Method: zip.Deflate, CompressedSize64: uint64(packed.Len()), UncompressedSize64: tt.says})
			require.NoError(t, err)
			_, err = part.Write(packed.Bytes())
			require.NoError(t, err)
			require.NoError(t, out.Close())
			_, err = rows(write(t, b.Bytes()))
			assert.ErrorIs(t, err, tt.want)
		})
	}
}

func TestMarks(t *testing.T) {
	path := save(t, func(f *excelize.File) {
		style := func(format int, custom string) int {
			s := &excelize.Style{NumFmt: format}
			if custom != "" {
				s = &excelize.Style{CustomNumFmt: &custom}
			}
			id, err := f.NewStyle(s)
			require.NoError(t, err)
			return id
		}
		set := func(cell string, v any, id int) {
			require.NoError(t, f.SetCellValue("Sites", cell, v))
			if id > 0 {
				require.NoError(t, f.SetCellStyle("Sites", cell, cell, id))
			}
		}
		set("A1", "text", 0)
		set("B1", 420.25, 0)
		set("C1", 0.125, style(9, ""))
		set("D1", 46085, style(14, ""))
		set("E1", 0.05, style(20, ""))
		set("F1", true, 0)
		set("G1", 12.5, style(0, `0.0 "mm day"`))
		set("H1", 46085, style(0, `dd.mm.yyyy`))
		require.NoError(t, f.SetCellFormula("Sites", "I1", "B1*2"))
		require.NoError(t, f.SetCellFormula("Sites", "J1", "1/0"))
		require.NoError(t, f.SetCellValue("Sites", "A3", "over three rows"))
		require.NoError(t, f.MergeCell("Sites", "A3", "B5"))
		require.NoError(t, f.SetCellValue("Sites", "C4", 1))
		require.NoError(t, f.SetRowVisible("Sites", 4, false))
		require.NoError(t, f.SetCellRichText("Sites", "A7", []excelize.RichTextRun{{Text: "rich "}, {Text: "text"}}))
	})
	got, err := rows(path)
	require.NoError(t, err)
	for _, tt := range []struct {
		row, col    int
		text, shown string
		mark        sheet.Mark
	}{
		{1, 1, "text", "", 0},
		{1, 2, "420.25", "", sheet.Number},
		{1, 3, "0.125", "", sheet.Number | sheet.Percent},
		{1, 4, "46085", "2026-03-04", sheet.Number | sheet.Date},
		{1, 5, "0.05", "1:12", sheet.Number | sheet.Date},
		{1, 6, "1", "", sheet.Bool},
		{1, 7, "12.5", "", sheet.Number},
		{1, 8, "46085", "2026-03-04", sheet.Number | sheet.Date},
		{1, 9, "840.5", "", sheet.Number | sheet.Calculated},
		{1, 10, "", "", sheet.Uncalculated},
		{3, 1, "over three rows", "", 0},
		{4, 1, "over three rows", "", sheet.Merged},
		{4, 3, "1", "", sheet.Number},
		{7, 1, "rich text", "", 0},
	} {
		ref := sheet.Ref(tt.row, tt.col)
		found := false
		for _, r := range got {
			if r.Number != tt.row {
				continue
			}
			assert.Equal(t, tt.row == 4, r.Hidden, "row %d", tt.row)
			var c sheet.Cell
			c, found = r.Cell(tt.col)
			assert.Equal(t, sheet.Cell{Row: tt.row, Col: tt.col, Text: tt.text, Shown: tt.shown, Mark: tt.mark}, c, ref)
		}
		assert.True(t, found, "%s is not there", ref)
	}
	assert.Len(t, got, 4, "a row that only merged cells cover is blank")
}

func TestDaysOfA1904Workbook(t *testing.T) {
	path := save(t, func(f *excelize.File) {
		yes := true
		require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
		id, err := f.NewStyle(&excelize.Style{NumFmt: 14})
		require.NoError(t, err)
		require.NoError(t, f.SetCellValue("Sites", "A1", 44623)) // 46085 less 1462 days: the same day
		require.NoError(t, f.SetCellStyle("Sites", "A1", "A1", id))
	})
	got, err := rows(path)
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.Equal(t, "2026-03-04", got[0].Cells[0].Shown)
}

func TestSparseSheetIsCheap(t *testing.T) {
	path := save(t, func(f *excelize.File) {
		require.NoError(t, f.SetCellValue("Sites", "A1", "first"))
		require.NoError(t, f.SetCellValue("Sites", "XFD1048576", "last"))
	})
	got, err := rows(path)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, []sheet.Cell{{Row: 1048576, Col: 16384, Text: "last"}}, got[1].Cells)
}

func TestWorkbookWithoutStyles(t *testing.T) {
	path := repack(t, save(t, table), func(name string, data []byte) []byte {
		if name == "xl/styles.xml" {
			return nil
		}
		return data
	})
	got, err := rows(path)
	require.NoError(t, err)
	assert.Len(t, got, 20)
}

func TestTablesOfText(t *testing.T) {
	f, err := sheet.FromText(fstest.MapFS{
		"demo/sites.tsv":    {Data: []byte("\ufeffTitle\r\n\r\nSite ID\tArea\r\nA-1\t420\r\nA-2\t1,200\r\n")},
		"demo/settings.tsv": {Data: []byte("Units\tSI")},
		"demo/readme.md":    {Data: []byte("no table")},
	}, "demo")
	require.NoError(t, err)
	require.Len(t, f.Sheets, 2)
	assert.Equal(t, "Settings", f.Sheets[0].Name)
	assert.Equal(t, "Sites", f.Sheets[1].Name)
	var got []sheet.Row
	for row, err := range f.Sheets[1].Rows {
		require.NoError(t, err)
		got = append(got, row)
	}
	require.Len(t, got, 4)
	assert.Equal(t, 3, got[1].Number)
	assert.Equal(t, sheet.Cell{Row: 4, Col: 2, Text: "420", Mark: sheet.Number}, got[2].Cells[1])
	assert.Equal(t, sheet.Cell{Row: 5, Col: 2, Text: "1,200"}, got[3].Cells[1])
	_, err = sheet.FromText(fstest.MapFS{}, "demo")
	assert.ErrorIs(t, err, sheet.ErrMissing)
}

func FuzzSheetXML(f *testing.F) {
	good := save(f, table)
	in, err := zip.OpenReader(good)
	require.NoError(f, err)
	defer in.Close()
	for _, p := range in.File {
		if p.Name == sitesPart {
			r, err := p.Open()
			require.NoError(f, err)
			data, err := io.ReadAll(r)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	f.Add([]byte(`<worksheet><sheetData><row r="1"><c r="A1" t="s"><v>9</v></c><c><f>A1</f></c></row></sheetData><mergeCells><mergeCell ref="A1:A9"/></mergeCells></worksheet>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		path := repack(t, good, func(name string, part []byte) []byte {
			if name == sitesPart {
				return append([]byte{}, data...)
			}
			return part
		})
		last := 0
		got, err := rows(path)
		for _, r := range got {
			if r.Number <= last || len(r.Cells) == 0 {
				t.Fatalf("row %d after %d with %d cells, %v", r.Number, last, len(r.Cells), err)
			}
			last = r.Number
		}
	})
}
