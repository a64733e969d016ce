package hourly

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
	"thawbook/templates"
)

const hourlyCSV = `Station;Yard, north
Latitude;44,5
Longitude;-73
Elevation (ft);1000
Time zone;-5
a note
Time;Air temperature [°F];Relative humidity [%];Wind speed [mph];Water [in];Weather;Pressure [hPa]
2022-01-31 13:53;23,0;80;10;0,01;-SN;990,5
2022-01-31 14:53;50;NA;M;T;RA;-
`

func TestHourlyCSV(t *testing.T) {
	r, source, err := ReadFrom(strings.NewReader(hourlyCSV), "yard.csv")
	require.NoError(t, err)
	assert.Equal(t, "yard.csv", source.File)
	assert.Equal(t, "Yard, north", r.Name)
	assert.InDelta(t, 304.8, r.ElevationM, 1e-9)
	assert.Equal(t, 44.5, r.LatDeg)
	assert.Equal(t, -5.0, r.ZoneHours)
	require.Len(t, r.Observations, 2)
	o := r.Observations[0]
	assert.Equal(t, [3]int8{1, 31, 13}, [3]int8{o.Month, o.Day, o.Clock})
	assert.InDelta(t, -5, o.AirC, 1e-9)
	assert.InDelta(t, 0.8, o.HumidityShare, 1e-12)
	assert.InDelta(t, 4.4704, o.WindMS, 1e-9)
	assert.InDelta(t, 0.254, o.WaterMM, 1e-12)
	assert.InDelta(t, 99050, o.PressurePa, 1e-6)
	assert.Equal(t, weather.Light, o.Weather.Snow)
	o = r.Observations[1]
	assert.Equal(t, 0.0, o.WaterMM, "a trace")
	assert.Equal(t, weather.Moderate, o.Weather.Rain)
	for _, v := range []float64{o.HumidityShare, o.WindMS, o.PressurePa, o.SnowMM} {
		assert.True(t, math.IsNaN(v))
	}
}

