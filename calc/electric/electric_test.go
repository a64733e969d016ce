package electric_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// entrance is 40 m² of pavers with a cable of 30 W/m.
func entrance() electric.Input {
	return electric.Input{AreaM2: 40, NeedWM2: 330, InstalledWM2: 400, CableWM: 30, VoltageV: units.Some(240.0), Phases: units.Some(1.0),
		Path: electric.Path{SurfaceC: 3, ResistanceM2KW: 0.05, BackShare: 0.1, LimitC: 55}}
}

func design(t *testing.T, in electric.Input) electric.Layout {
	t.Helper()
	l, err := electric.Design(in)
	require.NoError(t, err)
	return l
}

func codes(l electric.Layout) map[finding.Code]finding.Check {
	m := map[finding.Code]finding.Check{}
	for _, c := range l.Checks {
		m[c.Code] = c
	}
	return m
}

// TestByHand: 30 W/m at 400 W/m² is 75 mm; 40 m² take 533.3 m and 16 kW, 66.7 A at 240 V; a circuit of 40 A carries 7.68 kW, so three of 5.33 kW, 22.2 A,
// which ask for 27.8 A: 30 A.
func TestByHand(t *testing.T) {
	l := design(t, entrance())
	c := l.Circuits.Value
	assert.InDelta(t, 0.075, l.SpacingM, 1e-12)
	assert.InDelta(t, 533.33, l.CableM, 0.005)
	assert.InDelta(t, 16000, l.ConnectedW, 1e-9)
	assert.Equal(t, l.ConnectedW, l.DemandW)
	assert.InDelta(t, 7680, c.LargestW, 1e-9)
	assert.Equal(t, 3, c.Count)
	assert.InDelta(t, 22.22, c.Amps, 0.005)
	assert.InDelta(t, 27.78, c.NeededA, 0.005)
	assert.Equal(t, 30.0, c.ProtectionA)
	assert.InDelta(t, 66.67, c.SupplyA, 0.005)
	assert.InDelta(t, 177.78, c.CableM, 0.005)
	assert.Equal(t, 30.0, c.TripMA)
	// 5 % less voltage is about 10 % less heat (practice): 0.95² = 0.9025
	assert.InDelta(t, 361, l.LowWM2, 1e-9)
	assert.InDelta(t, 441, l.HighWM2, 1e-9)
	assert.Empty(t, l.Checks)
}

// TestThreePhases: 16 kW at 400 V are 23.1 A on three phases; one circuit of 40 A carries 22.2 kW; 28.9 A ask for 32 A of IEC 60898.
func TestThreePhases(t *testing.T) {
	in := entrance()
	in.VoltageV, in.Phases = units.Some(400.0), units.Some(3.0)
	c := design(t, in).Circuits.Value
	assert.Equal(t, electric.IECSizes, c.Family)
	assert.Equal(t, 1, c.Count)
	assert.Equal(t, 3, c.Cables)
	assert.InDelta(t, 23.09, c.Amps, 0.005)
	assert.Equal(t, 32.0, c.ProtectionA)
	assert.InDelta(t, 533.33/3, c.CableM, 0.005)
}

// TestSweep: over the ranges of a workbook the circuits carry the load, none beyond its protection with the continuous factor, and none more would be idle.
func TestSweep(t *testing.T) {
	standard := map[string][]float64{electric.NECSizes: {15, 20, 25, 30, 35, 40}, electric.IECSizes: {6, 10, 13, 16, 20, 25, 32, 40}} // memory
	for _, volts := range []float64{100, 120, 208, 230, 240, 277, 400, 480, 600} {
		for _, phases := range []float64{1, 3} {
			for area := 0.5; area <= 100_000; area *= 1.7 {
				for _, cable := range []float64{10, 30, 50} {
					for q := 50.0; q <= 1300; q += 125 {
						l := design(t, electric.Input{AreaM2: area, NeedWM2: 200, InstalledWM2: q, CableWM: cable, VoltageV: units.Some(volts), Phases: units.Some(phases)})
						c := l.Circuits.Value
						k := math.Sqrt(phases)
						assert.InEpsilon(t, q*area, l.ConnectedW, 1e-9, "density times area")
						assert.InEpsilon(t, l.ConnectedW, float64(c.Count)*k*volts*c.Amps, 1e-9)
						assert.InEpsilon(t, l.CableM, c.CableM*float64(c.Count*c.Cables), 1e-9)
						assert.InEpsilon(t, cable/q, l.SpacingM, 1e-12)
						assert.LessOrEqual(t, 1.25*c.Amps, c.ProtectionA+1e-6)
						assert.Contains(t, standard[c.Family], c.ProtectionA)
						if i := slices.Index(standard[c.Family], c.ProtectionA); i > 0 {
							assert.Greater(t, 1.25*c.Amps, standard[c.Family][i-1], "the next size, not one beyond")
						}
						if c.Count > 1 {
							assert.Greater(t, l.ConnectedW/float64(c.Count-1), c.LargestW*(1-1e-9))
						}
					}
				}
			}
		}
	}
}

