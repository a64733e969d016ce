package record_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/terminal"
	"thawbook/report/words"
	"thawbook/templates"
)

// waysAt is a record whose site has a base case and a way with a first cost and a rank.
func waysAt(t *testing.T, first cost.Money, rank int, decision string) record.Results {
	t.Helper()
	so := sample.Site(0)
	so.Summary.Decision = decision
	so.Alternatives = []calc.AlternativeOutcome{{Name: "base case", Base: true, Rank: 3 - rank, FirstCost: units.Some(cost.Money(0))}, {Name: "poured anew", Rank: rank, FirstCost: units.Some(first)}}
	got, err := record.Read(bytes.NewReader(write(t, []calc.SiteOutcome{so})))
	require.NoError(t, err)
	return got
}

func TestWaysAndDecisionsThatMove(t *testing.T) {
	before, now := waysAt(t, 1_234_50, 1, "open"), waysAt(t, 2_000_00, 2, "approved")
	c := record.Compare(before, now, [2]string{"a.json", "b.json"})
	assert.Empty(t, c.Changes, "no zone moved")
	var what []string
	for _, w := range c.Ways {
		name := ""
		if w.Alternative != nil {
			name = *w.Alternative
		}
		what = append(what, name+" "+w.What)
	}
	assert.Equal(t, []string{"base case rank", "poured anew first_cost", "poured anew rank", " decision"}, what)

	texts, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, terminal.Changes(&page, texts, c, nil))
	for _, want := range []string{"poured anew", "first cost: 1,234.50 USD → 2,000.00 USD", "rank: 1 → 2", "decision: open → approved"} {
		assert.Contains(t, page.String(), want)
	}
	assert.NotContains(t, page.String(), "No result moved")

	same := record.Compare(before, waysAt(t, 1_234_50, 1, "open"), [2]string{"a.json", "b.json"})
	assert.Empty(t, same.Ways)
	now.Currency = "EUR"
	for _, w := range record.Compare(before, now, [2]string{}).Ways {
		assert.False(t, w.Money(), "amounts of two currencies are not compared")
	}
}