func TestErrorsNameWhatIsWrong(t *testing.T) {
	const epw = "LOCATION,X,VT,USA,TMY2,1,44,-73,-5,100\n"
	for _, tt := range []struct {
		name, text string
		code       finding.Code
		arg        string
	}{
		{"empty", "", CodeUnknownFormat, ""},
		{"binary", "PK\x03\x04\x00\x00", CodeUnknownFormat, ""},
		{"letter", "Dear customer,\nplease find enclosed\n", CodeUnknownFormat, ""},
		{"no wind", "Latitude,44\nTime,Air temperature,Dew point,Water\n", CodeNoColumn, "Wind speed"},
		{"no latitude", "Time,Air temperature,Dew point,Water,Wind speed\n", CodeNoColumn, "Latitude"},
		{"unit", "Latitude,44\nTime,Air temperature [furlong],Dew point,Water,Wind speed\n", CodeUnknownUnit, "Air temperature"},
		{"number", "Latitude,44\nTime,Air temperature,Dew point,Water,Wind speed\n2022-01-01 00:00,cold,0,0,0\n", CodeBadLine, "Air temperature"},
		{"date", "Latitude,44\nTime,Air temperature,Dew point,Water,Wind speed\n1/2/2022 0:00,0,0,0,0\n", CodeBadLine, "Time"},
		{"short location", "LOCATION,X\n", CodeBadLine, "place, latitude, longitude, time zone and elevation"},
		{"latitude", strings.Replace(epw, "44", "north", 1), CodeBadLine, "latitude"},
		{"short line", epw + "1986,1,1,1,60,x,1.1,-2.8\n", CodeBadLine, "columns"},
		{"epw date", epw + "1986,13,1,1,60" + strings.Repeat(",0", 30) + "\n", CodeBadLine, "date"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, _, err := ReadFrom(strings.NewReader(tt.text), "f.csv")
			var e *Error
			require.ErrorAs(t, err, &e)
			assert.Equal(t, tt.code, e.Code)
			assert.Equal(t, finding.Words("file", "f.csv"), e.Args[0])
			if tt.arg != "" {
				assert.Contains(t, e.Args, finding.Words("what", tt.arg))
			}
		})
	}
	_, _, err := Read(filepath.Join(t.TempDir(), "none.epw"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// Every code that the readers and the weather room raise has its sentence.
func TestCodesHaveSentences(t *testing.T) {
	table, err := templates.FS().Open("en/findings.tsv")
	require.NoError(t, err)
	defer table.Close()
	var text bytes.Buffer
	_, err = text.ReadFrom(table)
	require.NoError(t, err)
	for _, code := range []finding.Code{CodeUnreadable, CodeUnknownFormat, CodeBadLine, CodeNoColumn, CodeUnknownUnit, CodeTooLarge, weather.CodeNoSnowData,
		weather.CodeNoValues, weather.CodeFewHours, weather.CodeSeveralYears, weather.CodeMissingNormals} {
		assert.Equal(t, 1, strings.Count(text.String(), "\n"+string(code)+"\t"), "%s", code)
	}
}

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{"0": 0, "-1.25": -1.25, "+3": 3, ".5": 0.5, "7.": 7, " 12 ": 12, "1e3": 1000, "0.1": 0.1,
		"1234567890123456": 1234567890123456, "-0.000": 0, "26.95": 26.95} {
		assert.Equal(t, want, number([]byte(text)), text)
	}
	for _, text := range []string{"", " ", "-", ".", "1.2.3", "x", "1x", "Inf", "1e999"} {
		assert.True(t, math.IsNaN(number([]byte(text))), text)
	}
}

func TestWeatherCodes(t *testing.T) {
	for _, tt := range []struct {
		indicator, codes string
		want             weather.Phenomena
	}{
		{"0", "999099999", weather.Phenomena{Reported: true, Any: true, Snow: weather.Light}},
		{"0", "999999999", weather.Phenomena{Reported: true}},
		{"9", "999099999", weather.Phenomena{}},
		{"0", "999299999", weather.Phenomena{Reported: true, Any: true, Snow: weather.Heavy}},
		{"0", "999199999", weather.Phenomena{Reported: true, Any: true, Snow: weather.Moderate}},
		{"0", "999699999", weather.Phenomena{Reported: true, Any: true, IceCrystals: true}},
		{"0", "999919999", weather.Phenomena{Reported: true, Any: true, Snow: weather.Moderate}},
		{"0", "969999999", weather.Phenomena{Reported: true, Any: true, Rain: weather.Light, Freezing: true}},
		{"0", "994999999", weather.Phenomena{Reported: true, Any: true, Drizzle: weather.Moderate}},
		{"0", "999999099", weather.Phenomena{Reported: true, Any: true}},
		{"0", "99999999", weather.Phenomena{Reported: true, Any: true}}, // thunder; its leading zero was lost
	} {
		assert.Equal(t, tt.want, epwWeather([]byte(tt.indicator), []byte(tt.codes)), tt.codes)
	}
	for text, want := range map[string]weather.Phenomena{
		"":       {},
		"FG":     {Reported: true, Any: true},
		"-SN BR": {Reported: true, Any: true, Snow: weather.Light},
		"+SHSN":  {Reported: true, Any: true, Snow: weather.Heavy},
		"RASN":   {Reported: true, Any: true, Snow: weather.Moderate, Rain: weather.Moderate},
		"-FZRA":  {Reported: true, Any: true, Rain: weather.Light, Freezing: true},
		"BLSN":   {Reported: true, Any: true},
		"FZFG":   {Reported: true, Any: true},
		"VCSH":   {Reported: true, Any: true},
	} {
		assert.Equal(t, want, reportedWeather(text), text)
	}
}

func TestPlaceNames(t *testing.T) {
	for _, tt := range [][4]string{
		{"BURLINGTON", "VT", "USA", "Burlington, VT"},
		{"SAULT_STE._MARIE", "MI", "USA", "Sault Ste Marie, MI"},
		{"Calgary.Intl.AP", "AB", "CAN", "Calgary, AB"},
		{"Zurich.Affoltern", "ZH", "CHE", "Zurich Affoltern, Switzerland"},
		{"Denver Intl Ap", "CO", "USA", "Denver, CO"},
		{"X", "-", "", "X"},
	} {
		assert.Equal(t, tt[3], placeName(tt[0], tt[1], tt[2]))
	}
	assert.Equal(t, "Montreal, QC", shortName(placeName("Montreal.Center-Jean.Brebeuf", "QC", "CAN")))
}

func TestBadStationsTable(t *testing.T) {
	heading := strings.Join(stationColumns, "\t") + "\n"
	for _, text := range []string{heading + "A\t1\n", heading + "A\tnorth" + strings.Repeat("\t1", len(stationColumns)-2) + "\n"} {
		_, err := ReadStations(fstest.MapFS{StationsFile: {Data: []byte(text)}})
		var e *Error
		require.ErrorAs(t, err, &e)
		assert.Equal(t, CodeBadLine, e.Code)
	}
}

func TestStationOfSeveralFiles(t *testing.T) {
	var paths []string
	for _, year := range []int{2021, 2020} {
		var b strings.Builder
		fmt.Fprintln(&b, "Latitude,45\nTime,Air temperature,Dew point,Wind speed,Water")
		for day := range 31 {
			for hour := range 24 {
				fmt.Fprintf(&b, "%d-01-%02d %02d:00,-3,-5,4,0.2\n", year, day+1, hour)
			}
		}
		paths = append(paths, filepath.Join(t.TempDir(), fmt.Sprint(year, ".csv")))
		require.NoError(t, os.WriteFile(paths[len(paths)-1], []byte(b.String()), 0o644))
	}
	st, err := Station("Yard", paths...)
	require.NoError(t, err)
	assert.Equal(t, weather.Observed, st.Kind)
	require.Len(t, st.Years, 2)
	assert.Equal(t, "2020", st.Years[0].Label)
	assert.Len(t, st.Sources, 2)
	assert.Len(t, st.Years[0].Hours, 744)
	assert.True(t, st.Years[0].Hours[5].Snowing())
}

func FuzzReadFrom(f *testing.F) {
	f.Add(hourlyCSV)
	f.Add("LOCATION,X,VT,USA,TMY2,1,44,-73,-5,100\n1986,1,1,1,60,x,1.1,-2.8,76,99400,0,0,288,0,0,0,0,0,0,0,190,3.6,10,10,8.0,1006,0,999099999,9,0.0360,15,0,0.000,0.0,0.0\n")
	f.Add("702730,\"A\",AK,-9.0,61.183,-150.000,35\nDate (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),TotCld (tenths),Dry-bulb (C),Dew-point (C),RHum (%),Pressure (mbar),Wspd (m/s)\n01/01/1976,01:00,0,10,-6.1,-7.2,92,1024,2.1\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, _, err := ReadFrom(strings.NewReader(text), "fuzz")
		if err != nil {
			var e *Error
			require.ErrorAs(t, err, &e)
			return
		}
		if _, err := weather.YearsFromRecord(r); err != nil {
			var u *weather.Unusable
			require.ErrorAs(t, err, &u)
		}
	})
}
