package calc

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// codes returns the codes of a table of sentences with the first cell of each line.
func codes(t *testing.T, name string) map[string]bool {
	t.Helper()
	text, err := os.ReadFile("../templates/en/" + name + ".tsv")
	require.NoError(t, err)
	all := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		code, _, _ := strings.Cut(line, "\t")
		all[code] = true
	}
	return all
}

// TestEveryCodeHasWords: each finding that calc or its rooms can raise is told in a sentence.
func TestEveryCodeHasWords(t *testing.T) {
	sentences, seen := codes(t, "findings"), 0
	set := token.NewFileSet()
	require.NoError(t, filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			spec, isValue := n.(*ast.ValueSpec)
			if !isValue || len(spec.Names) != 1 || len(spec.Values) != 1 || !strings.HasPrefix(spec.Names[0].Name, "Code") {
				return true
			}
			if kind, isSelector := spec.Type.(*ast.SelectorExpr); !isSelector || kind.Sel.Name != "Code" {
				return true
			}
			literal, isLiteral := spec.Values[0].(*ast.BasicLit)
			require.True(t, isLiteral, spec.Names[0].Name)
			code, err := strconv.Unquote(literal.Value)
			require.NoError(t, err)
			assert.True(t, sentences[code], "%s: %q has no words", path, code)
			seen++
			return true
		})
		return nil
	}))
	assert.Greater(t, seen, 40)
}

const micron = 1e-6 // m: a step beyond a limit

