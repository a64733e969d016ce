package hourly_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// described is the pavement of the independent figures: 100 mm of concrete, pipe 60 mm deep, R 0.9 below, fluid at most 55 °C through 0.05 m²·K/W,
// the ground's foot at the annual mean of the air.
func described(st weather.Station) season.Input {
	in := comparison()
	in.Column = season.Column{Layers: [3]season.Layer{{}, {}, {ThickM: 0.1, WMK: 1.4}}, DepthM: 0.06, HeatJM3K: 2.1e6, InsulationM2KW: 0.9,
		GroundC: weather.AnnualMeanC(st), FluidResistance: 0.05, FluidLimitC: units.Some(55.0)}
	return in
}

type figure struct{ energy, solid float64 }

var independent = map[string]map[season.Strategy]figure{
	"CAN_QC_Montreal-McTavish.TMYx.epw": {season.Unheated: {0, 2872}, season.AlwaysOn: {412, 17}, season.Manual: {345, 227}, season.Aerial: {409, 87},
		season.AerialSlab: {175, 214}, season.AerialSlabIdling: {345, 90}, season.Pavement: {191, 70}, season.PavementIdling: {352, 17}},
	"USA_VT_Burlington.TMY2.epw": {season.Unheated: {0, 2478}, season.AlwaysOn: {516, 46}, season.Manual: {175, 325}, season.Aerial: {214, 235},
		season.AerialSlab: {115, 296}, season.AerialSlabIdling: {410, 129}, season.Pavement: {129, 91}, season.PavementIdling: {419, 59}},
}

func TestTransientAgainstIndependentFigures(t *testing.T) {
	for file, want := range independent {
		st := seasonStation(t, file)
		results, err := season.Transient(described(st), st)
		require.NoError(t, err)
		for _, r := range results {
			f := want[r.Strategy]
			g := r.Transient.Value
			t.Logf("%-40s energy %6.1f (%3.0f, %+5.1f %%) solid %6.1f h (%4.0f, × %.2f) off %5.0f idle %5.0f melt %5.0f dry %4.0f back %6.1f bare %.2f refreeze %4.1f res %.1e %.1e fl %.0f storms %.0f after %v film %v idleE %.0f",
				r.Strategy, r.EnergyKWhM2, f.energy, 100*(r.EnergyKWhM2/f.energy-1), r.SnowOnSurfaceH.Value, f.solid, r.SnowOnSurfaceH.Value/f.solid,
				r.HoursOff, r.HoursIdling, r.HoursMelting, r.HoursDrying, r.BackKWhM2, r.BareShare.Value, r.RefreezeEvents.Value, g.EnergyResidual, g.MassResidual, g.FluidLimitedH, g.Storms, g.TimerH, g.OffDelayH, r.IdlingKWhM2)
			assert.True(t, g.Closes())
		}
	}
}

func BenchmarkTransient(b *testing.B) {
	t := &testing.T{}
	st := seasonStation(t, "CAN_QC_Montreal-McTavish.TMYx.epw")
	in := described(st)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := season.Transient(in, st); err != nil {
			b.Fatal(err)
		}
	}
}
