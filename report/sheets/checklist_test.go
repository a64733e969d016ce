package sheets_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/words"
)

// Each line of the checklist has a row of its own; in a zone's row they are counted.
func TestChecklistHasARowForEachLine(t *testing.T) {
	site := sample.Site(0)
	choice := *site.Outcomes[0].Sensing
	site.Outcomes[0].Sensing = &choice
	choice.Checklist = head(t, units.SI).Words.Codes(words.Checklist)[:30]
	f := of(t, units.SI, site)
	rows, err := f.GetRows("Results Checklist")
	require.NoError(t, err)
	require.Len(t, rows, 1+30)
	code := slices.Index(rows[0], "Code")
	for i, line := range choice.Checklist {
		assert.Equal(t, line, rows[i+1][code])
	}
	assert.Equal(t, "30 lines on Results Checklist", cell(t, f, "Results Sensing", "Siting", 1))
}

// A row is as high as its longest text takes, up to thirty lines.
func TestRowsAreAsHighAsTheirTexts(t *testing.T) {
	for _, lines := range []int{20, 100} {
		site := sample.Site(0)
		choice := *site.Outcomes[0].Sensing
		site.Outcomes[0].Sensing = &choice
		choice.Reasons = slices.Repeat([]sensing.Reason{{Code: "no-housing"}}, lines)
		f := of(t, units.SI, site)
		require.Equal(t, lines, strings.Count(cell(t, f, "Results Sensing", "Why", 1), "\n")+1)
		high, err := f.GetRowHeight("Results Sensing", 2)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, high, 12.0*float64(min(lines, 30)))
		assert.LessOrEqual(t, high, 409.0, "the format allows no more (ECMA-376, ht of row; Excel's limit, from memory)")
	}
}