// TestRulesAtTheirLimits: each rule speaks at its limit or a step beyond, and not on the other side. Limits: the page on defaults and limits.
func TestRulesAtTheirLimits(t *testing.T) {
	depth := func(outerM float64) func(*Zone, float64) {
		return func(z *Zone, cover float64) { z.Slab.DepthM, z.Heat.Pipe.OuterM = units.Some(cover+outerM/2), outerM }
	}
	spacing := func(outerM float64) func(*Zone, float64) {
		return func(z *Zone, v float64) { z.Heat.SpacingM, z.Heat.Pipe.OuterM = units.Some(v), outerM }
	}
	for _, tt := range []struct {
		name          string
		code          finding.Code
		severity      finding.Severity
		field         finding.Field
		set           func(*Zone, float64)
		speaks, quiet float64
	}{
		{"perimeter of a circle", CodePerimeterShort, finding.Error, "perimeter", func(z *Zone, v float64) { z.Extent.AreaM2, z.Extent.PerimeterM = 100, units.Some(v) }, 35.4 - micron, 35.4},
		{"perimeter of a strip 0.5 m wide", CodePerimeterLong, finding.Warning, "perimeter", func(z *Zone, v float64) { z.Extent.AreaM2, z.Extent.PerimeterM = 20, units.Some(v) }, 81 + micron, 81},
		{"cover of 25 mm over pipe", CodeCoverThin, finding.Error, "depth", depth(0.020), 0.025 - micron, 0.025},
		{"cover of 25 mm over 22.2 mm", CodeCoverThin, finding.Error, "depth", depth(0.0222), 0.025 - micron, 0.025},
		{"cover of 25 mm over 25 mm", CodeCoverThin, finding.Error, "depth", depth(0.025), 0.025 - micron, 0.025},
		{"cover of 38 mm over pipe", CodeCoverLow, finding.Warning, "depth", depth(0.020), 0.038 - micron, 0.038},
		{"cover of 38 mm over 16 mm", CodeCoverLow, finding.Warning, "depth", depth(0.016), 0.038 - micron, 0.038},
		{"thin cover is not called low too", CodeCoverLow, finding.Warning, "depth", depth(0.020), 0.025, 0.025 - micron},
		{"cover of 38 mm over cable", CodeCoverThin, finding.Error, "depth", func(z *Zone, v float64) { z.Heat.Kind = Electric; z.Slab.DepthM = units.Some(v + cableDiameter/2) }, 0.038 - micron, 0.038},
		{"pipe a radius above the underside", CodeOutsideSlab, finding.Error, "depth", func(z *Zone, v float64) { z.Slab.DepthM, z.Slab.ThicknessM = units.Some(v), units.Some(0.15) }, 0.14 + micron, 0.14},
		{"deep pipe", CodeDeep, finding.Warning, "depth", func(z *Zone, v float64) { z.Slab.DepthM, z.Slab.ThicknessM = units.Some(v), units.Some(0.3) }, 0.125 + micron, 0.125},
		{"contraction cut", CodeCutReaches, finding.Warning, "depth", func(z *Zone, v float64) { z.Slab.ThicknessM, z.Slab.DepthM = units.Some(v), units.Some(0.06) }, 0.2, 0.2 - 4*micron},
		{"three diameters of 20 mm", CodeSpacingBelowPipe, finding.Error, "spacing", spacing(0.020), 0.06 - micron, 0.06},
		{"three diameters of 25 mm", CodeSpacingBelowPipe, finding.Error, "spacing", spacing(0.025), 0.075 - micron, 0.075},
		{"pipes 100 mm apart", CodePipesClose, finding.Error, "spacing", spacing(0.020), 0.1 - micron, 0.1},
		{"pipes 100 mm apart in a slab that is there", CodePipesClose, finding.Warning, "spacing", func(z *Zone, v float64) { z.Slab.Stage = ExistingHeated; spacing(0.020)(z, v) }, 0.1 - micron, 0.1},
		{"too close is not called close too", CodePipesClose, finding.Error, "spacing", spacing(0.020), 0.06, 0.06 - micron},
		{"pipe in pavers of 60 mm", CodePipeInUnit, finding.Error, "depth", func(z *Zone, v float64) {
			z.Slab.Surface = Pavers
			z.Slab.SurfaceThicknessM = units.Some(0.06)
			depth(0.020)(z, v)
		}, 0.06 - micron, 0.06},
		{"cable in stone of 40 mm", CodePipeInUnit, finding.Error, "depth", func(z *Zone, v float64) {
			z.Slab.Surface, z.Heat.Kind = Stone, Electric
			z.Slab.SurfaceThicknessM, z.Slab.DepthM = units.Some(0.04), units.Some(v+cableDiameter/2)
		}, 0.04 - micron, 0.04},
		{"pipe in an asphalt course of 60 mm", CodePipeInAsphalt, finding.Warning, "depth", func(z *Zone, v float64) {
			z.Slab.Surface = Asphalt
			z.Slab.SurfaceThicknessM = units.Some(0.06)
			depth(0.020)(z, v)
		}, 0.06 - micron, 0.06},
		{"insulation that looks like I-P", CodeInsulationIP, finding.Warning, "insulation", func(z *Zone, v float64) { z.Slab.InsulationM2KW = units.Some(v) }, math.Nextafter(3.5, 4), 3.5},
		{"uninsulated over air", CodeVentilatedSupport, finding.Warning, "insulation", func(z *Zone, v float64) { z.Slab.Support, z.Slab.InsulationM2KW = OverAir, units.Some(v) }, 0, 0.01},
		{"detector 0.3 m from the edge", CodeEdgeTooNear, finding.Error, "distance_to_edge", func(z *Zone, v float64) { z.Siting.EdgeM = units.Some(v) }, 0.3 - micron, 0.3},
		{"detector 0.6 m from the edge", CodeEdgeNear, finding.Warning, "distance_to_edge", func(z *Zone, v float64) { z.Siting.EdgeM = units.Some(v) }, 0.6 - micron, 0.6},
		{"an edge too near is not called near too", CodeEdgeNear, finding.Warning, "distance_to_edge", func(z *Zone, v float64) { z.Siting.EdgeM = units.Some(v) }, 0.3, 0.3 - micron},
		{"obstacle nearer than high", CodeObstacleNear, finding.Warning, "distance_to_obstacle", func(z *Zone, v float64) {
			z.Siting.ObstacleHeightM, z.Siting.ObstacleM = units.Some(4.0), units.Some(v)
		}, 4 - micron, 4},
		{"elevation 150 m from the station's", CodeElevationDiffers, finding.Warning, "elevation", func(z *Zone, v float64) { z.Place.ElevationM = units.Some(104 + v) }, 150 + micron, 150},
		{"elevation below the station's", CodeElevationDiffers, finding.Warning, "elevation", func(z *Zone, v float64) { z.Place.ElevationM = units.Some(104 - v) }, 150 + micron, 150},
		{"idling set point at the melting one", CodeIdleAboveMelt, finding.Error, "surface_set_point_idling", func(z *Zone, v float64) { z.Sensing.SurfaceIdleC = v }, 3, 3 - micron},
		{"ratio below an emergency entrance's", CodeLevelBelowUse, finding.Warning, "snow_free_ratio", func(z *Zone, v float64) { z.Extent.Use, z.Service.SnowFree = EmergencyEntrance, units.Some(v) }, 1 - micron, 1},
		{"percentile below an emergency entrance's", CodeLevelBelowUse, finding.Warning, "percentile", func(z *Zone, v float64) { z.Extent.Use, z.Service.Percentile = EmergencyEntrance, units.Some(v) }, 99 - micron, 99},
		{"percentile below a helistop's", CodeLevelBelowUse, finding.Warning, "percentile", func(z *Zone, v float64) { z.Extent.Use, z.Service.Percentile = Helistop, units.Some(v) }, 98, 99},
		{"percentile below a stair's", CodeLevelBelowUse, finding.Warning, "percentile", func(z *Zone, v float64) { z.Extent.Use, z.Service.Percentile = Stair, units.Some(v) }, 97, 98},
		{"percentile below a ramp's", CodeLevelBelowUse, finding.Warning, "percentile", func(z *Zone, v float64) { z.Extent.Use, z.Service.Percentile = Ramp, units.Some(v) }, 97, 98},
		{"margin with one typical year", CodeOneTypicalYear, finding.Warning, "station", func(z *Zone, v float64) { z.Service.DesignMargin = v }, 1, 1.05},
	} {
		check := func(v float64) []finding.Finding {
			z := zone()
			tt.set(&z, v)
			return found(engine().Check(site(z)), tt.code)
		}
		if list := check(tt.speaks); assert.Len(t, list, 1, "%s: speaks at %v", tt.name, tt.speaks) {
			assert.Equal(t, tt.severity, list[0].Severity, tt.name)
			assert.Equal(t, tt.field, list[0].Field, tt.name)
			assert.Equal(t, [2]string{"S", "1"}, [2]string{list[0].Site, list[0].Zone}, tt.name)
		}
		assert.Empty(t, check(tt.quiet), "%s: quiet at %v", tt.name, tt.quiet)
	}
}

