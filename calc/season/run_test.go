package season

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// laid returns a dry pavement of one temperature, and its steps of a length.
func laid(t *testing.T, c Column, coreResistance, everywhereC, seconds float64, cut int) (*pavement, factors) {
	t.Helper()
	n, err := netOf(&c, coreResistance, cut)
	require.NoError(t, err)
	p := &pavement{net: &n, vapour: newVapour(), lewis: lewisRatio()}
	for i := range n.n {
		p.t[i] = everywhereC
	}
	return p, n.factor(seconds)
}

// Steady input gives the resistances of the slab: the slab's own answer to 300 W/m², with a ground that takes its back loss.
func TestSteadyInputIsTheSlabsAnswer(t *testing.T) {
	s := slab.Section{SurfaceM: 0.05, SurfaceWMK: 1.2, SlabM: 0.15, SlabWMK: 1.4, DepthM: 0.11, SpacingM: 0.2, OuterM: 0.02, WallM: 0.002, WallWMK: 0.38, InsulationM2KW: 0.9,
		SensorDepthM: 0.025, SlabHeatCapacityJM3: 2.1e6}
	const up = 300.0
	unit, err := slab.Unitary(s.Geometry())
	require.NoError(t, err)
	answer, err := unit.At(s, up)
	require.NoError(t, err)
	film := surface.Film()
	c := ColumnOf(answer, units.Some(80.0))
	level := film + up*c.resistance(c.DepthM)
	total := s.SurfaceM + s.SlabM
	c.GroundC = level - answer.BackWM2*(c.resistance(total)-c.resistance(c.DepthM)+s.InsulationM2KW+groundM/groundWMK)
	p, f := laid(t, c, answer.CoreResistance, 0, coarseS, 1)
	e := exposure{airC: film - up/25, dewC: -60, forced: 25, warmer: 1e-9, colder: 1e-9, sky: blackBody(film), pressurePa: 101325}
	for range 24 * 3650 {
		p.step(&f, &e, up+answer.BackWM2)
	}
	assert.InDelta(t, film, p.t[0], 1e-6, "surface")
	assert.InDelta(t, answer.SensorC.Value-answer.SurfaceMinC.Value, p.t[p.net.sensor]-p.t[0], 1e-6, "sensor over the surface it is told against")
	assert.InDelta(t, level, p.t[p.net.pipe], 1e-6, "pipe level")
	assert.InDelta(t, answer.MeanFluidC.Value, p.t[p.net.pipe]+(up+answer.BackWM2)*c.FluidResistance, 0.05, "fluid: its resistance is rounded to 0.0001 m²·K/W")
	assert.InDelta(t, answer.BackWM2, p.net.underflow(&p.t, c.GroundC), 1e-6, "back loss")
}

// With A_r 1 forced, T_MR = T_a and melting at the film's temperature the surface is the handbook's balance.
func TestSteadyInputIsTheSurfacesBalance(t *testing.T) {
	in := described()
	worst := 0.0
	for _, airC := range []float64{-25, -12, -8.3, -3, -0.5, 0.4} {
		for _, wind := range []float64{0, 0.5, 2, 5, 8.81, 15} {
			for _, rate := range []float64{0.2, 1, 2.54, 5} {
				h := weather.Hour{AirC: airC, DewC: airC - 1.7, WindMS: wind, PressurePa: 98000, SnowMM: rate, InfraredWM2: blackBody(airC)}
				e := (&course{in: &in}).exposure(&h)
				want := surface.Balance(surface.Conditions{AirC: airC, DewC: h.DewC, WindMS: wind, PressurePa: 98000, LengthM: in.LengthM, SnowMMH: rate, MeanRadiantC: airC}, 1)
				p, f := laid(t, in.Column, in.CoreResistance, surface.Film(), fineS, 1)
				p.meltC, p.alwaysOut, p.snow, p.water = surface.Film(), true, 5, filmMM
				melted := 0.0
				for range 24 * 12 {
					p.snow, p.ice, p.water = 5, 0, filmMM // enough of either to hold the melting point
					p.step(&f, &e, want.Total)
					melted = 5 - p.solid() + e.snow*f.seconds
				}
				require.InDelta(t, surface.Film(), p.t[0], 1e-9)
				// More or less melted than fell: the rest of the heat is snow that lay.
				up := p.net.link[0]*(p.t[1]-p.t[0]) - (melted/f.seconds-e.snow)*(fusion+(waterHeat-iceHeat)*surface.Film())
				worst = max(worst, math.Abs(up/want.Total-1))
				assert.InEpsilon(t, want.Total, up, 1e-3, "air %g °C, wind %g m/s, %g mm/h", airC, wind, rate)
			}
		}
	}
	t.Logf("worst %.1e", worst)
}

