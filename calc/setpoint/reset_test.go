package setpoint_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/air"
	"thawbook/calc/setpoint"
	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// drive is 25 mm of concrete above the sensor, 20 mm pipe at 225 mm.
func drive() setpoint.Input {
	return setpoint.Input{MeltC: 3, IdleC: 0.5, LengthM: 6.1, WindMS: setpoint.MinWind, ElevationM: 100, CoreResistance: 0.025 / 1.4, LevelResistance: 0.06, BelowResistance: 1.5, BelowC: 8,
		CoverResistance: 0.0536, PipeResistance: 0.1044, DropK: 11}
}

func curve(t *testing.T, in setpoint.Input) setpoint.Curve {
	t.Helper()
	c, err := setpoint.Reset(in)
	require.NoError(t, err)
	return c
}

func fahrenheit(f float64) float64 { return units.Temperature.In(units.IP).ToBase(f) }

func TestEquation(t *testing.T) {
	in := drive()
	c := curve(t, in)
	require.Equal(t, -30.0, c.Points[0].OutdoorC)
	require.Equal(t, 5.0, c.Points[setpoint.Points-1].OutdoorC)
	for i, p := range c.Points {
		assert.Equal(t, -30+2.5*float64(i), p.OutdoorC)
		q := surface.DryLoss(in.MeltC, surface.Conditions{AirC: p.OutdoorC, WindMS: in.WindMS, PressurePa: air.StandardPressure(in.ElevationM), LengthM: in.LengthM, MeanRadiantC: p.OutdoorC})
		assert.Equal(t, q, p.LossMeltWM2)
		assert.InDelta(t, in.MeltC+q*in.CoreResistance, p.CoreMeltC, 1e-12)
		back := (in.MeltC + q*0.06 - 8) / 1.5
		fluid := in.MeltC + q*in.CoverResistance + (q+back)*(in.PipeResistance-in.CoverResistance)
		assert.InDelta(t, fluid+5.5, p.SupplyMeltC.Value, 1e-9)
		assert.Equal(t, p.CoreMeltC, c.At(p.OutdoorC, true))
		assert.Equal(t, p.CoreIdleC, c.At(p.OutdoorC, false))
	}
	assert.InEpsilon(t, (c.At(-30, true)-c.At(0, true))/30, c.Ratio, 1e-12)
	assert.InEpsilon(t, (c.At(-30, false)-c.At(0, false))/30, c.IdleRatio, 1e-12)
}

// TestCommonPractice: core 46 °F at 20 °F outdoors and 55 °F at −10 °F lie on one line with the surface at 40 °F and a ratio of 0.30. Common
// practice, a fact of the trade without a source: the ratio of 25 mm of concrete in the least wind must come near it, and so must both points.
func TestCommonPractice(t *testing.T) {
	in := drive()
	in.MeltC = fahrenheit(40)
	c := curve(t, in)
	t.Logf("ratio %.3f, common practice 0.30", c.Ratio)
	assert.InEpsilon(t, 0.30, c.Ratio, 0.10)
	for _, tt := range []struct{ outdoorF, coreF float64 }{{20, 46}, {-10, 55}} {
		got := units.Temperature.In(units.IP).FromBase(c.At(fahrenheit(tt.outdoorF), true))
		t.Logf("core %.1f °F at %g °F outdoors, common practice %g", got, tt.outdoorF, tt.coreF)
		assert.InDelta(t, tt.coreF, got, 0.10*(tt.coreF-40), "10 % of the rise above the surface")
	}
}

// TestOneDimensionalRatio: 25 mm of concrete of 1.4 W/m·K under a film of 16.5 W/m²·K gives 0.295 (engineering method, section 3, by hand). The wind
// is sought that gives such a film on average from −30 to 0 °C; the ratio must follow.
func TestOneDimensionalRatio(t *testing.T) {
	in := drive()
	film := func(wind float64) float64 {
		loss := func(outdoorC float64) float64 {
			return surface.DryLoss(in.MeltC, surface.Conditions{AirC: outdoorC, WindMS: wind, PressurePa: air.StandardPressure(in.ElevationM), LengthM: in.LengthM, MeanRadiantC: outdoorC})
		}
		return (loss(-30) - loss(0)) / 30
	}
	low, high := 0.5, 15.0
	for range 60 {
		if mid := (low + high) / 2; film(mid) < 16.5 {
			low = mid
		} else {
			high = mid
		}
	}
	in.WindMS = low
	c := curve(t, in)
	t.Logf("wind %.2f m/s, ratio %.4f", low, c.Ratio)
	assert.InDelta(t, 0.295, c.Ratio, 0.0005)
}

