package season

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

func run(t *testing.T, in Input, st weather.Station) map[Strategy]Result {
	t.Helper()
	results, err := Run(in, st)
	require.NoError(t, err)
	require.Len(t, results, len(Strategies))
	by := map[Strategy]Result{}
	for i, r := range results {
		require.Equal(t, Strategies[i], r.Strategy)
		by[r.Strategy] = r
	}
	return by
}

// constant returns a station where every hour is the same.
func constant(h weather.Hour) weather.Station {
	st := made()
	hours := st.Years[0].Hours
	for i := range hours {
		at := hours[i]
		hours[i] = h
		hours[i].Month, hours[i].Day, hours[i].Clock = at.Month, at.Day, at.Clock
	}
	return st
}

// threeWinters returns a station of three winters that stand alone, each colder than the one before.
func threeWinters() weather.Station {
	st := made()
	for n := 1; n <= 2; n++ {
		y := made().Years[0]
		for i := range y.Hours {
			y.Hours[i].AirC -= 1.5 * float64(n)
			y.Hours[i].DewC -= 1.5 * float64(n)
		}
		st.Years = append(st.Years, y)
	}
	return st
}

func TestHoursAddUpToTheSeason(t *testing.T) {
	for name, st := range map[string]weather.Station{"one winter": made(), "three winters": threeWinters()} {
		for _, r := range run(t, usual(), st) {
			assert.Equal(t, 5088.0, r.SeasonHours, "%s, %s: 212 days from 1 October to 30 April", name, r.Strategy)
			assert.Equal(t, r.SeasonHours, r.HoursOff+r.HoursIdling+r.HoursMelting+r.HoursDrying, "%s, %s", name, r.Strategy)
			assert.Equal(t, SteadyEstimate, r.Estimate)
			assert.False(t, r.SnowOnSurfaceH.Known || r.BareShare.Known || r.RefreezeEvents.Known, "a steady balance does not know what lies on the ground")
		}
	}
}

func TestTotalsAreSumsOfMonths(t *testing.T) {
	for _, r := range run(t, usual(), threeWinters()) {
		energy, back, edge := 0.0, 0.0, 0.0
		for m, month := range r.Months {
			energy, back, edge = energy+month.EnergyKWhM2, back+month.BackKWhM2, edge+month.EdgeDegreeHours
			if m >= 4 && m <= 8 {
				assert.Zero(t, month, "%s: May to September are not in the season", r.Strategy)
			}
			assert.LessOrEqual(t, month.PeakWM2, 450+1e-9, r.Strategy)
		}
		assert.Equal(t, energy, r.EnergyKWhM2, r.Strategy)
		assert.Equal(t, back, r.BackKWhM2, r.Strategy)
		assert.Equal(t, edge, r.EdgeDegreeHours, r.Strategy)
		require.Len(t, r.Years, 3)
		assert.InDelta(t, (r.Years[0].EnergyKWhM2+r.Years[1].EnergyKWhM2+r.Years[2].EnergyKWhM2)/3, r.EnergyKWhM2, 1e-9)
		assert.LessOrEqual(t, r.IdlingKWhM2, r.EnergyKWhM2)
		assert.InDelta(t, r.EnergyKWhM2*0.03/1.03, r.BackKWhM2, 1e-9)
	}
}

// Orderings that any right model shows: engineering method, section 4.
func TestOrderingsOfEnergy(t *testing.T) {
	for _, free := range []float64{0, 0.5, 1} {
		in := usual()
		in.SnowFree = free
		by := run(t, in, made())
		more := func(a, b Strategy) {
			assert.Greater(t, by[a].EnergyKWhM2, by[b].EnergyKWhM2, "A_r %g: %s against %s", free, a, b)
		}
		more(AlwaysOn, PavementIdling)
		more(AerialSlabIdling, AerialSlab)
		more(PavementIdling, Pavement)
		more(BothDetectorsIdling, BothDetectors)
		more(Aerial, AerialSlab)
		more(Aerial, Manual)
		more(Manual, ManualSlab)
		assert.Zero(t, by[Unheated].EnergyKWhM2)
		assert.Equal(t, by[Unheated].SeasonHours, by[Unheated].HoursOff)
	}
}

