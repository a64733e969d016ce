package setpoint_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/air"
	"thawbook/calc/setpoint"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
)

// TestRatioOfSections: with R_core from conduction in two dimensions the reset ratio of usual sections lies between 0.19 and 0.34, to the surface
// midway (engineering method, section 3), under a film of 16.5 W/m²·K, that of the one-dimensional limit 0.295.
func TestRatioOfSections(t *testing.T) {
	const film = 16.5
	in := drive()
	in.WindMS = windOf(t, in, film)
	least, most := 1.0, 0.0
	for _, wmk := range []float64{1.4, 1.73} {
		for _, pipe := range []struct{ outer, spacing, depth float64 }{
			{0.020, 0.150, 0.050}, {0.020, 0.150, 0.075}, {0.020, 0.150, 0.100}, {0.020, 0.225, 0.060}, {0.020, 0.225, 0.075}, {0.020, 0.225, 0.100},
			{0.025, 0.300, 0.075}, {0.025, 0.300, 0.100}, {0.016, 0.200, 0.060}, {0.006, 0.075, 0.050}, {0.006, 0.100, 0.050},
		} {
			for _, insulation := range []float64{0, 0.9} {
				s := slab.Section{SlabM: 0.150, SlabWMK: wmk, DepthM: pipe.depth, SpacingM: pipe.spacing, OuterM: pipe.outer, InsulationM2KW: insulation, GroundC: 8, SensorDepthM: 0.025}
				u, err := slab.Unitary(s.Geometry())
				require.NoError(t, err)
				out, err := u.At(s, 400)
				require.NoError(t, err)
				in.CoreResistance = out.CoreResistance
				r := curve(t, in).Ratio
				least, most = min(least, r), max(most, r)
				t.Logf("D %g s %g z %g k %g R %g: R_core %.4f, r %.3f", pipe.outer, pipe.spacing, pipe.depth, wmk, insulation, out.CoreResistance, r)
			}
		}
	}
	t.Logf("r from %.3f to %.3f", least, most)
	assert.GreaterOrEqual(t, least, 0.19-0.005)
	assert.LessOrEqual(t, most, 0.34+0.005)
}

// windOf returns the wind under which the dry loss grows by a film per kelvin outdoors, on average from −30 to 0 °C.
func windOf(t *testing.T, in setpoint.Input, film float64) float64 {
	t.Helper()
	loss := func(wind, outdoorC float64) float64 {
		return surface.DryLoss(in.MeltC, surface.Conditions{AirC: outdoorC, WindMS: wind, PressurePa: air.StandardPressure(in.ElevationM), LengthM: in.LengthM, MeanRadiantC: outdoorC})
	}
	low, high := 0.5, 15.0
	for range 60 {
		if mid := (low + high) / 2; (loss(mid, -30)-loss(mid, 0))/30 < film {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