// TestRulesOfWords: rules about words and blanks, each where it speaks and where it doesn't.
func TestRulesOfWords(t *testing.T) {
	existing := func(z *Zone) {
		z.Slab.Stage, z.Slab.DepthM, z.Slab.ThicknessM, z.Heat.SpacingM = ExistingHeated, units.Some(0.075), units.Some(0.15), units.Some(0.2)
	}
	deep := func(z *Zone) { z.Slab.DepthM, z.Slab.ThicknessM = units.Some(0.13), units.Some(0.3) }
	lockout := func(z *Zone) { z.Sensing.LowestMeltC = units.Some(-15.0) }
	both := func(list ...func(*Zone)) func(*Zone) {
		return func(z *Zone) {
			for _, one := range list {
				one(z)
			}
		}
	}
	for _, tt := range []struct {
		name          string
		code          finding.Code
		severity      finding.Severity
		speaks, quiet func(*Zone)
	}{
		{"walk without width", CodeWalkLength, finding.Warning, func(z *Zone) { z.Extent.Use = Walk }, func(z *Zone) { z.Extent.Use, z.Extent.PerimeterM = Walk, units.Some(60.0) }},
		{"stair without width", CodeWalkLength, finding.Warning, func(z *Zone) { z.Extent.Use = Stair }, func(z *Zone) { z.Extent.Use, z.Extent.WindLengthM = Stair, units.Some(1.5) }},
		{"a drive needs no width", CodeWalkLength, finding.Warning, func(z *Zone) { z.Extent.Use = Walk }, func(z *Zone) { z.Extent.Use = Drive }},
		{"use", CodeUseNotTold, finding.Info, func(z *Zone) { z.Extent.Use = "" }, nil},
		{"drain not told", CodeDrainNotTold, finding.Info, nil, func(z *Zone) { z.Extent.Drain = Yes }},
		{"no drain", CodeDrainNotTold, finding.Info, func(z *Zone) { z.Extent.Drain = No }, func(z *Zone) { z.Extent.Drain = Yes }},
		{"given flux", CodeFluxGiven, finding.Info, func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(300.0) }, nil},
		{"a given flux rests on no percentile of a year", CodeOneTypicalYear, finding.Warning, nil, func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(300.0) }},
		{"several observed years", CodeOneTypicalYear, finding.Warning, nil, func(z *Zone) { z.Place.Station = "Three Winters" }},
		{"a low level of a walk is the owner's", CodeLevelBelowUse, finding.Warning, func(z *Zone) { z.Extent.Use, z.Service.Percentile = Ramp, units.Some(80.0) },
			func(z *Zone) { z.Extent.Use, z.Service.Percentile = Walk, units.Some(80.0) }},
		{"lockout of a critical drive", CodeLockoutCritical, finding.Warning, both(lockout, func(z *Zone) { z.Extent.Critical = units.Some(true) }), lockout},
		{"lockout of a stair", CodeLockoutCritical, finding.Warning, both(lockout, func(z *Zone) { z.Extent.Use = Stair }), func(z *Zone) { z.Extent.Use = Stair }},
		{"deep and idling", CodeDeep, finding.Warning, deep, both(deep, func(z *Zone) { z.Sensing.Idling = units.Some(true) })},
		{"deep and started by hand", CodeDeep, finding.Warning, deep, both(deep, func(z *Zone) { z.Sensing.Start = "manual" })},
		{"asphalt is not cut", CodeCutReaches, finding.Warning, func(z *Zone) { z.Slab.ThicknessM = units.Some(0.3) }, func(z *Zone) { z.Slab.ThicknessM, z.Slab.Surface = units.Some(0.3), Asphalt }},
		{"existing slab, all assumed", CodeSurveyFirst, finding.Warning, func(z *Zone) { z.Slab.Stage = ExistingHeated }, existing},
		{"existing slab, depth assumed", CodeSurveyFirst, finding.Warning, both(existing, func(z *Zone) { z.Slab.DepthM = units.Maybe[float64]{} }), existing},
		{"existing slab, spacing assumed", CodeSurveyFirst, finding.Warning, both(existing, func(z *Zone) { z.Heat.SpacingM = units.Maybe[float64]{} }), nil},
		{"tendons of an existing slab", CodeTendonsUnknown, finding.Info, existing, both(existing, func(z *Zone) { z.Slab.PostTensioned = No })},
		{"tendons of a new pour", CodeTendonsUnknown, finding.Info, existing, nil},
		{"unheated slab has no pipe", CodeCoverThin, finding.Error, func(z *Zone) { z.Slab.DepthM = units.Some(0.02) }, func(z *Zone) { z.Slab.DepthM, z.Slab.Stage = units.Some(0.02), ExistingUnheated }},
		{"unheated slab loses no heat below", CodeVentilatedSupport, finding.Warning, func(z *Zone) { z.Slab.Support, z.Slab.Stage = OverAir, ExistingHeated },
			func(z *Zone) { z.Slab.Support, z.Slab.Stage = OverAir, ExistingUnheated }},
		{"design hour", CodeDesignHourOnly, finding.Warning, func(z *Zone) { z.Place.Station = "One Hour" }, nil},
	} {
		check := func(change func(*Zone)) []finding.Finding {
			z := zone()
			if change != nil {
				change(&z)
			}
			return found(engine().Check(site(z)), tt.code)
		}
		if list := check(tt.speaks); assert.Len(t, list, 1, "%s: speaks", tt.name) {
			assert.Equal(t, tt.severity, list[0].Severity, tt.name)
		}
		assert.Empty(t, check(tt.quiet), "%s: quiet", tt.name)
	}
}

