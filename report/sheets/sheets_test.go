package sheets_test

import (
	"archive/zip"
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/setpoint"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

func head(t testing.TB, system units.System) sheets.Head {
	t.Helper()
	w, err := words.Load(templates.FS(), "en", show.Style{Units: system, Currency: "USD"})
	require.NoError(t, err)
	return sheets.Head{Settings: calc.Settings{Project: "Harbour & Hill", Currency: "USD"}, Headings: report.Headings{"stage": "Stage of work"}, Words: w, Program: "thawbook 0.1.0"}
}

func build(t testing.TB, source string, system units.System, n int) ([]byte, *sheets.Writer) {
	t.Helper()
	w, err := sheets.Create(source, head(t, system))
	require.NoError(t, err)
	defer w.Close()
	all := w.Findings()
	for _, s := range sample.Sites(n) {
		require.NoError(t, w.Site(s, "submittals/"+s.Site.ID+" a.pdf"))
		all = append(all, s.Summary.Findings...)
	}
	all, err = w.Complete(sheets.Basis{Files: []sheets.Line{{Topic: "file read", Name: "x.epw", Text: "abc"}}}, nil, all)
	require.NoError(t, err)
	require.NoError(t, w.Finish(all))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	return b.Bytes(), w
}

func open(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

func parts(t *testing.T, data []byte) map[string]string {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range r.File {
		in, err := f.Open()
		require.NoError(t, err)
		b, err := io.ReadAll(in)
		require.NoError(t, err)
		out[f.Name] = string(b)
	}
	return out
}

// cell finds the value under a heading in the given row of a sheet.
func cell(t *testing.T, f *excelize.File, sheet, heading string, row int) string {
	t.Helper()
	return found(t, f, sheet, heading, row, true)
}

// drawn finds the same as a person sees it.
func drawn(t *testing.T, f *excelize.File, sheet, heading string, row int) string {
	t.Helper()
	return found(t, f, sheet, heading, row, false)
}

func found(t *testing.T, f *excelize.File, sheet, heading string, row int, raw bool) string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: raw})
	require.NoError(t, err)
	require.Greater(t, len(rows), row)
	for i, h := range rows[0] {
		if h == heading {
			if i >= len(rows[row]) {
				return ""
			}
			return rows[row][i]
		}
	}
	t.Fatalf("%s has no column %q: %q", sheet, heading, rows[0])
	return ""
}

// user writes a workbook as a user has it, with a formula that points at a result sheet, and returns its path.
func user(t *testing.T, name string, change func(*excelize.File)) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "Sites"))
	require.NoError(t, f.SetSheetRow("Sites", "A1", &[]any{"Site ID", "Area"}))
	require.NoError(t, f.SetSheetRow("Sites", "A2", &[]any{"S000", 120.5}))
	_, err := f.NewSheet("Mine")
	require.NoError(t, err)
	require.NoError(t, f.SetCellFormula("Mine", "A1", "'Results Summary'!A2"))
	if change != nil {
		change(f)
	}
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, f.SaveAs(path))
	return path
}

func TestSheetsInTheReadersUnits(t *testing.T) {
	si, _ := build(t, "", units.SI, 8)
	f := open(t, si)
	assert.Equal(t, "600.5", cell(t, f, "Results Summary", "Area [m²]", 1))
	assert.Equal(t, "281.4568", cell(t, f, "Results Summary", "Total heat [kW]", 1))
	assert.Equal(t, "4123.45", cell(t, f, "Results Summary", "Yearly cost, typical winter [USD]", 1))
	assert.Equal(t, "done, check", cell(t, f, "Results Summary", "Status", 1))
	assert.Equal(t, "example prices", cell(t, f, "Results Summary", "Prices", 1))
	assert.Equal(t, "518.3", cell(t, f, "Results Loads", "Design flux [W/m²]", 1))
	assert.Equal(t, "01-13 07:00", cell(t, f, "Results Loads", "Design hour", 1))
	assert.Equal(t, "-0.0001", cell(t, f, "Results Loads", "Evaporation q_e [W/m²]", 1), "what is small stays, as in the record")
	assert.Equal(t, "0", drawn(t, f, "Results Loads", "Evaporation q_e [W/m²]", 1), "and is drawn as 0, as in the submittal, not as −0")
	assert.Equal(t, "-30", cell(t, f, "Results Set Points", "Outdoor [°C]", 1))

	ip, _ := build(t, "", units.IP, 8)
	f = open(t, ip)
	assert.Equal(t, "6463.728", cell(t, f, "Results Summary", "Area [ft²]", 1)) // 600.5 m² ÷ 0.3048²
	assert.Equal(t, "-20", cell(t, f, "Results Set Points", "Outdoor [°F]", 1))
	assert.Equal(t, "-15", cell(t, f, "Results Set Points", "Outdoor [°F]", 2))
}

