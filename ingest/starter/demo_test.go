package starter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// The demo must run to its end: whatever is awkward in it is repaired aloud or ends in a warning.
func TestDemoHasNoError(t *testing.T) {
	for _, system := range []units.System{units.SI, units.IP} {
		book := read(t, written(t, system, true))
		assert.Equal(t, system, book.Settings.Units)
		assert.Len(t, book.Sites, 16)
		outcomes, findings := judged(t, book)
		assert.Len(t, outcomes, 20)
		for _, f := range findings {
			assert.NotEqual(t, finding.Error, f.Severity, "%s at %s %s", f.Code, f.At.Sheet, f.At.Ref)
		}
		for name, o := range outcomes {
			assert.Equal(t, calc.StatusOK, o.Status(), name)
			assert.NotNil(t, o.Load, name)
			assert.NotNil(t, o.Slab, name)
			assert.NotNil(t, o.Reset, name)
			assert.NotNil(t, o.Sensing, name)
			assert.NotEmpty(t, o.Seasons, name)
			year, priced := o.ChosenCost(cost.TypicalWinter)
			assert.True(t, priced && year.Total.Known && year.Total.Value > 0, "%v has a price", name)
			assert.True(t, o.Tariff.Example, "%v: a price of the demo is an example", name)
		}
	}
}

// The headings of the demo name their units, so that its results do not depend on the system in which they are shown.
func TestDemoIsTheSameInBothSystems(t *testing.T) {
	si, _ := judged(t, read(t, written(t, units.SI, true)))
	ip, _ := judged(t, read(t, written(t, units.IP, true)))
	for name, o := range si {
		require.Contains(t, ip, name)
		assert.Equal(t, o.Load.DesignWM2, ip[name].Load.DesignWM2, name)
	}
}

// Every awkward cell of the demo is told.
func TestDemoAwkwardCells(t *testing.T) {
	book := read(t, written(t, units.SI, true))
	told := map[finding.Code]finding.Severity{}
	for _, f := range book.Findings {
		told[f.Code] = f.Severity
	}
	for code, severity := range map[finding.Code]finding.Severity{
		"heading-misspelt": finding.Warning, "heading-unknown": finding.Info, "rows-hidden": finding.Info, "row-total": finding.Info,
		"number-read": finding.Info, "number-ambiguous": finding.Info, "percentile-fraction": finding.Info,
	} {
		got, found := told[code]
		assert.True(t, found, code)
		assert.Equal(t, severity, got, code)
	}
}

// Each site tells the story that the first sheet says it tells.
func TestDemoStories(t *testing.T) {
	outcomes, findings := judged(t, read(t, written(t, units.SI, true)))
	zone := func(site, zone string) calc.Outcome { return outcomes[[2]string{site, zone}] }
	total := func(o calc.Outcome) cost.Money {
		year, _ := o.ChosenCost(cost.TypicalWinter)
		return year.Total.Value
	}
	says := func(site string, code finding.Code) bool {
		for _, f := range findings {
			if f.Site == site && f.Code == code {
				return true
			}
		}
		return false
	}
	rejects := func(o calc.Outcome, code string) bool {
		for _, r := range o.Sensing.Rejected {
			if r.Code == code {
				return true
			}
		}
		return false
	}
	assert.Equal(t, zone("EV-02", "1").Load.DesignWM2, zone("EV-03", "1").Load.DesignWM2, "the same walk asks for the same heat")
	assert.Greater(t, total(zone("EV-02", "1")), total(zone("EV-03", "1")), "and costs less where a detector can be cast in")
	assert.True(t, says("EV-04", "tendons-unknown"))
	assert.InDelta(t, 420*0.3048*0.3048, zone("EV-05", "1").Zone.Extent.AreaM2, 1e-9)
	assert.Contains(t, outcomes, [2]string{"EV-05", "2"}, "a hidden row is read")
	assert.True(t, rejects(zone("EV-06", "1"), "detector-under-parked-cars"))
	assert.Greater(t, total(zone("EV-07", "A")), 2*total(zone("EV-07", "B")), "idling decides the budget")
	assert.Equal(t, 420.0, zone("EV-08", "1").Load.DesignWM2)
	assert.True(t, says("EV-09", "elevation-differs"))
	assert.True(t, zone("EV-10", "1").Tariff.DemandKWMonth.Known)
	assert.Equal(t, 212.5, zone("EV-11", "1").Zone.Extent.AreaM2)
	assert.Equal(t, "SEK", zone("EV-11", "1").Tariff.Currency)
	assert.True(t, rejects(zone("EV-12", "1"), "no-housing"))
	assert.True(t, says("EV-13", "coarse-winter"))
	assert.True(t, says("EV-14", "clearing-cheaper"))
	assert.NotContains(t, outcomes, [2]string{"EV-16", "1"}, "a zone for later is not calculated")
}
