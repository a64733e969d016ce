package record_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write the golden files anew")

func write(t testing.TB, sites []calc.SiteOutcome) []byte {
	t.Helper()
	w, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	var b bytes.Buffer
	r := record.New(&b, record.Head{Program: record.Program{Name: "thawbook", Version: "0.1.0"}, Currency: "USD", Words: w,
		Input: record.Input{File: "book.xlsx", SHA256: "ab12", Files: []record.File{{Name: "burlington.epw", SHA256: "00ff"}}}})
	var all []finding.Finding
	for _, s := range sites {
		r.Site(s, "submittals/"+s.Site.ID+".pdf")
		all = append(all, s.Summary.Findings...)
	}
	require.NoError(t, r.Close(record.Tail{Findings: all}))
	return b.Bytes()
}

// The golden is our own output: it shows what moves, it proves no number.
func TestGoldenOfASmallRecord(t *testing.T) {
	got := write(t, []calc.SiteOutcome{sample.Site(0), sample.Site(6), sample.Site(10)})
	golden := filepath.Join("testdata", "small.golden.json")
	if *update {
		require.Empty(t, os.Getenv("CI"), "goldens are not written in CI")
		require.NoError(t, os.WriteFile(golden, got, 0o600))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

// schema is the block of workbook.md that users rely on, as it stands there.
const schema = `
{ "schema": "thawbook.results/1", "program": {"name","version"}, "currency",
  "input": {"file","sha256","files": [{"name","sha256"}]},
  "zones": [ { "site","zone","row","status": "ok"|"error","area_m2","inputs": {...as read},
      "defaults": [{"name","value","source"}],
      "weather": {"source","years","kind": "observed"|"typical year"|"synthetic"|"design hour"|null,"rule","note"},
      "load":   {"method": "hourly"|"synthetic"|"design hour"|"given","snow_free_ratio","percentile","snowfall_hours",
                 "design_hour": {"time","outdoor_c","dew_point_c","wind_m_s","snow_mm_h"},
                 "sensible_w_m2","melt_w_m2","convection_radiation_w_m2","evaporation_w_m2","design_flux_w_m2",
                 "frequency": {"0": {"75","90","95","98","99","100"}, "0.5": {...}, "1": {...}} | null,
                 "back_loss_w_m2","edge_loss_w","total_w","installed_w_m2","snowfall_hours_unmet"},
      "slab":   {"pipe_surface_c","mean_fluid_c","sensor_c","surface_min_c","surface_max_c","warm_up_h"} | null,
      "reset":  {"surface_set_point_c","reset_ratio","wind_m_s","points": [{"outdoor_c","slab_melting_c","slab_idling_c","supply_melting_c","supply_idling_c"}]},
      "sensing":{"kit": [],
                 "start": "detector"|"manual","stop": "dry"|"timer"|"manual","idling": bool,"outdoor_reset": bool,"controller","reasons": [{"code","text"}],"rejected": [{"kit","code","text"}]},
      "piping": {"loops","loop_length_m","flow_l_s","head_kpa","reynolds","fluid_volume_l","freeze_point_c"} | null,
      "electric":{"connected_kw","circuits","cable_spacing_mm"} | null,
      "season": [{"strategy","hours_off","hours_idling","hours_melting","hours_drying","energy_kwh_m2","back_kwh_m2","edge_kwh_m2","snow_on_surface_h","refreeze_events","chosen": bool}],
      "cost":   [{"strategy","winter": "mild"|"typical"|"severe","energy","demand","standing","pump","total","co2_kg"}] } ],
  "not_included": [ {"site","zone","why"} ],
  "sites": [ {"site","site_name","region","owner","zones","area_m2","total_w","yearly_cost","status","revision","chosen","pdf"} ],
  "alternatives": [ {"site","alternative","first_cost","yearly_cost","present_value","simple_payback_y","discounted_payback_y","savings_to_investment","rank"} ],
  "portfolio": [ {"region","sites","area_m2","winter","total"} ],
  "findings": [ {"severity": "error"|"warning"|"info"|"accepted","code","sheet","cell","site","zone","message","fix","count"} ] }`

func TestEveryKeyOfTheSchemaIsThere(t *testing.T) {
	sites := []calc.SiteOutcome{sample.Site(0), sample.Site(6), sample.Site(10)}
	sites[0].Alternatives = []calc.AlternativeOutcome{{Name: "poured anew"}}
	c := sites[0].Outcomes[0].Sensing
	c.Reasons = append(c.Reasons, sensing.Reason{Code: "x"})
	c.Rejected = append(c.Rejected, sensing.Rejected{Kit: "y", Code: "x"})
	out := string(write(t, sites))
	values := regexp.MustCompile(`("[^"]+"): *("[^"]*"(\|("[^"]*"|null))*)`)
	keys := regexp.MustCompile(`"([^"]+)"`).FindAllStringSubmatch(values.ReplaceAllString(schema, "$1"), -1)
	require.Greater(t, len(keys), 100)
	for _, k := range keys {
		assert.Contains(t, out, `"`+k[1]+`":`)
	}
	assert.Contains(t, out, `"piping":null,"electric":null`)
}

func TestAlternativesInTheRecord(t *testing.T) {
	so := sample.Site(0)
	so.Alternatives = []calc.AlternativeOutcome{
		{Name: "base case", Base: true, Rank: 2, Lost: []calc.Lost{{Zone: "1", Code: "lacks-heat"}}},
		{Name: "poured anew", Proposed: true, Rank: 1, FirstCost: units.Some(cost.Money(1_000_000)), Savings: units.Some(cost.Savings{Net: 250_050, SIR: units.Some(1.25), AIRR: units.Some(0.041)}),
			Lines:       []cost.Line{{Zone: "1", Item: cost.Tube, Unit: "m", Quantity: 250, UnitCost: units.Some(40.0), Currency: "USD", Amount: units.Some(cost.Money(1_000_000)), CostFrom: cost.FromCosts}, {Item: cost.Panel, Unit: "piece", Quantity: 1, Uncounted: cost.OwnInstead}},
			Sensitivity: []calc.Sensitivity{{Moves: calc.MovesPrice, Low: -0.2, High: 0.2, NetLow: 100, NetHigh: 200}, {Moves: calc.MovesWinter, NetLow: 300, NetHigh: 400}},
			BreakEven:   units.Some(calc.BreakEven{EnergyID: "gas", Unit: "m³", Currency: "USD", Price: 0.9, Now: 0.5})},
	}
	got, err := record.Read(bytes.NewReader(write(t, []calc.SiteOutcome{so})))
	require.NoError(t, err)
	require.Len(t, got.Alternatives, 2)
	base, a := got.Alternatives[0], got.Alternatives[1]
	require.Len(t, base.Lacks, 1)
	assert.Equal(t, "It has no heat: snow is cleared by people and machines as now.", base.Lacks[0].Text)
	assert.False(t, base.FirstCost.Known, "what is not known is null, never 0")
	assert.Nil(t, base.BreakEven)
	assert.InDelta(t, 2500.5, a.NetSavings.Value, 1e-9)
	assert.InDelta(t, 0.041, a.InternalRate.Value, 1e-9)
	assert.Equal(t, "gas", a.BreakEven.Energy)
	assert.InDelta(t, 0.9, a.BreakEven.Price.Value, 1e-9)
	require.Len(t, a.Sensitivity, 2)
	assert.InDelta(t, -0.2, a.Sensitivity[0].Low.Value, 1e-9)
	assert.False(t, a.Sensitivity[1].Low.Known, "a winter is moved by no share")
	assert.InDelta(t, 4, a.Sensitivity[1].NetHigh.Value, 1e-9)
	require.Len(t, a.FirstCostLines, 2)
	assert.Equal(t, "1", *a.FirstCostLines[0].Zone)
	assert.Nil(t, a.FirstCostLines[1].Zone)
	assert.False(t, a.FirstCostLines[1].Counted)
}

func TestWrittenAndReadBack(t *testing.T) {
	data := write(t, sample.Sites(12))
	got, err := record.Read(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, record.Schema, got.Schema)
	assert.Len(t, got.Zones, 22)
	assert.Len(t, got.Sites, 12)
	assert.Len(t, got.NotIncluded, 2)
	z := got.Zones[0]
	assert.InDelta(t, 518.3, z.Load.DesignFluxWM2.Value, 1e-9)
	area, found := z.Inputs.Get("area_m2")
	require.True(t, found)
	assert.InDelta(t, 120.5, area.Number.Value, 1e-9)
	thickness, found := z.Inputs.Get("slab_thickness_mm")
	require.True(t, found, z.Inputs)
	assert.InDelta(t, 150, thickness.Number.Value, 1e-9)
	assert.Len(t, z.Season, 11)
	assert.Len(t, z.Cost, 33)
	assert.Len(t, z.Reset.Points, 15)
	assert.True(t, z.Season[5].Chosen)
	assert.False(t, got.Zones[1].Cost[0].Total.Known, "no price, no money")
	assert.Nil(t, got.Zones[13].Load)

	again, err := json.Marshal(got)
	require.NoError(t, err)
	back, err := record.Read(bytes.NewReader(again))
	require.NoError(t, err)
	assert.Equal(t, got, back)
}

func TestNumbers(t *testing.T) {
	for _, tt := range []struct {
		in   float64
		want string
	}{
		{123.45678901, "123.4568"}, {0, "0"}, {math.Copysign(0, -1), "0"}, {-1e-9, "-0.000000001"}, {1234567.89, "1234568"}, {98765432.1, "98765430"},
		{math.NaN(), "null"}, {math.Inf(1), "null"}, {0.1 + 0.2, "0.3"}, {3.6e12, "3600000000000"},
	} {
		b, err := record.Number{Maybe: units.Some(tt.in)}.MarshalJSON()
		require.NoError(t, err)
		assert.Equal(t, tt.want, string(b))
		assert.True(t, json.Valid(b))
	}
	b, err := record.Number{}.MarshalJSON()
	require.NoError(t, err)
	assert.Equal(t, "null", string(b))
}

func TestMoneyKeepsItsDecimals(t *testing.T) {
	out := string(write(t, sample.Sites(1)))
	assert.Contains(t, out, `"yearly_cost":4123.45`)
	assert.Contains(t, out, `"standing":180.00,"pump":null,"pump_kwh":null,"total":1080.00`)
}

func TestOtherRecordsAreRefused(t *testing.T) {
	_, err := record.Read(strings.NewReader(`{"schema": "thawbook.results/2"}`))
	require.Error(t, err)
	_, err = record.Read(strings.NewReader(`nothing`))
	require.Error(t, err)
}

func TestAFailedWriteIsTold(t *testing.T) {
	w, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	r := record.New(full{}, record.Head{Words: w})
	r.Site(sample.Site(0), "")
	assert.ErrorIs(t, r.Close(record.Tail{}), errFull)
}

func TestSameInputSameBytes(t *testing.T) {
	assert.Equal(t, write(t, sample.Sites(7)), write(t, sample.Sites(7)))
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func BenchmarkThousandSites(b *testing.B) {
	sites := sample.Sites(1000)
	for b.Loop() {
		write(b, sites)
	}
}
