package surface_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/air"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// winter is a year of 8,760 invented hours, every seventeenth with snow, without two equal ones.
func winter(label string) weather.Year {
	y := weather.Year{Label: label, Hours: make([]weather.Hour, 8760)}
	for i := range y.Hours {
		x := float64(i)
		airC := -8 + 7*math.Sin(x/37) + 0.001*math.Sin(x)
		h := weather.Hour{Month: int8(1 + i/730), Day: int8(1 + i/24%30), Clock: int8(i % 24), AirC: airC, DewC: airC - 1 - math.Abs(math.Sin(x/11)), PressurePa: 100000,
			WindMS: 4 + 3.5*math.Sin(x/7), InfraredWM2: math.NaN()}
		if i%17 == 0 {
			h.SnowMM = 0.05 + 1.2*math.Abs(math.Sin(x/5))
		}
		y.Hours[i] = h
	}
	return y
}

func station(kind weather.Kind, years ...weather.Year) weather.Station {
	return weather.Station{Name: "Invented", ElevationM: 100, Kind: kind, Years: years}
}

func area() surface.Input {
	return surface.Input{ElevationM: 100, WindFactor: 1, LengthM: 6.1, SnowFree: 0.8, Percentile: 97, Margin: 1.1}
}

// conditionsOf returns what the area meets in an hour, written out for the tests.
func conditionsOf(in surface.Input, h weather.Hour) surface.Conditions {
	return surface.Conditions{AirC: h.AirC, DewC: h.DewC, WindMS: h.WindMS * in.WindFactor, PressurePa: h.PressurePa * air.StandardPressure(in.ElevationM) / air.StandardPressure(100),
		LengthM: in.LengthM, SnowMMH: h.SnowMM, MeanRadiantC: h.AirC}
}

// byHand returns the hours' fluxes at a ratio, ranked, the plain way.
func byHand(in surface.Input, st weather.Station, ratio, leastMM float64) []float64 {
	var q []float64
	for _, y := range st.Years {
		for _, h := range y.Hours {
			if h.SnowMM >= leastMM {
				q = append(q, surface.Balance(conditionsOf(in, h), ratio).Total)
			}
		}
	}
	slices.Sort(q)
	return q
}

func quantile(q []float64, percent float64) float64 {
	position := percent / 100 * float64(len(q)-1)
	low := math.Floor(position)
	i, j := int(low), int(math.Min(low+1, float64(len(q)-1)))
	return q[i] + (position-low)*(q[j]-q[i])
}

func countAbove(q []float64, flux float64) int {
	n := 0
	for _, v := range q {
		if v > flux {
			n++
		}
	}
	return n
}

func TestAnalyseHourly(t *testing.T) {
	in := area()
	in.WindFactor, in.ElevationM, in.Stairs = 0.7, 1500, true
	st := station(weather.Observed, winter("2005"), winter("2006"))
	st.Years[1].Hours[17].SnowMM = 4 // the hardest hour stands in the second year
	load, err := surface.Analyse(in, st)
	require.NoError(t, err)
	assert.Equal(t, surface.Hourly, load.Method)
	assert.False(t, load.OneTypicalYear)

	all := byHand(in, st, in.SnowFree, 0.1)
	assert.Equal(t, float64(len(all))/2, load.SnowHours)
	assert.Equal(t, float64(len(byHand(in, st, 0, 0.25)))/2, load.QuarterHours)
	assert.InEpsilon(t, quantile(all, in.Percentile), load.PercentileWM2, 1e-12)
	for r, ratio := range surface.Ratios {
		some, quarter := byHand(in, st, ratio, 0.1), byHand(in, st, ratio, 0.25)
		for p, percent := range surface.Percentiles {
			assert.InEpsilon(t, quantile(some, percent), load.Frequency.Value[r][p], 1e-12)
			assert.InEpsilon(t, quantile(quarter, percent), load.Quarter.Value[r][p], 1e-12)
		}
	}

	// The design hour has the least flux not below the percentile, and its terms are those of Balance.
	hour := load.Hour.Value
	above := all[slices.IndexFunc(all, func(q float64) bool { return q >= load.PercentileWM2 })]
	assert.Equal(t, above, hour.Total)
	assert.Equal(t, load.PercentileWM2, hour.Total+load.ToPercentileWM2)
	assert.LessOrEqual(t, load.ToPercentileWM2, 0.0)

	assert.InEpsilon(t, load.PercentileWM2*1.1*1.25, load.DesignWM2, 1e-12)
	assert.Equal(t, load.DesignWM2, load.PercentileWM2+load.MarginWM2+load.StairsWM2)
	assert.Equal(t, units.Some(float64(countAbove(all, load.DesignWM2))/2), load.UnmetHours)
	n := countAbove(all, load.PercentileWM2)
	assert.InDelta(t, 0.03*float64(len(all)), float64(n), 1, "three in a hundred hours lie above the 97th percentile")
	assert.Equal(t, float64(n)/2, surface.Unmet(in, st, load.PercentileWM2))
	assert.False(t, load.InfraredWM2.Known)
	assert.Empty(t, load.OutOfRange)
	holds(t, load)
}

