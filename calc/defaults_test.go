package calc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// settled returns a zone of the drive with its defaults filled at a station; nil is none.
func settled(st *weather.Station, set Settings, change func(*Zone)) Zone {
	z := zone()
	if change != nil {
		change(&z)
	}
	return NewEngine(Inputs{Settings: set}).settle(z, st)
}

func lineOf(z Zone, f finding.Field) (Default, int) {
	var d Default
	n := 0
	for _, one := range z.Ref.Defaults {
		if one.Field == f {
			d, n = one, n+1
		}
	}
	return d, n
}

// TestDefaults fills a blank and lists it with its reason. Values: the page on defaults and limits.
func TestDefaults(t *testing.T) {
	area := 137.5
	level := func(use string) func(*Zone) { return func(z *Zone) { z.Extent.Use = use } }
	surface := func(s string) func(*Zone) { return func(z *Zone) { z.Slab.Surface = s } }
	stage := func(s string) func(*Zone) { return func(z *Zone) { z.Slab.Stage = s } }
	electric := func(z *Zone) { z.Heat.Kind = Electric }
	for _, tt := range []struct {
		name   string
		change func(*Zone)
		set    Settings
		field  finding.Field
		want   float64
		source string
	}{
		{"perimeter of a square", nil, Settings{}, "perimeter", 4 * math.Sqrt(area), "perimeter-of-square"},
		{"wind length at most 6.1 m", nil, Settings{}, "wind_length", 6.1, "wind-length-shorter-side"},
		{"wind length of a small square", func(z *Zone) { z.Extent.AreaM2 = 16 }, Settings{}, "wind_length", 4, "wind-length-shorter-side"},
		{"wind length of a walk of 1.5 by 20 m", func(z *Zone) { z.Extent.AreaM2, z.Extent.PerimeterM = 30, units.Some(43.0) }, Settings{}, "wind_length", 1.5, "wind-length-shorter-side"},
		{"wind length of a strip is never below 0.5 m", func(z *Zone) { z.Extent.AreaM2, z.Extent.PerimeterM = 30, units.Some(900.0) }, Settings{}, "wind_length", 0.5, "wind-length-shorter-side"},
		{"wind length of a circle's perimeter", func(z *Zone) { z.Extent.AreaM2, z.Extent.PerimeterM = 16, units.Some(14.3) }, Settings{}, "wind_length", 14.3 / 4, "wind-length-shorter-side"},
		{"ratio of a walk", level(Walk), Settings{}, "snow_free_ratio", 0.5, "level-by-use"},
		{"percentile of a walk", level(Walk), Settings{}, "percentile", 95, "level-by-use"},
		{"ratio of a drive", level(Drive), Settings{}, "snow_free_ratio", 0.5, "level-by-use"},
		{"percentile of a drive", level(Drive), Settings{}, "percentile", 90, "level-by-use"},
		{"ratio of parking", level(Parking), Settings{}, "snow_free_ratio", 0, "level-by-use"},
		{"percentile of parking", level(Parking), Settings{}, "percentile", 90, "level-by-use"},
		{"ratio of a plaza", level(Plaza), Settings{}, "snow_free_ratio", 0, "level-by-use"},
		{"percentile of a plaza", level(Plaza), Settings{}, "percentile", 75, "level-by-use"},
		{"ratio of a dock", level(LoadingDock), Settings{}, "snow_free_ratio", 0.5, "level-by-use"},
		{"percentile of a dock", level(LoadingDock), Settings{}, "percentile", 95, "level-by-use"},
		{"ratio of a stair", level(Stair), Settings{}, "snow_free_ratio", 1, "level-by-use"},
		{"percentile of a stair", level(Stair), Settings{}, "percentile", 98, "level-by-use"},
		{"ratio of a ramp", level(Ramp), Settings{}, "snow_free_ratio", 1, "level-by-use"},
		{"percentile of a ramp", level(Ramp), Settings{}, "percentile", 98, "level-by-use"},
		{"percentile of an emergency entrance", level(EmergencyEntrance), Settings{}, "percentile", 99, "level-by-use"},
		{"percentile of a helistop", level(Helistop), Settings{}, "percentile", 99, "level-by-use"},
		{"ratio of no use told", level(""), Settings{}, "snow_free_ratio", 1, "level-last-resort"},
		{"percentile of no use told", level(""), Settings{}, "percentile", 98, "level-last-resort"},
		{"ratio of Settings before the use", level(Walk), Settings{DefaultSnowFree: units.Some(0.8)}, "snow_free_ratio", 0.8, "level-from-settings"},
		{"percentile beside a ratio of Settings", level(Walk), Settings{DefaultSnowFree: units.Some(0.8)}, "percentile", 95, "level-by-use"},
		{"percentile of Settings before the last resort", level(""), Settings{DefaultPercentile: units.Some(90.0)}, "percentile", 90, "level-from-settings"},
		{"slab thickness", nil, Settings{}, "slab_thickness", 0.150, "slab-thickness"},
		{"conductivity of concrete", nil, Settings{}, "conductivity", 1.4, "conductivity-by-surface"},
		{"conductivity of asphalt", surface(Asphalt), Settings{}, "conductivity", 1.0, "conductivity-by-surface"},
		{"conductivity of pavers", surface(Pavers), Settings{}, "conductivity", 1.2, "conductivity-by-surface"},
		{"conductivity of stone", surface(Stone), Settings{}, "conductivity", 2.3, "conductivity-by-surface"},
		{"depth of pipe", nil, Settings{}, "depth", 0.075, "depth-by-heat"},
		{"depth of cable", electric, Settings{}, "depth", 0.050, "depth-by-heat"},
		{"insulation of a new pour", nil, Settings{}, "insulation", 0.9, "insulation-new"},
		{"insulation of an overlay", stage(Overlay), Settings{}, "insulation", 0.9, "insulation-new"},
		{"insulation of an existing slab", stage(ExistingHeated), Settings{}, "insulation", 0, "insulation-existing"},
		{"insulation of an unheated slab", stage(ExistingUnheated), Settings{}, "insulation", 0, "insulation-existing"},
		{"supply limit under concrete", nil, Settings{}, "supply_limit", 55, "supply-limit-by-surface"},
		{"supply limit under asphalt", surface(Asphalt), Settings{}, "supply_limit", 45, "supply-limit-by-surface"},
		{"supply limit under pavers", surface(Pavers), Settings{}, "supply_limit", 55, "supply-limit-by-surface"},
		{"distance to panel", nil, Settings{}, "panel_distance", 15, "panel-assumed"},
		{"elevation of the station", nil, Settings{}, "elevation", 104, "station-elevation"},
	} {
		z := settled(&stations()[0], tt.set, tt.change)
		d, n := lineOf(z, tt.field)
		if assert.Equal(t, 1, n, "%s: stands once in the list", tt.name) {
			assert.InDelta(t, tt.want, d.Number, 1e-9, tt.name)
			assert.Equal(t, tt.source, d.Source, tt.name)
		}
	}
}

