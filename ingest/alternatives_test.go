package ingest_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest"
)

const twoZones = "Site ID|Zone ID|Area [ft2]|Stage|Spacing [in]|Detector housing|First cost|Notes\n" +
	"A|N|1000|new pour|8|yes|5000|first\n" +
	"A||500|existing heated|||6000|second\n"

// laid reads twoZones with a sheet of alternatives.
func laid(t *testing.T, table string) *ingest.Book {
	t.Helper()
	b, err := text(t, map[string]string{"sites": twoZones, "alternatives": table})
	require.NoError(t, err)
	return b
}

func TestAlternativesAreLaidCellByCell(t *testing.T) {
	b := laid(t, "Other ways\nAlternative|Site ID|Zone ID|Spacing [mm]|Heat\nClose|A|N|100|\nCable|A|N||electric\nCLOSE|A|2|150|\n")
	assert.Empty(t, told(b))
	require.Len(t, b.Sites[0].Alternatives, 2)
	closer, cable := b.Sites[0].Alternatives[0], b.Sites[0].Alternatives[1]
	assert.Equal(t, []string{"Close", "Cable"}, []string{closer.Name, cable.Name})
	require.Len(t, closer.Zones, 2, "the same name however it is written")
	z := closer.Zones[0]
	assert.Equal(t, units.Some(0.1), z.Heat.SpacingM, "under its own heading")
	assert.InDelta(t, 92.90304, z.Extent.AreaM2, 1e-9, "as in Sites, under the heading there")
	assert.Equal(t, calc.Yes, z.Sensing.Housing)
	assert.Equal(t, "first", z.Ref.Notes)
	assert.Equal(t, "Close", z.Ref.Alternative)
	assert.Equal(t, 2, z.Ref.Row, "of Sites")
	assert.False(t, z.Money.FirstCost.Known, "an offer is of its own row")
	assert.Equal(t, units.Some(5000.0), b.Sites[0].Zones[0].Money.FirstCost)
	assert.Equal(t, "2", closer.Zones[1].Ref.ZoneID, "a zone that Sites leaves without a name")
	assert.Equal(t, calc.ExistingHeated, closer.Zones[1].Slab.Stage)
	assert.Equal(t, calc.Electric, cable.Zones[0].Heat.Kind)
	assert.InDelta(t, 8*0.0254, cable.Zones[0].Heat.SpacingM.Value, 1e-12)
	at := map[finding.Field]string{}
	for _, e := range z.Ref.Entries {
		at[e.Field] = e.At.Sheet + e.At.Ref
	}
	assert.Equal(t, "AlternativesD3", at["spacing"], "each cell keeps its own address")
	assert.Empty(t, at["area"], "one of Sites is found by its row")
}

// TestAlternativesGetTheSameDefaults: what a blank means does not hang on the sheet.
func TestAlternativesGetTheSameDefaults(t *testing.T) {
	b := laid(t, "Site ID|Zone ID|Alternative|Notes\nA|N|Same|first\n")
	a, z := b.Sites[0].Alternatives[0].Zones[0], b.Sites[0].Zones[0]
	assert.Equal(t, z.Ref.Defaults, a.Ref.Defaults)
	a.Ref, z.Ref = calc.Ref{}, calc.Ref{}
	a.Money.FirstCost = z.Money.FirstCost
	assert.Equal(t, z, a, "nothing differs but what is typed")
}

func TestAlternativeOfEveryZone(t *testing.T) {
	b := laid(t, "Site ID|Alternative|Temperature drop\nA|Less|8\n")
	assert.Empty(t, told(b))
	require.Len(t, b.Sites[0].Alternatives[0].Zones, 2, "without a Zone ID it is every zone of the site")
	assert.Equal(t, 8.0, b.Sites[0].Alternatives[0].Zones[1].Heat.DropK)
}

func TestWithoutAHousing(t *testing.T) {
	b := laid(t, "Site ID|Zone ID|Alternative|Detector housing|Stage\nA|N|None|no|\nA|N|Some|yes|\nA|2|Late|no|\n")
	list := b.Sites[0].Alternatives
	assert.True(t, list[0].Zones[0].Sensing.NoHousing, "typed as an alternative a no is meant")
	assert.False(t, list[1].Zones[0].Sensing.NoHousing)
	assert.False(t, list[2].Zones[0].Sensing.NoHousing, "an existing slab has none to leave out")
	assert.False(t, b.Sites[0].Zones[0].Sensing.NoHousing)
}