func TestHowFarThePlantCanFollow(t *testing.T) {
	data, _ := build(t, "", units.SI, 1)
	f := open(t, data)
	coldest, err := strconv.ParseFloat(cell(t, f, "Results Set Points", "Coldest that can be held, outdoors [°C]", 1), 64)
	require.NoError(t, err)
	require.Greater(t, coldest, -30.0, "the sample's plant can't follow to the cold end")
	for row := 1; row <= setpoint.Points; row++ {
		outdoor, err := strconv.ParseFloat(cell(t, f, "Results Set Points", "Outdoor [°C]", row), 64)
		require.NoError(t, err)
		want := map[bool]string{true: "no", false: "yes"}[outdoor < coldest]
		assert.Equal(t, want, cell(t, f, "Results Set Points", "Can the plant hold it, melting", row), "%g °C", outdoor)
		assert.NotEmpty(t, cell(t, f, "Results Set Points", "Supply, melting [°C]", row), "the line is never clipped")
	}
	assert.Equal(t, "28", cell(t, f, "Results Set Points", "Usual most of supply less slab [K]", 1))
}

func TestBasisNamesConstantsAndFieldsAsPeopleDo(t *testing.T) {
	data, _ := build(t, "", units.SI, 1)
	rows, err := open(t, data).GetRows("Results Basis", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	said := map[string][]string{}
	for _, r := range rows[1:] {
		said[r[3]] = r
	}
	require.Contains(t, said, "Stage of work")
	assert.Equal(t, "default", said["Stage of work"][0])
	film := said["t_f, liquid film on the surface"]
	require.NotNil(t, film)
	assert.Equal(t, []string{"constant", "0.56", "°C"}, []string{film[0], film[4], film[5]})
	for name, want := range map[string][2]string{
		"ρc_slab, heat that the slab stores":                                      {"constant", "2100000"},
		"λ_pipe, conductivity of a pipe's wall":                                   {"constant", "0.38"},
		"λ_bedding, conductivity of the bedding under pavers and stone":           {"constant", "0.7"},
		"t_pavement, shut-off above this pavement temperature when nothing falls": {"constant", "10"},
		"Season":                          {"winter", "1 October to 30 April"},
		"Snowfall variation":              {"winter", "0.4"},
		"Mild, typical and severe winter": {"winter", "the station's only winter: its snow times 0.49, as it is, and times 1.51"},
	} {
		require.Contains(t, said, name)
		assert.Equal(t, want, [2]string{said[name][0], said[name][4]}, name)
		assert.Len(t, said[name], 7, "%s needs a source", name)
	}
	for _, r := range rows[1:] {
		if r[0] == "constant" {
			assert.Len(t, r, 7, "%s needs a source", r[3])
		}
	}
}

func TestBlanksAreEmptyCells(t *testing.T) {
	data, _ := build(t, "", units.SI, 8)
	f := open(t, data)
	assert.Empty(t, cell(t, f, "Results Cost", "Total [USD]", 34), "a zone without a price has no money")
	assert.Equal(t, "1080", cell(t, f, "Results Cost", "Total [USD]", 1))
	assert.Empty(t, cell(t, f, "Results Loads", "Design flux [W/m²]", 14), "a zone that was not calculated has no load")
	assert.Equal(t, "error", cell(t, f, "Results Loads", "Status", 14))
	for name, xml := range parts(t, data) {
		if strings.HasPrefix(name, "xl/worksheets/") {
			assert.NotContains(t, xml, "NaN", name)
			assert.NotContains(t, xml, "not available", name)
		}
	}
}

func TestSameInputSameBytes(t *testing.T) {
	a, _ := build(t, "", units.SI, 5)
	b, _ := build(t, "", units.SI, 5)
	assert.True(t, bytes.Equal(a, b))
	source := user(t, "book.xlsx", nil)
	a, _ = build(t, source, units.SI, 5)
	b, _ = build(t, source, units.SI, 5)
	assert.True(t, bytes.Equal(a, b))
}

func TestTheUsersSheetsStayAsTheyAre(t *testing.T) {
	source := user(t, "book.xlsx", nil)
	before, err := os.ReadFile(source)
	require.NoError(t, err)
	data, w := build(t, source, units.SI, 3)
	assert.Empty(t, w.Findings())
	was, is := parts(t, before), parts(t, data)
	for _, part := range []string{"xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/theme/theme1.xml"} {
		require.NotEmpty(t, was[part], part)
		assert.Equal(t, was[part], is[part], part)
	}
	after, err := os.ReadFile(source)
	require.NoError(t, err)
	assert.Equal(t, before, after, "the file that was read is never written")
	assert.Contains(t, is["xl/workbook.xml"], `fullCalcOnLoad="1"`)
}

func TestAMacroWorkbookStaysOne(t *testing.T) {
	source := user(t, "book.xlsm", nil)
	data, _ := build(t, source, units.SI, 1)
	assert.Contains(t, parts(t, data)["[Content_Types].xml"], "application/vnd.ms-excel.sheet.macroEnabled.main+xml")
}

func TestASheetOfTheUserKeepsItsName(t *testing.T) {
	source := user(t, "book.xlsx", func(f *excelize.File) {
		_, err := f.NewSheet("results loads")
		require.NoError(t, err)
		require.NoError(t, f.SetCellValue("results loads", "A1", "my own"))
	})
	data, w := build(t, source, units.SI, 2)
	f := open(t, data)
	v, err := f.GetCellValue("results loads", "A1")
	require.NoError(t, err)
	assert.Equal(t, "my own", v)
	assert.Equal(t, "S000", cell(t, f, "Results Loads (2)", "Site ID", 1))
	require.Len(t, w.Findings(), 1)
	assert.Equal(t, sheets.CodeSheetNameTaken, w.Findings()[0].Code)
}

func TestAnEarlierRunIsReplaced(t *testing.T) {
	first, _ := build(t, user(t, "book.xlsx", nil), units.SI, 6)
	f := open(t, first)
	require.NoError(t, f.SetSheetName("Results Loads", "Heat loads"))
	require.NoError(t, f.DeleteDefinedName(&excelize.DefinedName{Name: "thawbook.loads"})) // a spreadsheet program renames within names, this library doesn't
	require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "thawbook.loads", RefersTo: "'Heat loads'!$A$1"}))
	again := filepath.Join(t.TempDir(), "book.results.xlsx")
	require.NoError(t, f.SaveAs(again))

	data, w := build(t, again, units.IP, 2)
	assert.Empty(t, w.Findings())
	f = open(t, data)
	assert.NotContains(t, f.GetSheetList(), "Results Loads", "a renamed sheet is known by its mark")
	assert.Equal(t, "S000", cell(t, f, "Heat loads", "Site ID", 1))
	rows, err := f.GetRows("Heat loads")
	require.NoError(t, err)
	assert.Len(t, rows, 1+4, "rows of the earlier run are gone")
	rows, err = f.GetRows("Results Summary")
	require.NoError(t, err)
	assert.Len(t, rows, 1+2)
	assert.Len(t, f.GetSheetList(), 2+usual, "no sheet of changes without changes")
	formula, err := f.GetCellFormula("Mine", "A1")
	require.NoError(t, err)
	assert.Equal(t, "'Results Summary'!A2", formula)
	linked, target, err := f.GetCellHyperLink("Results Summary", "J2")
	require.NoError(t, err)
	assert.True(t, linked)
	assert.Equal(t, "submittals/S000%20a.pdf", target)
	linked, _, err = f.GetCellHyperLink("Results Summary", "J6")
	require.NoError(t, err)
	assert.False(t, linked, "links of the earlier run are gone")
}

