package hourly

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/weather"
)

// The converters below write observed records under thawbook's own headings, in the units of their sources.

// airports are the coordinates of the files that hold none.
var airports = map[string]string{
	"USA_NJ_Newark-EWR.obs-2013.csv":             "Station,\"Newark, NJ\"\nLatitude,40.69\nLongitude,-74.17\nElevation,5\nTime zone,-5\n",
	"USA_NY_New-York-JFK.obs-2013.csv":           "Station,\"New York Kennedy, NY\"\nLatitude,40.64\nLongitude,-73.78\nElevation,4\nTime zone,-5\n",
	"USA_NY_New-York-LaGuardia.obs-2013.csv":     "Station,\"New York LaGuardia, NY\"\nLatitude,40.78\nLongitude,-73.87\nElevation,7\nTime zone,-5\n",
	"USA_NH_Lebanon-Muni-AP.LCD-2022.hourly.csv": "Station,\"Lebanon, NH\"\nLatitude,43.627\nLongitude,-72.305\nElevation,168.9\nTime zone,-5\n",
	"FRA_Col-de-Porte.obs-2005-2006.txt":         "Station,\"Col de Porte, France\"\nLatitude,45.3\nLongitude,5.77\nElevation,1325\nTime zone,1\n",
}

// plainCSV converts an observed file.
func plainCSV(t testing.TB, file string) string {
	t.Helper()
	f, err := os.Open(filepath.Join(weatherFolder(t), file))
	require.NoError(t, err)
	defer f.Close()
	var b strings.Builder
	b.WriteString(airports[file])
	switch {
	case strings.HasSuffix(file, ".txt"):
		colDePorte(t, f, &b)
	case strings.Contains(file, "LCD"):
		lebanon(t, f, &b)
	default:
		newYork(t, f, &b)
	}
	return b.String()
}

// newYork: local clock time is ambiguous in autumn, so the hour comes from UTC.
func newYork(t testing.TB, f *os.File, b *strings.Builder) {
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	fmt.Fprintln(b, "Time,Air temperature [°F],Dew point [°F],Relative humidity [%],Wind speed [mph],Water [in]")
	for _, r := range rows[1:] {
		at, err := time.Parse(time.RFC3339, r[14])
		require.NoError(t, err)
		fmt.Fprintf(b, "%s,%s,%s,%s,%s,%s\n", at.Add(-5*time.Hour).Format("2006-01-02 15:04"), r[5], r[6], r[7], r[9], r[11])
	}
}

func lebanon(t testing.TB, f *os.File, b *strings.Builder) {
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	at := map[string]int{}
	for i, h := range rows[0] {
		at[h] = i
	}
	fmt.Fprintln(b, "Time,Air temperature [°F],Dew point [°F],Wind speed [mph],Water [in],Weather,Cloud cover")
	for _, r := range rows[1:] {
		get := func(name string) string { return strings.TrimRight(r[at[name]], "sV*") } // flags follow numbers
		types, _, _ := strings.Cut(r[at["HourlyPresentWeatherType"]], "|")
		var groups []string
		for _, g := range strings.Fields(types) {
			g, _, _ = strings.Cut(g, ":")
			groups = append(groups, g)
		}
		fmt.Fprintf(b, "%s,%s,%s,%s,%s,%s,%s\n", r[at["datetime"]], get("HourlyDryBulbTemperature"), get("HourlyDewPointTemperature"),
			get("HourlyWindSpeed"), get("HourlyPrecipitation"), strings.Join(groups, " "), oktas(r[at["HourlySkyConditions"]]))
	}
}

// oktas takes the greatest layer, in percent.
func oktas(layers string) string {
	most := -1.0
	for _, l := range strings.Fields(layers) {
		if name, eighths, found := strings.Cut(l, ":"); found {
			v := number([]byte(eighths)) / 8 * 100
			if name == "VV" {
				v = 100
			}
			most = max(most, v)
		}
	}
	if most < 0 {
		return "NA"
	}
	return fmt.Sprint(min(most, 100))
}