// TestCableTemperature: 400 W/m² of which 1/1.1 go up through 0.05 m²·K/W raise a cable by 18.18 K over a surface of 3 °C, by hand.
func TestCableTemperature(t *testing.T) {
	in := entrance()
	l := design(t, in)
	assert.InDelta(t, 21.18, l.CableC, 0.005)
	assert.NotContains(t, codes(l), electric.CodeHotForSurface)
	in.Path.LimitC = l.CableC
	assert.NotContains(t, codes(design(t, in)), electric.CodeHotForSurface, "at the limit")
	in.Path.LimitC = 21
	assert.Equal(t, finding.Check{Code: electric.CodeHotForSurface, Severity: finding.Warning, Field: "installed_output", Found: l.CableC, Limit: 21, Quantity: units.Temperature}, codes(design(t, in))[electric.CodeHotForSurface])
}

func TestChecks(t *testing.T) {
	in := entrance()
	in.InstalledWM2 = 1300
	assert.NotContains(t, codes(design(t, in)), electric.CodeDensityOver, "at the limit")
	in.InstalledWM2 = 1301
	l := design(t, in)
	assert.Equal(t, finding.Check{Code: electric.CodeDensityOver, Severity: finding.Warning, Field: "installed_output", Found: l.DensityWM2, Limit: 1300, Quantity: units.Flux}, codes(l)[electric.CodeDensityOver])
	assert.Contains(t, codes(l), electric.CodeTooClose) // 23 mm

	in = entrance()
	in.CableWM, in.InstalledWM2 = 30, 1200 // 25 mm: at the limit
	assert.NotContains(t, codes(design(t, in)), electric.CodeTooClose)
	assert.Contains(t, codes(design(t, in)), electric.CodeDensityUnusual)

	in = entrance()
	in.SpacingM = units.Some(0.1) // 300 W/m² < 330
	l = design(t, in)
	assert.InDelta(t, 300, l.DensityWM2, 1e-9)
	assert.Equal(t, 330.0, codes(l)[electric.CodeBelowNeed].Limit)

	in = entrance()
	in.InstalledWM2 = 340
	assert.Equal(t, finding.Info, codes(design(t, in))[electric.CodeLowVoltage].Severity)

	in = entrance()
	in.CableWM, in.InstalledWM2, in.NeedWM2 = 50, 200, 100
	assert.Contains(t, codes(design(t, in)), electric.CodeStripes)
}

func TestWithoutVoltage(t *testing.T) {
	for _, blank := range []func(*electric.Input){
		func(in *electric.Input) { in.VoltageV = units.Maybe[float64]{} },
		func(in *electric.Input) { in.Phases = units.Maybe[float64]{} },
	} {
		in := entrance()
		blank(&in)
		l := design(t, in)
		assert.False(t, l.Circuits.Known)
		assert.InDelta(t, 16000, l.ConnectedW, 1e-9)
		list := l.Checks.Findings()
		require.Len(t, list, 1)
		assert.Equal(t, electric.CodeNoVoltage, list[0].Code)
		assert.Equal(t, finding.Info, list[0].Severity)
	}
}

