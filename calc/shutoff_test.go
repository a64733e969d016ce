package calc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// screenOf returns the answer and the code of the screen to what is asked.
func screenOf(t *testing.T, o Outcome, asked string) (answer, code string) {
	t.Helper()
	for _, x := range o.Sensing.Screen {
		if x.Asked == asked {
			return x.Answer, x.Why.Code
		}
	}
	t.Fatalf("%s is not asked", asked)
	return "", ""
}

// TestPavementStopNeverEndsTheHeatOfAColdSlab holds that the pavement shut-off stands above every set point that the control asks of the slab sensor, so
// that a wet slab keeps its heat at every outdoor temperature, and that nothing stops below what energy codes name.
func TestPavementStopNeverEndsTheHeatOfAColdSlab(t *testing.T) {
	e := ruled()
	raised, plain := 0, 0
	strong := func(z *Zone) { z.Heat.InstalledWM2, z.Heat.SupplyLimitC = units.Some(900.0), units.Some(80.0) }
	for name, change := range map[string][]func(*Zone){
		"strong":                {strong},
		"strong, idling":        {strong, func(z *Zone) { z.Sensing.Idling = units.Some(true) }},
		"strong, in stone":      {strong, func(z *Zone) { z.Slab.Surface = Stone }},
		"strong, locked out":    {strong, func(z *Zone) { z.Sensing.LowestMeltC = units.Some(-5.0) }},
		"strong, locked, idles": {strong, func(z *Zone) { z.Sensing.LowestMeltC, z.Sensing.Idling = units.Some(-2.0), units.Some(true) }},
		"as the plant is":       {},
		"warm surface":          {func(z *Zone) { z.Sensing.SurfaceMeltC = 7 }},
		"weak":                  {variedZones["weak"]},
	} {
		o := outcome(t, e, change...)
		require.NotNil(t, o.Operation, name)
		require.True(t, o.Operation.PavementStop.Known, name)
		stop := o.Operation.PavementStop.Value
		assert.GreaterOrEqual(t, stop.StopC, 10.0, "%s: energy codes name 10 °C (50 °F)", name)
		lockout := o.Zone.Sensing.LowestMeltC.Or(-60)
		for outdoor := 4.0; outdoor >= o.Limits.ColdestC; outdoor -= 0.5 {
			if outdoor >= lockout {
				assert.Greater(t, stop.StopC, o.Reset.At(outdoor, true)+1, "%s: melting at %g °C", name, outdoor)
			}
			if o.Sensing.Idling {
				assert.Greater(t, stop.StopC, o.Reset.At(outdoor, false)+1, "%s: idling at %g °C", name, outdoor)
			}
		}
		answer, code := screenOf(t, o, sensing.AskedPavement)
		sequence, tests := lineCodes(o.Operation.Sequence), lineCodes(o.Operation.Tests)
		assert.Contains(t, tests, "test-pavement-stop", name)
		if stop.StopC > 10 {
			raised++
			assert.Equal(t, [2]string{sensing.AskAuthority, "screen-pavement-raised"}, [2]string{answer, code}, name)
			assert.Contains(t, sequence, "shut-off-pavement-raised", name)
			assert.Contains(t, tests, "test-pavement-wet", name)
		} else {
			plain++
			assert.Equal(t, [2]string{sensing.Meets, "screen-pavement-met"}, [2]string{answer, code}, name)
			assert.Contains(t, sequence, "shut-off-pavement", name)
			assert.NotContains(t, tests, "test-pavement-wet", name)
		}
		assert.Equal(t, stop.StopC, value(t, o.Operation.Sequence, "pavement-stop"), name)
	}
	assert.GreaterOrEqual(t, raised, 3)
	assert.GreaterOrEqual(t, plain, 2)
}

// TestPavementStopWithoutSetPoints holds that nothing is promised where no set points are known, and that a kit without slab temperature has no such stop.
func TestPavementStopWithoutSetPoints(t *testing.T) {
	nowhere := outcome(t, ruled(), variedZones["given, nowhere"])
	assert.False(t, nowhere.Operation.PavementStop.Known)
	assert.Contains(t, lineCodes(nowhere.Operation.Sequence), "shut-off-pavement-not-found")
	assert.NotContains(t, lineCodes(nowhere.Operation.Tests), "test-pavement-stop")
	answer, code := screenOf(t, nowhere, sensing.AskedPavement)
	assert.Equal(t, [2]string{sensing.AskAuthority, "screen-pavement-not-found"}, [2]string{answer, code})

	alone := outcome(t, ruled(), variedZones["existing"])
	assert.False(t, alone.Operation.PavementStop.Known)
	for _, code := range lineCodes(alone.Operation.Sequence) {
		assert.NotContains(t, code, "shut-off-pavement")
	}
}
