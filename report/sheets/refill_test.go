package sheets_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
)

// usual is how many sheets of results a workbook has, as long as nothing has changed since the run before.
var usual = len(sheets.List()) - 1

// run writes the results of some sites into a copy of a workbook and returns it with all findings.
func run(t testing.TB, source string, system units.System, sites []calc.SiteOutcome) ([]byte, []finding.Finding) {
	t.Helper()
	w, err := sheets.Create(source, head(t, system))
	require.NoError(t, err)
	defer w.Close()
	var found []finding.Finding
	for _, s := range sites {
		require.NoError(t, w.Site(s, "submittals/"+s.Site.ID+".pdf"))
		found = append(found, s.Summary.Findings...)
	}
	found, err = w.Complete(sheets.Basis{}, nil, found)
	require.NoError(t, err)
	require.NoError(t, w.Finish(found))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	return b.Bytes(), found
}

// saved writes a workbook where it can be run again.
func saved(t testing.TB, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.results.xlsx")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// worked opens a workbook of results as a person would, changes it and saves it.
func worked(t testing.TB, data []byte, change func(*excelize.File)) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(t, err)
	defer f.Close()
	change(f)
	var b bytes.Buffer
	_, err = f.WriteTo(&b)
	require.NoError(t, err)
	return saved(t, b.Bytes())
}

func reversed(sites []calc.SiteOutcome) []calc.SiteOutcome {
	out := slices.Clone(sites)
	slices.Reverse(out)
	return out
}

func codes(list []finding.Finding) (out []finding.Code) {
	for _, f := range list {
		if !slices.Contains(out, f.Code) {
			out = append(out, f.Code)
		}
	}
	return out
}

// under returns the values of a column by the values of the first.
func under(t *testing.T, f *excelize.File, sheet, heading string) map[string]string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	col := slices.Index(rows[0], heading)
	require.GreaterOrEqual(t, col, 0, "%s: %q", sheet, rows[0])
	out := map[string]string{}
	for _, r := range rows[1:] {
		if col < len(r) {
			out[r[0]] = r[col]
		}
	}
	return out
}

// firstFree returns the name of the first free column of a sheet.
func firstFree(t testing.TB, f *excelize.File, sheet string) string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	name, err := excelize.ColumnNumberToName(len(rows[0]) + 1)
	require.NoError(t, err)
	return name
}

func set(t testing.TB, f *excelize.File, sheet, cell string, value any) {
	t.Helper()
	require.NoError(t, f.SetCellValue(sheet, cell, value))
}

func TestTenRunsOnTheirOwnOutputChangeNothing(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(8))
	again := data
	for range 10 {
		next, found := run(t, saved(t, again), units.SI, sample.Sites(8))
		require.True(t, bytes.Equal(data, next))
		assert.Equal(t, []finding.Code{"results-separate", sheets.CodeSheetNameTaken}, codes(found), "those of the sample alone")
		again = next
	}
}

