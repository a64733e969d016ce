package ingest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/ingest/sheet"
)

const (
	foot = 0.3048 // m, exact
	inch = 0.0254 // m, exact
)

func TestNumbers(t *testing.T) {
	si, ip, comma := reading{}, reading{system: units.IP}, reading{comma: true}
	percentHeading := measure{quantity: units.Share, percentAbove: 1, unit: units.Share.In(units.SI), told: true}
	slope := measure{quantity: units.Share, percentAbove: 1}
	efficiency := measure{quantity: units.Factor, percentAbove: 6}
	money := measure{quantity: units.Number, money: true}
	of := func(q units.Quantity) measure { return measure{quantity: q} }
	under := func(q units.Quantity, unit string) measure {
		u, ok := q.Parse(unit)
		require.True(t, ok, unit)
		return measure{quantity: q, unit: u, told: true}
	}
	stored, shownPercent, shownDate := sheet.Number, sheet.Number|sheet.Percent, sheet.Number|sheet.Date
	for _, tt := range []struct {
		name  string
		how   reading
		typed sheet.Cell
		what  measure
		want  float64
		told  bool // repaired, ambiguous or a fraction
	}{
		{"stored number", si, sheet.Cell{Text: "420", Mark: stored}, of(units.Area), 420, false},
		{"stored number never has a decimal comma", comma, sheet.Cell{Text: "1.234", Mark: stored}, of(units.Area), 1.234, false},
		{"stored number in I-P", ip, sheet.Cell{Text: "420", Mark: stored}, of(units.Area), 420 * foot * foot, false},
		{"the heading's unit goes before the workbook's", ip, sheet.Cell{Text: "420", Mark: stored}, under(units.Area, "m²"), 420, false},
		{"exponent", si, sheet.Cell{Text: "1.5E+3", Mark: stored}, of(units.Area), 1500, false},
		{"text number", si, sheet.Cell{Text: " 420\u00a0"}, of(units.Area), 420, false},
		{"unit in the cell", si, sheet.Cell{Text: "420 sq ft"}, of(units.Area), 420 * foot * foot, true},
		{"unit in the cell goes before the heading's", si, sheet.Cell{Text: "420 m2"}, under(units.Area, "ft2"), 420, true},
		{"thousands", si, sheet.Cell{Text: "1,200"}, of(units.Area), 1200, true},
		{"thousands and decimals", si, sheet.Cell{Text: "1,200.5"}, of(units.Area), 1200.5, true},
		{"continental thousands", si, sheet.Cell{Text: "1.200,5"}, of(units.Area), 1200.5, true},
		{"several thousands", si, sheet.Cell{Text: "1,234,567"}, money, 1234567, true},
		{"several points", si, sheet.Cell{Text: "1.234.567"}, money, 1234567, true},
		{"thin spaces", si, sheet.Cell{Text: "12\u202f500"}, of(units.Area), 12500, true},
		{"apostrophes", si, sheet.Cell{Text: "12'500"}, money, 12500, true},
		{"the number itself says so", si, sheet.Cell{Text: "12,5"}, of(units.Area), 12.5, true},
		{"a thousand never begins with 0", si, sheet.Cell{Text: "0,125"}, of(units.Area), 0.125, true},
		{"Settings say so", comma, sheet.Cell{Text: "1,200"}, of(units.Area), 1.2, true},
		{"Settings say so, thousands", comma, sheet.Cell{Text: "1.200"}, of(units.Area), 1200, true},
		{"a point before three digits", si, sheet.Cell{Text: "1.200"}, of(units.Area), 1.2, true},
		{"a point before three digits of a fraction", si, sheet.Cell{Text: "0.125"}, of(units.Area), 0.125, false},
		{"a point before four digits", si, sheet.Cell{Text: "1.2004"}, of(units.Area), 1.2004, false},
		{"hectares", si, sheet.Cell{Text: "0.4 ha"}, of(units.Area), 4000, true},
		{"acres", si, sheet.Cell{Text: "2 acres"}, of(units.Area), 2 * 43560 * foot * foot, true},
		{"minus sign", si, sheet.Cell{Text: "−5"}, of(units.Temperature), -5, false},
		{"about", si, sheet.Cell{Text: "ca. 40"}, of(units.Area), 40, true},
		{"leading point", si, sheet.Cell{Text: ".5"}, of(units.Area), 0.5, false},
		{"Fahrenheit", si, sheet.Cell{Text: "14 °F"}, of(units.Temperature), -10, true},
		{"Fahrenheit workbook", ip, sheet.Cell{Text: "14", Mark: stored}, of(units.Temperature), -10, false},
		{"a difference has no offset", ip, sheet.Cell{Text: "18", Mark: stored}, of(units.TemperatureDiff), 10, false},
		{"a difference in °F", si, sheet.Cell{Text: "18 °F"}, of(units.TemperatureDiff), 10, true},
		{"feet and inches", ip, sheet.Cell{Text: `2' 6"`}, of(units.Length), 2.5 * foot, true},
		{"feet and inches with a hyphen", ip, sheet.Cell{Text: `2'-6 1/2"`}, of(units.Length), 2*foot + 6.5*inch, true},
		{"feet", ip, sheet.Cell{Text: `40'`}, of(units.Length), 40 * foot, false},
		{"no foot of 200 inches", si, sheet.Cell{Text: `1'200`}, of(units.Length), 1200, true},
		{"inches", ip, sheet.Cell{Text: `6"`}, of(units.Thickness), 6 * inch, false},
		{"fraction of an inch", ip, sheet.Cell{Text: `7 1/2 in`}, of(units.Thickness), 7.5 * inch, true},
		{"R-value", si, sheet.Cell{Text: "R-10"}, of(units.Insulance), 10 / 5.678263, true},
		{"percent sign", si, sheet.Cell{Text: "12 %"}, slope, 0.12, false},
		{"half a percent", si, sheet.Cell{Text: "0.5%"}, slope, 0.005, false},
		{"fraction", si, sheet.Cell{Text: "0.02", Mark: stored}, slope, 0.02, false},
		{"above 1 is percent", si, sheet.Cell{Text: "2", Mark: stored}, slope, 0.02, false},
		{"shown as percent", si, sheet.Cell{Text: "0.02", Mark: shownPercent}, slope, 0.02, false},
		{"shown as percent under a percent heading", si, sheet.Cell{Text: "0.02", Mark: shownPercent}, percentHeading, 0.02, false},
		{"percent heading", si, sheet.Cell{Text: "0.5", Mark: stored}, percentHeading, 0.005, false},
		{"one to twelve", si, sheet.Cell{Text: "1:12"}, slope, 1.0 / 12, false},
		{"one in twelve", si, sheet.Cell{Text: "1 in 12"}, slope, 1.0 / 12, false},
		{"one to twelve that became a time", si, sheet.Cell{Text: "0.05", Shown: "1:12", Mark: shownDate}, slope, 1.0 / 12, false},
		{"factor", si, sheet.Cell{Text: "3.2", Mark: stored}, efficiency, 3.2, false},
		{"above 6 is percent", si, sheet.Cell{Text: "92", Mark: stored}, efficiency, 0.92, false},
		{"percent of a factor", si, sheet.Cell{Text: "92 %"}, efficiency, 0.92, false},
		{"percent of a bare fraction", si, sheet.Cell{Text: "50 %"}, of(units.Emissivity), 0.5, false},
		{"percentile", si, sheet.Cell{Text: "98", Mark: stored}, of(units.Percent), 98, false},
		{"percentile as a fraction", si, sheet.Cell{Text: "0.98", Mark: stored}, of(units.Percent), 98, true},
		{"percentile shown as percent", si, sheet.Cell{Text: "0.98", Mark: shownPercent}, of(units.Percent), 98, false},
		{"currency sign", si, sheet.Cell{Text: "$1,200.50"}, money, 1200.5, true},
		{"currency", reading{currency: "CAD"}, sheet.Cell{Text: "12.50 CAD"}, money, 12.5, false},
		{"therm", si, sheet.Cell{Text: "1 therm"}, of(units.Energy), 29.3071, true}, // published.md section 10
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, code := tt.how.number(tt.typed, tt.what)
			require.Empty(t, code)
			assert.InEpsilon(t, tt.want, got.value, 1e-6)
			assert.Equal(t, tt.told, got.repaired || got.ambiguous || got.fraction, "told")
		})
	}
}