// A step of the surface's temperature runs down a half-space as the complementary error function.
func TestStepChangeOfAHalfSpace(t *testing.T) {
	c := Column{Layers: [3]Layer{{}, {}, {ThickM: 0.3, WMK: groundWMK}}, DepthM: 0.1, HeatJM3K: groundJM3K}
	const step, diffusivity = 10.0, groundWMK / groundJM3K
	e := exposure{airC: step, dewC: -60, forced: 1e8, warmer: 1e-9, colder: 1e-9, sky: blackBody(step), pressurePa: 101325}
	worst := map[int]float64{}
	for _, cut := range []int{1, 2} {
		p, f := laid(t, c, 0.04/groundWMK, 0, fineS/float64(cut), cut)
		places := [...]struct {
			node   int
			depthM float64
		}{{p.net.sensor, 0.04}, {p.net.pipe, 0.1}, {p.net.under, 0.3}}
		for k := 1; k <= 48*12*cut; k++ {
			p.step(&f, &e, 0)
			if seconds := float64(k) * f.seconds; seconds >= 2*hourS && k%(12*cut) == 0 {
				for _, at := range places {
					want := step * math.Erfc(at.depthM/(2*math.Sqrt(diffusivity*seconds)))
					worst[cut] = max(worst[cut], math.Abs(p.t[at.node]-want)/step)
				}
			}
		}
	}
	t.Logf("farthest from erfc over 2 to 48 h at 40, 100 and 300 mm: %.2f %%, cut in two %.2f %% of the step", 100*worst[1], 100*worst[2])
	assert.Less(t, worst[1], 0.015, "of the step")
	assert.Less(t, worst[2], 0.6*worst[1])
}

// On a dry cold night the surface comes to rest where what the sky takes is what air and ground give.
func TestColdNightUnderTheSky(t *testing.T) {
	in := described()
	for _, infrared := range []float64{150, 200, 250} {
		for _, wind := range []float64{0.3, 2, 6} {
			h := weather.Hour{AirC: -15, DewC: -45, WindMS: wind, PressurePa: 101325, InfraredWM2: infrared}
			e := (&course{in: &in}).exposure(&h)
			p, f := laid(t, in.Column, in.CoreResistance, -15, coarseS, 1)
			for range 24 * 3650 {
				p.step(&f, &e, 0)
			}
			conditions := surface.Conditions{AirC: -15, WindMS: wind, PressurePa: 101325, LengthM: in.LengthM, MeanRadiantC: surface.InfraredRadiantC(infrared)}
			below := 0.1/1.4 + 0.9 + groundM/groundWMK
			low, high := -60.0, 10.0
			for range 60 {
				if mid := (low + high) / 2; surface.DryLoss(mid, conditions)+(mid-in.Column.GroundC)/below < 0 {
					low = mid
				} else {
					high = mid
				}
			}
			assert.InDelta(t, low, p.t[0], 0.05, "infrared %g W/m², wind %g m/s", infrared, wind)
		}
	}
}

// stormy returns an hour drawn at random, in runs.
func stormy(draw *rand.Rand, before weather.Hour) weather.Hour {
	h := before
	h.AirC = max(-30, min(12, h.AirC+draw.NormFloat64()*1.5))
	h.DewC = h.AirC - math.Abs(draw.NormFloat64())*3
	h.WindMS, h.CloudShare, h.InfraredWM2 = math.Abs(draw.NormFloat64())*5, draw.Float64(), math.NaN()
	h.SunWM2 = max(0, draw.NormFloat64()*200)
	h.SnowMM, h.RainMM = 0, 0
	if draw.IntN(4) == 0 {
		share := weather.SnowShare(h.AirC)
		water := draw.ExpFloat64()
		h.SnowMM, h.RainMM = share*water, (1-share)*water
	}
	return h
}

