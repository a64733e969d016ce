package sensing_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/sensing"
)

// first returns the first detector in the pavement.
func first(t *testing.T, zone string) sensing.Mark {
	t.Helper()
	marks := marksOf(placed(t, zone), sensing.PavementDetector)
	require.NotEmpty(t, marks, zone)
	return marks[0]
}

func TestPlaceOfADetector(t *testing.T) {
	for _, tt := range []struct {
		name, zone        string
		fromLow, fromSide float64
		reasons           []string
		source            string
	}{
		{"a walk whose exposure was told", "stage=new pour; use=walk; sun=last; sides=12x10", 1, 7.5, []string{"plan-low-end", "plan-last-to-dry", "plan-inside-edge"}, "what was told is no guess"},
		{"a walk on a slope", "stage=new pour; use=walk; sides=12x10", 1, 7.5, []string{"plan-low-end", "plan-sun-not-told", "plan-inside-edge"},
			"practice: near the low end, 0.6 to 1 m inside the edge, on the side that dries last"},
		{"a level plaza", "stage=new pour; use=plaza; slope=flat; sides=12x10", 6, 7.5, []string{"plan-sun-not-told", "plan-inside-edge"}, "without a low end, midway"},
		{"a narrow walk", "stage=new pour; use=walk; sides=30x1.5", 1, 0.75, []string{"plan-low-end", "plan-sun-not-told", "plan-inside-edge"}, "no room for 1 m on both sides: the middle"},
		{"a stair", "stage=new pour; use=stair; sides=6x3", 1, 2, []string{"plan-low-end", "plan-on-landing", "plan-sun-not-told", "plan-inside-edge"}, "practice: in the landing; 0.75 × 3 m is held 1 m inside"},
		{"a drive of two lanes", "stage=new pour; use=drive; sides=30x7", 1, 5.25, []string{"plan-low-end", "plan-sun-not-told", "plan-between-wheels", "plan-inside-edge"},
			"practice: off the wheel tracks; the middle of the second lane by hand"},
		{"a drive of one lane", "stage=new pour; use=drive; sides=30x3.5", 1, 1.75, []string{"plan-low-end", "plan-sun-not-told", "plan-between-wheels", "plan-inside-edge"}, "the middle of the lane"},
		{"a car park", "stage=new pour; use=parking; sides=40x20", 1, 19, []string{"plan-low-end", "plan-sun-not-told", "plan-beside-stalls", "plan-inside-edge"}, "practice: not where cars park"},
		{"a walk that cars park on", "stage=new pour; use=walk; traffic=parked; sides=20x8", 1, 7, []string{"plan-low-end", "plan-sun-not-told", "plan-beside-stalls", "plan-inside-edge"}, "practice: not where cars park"},
		{"much shade", "stage=new pour; use=plaza; sides=12x10; shaded=0.3; sun=last", 1, 8.5, []string{"plan-low-end", "plan-in-shade", "plan-inside-edge"}, "the middle of the shaded strip, by hand 10 − 0.3 × 10 / 2"},
		{"cast in", "stage=existing heated; housing=yes; sides=12x10", 1, 7.5, []string{"plan-as-cast-in"}, "where it lies is measured"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			m := first(t, tt.zone)
			assert.InDelta(t, tt.fromLow, m.FromLowM, 1e-9, tt.source)
			assert.InDelta(t, tt.fromSide, m.FromSideM, 1e-9, tt.source)
			assert.Equal(t, tt.reasons, codesOf(m.Reasons), tt.source)
			assert.Equal(t, 1, m.Number)
		})
	}
}

// TestToldDistanceToTheEdge holds that a distance that was told is kept where it is enough, and never undercut.
func TestToldDistanceToTheEdge(t *testing.T) {
	for told, want := range map[float64]float64{0.4: 0.6, 0.6: 0.6, 0.8: 0.8, 2: 2} {
		in := zoneOf(t, "stage=new pour; sides=12x10")
		in.Pavement.EdgeM.Value, in.Pavement.EdgeM.Known = told, true
		c := sensing.Choose(table(t, "sensing"), in)
		assert.InDelta(t, want, marksOf(c, sensing.PavementDetector)[0].EdgeM, 1e-9, "told %g", told)
	}
}

