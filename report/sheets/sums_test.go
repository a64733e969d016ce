package sheets_test

import (
	"os"
	"path/filepath"
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

// typed returns what is told of values that stand in place of results: sheet and columns.
func typed(found []finding.Finding) (list []string) {
	for _, f := range found {
		if f.Code == sheets.CodeValueTyped {
			list = append(list, f.Args[0].Text+": "+f.Args[1].Text)
		}
	}
	return list
}

// A value typed over a result, or cleared, is told by its column; rows in another order and values of a person's own columns are not.
func TestValuesTypedOverResultsAreTold(t *testing.T) {
	sites := sample.Sites(4)
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sites)
	for name, one := range map[string]struct {
		change func(*excelize.File)
		want   []string
	}{
		"number":  {func(f *excelize.File) { set(t, f, "Results Summary", "D3", 601.5) }, []string{"Results Summary: Area [m²]"}},
		"cleared": {func(f *excelize.File) { set(t, f, "Results Summary", "D3", nil) }, []string{"Results Summary: Area [m²]"}},
		"text":    {func(f *excelize.File) { set(t, f, "Results Loads", "D2", "Mine") }, []string{"Results Loads: Zone name"}},
		"key":     {func(f *excelize.File) { set(t, f, "Results Loads", "A2", "S00X") }, []string{"Results Loads: Site ID"}},
		"formula": {func(f *excelize.File) { require.NoError(t, f.SetCellFormula("Results Summary", "D3", "1+2")) }, nil},
		"own":     {func(f *excelize.File) { set(t, f, "Results Summary", firstFree(t, f, "Results Summary")+"3", 7) }, nil},
		"row":     {func(f *excelize.File) { require.NoError(t, f.RemoveRow("Results Summary", 3)) }, nil},
		"nothing": {func(*excelize.File) {}, nil},
	} {
		_, found := run(t, worked(t, data, one.change), units.SI, reversed(sites))
		assert.Equal(t, one.want, typed(found), name)
	}
}

func fileOf(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return data
}

// Other programs write the same values in their own ways.
func TestValuesThatOtherProgramsWroteAreNotTypedOver(t *testing.T) {
	t.Parallel()
	for _, system := range []units.System{units.SI, units.IP} {
		data, _ := run(t, user(t, "book.xlsx", nil), system, sample.Sites(3))
		path := saved(t, data)
		python(t, "import sys, openpyxl\nopenpyxl.load_workbook(sys.argv[1]).save(sys.argv[1])", path)
		_, found := run(t, path, system, sample.Sites(3))
		assert.Empty(t, typed(found), "openpyxl")
		written := filepath.Join(soffice(t, "xlsx:Calc MS Excel 2007 XML", saved(t, data)), "book.results.xlsx")
		_, found = run(t, written, system, sample.Sites(3))
		assert.Empty(t, typed(found), "LibreOffice")
		edited := worked(t, fileOf(t, written), func(f *excelize.File) { set(t, f, "Results Cost", "G4", 1) })
		_, found = run(t, edited, system, sample.Sites(3))
		require.Len(t, typed(found), 1, "the sums outlive another program")
	}
}

// A formula holds a text of 255 characters at most (ECMA-376 leaves it open; the limit of Excel, from memory).
func TestSumsAreShortEnough(t *testing.T) {
	data, _ := run(t, "", units.SI, sample.Sites(1))
	names := open(t, data).GetDefinedName()
	seen := 0
	for _, n := range names {
		if strings.HasPrefix(n.Name, "thawbook.sums.") {
			seen++
			assert.LessOrEqual(t, len(n.RefersTo), 255+2, n.Name)
		}
	}
	assert.Equal(t, usual, seen)
}