// A person's columns, texts, formulas, colours and widths stay with their rows, wherever these go.
func TestAPersonsColumnsFollowTheirRows(t *testing.T) {
	sites := sample.Sites(6)
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sites)
	const sheet = "Results Summary"
	var note, twice, before, colour string
	path := worked(t, data, func(f *excelize.File) {
		note = firstFree(t, f, sheet)
		set(t, f, sheet, note+"1", "Note")
		twice = firstFree(t, f, sheet)
		set(t, f, sheet, twice+"1", "Twice the area")
		before = firstFree(t, f, sheet)
		set(t, f, sheet, before+"1", "Of the site before")
		for i := range sites {
			row := fmt.Sprint(i + 2)
			set(t, f, sheet, note+row, "note on S00"+fmt.Sprint(i))
			require.NoError(t, f.SetCellFormula(sheet, twice+row, "D"+row+"*2"))
		}
		require.NoError(t, f.SetCellFormula(sheet, before+"4", "SUM(D$2:D7)+'"+sheet+"'!D3+Mine!A4+LOG10(D4)"))
		bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Color: "FF0000"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFF00"}}})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle(sheet, note+"3", note+"3", bold))
		require.NoError(t, f.SetCellStyle(sheet, "B3", "B3", bold))
		require.NoError(t, f.SetColWidth(sheet, note, note, 55))
		require.NoError(t, f.AddComment(sheet, excelize.Comment{Cell: "C3", Author: "Ann", Text: "ask the plumber"}))
		list := excelize.NewDataValidation(true)
		list.Sqref = note + "2:" + note + "7"
		require.NoError(t, list.SetDropList([]string{"note on S000", "other"}))
		require.NoError(t, f.AddDataValidation(sheet, list))
		red, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Italic: true}})
		require.NoError(t, err)
		require.NoError(t, f.SetConditionalFormat(sheet, twice+"2:"+twice+"7", []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: "$D2>100", Format: &red}}))
		require.NoError(t, f.SetCellHyperLink(sheet, note+"3", "https://example.org/a?b=1", "External"))
		colour = fmt.Sprint(bold)
	})

	more := append(reversed(sites), sample.Site(6))
	out, found := run(t, path, units.SI, more)
	assert.NotContains(t, codes(found), sheets.CodeRowGone)
	f := open(t, out)
	notes := under(t, f, sheet, "Note")
	for i := range sites {
		assert.Equal(t, "note on S00"+fmt.Sprint(i), notes["S00"+fmt.Sprint(i)])
	}
	assert.Empty(t, notes["S006"], "a new site has no note")
	formula := func(cell string) string {
		text, err := f.GetCellFormula(sheet, cell)
		require.NoError(t, err)
		return text
	}
	for row := 2; row <= 8; row++ {
		assert.Equal(t, fmt.Sprintf("D%d*2", row), formula(fmt.Sprint(twice, row)), "a formula that fills a column fills new rows too")
	}
	assert.Equal(t, "SUM(D$2:D8)+'"+sheet+"'!D6+Mine!A4+LOG10(D5)", formula(before+"5"), "S002 stands in row 5, S001 in row 6, all in 2 to 8")
	style, err := f.GetCellStyle(sheet, note+"6")
	require.NoError(t, err)
	assert.Equal(t, colour, fmt.Sprint(style), "the colour of a note")
	style, err = f.GetCellStyle(sheet, "B6")
	require.NoError(t, err)
	assert.Equal(t, colour, fmt.Sprint(style), "the colour of a cell of ours")
	width, err := f.GetColWidth(sheet, note)
	require.NoError(t, err)
	assert.Equal(t, 55.0, width)
	comments, err := f.GetComments(sheet)
	require.NoError(t, err)
	require.Len(t, comments, 1)
	assert.Equal(t, "C6", comments[0].Cell)
	assert.Contains(t, comments[0].Text, "ask the plumber")
	linked, target, err := f.GetCellHyperLink(sheet, note+"6")
	require.NoError(t, err)
	assert.True(t, linked)
	assert.Equal(t, "https://example.org/a?b=1", target)
	rules, err := f.GetConditionalFormats(sheet)
	require.NoError(t, err)
	require.Contains(t, rules, twice+"2:"+twice+"8")
	assert.Equal(t, "$D2>100", rules[twice+"2:"+twice+"8"][0].Criteria)
	assert.Len(t, rules, 2, "our own marks stand once")
	lists, err := f.GetDataValidations(sheet)
	require.NoError(t, err)
	require.Len(t, lists, 1)
	assert.Equal(t, note+"2:"+note+"8", lists[0].Sqref)
	assert.Contains(t, parts(t, out)["xl/drawings/vmlDrawing1.vml"], "<x:Row>5</x:Row>")

	again, _ := run(t, saved(t, out), units.SI, more)
	assert.True(t, bytes.Equal(out, again), "from then on it stays the same")
}

// Rows of other sheets are known by more than their site.
func TestRowsAreKnownByTheirKeys(t *testing.T) {
	sites := sample.Sites(3)
	data, _ := run(t, "", units.SI, sites)
	where := map[string][2]string{}
	path := worked(t, data, func(f *excelize.File) {
		for _, sheet := range []string{"Results Set Points", "Results Season", "Results Cost", "Results Loads", "Results Portfolio", "Results Basis"} {
			rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			col := firstFree(t, f, sheet)
			set(t, f, sheet, col+"1", "Mine")
			row := len(rows) - 1 // not the last
			set(t, f, sheet, fmt.Sprint(col, row), "mine")
			where[sheet] = [2]string{strings.Join(rows[row-1], "|"), col}
		}
	})
	out, found := run(t, path, units.SI, append([]calc.SiteOutcome{sample.Site(4)}, reversed(sites)...))
	assert.NotContains(t, codes(found), sheets.CodeRowGone)
	f := open(t, out)
	for sheet, was := range where {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		marked := 0
		for _, r := range rows[1:] {
			if r[len(r)-1] != "mine" {
				continue
			}
			marked++
			if sheet == "Results Portfolio" {
				continue // what it says of the row has changed: there is one site more
			}
			assert.Equal(t, was[0]+"|mine", strings.TrimRight(strings.Join(r, "|"), "|"), sheet)
		}
		assert.Equal(t, 1, marked, sheet)
	}
}