// The books close whatever the hours bring, nothing lies in the negative, the heat is at most what is installed and the fluid at most at its limit.
func TestBooksCloseInAnyWeather(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 5))
	st := made()
	in := described()
	in.Column.FluidLimitC = units.Some(35.0)
	for _, support := range []slab.Support{slab.OnGround, slab.OpenAir, slab.HeatedSpace} {
		in.Column.Support = support
		c, err := newCourse(&in, &st, asUsed)
		require.NoError(t, err)
		hours := make([]exposure, 4000)
		h := weather.Hour{Month: 1, PressurePa: 95000, AirC: -3}
		for i := range hours {
			h = stormy(draw, h)
			hours[i] = c.exposure(&h)
		}
		for k := range controls {
			var total tally
			w := c.way(&controls[k], &winter{pavement: c.start(hours)}, &total)
			at := w.opened()
			for i := range hours {
				w.hour(&hours[i])
				require.True(t, w.snow >= 0 && w.ice >= 0 && w.water >= 0, "%+v", w.deck)
				require.True(t, w.solid() < quietMM || w.t[0] <= 1e-9, "snow on %g °C", w.t[0])
				require.True(t, w.hourWM2 >= 0 && w.hourWM2 <= in.InstalledWM2+1e-9)
				for i := range w.net.n {
					require.True(t, w.t[i] > -60 && w.t[i] < 80, "node %d at %g °C", i, w.t[i])
				}
				if w.on {
					q := w.machine.heat(w.mode, &w.pavement, &hours[i], in.InstalledWM2)
					require.True(t, q == 0 || w.t[w.net.pipe]+q*in.Column.FluidResistance <= 35+1e-9)
				}
			}
			books := w.closed(at)
			assert.Less(t, math.Abs(books.energyJ), 1e-9*books.energyGained, "energy, %s", controls[k].strategy)
			assert.Less(t, math.Abs(books.massKG), 1e-9*books.massGained, "water, %s", controls[k].strategy)
		}
	}
}

// The loss that the steps book is that of calc/surface at the temperatures they lead to, though each step takes it in a straight line.
func TestBookedLossIsTheSurfacesLoss(t *testing.T) {
	in := described()
	st := made()
	c, err := newCourse(&in, &st, asUsed)
	require.NoError(t, err)
	draw := rand.New(rand.NewPCG(1, 2))
	h := weather.Hour{Month: 1, PressurePa: 101325, AirC: -5}
	var total tally
	p, _ := laid(t, in.Column, in.CoreResistance, 0, fineS, 1)
	w := c.way(&controls[1], &winter{pavement: *p}, &total)
	loss, booked := 0.0, 0.0
	for range 3000 {
		h = stormy(draw, h)
		h.AirC, h.DewC, h.SnowMM, h.RainMM = min(h.AirC, 4), -50, 0, 0
		e := c.exposure(&h)
		before := w.surfaceOut
		w.timed = true
		for range int(fineSteps) {
			w.step(&c.fine, &e, w.heat(melting, &w.pavement, &e, in.InstalledWM2))
			loss += fineS * (surface.DryLoss(w.t[0], surface.Conditions{AirC: h.AirC, WindMS: h.WindMS, PressurePa: h.PressurePa, LengthM: in.LengthM,
				MeanRadiantC: surface.SkyRadiantC(h.AirC, h.DewC, h.CloudShare)}) - bareAbsorptance*h.SunWM2)
		}
		booked += w.surfaceOut - before
	}
	t.Logf("booked %.2f, at the temperatures %.2f MJ/m²: %+.3f %%", booked/1e6, loss/1e6, 100*(booked/loss-1))
	assert.InEpsilon(t, loss, booked, 0.001)
}

func TestSumsUp(t *testing.T) {
	for name, st := range map[string]weather.Station{"one winter": made(), "three winters": threeWinters()} {
		for _, r := range seasons(t, described(), st) {
			about := name + ", " + string(r.Strategy)
			assert.Equal(t, Transient, r.Estimate)
			assert.Equal(t, 5088.0, r.SeasonHours, "%s: 212 days from 1 October to 30 April", about)
			assert.Equal(t, r.SeasonHours, r.HoursOff+r.HoursIdling+r.HoursMelting+r.HoursDrying, about)
			require.True(t, r.SnowOnSurfaceH.Known && r.BareShare.Known && r.RefreezeEvents.Known, about)
			assert.True(t, r.Ground.Closes(), about)
			var energy, back, snow, melting float64
			for m, month := range r.Months {
				energy, back, snow, melting = energy+month.EnergyKWhM2, back+month.BackKWhM2, snow+month.SnowOnSurfaceH, melting+month.HoursMelting
				if m >= 4 && m <= 8 {
					assert.Zero(t, month, "%s: May to September are not in the season", about)
				}
				assert.LessOrEqual(t, month.PeakWM2, 450+1e-9, about)
			}
			assert.Equal(t, energy, r.EnergyKWhM2, about)
			assert.Equal(t, back, r.BackKWhM2, about)
			assert.InDelta(t, snow, r.SnowOnSurfaceH.Value, 1e-9, about)
			assert.InDelta(t, melting, r.HoursMelting, 0.01, about)
			assert.LessOrEqual(t, r.SnowOnSurfaceH.Value, r.SeasonHours, about)
			assert.True(t, r.BareShare.Value >= 0 && r.BareShare.Value <= 1, about)
			if len(st.Years) == 3 {
				require.Len(t, r.Years, 3)
				assert.InDelta(t, (r.Years[0].EnergyKWhM2+r.Years[1].EnergyKWhM2+r.Years[2].EnergyKWhM2)/3, r.EnergyKWhM2, 1e-9)
			}
		}
	}
}