func TestInsulationIsNotJudgedInIP(t *testing.T) {
	thick := func(z *Zone) { z.Slab.InsulationM2KW = units.Some(4.0) }
	assert.Len(t, found(engine().Check(site(zone(thick))), CodeInsulationIP), 1)
	assert.Empty(t, found(engine(func(in *Inputs) { in.Settings.Units = units.IP }).Check(site(zone(thick))), CodeInsulationIP))
}

func TestRulesOfStations(t *testing.T) {
	of := func(change func(*weather.Station), code finding.Code) int {
		e := engine(func(in *Inputs) { change(&in.Climate.Stations[0]) })
		return len(found(e.Check(site(zone())), code))
	}
	synthetic := func(coarse bool) func(*weather.Station) {
		return func(s *weather.Station) { s.Kind, s.CoarseSynthetic = weather.Synthetic, coarse }
	}
	coded := func(s *weather.Station) {
		s.Years = append([]weather.Year(nil), s.Years...)
		s.Years[0].SnowRule = weather.RuleCodes
	}
	assert.Equal(t, 1, of(synthetic(false), CodeSyntheticWinter))
	assert.Equal(t, 0, of(synthetic(false), CodeCoarseWinter))
	assert.Equal(t, 0, of(synthetic(true), CodeSyntheticWinter))
	assert.Equal(t, 1, of(synthetic(true), CodeCoarseWinter))
	assert.Equal(t, 1, of(coded, CodeCoarseSnow))
	assert.Equal(t, 0, of(func(*weather.Station) {}, CodeCoarseSnow))
}