// A program that renames a sheet and leaves its mark behind is told of; under its old name the sheet is ours again.
func TestASheetThatLostItsMarkIsTold(t *testing.T) {
	first, _ := build(t, user(t, "book.xlsx", nil), units.SI, 2)
	f := open(t, first)
	require.NoError(t, f.SetSheetName("Results Loads", "Heat loads"))
	again := filepath.Join(t.TempDir(), "book.results.xlsx")
	require.NoError(t, f.SaveAs(again))

	data, w := build(t, again, units.SI, 1)
	require.Len(t, w.Findings(), 1)
	told := w.Findings()[0]
	assert.Equal(t, sheets.CodeSheetAstray, told.Code)
	assert.Equal(t, "Heat loads", told.At.Sheet)
	f = open(t, data)
	assert.Equal(t, "S000", cell(t, f, "Results Loads", "Site ID", 1))
	rows, err := f.GetRows("Heat loads")
	require.NoError(t, err)
	assert.Len(t, rows, 1+4, "it stays as it was: two zones of two sites")

	f, err = excelize.OpenFile(again)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, f.SetSheetName("Heat loads", "Results Loads"))
	require.NoError(t, f.Save())
	_, w = build(t, again, units.SI, 1)
	assert.Empty(t, w.Findings(), "under its old name it is ours again")
}

