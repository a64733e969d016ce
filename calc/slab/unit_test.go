package slab

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// piped is 20 mm plastic pipe at 225 mm, 75 mm deep in 150 mm of concrete on insulated ground: the defaults.
func piped() Section {
	return Section{SlabM: 0.150, SlabWMK: 1.4, DepthM: 0.075, SpacingM: 0.225, OuterM: 0.020, WallM: 0.002, WallWMK: 0.38, InsulationM2KW: 0.9,
		GroundC: 8, OutdoorC: -10, SensorDepthM: 0.025, SlabHeatCapacityJM3: 2.1e6}
}

// sweep calls f with sections from all over the ranges of the workbook: hydronic 100 to 400 mm, cables from 25 mm, every support.
func sweep(f func(Section)) {
	paved := func(s Section, course, bedding float64) Section {
		s.SurfaceM, s.SurfaceWMK, s.BeddingM, s.BeddingWMK = course, 1.2, bedding, 0.7
		return s
	}
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		for _, wmk := range []float64{0.3, 1.4, 4} {
			for _, r := range []float64{0, 0.02, 0.9, 5} {
				for _, p := range []struct{ outer, spacing, depth, slab float64 }{
					{0.012, 0.100, 0.031, 0.075}, {0.020, 0.225, 0.075, 0.150}, {0.032, 0.400, 0.584, 0.600}, {0.032, 0.100, 0.041, 0.075}, {0.012, 0.400, 0.200, 0.600},
					{0.006, 0.025, 0.041, 0.150}, {0.006, 0.400, 0.050, 0.150}, {0.020, 0.150, 0.065, 0.075},
				} {
					s := piped()
					s.Support, s.SlabWMK, s.InsulationM2KW, s.OuterM, s.SpacingM, s.DepthM, s.SlabM = support, wmk, r, p.outer, p.spacing, p.depth, p.slab
					if p.outer < 0.010 {
						s.WallM = 0
					}
					f(s)
					f(paved(s, 0.060, 0.030))
				}
			}
		}
	}
}

// TestLaws: over the ranges every number is one, the balance closes to 0.1 % (it does to 1e-9), and temperatures lie in order.
func TestLaws(t *testing.T) {
	count, worst := 0, 0.0
	sweep(func(s Section) {
		u, err := Unitary(s.Geometry())
		require.NoError(t, err)
		count, worst = count+1, max(worst, math.Abs(u.Closure))
		for _, p := range []Place{u.Least, u.Greatest, u.Sensor} {
			if !(p.Pipe > 0 && p.Below > 0 && p.Pipe+p.Below < 1) {
				t.Fatalf("%+v: %+v", s, u)
			}
		}
		if !(u.UpWM2K > 0 && u.DownWM2K > 0 && u.ThroughWM2K > 0 && u.Greatest.Pipe >= u.Least.Pipe) {
			t.Fatalf("%+v: %+v", s, u)
		}
		last := math.Inf(-1)
		for _, up := range []float64{0, 1, 50, 100, 300, 1300, 3000} {
			out, err := u.At(s, up)
			require.NoError(t, err)
			for _, step := range out.Steps() {
				if math.IsNaN(step.Value) || math.IsInf(step.Value, 0) {
					t.Fatalf("%+v at %g: %s = %g", s, up, step.Symbol, step.Value)
				}
			}
			if up >= 100 && out.CoreResistance <= 0 {
				t.Errorf("%+v at %g: R_core %g, back %g", s, up, out.CoreResistance, out.BackWM2)
			}
			if !(out.PipeSurfaceC.Value > last && out.CoverResistance > 0 && out.PipeResistance > out.CoverResistance && out.BelowResistance > 0) {
				t.Fatalf("%+v at %g: %+v", s, up, out)
			}
			if up >= 300 && !(out.SurfaceMinC.Value < surface.Film() && surface.Film() < out.SurfaceMaxC.Value && out.SensorC.Value > out.SurfaceMinC.Value && out.PipeSurfaceC.Value > out.SurfaceMaxC.Value) {
				t.Fatalf("%+v at %g: %+v", s, up, out)
			}
			if s.WallM > 0 && up >= 300 && out.MeanFluidC.Value <= out.PipeSurfaceC.Value {
				t.Fatalf("%+v at %g: %+v", s, up, out)
			}
			last = out.PipeSurfaceC.Value
		}
	})
	t.Logf("%d geometries, worst closure %.1e", count, worst)
	assert.Less(t, worst, 1e-7)
}

