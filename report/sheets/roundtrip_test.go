package sheets_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
)

// grown are the parts to which our sheets must be added. All else is byte for byte what it was.
var grown = []string{"workbook.xml", "_rels/workbook.xml.rels", "[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "_rels/.rels"}

// tokens takes an XML text apart. Counts, and what asks for calculation, are left out.
func tokens(t testing.TB, text string) []string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	var out []string
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		switch x := token.(type) {
		case xml.StartElement:
			x.Attr = slices.DeleteFunc(slices.Clone(x.Attr), func(a xml.Attr) bool { return a.Name.Local == "count" || a.Name.Local == "fullCalcOnLoad" })
			out = append(out, fmt.Sprint(x.Name, x.Attr))
		case xml.EndElement:
			out = append(out, fmt.Sprint("/", x.Name))
		case xml.CharData:
			out = append(out, string(x))
		}
	}
}

// within says whether all of a list stands in another, in the same order.
func isWithin(all, part []string) (missing string, is bool) {
	i := 0
	for _, s := range all {
		if i < len(part) && part[i] == s {
			i++
		}
	}
	if i < len(part) {
		return part[i], false
	}
	return "", true
}

// survives holds that every part of a workbook is there after our sheets came to it.
func survives(t *testing.T, name string, before, after map[string]string) {
	t.Helper()
	for _, part := range slices.Sorted(maps.Keys(before)) {
		is, there := after[part]
		switch {
		case strings.HasPrefix(part, "_xmlsignatures/"), strings.HasSuffix(part, "/"):
		case !assert.True(t, there, "%s: %s is gone", name, part):
		case name == "signed.xlsx" && part == "_rels/.rels":
		case slices.Contains(grown, part):
			missing, whole := isWithin(tokens(t, is), tokens(t, before[part]))
			assert.True(t, whole, "%s: %s lost %s", name, part, missing)
		default:
			assert.True(t, before[part] == is, "%s: %s has changed", name, part)
		}
	}
}

// Every part of a workbook is what it was after our sheets came to it, and what can't be kept is told before anything is written.
func TestAwkwardWorkbooksSurvive(t *testing.T) {
	books := awkwardBooks(t)
	require.GreaterOrEqual(t, len(books), 20)
	for _, b := range books {
		t.Run(b.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), b.name)
			require.NoError(t, os.WriteFile(path, b.data, 0o600))
			out, found := run(t, path, units.SI, sample.Sites(3))
			told := slices.DeleteFunc(codes(found), func(c finding.Code) bool { return c == "sheet-name-taken" })
			if b.found != "" {
				assert.Contains(t, told, finding.Code(b.found))
			}
			separate := slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Code == "results-separate" && f.Site == "" && f.At.Sheet == "" })
			assert.Equal(t, b.whole, !separate)
			kept, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(b.data, kept), "the file that was read is never written")
			f := open(t, out)
			assert.Contains(t, strings.Join(f.GetSheetList(), "|"), "Results Summary")
			if !b.whole {
				return
			}
			before, after := parts(t, b.data), parts(t, out)
			survives(t, b.name, before, after)
			next := filepath.Join(t.TempDir(), b.name)
			require.NoError(t, os.WriteFile(next, out, 0o600))
			again, _ := run(t, next, units.SI, sample.Sites(3))
			assert.True(t, b.found != "" || bytes.Equal(out, again), "a second run changes nothing")
			survives(t, b.name, before, parts(t, again))
		})
	}
}

// soffice runs LibreOffice on files, once for all of them, and returns the folder with what it wrote.
func soffice(t *testing.T, to string, files ...string) string {
	t.Helper()
	program, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("needs soffice: apt-get install libreoffice-calc-nogui")
	}
	out := t.TempDir()
	cmd := exec.Command(program, append([]string{"--headless", "-env:UserInstallation=file://" + t.TempDir(), "--convert-to", to, "--outdir", out}, files...)...)
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, string(said))
	return out
}

// python runs a script of openpyxl.
func python(t *testing.T, script string, args ...string) string {
	t.Helper()
	for _, program := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(program, "-c", "import openpyxl").Run() == nil {
			said, err := exec.Command(program, append([]string{"-W", "ignore", "-c", script}, args...)...).CombinedOutput()
			require.NoError(t, err, string(said))
			return string(said)
		}
	}
	t.Skip("needs openpyxl: apt-get install python3-openpyxl")
	return ""
}

