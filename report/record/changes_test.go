package record_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// comparedRun writes a record of some sites and reads it back, with what moved since the run before.
func comparedRun(t *testing.T, before *record.Results, currency string, unreached map[string]bool, sites ...calc.SiteOutcome) (record.Results, []report.Change) {
	t.Helper()
	var out bytes.Buffer
	texts, err := words.Load(templates.FS(), "en", show.Style{Currency: currency})
	require.NoError(t, err)
	w := record.New(&out, record.Head{Currency: currency, Words: texts, Before: before})
	for _, s := range sites {
		w.Site(s, "")
	}
	moved := w.Changes(unreached)
	require.NoError(t, w.Close(record.Tail{}))
	got, err := record.Read(&out)
	require.NoError(t, err)
	return got, moved
}

func what(list []report.Change) (out []string) {
	for _, c := range list {
		out = append(out, c.Site+"/"+c.Zone+" "+c.Key)
	}
	return out
}

func TestNothingMovesByBeingWrittenDown(t *testing.T) {
	before, moved := comparedRun(t, nil, "USD", nil, sample.Sites(12)...)
	assert.Empty(t, moved, "without a run before")
	_, moved = comparedRun(t, &before, "USD", nil, sample.Sites(12)...)
	assert.Empty(t, what(moved))
}

func TestWhatMovedIsTold(t *testing.T) {
	before, _ := comparedRun(t, nil, "USD", nil, sample.Site(0), sample.Site(1))
	now := sample.Site(0)
	now.Outcomes[0].Load.DesignWM2 *= 1.1
	now.Outcomes[0].Piping.Head.TotalPa += 5000
	now.Outcomes[0].Design.TotalW = units.Maybe[float64]{}
	now.Outcomes[0].Load.DesignWM2 += 1e-9 // far below what is told
	got, moved := comparedRun(t, &before, "USD", nil, now, sample.Site(2))
	assert.Equal(t, []string{"S000/1 load.design_flux_w_m2", "S000/1 load.total_w", "S000/1 piping.head_kpa", "S002/1 status", "S002/2 status", "S001/1 status", "S001/2 status"}, what(moved))

	flux, total, head, new, gone := moved[0], moved[1], moved[2], moved[3], moved[5]
	assert.InEpsilon(t, 1.1, flux.Now.Value/flux.Before.Value, 1e-6)
	assert.Equal(t, units.Flux, flux.Quantity)
	assert.False(t, total.Now.Known)
	assert.True(t, total.Before.Known)
	assert.InDelta(t, 5000, head.Now.Value-head.Before.Value, 1, "in pascal, the base unit")
	assert.Equal(t, []string{"", "ok"}, []string{new.BeforeText, new.NowText})
	assert.Equal(t, []string{"ok", ""}, []string{gone.BeforeText, gone.NowText})
	assert.True(t, flux.SameRevision(), "it bears B still")
	assert.False(t, new.SameRevision())

	require.Len(t, got.Changes, len(moved))
	assert.Equal(t, "piping.head_kpa", got.Changes[2].What)
	assert.InDelta(t, 5, got.Changes[2].Now.Number.Value-got.Changes[2].Before.Number.Value, 0.001, "in the record's own unit")
}

func TestSitesThatWereNotReachedDidNotMove(t *testing.T) {
	before, _ := comparedRun(t, nil, "USD", nil, sample.Site(0), sample.Site(1))
	_, moved := comparedRun(t, &before, "USD", map[string]bool{"S001": true}, sample.Site(0))
	assert.Empty(t, what(moved))
}

func TestAmountsOfTwoCurrenciesAreNotCompared(t *testing.T) {
	before, _ := comparedRun(t, nil, "USD", nil, sample.Site(0))
	now := sample.Site(0)
	for i := range now.Outcomes[0].Costs {
		now.Outcomes[0].Costs[i].Total.Value *= 2
	}
	_, moved := comparedRun(t, &before, "CAD", nil, now)
	assert.Empty(t, what(moved))
	_, moved = comparedRun(t, &before, "USD", nil, now)
	assert.Equal(t, []string{"S000/1 cost.total"}, what(moved))
	assert.True(t, moved[0].Money)
}
