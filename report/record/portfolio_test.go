package record_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// What a portfolio takes of a site comes back from the record as the run had it, money to the cent.
func TestPortfolioComesBack(t *testing.T) {
	money := func(minor int64) units.Maybe[cost.Money] { return units.Some(cost.Money(minor)) }
	so := sample.Site(0)
	s := &so.Summary
	s.Decision, s.Chosen, s.Proposed = portfolio.Approved, "poured anew", true
	so.Alternatives = []calc.AlternativeOutcome{
		{Name: "base case", Base: true, FirstCost: money(0), Years: [3]calc.YearCost{{Total: money(900_001)}, {Total: money(1_000_002)}, {Total: money(1_100_003)}}, Rank: 2, Lost: []calc.Lost{{Zone: "1", Code: "lacks-heat"}}},
		{Name: "poured anew", AsInSites: true, FirstCost: money(123_456_789), Years: [3]calc.YearCost{{Total: money(1)}, {Total: money(22)}, {Total: money(333)}}, Rank: 1,
			Savings: units.Some(cost.Savings{Net: -4_567, SIR: units.Some(1.25), AIRR: units.Some(0.041), SimpleY: units.Some(7.5)})},
	}
	for _, a := range so.Alternatives {
		s.Alternatives = append(s.Alternatives, a.Option())
	}
	s.Now, s.Budget, s.Spend = s.Alternatives[0].Yearly, s.Alternatives[1].Yearly, s.Alternatives[1].FirstCost
	s.Recorded = portfolio.Recorded{Mild: 0.1, Severe: 0.9, Winters: []portfolio.Winter{{Label: "2001", Total: 12_345}, {Label: "2002", Total: 54_321}}}
	excluded := sample.Site(10)

	got, err := record.Read(bytes.NewReader(write(t, []calc.SiteOutcome{so, excluded})))
	require.NoError(t, err)
	want, included := s.Portfolio()
	require.True(t, included)
	want.TotalW = units.Some(281_456.8) // seven digits
	assert.Equal(t, []portfolio.Site{want}, got.PortfolioSites(), "the site that is not included is none of the portfolio")
}

func TestTermsComeBack(t *testing.T) {
	w, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	settings := calc.Settings{Currency: "USD", AnalysisYears: 20, DiscountRate: 0.04, PriceDate: "2026-01-02", PriceValidUntil: "2026-12-31", Exclusions: "Drains.", ContingencyNew: 0.1, ContingencyRetrofit: 0.25, BudgetLimit: units.Some(12_345_678.91)}
	terms := report.TermsOf(settings)
	var b bytes.Buffer
	r := record.New(&b, record.Head{Currency: "USD", Words: w, Limit: terms.Limit, Settings: record.Inputs{
		record.Cell("analysis_years", units.Years, 20, ""), record.Cell("discount_rate", units.Share, 0.04, ""),
		record.Cell("price_date", units.Text, 0, "2026-01-02"), record.Cell("price_valid_until", units.Text, 0, "2026-12-31"), record.Cell("exclusions", units.Text, 0, "Drains."),
		record.Cell("contingency_new", units.Share, 0.1, ""), record.Cell("contingency_retrofit", units.Share, 0.25, "")}})
	require.NoError(t, r.Close(record.Tail{}))
	got, err := record.Read(&b)
	require.NoError(t, err)
	assert.Equal(t, terms, got.Terms())
}

func TestAnotherLayoutIsTold(t *testing.T) {
	_, err := record.Read(bytes.NewReader([]byte(`{"schema": "thawbook.results/2"}`)))
	var other *record.OtherSchema
	require.ErrorAs(t, err, &other)
	assert.Equal(t, "thawbook.results/2", other.Schema)
}