// pattern runs the senses of a strategy over hours written as letters: s snow seen, . dry and cold, w above the shut-off, x below the lockout with
// snow. It returns a letter for each hour: M melting, D drying, I idling, . off.
func pattern(c control, in Input, weather string) string {
	p := plantOf(&in)
	var s state
	var out strings.Builder
	for _, letter := range weather {
		h := forcing{month: 1, airC: -5, cold: true, wetLoss: 100, melt: 100, idle: 80, wetLimit: math.Inf(1), evaporates: 0.15}
		switch letter {
		case 's', 'x':
			h.seen, h.moist, h.snowMM, h.snowHeat, h.locked = true, true, 1, p.meltHeat, letter == 'x'
		case 'w':
			h.warm, h.cold, h.airC = true, false, 8
		}
		call := s.called(c.by, &in, &h)
		m := allowed(call, c.idles, &h)
		s.heat(m, m > idling && s.call == off && s.mode == off, c.limited, &p, &h)
		s.call, s.mode = call, m
		out.WriteByte(".IMD"[m])
	}
	return out.String()
}

func TestWhatBeginsAndEndsHeat(t *testing.T) {
	byName := map[Strategy]control{}
	for _, c := range controls {
		byName[c.strategy] = c
	}
	const source = "control rules of the engineering method, section 4: aerial timer 4 h, manual 3 h late and 6 h, off-delay 1 h"
	for _, tt := range []struct {
		name          string
		strategy      Strategy
		weather, want string
		source        string
	}{
		{"timer after the last snow seen", Aerial, "..s..........", "..MMMMM......", source},
		{"the timer restarts", Aerial, "..s..s.......", "..MMMMMMMM...", source},
		{"no heat in warm weather, the timer runs on", Aerial, "..sww........", "..M..MM......", source},
		{"operator late", Manual, "..s.............", ".....MMMMMM.....", source},
		{"renewed while it snows at expiry", Manual, "..sssssssss..........", ".....MMMMMM..........", source + "; hour 11 is the expiry, snow ended in hour 10"},
		{"renewed once", Manual, "..ssssssssss..........", ".....MMMMMMMMMMMM.....", source},
		{"new call after it ended", Manual, "s.........s.............", "...MMMMMM....MMMMMM.....", source},
		// 1 mm falls in the hour that warms the slab and is melted in the next; then a film of 0.3 mm dries by 0.15 mm in each of two hours
		{"dry, then off-delay", Pavement, "..s..........", "..MMMD.......", source + "; drying by hand"},
		{"idling before and after", PavementIdling, "..s..........", "IIMMMDIIIIIII", source + "; a warm slab melts 1 mm as it falls and dries half of the film in each of the next two hours, by hand"},
		{"both must be satisfied", BothDetectors, "..s..........", "..MMMMM......", source},
		{"off above the shut-off, the film gone", PavementIdling, "..sww....", "IIM..IIII", source},
		{"locked out, idling goes on", AerialSlabIdling, "..x.......", "IIIMMMMIII", source},
		{"season", AlwaysOn, "..sw.", "MMM.M", source},
		{"never", Unheated, "..s..", ".....", source},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			in := usual()
			got := pattern(byName[tt.strategy], in, tt.weather)
			assert.Equal(t, tt.want, got, "weather  %s\nsource: %s", tt.weather, tt.source)
		})
	}
}

func TestFullOutputRunsWithoutASlabSensor(t *testing.T) {
	r := run(t, usual(), made())[Aerial]
	assert.InEpsilon(t, r.HoursMelting*0.450, r.EnergyKWhM2, 1e-12, "hours × installed output, by hand")
}

