package season

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// calls runs the timers of a strategy over hours written as letters: s snow seen, . none. It returns M for each hour in which they call.
func calls(strategy Strategy, hours string) string {
	in := described()
	var m timers
	var out strings.Builder
	for _, c := range controls {
		if c.strategy != strategy {
			continue
		}
		for _, letter := range hours {
			letters := ".M"
			if m.timed(c.by, &in, letter == 's') {
				letters = letters[1:]
			}
			out.WriteByte(letters[0])
		}
	}
	return out.String()
}

func TestTimers(t *testing.T) {
	const source = "control rules of the engineering method, section 4: aerial timer 4 h, manual 3 h late and 6 h"
	for _, tt := range []struct {
		name        string
		strategy    Strategy
		hours, want string
		source      string
	}{
		{"timer after the last snow seen", Aerial, "..s..........", "..MMMMM......", source},
		{"the timer restarts", Aerial, "..s..s.......", "..MMMMMMMM...", source},
		{"operator late", Manual, "..s.............", ".....MMMMMM.....", source},
		{"renewed while it snows at expiry", Manual, "..sssssssss..........", ".....MMMMMM..........", source + "; hour 11 is the expiry, snow ended in hour 10"},
		{"renewed once", Manual, "..ssssssssss..........", ".....MMMMMMMMMMMM.....", source},
		{"new call after it ended", Manual, "s.........s.............", "...MMMMMM....MMMMMM.....", source},
		{"the detector's own is not a timer", Pavement, "..s....", ".......", source},
		{"of both detectors the aerial one's", BothDetectors, "..s..........", "..MMMMM......", source},
		{"season", AlwaysOn, "..s.", "MMMM", source},
		{"never", Unheated, "..s..", ".....", source},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, calls(tt.strategy, tt.hours), "snow    %s\nsource: %s", tt.hours, tt.source)
		})
	}
}

// Full output of the timer's hours, unless the fluid's limit holds it back.
func TestFullOutputRunsWithoutASlabSensor(t *testing.T) {
	in := described()
	in.Column.FluidLimitC = units.Maybe[float64]{}
	r := seasons(t, in, made())[Aerial]
	assert.InEpsilon(t, r.HoursMelting*0.450, r.EnergyKWhM2, 1e-6, "hours × installed output, by hand; hours of an average are rounded to 1/1024 h")
}

// The only winter of a station is run again with less and with more snow; what is averaged is the winter as it is.
func TestOneWinterWithLessAndMoreSnow(t *testing.T) {
	as := seasons(t, described(), made())
	in := described()
	in.LessSnow, in.MoreSnow = 0.55, 1.45
	more := made()
	for i := range more.Years[0].Hours {
		more.Years[0].Hours[i].SnowMM *= 1.45
	}
	again := seasons(t, described(), more)
	for s, r := range seasons(t, in, made()) {
		require.Len(t, r.Years, 3, s)
		require.Len(t, as[s].Years, 1, s)
		assert.Equal(t, [3]float64{0.55, 1, 1.45}, [3]float64{r.Years[0].SnowFactor, r.Years[1].SnowFactor, r.Years[2].SnowFactor}, s)
		assert.Equal(t, as[s].Years[0], r.Years[1], s)
		assert.Equal(t, as[s].Months, r.Months, s)
		assert.Equal(t, as[s].Ground, r.Ground, s)
		assert.InDelta(t, again[s].EnergyKWhM2, r.Years[2].EnergyKWhM2, 1e-9, "%s: a record with that snow", s)
		assert.Equal(t, "made", r.Years[0].Label)
		if s == Aerial || s == AerialSlab || s == Pavement || s == BothDetectors {
			assert.True(t, r.Years[0].EnergyKWhM2 < r.Years[1].EnergyKWhM2 && r.Years[1].EnergyKWhM2 < r.Years[2].EnergyKWhM2, "%s: what follows snow takes more with more of it", s)
		}
	}
	in.LessSnow = 0
	none := seasons(t, in, made())
	assert.Zero(t, none[Aerial].Years[0].EnergyKWhM2, "snow that never falls is never seen")
}

// A station of several winters has each by itself, whatever its snow's factors.
func TestEachWinterByItself(t *testing.T) {
	in, st := described(), threeWinters()
	in.LessSnow, in.MoreSnow = 0.55, 1.45
	results := seasons(t, in, st)
	for i := range st.Years {
		one := st
		one.Years = st.Years[i : i+1]
		for s, r := range seasons(t, described(), one) {
			require.Len(t, results[s].Years, 3)
			assert.InDelta(t, r.EnergyKWhM2, results[s].Years[i].EnergyKWhM2, 1e-6, "%s, winter %d; all winters have the same wind", s, i)
		}
	}
}

func TestBillOfAWinterIsOfItsMonths(t *testing.T) {
	for s, r := range seasons(t, described(), made()) {
		y := r.Years[0]
		energy, edge, heated := 0.0, 0.0, 0.0
		for m, month := range y.Months {
			energy, edge = energy+month.EnergyKWhM2, edge+month.EdgeDegreeHours
			heated += r.Months[m].HoursIdling + r.Months[m].HoursMelting + r.Months[m].HoursDrying
			assert.Equal(t, YearMonth{r.Months[m].EnergyKWhM2, r.Months[m].PeakWM2, r.Months[m].EdgeDegreeHours}, month, "%s, month %d", s, m+1)
		}
		assert.Equal(t, [2]float64{energy, edge}, [2]float64{y.EnergyKWhM2, y.EdgeDegreeHours}, s)
		assert.InDelta(t, heated, y.HeatedHours, 1e-9, s)
		assert.InDelta(t, r.SeasonHours-r.HoursOff, y.HeatedHours, 0.01, "%s: every hour that is not off", s)
	}
}

func TestLockout(t *testing.T) {
	in := described()
	free := seasons(t, in, made())
	in.LowestMeltC = units.Some(-8.0)
	by := seasons(t, in, made())
	assert.Zero(t, by[Unheated].LockedOutHours)
	for _, s := range Strategies[1:] {
		assert.Positive(t, by[s].LockedOutHours, s)
		assert.Zero(t, free[s].LockedOutHours, s)
		assert.Less(t, by[s].EnergyKWhM2, free[s].EnergyKWhM2, s)
	}
}

func TestSeasonWithinAYear(t *testing.T) {
	in := described()
	in.Start, in.End = Day{Month: 4, Day: 1}, Day{Month: 10, Day: 31}
	assert.Equal(t, 214.0*24, seasons(t, in, made())[AlwaysOn].SeasonHours)
}

func TestNoHours(t *testing.T) {
	in := described()
	in.InstalledWM2 = 0
	_, err := Run(in, weather.Station{Name: "empty"})
	require.ErrorIs(t, err, ErrNoHours)
}