func TestResetLaws(t *testing.T) {
	for _, wind := range []float64{0, 0.5, 2, 4, 8, 15} {
		for _, length := range []float64{0.5, 1.5, 6.1, 100} {
			for _, melt := range []float64{1, 3, 7} {
				for _, elevation := range []float64{-430, 0, 5000} {
					in := drive()
					in.WindMS, in.LengthM, in.MeltC, in.IdleC, in.ElevationM = wind, length, melt, melt-2, elevation
					c := curve(t, in)
					windier := in
					windier.WindMS += 1
					w := curve(t, windier)
					last := math.Inf(1)
					for outdoorC := -45.0; outdoorC <= 12; outdoorC += 1.5 {
						core := c.At(outdoorC, true)
						if !(core < last) {
							t.Fatalf("%+v: core %g at %g °C, no less than where it is colder", in, core, outdoorC)
						}
						last = core
						if outdoorC < melt != (core > melt) && outdoorC != melt {
							t.Fatalf("%+v: core %g at %g °C: the line must pass through the set point", in, core, outdoorC)
						}
						if outdoorC < in.IdleC && (w.At(outdoorC, true) < core || !(c.At(outdoorC, false) < core)) {
							t.Fatalf("%+v: at %g °C more wind or a higher set point must ask for a warmer core", in, outdoorC)
						}
					}
					if !(c.Ratio > 0 && c.IdleRatio > 0) {
						t.Fatalf("%+v: ratios %g, %g", in, c.Ratio, c.IdleRatio)
					}
				}
			}
		}
	}
	assert.Equal(t, 3.0, curve(t, drive()).At(3, true), "no loss, no rise")
}

func TestElectricHasNoSupply(t *testing.T) {
	in := drive()
	in.Electric = true
	c := curve(t, in)
	in.Electric, in.PipeResistance = false, 0
	none := curve(t, in)
	for i := range c.Points {
		assert.False(t, c.Points[i].SupplyMeltC.Known || c.Points[i].SupplyIdleC.Known)
		assert.False(t, none.Points[i].SupplyMeltC.Known || none.Points[i].SupplyIdleC.Known)
	}
}

func TestRefuses(t *testing.T) {
	for _, spoil := range []func(*setpoint.Input){
		func(in *setpoint.Input) { in.CoreResistance = 0 },
		func(in *setpoint.Input) { in.WindMS = math.NaN() },
		func(in *setpoint.Input) { in.LengthM = 0 },
		func(in *setpoint.Input) { in.MeltC = 40 },
	} {
		in := drive()
		spoil(&in)
		_, err := setpoint.Reset(in)
		assert.Error(t, err)
	}
}

func TestSteps(t *testing.T) {
	electric := drive()
	electric.Electric = true
	for _, in := range []setpoint.Input{drive(), electric} {
		c := curve(t, in)
		told, symbols := map[float64]bool{}, map[string]bool{}
		for _, s := range c.Steps() {
			assert.NotEmpty(t, s.Source, s.Symbol)
			assert.False(t, symbols[s.Symbol], s.Symbol)
			for _, from := range s.From {
				assert.True(t, symbols[from], "%s rests on %s", s.Symbol, from)
			}
			symbols[s.Symbol] = true
			told[s.Value] = true
		}
		numbers := []float64{c.Ratio, c.IdleRatio, in.MeltC, in.IdleC, in.WindMS, in.CoreResistance}
		for _, i := range []int{0, 12, setpoint.Points - 1} {
			p := c.Points[i]
			numbers = append(numbers, p.OutdoorC, p.LossMeltWM2, p.LossIdleWM2, p.CoreMeltC, p.CoreIdleC)
			if p.SupplyMeltC.Known {
				numbers = append(numbers, p.SupplyMeltC.Value, p.SupplyIdleC.Value)
			}
		}
		for _, v := range numbers {
			assert.True(t, told[v], "%v is the value of no step", v)
		}
	}
}
