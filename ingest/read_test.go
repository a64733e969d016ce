package ingest_test

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/ingest"
	"thawbook/ingest/columns"
	"thawbook/templates"
)

// text reads tables given by name, each a sheet; a bar parts the cells.
func text(t testing.TB, tables map[string]string) (*ingest.Book, error) {
	t.Helper()
	files := fstest.MapFS{}
	for name, table := range tables {
		files["book/"+name+".tsv"] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(table, "|", "\t"))}
	}
	return ingest.ReadText(files, "book")
}

// sites reads one table as Sites.
func sites(t testing.TB, table string) *ingest.Book {
	t.Helper()
	b, err := text(t, map[string]string{"sites": table})
	require.NoError(t, err)
	return b
}

// told lists what was found as "severity code sheet!cell".
func told(b *ingest.Book) []string {
	out := []string{}
	for _, f := range b.Findings {
		out = append(out, fmt.Sprintf("%s %s %s!%s", f.Severity, f.Code, f.At.Sheet, f.At.Ref))
	}
	return out
}

func TestWhatIsToldOfSites(t *testing.T) {
	for _, tt := range []struct {
		name, table string
		want        []string
		zones       int
	}{
		{"nothing wrong", "Site ID|Area\nA|40", []string{}, 1},
		{"title, blank row and notes", "Heated pavements 2026\n\nSite ID|Area|Use\nA|40|walk\n\nAll areas as measured in spring", []string{"info row-note Sites!A6"}, 1},
		{"headings in any spelling", "SITE-ID|area [m²]|USE:|Length in the wind’s direction (m)\nA|40|Walk|3", []string{}, 1},
		{"a unit without brackets", "Site ID|Area m2|Spacing, mm\nA|40|200", []string{}, 1},
		{"a required heading misspelt", "Site IDD|Area\nA|40", []string{"warning heading-repaired Sites!A1"}, 1},
		{"another heading misspelt", "Site ID|Area|Spacign\nA|40|200", []string{"warning heading-misspelt Sites!C1"}, 1},
		{"the user's own column", "Site ID|Area|Caretaker\nA|40|Day team", []string{"info heading-unknown Sites!C1"}, 1},
		{"a heading twice", "Site ID|Area|Plan area\nA|40|41", []string{"warning heading-twice Sites!C1"}, 1},
		{"brackets without a unit", "Site ID|Area (net)\nA|40", []string{"info heading-unit-unknown Sites!B1"}, 1},
		{"totals", "Site ID|Area\nA|40\nTotal|40", []string{"info row-total Sites!A3"}, 1},
		{"totals with a word", "Site ID|Area\nA|40\nTotal (1 zone)|40", []string{"info row-total Sites!A3"}, 1},
		{"a site named like totals is none", "Site ID|Area\nTotal Care Clinic|40", []string{}, 1},
		{"headings once more", "Site ID|Area\nA|40\nSite ID|Area\nB|40", []string{"info row-repeats-headings Sites!A3"}, 2},
		{"one cell alone", "Site ID|Area\nA|40\nB", []string{"warning row-with-one-cell Sites!A3"}, 1},
		{"a sum without a word", "Site ID|Area\nA|40\n|40", []string{"info row-note Sites!B3"}, 1},
		{"values without a name", "Site ID|Area|Use\nA|40|walk\n|50|walk", []string{"error row-without-name Sites!A3"}, 1},
		{"zone twice", "Site ID|Zone ID|Area\nA|1|40\nA|1|50", []string{"error zone-twice Sites!B3"}, 2},
		{"zone twice by its place", "Site ID|Zone ID|Area\nA|2|40\nA||50", []string{"error zone-twice Sites!B3"}, 2},
		{"a site in two spellings", "Site ID|Area\nA-1|40\na 1|50", []string{"warning site-id-spelling Sites!A3"}, 2},
		{"no zones", "Site ID|Area", []string{"error no-zones Sites!A1"}, 0},
		{"area blank", "Site ID|Area|Use\nA||walk", []string{"error required-blank Sites!B2"}, 1},
		{"area in square feet", "Site ID|Area\nA|420 sq ft", []string{"info number-read Sites!B2"}, 1},
		{"area too large", "Site ID|Area\nA|100001", []string{"error out-of-range Sites!B2"}, 1},
		{"area in acres", "Site ID|Area\nA|2 acres", []string{"info number-read Sites!B2"}, 1},
		{"area in another unit", "Site ID|Area\nA|2 furlongs", []string{"error unit-unknown Sites!B2"}, 1},
		{"area is a word", "Site ID|Area\nA|large", []string{"error required-number Sites!B2"}, 1},
		{"area is not known yet", "Site ID|Area\nA|n/a\nB|-\nC|TBD", []string{"error required-number Sites!B2", "error required-number Sites!B3", "error required-number Sites!B4"}, 3},
		{"a word where a blank would do", "Site ID|Area|Spacing\nA|40|wide", []string{"error not-a-number Sites!C2"}, 1},
		{"a length and a width", "Site ID|Area\nA|20 x 30", []string{"error not-one-number Sites!B2"}, 1},
		{"a money column below 0", "Site ID|Area|First cost\nA|40|-1\nB|40|-0.5\nC|40|0", []string{"error too-small Sites!C2", "error too-small Sites!C3"}, 3},
		{"units below the headings", "Site ID|Area|Spacing|Slope|Use\nID|ft²|in|%|text\nA|420|8|2|walk", []string{"info row-units Sites!A2"}, 1},
		{"units below the headings alone", "Site ID|Area\n|ft²\nA|420", []string{"info row-units Sites!B2"}, 1},
		{"units below headings that give others", "Site ID|Area [m²]\n|ft²\nA|420", []string{"warning units-differ Sites!B2", "info row-units Sites!B2"}, 1},
		{"units farther below are no row of units", "Site ID|Area\nA|420\nB|ft²", []string{"error required-number Sites!B3"}, 2},
		{"a zone below the headings", "Site ID|Area|Spacing\nA|420|in", []string{"error not-a-number Sites!C2"}, 1},
		{"a place in words", "Site ID|Area|Latitude|Longitude\nA|40|42°21'N|71° 3' W", []string{"info number-read Sites!C2", "info number-read Sites!D2"}, 1},
		{"a place of the other axis", "Site ID|Area|Latitude\nA|40|71 W", []string{"error not-a-number Sites!C2"}, 1},
		{"a heading in degrees", "Site ID|Area|Latitude [°]\nA|40|42.36", []string{}, 1},
		{"no choice in bookkeeping", "Site ID|Area|Decision|Issued for|Notes\nA|40|let us see|nobody|#N/A", []string{"warning not-a-choice Sites!C2", "warning not-a-choice Sites!D2", "warning cell-error-value Sites!E2"}, 1},
		{"Include matters", "Site ID|Area|Include\nA|40|perhaps", []string{"error not-a-choice Sites!C2"}, 1},
		{"thousands", "Site ID|Area\nA|1,200", []string{"info number-ambiguous Sites!B2"}, 1},
		{"error value", "Site ID|Area\nA|#REF!", []string{"error cell-error-value Sites!B2"}, 1},
		{"error value for a name", "Site ID|Area\n#N/A|40", []string{"error cell-error-value Sites!A2"}, 0},
		{"a choice misspelt", "Site ID|Area|Surface\nA|40|concreet", []string{"warning choice-repaired Sites!C2"}, 1},
		{"no choice", "Site ID|Area|Surface\nA|40|gravel", []string{"error not-a-choice Sites!C2"}, 1},
		{"unknown is no answer to yes or no", "Site ID|Area|Critical\nA|40|unknown", []string{"error not-a-choice Sites!C2"}, 1},
		{"percentile as a fraction", "Site ID|Area|Percentile\nA|40|0.98", []string{"info percentile-fraction Sites!C2"}, 1},
		{"percentile too low", "Site ID|Area|Percentile\nA|40|50", []string{"error out-of-range Sites!C2"}, 1},
		{"treads are whole", "Site ID|Area|Treads\nA|40|12.5", []string{"error not-a-whole-number Sites!C2"}, 1},
		{"slope 1:12", "Site ID|Area|Slope\nA|40|1:12", []string{}, 1},
		{"slope too steep", "Site ID|Area|Slope\nA|40|1", []string{"error out-of-range Sites!C2"}, 1},
		{"pipe", "Site ID|Area|Pipe\nA|40|7/8 in", []string{"error pipe-unknown Sites!C2"}, 1},
		{"pipe too wide", "Site ID|Area|Pipe\nA|40|40x3.7", []string{"error out-of-range Sites!C2"}, 1},
		{"no weather file", "Site ID|Area|Weather file\nA|40|none.epw", []string{"error weather-file-unreadable Sites!C2"}, 1},
		{"errors of a zone that is not calculated", "Site ID|Area|Include\nA|large|later", []string{"warning required-number Sites!B2"}, 1},
		{"one bad row costs one row", "Site ID|Area\nA|40\nB|large\nC|50", []string{"error required-number Sites!B3"}, 3},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := sites(t, tt.table)
			assert.Equal(t, tt.want, told(b))
			zones := 0
			for _, s := range b.Sites {
				zones += len(s.Zones)
			}
			assert.Equal(t, tt.zones, zones, "zones")
			for _, f := range b.Findings {
				assert.True(t, f.Severity != finding.Error || f.Site == "" || refused(b, f.Site, f.Zone), "%s %s: an error refuses its zone", f.Code, f.At.Ref)
			}
		})
	}
}