// What stood beside a row that is gone is told, with its words.
func TestNotesOfARowThatIsGoneAreTold(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(4))
	path := worked(t, data, func(f *excelize.File) {
		note := firstFree(t, f, "Results Summary")
		set(t, f, "Results Summary", note+"1", "Who")
		set(t, f, "Results Summary", note+"3", "Ann calls")
		require.NoError(t, f.AddComment("Results Loads", excelize.Comment{Cell: "E4", Author: "Ann", Text: "measured twice"}))
		col := firstFree(t, f, "Results Findings")
		rows, err := f.GetRows("Results Findings")
		require.NoError(t, err)
		set(t, f, "Results Findings", fmt.Sprint(col, len(rows)), "asked Bob")
	})
	out, found := run(t, path, units.SI, []calc.SiteOutcome{sample.Site(0), sample.Site(2)})
	var told []string
	for _, f := range found {
		if f.Code == sheets.CodeRowGone {
			assert.Equal(t, finding.Warning, f.Severity)
			told = append(told, f.At.Sheet+" "+f.Site+"/"+f.Zone+" "+f.Args[1].Text)
		}
	}
	require.Len(t, told, 2)
	assert.Equal(t, "Results Loads S001/1 S001, 1: measured twice", told[0])
	assert.Equal(t, "Results Summary S001/ S001: Who: Ann calls", told[1])
	f := open(t, out)
	comments, err := f.GetComments("Results Loads")
	require.NoError(t, err)
	assert.Empty(t, comments)
	rows, err := f.GetRows("Results Findings")
	require.NoError(t, err)
	assert.Contains(t, fmt.Sprint(rows), "Ann calls", "it stands in the workbook too")
}

// A formula that a person put in place of a result makes way for the result, and is told.
func TestFormulasOverResultsAreTold(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(2))
	path := worked(t, data, func(f *excelize.File) { require.NoError(t, f.SetCellFormula("Results Summary", "D3", "1+2")) })
	out, found := run(t, path, units.SI, sample.Sites(2))
	assert.Equal(t, "600.5", cell(t, open(t, out), "Results Summary", "Area [m²]", 2))
	i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == sheets.CodeTypedOver })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, "S001: D3 =1+2", found[i].Args[1].Text)
}

// What a person adds to our marks and links stays; ours stand once.
func TestMarksAndLinksOfAPersonStay(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(3))
	path := worked(t, data, func(f *excelize.File) {
		bold, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Italic: true}})
		require.NoError(t, err)
		require.NoError(t, f.SetConditionalFormat("Results Summary", "C2:C4", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: "==", Value: `"error"`, Format: &bold}}))
		require.NoError(t, f.SetCellHyperLink("Results Summary", "A2", "https://example.org/S000", "External"))
	})
	var links int
	for range 3 {
		out, _ := run(t, path, units.SI, reversed(sample.Sites(3)))
		f := open(t, out)
		rules, err := f.GetConditionalFormats("Results Summary")
		require.NoError(t, err)
		require.Len(t, rules["C2:C4"], 5, "four of ours and one of theirs")
		linked, target, err := f.GetCellHyperLink("Results Summary", "A4")
		require.NoError(t, err)
		assert.True(t, linked)
		assert.Equal(t, "https://example.org/S000", target)
		sheet := parts(t, out)["xl/worksheets/sheet3.xml"]
		if links > 0 {
			assert.Equal(t, links, strings.Count(sheet, "<hyperlink "))
		}
		links = strings.Count(sheet, "<hyperlink ")
		path = worked(t, out, func(f *excelize.File) { // another program writes it again, in an order of its own
			require.NoError(t, f.SetColWidth("Results Summary", "A", "A", 13))
		})
		path2, _ := run(t, path, units.SI, sample.Sites(3))
		path = saved(t, path2)
	}
}