// In unchanging weather the season is the surface's balance times its hours.
func TestUnchangingWeatherIsTheSurfacesBalance(t *testing.T) {
	in := usual()
	in.InstalledWM2, in.CoreResistance = 2000, 1e-6
	cold := weather.Hour{AirC: -8, DewC: -10, WindMS: 5, PressurePa: 101325, CloudShare: 0.3, InfraredWM2: math.NaN()}
	c := surface.Conditions{AirC: -8, DewC: -10, WindMS: 5, PressurePa: 101325, LengthM: 6.1, MeanRadiantC: surface.SkyRadiantC(-8, -10, 0.3)}
	up := func(strategy Strategy, st weather.Station) float64 { // mean of the season's hours [W/m²]
		wh := run(t, in, st)[strategy].EnergyKWhM2 * 1000
		if strategy == AlwaysOn {
			return (wh - in.InstalledWM2) / 1.03 / (5088 - 1) // the first hour warms the slab at full output
		}
		return wh / 1.03 / 5088
	}
	t.Run("idling", func(t *testing.T) {
		assert.InEpsilon(t, surface.DryLoss(0.5, c), up(PavementIdling, constant(cold)), 1e-9)
	})
	t.Run("always on, dry", func(t *testing.T) {
		assert.InEpsilon(t, surface.DryLoss(3, c), up(AlwaysOn, constant(cold)), 1e-9)
	})
	for _, free := range []float64{0, 0.5, 1} {
		t.Run(fmt.Sprintf("snow, A_r %g", free), func(t *testing.T) {
			in.SnowFree = free
			h := cold
			h.SnowMM = 0.8
			c := c
			c.SnowMMH, c.MeanRadiantC = 0.8, h.AirC
			// The snow of the hour that warms the slab, 0.8 mm, lies until the next: its balance counts 0.8 mm more and 80 % less bare surface.
			balance := surface.Balance(c, free)
			want := balance.Total + (0.8*meltHeat()-0.8*(balance.Total-balance.Sensible-balance.Melt))/5087
			assert.InEpsilon(t, want, up(AlwaysOn, constant(h)), 1e-9)
		})
	}
	t.Run("infrared of the file", func(t *testing.T) {
		h := cold
		h.InfraredWM2 = 220
		c := c
		c.MeanRadiantC = surface.InfraredRadiantC(220)
		assert.InEpsilon(t, surface.DryLoss(0.5, c), up(PavementIdling, constant(h)), 1e-9)
	})
	t.Run("sun", func(t *testing.T) {
		h := cold
		h.SunWM2 = 50
		assert.InEpsilon(t, surface.DryLoss(0.5, c)-30, up(PavementIdling, constant(h)), 1e-9, "0.6 × 50 W/m² less")
	})
}

func TestSnowFactor(t *testing.T) {
	in := usual()
	in.SnowFactor = 0
	none := run(t, in, made())
	assert.Zero(t, none[Aerial].EnergyKWhM2)
	assert.InEpsilon(t, none[AerialSlabIdling].EnergyKWhM2, none[AerialSlabIdling].IdlingKWhM2, 1e-12)
	one := run(t, usual(), made())
	in.SnowFactor = 1.45
	more := run(t, in, made())
	for _, s := range []Strategy{AlwaysOn, Aerial, AerialSlab, Pavement, PavementIdling} {
		assert.GreaterOrEqual(t, more[s].EnergyKWhM2, one[s].EnergyKWhM2, s)
	}
}

func TestLockoutAndUnmetHours(t *testing.T) {
	in := usual()
	in.LowestMeltC = units.Some(-8.0)
	by := run(t, in, made())
	free := run(t, usual(), made())
	snow := by[Unheated].UnmetHours
	assert.Positive(t, snow)
	assert.Zero(t, by[Unheated].LockedOutHours)
	for _, s := range Strategies[1:] {
		assert.Positive(t, by[s].LockedOutHours, s)
		assert.Zero(t, free[s].LockedOutHours, s)
		assert.Less(t, by[s].LockedOutHours, snow, s)
		assert.Less(t, by[s].EnergyKWhM2, free[s].EnergyKWhM2, s)
		assert.Less(t, by[s].UnmetHours, snow, s)
	}
	in.InstalledWM2 = 50
	assert.Greater(t, run(t, in, made())[Pavement].UnmetHours, by[Pavement].UnmetHours)
}

func TestNothingInstalled(t *testing.T) {
	in := usual()
	in.InstalledWM2, in.CoreResistance = 0, 0
	for _, r := range run(t, in, made()) {
		assert.Zero(t, r.EnergyKWhM2, r.Strategy)
		assert.Equal(t, r.SeasonHours, r.HoursOff+r.HoursIdling+r.HoursMelting+r.HoursDrying)
	}
}