func TestAddedDetectors(t *testing.T) {
	c := placed(t, "stage=new pour; use=plaza; sides=30x20; shaded=0.5; sun=mixed; wind-blown=yes; critical=yes; mast=no")
	marks := marksOf(c, sensing.PavementDetector)
	require.Len(t, marks, 4)
	assert.Equal(t, []string{"plan-sunned-part"}, codesOf(marks[1].Reasons))
	assert.InDelta(t, 5, marks[1].FromSideM, 1e-9, "the middle of the sunned half, by hand")
	assert.Equal(t, []string{"plan-snow-comes-in"}, codesOf(marks[2].Reasons))
	assert.InDelta(t, 29, marks[2].FromLowM, 1e-9, "1 m inside the high end")
	assert.Equal(t, []string{"plan-other-side"}, codesOf(marks[3].Reasons))
	assert.InDelta(t, 5, marks[3].FromSideM, 1e-9, "a quarter of the width, by hand")
	assert.InDelta(t, 10+math.Hypot(0, marks[0].FromSideM-5), marks[1].RunM, 1e-9, "the told run and the way from the first")
}

func TestPartsOfALargeArea(t *testing.T) {
	marks := marksOf(placed(t, "stage=new pour; use=walk; sides=60x60"), sensing.PavementDetector)
	require.Len(t, marks, 4, "3,600 m² in four parts of 900")
	for i, want := range [][2]float64{{31, 22.5}, {31, 52.5}, {1, 22.5}, {1, 52.5}} {
		assert.InDelta(t, want[0], marks[i].FromLowM, 1e-9, "%d: 1 m inside the low end of its part", i)
		assert.InDelta(t, want[1], marks[i].FromSideM, 1e-9, "%d", i)
		assert.Contains(t, codesOf(marks[i].Reasons), "plan-own-part")
	}
}

func TestPlaceOfASlabSensor(t *testing.T) {
	c := placed(t, "stage=new pour; critical=yes; use=emergency entrance; sides=12x10")
	sensors := marksOf(c, sensing.SlabSensor)
	require.Len(t, sensors, 2)
	detector := marksOf(c, sensing.PavementDetector)[0]
	assert.InDelta(t, 0.5, sensors[0].FromLowM-detector.FromLowM, 1e-9, "practice: 0.3 to 0.5 m from the detector, uphill of it")
	assert.InDelta(t, 0.5, sensors[0].FromSideM-sensors[1].FromSideM, 1e-9, "the spare beside it")
	assert.Equal(t, []string{"plan-sensor-midway", "plan-sensor-apart"}, codesOf(sensors[0].Reasons))
	assert.Equal(t, []string{"plan-sensor-spare"}, codesOf(sensors[1].Reasons))
	alone := marksOf(placed(t, "stage=new pour; start wanted=manual; sides=12x10"), sensing.SlabSensor)
	require.Len(t, alone, 1)
	assert.InDelta(t, 6, alone[0].FromLowM, 1e-9, "without a detector in the middle")
	there := marksOf(placed(t, "stage=existing heated; housing=no; slab sensor=yes; mast=yes"), sensing.SlabSensor)
	require.Len(t, there, 1)
	assert.True(t, there[0].There)
	assert.Equal(t, []string{"plan-sensor-as-found"}, codesOf(there[0].Reasons))
	short := marksOf(placed(t, "stage=new pour; sides=0.8x0.7"), sensing.SlabSensor)
	require.Len(t, short, 1)
	assert.GreaterOrEqual(t, short[0].EdgeM, 0.0, "inside, however small the zone")
}