func TestWhatIsToldOfAlternatives(t *testing.T) {
	for _, tt := range []struct {
		name, table string
		want        []string
		zones       int
	}{
		{"no such site", "Site ID|Alternative\nB|X\n", []string{"error alternative-site-unknown Alternatives!A2"}, 0},
		{"no such zone", "Site ID|Zone ID|Alternative\nA|Q|X\n", []string{"error alternative-zone-unknown Alternatives!B2"}, 0},
		{"a name that is taken", "Site ID|Alternative\nA|Base Case\n", []string{"error alternative-name-taken Alternatives!B2"}, 0},
		{"another name that is taken", "Site ID|Alternative\nA|as in sites\n", []string{"error alternative-name-taken Alternatives!B2"}, 0},
		{"no name", "Site ID|Zone ID|Alternative|Heat\nA|N||electric\n", []string{"error required-blank Alternatives!C2"}, 0},
		{"twice", "Site ID|Zone ID|Alternative\nA|N|X\nA|N|x\n", []string{"error row-twice Alternatives!C3"}, 1},
		{"a cell that can't be read", "Site ID|Zone ID|Alternative|Spacing\nA|N|X|wide\n", []string{"error not-a-number Alternatives!D2"}, 1},
		{"a cell out of range", "Site ID|Zone ID|Alternative|Spacing [mm]\nA|N|X|9000\n", []string{"error out-of-range Alternatives!D2"}, 1},
		{"its own column", "Site ID|Zone ID|Alternative|Mood\nA|N|X|good\n", []string{"info heading-unknown Alternatives!D1"}, 1},
		{"no headings", "One|Two\nA|N\n", []string{"warning heading-row-missing Alternatives!"}, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := laid(t, tt.table)
			assert.Equal(t, tt.want, told(b))
			zones := 0
			for _, a := range b.Sites[0].Alternatives {
				zones += len(a.Zones)
			}
			assert.Equal(t, tt.zones, zones)
		})
	}
}

// TestAFaultInSitesIsToldOnce: an alternative inherits a cell that can't be read and does not tell it again; one that types over it is whole.
func TestAFaultInSitesIsToldOnce(t *testing.T) {
	b, err := text(t, map[string]string{"sites": "Site ID|Area|Spacing\nA|40|wide\n", "alternatives": "Site ID|Alternative|Spacing|Heat\nA|Mended|200|\nA|Not|| electric\n"})
	require.NoError(t, err)
	assert.Equal(t, []string{"error not-a-number Sites!C2"}, told(b))
	list := b.Sites[0].Alternatives
	assert.False(t, list[0].Zones[0].Ref.Refused)
	assert.True(t, list[1].Zones[0].Ref.Refused)
}

func TestRevisions(t *testing.T) {
	b, err := text(t, map[string]string{"sites": "Site ID|Area\nA|40\nB|50\n",
		"revisions": "Site ID|Revision|Date|Description|Prepared|Checked\n|A|2026-10-01|First issue|PK|\nB|B|2026-11-02|Wider walk|PK|MO\nC|Z||no such site||\n"})
	require.NoError(t, err)
	assert.Equal(t, []string{"warning revision-site-unknown Revisions!A4"}, told(b))
	require.Len(t, b.Sites[0].Revisions, 1)
	require.Len(t, b.Sites[1].Revisions, 2)
	assert.Equal(t, calc.Revision{SiteID: "B", Name: "B", Date: "2026-11-02", Description: "Wider walk", Prepared: "PK", Checked: "MO"}, b.Sites[1].Revisions[1])
	e := calc.NewEngine(calc.Inputs{Settings: b.Settings})
	assert.Equal(t, "A", e.Site(b.Sites[0]).Summary.Revision)
	assert.Equal(t, "B", e.Site(b.Sites[1]).Summary.Revision, "the last one is the site's")
}

func TestLivesAndEscalations(t *testing.T) {
	b, err := text(t, map[string]string{"sites": "Site ID|Area\nA|40\n", "costs": "Item|Unit|Unit cost|Life\ndetector|piece|700|10\ntube|m|6|\n",
		"energy": "Energy ID|Carrier|Unit|Price|Heat content|Escalation\nG|gas|m3|0.6|10.5|1.5 %\n", "settings": "Budget limit|250,000\n"})
	require.NoError(t, err)
	assert.Equal(t, units.Some(10.0), b.Costs[0].LifeYears)
	assert.False(t, b.Costs[1].LifeYears.Known)
	assert.Equal(t, units.Some(0.015), b.Energies[0].Escalation)
	assert.Equal(t, units.Some(250000.0), b.Settings.BudgetLimit)
}
