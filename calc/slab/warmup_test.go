package slab

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

// cold is the default slab at −10 °C with 450 W/m² installed.
func cold() WarmUpInput {
	return WarmUpInput{Section: piped(), OutputWM2: 450, StartC: -10, TargetC: 0.56, AirC: -10, PipeResistance: 0.05}
}

// TestStepChange: the surface of a thick slab is set to 0 °C at once: t = t_start erf(z / 2√(aτ)), Carslaw and Jaeger, Conduction of Heat in Solids.
func TestStepChange(t *testing.T) {
	in := cold()
	in.Section.SlabM, in.Section.InsulationM2KW, in.StartC, in.AirC, in.FilmWM2K, in.Section.GroundC = 0.600, 0, -10, 0, 1e7, -10
	c := in.column()
	c.factor(warmStepS)
	a := in.Section.SlabWMK / in.Section.SlabHeatCapacityJM3
	worst := 0.0
	for n := 1; n <= 4*60; n++ {
		c.step(c.t, 0)
		if n%60 != 0 {
			continue
		}
		depth := 0.0
		for i := range c.g {
			want := in.StartC * math.Erf(depth/(2*math.Sqrt(a*float64(n)*warmStepS)))
			worst = max(worst, math.Abs(c.t[i]-want))
			if depth += in.Section.SlabWMK / c.g[i]; depth > 0.55 {
				break
			}
		}
	}
	t.Logf("worst difference %.3f K of a step of 10 K", worst)
	assert.Less(t, worst, 0.05, "half a percent of the step")
}

// TestWarmUpEnergy: heat in = heat stored + heat out above and below, in every step.
func TestWarmUpEnergy(t *testing.T) {
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		in := cold()
		in.Section.Support = support
		c := in.column()
		c.factor(warmStepS)
		stored := func() (sum float64) {
			for i, t := range c.t {
				sum += c.heat[i] * t
			}
			return sum
		}
		first, out := stored(), 0.0
		const steps = 300
		for range steps {
			c.step(c.t, in.OutputWM2)
			out += warmStepS * (c.film*(c.t[0]-c.airC) + c.foot*(c.t[len(c.t)-1]-c.belowC))
		}
		heat := in.OutputWM2 * warmStepS * steps
		assert.InEpsilon(t, heat, stored()-first+out, 1e-9)
	}
}

// TestWarmUpSteps: halving the step moves the hours by less than 1 %.
func TestWarmUpSteps(t *testing.T) {
	in := cold()
	hours, reached := in.column().march(in.gives, in.TargetC, warmStepS)
	require.True(t, reached)
	half, reached := in.column().march(in.gives, in.TargetC, warmStepS/2)
	require.True(t, reached)
	fine, reached := in.column().march(in.gives, in.TargetC, warmStepS/16)
	require.True(t, reached)
	t.Logf("%.4f h, %.4f h with half the step, %.4f h with a sixteenth", hours, half, fine)
	assert.InEpsilon(t, half, hours, 0.01)
	assert.InEpsilon(t, fine, hours, 0.01)
}

// TestRestIsSteadyConduction: what the column ends in is the mean of the two-dimensional solution, but for the pipes' own thickness.
func TestRestIsSteadyConduction(t *testing.T) {
	for _, support := range []Support{OnGround, OpenAir, HeatedSpace} {
		s := piped()
		s.Support = support
		out := answer(t, s, 400)
		in := WarmUpInput{Section: s, OutputWM2: 400 + out.BackWM2, AirC: out.EnvironmentC, PipeResistance: out.PipeResistance - out.LevelResistance}
		if support == OpenAir {
			s.OutdoorC = out.EnvironmentC
			out = answer(t, s, 400)
			in.OutputWM2, in.PipeResistance = 400+out.BackWM2, out.PipeResistance-out.LevelResistance
		}
		c := in.column()
		rest := c.rest(in.OutputWM2)
		t.Logf("support %d: surface %.3f (%.3f), fluid %.2f (%.2f)", support, rest[0], out.SurfaceMeanC.Value, rest[c.level]+in.OutputWM2*in.PipeResistance, out.MeanFluidC.Value)
		assert.InDelta(t, out.SurfaceMeanC.Value, rest[0], 0.15)
		assert.InEpsilon(t, out.MeanFluidC.Value, rest[c.level]+in.OutputWM2*in.PipeResistance, 0.02)
	}
}

