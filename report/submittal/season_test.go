package submittal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/calc"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// snowed gives an outcome's winters what the steps of a winter tell: months, delays and a storm of two days, in which unheated pavement keeps its snow.
func snowed(o *calc.Outcome) {
	o.Snow = calc.SnowSpread{Rule: calc.RuleSnowFactors, Winters: 1, Variation: 0.35, MildFactor: 0.55, SevereFactor: 1.45}
	o.Operation = &calc.Operation{OffDelay: calc.Delay{SetH: 1.5}, Timer: calc.Delay{SetH: 9}}
	o.Metered = &calc.Metered{Strategy: season.Manual, Winter: "2023-24", UsedKWh: 61_000, CalculatedKWh: 48_000, Difference: 0.2708}
	for i := range o.Seasons {
		r := &o.Seasons[i]
		r.Input.Start, r.Input.End, r.Input.AerialHoldH, r.Input.DryHoldH = season.Day{Month: 10, Day: 1}, season.Day{Month: 4, Day: 30}, 4, 1
		r.SnowOnSurfaceH, r.BareShare = units.Some(1_700/float64(1+i)), units.Some(0.4)
		r.Ground.TimerH, r.Ground.OffDelayH, r.Ground.Storms = units.Some(8.58), units.Some(1.4), 14
		for m, share := range []float64{0.3, 0.2, 0.1, 0.02, 0, 0, 0, 0, 0, 0.02, 0.1, 0.26} {
			r.Months[m] = season.Month{EnergyKWhM2: r.EnergyKWhM2 * share, HoursIdling: r.HoursIdling * share, HoursMelting: r.HoursMelting * share, HoursDrying: r.HoursDrying * share}
		}
		r.Storm = stormFor(r.Strategy)
	}
}

// stormFor is ten hours of snow from the seventh hour on.
func stormFor(st season.Strategy) season.Storm {
	s, lies := season.Storm{Label: "2013"}, 0.0
	for i := range 48 {
		h := season.StormHour{Month: 2, Day: int8(8 + (i+19)/24), Clock: int8((i + 19) % 24), AirC: -2 - 4*math.Sin(float64(i)/8), SurfaceC: -1, CoreC: 0.5}
		if i >= 6 && i < 16 {
			h.SnowMM = 1.2
		}
		lies += h.SnowMM
		if st != season.Unheated {
			h.SurfaceC, h.CoreC = 1.5, 4
			if i >= 6 && i < 24 {
				h.HeatWM2 = 300
			}
			lies = max(0, lies-1)
		}
		h.SolidMM = lies
		s.Hours = append(s.Hours, h)
	}
	return s
}

func TestCourseOfAStorm(t *testing.T) {
	bare, heated := courseOf(stormFor(season.Unheated).Hours), courseOf(stormFor(season.Aerial).Hours)
	assert.Equal(t, course{lies: 42, most: bare.most, clear: 32}, bare)
	assert.InDelta(t, 12, bare.most, 1e-9)
	assert.True(t, heated.cleared)
	assert.Equal(t, 2, heated.clear) // 2 mm lie when the snow ends, 1 mm melts an hour
	assert.InDelta(t, 2, heated.most, 1e-9)
}

func TestMonthsGoWithTheSeason(t *testing.T) {
	assert.Equal(t, []int{9, 10, 11, 0, 1, 2, 3}, monthOrder(season.Input{Start: season.Day{Month: 10, Day: 1}, End: season.Day{Month: 4, Day: 30}}))
	assert.Equal(t, []int{3, 4, 5, 6, 7, 8, 9}, monthOrder(season.Input{Start: season.Day{Month: 4, Day: 1}, End: season.Day{Month: 10, Day: 31}}), "south of the equator")
	assert.Empty(t, monthOrder(season.Input{}))
}