// TestEveryNumberIsAStep: bit for bit; symbols are told once and rest on symbols told before.
func TestEveryNumberIsAStep(t *testing.T) {
	three := entrance()
	three.VoltageV, three.Phases, three.SpacingM = units.Some(400.0), units.Some(3.0), units.Some(0.0733)
	blank := entrance()
	blank.VoltageV = units.Maybe[float64]{}
	for _, in := range []electric.Input{entrance(), three, blank} {
		l := design(t, in)
		steps := l.Steps()
		l.Checks = nil
		held(t, "electric", reflect.ValueOf(l), steps)
		told := map[string]bool{}
		for _, s := range steps {
			assert.NotEmpty(t, s.Name)
			assert.NotEmpty(t, s.Source, s.Symbol)
			assert.False(t, told[s.Symbol], "%s is told twice", s.Symbol)
			for _, from := range s.From {
				assert.True(t, told[from], "%s rests on %s, which is not told before", s.Symbol, from)
			}
			told[s.Symbol] = true
		}
	}
}

// held asserts that every number of a value is the value of a step.
func held(t *testing.T, path string, v reflect.Value, steps []trace.Step) {
	t.Helper()
	has := func(x float64) {
		for _, s := range steps {
			if math.Float64bits(s.Value) == math.Float64bits(x) && s.Text == "" {
				return
			}
		}
		assert.Fail(t, "no step", "%s: %v", path, x)
	}
	switch {
	case v.Kind() == reflect.Float64:
		has(v.Float())
	case v.Kind() == reflect.Int:
		has(float64(v.Int()))
	case v.Kind() == reflect.Struct && v.FieldByName("Known").IsValid():
		if v.FieldByName("Known").Bool() {
			held(t, path, v.FieldByName("Value"), steps)
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			held(t, path+"."+v.Type().Field(i).Name, v.Field(i), steps)
		}
	}
}

func TestRefusals(t *testing.T) {
	for name, spoil := range map[string]func(*electric.Input){
		"no area":       func(in *electric.Input) { in.AreaM2 = 0 },
		"no cable":      func(in *electric.Input) { in.CableWM = math.NaN() },
		"no density":    func(in *electric.Input) { in.InstalledWM2 = 0 },
		"no spacing":    func(in *electric.Input) { in.SpacingM = units.Some(0.0) },
		"no voltage":    func(in *electric.Input) { in.VoltageV = units.Some(12.0) },
		"four phases":   func(in *electric.Input) { in.Phases = units.Some(4.0) },
		"phases halved": func(in *electric.Input) { in.Phases = units.Some(1.5) },
	} {
		in := entrance()
		spoil(&in)
		_, err := electric.Design(in)
		assert.ErrorIs(t, err, electric.ErrInput, name)
	}
}

// TestEdgeIsLaidFor: what leaves by the edge takes what the area has to spare, then cable of its own; a spacing that was told, or cable that is there,
// gets none, and is told short.
func TestEdgeIsLaidFor(t *testing.T) {
	in := electric.Input{AreaM2: 40, NeedWM2: 330, InstalledWM2: 340, CableWM: 30, EdgeW: 400}
	l, err := electric.Design(in)
	require.NoError(t, err)
	assert.InEpsilon(t, 340.0*40, l.ConnectedW, 1e-9, "400 W to spare")
	assert.InDelta(t, 0, l.EdgeM, 1e-9)
	in.EdgeW = 1000
	l, err = electric.Design(in)
	require.NoError(t, err)
	assert.InEpsilon(t, 600.0/30, l.EdgeM, 1e-9)
	assert.InEpsilon(t, 330.0*40+1000, l.ConnectedW, 1e-9, "all that is needed is there")
	assert.NotContains(t, codesOf(l), electric.CodeBelowNeed)
	told := in
	told.SpacingM = units.Some(30.0 / 340)
	there := in
	there.Laid = true
	for name, short := range map[string]electric.Input{"told": told, "there": there} {
		l, err := electric.Design(short)
		require.NoError(t, err, name)
		assert.Zero(t, l.EdgeM, name)
		assert.Contains(t, codesOf(l), electric.CodeBelowNeed, name)
	}
}

func codesOf(l electric.Layout) []finding.Code {
	var list []finding.Code
	for _, c := range l.Checks {
		list = append(list, c.Code)
	}
	return list
}