func TestPlaceOfAnAerialDetector(t *testing.T) {
	for _, tt := range []struct{ zone, mount, code string }{
		{"stage=existing heated; housing=no; slab sensor=no; mast=yes; use=walk", sensing.OnMast, "plan-on-mast"},
		{"stage=new pour; critical=yes; use=helistop", sensing.OnRoofEdge, "plan-on-roof-edge"},
		{"stage=new pour; critical=yes; use=ramp; support=over heated space", sensing.OnRoofEdge, "plan-on-roof-edge"},
	} {
		c := placed(t, tt.zone)
		marks := marksOf(c, sensing.AerialDetector)
		require.Len(t, marks, 1, tt.zone)
		assert.Equal(t, tt.mount, c.Section.Mount)
		assert.Equal(t, []string{tt.code}, codesOf(marks[0].Reasons))
		assert.InDelta(t, -2, marks[0].EdgeM, 1e-9, "beside the area")
		assert.InDelta(t, 3, marks[0].HeightM, 1e-9, "practice: 2.5 to 4 m")
	}
}

// TestPlansHold holds over rectangles and places of every kind: detectors and sensors lie inside the heated edge as far as there is room, aerial
// ones outside, no two devices at one place, and leads are never shorter than the told run.
func TestPlansHold(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 3))
	pick := func(words ...string) string { return words[random.IntN(len(words))] }
	for range 500 {
		width := 0.7 + 60*random.Float64()*random.Float64()
		length := width * (1 + 20*random.Float64()*random.Float64())
		zone := fmt.Sprintf("sides=%fx%f; shaded=%.3f; stage=%s; use=%s; slope=%s; sun=%s; wind-blown=%s; critical=%s; mast=%s; traffic=%s; housing=%s; slab sensor=%s", length, width, random.Float64(),
			pick("new pour", "overlay", "existing heated"), pick("walk", "drive", "parking", "stair", "helistop"), pick("flat", "slope", "steep"), pick("first", "last", "mixed", "unknown"),
			pick("yes", "no"), pick("yes", "no"), pick("yes", "no"), pick("none", "wheel", "parked"), pick("yes", "no"), pick("yes", "no"))
		c := placed(t, zone)
		if len(c.Kit) == 0 {
			assert.Empty(t, c.Numbers)
			continue
		}
		at := map[[2]float64]bool{}
		for i, m := range c.Plan.Marks {
			require.False(t, math.IsNaN(m.Along) || math.IsNaN(m.Across), zone)
			place := [2]float64{m.Along, m.Across}
			if width > 3 {
				assert.False(t, at[place], "%s: two devices at one place", zone)
			}
			at[place] = true
			assert.Equal(t, i+1, m.Number)
			assert.GreaterOrEqual(t, m.RunM, 10.0, zone)
			switch m.Device {
			case sensing.PavementDetector:
				assert.GreaterOrEqual(t, m.EdgeM, min(0.6, c.Plan.WidthM/2)-1e-9, zone)
			case sensing.SlabSensor:
				assert.GreaterOrEqual(t, m.EdgeM, -1e-9, zone)
			case sensing.AerialDetector:
				assert.Negative(t, m.EdgeM, zone)
			}
		}
		for _, n := range c.Numbers {
			assert.Len(t, marksOf(c, n.Device), n.Placed, "%s: every %s has its mark", zone, n.Device)
		}
	}
}

