package sheets_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
)

// changed writes the results of one site, with what moved.
func changed(t *testing.T, source string, system units.System, list []report.Change) []byte {
	t.Helper()
	w, err := sheets.Create(source, head(t, system))
	require.NoError(t, err)
	defer w.Close()
	require.NoError(t, w.Site(sample.Site(0), ""))
	found, err := w.Complete(sheets.Basis{}, list, nil)
	require.NoError(t, err)
	require.NoError(t, w.Finish(found))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	return b.Bytes()
}

func TestChangesAreASheet(t *testing.T) {
	some := units.Some[float64]
	list := []report.Change{
		{Site: "A-1", Zone: "1", What: "change-area", Quantity: units.Area, Before: some(100), Now: some(150), Then: "B", Revision: "B"},
		{Site: "A-1", Zone: "1", What: "change-cost", Money: true, Before: some(1234.5), Now: units.Maybe[float64]{}, Then: "B", Revision: "C"},
		{Site: "A-2", Zone: "1", What: "change-kit", BeforeText: "aerial detector", NowText: "in-pavement detector"},
		{Site: "A-2", Zone: "1", What: "change-set-point", Quantity: units.Temperature, Before: some(3), Now: some(4)},
	}
	data := changed(t, user(t, "book.xlsx", nil), units.IP, list)
	f := open(t, data)
	names := f.GetSheetList()
	assert.Equal(t, "Results Changes", names[len(names)-1])
	at := func(heading string, row int) string { return cell(t, f, "Results Changes", heading, row) }
	assert.Equal(t, []string{"Area", "1076.391", "1614.587", "ft²", "50", "moved under the same revision"}, // 100 and 150 m² ÷ 0.3048²
		[]string{at("Result", 1), at("Before", 1), at("Now", 1), at("Unit", 1), at("Changed by [%]", 1), at("Note", 1)})
	assert.Equal(t, []string{"1234.5", "", "USD", "", ""}, []string{at("Before", 2), at("Now", 2), at("Unit", 2), at("Changed by [%]", 2), at("Note", 2)})
	assert.Equal(t, []string{"aerial detector", "in-pavement detector", ""}, []string{at("Before", 3), at("Now", 3), at("Unit", 3)})
	assert.Equal(t, []string{"37.4", "39.2", "°F", ""}, []string{at("Before", 4), at("Now", 4), at("Unit", 4), at("Changed by [%]", 4)}, "a temperature has no share of itself")

	// Run on its own output when nothing has moved: the sheet stays, empty, and comes no second time.
	next := open(t, changed(t, saved(t, data), units.IP, nil))
	rows, err := next.GetRows("Results Changes")
	require.NoError(t, err)
	assert.Len(t, rows, 1)
	assert.Equal(t, names, next.GetSheetList())
	assert.NotContains(t, open(t, changed(t, "", units.SI, nil)).GetSheetList(), "Results Changes", "without changes there is none")
}