// Orderings that any right model shows: engineering method, section 4.
func TestOrderings(t *testing.T) {
	by := seasons(t, described(), made())
	energy := func(a, b Strategy) {
		assert.Greater(t, by[a].EnergyKWhM2, by[b].EnergyKWhM2, "energy: %s against %s", a, b)
	}
	snow := func(a, b Strategy, times float64) {
		assert.Greater(t, by[a].SnowOnSurfaceH.Value, times*by[b].SnowOnSurfaceH.Value, "snow on the surface: %s against %s", a, b)
	}
	energy(AlwaysOn, PavementIdling)
	energy(AerialSlabIdling, AerialSlab)
	energy(PavementIdling, Pavement)
	energy(BothDetectorsIdling, BothDetectors)
	energy(Aerial, AerialSlab)
	energy(Aerial, Manual)
	snow(AerialSlab, AerialSlabIdling, 1)
	snow(Pavement, PavementIdling, 1)
	snow(BothDetectors, BothDetectorsIdling, 1)
	snow(Unheated, AerialSlab, 1.5)
	snow(AerialSlab, Pavement, 1)
	snow(AerialSlabIdling, PavementIdling, 1)
	assert.Zero(t, by[Unheated].EnergyKWhM2)
	assert.Zero(t, by[Unheated].BackKWhM2, "back loss is what is lost beyond the unheated slab")
	assert.Zero(t, by[Unheated].EdgeDegreeHours)
	assert.Equal(t, by[Unheated].SeasonHours, by[Unheated].HoursOff)
	assert.False(t, by[Unheated].Ground.AfterSnowH.Known)
}

// Insulation lowers the back loss; a closer row of pipes, which is a smaller resistance of the fluid, leaves less snow where the fluid's limit holds
// the heat back: trends of published simulations.
func TestTrendsOfTheSection(t *testing.T) {
	back := math.Inf(1)
	for _, insulation := range []float64{0, 0.5, 0.9, 2, 4} {
		in := described()
		in.Column.InsulationM2KW = insulation
		r := seasons(t, in, made())[AlwaysOn]
		assert.Less(t, r.BackKWhM2, back, "R %g", insulation)
		back = r.BackKWhM2
	}
	snow, limited := 0.0, 0.0
	for _, fluid := range []float64{0.02, 0.05, 0.1, 0.2} {
		in := described()
		in.Column.FluidResistance, in.Column.FluidLimitC = fluid, units.Some(35.0)
		r := seasons(t, in, made())[Aerial]
		assert.GreaterOrEqual(t, r.SnowOnSurfaceH.Value, snow, "R_fluid %g", fluid)
		assert.GreaterOrEqual(t, r.Ground.FluidLimitedH, limited, "R_fluid %g", fluid)
		snow, limited = r.SnowOnSurfaceH.Value, r.Ground.FluidLimitedH
	}
	assert.Positive(t, limited)
}

// Halving the step moves the energy of a season by less than 1 %: engineering method, section 4. So does halving the cells.
func TestFineEnough(t *testing.T) {
	st := made()
	used := seasons(t, described(), st)
	for _, cut := range []resolution{{1, 2}, {2, 1}} {
		finer, err := run(described(), st, cut)
		require.NoError(t, err)
		for _, r := range finer[1:] {
			t.Logf("%+v %-38s %+.2f %% of %.0f kWh/m², hours with snow %.0f against %.0f", cut, r.Strategy, 100*(r.EnergyKWhM2/used[r.Strategy].EnergyKWhM2-1), r.EnergyKWhM2,
				r.SnowOnSurfaceH.Value, used[r.Strategy].SnowOnSurfaceH.Value)
			assert.InEpsilon(t, used[r.Strategy].EnergyKWhM2, r.EnergyKWhM2, 0.01, "%+v %s", cut, r.Strategy)
		}
	}
}