func TestEarliestOnTies(t *testing.T) {
	y := winter("typical")
	in := area()
	in.Percentile, in.Margin = 100, 1
	hard := weather.Hour{Month: 3, Day: 2, Clock: 1, AirC: -20, DewC: -25, WindMS: 15, PressurePa: 100000, SnowMM: 3}
	y.Hours[40] = hard
	hard.Day = 9
	y.Hours[300] = hard
	load, err := surface.Analyse(in, station(weather.Typical, y))
	require.NoError(t, err)
	assert.Equal(t, int8(2), load.Hour.Value.Day)
	assert.Zero(t, load.ToPercentileWM2)
	assert.True(t, load.OneTypicalYear)
	assert.Equal(t, 0.0, load.UnmetHours.Value)
}

func TestInfraredLine(t *testing.T) {
	y := winter("typical")
	for i := range y.Hours {
		y.Hours[i].InfraredWM2 = 5.670374419e-8 * math.Pow(air.Kelvin(y.Hours[i].AirC), 4)
	}
	y.HasInfrared = true
	in := area()
	load, err := surface.Analyse(in, station(weather.Typical, y))
	require.NoError(t, err)
	assert.InEpsilon(t, load.PercentileWM2, load.InfraredWM2.Value, 1e-9, "a sky as warm as the air changes nothing")
	for i := range y.Hours {
		y.Hours[i].InfraredWM2 -= 30
	}
	colder, err := surface.Analyse(in, station(weather.Typical, y))
	require.NoError(t, err)
	assert.InDelta(t, load.PercentileWM2+30*0.9*in.SnowFree, colder.InfraredWM2.Value, 1e-6, "ε A_r times the missing infrared")
	holds(t, colder)
	y.Hours[17*50].InfraredWM2 = math.NaN()
	none, err := surface.Analyse(in, station(weather.Typical, y))
	require.NoError(t, err)
	assert.False(t, none.InfraredWM2.Known)
}

func TestAnalyseDesignHour(t *testing.T) {
	st := weather.Station{Kind: weather.DesignOnly, ElevationM: 100, DesignHour: units.Some(weather.DesignHour{AirC: 1.5, DewC: 1.4, WindMS: 6, SnowMMH: 12})}
	in := area()
	in.WindFactor = 2
	load, err := surface.Analyse(in, st)
	require.NoError(t, err)
	assert.Equal(t, surface.DesignHour, load.Method)
	assert.False(t, load.Frequency.Known)
	assert.False(t, load.Quarter.Known)
	assert.False(t, load.UnmetHours.Known)
	assert.Zero(t, load.SnowHours)
	assert.Zero(t, load.ToPercentileWM2)
	assert.True(t, load.Hour.Value.CondensationFloored, "moist air above the film's temperature would condense")
	assert.Zero(t, load.Hour.Value.Evaporation)
	assert.Equal(t, 12.0, load.Hour.Value.WindMS)
	assert.InEpsilon(t, load.Hour.Value.Total*1.1, load.DesignWM2, 1e-12)
	assert.Equal(t, []string{"snowfall"}, load.OutOfRange)
	holds(t, load)
}

func TestAnalyseGiven(t *testing.T) {
	in := area()
	in.GivenWM2, in.Stairs = units.Some(333.0), true
	load, err := surface.Analyse(in, station(weather.Typical, winter("typical")))
	require.NoError(t, err)
	assert.Equal(t, surface.Given, load.Method)
	assert.Equal(t, 333.0, load.DesignWM2)
	assert.Zero(t, load.MarginWM2)
	assert.Zero(t, load.StairsWM2)
	assert.True(t, load.Hour.Known, "the climate's design hour serves edge loss")
	assert.True(t, load.Frequency.Known)
	assert.True(t, load.UnmetHours.Known)
	holds(t, load)

	bare, err := surface.Analyse(in, weather.Station{})
	require.NoError(t, err)
	assert.Equal(t, 333.0, bare.DesignWM2)
	assert.False(t, bare.Hour.Known)
	assert.False(t, bare.Frequency.Known)
	assert.False(t, bare.UnmetHours.Known)
	holds(t, bare)
}