func TestNumbersRefused(t *testing.T) {
	slope := measure{quantity: units.Share, percentAbove: 1}
	area := measure{quantity: units.Area}
	for _, tt := range []struct {
		typed sheet.Cell
		what  measure
		want  finding.Code
	}{
		{sheet.Cell{Text: "about forty"}, area, CodeNotNumber},
		{sheet.Cell{Text: "forty m2"}, area, CodeNotNumber},
		{sheet.Cell{Text: "40 furlongs"}, area, CodeUnitUnknown},
		{sheet.Cell{Text: "40 ft"}, area, CodeUnitUnknown},
		{sheet.Cell{Text: "12 %"}, area, CodeUnitUnknown},
		{sheet.Cell{Text: "1,20,0"}, area, CodeNotNumber},
		{sheet.Cell{Text: "1.2.3"}, area, CodeNotNumber},
		{sheet.Cell{Text: "1 2"}, area, CodeNotNumber},
		{sheet.Cell{Text: "10-20"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "20 x 30"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "20m × 30m"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "100 to 200"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "100–200 m²"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "20 + 30"}, area, CodeNotOneNumber},
		{sheet.Cell{Text: "12..5"}, area, CodeNotNumber},
		{sheet.Cell{Text: "1 to 2 %"}, slope, CodeNotOneNumber},
		{sheet.Cell{Text: "1:0"}, slope, CodeNotNumber},
		{sheet.Cell{Text: "1", Mark: sheet.Bool}, area, CodeNotNumber},
		{sheet.Cell{Text: "45000", Shown: "2023-03-15", Mark: sheet.Number | sheet.Date}, area, CodeDateInNumber},
		{sheet.Cell{Text: "NaN"}, area, CodeNotNumber},
		{sheet.Cell{Text: "NaN", Mark: sheet.Number}, area, CodeNotNumber},
		{sheet.Cell{Text: "1e999"}, area, CodeNotNumber},
		{sheet.Cell{Text: "-"}, area, CodeNotNumber},
		{sheet.Cell{Text: "5 USD"}, measure{quantity: units.Number, money: true}, CodeUnitUnknown},
	} {
		_, code := reading{}.number(tt.typed, tt.what)
		assert.Equal(t, tt.want, code, "%q", tt.typed.Text)
	}
}