// refused says whether the last zone of these names is refused.
func refused(b *ingest.Book, site, zone string) bool {
	for _, s := range b.Sites {
		for _, z := range s.Zones {
			if z.Ref.SiteID == site && z.Ref.ZoneID == zone {
				return z.Ref.Refused
			}
		}
	}
	return false
}

func TestSitesThatCannotBeRead(t *testing.T) {
	for _, tt := range []struct {
		name   string
		tables map[string]string
		want   finding.Code
	}{
		{"no Sites", map[string]string{"energy": "Energy ID|Carrier|Unit\nG|gas|kWh"}, ingest.CodeSitesMissing},
		{"no headings", map[string]string{"sites": "A|40\nB|50"}, ingest.CodeNoHeadings},
		{"empty", map[string]string{"sites": ""}, ingest.CodeNoHeadings},
		{"no Area", map[string]string{"sites": "Site ID|Use|Slope\nA|walk|2"}, ingest.CodeColumnMissing},
		{"no Site ID", map[string]string{"sites": "Area|Use|Slope\n40|walk|2"}, ingest.CodeColumnMissing},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := text(t, tt.tables)
			var bad *ingest.Unusable
			require.ErrorAs(t, err, &bad)
			assert.Equal(t, tt.want, bad.Finding.Code)
		})
	}
	_, err := ingest.Read(filepath.Join(t.TempDir(), "none.xlsx"))
	var bad *ingest.Unusable
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, ingest.CodeFileMissing, bad.Finding.Code)
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

