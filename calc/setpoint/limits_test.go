package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

func walk() Input {
	return Input{MeltC: 3, IdleC: 0.5, LengthM: 6.1, WindMS: 4, CoreResistance: 0.018, LevelResistance: 0.05, BelowResistance: 1.2, BelowC: 8, CoverResistance: 0.04, PipeResistance: 0.09, DropK: 11}
}

// At its own limit each equation must hold: the loss with back loss is the output, the supply is the limit.
func TestLimitsSolveTheirEquations(t *testing.T) {
	c, err := Reset(walk())
	require.NoError(t, err)
	for _, installed := range []float64{100, 200, 300, 450} {
		for _, limit := range []float64{35, 45, 55} {
			l := c.Limits(Plant{InstalledWM2: installed, SupplyLimitC: units.Some(limit), ShutOffC: 4.4})
			require.True(t, l.KeepsUpC.Known)
			end := c.PointAt(l.KeepsUpC.Value)
			assert.InDelta(t, installed, end.LossMeltWM2+end.BackMeltWM2, 1e-4)
			require.True(t, l.SupplyLimitAtC.Known)
			assert.InDelta(t, limit, c.PointAt(l.SupplyLimitAtC.Value).SupplyMeltC.Value, 1e-4)
			assert.GreaterOrEqual(t, l.ColdestC, -30.0)
			assert.LessOrEqual(t, l.GreatestSupply.Value, limit+1e-6)
			assert.Equal(t, c.At(l.ColdestC, true), l.GreatestCoreC)
		}
	}
}

// More output or a higher supply limit never lets the curve end earlier.
func TestLimitsAreMonotone(t *testing.T) {
	c, err := Reset(walk())
	require.NoError(t, err)
	last := 10.0
	for installed := 60.0; installed < 1300; installed += 40 {
		l := c.Limits(Plant{InstalledWM2: installed, SupplyLimitC: units.Some(65.0), ShutOffC: 4.4})
		assert.LessOrEqual(t, l.ColdestC, last)
		last = l.ColdestC
	}
}

func TestElectricHeatHasNoSupplyLimit(t *testing.T) {
	in := walk()
	in.Electric, in.PipeResistance = true, 0
	c, err := Reset(in)
	require.NoError(t, err)
	l := c.Limits(Plant{InstalledWM2: 5000, ShutOffC: 4.4})
	assert.False(t, l.SupplyLimitAtC.Known)
	assert.False(t, l.KeepsUpC.Known)
	assert.False(t, l.GreatestSupply.Known)
	assert.Equal(t, -30.0, l.ColdestC)
}