func TestAngles(t *testing.T) {
	latitude, longitude := measure{quantity: units.Angle, directions: "NS"}, measure{quantity: units.Angle, directions: "EW"}
	for _, tt := range []struct {
		typed string
		what  measure
		want  float64 // degrees
		told  bool
	}{
		{"42.36", latitude, 42.36, false},
		{"-71.06", longitude, -71.06, false},
		{"−71.06°", longitude, -71.06, false},
		{"42.36 N", latitude, 42.36, true},
		{"42,36° n", latitude, 42.36, true},
		{"N 42.36", latitude, 42.36, true},
		{"33.9 S", latitude, -33.9, true},
		{"42°21'N", latitude, 42.35, true},
		{"71° 3' W", longitude, -71.05, true},
		{"71°3′36″W", longitude, -71.06, true},
		{"71 deg 3 min 36 sec W", longitude, -71.06, true},
		{"-71°3'36\"", longitude, -71.06, true},
		{"-71.06 W", longitude, -71.06, true},
		{"-0°30'", latitude, -0.5, true},
	} {
		got, code := reading{}.number(sheet.Cell{Text: tt.typed}, tt.what)
		require.Empty(t, code, tt.typed)
		assert.InDelta(t, tt.want, got.value, 1e-12, tt.typed)
		assert.Equal(t, tt.told, got.repaired, "%s: told", tt.typed)
	}
	for _, typed := range []string{"71 W", "42°60'N", "42.5°21'N", "-42 N", "N 42 N", "north", "42°N 21'", "42 21"} {
		_, code := reading{}.number(sheet.Cell{Text: typed}, latitude)
		assert.NotEmpty(t, code, typed)
	}
}

