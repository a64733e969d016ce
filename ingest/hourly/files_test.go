package hourly

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/weather"
)

// moduleRoot walks up to the folder of go.mod.
func moduleRoot(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for dir != filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		dir = filepath.Dir(dir)
	}
	t.Fatal("no go.mod above the test")
	return ""
}

// weatherFolder finds ../shared/weather beside the module root.
func weatherFolder(t testing.TB) string {
	t.Helper()
	folder := filepath.Join(filepath.Dir(moduleRoot(t)), "shared", "weather")
	if _, err := os.Stat(folder); err != nil {
		t.Skip("needs ../shared/weather: hourly files to read")
	}
	return folder
}

func readFile(t testing.TB, file string) weather.Record {
	t.Helper()
	r, source, err := Read(filepath.Join(weatherFolder(t), file))
	require.NoError(t, err)
	require.Len(t, source.SHA256, 64)
	return r
}

func yearOf(t testing.TB, file string) weather.Year {
	t.Helper()
	y, err := weather.FromRecord(readFile(t, file))
	require.NoError(t, err)
	require.Len(t, y.Hours, 8760)
	return y
}

// snow returns the snowfall hours, the snow water, the hours given any snow water and the greatest hour [mm].
func snow(y weather.Year) (hours, given int, water, highest float64) {
	for i := range y.Hours {
		h := &y.Hours[i]
		if h.Snowing() {
			hours++
		}
		if h.SnowMM > 0 {
			given++
		}
		water += h.SnowMM
		highest = math.Max(highest, h.SnowMM)
	}
	return hours, given, water, highest
}

func TestObserverYears(t *testing.T) {
	const source = "weather README, table of TMY2 files"
	for _, tt := range []struct {
		file           string
		asIs, held     int
		water, highest float64
		given          int
	}{
		{"USA_IL_Chicago-OHare.TMY2.epw", 428, 506, 76, 2.2, 226},
		{"USA_MA_Boston-Logan.TMY2.epw", 233, 233, 68, 3.5, 133},
		{"USA_ME_Portland.TMY2.epw", 185, 333, 177, 3.7, 216},
		{"USA_MI_Detroit-Metro-AP.TMY2.epw", 483, 483, 79, 4.3, 218},
		{"USA_MI_Sault-Ste-Marie.TMY2.epw", 889, 1104, 197, 3.6, 499},
		{"USA_MN_Minneapolis-St-Paul.TMY2.epw", 567, 635, 138, 4.2, 303},
		{"USA_ND_Minot.TMY2.epw", 532, 538, 79, 3.7, 167},
		{"USA_NY_Albany.TMY2.epw", 333, 369, 97, 5.0, 142},
		{"USA_NY_Buffalo.TMY2.epw", 802, 876, 172, 4.0, 409},
		{"USA_OH_Cleveland.TMY2.epw", 687, 767, 103, 3.2, 323},
		{"USA_PA_Pittsburgh.TMY2.epw", 537, 563, 55, 1.2, 155},
		{"USA_UT_Salt-Lake-City.TMY2.epw", 346, 346, 62, 4.7, 124},
		{"USA_VT_Burlington.TMY2.epw", 624, 721, 179, 6.2, 341},
		{"USA_WA_Spokane.TMY2.epw", 339, 383, 80, 1.0, 176},
		{"USA_WI_Milwaukee.TMY2.epw", 409, 468, 102, 4.3, 196},
	} {
		t.Run(tt.file, func(t *testing.T) {
			r := readFile(t, tt.file)
			asIs := 0
			for _, o := range r.Observations {
				if o.Weather.Snow > weather.None {
					asIs++
				}
			}
			y := yearOf(t, tt.file)
			assert.Equal(t, weather.RuleCodesSnow, y.SnowRule)
			hours, given, water, highest := snow(y)
			assert.Equal(t, tt.asIs, asIs, "snow codes as they are: %s", source)
			assert.Equal(t, tt.held, y.SnowCodeHour, "after holding: %s", source)
			assert.InDelta(t, tt.water, water, 0.5, "water at 10:1: %s", source)
			assert.Equal(t, tt.given, given, "hours given water: %s", source)
			assert.InDelta(t, tt.highest, highest, 0.05, "highest hour: %s", source)
			assert.LessOrEqual(t, hours, given)
		})
	}
}

func TestCheckValues(t *testing.T) {
	for _, tt := range []struct {
		file   string
		hours  int
		rule   weather.SnowRule
		source string
	}{
		{"USA_VT_Burlington.TMY2.epw", 341, weather.RuleCodesSnow, "engineering method, section 1, check values"},
		{"CAN_QC_Montreal-McTavish.TMYx.epw", 657, weather.RuleDepth, "engineering method, section 1, check values"},
	} {
		y := yearOf(t, tt.file)
		hours, _, _, _ := snow(y)
		assert.Equal(t, tt.hours, hours, "%s: %s", tt.file, tt.source)
		assert.Equal(t, tt.rule, y.SnowRule)
	}
	y := yearOf(t, "CAN_QC_Montreal-McTavish.TMYx.epw")
	quarter := 0
	for i := range y.Hours {
		if y.Hours[i].SnowingQuarter() {
			quarter++
		}
	}
	assert.InDelta(t, 300, quarter, 1, "engineering method, section 1: Montreal, hours of at least 0.25 mm; ours are 301")
}