// Threads of comments move with their rows, and so do the persons' words in them.
func TestThreadsMoveWithTheirRows(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(3))
	const thread = `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B3" id="{1}"><text>why?</text></threadedComment><threadedComment ref="B3" id="{2}" parentId="{1}"><text>so</text></threadedComment></ThreadedComments>`
	path := saved(t, rewritten(t, data, map[string]func(string) string{
		"xl/threadedComments/threadedComment1.xml": func(string) string { return thread },
		"xl/worksheets/_rels/sheet1.xml.rels": func(s string) string {
			return strings.Replace(s, "</Relationships>", `<Relationship Id="rId77" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../threadedComments/threadedComment1.xml"/></Relationships>`, 1)
		},
	}))
	out, _ := run(t, path, units.SI, append([]calc.SiteOutcome{sample.Site(7)}, sample.Sites(3)...))
	assert.Equal(t, strings.ReplaceAll(thread, `"B3"`, `"B4"`), parts(t, out)["xl/threadedComments/threadedComment1.xml"])
	assert.Contains(t, parts(t, out)["xl/worksheets/_rels/sheet1.xml.rels"], "rId77")
}

// What a person writes below the results stays below them.
func TestRowsBelowStayBelow(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(3))
	path := worked(t, data, func(f *excelize.File) {
		require.NoError(t, f.SetCellFormula("Results Summary", "D6", "SUM(D2:D4)"))
		set(t, f, "Results Summary", "B6", "in all")
	})
	out, _ := run(t, path, units.SI, sample.Sites(5))
	f := open(t, out)
	formula, err := f.GetCellFormula("Results Summary", "D8")
	require.NoError(t, err)
	assert.Equal(t, "SUM(D2:D6)", formula)
	text, err := f.GetCellValue("Results Summary", "B8")
	require.NoError(t, err)
	assert.Equal(t, "in all", text)
	assert.Contains(t, parts(t, out)["xl/tables/table1.xml"], `ref="A1:W6"`)
	fewer, _ := run(t, saved(t, out), units.SI, sample.Sites(2))
	formula, err = open(t, fewer).GetCellFormula("Results Summary", "D5")
	require.NoError(t, err)
	assert.Equal(t, "SUM(D2:D3)", formula)
}

// Columns keep the places that a person gave them, so that formulas elsewhere find them.
func TestColumnsKeepTheirPlaces(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(3))
	const sheet = "Results Piping"
	path := worked(t, data, func(f *excelize.File) {
		require.NoError(t, f.DeleteTable("Results_Piping")) // the library can't insert into a table that a program made
		require.NoError(t, f.InsertCols(sheet, "C", 1))
		set(t, f, sheet, "C1", "Crew")
		set(t, f, sheet, "C3", "the night crew")
		set(t, f, sheet, "G1", "Bohrung") // a heading of ours in other words
	})
	out, _ := run(t, path, units.IP, reversed(sample.Sites(3)))
	f := open(t, out)
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	assert.Equal(t, []string{"Site ID", "Site name", "Crew", "Zone ID", "Zone name", "Pipe", "Bore [in]", "Spacing [in]"}, rows[0][:8])
	assert.Equal(t, "the night crew", rows[2][2])
	assert.Equal(t, "S001", rows[2][0])
	again, _ := run(t, saved(t, out), units.IP, reversed(sample.Sites(3)))
	assert.True(t, bytes.Equal(out, again))
}

