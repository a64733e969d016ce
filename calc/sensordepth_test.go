package calc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

// TestSlabSensorLiesWhereItCanBeBuilt holds that its tip lies 25 mm down in concrete, and never in a paver, a stone or a course that is rolled hot: the
// section, the plan's section and the set points rest on one depth, and its line of the checklist says how. Source: common practice.
func TestSlabSensorLiesWhereItCanBeBuilt(t *testing.T) {
	e := ruled()
	reset := map[string]float64{}
	for _, tt := range []struct {
		name          string
		surface       string
		course, depth units.Maybe[float64]
		wantM         float64
		line, reason  string
	}{
		{"concrete", Concrete, units.Maybe[float64]{}, units.Some(0.075), 0.025, "slab-sensor-midway", "section-sensor"},
		{"pavers of 60 mm by default", Pavers, units.Maybe[float64]{}, units.Maybe[float64]{}, 0.070, "slab-sensor-under-course", "section-sensor-under-course"},
		{"stone of 40 mm by default", Stone, units.Maybe[float64]{}, units.Maybe[float64]{}, 0.050, "slab-sensor-under-course", "section-sensor-under-course"},
		{"thick stone over pipes in the slab", Stone, units.Some(0.080), units.Some(0.100), 0.090, "slab-sensor-under-course", "section-sensor-under-course"},
		{"thin tiles", Stone, units.Some(0.010), units.Some(0.060), 0.025, "slab-sensor-under-course", "section-sensor-under-course"},
		{"asphalt, its courses not told", Asphalt, units.Maybe[float64]{}, units.Some(0.075), 0.075, "slab-sensor-under-asphalt", "section-sensor-under-asphalt"},
		{"asphalt of 40 mm", Asphalt, units.Some(0.040), units.Some(0.075), 0.050, "slab-sensor-under-asphalt", "section-sensor-under-asphalt"},
		{"pipes in the asphalt", Asphalt, units.Some(0.090), units.Some(0.060), 0.060, "slab-sensor-under-asphalt", "section-sensor-under-asphalt"},
	} {
		o := outcome(t, e, func(z *Zone) {
			z.Slab.Surface, z.Slab.SurfaceThicknessM, z.Slab.DepthM, z.Slab.ConductivityWMK = tt.surface, tt.course, tt.depth, units.Maybe[float64]{}
		})
		require.NotNil(t, o.Slab, tt.name)
		assert.InDelta(t, tt.wantM, o.Slab.Section.SensorDepthM, 1e-12, tt.name)
		assert.InDelta(t, tt.wantM, o.Sensing.Section.SensorM, 1e-12, tt.name)
		if course := o.Slab.Section.SurfaceM; tt.surface != Concrete && o.Slab.Section.DepthM > course {
			assert.Greater(t, o.Slab.Section.SensorDepthM, course, "%s: below the course", tt.name)
		}
		assert.Contains(t, o.Sensing.Checklist, tt.line, tt.name)
		for _, other := range []string{"slab-sensor-midway", "slab-sensor-under-course", "slab-sensor-under-asphalt"} {
			if other != tt.line {
				assert.NotContains(t, o.Sensing.Checklist, other, tt.name)
			}
		}
		said := map[string]bool{}
		for _, r := range o.Sensing.Section.Reasons {
			said[r.Code] = true
		}
		assert.True(t, said[tt.reason], tt.name)
		require.NotNil(t, o.Reset, tt.name)
		reset[tt.name] = o.Reset.At(-20, true)
	}
	assert.Greater(t, reset["asphalt, its courses not told"], reset["asphalt of 40 mm"]+1, "the deeper the sensor, the warmer it must be")
}
