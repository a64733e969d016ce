package units_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

// rat returns a ratio of two decimal numbers, exactly.
func rat(t *testing.T, over, under string) float64 {
	t.Helper()
	a, ok := new(big.Rat).SetString(over)
	require.True(t, ok, over)
	b, ok := new(big.Rat).SetString(under)
	require.True(t, ok, under)
	v, _ := a.Quo(a, b).Float64()
	return v
}

// product multiplies decimal numbers exactly and returns the text of the result.
func product(t *testing.T, factors ...string) string {
	t.Helper()
	v := big.NewRat(1, 1)
	for _, f := range factors {
		r, ok := new(big.Rat).SetString(f)
		require.True(t, ok, f)
		v.Mul(v, r)
	}
	return v.RatString()
}

const (
	exactFoot  = "0.3048"
	exactInch  = "0.0254"
	exactPound = "0.45359237"
	exactBtu   = "1055.05585262" // J, International Table
	perRankine = "5/9"
	exactG     = "9.80665"
)

// TestExactFactors holds every unit to its exact definition.
// Source: NIST SP 811 (2008) appendix B: foot, inch, pound, gallon, knot and Btu_IT are exact; 1 °F of difference is 5/9 K.
func TestExactFactors(t *testing.T) {
	p := func(f ...string) string { return product(t, f...) }
	squareFoot, cubicFoot := p(exactFoot, exactFoot), p(exactFoot, exactFoot, exactFoot)
	for _, tt := range []struct {
		quantity    units.Quantity
		unit        string
		over, under string // base units in one unit
	}{
		{units.Share, "%", "0.01", "1"},
		{units.Factor, "%", "0.01", "1"},
		{units.Area, "m²", "1", "1"},
		{units.Area, "ft²", squareFoot, "1"},
		{units.Area, "ha", "10000", "1"},
		{units.Area, "acre", p("43560", squareFoot), "1"},
		{units.Area, "yd²", p("9", squareFoot), "1"},
		{units.Length, "ft", exactFoot, "1"},
		{units.Length, "mm", "0.001", "1"},
		{units.Length, "cm", "0.01", "1"},
		{units.Length, "in", exactInch, "1"},
		{units.Thickness, "mm", "0.001", "1"},
		{units.Thickness, "in", exactInch, "1"},
		{units.Thickness, "ft", exactFoot, "1"},
		{units.Elevation, "ft", exactFoot, "1"},
		{units.TemperatureDiff, "°F", perRankine, "1"},
		{units.Temperature, "°F", perRankine, "1"},
		{units.Flux, "Btu/h·ft²", exactBtu, p("3600", squareFoot)},
		{units.Flux, "W/ft²", "1", squareFoot},
		{units.Conductivity, "Btu·in/h·ft²·°F", p(exactBtu, exactInch), p("3600", squareFoot, perRankine)},
		{units.Conductivity, "Btu/h·ft·°F", exactBtu, p("3600", exactFoot, perRankine)},
		{units.Insulance, "h·ft²·°F/Btu", p("3600", squareFoot, perRankine), exactBtu},
		{units.Coefficient, "Btu/h·ft²·°F", exactBtu, p("3600", squareFoot, perRankine)},
		{units.LinearCoefficient, "Btu/h·ft·°F", exactBtu, p("3600", exactFoot, perRankine)},
		{units.SnowRate, "in/h", "25.4", "1"},
		{units.WaterDepth, "in", "25.4", "1"},
		{units.WaterDepth, "cm", "10", "1"},
		{units.Speed, "mph", p("5280", exactFoot), "3600"},
		{units.Speed, "km/h", "1000", "3600"},
		{units.Speed, "kn", "1852", "3600"},
		{units.LinearPower, "W/ft", "1", exactFoot},
		{units.Power, "kW", "1000", "1"},
		{units.Power, "Btu/h", exactBtu, "3600"},
		{units.Power, "MBH", p("1000", exactBtu), "3600"},
		{units.ElectricPower, "kW", "1000", "1"},
		{units.Energy, "kWh", "1", "1"},
		{units.Energy, "MWh", "1000", "1"},
		{units.Energy, "MJ", "1", "3.6"},
		{units.Energy, "GJ", "1000", "3.6"},
		{units.Energy, "Btu", exactBtu, "3600000"},
		{units.Energy, "kBtu", p("1000", exactBtu), "3600000"},
		{units.Energy, "MMBtu", p("1000000", exactBtu), "3600000"},
		{units.Energy, "therm", p("100000", exactBtu), "3600000"},
		{units.EnergyPerArea, "Btu/ft²", exactBtu, p("3600000", squareFoot)},
		{units.EnergyPerArea, "kWh/ft²", "1", squareFoot},
		{units.HeatCapacity, "Btu/ft³·°F", exactBtu, p(cubicFoot, perRankine)},
		{units.SpecificHeat, "Btu/lb·°F", exactBtu, p(exactPound, perRankine)},
		{units.Latent, "Btu/lb", exactBtu, exactPound},
		{units.Density, "lb/ft³", exactPound, cubicFoot},
		{units.Pressure, "kPa", "1000", "1"},
		{units.Pressure, "hPa", "100", "1"},
		{units.Pressure, "psi", p(exactPound, exactG), p(exactInch, exactInch)},
		{units.Flow, "gpm", "3.785411784", "60"},
		{units.Volume, "gal", "3.785411784", "1"},
		{units.Mass, "lb", exactPound, "1"},
		{units.Viscosity, "ft²/h", squareFoot, "3600"},
	} {
		u, found := tt.quantity.Parse(tt.unit)
		require.True(t, found, tt.unit)
		want := rat(t, tt.over, tt.under)
		assert.InEpsilon(t, want, u.Scale, 1e-15, "quantity %d, %s", tt.quantity, tt.unit)
	}
}