func TestDetectorOfThePavement(t *testing.T) {
	const source = "engineering method, section 4: starts on solid above 0.05 mm, or liquid above 0.05 mm below 2 °C; dry below 0.02 mm; then 1 h"
	in := described()
	for _, tt := range []struct {
		name        string
		before      machine
		d           deck
		surfaceC    float64
		want        mode
		stillCalled bool
	}{
		{"dry", machine{}, deck{}, -5, off, false},
		{"snow", machine{}, deck{snow: 0.06}, -5, melting, true},
		{"frost", machine{}, deck{ice: 0.06}, -5, melting, true},
		{"too little snow", machine{}, deck{snow: 0.04}, -5, off, false},
		{"wet and cold", machine{}, deck{water: 0.06}, 1.9, melting, true},
		{"wet and warm", machine{}, deck{water: 0.3}, 2.1, off, false},
		{"still wet", machine{wet: true}, deck{water: 0.03}, 4, melting, true},
		{"dry again", machine{wet: true}, deck{water: 0.01, snow: 0.01}, 3, drying, false},
		{"off-delay over", machine{dryS: 0}, deck{}, 3, off, false},
		{"snow in the off-delay", machine{dryS: 600}, deck{snow: 0.1}, 0, melting, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := tt.before
			assert.Equal(t, tt.want, m.detect(&tt.d, tt.surfaceC, &in, fineS), source)
			assert.Equal(t, tt.stillCalled, m.wet)
		})
	}
	m := machine{wet: true}
	for k := range 13 {
		want := drying
		if k == 12 {
			want = off
		}
		assert.Equal(t, want, m.detect(&deck{}, 3, &in, fineS), "an hour of five minutes, step %d", k)
	}
}

func TestWhatIsDone(t *testing.T) {
	in := described()
	snowy, bare := &pavement{deck: deck{snow: 1}}, &pavement{}
	for _, tt := range []struct {
		name     string
		strategy Strategy
		timed    bool
		p        *pavement
		e        exposure
		want     mode
	}{
		{"called", Aerial, true, bare, exposure{}, melting},
		{"warm", Aerial, true, bare, exposure{warm: true}, off},
		{"warm, but snow lies", Aerial, true, snowy, exposure{warm: true}, melting},
		{"locked out", Aerial, true, snowy, exposure{locked: true}, off},
		{"locked out, idles on", AerialSlabIdling, true, snowy, exposure{locked: true, cold: true}, idling},
		{"idles", AerialSlabIdling, false, bare, exposure{cold: true}, idling},
		{"not cold", AerialSlabIdling, false, bare, exposure{}, off},
		{"does not idle", AerialSlab, false, bare, exposure{cold: true}, off},
		{"moisture", Pavement, false, snowy, exposure{}, melting},
		{"either begins", BothDetectors, false, snowy, exposure{}, melting},
		{"either begins, the other", BothDetectors, true, bare, exposure{}, melting},
		{"never", Unheated, false, snowy, exposure{cold: true}, off},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for k := range controls {
				if controls[k].strategy == tt.strategy {
					m := machine{c: &controls[k], timed: tt.timed}
					assert.Equal(t, tt.want, m.decide(tt.p, &tt.e, &in, fineS), "engineering method, section 4")
				}
			}
		})
	}
}

func TestOnAndOffAboutTheTarget(t *testing.T) {
	p, _ := laid(t, described().Column, 0.02, 0, fineS, 1)
	e := exposure{coreMeltC: 6, coreIdleC: 3}
	m := machine{c: &controls[1]}
	for _, tt := range []struct {
		mode   mode
		sensor float64
		want   float64
	}{{melting, 5.6, 0}, {melting, 5.4, 450}, {melting, 6.4, 450}, {melting, 6.6, 0}, {melting, 5.6, 0}, {idling, 2.6, 0}, {idling, 2.4, 450}, {idling, 3.6, 0}, {off, -9, 0}} {
		p.t[p.net.sensor] = tt.sensor
		assert.Equal(t, tt.want, m.heat(tt.mode, p, &e, 450), "%d at %g °C: ± 0.5 K, engineering method, section 4", tt.mode, tt.sensor)
	}
	p.net.fluidResistance, p.net.fluidLimitC = 0.05, 15
	p.t[p.net.sensor], p.t[p.net.pipe] = 0, 5
	assert.InEpsilon(t, 200, m.heat(melting, p, &e, 450), 1e-12, "(15 − 5)/0.05, by hand")
	p.t[p.net.pipe] = 20
	assert.Zero(t, m.heat(melting, p, &e, 450))
}