func TestADeletedSheetComesBack(t *testing.T) {
	first, _ := build(t, user(t, "book.xlsx", nil), units.SI, 2)
	f := open(t, first)
	require.NoError(t, f.DeleteSheet("Results Cost"))
	again := filepath.Join(t.TempDir(), "book.results.xlsx")
	require.NoError(t, f.SaveAs(again))
	data, _ := build(t, again, units.SI, 2)
	assert.Equal(t, "S000", cell(t, open(t, data), "Results Cost", "Site ID", 1))
}

// A workbook made by a simple program may have no styles part, in which the spreadsheet library panics.
func TestAWorkbookWithoutStyles(t *testing.T) {
	source := user(t, "book.xlsx", nil)
	data, err := os.ReadFile(source)
	require.NoError(t, err)
	bare := filepath.Join(t.TempDir(), "bare.xlsx")
	require.NoError(t, os.WriteFile(bare, without(t, data, "xl/styles.xml"), 0o600))
	out, w := build(t, bare, units.SI, 2)
	assert.Empty(t, w.Findings())
	f := open(t, out)
	assert.Equal(t, "S000", cell(t, f, "Results Summary", "Site ID", 1))
	v, err := f.GetCellValue("Sites", "A2")
	require.NoError(t, err)
	assert.Equal(t, "S000", v)
}

func TestAWorkbookThatCantBeCopied(t *testing.T) {
	broken := filepath.Join(t.TempDir(), "broken.xlsx")
	require.NoError(t, os.WriteFile(broken, []byte("not a workbook"), 0o600))
	out, w := build(t, broken, units.SI, 2)
	require.Len(t, w.Findings(), 1)
	assert.Equal(t, sheets.CodeResultsSeparate, w.Findings()[0].Code)
	assert.Equal(t, "S000", cell(t, open(t, out), "Results Summary", "Site ID", 1))
}

func TestFindingsLeadToTheirCells(t *testing.T) {
	data, _ := build(t, user(t, "book.xlsx", nil), units.SI, 8)
	f := open(t, data)
	assert.Equal(t, "error", cell(t, f, "Results Findings", "Severity", 1))
	assert.Equal(t, "C9", cell(t, f, "Results Findings", "Cell", 1))
	linked, target, err := f.GetCellHyperLink("Results Findings", "C2")
	require.NoError(t, err)
	assert.True(t, linked)
	assert.Equal(t, "'Sites'!C9", target)
	assert.Equal(t, "15", cell(t, f, "Results Findings", "Zones touched", 2), "one code at one cell is one row")
}

// Total by total, the cells of the sheet add up to the cent.
func TestPortfolioAddsRoundedAmounts(t *testing.T) {
	data, _ := build(t, "", units.SI, 4)
	f := open(t, data)
	rows, err := f.GetRows("Results Portfolio", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	last := slices.IndexFunc(rows, func(r []string) bool { return r[0] == "all regions" && r[1] == "severe" })
	require.Positive(t, last)
	assert.Equal(t, []string{"all regions", "typical", "total"}, rows[last-1][:3])
	assert.Equal(t, "16493.86", cell(t, f, "Results Portfolio", "Yearly cost [USD]", last-1)) // 4 × 4123.45 + 0.01 + 0.02 + 0.03

	cents := func(row int) int64 {
		v, err := strconv.ParseFloat(cell(t, f, "Results Portfolio", "Yearly cost [USD]", row), 64)
		require.NoError(t, err)
		return int64(math.Round(v * 100))
	}
	var regions, largest int64
	for i, r := range rows[1:] {
		switch {
		case r[2] == "total" && r[1] == "typical" && r[0] != "all regions":
			regions += cents(i + 1)
		case strings.HasPrefix(r[2], "ten largest"):
			largest += cents(i + 1)
		}
	}
	assert.Equal(t, cents(last-1), regions, "the regions are all")
	assert.Equal(t, cents(last-1), largest, "four sites, all of them among the ten largest")
}

func TestEveryColumnHasItsOwnKeyAndHeading(t *testing.T) {
	data, _ := build(t, "", units.SI, 1)
	f := open(t, data)
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		seen := map[string]bool{}
		for _, h := range rows[0] {
			assert.False(t, seen[h], "%s: %s", sheet, h)
			seen[h] = true
		}
	}
}

func TestNoSentenceIsMissing(t *testing.T) {
	data, _ := build(t, user(t, "book.xlsx", nil), units.SI, 12)
	for name, xml := range parts(t, data) {
		if strings.HasPrefix(name, "xl/worksheets/") {
			assert.NotRegexp(t, `>\[[a-z-]+\]<`, xml, name)
		}
	}
}