// Where something can't be carried over, the old sheet stays as it is and the new results go beside it.
func TestASheetThatCantBeFilledAgainIsLeftAsItIs(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(3))
	for name, tt := range map[string]struct {
		sheet  string
		change func(*excelize.File)
	}{
		"a pivot table": {"Results Slab", func(f *excelize.File) {
			require.NoError(t, f.AddPivotTable(&excelize.PivotTableOptions{DataRange: "Results Slab!A1:G7", PivotTableRange: "Results Slab!AC2:AF20",
				Rows: []excelize.PivotTableField{{Data: "Site ID"}}, Data: []excelize.PivotTableField{{Data: "Upward flux [W/m²]", Subtotal: "Sum"}}}))
		}},
		"a second table": {"Results Slab", func(f *excelize.File) {
			set(t, f, "Results Slab", "AC1", "a")
			set(t, f, "Results Slab", "AC2", "b")
			require.NoError(t, f.AddTable("Results Slab", &excelize.Table{Range: "AC1:AC3", Name: "Own"}))
		}},
		"cells merged over rows": {"Results Slab", func(f *excelize.File) {
			set(t, f, "Results Slab", "AB2", "both zones")
			require.NoError(t, f.MergeCell("Results Slab", "AB2", "AB3"))
		}},
		"no headings": {"Results Slab", func(f *excelize.File) {
			require.NoError(t, f.InsertRows("Results Slab", 1, 2))
			set(t, f, "Results Slab", "A1", "Slabs of our estate")
		}},
		"no key": {"Results Slab", func(f *excelize.File) {
			set(t, f, "Results Slab", "AB2", "note")
			require.NoError(t, f.DeleteTable("Results_Slab")) // the library can't take a column from a table
			require.NoError(t, f.RemoveCol("Results Slab", "A"))
		}},
		"a formula over several cells": {"Results Slab", func(f *excelize.File) {
			ref, kind := "AB2:AB4", excelize.STCellFormulaTypeArray
			require.NoError(t, f.SetCellFormula("Results Slab", "AB2", "E2:E4*2", excelize.FormulaOpts{Ref: &ref, Type: &kind}))
		}},
	} {
		path := worked(t, data, tt.change)
		was, err := os.ReadFile(path)
		require.NoError(t, err)
		out, found := run(t, path, units.SI, sample.Sites(2))
		require.Contains(t, codes(found), sheets.CodeSheetKept, name)
		before, after := parts(t, was), parts(t, out)
		part := partOf(t, before, tt.sheet)
		assert.Equal(t, before[part], after[part], "%s: the old sheet stays as it is", name)
		f := open(t, out)
		assert.Equal(t, "S000", cell(t, f, tt.sheet+" (2)", "Site ID", 1), name)
		next, found := run(t, saved(t, out), units.SI, sample.Sites(2))
		assert.NotContains(t, codes(found), sheets.CodeSheetKept, "%s: the new sheet bears the mark now", name)
		assert.Len(t, open(t, next).GetSheetList(), 2+usual+1, name)
	}
}

// What no one knows of is not left out in silence.
func TestAnUnknownElementIsLeftWithItsSheet(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(2))
	path := saved(t, rewritten(t, data, map[string]func(string) string{
		"xl/worksheets/sheet1.xml": func(s string) string {
			return strings.Replace(s, "<pageMargins", `<n:news xmlns:n="urn:later"/><pageMargins`, 1)
		},
	}))
	out, found := run(t, path, units.SI, sample.Sites(1))
	assert.Contains(t, codes(found), sheets.CodeSheetKept)
	assert.Contains(t, parts(t, out)["xl/worksheets/sheet1.xml"], "urn:later")
}

// partOf returns the part of a sheet in a workbook that this library made.
func partOf(t *testing.T, parts map[string]string, sheet string) string {
	t.Helper()
	_, after, found := strings.Cut(parts["xl/workbook.xml"], `name="`+sheet+`"`)
	require.True(t, found)
	_, id, _ := strings.Cut(after, `r:id="`)
	id, _, _ = strings.Cut(id, `"`)
	for _, element := range strings.Split(parts["xl/_rels/workbook.xml.rels"], "<Relationship ") {
		if strings.Contains(element, `Id="`+id+`"`) {
			_, target, _ := strings.Cut(element, `Target="`)
			target, _, _ = strings.Cut(target, `"`)
			return "xl/" + strings.TrimPrefix(target, "/xl/")
		}
	}
	t.Fatal("no part")
	return ""
}

// A copy that a person made of a sheet of ours is theirs: a spreadsheet program gives it a name for itself alone.
func TestACopyOfOurSheetIsThePersons(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(2))
	path := worked(t, data, func(f *excelize.File) {
		index, err := f.NewSheet("Results Loads of May")
		require.NoError(t, err)
		from, err := f.GetSheetIndex("Results Loads")
		require.NoError(t, err)
		require.NoError(t, f.CopySheet(from, index))
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "thawbook.loads", RefersTo: "'Results Loads of May'!$A$1:$BM$1", Scope: "Results Loads of May"}))
	})
	out, _ := run(t, path, units.SI, []calc.SiteOutcome{sample.Site(5)})
	f := open(t, out)
	assert.Equal(t, "S000", cell(t, f, "Results Loads of May", "Site ID", 1))
	assert.Equal(t, "S005", cell(t, f, "Results Loads", "Site ID", 1))
}