// colDePorte: kg/m² s of snow and rain become mm in the hour, kelvin becomes °C.
func colDePorte(t testing.TB, f *os.File, b *strings.Builder) {
	fmt.Fprintln(b, "Time,Global sun,Horizontal infrared,Snowfall [mm],Rainfall [mm],Air temperature [°C],Relative humidity [%],Wind speed,Pressure [Pa]")
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		r := strings.Fields(lines.Text())
		num := func(i int) float64 { return number([]byte(r[i])) }
		fmt.Fprintf(b, "%s-%02.0f-%02.0f %02.0f:00,%s,%s,%g,%g,%g,%s,%s,%s\n", r[0], num(1), num(2), num(3), r[4], r[5], num(6)*3600, num(7)*3600,
			num(8)-273.15, r[9], r[10], strings.TrimSuffix(r[11], "."))
	}
	require.NoError(t, lines.Err())
}

func observedRecord(t testing.TB, file string) weather.Record {
	t.Helper()
	r, _, err := ReadFrom(strings.NewReader(plainCSV(t, file)), file)
	require.NoError(t, err)
	return r
}

func TestObservedRecords(t *testing.T) {
	const source = "weather README, first table: hours at or below 1 °C and their water"
	for _, tt := range []struct {
		file  string
		cold  int
		water float64
		rule  weather.SnowRule
	}{
		{"USA_NJ_Newark-EWR.obs-2013.csv", 89, 140.2, weather.RuleDepth},
		{"USA_NY_New-York-JFK.obs-2013.csv", 64, 50.3, weather.RuleDepth},
		{"USA_NY_New-York-LaGuardia.obs-2013.csv", 75, 71.1, weather.RuleDepth},
		{"USA_NH_Lebanon-Muni-AP.LCD-2022.hourly.csv", 92, 86.4, weather.RuleDepthCodes},
	} {
		t.Run(tt.file, func(t *testing.T) {
			r := observedRecord(t, tt.file)
			cold, water, snowing := 0, 0.0, 0
			for _, o := range r.Observations {
				if o.WaterMM > 0 && o.AirC <= 1 {
					cold++
					water += o.WaterMM
				}
				if o.Weather.Snow > weather.None {
					snowing++
				}
			}
			assert.Equal(t, tt.cold, cold, source)
			assert.InDelta(t, tt.water, water, 0.06, source)
			if tt.rule == weather.RuleDepthCodes {
				assert.Equal(t, 220, snowing, "weather README, first table, snow code h")
			}
			y, err := weather.FromRecord(r)
			require.NoError(t, err)
			assert.Equal(t, tt.rule, y.SnowRule)
			hours, given, mm, highest := snow(y)
			t.Log(len(y.Hours), hours, given, mm, highest, y.Missing, y.Filled, y.Assumed)
		})
	}
}

func TestColDePorte(t *testing.T) {
	years, err := weather.YearsFromRecord(observedRecord(t, "FRA_Col-de-Porte.obs-2005-2006.txt"))
	require.NoError(t, err)
	require.Len(t, years, 2)
	given, total := 0, 0.0
	for _, y := range years {
		assert.Equal(t, weather.RuleMeasured, y.SnowRule)
		_, n, mm, _ := snow(y)
		given, total = given+n, total+mm
		assert.True(t, y.HasInfrared)
	}
	assert.Equal(t, 457, given, "weather README, first table")
	assert.InDelta(t, 505.8, total, 0.06, "weather README, first table")
	st := weather.NewStation("Col de Porte", weather.Place{LatDeg: 45.3, ElevationM: 1325}, weather.Observed, years, nil)
	start, end := weather.DefaultSeason(45.3)
	assert.Equal(t, 1, st.Winters(start, end))
	n := 0
	for range st.SeasonHours(start, end) {
		n++
	}
	assert.Equal(t, 5088, n, "hours from 1 October to 30 April")
}
