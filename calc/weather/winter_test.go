package weather

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func wholeYear(label string, snowMM float64) Year {
	y := Year{Label: label, Hours: make([]Hour, 8760)}
	for i := range y.Hours {
		h := &y.Hours[i]
		h.Month, h.Day, h.Clock = dateOf(i, false)
		h.AirC, h.WindMS, h.SnowMM, h.InfraredWM2 = float64(h.Month), float64(h.Month), snowMM, math.NaN()
	}
	return y
}

func TestSeasonOfATypicalYear(t *testing.T) {
	st := NewStation("Yard", Place{LatDeg: 45}, Typical, []Year{wholeYear("typical", 0)}, nil)
	start, end := DefaultSeason(45)
	runs := st.Season(start, end)
	require.Len(t, runs, 2)
	assert.Equal(t, int8(10), runs[0].Hours[0].Month)
	assert.Equal(t, int8(4), runs[1].Hours[len(runs[1].Hours)-1].Month)
	assert.Equal(t, 5088, len(runs[0].Hours)+len(runs[1].Hours), "workbook contract: hours from 1 October to 30 April")
	assert.Equal(t, 1, st.Winters(start, end))
	assert.InDelta(t, (31*12+31*1+28*2)/90.0, MeanWindDJF(st), 1e-12)
	assert.Equal(t, 1.0, ColdestHourC(st))
	st.LatDeg = -45
	assert.InDelta(t, (30*6+31*7+31*8)/92.0, MeanWindDJF(st), 1e-12)
	south, southEnd := DefaultSeason(-45)
	assert.Len(t, st.Season(south, southEnd), 1)
}

func TestSeasonsOfObservedYears(t *testing.T) {
	var years []Year
	for i, snow := range []float64{0.1, 0.2, 0.3, 0.4} {
		years = append(years, wholeYear(fmt.Sprint(2000+i), snow))
	}
	st := NewStation("Yard", Place{LatDeg: 45}, Observed, years, nil)
	start, end := DefaultSeason(45)
	assert.Equal(t, 3, st.Winters(start, end), "the spring of the first and the autumn of the last year are left out")
	runs := st.Season(start, end)
	assert.Equal(t, 0.1, runs[0].Hours[0].SnowMM)
	assert.Equal(t, 0.2, runs[1].Hours[0].SnowMM)
	require.True(t, st.SnowVariation.Known)
	// Totals of 2208 hours of autumn and 2880 of spring, in mm: 796.8, 1305.6, 1814.4.
	assert.InDelta(t, 508.8/1305.6, st.SnowVariation.Value, 1e-9, "by hand")
	gap := NewStation("Yard", Place{LatDeg: 45}, Observed, []Year{years[0], years[3]}, nil)
	assert.Equal(t, 2, gap.Winters(start, end), "years apart stand alone")
	assert.False(t, gap.SnowVariation.Known)
}

func TestSeasonLoopAllocatesNothing(t *testing.T) {
	st := NewStation("Yard", Place{LatDeg: 45}, Typical, []Year{wholeYear("typical", 0)}, nil)
	start, end := DefaultSeason(45)
	runs := st.Season(start, end)
	sum := 0.0
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for _, run := range runs {
			for i := range run.Hours {
				sum += run.Hours[i].AirC
			}
		}
	}))
}

func TestDigestTellsStationsApart(t *testing.T) {
	a := NewStation("A", Place{LatDeg: 45}, Typical, []Year{wholeYear("typical", 0.1)}, nil)
	b := NewStation("B", Place{LatDeg: 45}, Typical, []Year{wholeYear("typical", 0.1)}, []Source{{File: "b.epw"}})
	c := wholeYear("typical", 0.1)
	c.Hours[8000].WindMS += 1e-9
	assert.Len(t, a.Digest, 64)
	assert.Equal(t, a.Digest, b.Digest, "names and files do not count")
	assert.NotEqual(t, a.Digest, NewStation("A", Place{LatDeg: 45}, Typical, []Year{c}, nil).Digest)
	assert.NotEqual(t, a.Digest, NewStation("A", Place{LatDeg: 46}, Typical, []Year{wholeYear("typical", 0.1)}, nil).Digest)
}

func normals() Statistics {
	s := Statistics{Name: "Yard", LatDeg: 45, LonDeg: -73, ElevationM: 100}
	nan := math.NaN()
	for m := range s.Normals {
		s.Normals[m] = MonthNormals{MeanC: 7 - 14*math.Cos(2*math.Pi*(float64(m)-0.5)/12), DailyRangeK: nan, DewC: nan, WindMS: 4, CloudShare: nan,
			SnowMM: nan, RainMM: nan, SnowDays: nan}
	}
	for _, m := range []int{10, 11, 0, 1, 2, 3} {
		s.Normals[m].SnowMM = 30
	}
	return s
}