func TestWhatLies(t *testing.T) {
	for _, tt := range []struct {
		d    deck
		want Lying
	}{{deck{}, Dry}, {deck{water: 0.1}, Wet}, {deck{snow: 2, water: 0.2}, Slush}, {deck{snow: 2}, Snow}, {deck{ice: 0.5}, Ice}} {
		assert.Equal(t, tt.want, tt.d.lying())
	}
	d := deck{snow: 10}
	assert.InEpsilon(t, 0.1/(0.021+2.5e-6*1e4), d.insulance(1), 1e-12, "100 mm of new snow, by hand")
}

// Snow at 0 °C holds the surface there, and what melts is the heat left over: 334 W/m² for 1 mm an hour is 92.8 by hand.
func TestMeltsWithTheHeatLeftAfterLosses(t *testing.T) {
	const dt = 300.0
	c := settle(50, 200, 0, 1, 0, dt)
	assert.Zero(t, c.surfaceC)
	assert.InEpsilon(t, 200*dt/334e3, c.melted, 1e-12)
	c = settle(50, -200, 0, 0, 1, dt)
	assert.Zero(t, c.surfaceC)
	assert.InEpsilon(t, -200*dt/334e3, c.melted, 1e-12, "freezes")
	c = settle(50, 2000, 0, 0.1, 0, dt)
	assert.Equal(t, 0.1, c.melted)
	assert.InEpsilon(t, (2000-334e3*0.1/dt)/(50+2117*0.1/dt), c.surfaceC, 1e-12, "what is left warms the surface and the water")
	assert.Equal(t, change{4, 0}, settle(50, 200, 0, 0, 1, dt))
}

// Without a drop in or out, water above the film falls to 1/e of it in ten minutes.
func TestDrainsInTenMinutes(t *testing.T) {
	p, f := laid(t, described().Column, 0.02, 4, fineS, 1)
	e := exposure{airC: 4, dewC: 4, humidity: 0.00505, forced: 1e-6, warmer: 1e-9, colder: 1e-9, sky: blackBody(4), pressurePa: 101325}
	p.water = 1.3
	for range 2 {
		p.step(&f, &e, 0)
	}
	assert.InDelta(t, filmMM+math.Exp(-1), p.water, 1e-3)
}

func TestPercentileOfDryingTimes(t *testing.T) {
	var a, b tally
	for k := 1; k <= 5; k++ {
		a.afterSnow.add(float64(k) * hourS)
		b.afterSnow.add(float64(k+5) * hourS)
	}
	hours, n := percentile(func(t *tally) *durations { return &t.afterSnow }, []tally{a, b}, 0.9)
	assert.Equal(t, units.Some(9.0), hours, "nine of 1 to 10 h are not above 9 h")
	assert.Equal(t, 10, n)
	none, n := percentile(func(t *tally) *durations { return &t.filmDries }, []tally{a, b}, 0.9)
	assert.False(t, none.Known)
	assert.Zero(t, n)
}

// A stop on a wet pavement in the cold is one event; a dry one none.
func TestRefreezingAfterAStop(t *testing.T) {
	var total tally
	w := way{tally: &total}
	for _, s := range []struct {
		mode  mode
		water float64
		froze float64
		want  int
	}{{melting, 0.3, 0, 0}, {off, 0.3, 0, 0}, {off, 0.25, 0.08, 0}, {off, 0.1, 0.2, 1}, {off, 0, 0.3, 1}, {melting, 0.3, 0.3, 1}, {off, 0.01, 0.3, 1}, {off, 0, 0.6, 1},
		{drying, 0.2, 0.6, 1}, {idling, 0.2, 0.6, 1}, {idling, 0, 0.6, 1}, {idling, 0.3, 0.9, 1}} {
		w.water = s.water
		w.stops(s.mode)
		w.froze = s.froze
		w.stops(s.mode)
		assert.Equal(t, s.want, total.refrozen, fmt.Sprintf("%+v", s))
	}
}

// told returns the storm of every strategy, of a window of a winter.
func told(t *testing.T, st weather.Station, at Window) map[Strategy]Storm {
	t.Helper()
	in := described()
	in.Window = at
	by := map[Strategy]Storm{}
	for s, r := range seasons(t, in, st) {
		by[s] = r.Storm
	}
	return by
}