func TestWhatIsToldOfOtherSheets(t *testing.T) {
	const one = "Site ID|Area\nA|40"
	month := func(name string, rest string) string { return "P|" + name + "|" + rest + "\n" }
	for _, tt := range []struct {
		name   string
		tables map[string]string
		want   []string
	}{
		{"settings in I-P", map[string]string{"settings": "Setting|Value\nUnits|imperial\nCurrency|usd"}, []string{}},
		{"a setting misspelt", map[string]string{"settings": "Curency|USD"}, []string{"warning setting-misspelt Settings!A1"}},
		{"a setting of the user's own", map[string]string{"settings": "Colour|blue"}, []string{"info setting-unknown Settings!A1"}},
		{"a setting twice", map[string]string{"settings": "Currency|USD\nCurrency|CAD"}, []string{"warning setting-twice Settings!A2"}},
		{"a setting out of range", map[string]string{"settings": "Discount rate|40 %"}, []string{"error out-of-range Settings!B1"}},
		{"no currency", map[string]string{"settings": "Currency|dollars"}, []string{"error currency-name Settings!B1"}},
		{"no rate", map[string]string{"settings": "Rate dollars|1.4"}, []string{"error rate-name Settings!A1"}},
		{"rate not a number", map[string]string{"settings": "Rate CAD|low"}, []string{"error not-a-number Settings!B1"}},
		{"no day", map[string]string{"settings": "Season start|autumn"}, []string{"error not-a-day Settings!B1"}},
		{"rate of nothing", map[string]string{"settings": "Rate CAD|0"}, []string{"error out-of-range Settings!B1"}},
		{"no date", map[string]string{"settings": "Issue date|tomorrow\nPrice date|2026-10-01\nPrice valid until|31 March 2027"}, []string{"warning not-a-date Settings!B1"}},
		{"half a year", map[string]string{"settings": "Analysis years|25.5"}, []string{"error not-a-whole-number Settings!B1"}},
		{"a file name with a word that is not filled", map[string]string{"settings": "File name|{site} {nam}"}, []string{"warning file-name-placeholder Settings!B1"}},
		{"a file name with an open bracket", map[string]string{"settings": "File name|{site} {name"}, []string{"warning file-name-placeholder Settings!B1"}},
		{"a file name of all words", map[string]string{"settings": "File name|{project}-{site}-{name} rev {revision}"}, []string{}},
		{"thousands or decimals, the mark not told", map[string]string{"costs": "Item|Unit|Unit cost\ntube|m|1,200"}, []string{"info number-ambiguous Costs!C2"}},
		{"thousands or decimals, by a point", map[string]string{"settings": "Decimal mark|.", "costs": "Item|Unit|Unit cost\ntube|m|1,200"}, []string{"info number-ambiguous-by-mark Costs!C2"}},
		{"thousands or decimals, by a comma", map[string]string{"settings": "Decimal mark|,", "costs": "Item|Unit|Unit cost\ntube|m|1,200\ncable|m|$1.200"},
			[]string{"info number-ambiguous-by-mark Costs!C2", "info number-ambiguous-by-mark Costs!C3"}},
		{"sheets of a site that is not there", map[string]string{"accepted": "Code|Site ID|Reason\nx|Z|y\nx||y", "attachments": "Site ID|File\nZ|a.png", "own": "a|b"},
			[]string{"warning accepted-site-unknown Accepted!B2", "warning attachment-site-unknown Attachments!A2"}},
		{"an acceptance without a reason", map[string]string{"accepted": "Code|Reason|By\nx||MO"}, []string{"error required-blank Accepted!B2"}},
		{"energy without heat content", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|gas|m³|0.9"}, []string{"error heat-content-missing Energy!A2"}},
		{"half a tier", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency|Units a month at that price\nW|electricity|kWh|1|500"}, []string{"warning tier-half-told Energy!E2"}},
		{"energy sold as energy", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|gas|therm|0.9"}, []string{}},
		{"usual efficiency", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|gas|kWh|"}, []string{"info energy-default Energy!D2"}},
		{"no usual efficiency", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|other|kWh|"}, []string{"error efficiency-missing Energy!D2"}},
		{"energy twice", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|gas|kWh|0.9\ng|gas|kWh|0.9"}, []string{"error row-twice Energy!A3"}},
		{"no carrier", map[string]string{"energy": "Energy ID|Carrier|Unit|Plant efficiency\nG|coal|kWh|0.9"}, []string{"error not-a-choice Energy!B2"}},
		{"a sheet of the user's with our name", map[string]string{"costs": "Budget|2026\nPaint|100"}, []string{"warning heading-row-missing Costs!"}},
		{"a list of words", map[string]string{"parts": "Part|Kind|Senses\nD|aerial detector|falling snow; moistur\nE|aerial detector|rain"},
			[]string{"error not-a-choice Parts!C3", "warning choice-repaired Parts!C2"}},
		{"an empty station", map[string]string{"climate": "Station|Latitude\nP|45"}, []string{"error station-empty Climate!A2"}},
		{"a design hour in part", map[string]string{"climate": "Station|Design air temperature|Design wind\nP|-8|5"}, []string{"error design-hour-incomplete Climate!B2"}},
		{"a design hour with depth for water", map[string]string{"climate": "Station|Design air temperature|Design dew point|Design wind|Snowfall rate\nP|-8|-10|5|25"},
			[]string{"error snowfall-depth-or-water Climate!E2"}},
		{"a dew point above the air", map[string]string{"climate": "Station|Design air temperature|Design dew point|Design wind|Snowfall rate\nP|-8|-6|5|2.5"}, []string{"error dew-above-air Climate!C2"}},
		{"months missing", map[string]string{"climate": "Station|Month|Mean temperature\n" + month("1", "-5") + month("Feb", "-4")}, []string{"error months-missing Climate!B2"}},
		{"a month twice", map[string]string{"climate": "Station|Month|Mean temperature\n" + month("1", "-5") + month("January", "-4")}, []string{"error month-twice Climate!B3"}},
		{"no month", map[string]string{"climate": "Station|Month|Mean temperature\n" + month("13", "-5")}, []string{"error not-a-month Climate!B2"}},
		{"no file", map[string]string{"climate": "Station|Weather file\nP|none.epw"}, []string{"error weather-file-unreadable Climate!B2"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tt.tables["sites"] = one
			b, err := text(t, tt.tables)
			require.NoError(t, err)
			assert.Equal(t, tt.want, told(b))
		})
	}
}

func TestValuesOfARow(t *testing.T) {
	b, err := text(t, map[string]string{
		"settings": "Units|I-P\nCurrency|CAD\nDecimal mark|.\nDiscount rate|2.5 %\nSeason start|15 September\nRate USD|1.37\nDefault percentile|95",
		"sites": "Site ID|Site name|Zone ID|Area|Use|Slope|Slab thickness|Pipe|Temperature drop [K]|Under-slab insulation R|Post-tensioned|Idling wanted|Critical|Clearing cost a year now|Fluid concentration\n" +
			"A|Quay House|N|420|Walk|1:50|6|3/4|18 °F|R-10|dont know|yes||$1200|40",
	})
	require.NoError(t, err)
	set := b.Settings
	assert.Equal(t, units.IP, set.Units)
	assert.Equal(t, "CAD", set.Currency)
	assert.Equal(t, 0.025, set.DiscountRate)
	assert.Equal(t, calc.Rate{Currency: "USD", Worth: 1.37}, set.Rates[0])
	assert.EqualValues(t, 9, set.SeasonStart.Month)
	assert.EqualValues(t, 4, set.SeasonEnd.Month)
	require.Len(t, b.Sites, 1)
	assert.Equal(t, "Quay House", b.Sites[0].Name)
	z := b.Sites[0].Zones[0]
	assert.False(t, z.Ref.Refused)
	assert.Equal(t, "N", z.Ref.ZoneID)
	assert.Equal(t, 2, z.Ref.Row)
	assert.InDelta(t, 39.019, z.Extent.AreaM2, 0.001, "1 ft = 0.3048 m, exact")
	assert.Equal(t, calc.Walk, z.Extent.Use)
	assert.InDelta(t, 0.02, z.Extent.Slope, 1e-12)
	assert.InDelta(t, 0.1524, z.Slab.ThicknessM.Value, 1e-12)
	assert.InDelta(t, 0.022225, z.Heat.Pipe.OuterM, 1e-9, "ASTM F876: 0.875 in")
	assert.InDelta(t, 10, z.Heat.DropK, 1e-9)
	assert.InDelta(t, 1.761, z.Slab.InsulationM2KW.Value, 0.001, "R-10 is 1.76")
	assert.Equal(t, calc.Unknown, z.Slab.PostTensioned)
	assert.Equal(t, units.Some(true), z.Sensing.Idling)
	assert.False(t, z.Extent.Critical.Known)
	assert.Equal(t, units.Some(1200.0), z.Money.ClearingCost)
	assert.InDelta(t, 0.4, z.Heat.FluidShare.Value, 1e-12)

	require.Len(t, z.Ref.Entries, 14)
	area := z.Ref.Entries[3]
	assert.Equal(t, finding.Field("area"), area.Field)
	assert.Equal(t, "Area", area.Heading)
	assert.Equal(t, "420", area.Typed)
	assert.Equal(t, units.Area, area.Quantity)
	assert.InDelta(t, 39.019, area.Number, 0.001)
	assert.Equal(t, calc.Walk, z.Ref.Entries[4].Word)

	source := map[finding.Field]string{}
	for _, d := range z.Ref.Defaults {
		source[d.Field] = d.Source
	}
	assert.Equal(t, "stage-new", source["stage"])
	assert.Equal(t, "set-point-melting", source["surface_set_point_melting"])
	assert.NotContains(t, source, finding.Field("slope"), "it was told")
	assert.NotContains(t, source, finding.Field("include"), "a blank that means yes is no assumption")
	assert.NotContains(t, source, finding.Field("cable_output"), "the zone is hydronic")
}

func TestDefaultsOfABareRow(t *testing.T) {
	b := sites(t, "Site ID|Area|Heat\nA|40|\nB|40|electric")
	z := b.Sites[0].Zones[0]
	assert.Equal(t, "yes", z.Ref.Include)
	assert.Equal(t, "1", z.Ref.ZoneID)
	assert.Equal(t, 1.0, z.Place.WindFactor)
	assert.Equal(t, 0.02, z.Extent.Slope)
	assert.Equal(t, calc.NewPour, z.Slab.Stage)
	assert.Equal(t, calc.OnGround, z.Slab.Support)
	assert.Equal(t, calc.Concrete, z.Slab.Surface)
	assert.Equal(t, calc.Hydronic, z.Heat.Kind)
	assert.Equal(t, 11.0, z.Heat.DropK)
	assert.Equal(t, 30.0, z.Heat.CableWM)
	assert.InDelta(t, 0.020, z.Heat.Pipe.OuterM, 1e-12)
	assert.Equal(t, "propylene glycol", z.Heat.Fluid)
	assert.Equal(t, 3.0, z.Sensing.SurfaceMeltC)
	assert.Equal(t, 0.5, z.Sensing.SurfaceIdleC)
	assert.Equal(t, calc.Unknown, z.Slab.PostTensioned)
	assert.Empty(t, z.Sensing.Housing, "not told")
	assert.False(t, z.Service.Percentile.Known || z.Slab.DepthM.Known || z.Slab.ThicknessM.Known || z.Slab.InsulationM2KW.Known || z.Heat.SpacingM.Known)
	for _, d := range b.Sites[1].Zones[0].Ref.Defaults {
		assert.NotContains(t, []finding.Field{"pipe", "fluid", "temperature_drop"}, d.Field, "the zone is electric")
	}
}

func TestGroupingKeepsTheOrderOfRows(t *testing.T) {
	b := sites(t, "Site ID|Zone ID|Area|Include\nB||1|\nA||2|\nB||3|later\nB|x|4|no\nA|1|5|")
	require.Len(t, b.Sites, 2)
	assert.Equal(t, "B", b.Sites[0].ID)
	var ids []string
	for _, s := range b.Sites {
		for _, z := range s.Zones {
			ids = append(ids, s.ID+"/"+z.Ref.ZoneID)
		}
	}
	assert.Equal(t, []string{"B/1", "B/2", "B/x", "A/1", "A/1 (row 6)"}, ids, "the second A/1 is refused under a name of its own")
	assert.True(t, b.Sites[1].Zones[1].Ref.Refused)
	assert.False(t, b.Sites[1].Zones[0].Ref.Refused)
}

func TestLocate(t *testing.T) {
	b, err := text(t, map[string]string{
		"settings": "Units|SI\nDiscount rate|3 %",
		"energy":   "Energy ID|Carrier|Unit|Price per unit\nG|gas|kWh|0.1\nP|electricity|kWh|0.2",
		"climate":  "Station|Design air temperature|Design dew point|Design wind|Snowfall rate\nHill|-8|-10|5|2.5",
		"sites":    "List\nSite ID|Area|Zone ID|Energy ID|Station|Spacing\nA|40|N|p|hill|200\nA|40|S|G|Hill|",
	})
	require.NoError(t, err)
	for _, tt := range []struct {
		site, zone string
		field      finding.Field
		want       string
	}{
		{"A", "N", "area", "Sites!B3"},
		{"A", "S", "spacing", "Sites!F4"},
		{"A", "S", "depth", "Sites!A4"},
		{"A", "S", "", "Sites!A4"},
		{"A", "", "area", "Sites!B3"},
		{"", "", "area", "Sites!B2"},
		{"", "", "depth", "Sites!"},
		{"A", "N", "discount_rate", "Settings!B2"},
		{"A", "N", "analysis_years", "Sites!A3"},
		{"A", "N", "energy_price", "Energy!D3"},
		{"A", "S", "energy_price", "Energy!D2"},
		{"A", "S", "climate_design_wind", "Climate!D2"},
		{"nobody", "1", "area", "Sites!B2"},
	} {
		at := b.Locate(tt.site, tt.zone, tt.field)
		assert.Equal(t, tt.want, at.Sheet+"!"+at.Ref, "%s/%s %s", tt.site, tt.zone, tt.field)
	}
	assert.Equal(t, "B2", b.LocateSetting("discount_rate").Ref)
	assert.Equal(t, "D3", b.LocateEnergy("P", "energy_price").Ref)
	assert.Equal(t, "D1", b.LocateEnergy("none", "energy_price").Ref)
	assert.Equal(t, "C2", b.LocateStation("HILL", "climate_design_dew").Ref)
}

// Every field that the engine's findings name is one of ours, or a cell could not be given.
func TestFieldsOfTheEngineAreKnown(t *testing.T) {
	known := map[string]bool{}
	names(known, columns.Sites())
	names(known, columns.Climate())
	names(known, columns.Energy())
	names(known, columns.Parts())
	names(known, columns.Costs())
	names(known, columns.Settings())
	names(known, columns.Accepted())
	named := regexp.MustCompile(`(?:finding\.New|add|o\.add)\([a-zA-Z.]+, Code[A-Za-z]+, "([a-z_]+)"|s\.(?:take|word|flag)\([^,]+, "([a-z_]+)"|defaulted\("([a-z_]+)"\)`)
	files, err := filepath.Glob("../calc/*.go")
	require.NoError(t, err)
	found := 0
	for _, file := range files {
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range named.FindAllStringSubmatch(string(source), -1) {
			field := m[1] + m[2] + m[3]
			assert.True(t, known[field], "%s names the field %q", filepath.Base(file), field)
			found++
		}
	}
	assert.Greater(t, found, 40, "the pattern finds them")
}

func names[T any](known map[string]bool, list []columns.Column[T]) {
	for _, c := range list {
		known[string(c.Field)] = true
	}
}

func TestCodesHaveWords(t *testing.T) {
	table, err := fs.ReadFile(templates.FS(), "en/findings.tsv")
	require.NoError(t, err)
	words := map[string]bool{}
	for line := range strings.Lines(string(table)) {
		fields := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		words[fields[0]] = len(fields) == 3
	}
	code := regexp.MustCompile(`finding\.Code = "([a-z0-9-]+)"`)
	for _, file := range []string{"codes.go", "columns/columns.go"} {
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range code.FindAllStringSubmatch(string(source), -1) {
			assert.True(t, words[m[1]], "no words for %s", m[1])
		}
	}
}

func TestClimate(t *testing.T) {
	b, err := text(t, map[string]string{
		"sites":   "Site ID|Area|Station\nA|40|Hill",
		"climate": "Station|Latitude|Extreme minimum|Design air temperature [°F]|Design dew point [°F]|Design wind [mph]|Snowfall rate [in/h]\nHill|42.4|-20|17|14|19.7|0.10\nDale|42.4|-20|17|14|19.7|0.05",
	})
	require.NoError(t, err)
	require.Empty(t, told(b))
	require.Len(t, b.Stations, 2)
	s := b.Stations[0]
	assert.Equal(t, weather.DesignOnly, s.Kind)
	assert.Equal(t, units.Some(-20.0), s.ExtremeMinC)
	hour := s.DesignHour.Value
	assert.InDelta(t, -8.33, hour.AirC, 0.01, "engineering method, section 1, worked example")
	assert.InDelta(t, -10, hour.DewC, 0.01)
	assert.InDelta(t, 8.81, hour.WindMS, 0.01)
	assert.InDelta(t, 2.54, hour.SnowMMH, 1e-9)
	assert.NotEqual(t, s.Digest, b.Stations[1].Digest, "another hour is other weather")
}

// weatherFolder finds the hourly files beside the project.
func weatherFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join("..", "..", "shared", "weather")
	if _, err := os.Stat(dir); err != nil {
		t.Skip("needs ../shared/weather: hourly files")
	}
	dir, err := filepath.Abs(dir)
	require.NoError(t, err)
	return dir
}

func TestWeatherFilesAreReadOnceFromTheWorkbooksFolder(t *testing.T) {
	dir := weatherFolder(t)
	const name = "USA_VT_Burlington.TMY2.epw"
	data, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	folder := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(folder, "hourly"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "hourly", "b.epw"), data, 0o600))
	path := workbook(t, folder, map[string][][]any{
		"Sites": {{"Site ID", "Area", "Station", "Weather file"}, {"A", 40, "Lake", nil}, {"B", 40, nil, `hourly\b.epw`}, {"C", 40, nil, "hourly/b.epw"},
			{"D", 40, nil, filepath.Join(dir, name)}, {"E", 40, nil, `hourly\b.epw`}, {"F", 40, nil, "book.xlsx"}},
		"Climate": {{"Station", "Weather file", "Elevation"}, {"Lake", "hourly/b.epw; hourly/b.epw", 300}},
	})
	b, err := ingest.Read(path)
	require.NoError(t, err)
	assert.Equal(t, []string{"error weather-file-unknown Sites!D7"}, told(b))
	require.Len(t, b.Stations, 4)
	assert.Equal(t, "Lake", b.Stations[0].Name)
	assert.Equal(t, 300.0, b.Stations[0].ElevationM)
	assert.Len(t, b.Stations[0].Years, 1, "a file named twice is one year")
	assert.Equal(t, weather.Typical, b.Stations[0].Kind)
	assert.Equal(t, b.Sites[1].Zones[0].Place.WeatherFiles, b.Stations[1].Key, "a zone finds its files under what it typed")
	assert.Empty(t, b.Stations[0].Key, "a row of Climate is found by its name")
	for _, s := range b.Stations[1:] {
		assert.Equal(t, "Burlington, VT", s.Name, "reports name the place in the file")
	}
	assert.Equal(t, b.Stations[1].Digest, b.Stations[3].Digest, "the same hours")
	assert.NotEqual(t, b.Stations[0].Digest, b.Stations[1].Digest, "another height is other air")
	assert.Equal(t, "b.epw", b.Files[0].File)
}

// workbook writes sheets of values into folder/book.xlsx.
func workbook(t testing.TB, folder string, sheets map[string][][]any) string {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for _, name := range slices.Sorted(maps.Keys(sheets)) {
		rows := sheets[name]
		_, err := f.NewSheet(name)
		require.NoError(t, err)
		for i, row := range rows {
			require.NoError(t, f.SetSheetRow(name, fmt.Sprintf("A%d", i+1), &row))
		}
	}
	require.NoError(t, f.DeleteSheet("Sheet1"))
	path := filepath.Join(folder, "book.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}

func TestWorkbook(t *testing.T) {
	folder := t.TempDir()
	path := workbook(t, folder, map[string][][]any{
		"My own notes": {{"Site ID", "Area"}, {"not", "ours"}},
		"SITES": {{"All heated areas"}, {}, {"Site ID", "Area [m²]", "Slope", "Notes"}, {"A", 40, 0.02, 46085}, {"A", "50 m²", nil, nil}, {nil, 60, nil, nil},
			{"B", 70, nil, "hidden"}, {"Total", 220, nil, nil}},
		"Settings": {{"Units", "SI"}, {"Issue date", 46085}},
	})
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	require.NoError(t, f.MergeCell("SITES", "A5", "A6"))
	require.NoError(t, f.SetRowVisible("SITES", 7, false))
	percent, err := f.NewStyle(&excelize.Style{NumFmt: 9})
	require.NoError(t, err)
	date, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(t, err)
	require.NoError(t, f.SetCellStyle("SITES", "C4", "C4", percent))
	require.NoError(t, f.SetCellStyle("SITES", "D4", "D4", date))
	require.NoError(t, f.SetCellStyle("Settings", "B2", "B2", date))
	require.NoError(t, f.SetCellFormula("SITES", "C7", "B4/1000"))
	require.NoError(t, f.SetCellFormula("SITES", "C5", "1/0"))
	require.NoError(t, f.Save())
	require.NoError(t, f.Close())

	b, err := ingest.Read(path)
	require.NoError(t, err)
	assert.Equal(t, []string{
		"error formula-without-value SITES!C5",
		"info date-in-text SITES!D4",
		"info cells-merged SITES!A6",
		"info rows-hidden SITES!A7",
		"info formulas-calculated SITES!C7",
		"info row-total SITES!A8",
	}, told(b))
	require.Len(t, b.Sites, 2)
	require.Len(t, b.Sites[0].Zones, 3, "the merged Site ID counts for both rows")
	assert.Equal(t, 0.02, b.Sites[0].Zones[0].Extent.Slope)
	assert.Equal(t, "2026-03-04", b.Sites[0].Zones[0].Ref.Notes)
	assert.True(t, b.Sites[0].Zones[1].Ref.Refused)
	assert.InDelta(t, 0.04, b.Sites[1].Zones[0].Extent.Slope, 1e-12)
	assert.Equal(t, "2026-03-04", b.Settings.IssueDate)
	assert.Len(t, b.SHA256, 64)
	assert.Equal(t, path, b.Path)
}

// A row of Climate or Energy that was refused is told where it stands, and its name is kept for the zones that use it.
func TestNamesOfRefusedRowsAreKept(t *testing.T) {
	months := "Station|Month|Mean temperature\n"
	for i := range 11 {
		months += fmt.Sprintf("Half|%d|-5\n", i+1)
	}
	b, err := text(t, map[string]string{
		"climate": months + "Whole|13|-5",
		"energy":  "Energy ID|Carrier|Unit|Plant efficiency\nG|gas|m³|0.9\nP|electricity|kWh|1\nP|coal|kWh|1\nW|wood|kg|0.7",
		"sites":   "Site ID|Zone ID|Area|Station|Energy ID\nA|1|40|half|g\nA|2|40|Whole|W",
	})
	require.NoError(t, err)
	assert.Empty(t, b.Stations)
	assert.Equal(t, []string{"Half", "Whole"}, b.RefusedStations)
	assert.Len(t, b.Energies, 1)
	assert.Equal(t, []string{"G", "W"}, b.RefusedEnergies, "P has a row that is used")

	f := finding.Finding{Code: calc.CodeStationRefused, Site: "A", Zone: "1", Field: "station"}
	b.Place(&f)
	assert.Equal(t, "Sites!D2", f.At.Sheet+"!"+f.At.Ref)
	assert.Equal(t, []finding.Arg{finding.Words("cell", "Climate!A2")}, f.Args)
	f = finding.Finding{Code: calc.CodeEnergyRefused, Site: "A", Zone: "2", Field: "energy_id"}
	b.Place(&f)
	assert.Equal(t, []finding.Arg{finding.Words("cell", "Energy!A5")}, f.Args)
}

// Site IDs that a format pads are read as they are seen, and so are their zones; what is hidden is told.
func TestWhatAPersonSees(t *testing.T) {
	path := workbook(t, t.TempDir(), map[string][][]any{
		"Notes": {{"for the owner"}},
		"Sites": {{"Site ID", "Zone ID", "Area", "Treads", "Spacing"}, {12, 3, 40, 7, 200}, {12, 4, 41, nil, nil}, {12.5, 1, 42, nil, nil}},
	})
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	for column, format := range map[string]string{"A": "00000", "B": `"Z-"00`, "D": "0000"} {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sites", column+"2", column+"4", style))
	}
	require.NoError(t, f.SetColVisible("Sites", "D:E", false))
	require.NoError(t, f.SetSheetVisible("Sites", false))
	require.NoError(t, f.Save())
	require.NoError(t, f.Close())

	b, err := ingest.Read(path)
	require.NoError(t, err)
	assert.Equal(t, []string{"info sheet-hidden Sites!", "info columns-hidden Sites!D1"}, told(b))
	require.Len(t, b.Sites, 2)
	assert.Equal(t, "00012", b.Sites[0].ID)
	assert.Equal(t, "Z-03", b.Sites[0].Zones[0].Ref.ZoneID)
	assert.Equal(t, "Z-04", b.Sites[0].Zones[1].Ref.ZoneID)
	assert.Equal(t, "00012", b.Sites[0].Zones[0].Ref.Entries[0].Typed)
	assert.Equal(t, units.Some(7.0), b.Sites[0].Zones[0].Extent.Treads)
	assert.Equal(t, "12.5", b.Sites[1].ID, "the format pads whole numbers")
}

func TestUnitsBelowHeadings(t *testing.T) {
	b := sites(t, "Site ID|Area|Spacing|Slope|Latitude\nID|ft²|in|%|°\nA|420|8|0.5|42.36")
	z := b.Sites[0].Zones[0]
	assert.InDelta(t, 39.019, z.Extent.AreaM2, 0.001, "1 ft = 0.3048 m, exact")
	assert.InDelta(t, 0.2032, z.Heat.SpacingM.Value, 1e-12, "1 in = 25.4 mm, exact")
	assert.InDelta(t, 0.005, z.Extent.Slope, 1e-12)
	assert.Equal(t, units.Some(42.36), z.Place.LatitudeDeg)
	assert.Equal(t, "A", b.Sites[0].ID)
}

func TestBookkeepingThatIsNotReadIsLeftBlank(t *testing.T) {
	b := sites(t, "Site ID|Area|Decision|Issued for\nA|40|let us see|review")
	z := b.Sites[0].Zones[0]
	assert.False(t, z.Ref.Refused)
	assert.Empty(t, z.Money.Decision)
	assert.Equal(t, "review", z.Ref.IssuedFor)
}

func TestDemoTablesAreRead(t *testing.T) {
	b, err := ingest.ReadText(templates.FS(), "demo")
	if errors.Is(err, fs.ErrNotExist) || err != nil && strings.Contains(err.Error(), "no tables") {
		b, err = ingest.ReadText(os.DirFS("../templates"), "demo")
	}
	require.NoError(t, err)
	assert.NotEqual(t, finding.Error, finding.Worst(b.Findings), "%v", told(b))
	assert.GreaterOrEqual(t, len(b.Sites), 14)
	assert.NotEmpty(t, b.Energies)
	assert.NotEmpty(t, b.Costs)
	kinds := map[string]bool{}
	for _, p := range b.Parts {
		kinds[p.Kind] = true
	}
	assert.True(t, kinds["controller"] && kinds[string(sensing.AerialDetector)])
	for _, e := range b.Energies {
		assert.True(t, e.Example, "prices of the demo are marked")
	}
}

func FuzzRead(f *testing.F) {
	f.Add("Site ID|Area\nA|40\nTotal|40", "Units|SI\nRate CAD|1.4", "Station|Month|Rain\nP|1|5")
	f.Add("Site IDD|Area [ft2]|Pipe|Treads\nA|1,200|3/4 in|x\n\n|5|6|7", "Decimal mark|,\nSeason start|1 May", "Station|Weather file\nP|a;b\nQ|")
	f.Fuzz(func(t *testing.T, sites, settings, climate string) {
		b, err := text(t, map[string]string{"sites": sites, "settings": settings, "climate": climate})
		if err != nil {
			var bad *ingest.Unusable
			require.ErrorAs(t, err, &bad)
			return
		}
		seen := map[string]bool{}
		for _, s := range b.Sites {
			for _, z := range s.Zones {
				key := s.ID + "\x00" + z.Ref.ZoneID
				require.False(t, seen[key], "zone %q twice", key)
				seen[key] = true
				require.Equal(t, z.Ref.Row, b.Locate(s.ID, z.Ref.ZoneID, "site_id").Row)
				if !z.Ref.Refused {
					require.True(t, z.Extent.AreaM2 >= 0.49 && z.Extent.AreaM2 <= 100001, "area %g", z.Extent.AreaM2)
				}
			}
		}
	})
}

func BenchmarkRead1000Rows(b *testing.B) {
	heads := []any{}
	for _, c := range columns.Sites() {
		heads = append(heads, c.Heading)
	}
	rows := [][]any{heads}
	for i := range 1000 {
		row := make([]any, len(heads))
		for k, c := range columns.Sites() {
			switch {
			case c.Field == "site_id":
				row[k] = fmt.Sprintf("S-%04d", i/2)
			case c.Field == "zone_id" || c.Field == "weather_file":
			case len(c.Choices) > 0:
				row[k] = c.Choices[i%len(c.Choices)]
			case c.Field == "pipe":
				row[k] = "20x2.0"
			case c.Quantity == units.Text:
				row[k] = "words"
			case c.Ranged():
				row[k] = c.Quantity.In(units.SI).FromBase((c.Min + c.Max) / 2)
			}
		}
		rows = append(rows, row)
	}
	path := workbook(b, b.TempDir(), map[string][][]any{"Sites": rows})
	b.ReportAllocs()
	for b.Loop() {
		book, err := ingest.Read(path)
		if err != nil || len(book.Sites) != 500 {
			b.Fatal(err, len(book.Sites))
		}
	}
}
