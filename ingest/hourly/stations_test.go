package hourly

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write templates/stations.tsv from ../shared/weather")

// observedFiles are converted first; the airport's own year is better than its typical one, whose gauge drops all hours below half a millimetre.
var observedFiles = []string{"FRA_Col-de-Porte.obs-2005-2006.txt", "USA_NH_Lebanon-Muni-AP.LCD-2022.hourly.csv", "USA_NJ_Newark-EWR.obs-2013.csv",
	"USA_NY_New-York-JFK.obs-2013.csv", "USA_NY_New-York-LaGuardia.obs-2013.csv"}

const replaced = "USA_NY_New-York-JFK.TMY3.epw"

var stationsComment = []string{
	"Built-in stations: what is kept of an hourly record once its hours are left out. Written by go test ./ingest/hourly -run TestStationsTable -update",
	"Records: typical years of the United States (public domain), typical years from surface reports and Copernicus reanalysis (contains modified Copernicus",
	"Climate Change Service information), observed years of public airports, Col de Porte after Morin et al. 2012 (ESSD 4, 13-21, CC BY).",
	"Extreme minimum is the record's coldest hour less 5 K. Wet hours are those with any snow. Bins hold means of a range of rate, wind and air temperature.",
}

// buildStation is a station of the table with the hours it was made from.
type buildStation struct {
	station    weather.Station
	statistics weather.Statistics
}

// realStations makes a station of every usable file.
func realStations(t testing.TB) []buildStation {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(weatherFolder(t), "*"))
	require.NoError(t, err)
	var list []buildStation
	for _, path := range files {
		file := filepath.Base(path)
		var r weather.Record
		switch {
		case slices.Contains(observedFiles, file):
			r = observedRecord(t, file)
		case file == replaced:
			continue
		case strings.HasSuffix(file, ".epw"), strings.HasSuffix(file, ".TMY3.csv"):
			r = readFile(t, file)
		default:
			continue
		}
		years, err := weather.YearsFromRecord(r)
		if err != nil {
			t.Logf("%s can't be used: %v", file, err)
			continue
		}
		st := weather.NewStation(shortName(r.Name), weather.PlaceOf(r), weather.KindOf(r), years, nil)
		st.ExtremeMinC = units.Some(weather.ColdestHourC(st) - 5)
		s := weather.Summarise(st)
		s.Source = sourceOf(r, years, file)
		list = append(list, buildStation{st, s})
	}
	slices.SortFunc(list, func(a, b buildStation) int { return strings.Compare(a.statistics.Name, b.statistics.Name) })
	return list
}

// sourceOf says what a row rests on.
func sourceOf(r weather.Record, years []weather.Year, file string) string {
	kind := "typical year"
	if !r.Typical {
		kind = "observed " + years[0].Label
		if len(years) > 1 {
			kind += " to " + years[len(years)-1].Label
		}
	}
	text := fmt.Sprintf("%s, %s, from %s", kind, years[0].SnowRule, file)
	if wholeMillimetres(r) {
		text += "; gauge in whole mm, so that light snow is lost"
	}
	return text
}

func wholeMillimetres(r weather.Record) bool {
	n := 0
	for _, o := range r.Observations {
		if o.WaterMM > 0 {
			n++
			if o.WaterMM != math.Trunc(o.WaterMM) {
				return false
			}
		}
	}
	return n > 0
}

func TestStationsTable(t *testing.T) {
	built := realStations(t)
	var list []weather.Statistics
	names := map[string]bool{}
	for _, b := range built {
		assert.False(t, names[b.statistics.Name], "%s stands twice", b.statistics.Name)
		names[b.statistics.Name] = true
		list = append(list, b.statistics)
	}
	var want bytes.Buffer
	require.NoError(t, WriteStations(&want, stationsComment, list))
	assert.Less(t, want.Len(), 300_000)
	path := filepath.Join(moduleRoot(t), "templates", StationsFile)
	if *update {
		if os.Getenv("CI") != "" {
			t.Fatal("-update is refused where CI is set")
		}
		require.NoError(t, os.WriteFile(path, want.Bytes(), 0o644))
	}
	have, err := os.ReadFile(path)
	require.NoError(t, err)
	if !bytes.Equal(want.Bytes(), have) {
		t.Error("templates/stations.tsv is stale: go test ./ingest/hourly -run TestStationsTable -update")
	}
}