func TestSection(t *testing.T) {
	for _, tt := range []struct {
		zone, attitude, base string
		sensor, gravel       float64
		conduit              bool
		reasons              []string
	}{
		{"stage=new pour", sensing.OnSlope, sensing.OnGravel, 0.025, 0.15, true, []string{"section-flush-on-slope", "section-on-gravel", "section-sensor"}},
		{"stage=new pour; slope=flat", sensing.Level, sensing.OnGravel, 0.025, 0.15, true, []string{"section-flush-level", "section-on-gravel", "section-sensor"}},
		{"stage=new pour; support=over open air", sensing.OnSlope, sensing.Through, 0.025, 0, true, []string{"section-flush-on-slope", "section-drain-through", "section-sensor"}},
		{"stage=overlay; membrane=yes", sensing.OnSlope, sensing.AboveMembrane, 0.025, 0, true, []string{"section-flush-on-slope", "section-drain-above-membrane", "section-sensor"}},
		{"stage=new pour; surface=pavers", sensing.OnSlope, sensing.OnGravel, 0.025, 0.15, true, []string{"section-flush-on-slope", "section-on-gravel", "section-sensor-under-course"}},
		{"stage=new pour; surface=stone", sensing.OnSlope, sensing.OnGravel, 0.025, 0.15, true, []string{"section-flush-on-slope", "section-on-gravel", "section-sensor-under-course"}},
		{"stage=new pour; use=stair", sensing.OnSlope, sensing.OnGravel, 0.025, 0.15, true, []string{"section-flush-on-slope", "section-on-gravel", "section-sensor-in-tread"}},
		{"stage=overlay; surface=asphalt", sensing.OnSlope, sensing.OnGravel, 0.025, 0, true, []string{"section-flush-on-slope", "section-drain-overlay", "section-sensor-under-asphalt"}},
		{"stage=existing heated; housing=yes; slab sensor=yes", sensing.OnSlope, sensing.AsFound, 0.025, 0, false, []string{"section-flush-on-slope", "section-drain-as-found", "section-sensor-as-found"}},
		{"stage=existing heated; housing=no; slab sensor=no; mast=yes", "", "", 0, 0, false, []string{"section-mount"}},
	} {
		x := placed(t, tt.zone).Section
		require.NotNil(t, x, tt.zone)
		assert.Equal(t, tt.attitude, x.Attitude, tt.zone)
		assert.Equal(t, tt.base, x.Base, tt.zone)
		assert.InDelta(t, tt.sensor, x.SensorM, 1e-12, "%s: practice, 25 mm (1 in)", tt.zone)
		assert.InDelta(t, tt.gravel, x.GravelM, 1e-12, "%s: practice, 150 to 300 mm", tt.zone)
		assert.Equal(t, tt.conduit, x.InConduit, tt.zone)
		assert.Equal(t, tt.reasons, codesOf(x.Reasons), tt.zone)
	}
	assert.Nil(t, placed(t, "stage=existing heated; housing=no; slab sensor=no; mast=no").Section, "nothing to draw")
}

// TestEveryCodeOfPlacesIsReached holds that no code is dead: each is said in a situation or with one of its facts changed.
func TestEveryCodeOfPlacesIsReached(t *testing.T) {
	rules := table(t, "sensing")
	reached := map[string]bool{}
	note := func(list []sensing.Reason) {
		for _, r := range list {
			reached[r.Code] = true
		}
	}
	varied(t, func(_ situation, _, _ string, in sensing.Input) {
		c := sensing.Choose(rules, in)
		note(c.Reasons)
		for _, n := range c.Numbers {
			note(n.Reasons)
		}
		if c.Plan != nil {
			for _, m := range c.Plan.Marks {
				note(m.Reasons)
			}
		}
		if c.Section != nil {
			note(c.Section.Reasons)
		}
		if x := c.Selection; x != nil {
			note(x.Missing)
			note(x.Verify)
			note([]sensing.Reason{x.Order})
			for _, u := range x.Unfit {
				note([]sensing.Reason{u.Why})
			}
		}
	})
	for _, code := range sensing.Codes() {
		assert.True(t, reached[code] || codesOfParts[code], "%s is never said", code)
	}
	for code := range reached {
		known := map[string]bool{}
		for _, c := range sensing.Codes() {
			known[c] = true
		}
		for _, name := range []string{"sensing", "numbers"} {
			for _, r := range table(t, name).Rows {
				known[r.Effects["code"]] = true
			}
		}
		assert.True(t, known[code], "%s is said, and stands in no list of texts", code)
	}
}