// TestPublishedFactors holds factors to the digits of a published table.
// Source: NIST SP 811 (2008) appendix B.8, seven significant digits.
func TestPublishedFactors(t *testing.T) {
	for _, tt := range []struct {
		quantity  units.Quantity
		unit      string
		published float64
		digit     float64 // of the last printed place
	}{
		{units.Area, "ft2", 9.290304e-2, 1e-8},
		{units.Conductivity, "Btu in/(h ft2 F)", 0.1442279, 1e-7},
		{units.Conductivity, "Btu/h ft F", 1.730735, 1e-6},
		{units.Flux, "Btu/(h ft2)", 3.154591, 1e-6},
		{units.Insulance, "h ft2 F/Btu", 0.1761102, 1e-7},
		{units.Coefficient, "Btu/h ft2 F", 5.678263, 1e-6},
		{units.Power, "Btu/h", 0.2930711, 1e-7},
		{units.SpecificHeat, "Btu/lb F", 4186.8, 0.1},
		{units.Latent, "Btu/lb", 2326, 1},
		{units.Density, "lb/ft3", 16.01846, 1e-5},
		{units.Pressure, "psi", 6894.757, 1e-3},
		{units.Speed, "mph", 0.44704, 1e-5},
		{units.Speed, "knots", 0.5144444, 1e-7},
		{units.Flow, "gal/min", 6.309020e-2, 1e-8},
		{units.Viscosity, "ft2/h", 2.58064e-5, 1e-10},
	} {
		u, found := tt.quantity.Parse(tt.unit)
		require.True(t, found, tt.unit)
		assert.InDelta(t, tt.published, u.Scale, tt.digit/2*(1+1e-9), "%s", tt.unit)
	}
}

// all returns every quantity there is.
func all() []units.Quantity {
	var list []units.Quantity
	for q := units.Text; exists(q); q++ {
		list = append(list, q)
	}
	return list
}

// exists says whether the table of units has a line for a quantity.
func exists(q units.Quantity) (found bool) {
	defer func() { found = recover() == nil }()
	q.In(units.SI)
	return true
}

func TestThereAndBack(t *testing.T) {
	require.Greater(t, len(all()), 40)
	for _, q := range all() {
		for _, u := range q.Units() {
			for _, v := range []float64{0, 1, -40, 0.37, 98.6, 12345.678} {
				back := u.FromBase(u.ToBase(v))
				assert.InDelta(t, v, back, 1e-12*math.Max(1, math.Abs(v)), "quantity %d, %q", q, u.Symbol)
			}
		}
	}
}

func TestTemperature(t *testing.T) {
	f := units.Temperature.In(units.IP)
	for _, tt := range []struct{ fahrenheit, celsius float64 }{{32, 0}, {212, 100}, {-40, -40}, {33, 5.0 / 9}, {50, 10}} {
		assert.InDelta(t, tt.celsius, f.ToBase(tt.fahrenheit), 1e-13, "%g °F", tt.fahrenheit)
		assert.InDelta(t, tt.fahrenheit, f.FromBase(tt.celsius), 1e-12, "%g °C", tt.celsius)
	}
	assert.Equal(t, 0.0, f.ToBase(32))
}