// produced writes the results of every awkward workbook into a folder.
func produced(t *testing.T) (files []string) {
	folder := t.TempDir()
	for _, b := range awkwardBooks(t) {
		path := filepath.Join(t.TempDir(), b.name)
		require.NoError(t, os.WriteFile(path, b.data, 0o600))
		out, _ := run(t, path, units.SI, sample.Sites(1))
		result := filepath.Join(folder, b.name)
		require.NoError(t, os.WriteFile(result, out, 0o600))
		files = append(files, result)
	}
	return files
}

// LibreOffice opens, calculates and writes every workbook that we produce, with our sheets and the formulas that point at them.
func TestLibreOfficeTakesWhatWeProduce(t *testing.T) {
	t.Parallel()
	files := produced(t)
	out := soffice(t, "xlsx:Calc MS Excel 2007 XML", files...)
	for _, file := range files {
		base := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
		f, err := excelize.OpenFile(filepath.Join(out, base+".xlsx"), excelize.Options{RawCellValue: true})
		require.NoError(t, err, base)
		sheet := "Results Summary"
		if i, err := f.GetSheetIndex("Results Summary (2)"); err == nil && i >= 0 {
			sheet = "Results Summary (2)"
		}
		assert.Equal(t, "S000", cell(t, f, sheet, "Site ID", 1), base)
		assert.Equal(t, "518.3", cell(t, f, loadsOf(f), "Design flux [W/m²]", 1), base)
		if i, err := f.GetSheetIndex("Mine"); err == nil && i >= 0 && !slices.Contains(unasked, base) {
			v, err := f.GetCellValue("Mine", "A1")
			require.NoError(t, err)
			assert.Equal(t, "S000", v, "%s: a formula of the user's finds our sheet", base)
		}
		f.Close()
	}
}

// unasked are workbooks whose formula is not asked for: one is calculated by hand only, one has its own sheet of that name, one has no formula.
var unasked = []string{"manual calculation", "names taken", "prefixed names"}

func loadsOf(f *excelize.File) string {
	for _, s := range f.GetSheetList() {
		if strings.HasPrefix(s, "Results Loads") {
			return s
		}
	}
	return ""
}

// openpyxl reads every workbook that we produce, with its tables.
func TestOpenpyxlReadsWhatWeProduce(t *testing.T) {
	t.Parallel()
	files := slices.DeleteFunc(produced(t), func(f string) bool { return strings.HasSuffix(f, "at the root.xlsx") }) // it looks for styles in the folder xl alone
	said := python(t, `
import sys, openpyxl
for name in sys.argv[1:]:
    book = openpyxl.load_workbook(name)
    ours = [s for s in book if s.title.lower().startswith("results ") and s["A1"].value != "my own"]
    tables = [n for s in ours for n in s.tables]
    print(name.split("/")[-1], len(ours), len(tables), ours[0]["A2"].value)
    for s in ours:
        for t in s.tables.values():
            head = [c.value for c in s[t.ref][0]]
            assert head == [c.name for c in t.tableColumns], (s.title, head)
            assert len({h.lower() for h in head}) == len(head)
`, files...)
	for line := range strings.Lines(said) {
		assert.Regexp(t, fmt.Sprintf(` %d %d S000$`, usual, usual), strings.TrimSpace(line))
	}
	assert.Equal(t, len(files), strings.Count(said, "\n"))
}