func TestStormIsTheSameRun(t *testing.T) {
	st := made()
	whole := seasons(t, described(), st)
	all := told(t, st, Window{0, 0, 5088})
	for s, r := range whole {
		energy := 0.0
		for _, h := range all[s].Hours {
			energy += h.HeatWM2 / wattHours
		}
		assert.InDelta(t, r.EnergyKWhM2, energy, 1e-9, s)
		require.NotEmpty(t, r.Storm.Hours)
		assert.Equal(t, "made", r.Storm.Label)
		first := slices.Index(all[s].Hours, r.Storm.Hours[0])
		require.GreaterOrEqual(t, first, 0, s)
		assert.Equal(t, all[s].Hours[first:first+len(r.Storm.Hours)], r.Storm.Hours, s)
		snow := 0.0
		for _, h := range r.Storm.Hours {
			snow += h.SnowMM
		}
		assert.Positive(t, snow)
	}
	assert.Len(t, told(t, threeWinters(), Window{2, 100, 7})[Aerial].Hours, 7)
	for _, bad := range []Window{{1, 0, 5}, {-1, 0, 5}, {0, -1, 5}, {0, 5085, 5}, {0, 5, 0}} {
		in := described()
		in.Window = bad
		_, err := Run(in, st)
		assert.ErrorIs(t, err, ErrWindow)
	}
}

// The storm of a station that has its winter with less and with more snow too is that of the winter as it is.
func TestStormIsOfTheWinterAsItIs(t *testing.T) {
	in := described()
	in.LessSnow, in.MoreSnow = 0.5, 1.5
	as := seasons(t, described(), made())
	for s, r := range seasons(t, in, made()) {
		assert.Equal(t, as[s].Storm, r.Storm, s)
	}
}

// Ten storms of 1 to 10 mm: nine do not exceed the tenth's place from below, so that the one at 0.9 of them is drawn, with 6 h before and 18 h after.
func TestRepresentativeStorm(t *testing.T) {
	st := constant(weather.Hour{AirC: -5, DewC: -7, WindMS: 3, PressurePa: 101325, InfraredWM2: math.NaN()})
	hours := st.Years[0].Hours
	for storm := range 10 {
		for k := range 4 {
			hours[100+storm*48+k].SnowMM = 0.25 * float64(10-storm)
		}
	}
	in := described()
	winters, err := in.winters(&st)
	require.NoError(t, err)
	autumn := 92 * 24 // October to December come first
	assert.Equal(t, Window{0, autumn + 100 - 6, 6 + 4 + 18}, representative(winters))
	for i := range hours {
		hours[i].SnowMM = 0
	}
	assert.Zero(t, representative(winters))
	for s, r := range seasons(t, in, st) {
		assert.Empty(t, r.Storm.Hours, s)
	}
}

func TestRefused(t *testing.T) {
	_, err := Run(described(), weather.Station{Name: "empty"})
	require.Error(t, err)
	for name, spoil := range map[string]func(*Input){
		"no layers": func(in *Input) { in.Column.Layers = [3]Layer{} }, "pipe below the slab": func(in *Input) { in.Column.DepthM = 0.2 },
		"sensor below the slab": func(in *Input) { in.CoreResistance = 1 }, "no heat capacity": func(in *Input) { in.Column.HeatJM3K = 0 },
		"conductivity": func(in *Input) { in.Column.Layers[2].WMK = math.NaN() }, "output": func(in *Input) { in.InstalledWM2 = math.NaN() },
		"length": func(in *Input) { in.LengthM = 0 }, "ground": func(in *Input) { in.Column.GroundC = math.NaN() }, "snow": func(in *Input) { in.MoreSnow = math.Inf(1) }, "mild": func(in *Input) { in.LessSnow = 1.1 }, "wind": func(in *Input) { in.WindFactor = -1 },
		"insulation": func(in *Input) { in.Column.InsulationM2KW = -1 }, "fluid": func(in *Input) { in.Column.FluidResistance = -1 },
	} {
		in := described()
		spoil(&in)
		_, err := Run(in, made())
		assert.Error(t, err, name)
	}
}

// A slab that nothing heats has the winter of the one that is not heated, but for the step's length.
func TestNothingInstalledIsUnheated(t *testing.T) {
	in := described()
	heated := seasons(t, in, made())[Unheated]
	in.InstalledWM2, in.CoreResistance, in.Column.FluidResistance = 0, 0, 0
	results, err := Run(in, made())
	require.NoError(t, err)
	require.Len(t, results, 1)
	assert.Equal(t, Unheated, results[0].Strategy)
	assert.InDelta(t, heated.SnowOnSurfaceH.Value, results[0].SnowOnSurfaceH.Value, 10, "but for where nodes stand")
	assert.Zero(t, results[0].EnergyKWhM2)
}