func TestWinterFromNormals(t *testing.T) {
	s := normals()
	s.Normals[9].SnowMM = 0
	st, err := s.Station()
	require.NoError(t, err)
	assert.True(t, st.CoarseSynthetic)
	assert.Equal(t, Synthetic, st.Kind)
	assert.Equal(t, RuleSynthetic, st.Years[0].SnowRule)
	assert.False(t, st.Years[0].HasInfrared, "no file gave it")
	require.Len(t, st.Years[0].Hours, 8760)
	back := Summarise(st)
	for m, n := range back.Normals {
		want := s.Normals[m]
		assert.InDelta(t, want.MeanC, n.MeanC, 0.1, "month %d", m+1)
		assert.InDelta(t, want.WindMS, n.WindMS, 0.2, "month %d", m+1)
		if !math.IsNaN(want.SnowMM) {
			assert.InDelta(t, want.SnowMM, n.SnowMM, 1.5, "month %d", m+1)
		}
		assert.InDelta(t, genericRangeK, n.DailyRangeK, 1, "month %d", m+1)
	}
	for i := range st.Years[0].Hours {
		h := &st.Years[0].Hours[i]
		for _, v := range []float64{h.AirC, h.DewC, h.PressurePa, h.WindMS, h.CloudShare, h.SunWM2, h.SnowMM, h.RainMM} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "hour %d: %+v", i, *h)
		}
		require.True(t, h.InfraredWM2 > 100 && h.InfraredWM2 < 450)
		require.LessOrEqual(t, h.DewC, h.AirC+1e-9)
		require.True(t, h.CloudShare >= 0 && h.CloudShare <= 1 && h.WindMS >= 0 && h.SunWM2 >= 0)
	}
}

func TestMissingNormalsAreNamed(t *testing.T) {
	s := normals()
	for m := range s.Normals {
		s.Normals[m].WindMS = math.NaN()
	}
	s.Normals[3].MeanC, s.Normals[0].SnowMM = math.NaN(), math.NaN()
	_, err := s.Station()
	var u *Unusable
	require.ErrorAs(t, err, &u)
	assert.Equal(t, CodeMissingNormals, u.Code)
	assert.Equal(t, "mean temperature, snowfall water equivalent, wind", u.Args[0].Text, "January is too cold to leave its snowfall blank")
}

// A place without any snow still has a winter.
func TestWinterWithoutSnow(t *testing.T) {
	s := normals()
	for m := range s.Normals {
		s.Normals[m].SnowMM = 0
	}
	st, err := s.Station()
	require.NoError(t, err)
	for i := range st.Years[0].Hours {
		require.Zero(t, st.Years[0].Hours[i].SnowMM)
	}
}

// So much snow that storms hardly find room.
func TestWinterFullOfSnow(t *testing.T) {
	s := normals()
	for m := range s.Normals {
		s.Normals[m].SnowMM = 400
	}
	st, err := s.Station()
	require.NoError(t, err)
	total := 0.0
	for i := range st.Years[0].Hours {
		total += st.Years[0].Hours[i].SnowMM
	}
	assert.InDelta(t, 4800, total, 60)
}

func TestSunEstimate(t *testing.T) {
	noon := Hour{Month: 6, Day: 21, Clock: 12}
	clear := SunEstimate(noon, 45, -75, -5)
	assert.InDelta(t, 960, clear, 40, "clear noon at midsummer, 45° N: handbook clear skies give 930 to 1000 W/m²")
	noon.CloudShare = 1
	assert.InDelta(t, 0.25*clear, SunEstimate(noon, 45, -75, -5), 1e-9)
	assert.Zero(t, SunEstimate(Hour{Month: 12, Day: 21, Clock: 22}, 45, -75, -5))
}

func TestCompletedMonths(t *testing.T) {
	y := wholeYear("2000", 0)
	for i := range y.Hours {
		h := &y.Hours[i]
		h.AirC = 6 - 12*math.Cos(2*math.Pi*float64(h.Month-1)/12)
	}
	y.Hours = append(y.Hours[:endOf(y.Hours, 6)], y.Hours[endOf(y.Hours, 9):]...)
	s := Summarise(NewStation("Yard", Place{LatDeg: 45}, Observed, []Year{y}, nil))
	assert.InDelta(t, 18, s.Normals[6].MeanC, 0.2, "July lies on the yearly sine of the other months")
	assert.NotZero(t, s.Joint.Months[6].DailyC[6])
}

// endOf returns the first hour after a month.
func endOf(hours []Hour, month int8) int {
	for i := range hours {
		if hours[i].Month > month {
			return i
		}
	}
	return len(hours)
}

// Hours that lie in the season over those of a whole one: a calendar year, a leap year and a winter over the new year are one; two years are two.
func TestRecordYears(t *testing.T) {
	span := func(from, to time.Time) (list []Hour) {
		for h := from; h.Before(to); h = h.Add(time.Hour) {
			list = append(list, Hour{Month: int8(h.Month()), Day: int8(h.Day()), Clock: int8(h.Hour())})
		}
		return list
	}
	date := func(y int, m time.Month) time.Time { return time.Date(y, m, 1, 0, 0, 0, 0, time.UTC) }
	for _, tt := range []struct {
		name  string
		years []Year
		want  float64
	}{
		{"a calendar year", []Year{{Hours: span(date(2013, 1), date(2014, 1))}}, 1},
		{"a leap year", []Year{{Hours: span(date(2012, 1), date(2013, 1))}}, 1},
		{"October to June over the new year", []Year{{Hours: span(date(2005, 10), date(2006, 1))}, {Hours: span(date(2006, 1), date(2006, 7))}}, 1},
		{"two calendar years", []Year{{Hours: span(date(2012, 1), date(2013, 1))}, {Hours: span(date(2013, 1), date(2014, 1))}}, 2},
		{"January to April", []Year{{Hours: span(date(2013, 1), date(2013, 5))}}, 120.0 / 212},
	} {
		st := Station{LatDeg: 45, Years: tt.years}
		assert.InDelta(t, tt.want, st.RecordYears(), 1e-12, tt.name)
	}
}