func TestSums(t *testing.T) {
	for _, tt := range []struct {
		file                 string
		missing, hours, cold int // hours with water, and of them at 1 °C and below
		water, coldWater     float64
		highest              float64 // 0: not told
		source               string
	}{
		{"CAN_AB_Calgary-Intl-AP.TMYx.epw", 0, 1429, 469, 597, 100, 1.7, "weather README, table of TMYx files"},
		{"CAN_MB_Winnipeg-The-Forks.TMYx.epw", 0, 1225, 417, 665, 88, 1.8, "weather README, table of TMYx files"},
		{"CAN_QC_Montreal-McTavish.TMYx.epw", 0, 1990, 657, 1144, 261, 3.0, "weather README, table of TMYx files"},
		{"CHE_Zurich-Affoltern.TMYx.epw", 0, 2596, 338, 1143, 115, 1.6, "weather README, table of TMYx files"},
		{"DEU_Stuttgart-AP.TMYx.epw", 0, 2152, 211, 798, 44, 0.9, "weather README, table of TMYx files"},
		{"FIN_Helsinki-Lighthouse.TMYx.epw", 0, 2224, 463, 713, 101, 1.2, "weather README, table of TMYx files"},
		{"SWE_Stockholm-Arlanda.TMYx.epw", 0, 1665, 262, 613, 71, 1.8, "weather README, table of TMYx files"},
		{"USA_CO_Boulder-Muni-AP.TMYx.epw", 0, 1609, 550, 619, 221, 3.7, "weather README, table of TMYx files"},
		{"USA_CO_Denver-Intl-AP.TMY3.epw", 1974, 104, 28, 292, 42, 0, "weather README, table of TMY3 files"},
		{"USA_IA_Dubuque-Rgnl-AP.TMY3.epw", 4, 251, 33, 991, 59, 0, "weather README, table of TMY3 files"},
		{"USA_IL_Chicago-OHare.TMY3.epw", 8041, 30, 4, 46, 4, 0, "weather README, table of TMY3 files"},
		{"USA_NH_Mount-Washington.TMY3.epw", 3052, 862, 516, 3277, 1566, 0, "weather README, table of TMY3 files"},
		{"USA_NY_New-York-JFK.TMY3.epw", 5, 268, 28, 722, 40, 0, "weather README, table of TMY3 files"},
		{"USA_PA_Harrisburg-Intl-AP.TMY3.epw", 747, 325, 96, 797, 167, 0, "weather README, table of TMY3 files"},
	} {
		t.Run(tt.file, func(t *testing.T) {
			r := readFile(t, tt.file)
			var missing, hours, cold int
			var water, coldWater, highest float64
			for _, o := range r.Observations {
				switch {
				case math.IsNaN(o.WaterMM):
					missing++
				case o.WaterMM > 0:
					hours++
					water += o.WaterMM
					if o.AirC <= 1 {
						cold++
						coldWater += o.WaterMM
						highest = math.Max(highest, o.WaterMM)
					}
				}
			}
			assert.Equal(t, tt.missing, missing, tt.source)
			assert.Equal(t, tt.hours, hours, tt.source)
			assert.Equal(t, tt.cold, cold, tt.source)
			assert.InDelta(t, tt.water, water, 0.5001, tt.source)
			assert.InDelta(t, tt.coldWater, coldWater, 0.5001, tt.source)
			if tt.highest > 0 {
				assert.InDelta(t, tt.highest, highest, 0.05, tt.source)
			}
		})
	}
}

// Amounts of six and of twenty-four hours are spread over their hours, less what those already carry, so that nothing counts twice.
func TestSpreadAmounts(t *testing.T) {
	y := yearOf(t, "USA_NH_Mount-Washington.TMY3.epw")
	assert.Equal(t, weather.RuleDepth, y.SnowRule)
	total := 0.0
	for i := range y.Hours {
		total += y.Hours[i].SnowMM + y.Hours[i].RainMM
	}
	const raw, tooLarge = 3277, 201 // weather README; one amount of 99 mm and more means missing
	assert.Less(t, total, float64(raw-tooLarge), "six-hour amounts that follow hourly ones must not count twice")
	assert.InDelta(t, 2430, total, 1, "regression")
	assert.Less(t, y.Missing, 1000, "of 3052 missing hours most are covered by longer amounts")
}

func TestCodesAlone(t *testing.T) {
	for file, codes := range map[string]int{"USA_AK_Anchorage-Intl-AP.TMY3.csv": 590, "USA_AK_Fairbanks-Intl-AP.TMY3.csv": 822} {
		y := yearOf(t, file)
		hours, _, _, highest := snow(y)
		assert.Equal(t, weather.RuleCodes, y.SnowRule)
		assert.Equal(t, codes, hours, "weather README, first table, snow code h")
		assert.InDelta(t, 1.5, highest, 1e-9, "engineering method, section 1, rule 3: moderate snow is the heaviest code in both")
	}
}

func TestUnusableFile(t *testing.T) {
	_, err := weather.FromRecord(readFile(t, "USA_IL_Chicago-OHare.TMY3.epw"))
	var unusable *weather.Unusable
	require.ErrorAs(t, err, &unusable)
	assert.Equal(t, weather.CodeNoSnowData, unusable.Code)
	assert.NotEmpty(t, unusable.Args[0].Text)
}
