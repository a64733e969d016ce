package report_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report"
)

func TestTermsOfSeveralWorkbooks(t *testing.T) {
	a := report.TermsOf(calc.Settings{Currency: "USD", PriceDate: "2026-01-02", ContingencyNew: 0.1, BudgetLimit: units.Some(500.25)})
	b := report.TermsOf(calc.Settings{Currency: "USD", PriceDate: "2026-02-03", ContingencyNew: 0.1, BudgetLimit: units.Some(500.25), Exclusions: " Drains "})
	both := a.Join(b).Join(a)
	assert.Equal(t, []string{"2026-01-02", "2026-02-03"}, both.PriceDates)
	assert.Equal(t, []string{"Drains"}, both.Exclusions)
	assert.Len(t, both.Contingencies, 1, "told once")
	assert.Equal(t, units.Some(cost.Money(50_025)), both.Limit)

	b.Limit = units.Some(cost.Money(1))
	assert.False(t, a.Join(b).Limit.Known, "two limits are none of the whole")
	b.Limit = units.Maybe[cost.Money]{}
	assert.False(t, a.Join(b).Limit.Known, "a limit of one workbook is none of both")
}