// TestTrends: wider spacing, deeper pipe and poorer concrete ask for a warmer pipe; more insulation saves back loss; depth evens the surface.
func TestTrends(t *testing.T) {
	for _, tt := range []struct {
		name   string
		values []float64
		set    func(*Section, float64)
		read   func(Solution) float64
		rises  bool
	}{
		{"pipe by spacing", []float64{0.100, 0.125, 0.150, 0.200, 0.225, 0.300, 0.400}, func(s *Section, v float64) { s.SpacingM = v }, func(o Solution) float64 { return o.MeanFluidC.Value }, true},
		{"strip by spacing", []float64{0.100, 0.125, 0.150, 0.200, 0.225, 0.300, 0.400}, func(s *Section, v float64) { s.SpacingM = v }, func(o Solution) float64 { return o.SurfaceMinC.Value }, false},
		{"pipe by depth", []float64{0.036, 0.040, 0.050, 0.075, 0.100, 0.130}, func(s *Section, v float64) { s.DepthM = v }, func(o Solution) float64 { return o.PipeSurfaceC.Value }, true},
		{"strip by depth", []float64{0.036, 0.040, 0.050, 0.075, 0.100, 0.130}, func(s *Section, v float64) { s.DepthM = v }, func(o Solution) float64 { return o.SurfaceMinC.Value }, true},
		{"pipe by conductivity", []float64{0.3, 0.7, 1, 1.4, 2.3, 4}, func(s *Section, v float64) { s.SlabWMK = v }, func(o Solution) float64 { return o.PipeSurfaceC.Value }, false},
		{"core by conductivity", []float64{0.3, 0.7, 1, 1.4, 2.3, 4}, func(s *Section, v float64) { s.SlabWMK = v }, func(o Solution) float64 { return o.CoreResistance }, false},
		{"back by insulation", []float64{0, 1e-9, 0.01, 0.1, 0.9, 2, 5}, func(s *Section, v float64) { s.InsulationM2KW = v }, func(o Solution) float64 { return o.BackWM2 }, false},
		{"pipe by diameter", []float64{0.012, 0.016, 0.020, 0.025, 0.032}, func(s *Section, v float64) { s.OuterM = v }, func(o Solution) float64 { return o.PipeSurfaceC.Value }, false},
		{"back by ground", []float64{-10, 0, 10, 25}, func(s *Section, v float64) { s.GroundC = v }, func(o Solution) float64 { return o.BackWM2 }, false},
		{"even by spacing", []float64{0.100, 0.150, 0.200, 0.300, 0.400}, func(s *Section, v float64) { s.SpacingM = v }, func(o Solution) float64 { return o.EvenWM2.Value }, true},
	} {
		for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
			if tt.name == "back by ground" && support != OnGround {
				continue
			}
			last := math.NaN()
			for _, v := range tt.values {
				s := piped()
				s.Support = support
				tt.set(&s, v)
				now := tt.read(answer(t, s, 400))
				if tt.rises && now < last || !tt.rises && now > last {
					t.Errorf("%s on support %d at %g: %g after %g", tt.name, support, v, now, last)
				}
				last = now
			}
		}
	}
}

// TestScaling: one unit solution serves every load and temperature: what it answers equals what its own resistances and temperatures give.
func TestScaling(t *testing.T) {
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		s := piped()
		s.Support = support
		u, err := Unitary(s.Geometry())
		require.NoError(t, err)
		base, err := u.At(s, 400)
		require.NoError(t, err)
		for _, up := range []float64{20, 150, 900} {
			for _, c := range []float64{-25, 0, 12} {
				s.GroundC, s.OutdoorC = c, c
				out, err := u.At(s, up)
				require.NoError(t, err)
				fluid := out.SurfaceMinC.Value + up*base.CoverResistance + (up+out.BackWM2)*(base.PipeResistance-base.CoverResistance)
				back := (out.SurfaceMinC.Value + up*base.LevelResistance - out.BelowC) / base.BelowResistance
				assert.InDelta(t, out.MeanFluidC.Value, fluid, 1e-9)
				assert.InDelta(t, out.BackWM2, back, 1e-9)
				assert.InDelta(t, surface.Film(), out.EnvironmentC+up/topFilm, 1e-12)
			}
		}
	}
}

// TestEvenFlux: at the flux that brings the surface midway to 0 °C, in the same environment, it is at 0 °C.
func TestEvenFlux(t *testing.T) {
	s := piped()
	out := answer(t, s, 400)
	require.True(t, out.Striped)
	u := out.Unit
	pipe := out.EnvironmentC + (out.EvenWM2.Value-u.ThroughWM2K*(out.BelowC-out.EnvironmentC))/u.UpWM2K
	assert.InDelta(t, 0, u.Least.at(out.EnvironmentC, pipe, out.BelowC), 1e-12)
	assert.Greater(t, out.EvenWM2.Value, 400.0)
	t.Logf("least surface %.2f °C at 400 W/m², 0 °C at %.0f W/m²", out.SurfaceMinC.Value, out.EvenWM2.Value)
	s.SpacingM, s.DepthM = 0.100, 0.100
	close := answer(t, s, 100)
	assert.False(t, close.Striped)
	assert.Less(t, close.EvenWM2.Value, 100.0)
}

