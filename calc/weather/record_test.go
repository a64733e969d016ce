package weather

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
)

// record returns a typical January to December of one weather, without precipitation told.
func record(change func(i int, o *Observation)) Record {
	r := Record{Name: "Yard", LatDeg: 45, LonDeg: -73, ElevationM: 100, ZoneHours: -5, Typical: true}
	for i := range 8760 {
		o := missingHour(1990, i, false)
		o.AirC, o.DewC, o.WindMS, o.PressurePa = -4, -6, 3, 100000
		change(i, &o)
		r.Observations = append(r.Observations, o)
	}
	return r
}

func year(t *testing.T, r Record) Year {
	t.Helper()
	y, err := FromRecord(r)
	require.NoError(t, err)
	return y
}

func TestSnowShare(t *testing.T) {
	const source = "engineering method, section 1, rule 1"
	for air, want := range map[float64]float64{-20: 1, 0: 1, 1.25: 0.5, 2.5: 0, 9: 0} {
		assert.InDelta(t, want, SnowShare(air), 1e-12, source)
	}
}

func TestGapsAreFilledAndCounted(t *testing.T) {
	y := year(t, record(func(i int, o *Observation) {
		o.WaterMM = 0.1
		switch {
		case i == 10:
			o.AirC = -6
		case i > 10 && i < 14:
			o.AirC = math.NaN()
		case i == 0 || i == 8759:
			o.WindMS = math.NaN()
		}
	}))
	assert.Equal(t, 5, y.Filled)
	assert.InDelta(t, -5.5, y.Hours[11].AirC, 1e-12, "a quarter of the way from −6 to −4")
	assert.Equal(t, 3.0, y.Hours[0].WindMS)
	assert.Contains(t, y.Assumed, AssumedSun)
	assert.Contains(t, y.Assumed, AssumedCloud)
	assert.NotContains(t, y.Assumed, AssumedPressure)
	assert.False(t, y.HasInfrared)
}

func TestDewPointFromHumidity(t *testing.T) {
	y := year(t, record(func(i int, o *Observation) {
		o.WaterMM, o.AirC, o.DewC, o.HumidityShare, o.PressurePa = 0.1, 20, math.NaN(), 0.5, math.NaN()
	}))
	assert.InDelta(t, 9.26, y.Hours[0].DewC, 0.05, "ASHRAE Handbook, Fundamentals: 20 °C and 50 % have a dew point of 9.3 °C")
	assert.InDelta(t, 100129, y.Hours[0].PressurePa, 10, "standard atmosphere at 100 m, 100.13 kPa")
}

func TestMissingIsNamed(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(i int, o *Observation)
		code   finding.Code
		what   string
	}{
		{"air", func(_ int, o *Observation) { o.AirC = math.NaN() }, CodeNoValues, "air temperature"},
		{"dew", func(_ int, o *Observation) { o.DewC = math.NaN() }, CodeNoValues, "dew point"},
		{"wind", func(i int, o *Observation) {
			if i%3 > 0 {
				o.WindMS = math.NaN()
			}
		}, CodeNoValues, "wind"},
		{"snow", func(_ int, o *Observation) { o.WaterMM, o.DepthMM = 0, 200 }, CodeNoSnowData, "water depth, snow depth and weather codes"},
		{"gaps", func(i int, o *Observation) {
			if i%3 == 0 {
				o.WaterMM = 1
			}
		}, CodeNoSnowData, "water depth in most hours of the season, and weather codes"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := FromRecord(record(tt.change))
			var u *Unusable
			require.ErrorAs(t, err, &u)
			assert.Equal(t, tt.code, u.Code)
			assert.Equal(t, []finding.Arg{finding.Words("what", tt.what)}, u.Args)
		})
	}
	_, err := FromRecord(Record{})
	assert.Error(t, err)
}

// Rule 1: an amount of several hours is spread over those that have none, less what the others carry.
func TestAmountsOfSeveralHours(t *testing.T) {
	y := year(t, record(func(i int, o *Observation) {
		o.WaterMM = 0
		switch {
		case i >= 100 && i < 105: // alone: nothing but the amount
			o.WaterMM = math.NaN()
		case i == 105:
			o.WaterMM, o.WaterHours = 12, 6
		case i >= 200 && i < 205: // after hourly amounts
			o.WaterMM = 1
		case i == 205:
			o.WaterMM, o.WaterHours = 5, 6
		case i == 300:
			o.WaterMM = 150 // missing
		case i == 400:
			o.WaterMM, o.WaterHours = 0.7, 99 // an amount without a period is the hour's
		}
	}))
	for i := 100; i <= 105; i++ {
		assert.InDelta(t, 2, y.Hours[i].SnowMM, 1e-12)
	}
	total := 0.0
	for i := 200; i <= 205; i++ {
		total += y.Hours[i].SnowMM
	}
	assert.InDelta(t, 5, total, 1e-12, "counted once")
	assert.Equal(t, 1, y.Missing)
	assert.InDelta(t, 0.7, y.Hours[400].SnowMM, 1e-12)
	assert.Equal(t, RuleDepth, y.SnowRule)
}