func TestWarmUp(t *testing.T) {
	base, err := WarmUp(cold())
	require.NoError(t, err)
	t.Logf("%.2f h, at rest %.1f °C, fluid %.1f °C", base.Hours.Value, base.SteadyC, base.FluidC)
	require.True(t, base.Hours.Known)
	assert.True(t, base.Hours.Value > 1 && base.Hours.Value < 12)
	assert.Greater(t, base.SteadyC, 0.56)
	assert.Greater(t, base.FluidC, 20.0)
	hours := func(change func(*WarmUpInput)) float64 {
		in := cold()
		change(&in)
		out, err := WarmUp(in)
		require.NoError(t, err)
		require.True(t, out.Hours.Known)
		return out.Hours.Value
	}
	assert.Greater(t, hours(func(in *WarmUpInput) { in.OutputWM2 = 350 }), base.Hours.Value)
	assert.Greater(t, hours(func(in *WarmUpInput) { in.Section.DepthM = 0.110 }), base.Hours.Value)
	assert.Greater(t, hours(func(in *WarmUpInput) { in.TargetC = 3 }), base.Hours.Value)
	assert.Greater(t, hours(func(in *WarmUpInput) { in.Section.SlabHeatCapacityJM3 = 3e6 }), base.Hours.Value)
	assert.Less(t, hours(func(in *WarmUpInput) { in.StartC = -4 }), base.Hours.Value)
	assert.Less(t, hours(func(in *WarmUpInput) { in.FilmWM2K = 15 }), base.Hours.Value)
	assert.Zero(t, hours(func(in *WarmUpInput) { in.StartC = 3 }))

	weak := cold()
	weak.OutputWM2 = 150
	never, err := WarmUp(weak)
	require.NoError(t, err)
	assert.False(t, never.Hours.Known, "150 W/m² can't hold 10.6 K under 25 W/m²·K")
	assert.Less(t, never.SteadyC, weak.TargetC)

	barely := cold()
	low, high := 150.0, 450.0
	for range 50 {
		barely.OutputWM2 = (low + high) / 2
		if c := barely.column(); c.rest(barely.OutputWM2)[0] > barely.TargetC {
			high = barely.OutputWM2
		} else {
			low = barely.OutputWM2
		}
	}
	barely.OutputWM2 = high
	late, err := WarmUp(barely)
	require.NoError(t, err)
	assert.False(t, late.Hours.Known, "it comes there in the end, but not within three days")
}

// TestWarmUpUnderALimit: fluid at its limit gives less and takes longer, as long as the limit is in reach; at rest the three temperatures lie on one line.
func TestWarmUpUnderALimit(t *testing.T) {
	in := cold()
	free, err := WarmUp(in)
	require.NoError(t, err)
	in.FluidMostC = units.Some(free.FluidC + 50)
	far, err := WarmUp(in)
	require.NoError(t, err)
	assert.Equal(t, free, far, "a limit out of reach changes nothing")
	last := free.Hours.Value
	for _, below := range []float64{2, 6, 10} {
		in.FluidMostC = units.Some(free.FluidC - below)
		out, err := WarmUp(in)
		require.NoError(t, err)
		require.True(t, out.Hours.Known)
		assert.Greater(t, out.Hours.Value, last)
		assert.LessOrEqual(t, out.FluidC, in.FluidMostC.Value+1e-9)
		last = out.Hours.Value
	}
	in.FluidMostC = units.Some(12.0)
	never, err := WarmUp(in)
	require.NoError(t, err)
	assert.False(t, never.Hours.Known)
	assert.InDelta(t, 12, never.FluidC, 1e-6, "at rest the fluid is at its limit")
	c := in.column()
	given := in.atRest(c)
	assert.Less(t, given, in.OutputWM2)
	assert.InDelta(t, given, in.gives(c.rest(given)[c.level]), 1e-6)
}

func TestWarmUpRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*WarmUpInput){
		"section":   func(in *WarmUpInput) { in.Section.SlabM = 0 },
		"output":    func(in *WarmUpInput) { in.OutputWM2 = math.NaN() },
		"start":     func(in *WarmUpInput) { in.StartC = -300 },
		"capacity":  func(in *WarmUpInput) { in.Section.SlabHeatCapacityJM3 = 0 },
		"negative":  func(in *WarmUpInput) { in.OutputWM2 = -1 },
		"unbounded": func(in *WarmUpInput) { in.Section.InsulationM2KW = math.Inf(1) },
	} {
		in := cold()
		spoil(&in)
		_, err := WarmUp(in)
		assert.Error(t, err, name)
	}
}

func BenchmarkWarmUp(b *testing.B) {
	in := cold()
	for b.Loop() {
		if _, err := WarmUp(in); err != nil {
			b.Fatal(err)
		}
	}
}
