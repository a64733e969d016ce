package hourly_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/season"
	"thawbook/calc/weather"
	"thawbook/ingest/hourly"
)

// seasonStation reads a file of ../shared/weather into a station, or skips where there is none.
func seasonStation(t *testing.T, file string) weather.Station {
	t.Helper()
	root, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			break
		}
		require.NotEqual(t, filepath.Dir(root), root, "no go.mod above the test")
		root = filepath.Dir(root)
	}
	path := filepath.Join(root, "..", "shared", "weather", file)
	if _, err := os.Stat(path); err != nil {
		t.Skip("needs ../shared/weather: " + file)
	}
	record, source, err := hourly.Read(path)
	require.NoError(t, err)
	years, err := weather.YearsFromRecord(record)
	require.NoError(t, err)
	return weather.NewStation(record.Name, weather.PlaceOf(record), weather.KindOf(record), years, []weather.Source{source})
}

// comparison is the section of the independent transient run: 450 W/m² installed, L 6.1 m, sensor 25 mm deep in concrete of 1.4 W/m·K. Its back
// loss is a result there; 3 % stands for R 0.9 below the slab.
func comparison() season.Input {
	return season.Input{SnowFactor: 1, Start: season.Day{Month: 10, Day: 1}, End: season.Day{Month: 4, Day: 30}, WindFactor: 1, LengthM: 6.1, SnowFree: 1,
		InstalledWM2: 450, BackShare: 0.03, MeltC: 3, IdleC: 0.5, IdleBelowC: 2, ShutOffC: 4.4, CoreResistance: 0.025 / 1.4,
		AerialHoldH: 4, ManualHoldH: 6, DryHoldH: 1}
}

// The steady estimate against an independent transient run of the same description, at A_r 1 (the run kept no ratio; its pavement was mostly bare).
// It leaves out stored heat, dew and frost, so the band is the wide end of what is fair between two honest transient models: 25 %.
func TestSeasonAgainstAnIndependentTransientRun(t *testing.T) {
	const source = "independent figures of the engineering method, section 4, kWh/m² a season"
	for _, tt := range []struct {
		file string
		want map[season.Strategy]float64
	}{
		{"CAN_QC_Montreal-McTavish.TMYx.epw", map[season.Strategy]float64{season.AlwaysOn: 412, season.Manual: 345, season.Aerial: 409, season.AerialSlab: 175,
			season.AerialSlabIdling: 345, season.Pavement: 191, season.PavementIdling: 352}},
		{"USA_VT_Burlington.TMY2.epw", map[season.Strategy]float64{season.AlwaysOn: 516, season.Manual: 175, season.Aerial: 214, season.AerialSlab: 115,
			season.AerialSlabIdling: 410, season.Pavement: 129, season.PavementIdling: 419}},
	} {
		t.Run(tt.file, func(t *testing.T) {
			results, err := season.Run(comparison(), seasonStation(t, tt.file))
			require.NoError(t, err)
			for _, r := range results {
				assert.Equal(t, 5088.0, r.SeasonHours)
				assert.Equal(t, r.SeasonHours, r.HoursOff+r.HoursIdling+r.HoursMelting+r.HoursDrying)
				if want, told := tt.want[r.Strategy]; told {
					t.Logf("%-38s %6.1f kWh/m², independent %3.0f: %+5.1f %%", r.Strategy, r.EnergyKWhM2, want, 100*(r.EnergyKWhM2/want-1))
					assert.InEpsilon(t, want, r.EnergyKWhM2, 0.25, "%s\nsource: %s", r.Strategy, source)
				}
			}
		})
	}
}

// Orderings that any right model shows: engineering method, section 4.
func TestSeasonOrderingsOnRealHours(t *testing.T) {
	for _, file := range []string{"CAN_QC_Montreal-McTavish.TMYx.epw", "USA_VT_Burlington.TMY2.epw"} {
		st := seasonStation(t, file)
		for _, free := range []float64{0, 0.5, 1} {
			in := comparison()
			in.SnowFree = free
			results, err := season.Run(in, st)
			require.NoError(t, err)
			energy := map[season.Strategy]float64{}
			for _, r := range results {
				energy[r.Strategy] = r.EnergyKWhM2
			}
			for _, pair := range [][2]season.Strategy{{season.AlwaysOn, season.PavementIdling}, {season.AerialSlabIdling, season.AerialSlab}, {season.PavementIdling, season.Pavement},
				{season.BothDetectorsIdling, season.BothDetectors}, {season.Aerial, season.AerialSlab}, {season.Aerial, season.Manual}} {
				assert.Greater(t, energy[pair[0]], energy[pair[1]], "%s, A_r %g: %s against %s", file, free, pair[0], pair[1])
			}
		}
	}
}