// chartOn returns the parts of the chart that shows cells of a sheet, and of its drawing.
func chartOn(t *testing.T, parts map[string]string, sheet string) (chart, drawing string) {
	t.Helper()
	for name, text := range parts {
		if strings.HasPrefix(name, "xl/charts/chart") && strings.Contains(text, "&#39;"+sheet+"&#39;!") {
			chart = name
		}
	}
	for name, text := range parts {
		if strings.HasPrefix(name, "xl/drawings/_rels/") && chart != "" && strings.Contains(text, strings.TrimPrefix(chart, "xl")) {
			drawing = "xl/drawings/" + strings.TrimSuffix(strings.TrimPrefix(name, "xl/drawings/_rels/"), ".rels")
		}
	}
	require.NotEmpty(t, drawing, sheet)
	return chart, drawing
}

// Costs are drawn for the typical winter of the first zone, present values for the first site; without prices nothing is.
func TestCostsAndAlternativesAreDrawn(t *testing.T) {
	site := sample.Site(0)
	for _, name := range []string{"as now", "poured anew", "aerial detector"} {
		a := calc.AlternativeOutcome{Name: name}
		a.Life.Known = true
		site.Alternatives = append(site.Alternatives, a)
	}
	p := func(so calc.SiteOutcome) map[string]string {
		data, _ := run(t, "", units.SI, []calc.SiteOutcome{so, sample.Site(1)})
		return parts(t, data)
	}
	now := p(site)
	alternatives, _ := chartOn(t, now, "Results Alternatives")
	last := 1 + len(site.Alternatives)
	assert.Contains(t, now[alternatives], fmt.Sprintf("&#39;Results Alternatives&#39;!$J$2:$J$%d<", last), "the present values of the first site alone")
	costs, _ := chartOn(t, now, "Results Cost")
	typical := len(season.Strategies)
	assert.Equal(t, typical, strings.Count(now[costs], "&#39;Results Cost&#39;!$R$")-1, "a bar for each strategy, and the heading")
	assert.Contains(t, now[costs], "(&#39;Results Cost&#39;!$R$3,&#39;Results Cost&#39;!$R$6,", "the second of three winters")

	site.Alternatives = slices.Clone(site.Alternatives)
	for i := range site.Alternatives {
		site.Alternatives[i].Life.Known = false
	}
	for _, text := range p(site) {
		assert.NotContains(t, text, "&#39;Results Alternatives&#39;!$I$2")
	}
}

// The chart stays as a person placed and drew it, and shows the rows of now.
func TestChartsFollowTheRows(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(3))
	chart, drawing := chartOn(t, parts(t, data), "Results Portfolio")
	path := saved(t, rewritten(t, data, map[string]func(string) string{
		chart:   func(s string) string { return strings.Replace(s, "9DB8C6", "00FF00", 1) },
		drawing: func(s string) string { return strings.Replace(s, "<xdr:row>1</xdr:row>", "<xdr:row>30</xdr:row>", 1) },
	}))
	before := parts(t, data)[chart]
	out, _ := run(t, path, units.SI, sample.Sites(1))
	now := parts(t, out)
	assert.Contains(t, now[chart], "00FF00")
	assert.Contains(t, now[drawing], "<xdr:row>30</xdr:row>")
	assert.NotEqual(t, strings.Count(before, "$K$"), strings.Count(now[chart], "$K$"), "fewer regions, fewer cells")
	assert.Len(t, now, len(parts(t, data)), "no chart is added")
}

// Links to more cells than the format allows are texts.
func TestLinksHaveALimit(t *testing.T) {
	w, err := sheets.Create(user(t, "book.xlsx", nil), head(t, units.SI))
	require.NoError(t, err)
	defer w.Close()
	const many = 65_600
	list := make([]finding.Finding, many)
	for i := range list {
		list[i] = finding.New(finding.Warning, "pdf-failed", "")
		list[i].At = finding.Cell{Sheet: "Sites", Ref: fmt.Sprint("A", i+2), Row: i + 2, Col: 1}
	}
	list, err = w.Complete(sheets.Basis{}, nil, list)
	require.NoError(t, err)
	require.NoError(t, w.Finish(list))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	p := parts(t, b.Bytes())
	sheet := p[partOf(t, p, "Results Findings")]
	assert.Equal(t, 65_530, strings.Count(sheet, "<hyperlink "))
	assert.Contains(t, sheet, fmt.Sprintf("A%d<", many+1), "the last cell is named all the same")
}