func TestAFindingWithoutACellHasNoLink(t *testing.T) {
	w, err := sheets.Create("", head(t, units.SI))
	require.NoError(t, err)
	defer w.Close()
	list, err := w.Complete(sheets.Basis{}, nil, []finding.Finding{{Code: "results-separate", Severity: finding.Info}})
	require.NoError(t, err)
	require.NoError(t, w.Finish(list))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	assert.Empty(t, cell(t, open(t, b.Bytes()), "Results Findings", "Cell", 1))
}

// without returns a workbook less one part and all that mentions it.
func without(t *testing.T, data []byte, part string) []byte {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	base := filepath.Base(part)
	for _, f := range r.File {
		if f.Name == part {
			continue
		}
		in, err := f.Open()
		require.NoError(t, err)
		body, err := io.ReadAll(in)
		require.NoError(t, err)
		out, err := w.Create(f.Name)
		require.NoError(t, err)
		text := string(body)
		if strings.HasSuffix(f.Name, ".rels") || strings.HasPrefix(f.Name, "[") {
			text = dropElement(text, base)
		}
		_, err = out.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

// dropElement cuts the element that mentions a word in an attribute.
func dropElement(xml, word string) string {
	at := strings.Index(xml, word)
	if at < 0 {
		return xml
	}
	begin := strings.LastIndex(xml[:at], "<")
	name := xml[begin+1 : begin+1+strings.IndexAny(xml[begin+1:], " ")]
	end := at + strings.Index(xml[at:], ">") + 1
	if closing := "</" + name + ">"; strings.HasPrefix(xml[end:], closing) {
		end += len(closing)
	}
	return xml[:begin] + xml[end:]
}

func BenchmarkThousandSites(b *testing.B) {
	h := head(b, units.SI)
	sites := sample.Sites(1000)
	for b.Loop() {
		w, err := sheets.Create("", h)
		require.NoError(b, err)
		for _, s := range sites {
			require.NoError(b, w.Site(s, "submittals/x.pdf"))
		}
		list, err := w.Complete(sheets.Basis{}, nil, nil)
		require.NoError(b, err)
		require.NoError(b, w.Finish(list))
		_, err = w.WriteTo(io.Discard)
		require.NoError(b, err)
		w.Close()
	}
}

// A workbook whose styles hold none of their lists gets them.
func TestAWorkbookWithEmptyStyles(t *testing.T) {
	data, err := os.ReadFile(user(t, "book.xlsx", nil))
	require.NoError(t, err)
	hollow := filepath.Join(t.TempDir(), "hollow.xlsx")
	empty := `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`
	require.NoError(t, os.WriteFile(hollow, rewritten(t, data, map[string]func(string) string{"xl/styles.xml": func(string) string { return empty }}), 0o600))
	out, w := build(t, hollow, units.SI, 1)
	assert.Empty(t, w.Findings())
	assert.Equal(t, "S000", cell(t, open(t, out), "Results Summary", "Site ID", 1))
	assert.Equal(t, parts(t, data)["xl/worksheets/sheet1.xml"], parts(t, out)["xl/worksheets/sheet1.xml"])
}

// A spreadsheet program keeps the order of calculation, with cells of sheets that are emptied.
func TestTheOrderOfCalculationIsDropped(t *testing.T) {
	first, _ := build(t, user(t, "book.xlsx", nil), units.SI, 1)
	chain := `<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="Z1" i="3"/></calcChain>`
	saved := rewritten(t, first, map[string]func(string) string{
		"xl/calcChain.xml": func(string) string { return chain },
		"[Content_Types].xml": func(s string) string {
			return strings.Replace(s, "</Types>", `<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>`, 1)
		},
		"xl/_rels/workbook.xml.rels": func(s string) string {
			return strings.Replace(s, "</Relationships>", `<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>`, 1)
		},
	})
	again := filepath.Join(t.TempDir(), "book.results.xlsx")
	require.NoError(t, os.WriteFile(again, saved, 0o600))
	out, _ := build(t, again, units.SI, 1)
	for name, text := range parts(t, out) {
		assert.NotContains(t, name+text, "calcChain", name)
	}
}

// rewritten returns a workbook with some parts changed or added.
func rewritten(t *testing.T, data []byte, change map[string]func(string) string) []byte {
	t.Helper()
	all := parts(t, data)
	for name, f := range change {
		all[name] = f(all[name])
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, text := range all {
		out, err := w.Create(name)
		require.NoError(t, err)
		_, err = out.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}