func TestAnalyseRefuses(t *testing.T) {
	green := winter("typical")
	for i := range green.Hours {
		green.Hours[i].SnowMM = 0
	}
	_, err := surface.Analyse(area(), station(weather.Typical, green))
	assert.ErrorIs(t, err, surface.ErrNoSnow)
	for _, spoil := range []func(*surface.Input){
		func(in *surface.Input) { in.LengthM = 0 },
		func(in *surface.Input) { in.SnowFree = math.NaN() },
		func(in *surface.Input) { in.Percentile = 101 },
		func(in *surface.Input) { in.Margin = 0 },
		func(in *surface.Input) { in.GivenWM2 = units.Some(math.Inf(1)) },
	} {
		in := area()
		spoil(&in)
		_, err := surface.Analyse(in, station(weather.Typical, winter("typical")))
		assert.Error(t, err)
	}
}

func TestSyntheticMethod(t *testing.T) {
	load, err := surface.Analyse(area(), station(weather.Synthetic, winter("synthetic")))
	require.NoError(t, err)
	assert.Equal(t, surface.Synthetic, load.Method)
	assert.False(t, load.OneTypicalYear)
}

// holds checks that steps rest on earlier steps, have a source, and that every number of the load is the value of one of them, bit for bit.
func holds(t *testing.T, load surface.Load) {
	t.Helper()
	steps := load.Steps()
	told := check(t, steps)
	numbers := []float64{load.DesignWM2}
	if load.Method != surface.Given {
		numbers = append(numbers, load.MarginWM2, load.StairsWM2)
	}
	if load.Hour.Known {
		x := load.Hour.Value
		numbers = append(numbers, x.AirC, x.DewC, x.WindMS, x.SnowMMH, x.PressurePa, x.FilmCoefficient, x.Reynolds, x.MassTransferMS, x.SurfaceHumidity, x.AirHumidity,
			x.AirDensity, x.Sensible, x.Melt, x.Convection, x.Radiation, x.ConvectionRadiation(), x.Evaporation, x.Total, load.Input.LengthM, load.Input.SnowFree, load.Input.WindFactor)
	}
	if load.Frequency.Known {
		numbers = append(numbers, load.SnowHours, load.QuarterHours, load.PercentileWM2, load.ToPercentileWM2, load.Input.Percentile)
		for r := range surface.Ratios {
			numbers = append(append(numbers, load.Frequency.Value[r][:]...), load.Quarter.Value[r][:]...)
		}
	}
	for _, known := range []units.Maybe[float64]{load.InfraredWM2, load.UnmetHours} {
		if known.Known {
			numbers = append(numbers, known.Value)
		}
	}
	for _, v := range numbers {
		assert.True(t, told[v], "%v is the value of no step", v)
	}
}

func check(t *testing.T, steps []trace.Step) map[float64]bool {
	t.Helper()
	told, symbols := map[float64]bool{}, map[string]bool{}
	for _, s := range steps {
		assert.NotEmpty(t, s.Source, s.Symbol)
		assert.NotEmpty(t, s.Name, s.Symbol)
		assert.False(t, symbols[s.Symbol], "%s stands twice", s.Symbol)
		for _, from := range s.From {
			assert.True(t, symbols[from], "%s rests on %s, which no earlier step tells", s.Symbol, from)
		}
		if s.Source == "input" {
			assert.Empty(t, s.Equation, s.Symbol)
		}
		symbols[s.Symbol] = true
		if s.Text == "" {
			told[s.Value] = true
		}
	}
	return told
}

func BenchmarkAnalyse(b *testing.B) {
	st, in := station(weather.Typical, winter("typical")), area()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := surface.Analyse(in, st); err != nil {
			b.Fatal(err)
		}
	}
}

func TestAnalyseAllocates(t *testing.T) {
	one, many := station(weather.Typical, winter("a")), station(weather.Observed, winter("a"), winter("b"), winter("c"), winter("d"))
	count := func(st weather.Station) float64 {
		return testing.AllocsPerRun(5, func() { _, _ = surface.Analyse(area(), st) })
	}
	assert.Equal(t, count(one), count(many), "memory is taken once, not by the hour")
}
