package sheets_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
)

// Heights, hidden rows and groups follow their rows; what we made ourselves does not count as a person's.
func TestRowsKeepWhatAPersonDidToThem(t *testing.T) {
	const sheet = "Results Summary"
	sites := sample.Sites(5)
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sites)
	path := worked(t, data, func(f *excelize.File) {
		require.NoError(t, f.SetRowHeight(sheet, 1, 60))
		require.NoError(t, f.SetRowHeight(sheet, 3, 33))
		require.NoError(t, f.SetRowVisible(sheet, 4, false))
		require.NoError(t, f.SetRowOutlineLevel(sheet, 5, 2))
		set(t, f, sheet, "A12", "below")
		require.NoError(t, f.SetRowHeight(sheet, 12, 50))
		require.NoError(t, f.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddHeader: "&LMine", OddFooter: "&LSample&C&A&R&P / &N"}))
	})
	out, _ := run(t, path, units.SI, append(reversed(sites), sample.Site(5)))
	f := open(t, out)
	for row, want := range map[int]float64{1: 60, 2: 27, 5: 33, 7: 27, 13: 50} { // S001 stands in row 5, what is below one further down
		high, err := f.GetRowHeight(sheet, row)
		require.NoError(t, err)
		assert.Equal(t, want, high, row)
	}
	for row := 1; row <= 8; row++ {
		seen, err := f.GetRowVisible(sheet, row)
		require.NoError(t, err)
		assert.Equal(t, row != 4, seen, "S002 is still in the middle: row %d", row)
		level, err := f.GetRowOutlineLevel(sheet, row)
		require.NoError(t, err)
		assert.Equal(t, map[bool]uint8{true: 2}[row == 3], level, row)
	}
	page, err := f.GetHeaderFooter(sheet)
	require.NoError(t, err)
	assert.Equal(t, "&LMine", page.OddHeader)
	assert.True(t, strings.HasSuffix(page.OddFooter, "&C&A&R&P / &N"))
	again, found := run(t, saved(t, out), units.SI, append(reversed(sites), sample.Site(5)))
	assert.True(t, bytes.Equal(out, again), "from then on it stays the same")
	assert.NotContains(t, codes(found), sheets.CodeFilterOff)
}

// A filter would hide new results and an order would not be theirs: both go, and are told by the columns they are on.
func TestFiltersAndOrdersThatGoAreTold(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(4))
	p := parts(t, data)
	sheet := partOf(t, p, "Results Summary")
	hide := func(s string) string {
		return strings.Replace(s, `<row r="3" `, `<row r="3" hidden="1" `, 1)
	}
	out, found := run(t, saved(t, rewritten(t, data, map[string]func(string) string{sheet: hide, "xl/tables/table1.xml": func(s string) string {
		head, rest, is := strings.Cut(s, "</autoFilter>")
		require.True(t, is)
		return head + `<filterColumn colId="2"><filters><filter val="done"/></filters></filterColumn></autoFilter><sortState ref="A2:Z5"><sortCondition descending="1" ref="D2:D5"/></sortState>` + rest
	}})), units.SI, sample.Sites(4))
	told := map[finding.Code]finding.Finding{}
	for _, f := range found {
		told[f.Code] = f
	}
	rows, err := open(t, data).GetRows("Results Summary")
	require.NoError(t, err)
	for code, col := range map[finding.Code]int{sheets.CodeFilterOff: 2, sheets.CodeOrderLost: 3} {
		require.Contains(t, told, code)
		assert.Equal(t, []string{"Results Summary", rows[0][col]}, []string{told[code].Args[0].Text, told[code].Args[1].Text})
	}
	seen, err := open(t, out).GetRowVisible("Results Summary", 3)
	require.NoError(t, err)
	assert.True(t, seen, "what the filter hid is in sight")
	assert.NotContains(t, parts(t, out)["xl/tables/table1.xml"], "filterColumn")
}