func TestSeasonWithinAYear(t *testing.T) {
	in := usual()
	in.Start, in.End = Day{Month: 4, Day: 1}, Day{Month: 10, Day: 31}
	assert.Equal(t, 214.0*24, run(t, in, made())[AlwaysOn].SeasonHours)
}

func TestRefused(t *testing.T) {
	_, err := Run(usual(), weather.Station{Name: "empty"})
	require.Error(t, err)
	in := usual()
	in.InstalledWM2 = 0
	_, err = Run(in, weather.Station{Name: "empty"})
	require.ErrorIs(t, err, ErrNoHours)
	in = usual()
	in.InstalledWM2 = math.NaN()
	_, err = Run(in, made())
	require.Error(t, err)
	in = usual()
	in.CoreResistance = math.NaN()
	_, err = Run(in, made())
	require.Error(t, err)
}

// Snow that falls is melted, or lies on, whatever the hours bring.
func TestHeatNeverMeltsMoreThanLies(t *testing.T) {
	draw := rand.New(rand.NewPCG(7, 11))
	in := usual()
	p := plantOf(&in)
	var s state
	for range 20000 {
		h := forcing{airC: draw.Float64()*20 - 15, wetLoss: draw.Float64()*500 - 50, melt: draw.Float64() * 300, idle: draw.Float64() * 200, wetLimit: draw.Float64() * 600,
			evaporates: draw.Float64() * 0.1}
		if draw.IntN(3) == 0 {
			h.snowMM = draw.Float64() * 3
			h.snowHeat = h.snowMM * p.meltHeat
		}
		before := s.lyingMM + h.snowMM
		up := s.heat(mode(draw.IntN(int(modes))), draw.IntN(20) == 0, draw.IntN(2) == 0, &p, &h)
		require.True(t, up >= 0 && up <= p.up, "heat %g", up)
		require.True(t, s.lyingMM >= 0 && s.lyingMM <= before, "lies %g of %g", s.lyingMM, before)
		require.GreaterOrEqual(t, up, 0.999*(before-s.lyingMM)*p.meltHeat-50-unheatedFilm*max(0, h.airC), "melted without heat")
	}
}

func TestHourLoopAllocatesNothing(t *testing.T) {
	in := usual()
	p := plantOf(&in)
	hours := make([]forcing, 100)
	for i := range hours {
		hours[i] = forcing{month: 1, seen: i%9 == 0, moist: i%9 == 0, snowMM: float64(i%9) / 9, snowHeat: 50, wetLoss: 100, melt: 80, idle: 60, cold: true}
	}
	var total tally
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for k := range controls {
			total.winter(&controls[k], &in, &p, hours)
		}
	}))
}

func TestEveryNumberIsAStep(t *testing.T) {
	in := usual()
	in.LowestMeltC = units.Some(-20.0)
	for _, r := range run(t, in, threeWinters()) {
		steps := r.Steps()
		seen := map[string]bool{}
		values := map[float64]bool{}
		for _, s := range steps {
			assert.False(t, seen[s.Symbol], "%s: symbol %s stands twice", r.Strategy, s.Symbol)
			for _, from := range s.From {
				assert.True(t, seen[from], "%s: %s rests on %s, which is no earlier step", r.Strategy, s.Symbol, from)
			}
			assert.NotEmpty(t, s.Source, s.Symbol)
			assert.True(t, s.Text == "" || s.Quantity == units.Text, s.Symbol)
			seen[s.Symbol], values[s.Value] = true, true
		}
		for name, v := range map[string]float64{"off": r.HoursOff, "idling": r.HoursIdling, "melting": r.HoursMelting, "drying": r.HoursDrying, "season": r.SeasonHours,
			"energy": r.EnergyKWhM2, "idle": r.IdlingKWhM2, "back": r.BackKWhM2, "edge": r.EdgeDegreeHours, "unmet": r.UnmetHours, "locked": r.LockedOutHours, "peak": r.PeakWM2()} {
			assert.True(t, values[v], "%s: %s %g has no step", r.Strategy, name, v)
		}
	}
}