// A limit has the slack of its own size only: what a conversion does to its last digits.
func TestWithin(t *testing.T) {
	for _, tt := range []struct {
		v, least, most float64
		want           bool
	}{
		{0, 0, 1e9, true}, {-1, 0, 1e9, false}, {-1e-12, 0, 1e9, false}, {0, 1e-6, 1e6, false}, {1e-6 * (1 - 1e-12), 1e-6, 1e6, true},
		{0.6 * (1 + 1e-12), 0.075, 0.6, true}, {0.6001, 0.075, 0.6, false}, {-90.001, -90, 90, false}, {-90, -90, 90, true}, {1e9 + 2, 0, 1e9, false},
	} {
		assert.Equal(t, tt.want, within(tt.v, tt.least, tt.most), "%g in %g to %g", tt.v, tt.least, tt.most)
	}
}

func TestTypedNumbers(t *testing.T) {
	for stored, want := range map[string]string{"9.800000000000001": "9.8", "0.30000000000000004": "0.3", "1.0000000000000001E-5": "0.00001", "1.5E+3": "1500", "42": "42",
		"-2.5": "-2.5", "7.0": "7.0", "1234567890123456": "1234567890123456", "1E+300": "1e+300", "0.00012": "0.00012", "-9.800000000000001": "-9.8"} {
		assert.Equal(t, want, shownText(sheet.Cell{Text: stored, Mark: sheet.Number}), stored)
	}
}

func TestDates(t *testing.T) {
	for _, typed := range []string{"2026-10-01", "1 October 2026", "October 1, 2026", "Oct 1 2026", "1.10.2026", "10/01/2026", "31/10/26", "October 2026"} {
		assert.True(t, isDate(typed), typed)
	}
	for _, typed := range []string{"", "tomorrow", "2026", "2026-13-01", "2026-02-30", "32/13/2026", "1 October", "46085", "Q3 2026"} {
		assert.False(t, isDate(typed), typed)
	}
}

func TestPipes(t *testing.T) {
	si, ip := reading{}, reading{system: units.IP}
	for _, tt := range []struct {
		how         reading
		typed       string
		outer, wall float64 // m
		source      string
	}{
		{si, "20x2.0", 0.020, 0.002, "as written"},
		{si, "25 × 2,3", 0.025, 0.0023, "as written"},
		{si, "20*2", 0.020, 0.002, "as written"},
		{si, "18X2.5 mm", 0.018, 0.0025, "as written"},
		{si, "20 mm", 0.020, 0.0019, "EN ISO 15875-2, series S5, recalled: published values, section 9"},
		{si, "25", 0.025, 0.0023, "EN ISO 15875-2, series S5, recalled: published values, section 9"},
		{si, "16 mm", 0.016, 0.0018, "EN ISO 15875-2, recalled: published values, section 9"},
		{si, "3/4 in", 0.875 * inch, (0.875 - 0.671) / 2 * inch, "ASTM F876, bore of the average wall recalled: published values, section 9"},
		{si, `1/2"`, 0.625 * inch, (0.625 - 0.475) / 2 * inch, "ASTM F876, bore of the average wall read: published values, section 9"},
		{ip, "5/8", 0.750 * inch, (0.750 - 0.574) / 2 * inch, "ASTM F876, bore of the average wall recalled: published values, section 9"},
		{ip, "1", 1.125 * inch, (1.125 - 0.863) / 2 * inch, "ASTM F876, bore of the average wall recalled: published values, section 9"},
	} {
		got, ok := tt.how.pipe(tt.typed)
		require.True(t, ok, tt.typed)
		assert.InDelta(t, tt.outer, got.OuterM, 1e-9, "%s: %s", tt.typed, tt.source)
		assert.InDelta(t, tt.wall, got.WallM, 1e-9, "%s: %s", tt.typed, tt.source)
	}
	for _, typed := range []string{"", "PEX", "18 mm", "20x12", "20x0", "7/8 in", "2 in", "1x2x3", "2026-04-03"} {
		_, ok := si.pipe(typed)
		assert.False(t, ok, "%q", typed)
	}
}

