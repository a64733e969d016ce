package sheets_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc/cost"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
)

// What to change first keeps to what the approved sites leave of the budget limit, 1,300 of 2,000: the best ratio, 1,000 for 1,600, does not fit, nor do the other
// two together, and of these the dearer saves more.
func TestPortfolioKeepsToTheBudget(t *testing.T) {
	h := head(t, units.SI)
	h.Settings.BudgetLimit = units.Some(2000.0)
	w, err := sheets.Create("", h)
	require.NoError(t, err)
	defer w.Close()
	whole := func(main int64) units.Maybe[cost.Money] { return units.Some(cost.Money(100 * main)) }
	for i, o := range []struct {
		decision   string
		first, net int64
	}{{"", 600, 300}, {"", 1100, 600}, {portfolio.Open, 1600, 1000}, {portfolio.Approved, 700, 50}} {
		so := sample.Site(i)
		so.Summary.Decision = o.decision
		so.Summary.Now = [3]units.Maybe[cost.Money]{whole(900), whole(1000), whole(1100)}
		so.Summary.Alternatives = []portfolio.Option{{Name: "base case", Base: true, Yearly: so.Summary.Now},
			{Name: "as in Sites", FirstCost: whole(o.first), NetSavings: whole(o.net), Yearly: [3]units.Maybe[cost.Money]{whole(700), whole(750), whole(800)}}}
		if o.decision == portfolio.Approved {
			so.Summary.Spend = whole(o.first)
		}
		require.NoError(t, w.Site(so, ""))
	}
	_, err = w.Complete(sheets.Basis{}, nil, nil)
	require.NoError(t, err)
	require.NoError(t, w.Finish(nil))
	f := open(t, written(t, w))
	rows, err := f.GetRows("Results Portfolio", excelize.Options{RawCellValue: true})
	require.NoError(t, err)

	lists := map[string][]string{}
	for i, r := range rows[1:] {
		if r[2] != "total" {
			lists[r[2]] = append(lists[r[2]], cell(t, f, "Results Portfolio", "Site ID", i+1))
		}
	}
	assert.Equal(t, []string{"S001"}, lists["change first, within the budget"])
	assert.Equal(t, []string{"S002", "S001", "S000"}, lists["best change by net savings for each unit spent"])
	assert.Equal(t, []string{"S000", "S001", "S002"}, lists["open: no decision yet"])
	for i, r := range rows[1:] {
		if r[2] == "change first, within the budget" {
			assert.Equal(t, "1100", cell(t, f, "Results Portfolio", "First cost [USD]", i+1))
			assert.Equal(t, "600", cell(t, f, "Results Portfolio", "Net savings [USD]", i+1))
			assert.Equal(t, "250", cell(t, f, "Results Portfolio", "Saved a year [USD]", i+1))
		}
		if r[0] == "all regions" && r[1] == "typical" {
			assert.Equal(t, "Of the budget limit USD\u00a02,000, approved sites take USD\u00a0700 and the changes listed below USD\u00a01,100; they save USD\u00a0600 net over the study. Open sites that could not be considered, since a first cost or savings are missing: 0. No other choice of whole changes within the limit saves more.",
				cell(t, f, "Results Portfolio", "How it is counted", i+1))
		}
	}
}

func written(t *testing.T, w *sheets.Writer) []byte {
	t.Helper()
	var b bytes.Buffer
	_, err := w.WriteTo(&b)
	require.NoError(t, err)
	return b.Bytes()
}