// TestTypedLimitsAreMet: a limit typed in its own unit is met: depths and spacings as the reader makes them of millimetres and inches.
func TestTypedLimitsAreMet(t *testing.T) {
	mm, inch := units.Thickness.In(units.SI), units.Thickness.In(units.IP)
	for _, tt := range []struct {
		outer, depth, spacing float64
		unit                  units.Unit
	}{{16, 33, 48, mm}, {20, 35, 60, mm}, {25, 37.5, 75, mm}, {32, 41, 96, mm}, {22.2, 36.1, 66.6, mm}, {0.875, 1.4218, 2.625, inch}, {0.625, 1.2968, 1.875, inch}} {
		z := zone()
		z.Heat.Pipe.OuterM = tt.unit.ToBase(tt.outer)
		z.Slab.DepthM, z.Heat.SpacingM = units.Some(tt.unit.ToBase(tt.depth)), units.Some(tt.unit.ToBase(tt.spacing))
		list := engine().Check(site(z))
		assert.Empty(t, found(list, CodeSpacingBelowPipe), "%v", tt)
		assert.Empty(t, found(list, CodeCoverThin), "%v", tt)
	}
}

// TestBore: an inside diameter typed as the wall is refused at its cell, and nothing is calculated with it.
func TestBore(t *testing.T) {
	for _, tt := range []struct {
		outerMM, wallMM float64
		refused         bool
	}{{20, 9.9, true}, {20, 1.9, false}, {8, 1.5, false}, {8, 1.6, true}, {36, 3, false}, {37, 3, true}} {
		o := outcome(t, engine(), func(z *Zone) { z.Heat.Pipe = Pipe{OuterM: tt.outerMM / 1000, WallM: tt.wallMM / 1000} })
		list := found(o.Findings, CodeBore)
		assert.Equal(t, tt.refused, len(list) == 1 && list[0].Severity == finding.Error && list[0].Field == "pipe", "%g x %g", tt.outerMM, tt.wallMM)
		assert.Equal(t, tt.refused, o.Slab == nil, "%g x %g", tt.outerMM, tt.wallMM)
	}
}

// TestConductivities: Conductivity is that of the surface's material; under a course of another material the slab is concrete.
func TestConductivities(t *testing.T) {
	told := units.Maybe[float64]{}
	for _, tt := range []struct {
		surface       string
		courseM       float64
		told          units.Maybe[float64]
		course, under float64
	}{
		{Concrete, 0, told, 0, 1.4},
		{Asphalt, 0, told, 0, 1.0},
		{Asphalt, 0.05, told, 1.0, 1.4},
		{Pavers, 0.06, told, 1.2, 1.4},
		{Stone, 0.04, units.Some(2.8), 2.8, 1.4},
		{Concrete, 0, units.Some(1.7), 0, 1.7},
	} {
		o := outcome(t, engine(), func(z *Zone) {
			z.Slab.Surface, z.Slab.ConductivityWMK = tt.surface, tt.told
			if tt.courseM > 0 {
				z.Slab.SurfaceThicknessM = units.Some(tt.courseM)
			}
		})
		require.NotNil(t, o.Slab, "%s: %v", tt.surface, o.Findings)
		if tt.courseM > 0 {
			assert.Equal(t, tt.course, o.Slab.Section.SurfaceWMK, tt.surface)
		}
		assert.Equal(t, tt.under, o.Slab.Section.SlabWMK, tt.surface)
	}
}

// TestCableUnderAsphalt: the limit of what a cable reaches goes by the surface, 45 °C under asphalt and 55 °C else (common practice, as for fluids).
func TestCableUnderAsphalt(t *testing.T) {
	for surface, limit := range map[string]float64{Asphalt: 45, Concrete: 55} {
		o := outcome(t, engine(), func(z *Zone) {
			z.Slab.Surface, z.Heat.Kind, z.Heat.CableWM, z.Heat.InstalledWM2, z.Slab.DepthM = surface, Electric, 50, units.Some(1200.0), units.Some(0.1)
		})
		require.NotNil(t, o.Electric, "%v", o.Findings)
		assert.Equal(t, limit, o.Electric.Input.Path.LimitC, surface)
		assert.Equal(t, o.Electric.CableC > limit, len(found(o.Findings, electric.CodeHotForSurface)) == 1, surface)
		assert.Greater(t, o.Electric.CableC, 45.0, surface)
	}
}