func TestDefaultWords(t *testing.T) {
	for _, tt := range []struct {
		name         string
		change       func(*Zone)
		field        finding.Field
		word, source string
	}{
		{"start", nil, "start_wanted", "detector", "start-detector"},
		{"stop", nil, "stop_wanted", "dry", "stop-dry"},
		{"idling", nil, "idling_wanted", "no", "idling-where-critical"},
		{"idling where critical by use", func(z *Zone) { z.Extent.Use = Helistop }, "idling_wanted", "yes", "idling-where-critical"},
		{"idling where critical was told", func(z *Zone) { z.Extent.Critical = units.Some(true) }, "idling_wanted", "yes", "idling-where-critical"},
		{"critical of a drive", nil, "critical", "no", "critical-by-use"},
		{"critical of an emergency entrance", func(z *Zone) { z.Extent.Use = EmergencyEntrance }, "critical", "yes", "critical-by-use"},
		{"critical of a helistop", func(z *Zone) { z.Extent.Use = Helistop }, "critical", "yes", "critical-by-use"},
		{"critical of a stair", func(z *Zone) { z.Extent.Use = Stair }, "critical", "no", "critical-by-use"},
	} {
		d, n := lineOf(settled(nil, Settings{}, tt.change), tt.field)
		assert.Equal(t, 1, n, tt.name)
		assert.Equal(t, tt.word, d.Word, tt.name)
		assert.Equal(t, units.Text, d.Quantity, tt.name)
		assert.Equal(t, tt.source, d.Source, tt.name)
	}
}

func TestGroundTemperature(t *testing.T) {
	constant := func(c float64) *weather.Station {
		y := madeYear("typical", 0, false)
		for i := range y.Hours {
			y.Hours[i].AirC = c
		}
		return &weather.Station{Name: "constant", Years: []weather.Year{y}}
	}
	for _, tt := range []struct {
		name   string
		st     *weather.Station
		want   float64
		source string
	}{
		{"annual mean", constant(6.5), 6.5, "ground-annual-mean"},
		{"never below 1 °C", constant(-3), 1, "ground-annual-mean"},
		{"never above 15 °C", constant(21), 15, "ground-annual-mean"},
		{"no climate", nil, 8, "ground-without-climate"},
		{"one design hour", &stations()[3], 8, "ground-without-climate"},
	} {
		d, _ := lineOf(settled(tt.st, Settings{}, nil), "ground_temperature")
		assert.InDelta(t, tt.want, d.Number, 1e-9, tt.name)
		assert.Equal(t, tt.source, d.Source, tt.name)
	}
}