func TestStormDrawsTheChosenWayBesideNoHeat(t *testing.T) {
	v := view{plain: true}.make(t)
	s, o := on(v), v.Site.Outcomes[0]
	chosen, found := o.Chosen()
	require.True(t, found)
	drawnOf := func(r season.Result) (texts []string) {
		g, err := s.look().Hourly(s.say("storm-axis"), len(r.Storm.Hours), s.marks(r.Storm.Hours), s.stormPanels(r, o.Seasons[0]))
		require.NoError(t, err)
		var rec recorder.Canvas
		g.Draw(&rec, 480, 320)
		for _, a := range rec.Actions {
			if text, ok := a.(*recorder.FillString); ok {
				texts = append(texts, text.String)
			}
		}
		return texts
	}
	texts := drawnOf(chosen)
	for _, want := range []string{"Snowfall [mm/h]", "Temperature [°C]", "Heat [W/m²]", "Snow lying [mm]", "outdoor air", "surface", "surface, without heat", "slab at its sensor",
		"heat into the slab", "with heat, as water", "without heat, as water", "freezing point", "9 Feb", "6:00", "18:00"} {
		assert.Contains(t, texts, want)
	}
	alone := drawnOf(o.Seasons[0])
	assert.NotContains(t, alone, "Heat [W/m²]")
	assert.NotContains(t, alone, "with heat, as water")
}

func TestSeasonChapterTellsWhatToSee(t *testing.T) {
	for name, tt := range map[string]struct {
		kind weather.Kind
		rule string
		want []string
		not  string
	}{
		"recorded": {weather.Observed, calc.RulePercentiles, []string{"The storm of 9 Feb (winter data of 2013): 12.0 mm of water as snow in 10 h of snowfall", "are the 10th, the 50th and the 90th percentile"}, "(synthetic weather)"},
		"synthetic": {weather.Synthetic, calc.RuleSnowFactors, []string{"A storm of the synthetic winter, not one that was recorded", "One storm, hour by hour: aerial detector + slab sensor (synthetic weather)",
			"with all its snow times 0.55 and 1.45"}, "winter data of"},
		"few winters": {weather.Observed, calc.RuleExtremes, []string{"the cheapest, the median and the dearest"}, "(synthetic weather)"},
	} {
		t.Run(name, func(t *testing.T) {
			v := view{plain: true}.make(t)
			v.Site.Outcomes = v.Site.Outcomes[:1]
			o := &v.Site.Outcomes[0]
			o.Weather.Kind, o.Snow.Rule, o.Snow.Winters = tt.kind, tt.rule, 12
			o.Zone.Money.ClearingCost = units.Some(900.0)
			doc, err := Render(v)
			require.NoError(t, err)
			all := strings.Join(strings.Fields(text(t, doc)), " ")
			for _, want := range append(tt.want, "is gone 2 h after the last snow", "is still there at the end of the picture", "The same with idling:", "Clearing the snow as now costs CAD 900 a year",
				"Most heat goes in Jan", "Timer after the last snow seen 9.0 8.6 4.0", "manual 2023-24 61,000 48,000 +27.1", "The meter shows 27.1 % more") {
				assert.Contains(t, all, want)
			}
			assert.NotContains(t, all, tt.not)
		})
	}
}

func TestZonesOfOneWinterShowItOnce(t *testing.T) {
	doc, err := Render(view{plain: true, zones: 2}.make(t))
	require.NoError(t, err)
	all := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Equal(t, 1, strings.Count(all, "One storm, hour by hour"))
	assert.Contains(t, all, "which has the same winter and the same control")
}

func TestBarsStandForTheirNumbers(t *testing.T) {
	v := view{plain: true}.make(t)
	o := v.Site.Outcomes[0]
	table := strategyTable{seasons: o.Seasons, cols: make([]column, 1), rows: make([]cells, len(o.Seasons))}
	blank := len(o.Seasons) - 1
	table.draw(func(r season.Result) units.Maybe[float64] {
		return units.Maybe[float64]{Value: r.EnergyKWhM2, Known: r.Strategy != o.Seasons[blank].Strategy}
	})
	most := 0.0
	for _, r := range o.Seasons[:blank] {
		most = max(most, r.EnergyKWhM2)
	}
	for i, r := range o.Seasons[:blank] {
		assert.InDelta(t, r.EnergyKWhM2/most, table.rows[i].bars[0].share, 1e-12, r.Strategy)
	}
	assert.False(t, table.rows[blank].bars[0].known)
}