// Rule 1: a reported weather type decides in observed records alone.
func TestWeatherTypeDecidesInObservedRecords(t *testing.T) {
	change := func(i int, o *Observation) {
		o.WaterMM, o.AirC, o.Weather = 1, 2, Phenomena{Reported: true, Any: true, Snow: Light}
		if i%2 == 1 {
			o.Weather = Phenomena{Reported: true, Any: true, Rain: Light}
		}
	}
	r := record(change)
	assert.InDelta(t, 0.2, year(t, r).Hours[0].SnowMM, 1e-12)
	r.Typical = false
	y := year(t, r)
	assert.Equal(t, "1990", y.Label)
	assert.Equal(t, RuleDepthCodes, y.SnowRule)
	assert.Equal(t, 1.0, y.Hours[0].SnowMM)
	assert.Equal(t, 1.0, y.Hours[1].RainMM)
}

// Rule 2: a day's new depth goes to the coded hours of the 24 hours that end at 12 UTC, 07 local at −5 h, by weight; a month's join is no snowfall.
func TestNewDepthIsSpreadOverCodedHours(t *testing.T) {
	const day, reading = 24, 7
	at := 9 * day // 10 January
	y := year(t, record(func(i int, o *Observation) {
		o.DepthMM, o.Weather = 20, Phenomena{Reported: true}
		if i >= at {
			o.DepthMM = 140
		}
		if o.Month > 1 {
			o.DepthMM = 900
		}
		snow := func(level Intensity) { o.Weather.Snow, o.Weather.Any = level, true }
		switch i {
		case at - day + reading - 1, at + reading: // just outside of the 24 hours
			snow(Heavy)
		case at - day + reading, at - 1:
			snow(Light)
		case at + reading - 1:
			snow(Moderate)
		}
	}))
	assert.Equal(t, RuleCodesSnow, y.SnowRule)
	assert.InDelta(t, 2, y.Hours[at-day+reading].SnowMM, 1e-12, "12 mm of water by weights 1, 1, 4")
	assert.InDelta(t, 2, y.Hours[at-1].SnowMM, 1e-12)
	assert.InDelta(t, 8, y.Hours[at+reading-1].SnowMM, 1e-12)
	total := 0.0
	for i := range y.Hours {
		total += y.Hours[i].SnowMM
	}
	assert.InDelta(t, 12, total, 1e-9)
}

// Rules 2 and 3: a month with codes at every third hour only holds each an hour before and after.
func TestThirdHourlyCodesAreHeld(t *testing.T) {
	y := year(t, record(func(i int, o *Observation) {
		if o.Month == 1 && i%3 == 1 && i < 300 || o.Month == 12 && i%24 < 2 {
			o.Weather = Phenomena{Reported: true, Any: true, Snow: Light}
		}
	}))
	assert.Equal(t, RuleCodes, y.SnowRule)
	assert.Equal(t, 300+2*31, y.SnowCodeHour, "January is held, December stays as it is")
	assert.Equal(t, 0.2, y.Hours[0].SnowMM)
	assert.Equal(t, 0.2, y.Hours[2].SnowMM)
}

func TestLeapAndShortYears(t *testing.T) {
	r := Record{LatDeg: 45}
	for _, at := range []struct{ month, day int8 }{{2, 28}, {2, 29}, {3, 1}} {
		o := missingHour(2024, 0, true)
		o.Month, o.Day, o.AirC, o.DewC, o.WindMS, o.WaterMM = at.month, at.day, 0, -1, 3, 2
		r.Observations = append(r.Observations, o)
	}
	assert.Equal(t, 49, len(calendar(r)[0]), "from 28 February 00:00 to 1 March 00:00")
	_, err := YearsFromRecord(r)
	assert.Error(t, err, "too few hours")
	month, dayOf, clock := dateOf(hourOfYear(2, 29, 23, true), true)
	assert.Equal(t, [3]int8{2, 29, 23}, [3]int8{month, dayOf, clock})
	assert.Equal(t, -1, hourOfYear(2, 29, 0, false))
}