// TestCourses: pavers and stone come with a course and a bedding, and the pipe lies below the course.
func TestCourses(t *testing.T) {
	for _, s := range []string{Concrete, Asphalt, Pavers, Stone} {
		for _, kind := range []string{Hydronic, Electric} {
			z := settled(nil, Settings{}, func(z *Zone) { z.Slab.Surface, z.Heat.Kind = s, kind })
			course, bedding := z.Slab.SurfaceThicknessM.Value, z.Slab.BeddingThicknessM.Value
			assert.Equal(t, s == Pavers || s == Stone, course > 0, s)
			assert.Equal(t, course > 0, bedding > 0, s)
			if course > 0 {
				assert.Greater(t, z.Slab.DepthM.Value, course, "%s, %s: the pipe or cable lies below the course", s, kind)
			}
		}
	}
}

// TestElectricHasNoSupplyLimit: what only fluid has is not assumed for cable.
func TestElectricHasNoSupplyLimit(t *testing.T) {
	z := settled(nil, Settings{}, func(z *Zone) { z.Heat.Kind = Electric })
	assert.False(t, z.Heat.SupplyLimitC.Known)
}

// TestLeftToDesign: spacing and installed output stay blank, and without a station the elevation too.
func TestLeftToDesign(t *testing.T) {
	z := settled(nil, Settings{}, nil)
	assert.False(t, z.Heat.SpacingM.Known)
	assert.False(t, z.Heat.InstalledWM2.Known)
	assert.False(t, z.Place.ElevationM.Known)
	assert.False(t, z.Sensing.LowestMeltC.Known, "no low-ambient lockout")
}

// tellAll fills everything that settle could.
func tellAll(z *Zone) {
	z.Place.ElevationM = units.Some(77.0)
	z.Extent.PerimeterM, z.Extent.WindLengthM, z.Extent.Critical = units.Some(61.0), units.Some(3.3), units.Some(true)
	z.Service.SnowFree, z.Service.Percentile = units.Some(0.31), units.Some(91.0)
	b := &z.Slab
	b.ThicknessM, b.ConductivityWMK, b.SurfaceThicknessM, b.BeddingThicknessM = units.Some(0.21), units.Some(1.7), units.Some(0.0), units.Some(0.0)
	b.DepthM, b.InsulationM2KW, b.GroundC = units.Some(0.09), units.Some(0.0), units.Some(4.0)
	z.Heat.SupplyLimitC = units.Some(50.0)
	z.Sensing.Start, z.Sensing.Stop, z.Sensing.Idling, z.Sensing.PanelM = "manual", "timer", units.Some(false), units.Some(9.0)
}

// TestGivenValuesAreLeftAlone: a zero that was told is no blank either.
func TestGivenValuesAreLeftAlone(t *testing.T) {
	full := zone()
	tellAll(&full)
	st := stations()[0]
	st.SnowVariation = units.Some(0.3)
	z := settled(&st, Settings{DefaultPercentile: units.Some(75.0), DefaultSnowFree: units.Some(0.0)}, tellAll)
	assert.Empty(t, z.Ref.Defaults)
	assert.Equal(t, full, z)
}

// TestSettleKeepsTheReadersDefaults: those that the reader listed stand first, and the list that came in is not written to.
func TestSettleKeepsTheReadersDefaults(t *testing.T) {
	read := make([]Default, 1, 64)
	read[0] = Default{Field: "wind_factor", Number: 1, Quantity: units.Factor, Source: "wind-as-measured"}
	z := zone()
	z.Ref.Defaults = read
	out := NewEngine(Inputs{}).settle(z, nil)
	require.Greater(t, len(out.Ref.Defaults), 5)
	assert.Equal(t, read[0], out.Ref.Defaults[0])
	assert.Empty(t, read[:2][1].Field, "the reader's list has room behind its end that is not ours")
	again := NewEngine(Inputs{}).settle(out, nil)
	assert.Equal(t, out, again, "settling twice changes nothing")
}

// TestEverySourceHasWords: each default's reason is told in a sentence.
func TestEverySourceHasWords(t *testing.T) {
	sentences := codes(t, "defaults")
	for _, change := range []func(*Zone){nil, func(z *Zone) { z.Extent.Use, z.Slab.Stage = "", ExistingHeated }, func(z *Zone) { z.Slab.Surface = Pavers }} {
		for _, st := range []*weather.Station{nil, &stations()[0]} {
			for _, set := range []Settings{{}, {DefaultPercentile: units.Some(90.0)}} {
				for _, d := range settled(st, set, change).Ref.Defaults {
					assert.True(t, sentences[d.Source], "%s: %q has no words", d.Field, d.Source)
				}
			}
		}
	}
}
