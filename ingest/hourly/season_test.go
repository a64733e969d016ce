package hourly_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"thawbook/calc/season"
	"thawbook/calc/weather"
	"thawbook/ingest/hourly"
)

func seasonStation(t *testing.T, file string) weather.Station {
	t.Helper()
	root, err := os.Getwd()
	require.NoError(t, err)
	for _, err = os.Stat(filepath.Join(root, "go.mod")); err != nil; _, err = os.Stat(filepath.Join(root, "go.mod")) {
		root = filepath.Dir(root)
	}
	path := filepath.Join(root, "..", "shared", "weather", file)
	if _, err := os.Stat(path); err != nil {
		t.Skip("needs ../shared/weather: ", file, " is not there")
	}
	record, source, err := hourly.Read(path)
	require.NoError(t, err)
	years, err := weather.YearsFromRecord(record)
	require.NoError(t, err)
	return weather.NewStation(record.Name, weather.PlaceOf(record), weather.KindOf(record), years, []weather.Source{source})
}

func TestX(t *testing.T) {
	for _, f := range []string{"CAN_QC_Montreal-McTavish.TMYx.epw", "USA_VT_Burlington.TMY2.epw"} {
		st := seasonStation(t, f)
		for _, ar := range []float64{1, 0.5, 0} {
			rs, err := season.Run(season.Input{SnowFactor: 1, Start: season.Day{10, 1}, End: season.Day{4, 30}, WindFactor: 1, LengthM: 6.1, SnowFree: ar, InstalledWM2: 450, BackShare: 0.03,
				MeltC: 3, IdleC: 0.5, IdleBelowC: 2, ShutOffC: 4.4, CoreResistance: 0.025 / 1.4, AerialHoldH: 4, ManualHoldH: 6, DryHoldH: 1}, st)
			require.NoError(t, err)
			t.Log(f, ar)
			for _, r := range rs {
				t.Logf("%-40s off %5.0f idle %5.0f melt %5.0f dry %5.0f E %6.1f idle %6.1f back %5.1f edge %8.0f unmet %4.0f", r.Strategy, r.HoursOff, r.HoursIdling, r.HoursMelting, r.HoursDrying, r.EnergyKWhM2, r.IdlingKWhM2, r.BackKWhM2, r.EdgeDegreeHours, r.UnmetHours)
			}
		}
	}
}