func TestDaysAndMonths(t *testing.T) {
	for typed, want := range map[string]season.Day{
		"1 October": {Month: 10, Day: 1}, "Oct 1": {Month: 10, Day: 1}, "1st of october": {Month: 10, Day: 1}, "30. Apr.": {Month: 4, Day: 30},
		"10-01": {Month: 10, Day: 1}, "2026-10-01": {Month: 10, Day: 1}, "1.10.": {Month: 10, Day: 1}, "29 February": {Month: 2, Day: 29},
	} {
		got, ok := day(typed)
		assert.True(t, ok, typed)
		assert.Equal(t, want, got, typed)
	}
	for _, typed := range []string{"", "winter", "31 April", "10/1", "13-01", "0 May", "October"} {
		_, ok := day(typed)
		assert.False(t, ok, "%q", typed)
	}
	for typed, want := range map[string]int{"1": 1, "12": 12, "January": 1, "sept": 9, "Dec.": 12, "13": 0, "0": 0, "ja": 0, "": 0, "Monday": 0} {
		assert.Equal(t, want, month(typed), "%q", typed)
	}
}

func TestFold(t *testing.T) {
	for typed, want := range map[string]string{
		"Site ID": "siteid", " site-id ": "siteid", "SITE_ID:": "siteid", "Area [m²]": "area", "Area (ft2)": "area", "Área": "area", "Straße": "strasse",
		"Snow-free area ratio": "snowfreearearatio", "(draft)": "draft", "Length in the wind’s direction": "lengthinthewindsdirection", "北": "北",
	} {
		assert.Equal(t, want, fold(typed), typed)
	}
}

func TestBrackets(t *testing.T) {
	assert.Equal(t, []string{"net", "m²"}, brackets("Area (net) [m²]"))
	assert.Equal(t, []string{"Btu/(h ft2)"}, brackets("Flux [Btu/(h ft2)]"))
	assert.Equal(t, []string{"m"}, brackets("Spacing (m"))
	assert.Empty(t, brackets("Spacing) m"))
}

func TestNearest(t *testing.T) {
	words := []string{"concrete", "asphalt", "pavers", "stone", "existingheated", "existingunheated"}
	for typed, want := range map[string]string{"concreet": "concrete", "asphlat": "asphalt", "asfalt": "", "ston": "stone", "brick": "", "existingheatd": "existingheated",
		"existingunheatd": "existingunheated", "sand": "", "": ""} {
		assert.Equal(t, want, nearest(typed, words), typed)
	}
	assert.Empty(t, nearest("rust", []string{"dust", "must"}), "two are alike")
	assert.Equal(t, 1, distance("slope", "solpe"), "two letters swapped are one fault")
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"420 sq ft", "1,200", "12 %", "1:12", `2' 6 1/2"`, "R-10", "−5 °C", "1.200,5", "3/4 in", "$1", "'", "1e", "..", "1 200 300", "ca. 4", "½", "\xff"} {
		f.Add(s, uint8(0))
		f.Add(s, uint8(255))
	}
	f.Fuzz(func(t *testing.T, text string, kind uint8) {
		how := reading{comma: kind&1 != 0, currency: "USD"}
		if kind&2 != 0 {
			how.system = units.IP
		}
		c := sheet.Cell{Text: text, Shown: text, Mark: sheet.Mark(kind >> 2)}
		for q := units.Text; q <= units.Emissivity; q++ {
			got, code := how.number(c, measure{quantity: q, percentAbove: float64(kind & 7), money: kind&8 != 0})
			if code == "" && (math.IsNaN(got.value) || math.IsInf(got.value, 0)) {
				t.Fatalf("%q as %d is %g", text, q, got.value)
			}
		}
		if p, ok := how.pipe(text); ok && !(p.WallM > 0 && p.WallM < p.OuterM) {
			t.Fatalf("%q is %+v", text, p)
		}
		if d, ok := day(text); ok && (d.Month < 1 || d.Month > 12 || d.Day < 1 || d.Day > 31) {
			t.Fatalf("%q is %+v", text, d)
		}
		month(text)
	})
}