func TestSectionsOfAllKinds(t *testing.T) {
	for _, thick := range []float64{0.075, 0.15, 0.6} {
		for _, depth := range []float64{0.035, 0.07} {
			for _, core := range []float64{0, 0.01, 0.03, 0.05} {
				for _, layers := range [][3]Layer{{{}, {}, {thick, 1.4}}, {{0.06, 1.2}, {0.03, 0.7}, {thick, 2.3}}, {{0.02, 1}, {}, {thick, 0.5}}} {
					c := described().Column
					c.Layers, c.DepthM = layers, depth
					n, err := netOf(&c, core, 2)
					require.NoError(t, err)
					require.True(t, n.n < mostNodes && n.pipe > 0 && n.pipe <= n.under && n.sensor <= n.under)
					above := 0.0
					for i := range n.sensor {
						above += 1 / n.link[i]
					}
					assert.InDelta(t, core, above, 1e-6, "what lies above the sensor's node")
					capacity := 0.0
					for i := range n.under + 1 {
						capacity += n.capacity[i]
					}
					assert.InDelta(t, (layers[0].ThickM+layers[1].ThickM+layers[2].ThickM)*2.1e6, capacity, 1)
				}
			}
		}
	}
}

func TestHourLoopAllocatesNothing(t *testing.T) {
	in, st := described(), made()
	c, err := newCourse(&in, &st, asUsed)
	require.NoError(t, err)
	hours := make([]exposure, 400)
	for i := range hours {
		hours[i] = c.exposure(&st.Years[0].Hours[i])
	}
	w := winter{pavement: c.start(hours), hours: hours}
	var total tally
	assert.Zero(t, testing.AllocsPerRun(3, func() {
		for k := range controls {
			c.run(&controls[k], &w, &total, nil)
		}
	}))
}

func TestEveryNumberIsAStep(t *testing.T) {
	in := described()
	in.LowestMeltC = units.Some(-20.0)
	st := made()
	for i := range st.Years[0].Hours {
		h := &st.Years[0].Hours[i]
		h.InfraredWM2 = 0.98 * cloudFlux(h)
	}
	for _, r := range seasons(t, in, st) {
		seen, values := map[string]bool{}, map[float64]bool{}
		for _, s := range r.Steps() {
			assert.False(t, seen[s.Symbol], "%s: symbol %s stands twice", r.Strategy, s.Symbol)
			for _, from := range s.From {
				assert.True(t, seen[from], "%s: %s rests on %s, which is no earlier step", r.Strategy, s.Symbol, from)
			}
			assert.NotEmpty(t, s.Source, s.Symbol)
			assert.True(t, s.Text == "" || s.Quantity == units.Text, s.Symbol)
			seen[s.Symbol], values[s.Value] = true, true
		}
		g := r.Ground
		require.True(t, g.SkyApart.Known)
		assert.InDelta(t, 1/0.98-1, g.SkyApart.Value, 1e-9)
		for name, v := range map[string]float64{"off": r.HoursOff, "idling": r.HoursIdling, "melting": r.HoursMelting, "drying": r.HoursDrying, "season": r.SeasonHours,
			"energy": r.EnergyKWhM2, "idle": r.IdlingKWhM2, "back": r.BackKWhM2, "edge": r.EdgeDegreeHours, "locked": r.LockedOutHours, "peak": r.PeakWM2(),
			"snow": r.SnowOnSurfaceH.Value, "bare": r.BareShare.Value, "refreeze": r.RefreezeEvents.Value, "timer": g.TimerH.Value, "delay": g.OffDelayH.Value,
			"energy books": g.EnergyResidual, "water books": g.MassResidual, "fluid": g.FluidLimitedH, "storms": g.Storms, "sky": g.SkyApart.Value,
			"slab": in.Column.Layers[2].ThickM, "depth": in.Column.DepthM, "R": in.Column.InsulationM2KW, "fluid R": in.Column.FluidResistance} {
			assert.True(t, values[v], "%s: %s %g has no step", r.Strategy, name, v)
		}
	}
}

// BenchmarkRun is a station's winter under every strategy, with less and with more snow too.
func BenchmarkRun(b *testing.B) {
	st, in := made(), described()
	in.LessSnow, in.MoreSnow = 0.55, 1.45
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(in, st); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWinter is one winter under the heaviest strategy alone: its hour loop allocates nothing.
func BenchmarkWinter(b *testing.B) {
	st, in := made(), described()
	c, err := newCourse(&in, &st, asUsed)
	if err != nil {
		b.Fatal(err)
	}
	winters, err := in.winters(&st)
	if err != nil {
		b.Fatal(err)
	}
	w := c.begin(&st, winters[0])
	b.ReportAllocs()
	for b.Loop() {
		var t tally
		c.run(&controls[len(controls)-1], &w, &t, nil)
	}
}