// TestTemperatureDifference: a difference never takes the offset of 32 °F.
func TestTemperatureDifference(t *testing.T) {
	for _, text := range []string{"°F", "F", "degF", "deg F", "R"} {
		u, found := units.TemperatureDiff.Parse(text)
		require.True(t, found, text)
		assert.Equal(t, 0.0, u.ToBase(0), text)
		assert.InDelta(t, 10, u.ToBase(18), 1e-13, text)
	}
	for _, text := range []string{"K", "°C", "C", "degC"} {
		u, found := units.TemperatureDiff.Parse(text)
		require.True(t, found, text)
		assert.Equal(t, 11.0, u.ToBase(11), text)
	}
}

// TestInsulance: R-5 is 0.88 and R-10 is 1.76 m²·K/W. Source: common practice, two decimals.
func TestInsulance(t *testing.T) {
	r := units.Insulance.In(units.IP)
	assert.InDelta(t, 0.88, r.ToBase(5), 0.005)
	assert.InDelta(t, 1.76, r.ToBase(10), 0.005)
	u, found := units.Insulance.Parse("R")
	require.True(t, found)
	assert.Equal(t, r.Symbol, u.Symbol)
}

// TestSpellings parses what people write. Source: the description of the workbook, Reading, and ways of writing the same.
func TestSpellings(t *testing.T) {
	for _, tt := range []struct {
		quantity units.Quantity
		symbol   string
		typed    []string
	}{
		{units.Area, "m²", []string{"m²", "m2", "M2", "m^2", "sq m", "sq. m", "sqm", "square metres"}},
		{units.Area, "ft²", []string{"ft²", "ft2", "FT2", "sq ft", "Sq. Ft.", "sqft", "sf", "SF", "square feet"}},
		{units.Length, "m", []string{"m", "M", "metres", "meters"}},
		{units.Length, "ft", []string{"ft", "ft.", "Feet", "foot", "'", "′"}},
		{units.Thickness, "mm", []string{"mm", "millimetres"}},
		{units.Thickness, "in", []string{"in", "in.", "inches", "\"", "″"}},
		{units.Thickness, "cm", []string{"cm"}},
		{units.Temperature, "°C", []string{"°C", "C", "degC", "deg C", "deg. C", "ºC", "℃"}},
		{units.Temperature, "°F", []string{"°F", "F", "degF", "deg F", "deg. F", "ºF", "℉"}},
		{units.Flux, "W/m²", []string{"W/m²", "W/m2", "w/m2", "W/sq m", "W / m²"}},
		{units.Flux, "Btu/h·ft²", []string{"Btu/h·ft²", "Btu/hr-ft2", "BTU/HR-FT2", "Btu/(h·ft²)", "Btu/(hr ft²)", "Btu/h-ft²", "BTUH/ft2", "Btu/hr/ft2"}},
		{units.Flux, "W/ft²", []string{"W/ft2", "W/ft²", "W/sq ft"}},
		{units.Conductivity, "W/m·K", []string{"W/m·K", "W/mK", "W/(m·K)", "W/m-K", "W/m K", "W/(m K)"}},
		{units.Conductivity, "Btu·in/h·ft²·°F", []string{"Btu·in/h·ft²·°F", "Btu-in/hr-ft2-F", "Btu in/(h ft² °F)", "BTU-in/hr-ft²-°F"}},
		{units.Insulance, "m²·K/W", []string{"m²·K/W", "m2K/W", "m²K/W", "m2 K/W", "m2·K/W", "(m²·K)/W", "RSI"}},
		{units.Insulance, "h·ft²·°F/Btu", []string{"h·ft²·°F/Btu", "hr-ft2-F/Btu", "hr·ft²·°F/Btu", "ft²·h·°F/Btu", "ft2·°F·h/Btu", "°F·ft²·h/Btu", "R"}},
		{units.SnowRate, "mm/h", []string{"mm/h", "mm/hr", "MM/HR"}},
		{units.SnowRate, "in/h", []string{"in/h", "in/hr", "in./hr"}},
		{units.Speed, "m/s", []string{"m/s", "mps", "m s⁻¹"}},
		{units.Speed, "mph", []string{"mph", "MPH", "mi/h"}},
		{units.Speed, "km/h", []string{"km/h", "km/hr", "kmh"}},
		{units.Speed, "kn", []string{"kn", "kt", "knots"}},
		{units.LinearPower, "W/m", []string{"W/m"}},
		{units.LinearPower, "W/ft", []string{"W/ft", "W/lf"}},
		{units.Share, "%", []string{"%", "percent", "pct"}},
		{units.Percent, "%", []string{"%", "percent"}},
		{units.Angle, "°", []string{"deg", "degrees"}},
		{units.Energy, "kWh", []string{"kWh", "KWH", "kW·h"}},
		{units.Energy, "therm", []string{"therm", "therms"}},
		{units.Energy, "MMBtu", []string{"MMBtu", "MMBTU", "million Btu"}},
		{units.Hours, "h", []string{"h", "hr", "hours"}},
		{units.Voltage, "V", []string{"V", "volts"}},
	} {
		for _, typed := range tt.typed {
			u, found := tt.quantity.Parse(typed)
			assert.True(t, found, "%q is no unit of quantity %d", typed, tt.quantity)
			assert.Equal(t, tt.symbol, u.Symbol, typed)
		}
	}
}