// TestStripRange: a mean of 0.56 °C leaves the strip midway below freezing by 0.1 to 7 K over usual sections and fluxes (engineering method, section 2).
func TestStripRange(t *testing.T) {
	least, most := 0.0, math.Inf(-1)
	for _, spacing := range []float64{0.150, 0.200, 0.225, 0.300} {
		for _, depth := range []float64{0.050, 0.075, 0.100} {
			for _, up := range []float64{200, 400, 700} {
				s := piped()
				s.SpacingM, s.DepthM = spacing, depth
				strip := answer(t, s, up).SurfaceMinC.Value
				least, most = min(least, strip), max(most, strip)
			}
		}
	}
	t.Logf("strip midway from %.1f to %.1f °C", least, most)
	assert.True(t, least > -8 && most < 0.56)
}

// TestLayersOfOneMaterial: a slab cut into layers of one conductivity is that slab, wherever the cuts lie.
func TestLayersOfOneMaterial(t *testing.T) {
	whole, cut := piped(), piped()
	for _, course := range []float64{0.010, 0.025, 0.0649, 0.065, 0.0651, 0.075, 0.080, 0.090} {
		cut.SurfaceM, cut.SurfaceWMK, cut.BeddingM, cut.BeddingWMK, cut.SlabM = course, 1.4, 0.030, 1.4, 0.120-course
		a, b := answer(t, whole, 400), answer(t, cut, 400)
		assert.InDelta(t, a.MeanFluidC.Value, b.MeanFluidC.Value, 0.03, "cut at %g", course)
		assert.InDelta(t, a.BackWM2, b.BackWM2, 0.02, "cut at %g", course)
		assert.InDelta(t, a.SensorC.Value, b.SensorC.Value, 0.02, "cut at %g", course)
	}
}

// TestPipeNearLayer moves a pipe from the pavers through the bedding into the slab: nothing jumps.
func TestPipeNearLayer(t *testing.T) {
	s := piped()
	s.SurfaceM, s.SurfaceWMK, s.BeddingM, s.BeddingWMK = 0.060, 1.2, 0.030, 0.7
	last := 0.0
	for depth := 0.045; depth < 0.120; depth += 0.0005 {
		s.DepthM = depth
		out := answer(t, s, 300)
		if last > 0 {
			assert.InDelta(t, last, out.PipeSurfaceC.Value, 0.6, "depth %g", depth)
		}
		last = out.PipeSurfaceC.Value
	}
}

// TestDenseRowIsOneDimension: pipes close together deep in the slab are a heated plane: the resistances between environment, level and below are
// those of the layers, but for the pipes' own thickness.
func TestDenseRowIsOneDimension(t *testing.T) {
	s := piped()
	s.SurfaceM, s.SurfaceWMK, s.BeddingM, s.BeddingWMK, s.DepthM, s.SpacingM, s.OuterM, s.WallM = 0.060, 1.2, 0.030, 0.7, 0.150, 0.025, 0.003, 0
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		s.Support = support
		u, err := Unitary(s.Geometry())
		require.NoError(t, err)
		up := 1/25.0 + 0.060/1.2 + 0.030/0.7 + 0.060/1.4
		down := 0.090/1.4 + 0.9 + [...]float64{1.0 / 1.5, 1.0 / 10, 1.0 / 6}[support]
		assert.InEpsilon(t, up, u.star().up, 0.002)
		assert.InEpsilon(t, down, u.star().below, 0.002)
	}
}

// TestTouchingTheUnderside: a pipe that just touches the underside still closes its balance.
func TestTouchingTheUnderside(t *testing.T) {
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		for _, r := range []float64{0, 0.9} {
			s := piped()
			s.Support, s.InsulationM2KW, s.DepthM = support, r, 0.140
			near := s
			near.DepthM = 0.1399
			a, b := answer(t, s, 300), answer(t, near, 300)
			assert.Less(t, math.Abs(a.Unit.Closure), 1e-9)
			assert.InDelta(t, b.BackWM2, a.BackWM2, 0.02*max(1, b.BackWM2))
		}
	}
}

func TestGeometryIsShared(t *testing.T) {
	a, b := piped(), piped()
	b.GroundC, b.OutdoorC, b.WallM, b.WallWMK, b.FluidFilmWM2K, b.SlabHeatCapacityJM3, b.SurfaceWMK, b.BeddingWMK = 2, -20, 0.0028, 0.4, 900, 3e6, 1.4, 0.7
	assert.Equal(t, a.Geometry(), b.Geometry())
	b.SpacingM = 0.200
	u, err := Unitary(a.Geometry())
	require.NoError(t, err)
	_, err = u.At(b, 300)
	assert.ErrorIs(t, err, ErrSection)
	b.SpacingM, b.FluidFilmWM2K = a.SpacingM, 0
	base, err := u.At(b, 300)
	require.NoError(t, err)
	b.FluidFilmWM2K = 2 * DefaultFluidFilm
	better, err := u.At(b, 300)
	require.NoError(t, err)
	assert.Less(t, better.MeanFluidC.Value, base.MeanFluidC.Value)
}

func TestUnitaryRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Section){
		"no slab":          func(s *Section) { s.SlabM = 0 },
		"no conductivity":  func(s *Section) { s.SlabWMK = 0 },
		"pipe below":       func(s *Section) { s.DepthM = 0.2 },
		"pipe half out":    func(s *Section) { s.DepthM = 0.145 },
		"pipe breaks out":  func(s *Section) { s.DepthM = 0.010 },
		"pipes touch":      func(s *Section) { s.SpacingM = 0.02 },
		"not a number":     func(s *Section) { s.DepthM = math.NaN() },
		"no sensor depth":  func(s *Section) { s.SensorDepthM = 0 },
		"insulation":       func(s *Section) { s.InsulationM2KW = -1 },
		"support":          func(s *Section) { s.Support = 9 },
		"course":           func(s *Section) { s.SurfaceM = 0.06 },
		"endless":          func(s *Section) { s.SpacingM = math.Inf(1) },
		"infinite conduct": func(s *Section) { s.SlabWMK = math.Inf(1) },
	} {
		s := piped()
		spoil(&s)
		_, err := Unitary(s.Geometry())
		assert.ErrorIs(t, err, ErrSection, name)
	}
	u, err := Unitary(piped().Geometry())
	require.NoError(t, err)
	_, err = u.At(piped(), math.NaN())
	assert.Error(t, err)
	cold := piped()
	cold.GroundC = math.NaN()
	_, err = u.At(cold, 300)
	assert.Error(t, err)
	thick := piped()
	thick.WallM = 0.010
	_, err = u.At(thick, 300)
	assert.ErrorIs(t, err, ErrSection)
}

func TestConductionSteps(t *testing.T) {
	layered, wire, soffit, room := piped(), piped(), piped(), piped()
	layered.SurfaceM, layered.SurfaceWMK, layered.BeddingM, layered.BeddingWMK = 0.06, 1.2, 0.03, 0.7
	wire.WallM = 0
	soffit.Support, room.Support = OpenAir, HeatedSpace
	for _, s := range []Section{piped(), layered, wire, soffit, room} {
		out := answer(t, s, 287)
		assert.Equal(t, s.WallM > 0, out.MeanFluidC.Known)
		out.WarmUpHours = units.Some(4.75)
		told, symbols := map[float64]bool{}, map[string]bool{}
		for _, step := range out.Steps() {
			assert.NotEmpty(t, step.Source, step.Symbol)
			assert.NotEmpty(t, step.Name, step.Symbol)
			assert.False(t, symbols[step.Symbol], step.Symbol)
			for _, from := range step.From {
				assert.True(t, symbols[from], "%s rests on %s", step.Symbol, from)
			}
			symbols[step.Symbol], told[step.Value] = true, true
		}
		u := out.Unit
		for _, v := range []float64{out.UpWM2, out.EnvironmentC, out.BelowC, out.CoreResistance, out.CoverResistance, out.PipeResistance, out.WallResistance, out.LevelResistance,
			out.BelowResistance, out.BackShare, out.BackWM2, out.EvenWM2.Value, out.PipeSurfaceC.Value, out.MeanFluidC.Value, out.SensorC.Value, out.SurfaceMeanC.Value,
			out.SurfaceMinC.Value, out.SurfaceMaxC.Value, out.WarmUpHours.Value, u.UpWM2K, u.DownWM2K, u.ThroughWM2K, u.Least.Pipe, u.Least.Below, u.Greatest.Pipe, u.Greatest.Below,
			u.Sensor.Pipe, u.Sensor.Below} {
			assert.True(t, told[v] || v == 0, "%v is the value of no step", v)
		}
	}
}

// Source of the lengths: hand calculation with ψ 1.5 bare and 0.6 insulated.
func TestEdgeLoss(t *testing.T) {
	assert.InEpsilon(t, 40*1.5*(6.0+10), EdgeLoss(40, false, 6, -10), 1e-12)
	assert.InEpsilon(t, 40*0.6*(6.0+10), EdgeLoss(40, true, 6, -10), 1e-12)
}

func BenchmarkUnitary(b *testing.B) {
	g := piped().Geometry()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Unitary(g); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	s := piped()
	u, err := Unitary(s.Geometry())
	require.NoError(b, err)
	for b.Loop() {
		if _, err := u.At(s, 400); err != nil {
			b.Fatal(err)
		}
	}
}