// Workbooks that LibreOffice wrote survive like all others, and so do ours that it wrote again: a person's columns and our sheets.
func TestWorkbooksOfLibreOffice(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("soffice"); err != nil {
		t.Skip("needs soffice: apt-get install libreoffice-calc-nogui")
	}
	folder := t.TempDir()
	var files []string
	for name, change := range byLibrary(t) {
		if name == "macros.xlsm" || name == "names taken.xlsx" {
			continue
		}
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, made(t, name, change), 0o600))
		files = append(files, path)
	}
	for _, own := range []struct{ name, text string }{{"list.csv", "Site ID,Area\nS000,120\n"}, {"flat.fods", flat}} {
		path := filepath.Join(folder, own.name)
		require.NoError(t, os.WriteFile(path, []byte(own.text), 0o600))
		files = append(files, path)
	}
	theirs := soffice(t, "xlsx:Calc MS Excel 2007 XML", files...)
	written, err := filepath.Glob(filepath.Join(theirs, "*.xlsx"))
	require.NoError(t, err)
	require.Len(t, written, len(files))
	var ours []string
	for _, path := range written {
		before, err := os.ReadFile(path)
		require.NoError(t, err)
		out, _ := run(t, path, units.SI, sample.Sites(3))
		survives(t, filepath.Base(path), parts(t, before), parts(t, out))
		require.NoError(t, os.WriteFile(path, out, 0o600))
		ours = append(ours, path)
	}
	again := soffice(t, "xlsx:Calc MS Excel 2007 XML", ours...)
	for _, path := range ours {
		name := filepath.Base(path)
		saved := filepath.Join(again, name)
		out, found := run(t, saved, units.IP, sample.Sites(3))
		assert.NotContains(t, codes(found), finding.Code("sheet-left-as-it-is"), name)
		f := open(t, out)
		id, err := f.GetCellStyle("Results Summary", "D2")
		require.NoError(t, err)
		style, err := f.GetStyle(id)
		require.NoError(t, err)
		require.NotNil(t, style.CustomNumFmt, name)
		assert.Equal(t, "#,##0", *style.CustomNumFmt, "%s: our own formats are known when another program has written them again: whole square feet", name)
		assert.Equal(t, 1, strings.Count(strings.Join(f.GetSheetList(), "|"), "Results Summary"), name)
		assert.Equal(t, "S000", cell(t, f, "Results Summary", "Site ID", 1), name)
		assert.Equal(t, "164.3002", cell(t, f, "Results Loads", "Design flux [Btu/h·ft²]", 1), name) // 518.3 W/m² ÷ 3.154590745
		require.NoError(t, os.WriteFile(saved, out, 0o600))
		next, _ := run(t, saved, units.IP, sample.Sites(3))
		assert.True(t, bytes.Equal(out, next), "%s: from then on it stays the same", name)
	}
}

// flat is a workbook in LibreOffice's own format, in one text.
const flat = `<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="Sites">
<table:table-row><table:table-cell office:value-type="string"><text:p>Site ID</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Area</text:p></table:table-cell></table:table-row>
<table:table-row><table:table-cell office:value-type="string"><office:annotation><dc:creator>Ann</dc:creator><text:p>measured</text:p></office:annotation><text:p>S000</text:p></table:table-cell><table:table-cell office:value-type="float" office:value="120"/><table:table-cell table:formula="of:=[.B2]*2" office:value-type="float" office:value="240"/></table:table-row>
</table:table></office:spreadsheet></office:body></office:document>`

// A person adds columns in LibreOffice, and runs again.
func TestColumnsAddedInAnotherProgram(t *testing.T) {
	t.Parallel()
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(5))
	path := saved(t, data)
	python(t, `
import sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
s = book["Results Summary"]
col = s.max_column + 1
s.cell(1, col, "Note")
s.cell(1, col + 1, "Per area")
for row in range(2, s.max_row + 1):
    s.cell(row, col, "note on " + s.cell(row, 1).value)
    s.cell(row, col + 1, "=IF(D%d>0,E%d/D%d,0)" % (row, row, row))
book.save(sys.argv[1])
`, path)
	written := filepath.Join(soffice(t, "xlsx:Calc MS Excel 2007 XML", path), "book.results.xlsx")
	sites := reversed(sample.Sites(6))
	out, found := run(t, written, units.SI, sites)
	assert.NotContains(t, codes(found), finding.Code("row-with-notes-gone"))
	f := open(t, out)
	panes, err := f.GetPanes("Results Set Points")
	require.NoError(t, err)
	assert.True(t, panes.Freeze, "a conversion without a screen drops them")
	assert.Equal(t, []int{5, 1}, []int{panes.XSplit, panes.YSplit})
	notes := under(t, f, "Results Summary", "Note")
	for i := range 5 {
		assert.Equal(t, fmt.Sprintf("note on S%03d", i), notes[fmt.Sprintf("S%03d", i)])
	}
	rows, err := f.GetRows("Results Summary")
	require.NoError(t, err)
	col := slices.Index(rows[0], "Per area") + 1
	for row := 2; row <= 7; row++ {
		formula, err := f.GetCellFormula("Results Summary", cellAt(col, row))
		require.NoError(t, err)
		assert.Equal(t, fmt.Sprintf("IF(D%d>0,E%d/D%d,0)", row, row, row), formula)
	}
}
