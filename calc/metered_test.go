package calc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

func TestMetered(t *testing.T) {
	metered := func(kWh float64, control string) func(*Zone) {
		return func(z *Zone) {
			z.Slab.Stage, z.Sensing.ControlNow, z.Money.EnergyUsedKWh = ExistingHeated, control, units.Some(kWh)
			z.Heat.SpacingM = units.Some(0.2)
		}
	}
	e := engine()
	o := outcome(t, e, metered(1, "manual"))
	require.NotNil(t, o.Metered)
	assert.Equal(t, season.Manual, o.Metered.Strategy)
	for _, y := range o.Costs {
		if y.Strategy == string(season.Manual) && y.Winter == cost.TypicalWinter {
			assert.InEpsilon(t, y.HeatKWh/o.Tariff.Efficiency, o.Metered.CalculatedKWh, 1e-12)
		}
	}
	bought := o.Metered.CalculatedKWh
	for share, warned := range map[float64]int{1: 0, 1.39: 0, 1.41: 1, 0.61: 0, 0.59: 1} {
		o := outcome(t, e, metered(bought*share, "manual"))
		assert.Len(t, found(o.Findings, CodeMeteredApart), warned, "%g of the calculated energy", share)
		assert.InDelta(t, share-1, o.Metered.Difference, 1e-12)
	}
	for control, want := range map[string]season.Strategy{"none": season.AlwaysOn, "timer": season.Manual, "aerial detector": season.Aerial, "in-pavement detector": season.Pavement} {
		assert.Equal(t, want, outcome(t, e, metered(bought, control)).Metered.Strategy, control)
	}
	assert.Nil(t, outcome(t, e, func(z *Zone) { z.Money.EnergyUsedKWh = units.Some(100.0) }).Metered, "a new pour has no meter reading")
}

// TestMeteredWinterOfTheRecord: a winter that the record holds is compared with itself, another one with a typical winter.
func TestMeteredWinterOfTheRecord(t *testing.T) {
	metered := func(winter string) Metered {
		o := inYears(t, 4, func(z *Zone) {
			z.Slab.Stage, z.Sensing.ControlNow, z.Money.EnergyUsedKWh, z.Money.EnergyUsedWinter = ExistingHeated, "manual", units.Some(9000.0), winter
		})
		require.NotNil(t, o.Metered)
		if y, found := o.recorded(season.Manual, winter); found {
			assert.InEpsilon(t, (y.EnergyKWhM2*o.Zone.Extent.AreaM2+edgeKWh(o.Zone, y.EdgeDegreeHours))/o.Tariff.Efficiency, o.Metered.CalculatedKWh, 1e-9)
		}
		return *o.Metered
	}
	typical := metered("1987/88")
	assert.Empty(t, typical.Recorded)
	seen := map[float64]bool{}
	for _, winter := range []string{"2000/01", "winter of 2002", "2004-05", "2006"} {
		m := metered(winter)
		assert.Equal(t, yearIn(winter), m.Recorded)
		seen[m.CalculatedKWh] = true
	}
	assert.Len(t, seen, 4, "each winter has its own heat")
	for text, want := range map[string]string{"last winter": "", "12004": "", "": "", "2013/2014": "2013"} {
		assert.Equal(t, want, yearIn(text), text)
	}
}