func TestNoUnit(t *testing.T) {
	for _, tt := range []struct {
		quantity units.Quantity
		typed    string
	}{{units.Area, ""}, {units.Area, " "}, {units.Area, "heated"}, {units.Area, "m"}, {units.Length, "m²"}, {units.Flux, "W/m"}, {units.Insulance, "W/m²·K"},
		{units.Temperature, "K"}, {units.Text, "m"}, {units.Number, "%"}} {
		_, found := tt.quantity.Parse(tt.typed)
		assert.False(t, found, "%q of quantity %d", tt.typed, tt.quantity)
	}
}

// TestOneUnitPerSpelling: within a quantity no two spellings that fold alike name different units.
func TestOneUnitPerSpelling(t *testing.T) {
	for _, q := range all() {
		owner := map[string]units.Unit{}
		for _, u := range q.Units() {
			for _, s := range append([]string{u.Symbol}, u.Spellings...) {
				folded := units.Fold(s)
				if folded == "" {
					continue
				}
				if other, taken := owner[folded]; taken {
					assert.Equal(t, [2]float64{other.Scale, other.Offset}, [2]float64{u.Scale, u.Offset}, "quantity %d: %q is %s and %s", q, s, other.Symbol, u.Symbol)
				}
				owner[folded] = u
				got, found := q.Parse(s)
				assert.True(t, found && got.Scale == u.Scale && got.Offset == u.Offset, "quantity %d: %q", q, s)
			}
		}
	}
}

// TestNames: a quantity with a unit has its symbol and the suffix that results.json puts behind a name; names of one quantity differ by system
// where the units do.
func TestNames(t *testing.T) {
	without := map[units.Quantity]bool{units.Text: true, units.Number: true, units.Count: true, units.Factor: true, units.Emissivity: true, units.Friction: true}
	for _, q := range all() {
		si, ip := q.In(units.SI), q.In(units.IP)
		for _, u := range []units.Unit{si, ip} {
			assert.Equal(t, without[q], u.Symbol == "", "symbol of quantity %d", q)
			assert.Equal(t, without[q], u.Suffix == "", "suffix of quantity %d", q)
			assert.Regexp(t, `^[a-z0-9_]*$`, u.Suffix)
			assert.NotZero(t, u.Scale, "quantity %d", q)
		}
		if si.Scale != ip.Scale {
			assert.NotEqual(t, si.Symbol, ip.Symbol, "quantity %d", q)
			assert.NotEqual(t, si.Suffix, ip.Suffix, "quantity %d", q)
		}
		if q != units.Temperature {
			assert.Zero(t, si.Offset+ip.Offset, "quantity %d has an offset", q)
		}
	}
}

func TestMaybe(t *testing.T) {
	var blank units.Maybe[float64]
	assert.Equal(t, 7.0, blank.Or(7))
	assert.Equal(t, 0.0, units.Some(0.0).Or(7), "zero is a value")
	out, err := json.Marshal(struct{ A, B units.Maybe[float64] }{units.Some(0.5), blank})
	require.NoError(t, err)
	assert.JSONEq(t, `{"A":0.5,"B":null}`, string(out))
	_, err = json.Marshal(units.Some(math.NaN()))
	assert.Error(t, err, "a number that is none is no JSON")
	assert.Len(t, map[units.Maybe[int]]bool{units.Some(1): true, {}: true, units.Some(0): true}, 3, "it can be a key, and a blank is no zero")
}

func ExampleQuantity_Parse() {
	u, _ := units.Flux.Parse("Btu/hr-ft2")
	fmt.Printf("%.1f %s\n", u.ToBase(200), units.Flux.In(units.SI).Symbol)
	// Output: 630.9 W/m²
}
