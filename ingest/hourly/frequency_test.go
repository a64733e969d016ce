package hourly_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/ingest/hourly"
)

// moduleRoot returns the folder of go.mod.
func moduleRoot(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		require.NotEqual(t, dir, filepath.Dir(dir), "no go.mod above the test")
		dir = filepath.Dir(dir)
	}
}

// fluxAt is one published or calculated number of the table of frequencies.
type fluxAt struct {
	file, ratio, percent, source, how string
	value                             float64 // Btu/h·ft²
}

// published reads the rows of one set of testdata/published/frequency.tsv.
func published(t testing.TB, set string) []fluxAt {
	t.Helper()
	f, err := os.Open(filepath.Join(moduleRoot(t), "testdata", "published", "frequency.tsv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	var rows []fluxAt
	for _, line := range lines[1:] {
		if line[0] == set {
			v, err := strconv.ParseFloat(line[4], 64)
			require.NoError(t, err)
			require.NotEmpty(t, line[7], "reference row without a source")
			rows = append(rows, fluxAt{line[1], line[2], line[3], line[7], line[8], v})
		}
	}
	require.NotEmpty(t, rows)
	return rows
}

// stations reads weather files once each.
type stations map[string]weather.Station

func (s stations) at(t testing.TB, file string) weather.Station {
	t.Helper()
	if st, read := s[file]; read {
		return st
	}
	folder := filepath.Join(filepath.Dir(moduleRoot(t)), "shared", "weather")
	if _, err := os.Stat(folder); err != nil {
		t.Skip("needs ../shared/weather: the hourly files of the check values")
	}
	record, source, err := hourly.Read(filepath.Join(folder, file))
	require.NoError(t, err)
	year, err := weather.FromRecord(record)
	require.NoError(t, err)
	s[file] = weather.NewStation(record.Name, weather.PlaceOf(record), weather.KindOf(record), []weather.Year{year}, []weather.Source{source})
	return s[file]
}

// load returns the load of a 6.1 m area at the station's own elevation.
func (s stations) load(t testing.TB, file string) surface.Load {
	t.Helper()
	st := s.at(t, file)
	load, err := surface.Analyse(surface.Input{ElevationM: st.ElevationM, WindFactor: 1, LengthM: 6.1, SnowFree: 1, Percentile: 98, Margin: 1}, st)
	require.NoError(t, err)
	return load
}

// pick returns a printed frequency in Btu/h·ft².
func (row fluxAt) pick(t testing.TB, load surface.Load) float64 {
	t.Helper()
	for r, ratio := range surface.Ratios {
		for p, percent := range surface.Percentiles {
			if row.ratio == strconv.FormatFloat(ratio, 'g', -1, 64) && row.percent == strconv.FormatFloat(percent, 'g', -1, 64) {
				return units.Flux.In(units.IP).FromBase(load.Frequency.Value[r][p])
			}
		}
	}
	require.Fail(t, "no such frequency", "%+v", row)
	return 0
}

// TestFrequencyCheckValues: within 1 % or half a unit of the printed digit plus 1 %, whichever is more.
func TestFrequencyCheckValues(t *testing.T) {
	files := stations{}
	for _, set := range []string{"check", "one year before"} {
		worst, within := 0.0, 0
		rows := published(t, set)
		for _, row := range rows {
			got := row.pick(t, files.load(t, row.file))
			worst = math.Max(worst, math.Abs(got/row.value-1))
			if math.Abs(got-row.value) <= 0.5 {
				within++
			} else {
				t.Logf("%s, ratio %s, %s %%: %.2f instead of %g", row.file, row.ratio, row.percent, got, row.value)
			}
			assert.InDelta(t, row.value, got, 0.5+0.01*row.value, "%s, ratio %s, %s %%: %s", row.file, row.ratio, row.percent, row.source)
		}
		t.Logf("%s: %d of %d values within the printed digit, the farthest %.2f %% off", set, within, len(rows), 100*worst)
	}
}

// TestSnowHours: 341 snowfall hours at Burlington, 657 at Montreal and 300 there of at least 0.25 mm, where the 98 % flux is 153 instead of 139.
func TestSnowHours(t *testing.T) {
	files := stations{}
	assert.Equal(t, 341.0, files.load(t, "USA_VT_Burlington.TMY2.epw").SnowHours)
	montreal := files.load(t, "CAN_QC_Montreal-McTavish.TMYx.epw")
	assert.Equal(t, 657.0, montreal.SnowHours)
	quarter := units.Flux.In(units.IP).FromBase(montreal.Quarter.Value[2][3])
	t.Logf("Montreal: %g hours of at least 0.25 mm (300), 98 %% there %.1f Btu/h·ft² (153)", montreal.QuarterHours, quarter)
	assert.InDelta(t, 300, montreal.QuarterHours, 1)
	assert.InDelta(t, 153, quarter, 0.5+1.53)
}

// TestAgainstTwelveYears compares one typical year with the published table of twelve years. One year is no sample of its rare hours: the method was
// found before to lie 5 to 26 % under it at 98 % (the published value so much above ours). Only Boston's 98 % was read and is held to that; the rest is
// from memory and logged with its band.
func TestAgainstTwelveYears(t *testing.T) {
	files := stations{}
	read := 0
	least, most := math.Inf(1), math.Inf(-1)
	for _, row := range published(t, "twelve years") {
		got := row.pick(t, files.load(t, row.file))
		above := row.value/got - 1
		if row.how == "read" {
			read++
			assert.GreaterOrEqual(t, above, 0.05, row.source)
			assert.LessOrEqual(t, above, (202+0.5)/(160-0.5)-1, "26 %, by the printed digits of 202 and 160: "+row.source)
			t.Logf("%s, ratio %s, %s %%: %.1f, published %g (read), %+.1f %% above", row.file, row.ratio, row.percent, got, row.value, 100*above)
			continue
		}
		least, most = math.Min(least, above), math.Max(most, above)
		t.Logf("%s, ratio %s, %s %%: %.1f, published %g (from memory), %+.1f %% above", row.file, row.ratio, row.percent, got, row.value, 100*above)
	}
	t.Logf("published values from memory lie %+.0f to %+.0f %% above those of one typical year", 100*least, 100*most)
	assert.Equal(t, 1, read)
}

// TestInfraredIsMore: with the file's own infrared the 98 % flux is 3 to 24 % more (engineering method, section 1).
func TestInfraredIsMore(t *testing.T) {
	files := stations{}
	for _, file := range []string{"USA_VT_Burlington.TMY2.epw", "CAN_QC_Montreal-McTavish.TMYx.epw", "USA_MN_Minneapolis-St-Paul.TMY2.epw", "USA_CO_Boulder-Muni-AP.TMYx.epw"} {
		load := files.load(t, file)
		require.True(t, load.InfraredWM2.Known, file)
		more := load.InfraredWM2.Value/load.PercentileWM2 - 1
		t.Logf("%s: %+.1f %%", file, 100*more)
		assert.Greater(t, more, 0.025, file)
		assert.Less(t, more, 0.245, file)
	}
}

func BenchmarkAnalyseMontreal(b *testing.B) {
	st := stations{}.at(b, "CAN_QC_Montreal-McTavish.TMYx.epw")
	in := surface.Input{ElevationM: st.ElevationM, WindFactor: 1, LengthM: 6.1, SnowFree: 0.8, Percentile: 98, Margin: 1}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := surface.Analyse(in, st); err != nil {
			b.Fatal(err)
		}
	}
}
