package submittal

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
)

// owner is a portfolio of some open sites, the first of them approved, under a limit of 20,000: each costs 1,000 and more now, and one way saves.
func owner(sites int) report.Portfolio {
	whole := func(main int) units.Maybe[cost.Money] { return units.Some(cost.Money(100 * main)) }
	three := func(main int) [3]units.Maybe[cost.Money] {
		return [3]units.Maybe[cost.Money]{whole(main - 100), whole(main), whole(main + 100)}
	}
	p := report.Portfolio{Portfolio: portfolio.New("CAD"), Terms: report.Terms{PriceDates: []string{"2026-01-02"}, ValidUntil: []string{"2026-12-31"}, Exclusions: []string{"Drains by others."},
		Contingencies: []report.Contingency{{New: 0.1, Retrofit: 0.2}}, Limit: whole(20_000)}}
	for i := range sites {
		s := portfolio.Site{ID: fmt.Sprintf("P-%02d", i), Name: "Übergrößenträgerstraße «Ωμέγα» " + strings.Repeat("long ", i%5*4), Region: []string{"North", "Südküste", ""}[i%3], Zones: 2, AreaM2: 100,
			TotalW: units.Some(30_000.0), Design: three(500 + i), Now: three(1000 + i), Budget: three(1000 + i), Spend: whole(0), Decision: portfolio.Open, Example: i == 1,
			Options: []portfolio.Option{{Name: "base case", Base: true, Yearly: three(1000 + i)}, {Name: "as in Sites", FirstCost: whole(4_000 + i), NetSavings: whole(9_000 + i), Yearly: three(600)}}}
		if i == 0 {
			s.Decision, s.Chosen, s.Spend, s.Budget = portfolio.Approved, "as in Sites", whole(4_000), three(600)
		}
		p.Add(s)
	}
	return p
}

// 16,000 are left for five sites at 4,001 to 4,005 that save 9,001 to 9,005: the three last.
func TestPortfolioTellsTheOwner(t *testing.T) {
	v := view{plain: true}.make(t)
	doc, err := RenderPortfolio(v, owner(6))
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, want := range []string{
		"600.0 m² 180.0 kW CAD 3,015 CAD 2,415 – 3,615 heated area",
		"North 2 200.0 803", "all regions 6 600.0 2,415 3,015 3,615 6,015 5,615",
		"Example prices are in these amounts",
		"all sites come to CAD 6,015 a year in a typical winter as they are now, and to CAD 5,615 as decided",
		"Of the budget limit CAD 20,000, approved sites take CAD 4,000 and the changes listed below CAD 12,012; they save CAD 27,012 net",
		"No other choice of whole changes within the limit saves more.",
		"P-00 Übergrößenträgerstraße «Ωμέγα» approved as in Sites 4,000 600",
		"100.0 % of the cost of all sites",
		"Prices of 2026-01-02.", "Prices valid until 2026-12-31.", "Not covered: Drains by others.", "contingency of 10.0 % for a new pour and 20.0 % in an existing slab",
		"upper bound of what they come to together",
	} {
		assert.Contains(t, strings.ReplaceAll(strings.ReplaceAll(said, "\u00a0", " "), "\u2009", " "), want)
	}
	assert.Equal(t, 1, strings.Count(said, "upper bound"), "said once")
	again, err := RenderPortfolio(v, owner(6))
	require.NoError(t, err)
	assert.True(t, bytes.Equal(doc.Bytes, again.Bytes))
}

func TestPagesOfThePortfolioAreClean(t *testing.T) {
	for _, system := range []units.System{units.SI, units.IP} {
		v := view{system: system}.make(t)
		doc, err := RenderPortfolio(v, owner(130))
		require.NoError(t, err)
		said := text(t, doc)
		assert.Empty(t, code.FindString(said))
		assert.Empty(t, placeholder.FindString(said))
		assert.Contains(t, strings.Join(strings.Fields(said), " "), "89 more stand on the sheet Results Portfolio.", "open sites beyond forty")
		assert.LessOrEqual(t, doc.Pages, 8, "a few pages, however many sites")
		for i, page := range boxes(t, doc) {
			page.check(t, i+1, paperFor(system))
		}
	}
}

func TestPortfolioOfNothing(t *testing.T) {
	v := view{plain: true}.make(t)
	empty := report.Portfolio{Portfolio: portfolio.New("CAD")}
	empty.Add(portfolio.Site{ID: "E-1", Zones: 1})
	doc, err := RenderPortfolio(v, empty)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Contains(t, said, "No open site has a change that saves anything net.")
	assert.Contains(t, said, "Sites left out of the yearly cost, since a price or a season is missing: 1.")

	v.Words = nil
	_, err = RenderPortfolio(v, empty)
	assert.ErrorContains(t, err, "portfolio")
}