// The table holds what was derived, up to the digits it is written with: writing what was read gives the same bytes.
func TestStationsRoundTrip(t *testing.T) {
	list, err := ReadStations(templates.FS())
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(list), 30)
	var again bytes.Buffer
	require.NoError(t, WriteStations(&again, stationsComment, list))
	have, err := fs.ReadFile(templates.FS(), StationsFile)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(have, again.Bytes()))
}

// winterOf sums up the months October to April: snowfall hours, snow water, mean temperature, hours below 2 °C, mean wind.
func winterOf(st weather.Station) (hours, water, mean, idle, wind float64) {
	start, end := weather.DefaultSeason(st.LatDeg)
	n := 0.0
	for _, h := range st.SeasonHours(start, end) {
		n++
		mean, wind, water = mean+h.AirC, wind+h.WindMS, water+h.SnowMM
		if h.Snowing() {
			hours++
		}
		if h.AirC < 2 {
			idle++
		}
	}
	return hours, water, mean / n, idle, wind / n
}

// Each built-in station's synthetic winter beside the hours it was made from. Bands: snowfall hours and water 2 % or 1, mean temperature 0.2 K,
// hours below 2 °C 8 %, wind 4 %, flux at 98 % 7 % (A_r 1, 6.1 m, no margin).
func TestSyntheticBesideReal(t *testing.T) {
	table, err := ReadStations(templates.FS())
	require.NoError(t, err)
	byName := map[string]weather.Statistics{}
	for _, s := range table {
		byName[s.Name] = s
	}
	t.Logf("%-28s %15s %19s %15s %15s %13s %15s", "", "snowfall hours", "snow water mm", "mean °C", "hours < 2 °C", "wind m/s", "98 % W/m²")
	for _, b := range realStations(t) {
		st, err := byName[b.statistics.Name].Station()
		require.NoError(t, err)
		require.Len(t, st.Years[0].Hours, 8760)
		assert.Equal(t, weather.Synthetic, st.Kind)
		assert.False(t, st.CoarseSynthetic)
		h, w, c, i, v := winterOf(b.station)
		h2, w2, c2, i2, v2 := winterOf(st)
		f, f2 := flux98(t, b.station), flux98(t, st)
		t.Logf("%-28s %7.0f %7.0f %9.1f %9.1f %7.2f %7.2f %7.0f %7.0f %6.2f %6.2f %7.0f %7.0f", b.statistics.Name, h, h2, w, w2, c, c2, i, i2, v, v2, f, f2)
		assert.InDelta(t, h, h2, math.Max(1, 0.02*h), "%s: snowfall hours", b.statistics.Name)
		assert.InDelta(t, w, w2, math.Max(1, 0.02*w), "%s: snow water", b.statistics.Name)
		assert.InDelta(t, c, c2, 0.2, "%s: mean temperature", b.statistics.Name)
		assert.InEpsilon(t, i, i2, 0.08, "%s: hours below 2 °C", b.statistics.Name)
		assert.InEpsilon(t, v, v2, 0.04, "%s: wind", b.statistics.Name)
		assert.InEpsilon(t, f, f2, 0.07, "%s: flux at 98 %%", b.statistics.Name)
	}
}

func flux98(t testing.TB, st weather.Station) float64 {
	load, err := surface.Analyse(surface.Input{Station: st.Digest, ElevationM: st.ElevationM, WindFactor: 1, LengthM: 6.1, SnowFree: 1, Percentile: 98, Margin: 1}, st)
	require.NoError(t, err)
	return load.PercentileWM2
}

// The same statistics give the same hours, bit for bit, every time.
func TestSyntheticIsDetermined(t *testing.T) {
	table, err := ReadStations(templates.FS())
	require.NoError(t, err)
	for _, s := range table {
		a, err := s.Station()
		require.NoError(t, err)
		b, err := s.Station()
		require.NoError(t, err)
		assert.Equal(t, a.Digest, b.Digest)
	}
}

func BenchmarkSyntheticStation(b *testing.B) {
	table, err := ReadStations(templates.FS())
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := table[0].Station(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadEPW(b *testing.B) {
	path := filepath.Join(weatherFolder(b), "USA_VT_Burlington.TMY2.epw")
	b.ReportAllocs()
	for b.Loop() {
		r, _, err := Read(path)
		if err != nil {
			b.Fatal(err)
		}
		y, err := weather.FromRecord(r)
		if err != nil {
			b.Fatal(err)
		}
		weather.NewStation(r.Name, weather.PlaceOf(r), weather.KindOf(r), []weather.Year{y}, nil)
	}
}
