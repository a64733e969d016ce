package hourly

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/season"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/templates"
)

const (
	accuracyPage = "ACCURACY.md"
	accuracyBand = 0.15 // of the real hours' value: what counts as near
)

// accuracyRatios are the snow-free area ratios of the table, by their place in surface.Ratios.
var accuracyRatios = [2]int{2, 1}

// accuracyStrategies are those whose yearly energy the table shows.
var accuracyStrategies = [3]season.Strategy{season.AlwaysOn, season.Pavement, season.AerialSlabIdling}

// winterSums is what the table compares of a station: snowfall hours a year, the 98 % flux at two ratios in W/m², the energy of a season by strategy
// in kWh/m².
type winterSums struct {
	snowHours float64
	flux      [len(accuracyRatios)]float64
	energy    [len(accuracyStrategies)]float64
}

// accuracyRow is a station three times: its real hours, a winter drawn from its own snow-hour statistics, one from its monthly normals alone.
type accuracyRow struct {
	name   string
	source string
	ways   [3]winterSums
	again  float64 // share of redrawn years whose 98 % flux at A_r 1 is near the record's
}

// accuracyZone is the pavement of the table. What it does not name is as a blank cell leaves it.
func accuracyZone(station string) calc.Zone {
	return calc.Zone{
		Ref:     calc.Ref{SiteID: station, ZoneID: "1", Include: "yes"},
		Place:   calc.Place{Station: station, WindFactor: 1},
		Extent:  calc.Extent{AreaM2: 100, PerimeterM: units.Some(40.0), WindLengthM: units.Some(6.1), Use: calc.Drive},
		Service: calc.Service{SnowFree: units.Some(1.0), Percentile: units.Some(98.0), DesignMargin: 1},
		Slab: calc.Slab{Stage: calc.NewPour, Support: calc.OnGround, PostTensioned: calc.No, MembraneBelow: calc.No, Surface: calc.Concrete, ThicknessM: units.Some(0.1),
			ConductivityWMK: units.Some(1.4), DepthM: units.Some(0.06), InsulationM2KW: units.Some(0.9)},
		Heat: calc.Heat{Kind: calc.Hydronic, Pipe: calc.Pipe{Typed: "20 mm", OuterM: 0.020, WallM: 0.0019}, SpacingM: units.Some(0.2), Fluid: "propylene glycol",
			DropK: 11, InstalledWM2: units.Some(450.0)},
		Sensing: calc.Sensing{SurfaceMeltC: 3, SurfaceIdleC: 0.5},
	}
}

// sums calculates what the table compares.
func sums(t testing.TB, st weather.Station) winterSums {
	t.Helper()
	st.Name = "the station"
	st.SnowVariation = units.Some(0.0) // the mild and the severe winter are not looked at
	settings := calc.Settings{Currency: "USD", Defaults: []calc.Default{{Field: "season_start"}, {Field: "season_end"}}}
	engine := calc.NewEngine(calc.Inputs{Settings: settings, Climate: calc.Climate{Stations: []weather.Station{st}}})
	outcomes := engine.Site(calc.Site{ID: "accuracy", Zones: []calc.Zone{accuracyZone(st.Name)}}).Outcomes
	require.Len(t, outcomes, 1)
	o := outcomes[0]
	require.NoError(t, o.Err)
	require.True(t, o.Load != nil && o.Load.Frequency.Known, "%v", o.Findings)
	const at98 = 3 // in surface.Percentiles
	require.Equal(t, 98.0, surface.Percentiles[at98])
	w := winterSums{snowHours: o.Load.SnowHours}
	for i, r := range accuracyRatios {
		w.flux[i] = o.Load.Frequency.Value[r][at98]
	}
	for i, s := range accuracyStrategies {
		at := slices.IndexFunc(o.Seasons, func(r season.Result) bool { return r.Strategy == s })
		require.GreaterOrEqual(t, at, 0, s)
		w.energy[i] = o.Seasons[at].EnergyKWhM2
	}
	return w
}

// accuracyRows compares every station of ../shared/weather whose file can be used.
func accuracyRows(t testing.TB) []accuracyRow {
	t.Helper()
	built := realStations(t)
	table, err := ReadStations(templates.FS())
	require.NoError(t, err)
	kept := map[string]weather.Statistics{}
	for _, s := range table {
		kept[s.Name] = s
	}
	rows := make([]accuracyRow, 0, len(built))
	for _, b := range built {
		s, found := kept[b.statistics.Name]
		require.True(t, found, "%s is not in %s", b.statistics.Name, StationsFile)
		joint, err := s.Station()
		require.NoError(t, err)
		s.Joint = weather.Joint{}
		normals, err := s.Station()
		require.NoError(t, err)
		require.True(t, normals.CoarseSynthetic)
		kind, _, _ := strings.Cut(s.Source, ", from ")
		rows = append(rows, accuracyRow{name: s.Name, source: kind, ways: [3]winterSums{sums(t, b.station), sums(t, joint), sums(t, normals)},
			again: redrawnNear(t, b.station)})
	}
	return rows
}

// TestAccuracyOfSyntheticWinters renews or checks the page that says how near synthetic winters come to the hours they stand for. Its numbers are our
// own on both sides: they tell what leaving out the hours costs, not how right the method is.
func TestAccuracyOfSyntheticWinters(t *testing.T) {
	rows := accuracyRows(t)
	page := accuracyText(rows)
	if *update {
		require.Empty(t, os.Getenv("CI"), "-update is refused where CI is set")
		require.NoError(t, os.WriteFile(accuracyPage, []byte(page), 0o644))
	}
	stored, err := os.ReadFile(accuracyPage)
	require.NoError(t, err)
	assert.Equal(t, string(stored), page, "run go test ./ingest/hourly -run TestAccuracyOfSyntheticWinters -update")
}

// off is how far a value lies from the real hours'.
func off(real, other float64) float64 { return other/real - 1 }

func accuracyText(rows []accuracyRow) string {
	var p strings.Builder
	p.WriteString(accuracyHead)
	fmt.Fprintf(&p, "\n## In short\n\n")
	accuracySummary(&p, rows)
	fmt.Fprintf(&p, "\n## Snowfall hours a year and the flux not exceeded in 98 %% of them [W/m²]\n\n")
	fmt.Fprintf(&p, "| station | rests on | snowfall hours | own statistics | normals alone")
	for _, r := range accuracyRatios {
		fmt.Fprintf(&p, " | A_r %g | own statistics | normals alone", surface.Ratios[r])
	}
	p.WriteString(" |\n|---|---|" + strings.Repeat("---:|", 3+3*len(accuracyRatios)) + "\n")
	for _, r := range rows {
		fmt.Fprintf(&p, "| %s | %s |%s", r.name, r.source, beside(r, func(w winterSums) float64 { return w.snowHours }))
		for i := range accuracyRatios {
			p.WriteString(beside(r, func(w winterSums) float64 { return w.flux[i] }))
		}
		p.WriteByte('\n')
	}
	fmt.Fprintf(&p, "\n## Energy of a season [kWh/m²]\n\n| station |")
	for _, s := range accuracyStrategies {
		fmt.Fprintf(&p, " %s | own statistics | normals alone |", s)
	}
	p.WriteString("\n|---|" + strings.Repeat("---:|", 3*len(accuracyStrategies)) + "\n")
	for _, r := range rows {
		fmt.Fprintf(&p, "| %s |", r.name)
		for i := range accuracyStrategies {
			p.WriteString(beside(r, func(w winterSums) float64 { return w.energy[i] }))
		}
		p.WriteByte('\n')
	}
	return p.String()
}

// beside writes three cells: the real hours' value, and the two others with their difference.
func beside(r accuracyRow, value func(winterSums) float64) string {
	real := value(r.ways[0])
	text := fmt.Sprintf(" %.0f |", real)
	for _, w := range r.ways[1:] {
		text += fmt.Sprintf(" %.0f (%s) |", value(w), difference(off(real, value(w))))
	}
	return text
}

// difference writes a difference in whole percent.
func difference(share float64) string {
	n := math.Round(100 * share)
	switch {
	case n > 0:
		return fmt.Sprintf("+%.0f %%", n)
	case n < 0:
		return fmt.Sprintf("−%.0f %%", -n)
	}
	return "0 %"
}

// measure is one number that is compared.
type measure struct {
	name  string
	value func(winterSums) float64
}

// measures are those that the band is asked of.
func measures() []measure {
	var list []measure
	for i, r := range accuracyRatios {
		list = append(list, measure{fmt.Sprintf("98 %% flux at A_r %g", surface.Ratios[r]), func(w winterSums) float64 { return w.flux[i] }})
	}
	for i, s := range accuracyStrategies {
		list = append(list, measure{"energy, " + string(s), func(w winterSums) float64 { return w.energy[i] }})
	}
	return list
}

// accuracySummary counts the stations within the band, then names the others.
func accuracySummary(p *strings.Builder, rows []accuracyRow) {
	band := fmt.Sprintf("within %.0f %%", 100*accuracyBand)
	fmt.Fprintf(p, "| of %d stations | own statistics: %s | farthest | normals alone: %s | farthest |\n|---|---:|---:|---:|---:|\n", len(rows), band, band)
	for _, m := range measures() {
		fmt.Fprintf(p, "| %s |", m.name)
		for way := 1; way < 3; way++ {
			near, farthest := 0, 0.0
			for _, r := range rows {
				d := off(m.value(r.ways[0]), m.value(r.ways[way]))
				if math.Abs(d) <= accuracyBand {
					near++
				}
				if math.Abs(d) > math.Abs(farthest) {
					farthest = d
				}
			}
			fmt.Fprintf(p, " %d | %s |", near, difference(farthest))
		}
		p.WriteByte('\n')
	}
	sampling(p, rows)
	beyond(p, rows, 1, "From its own statistics")
	beyond(p, rows, 2, "From monthly normals alone")
}

// sampling tells how many stations a second year of their very own storms would put within the band: what no generator can pass by its merit.
func sampling(p *strings.Builder, rows []accuracyRow) {
	sum, least := 0.0, rows[0]
	for _, r := range rows {
		sum += r.again
		if r.again < least.again {
			least = r
		}
	}
	fmt.Fprintf(p, `
One year tells a place's 98 %% flux only as surely as its storms allow. With as many storms drawn anew from each record's own (%d times), the flux
at A_r 1 lies within %.0f %% of the record's at %.0f of %d stations on average, least often at %s (%.0f %% of the draws).
`, redraws, 100*accuracyBand, sum, len(rows), least.name, 100*least.again)
}

// beyond lists the stations that lie outside the band in anything, with what and by how much.
func beyond(p *strings.Builder, rows []accuracyRow, way int, name string) {
	var far []string
	for _, r := range rows {
		var what []string
		for _, m := range measures() {
			if d := off(m.value(r.ways[0]), m.value(r.ways[way])); math.Abs(d) > accuracyBand {
				what = append(what, m.name+" "+strings.Replace(fmt.Sprintf("%+.1f %%", 100*d), "-", "−", 1))
			}
		}
		if len(what) > 0 {
			far = append(far, "- "+r.name+": "+strings.Join(what, "; "))
		}
	}
	fmt.Fprintf(p, "\n%s, %d of %d stations lie within %.0f %% in all of these; not so:\n\n%s\n", name, len(rows)-len(far), len(rows), 100*accuracyBand, strings.Join(far, "\n"))
}

const accuracyHead = `# How near a synthetic winter comes

A station without an hourly file gets a winter drawn from what is kept of it: monthly normals and, for the built-in stations, statistics of its own
snow hours. This page sets that winter beside the hours it stands for: the load and the season of the same pavement from the real hours, from the
station's own statistics as they stand in ` + "`templates/stations.tsv`" + `, and from its monthly normals alone, as a user may type them into Climate.

The pavement: 100 m², 6.1 m long in the wind's direction, snow-free area ratio A_r 1 where no other is said; 100 mm of concrete of 1.4 W/m·K on
insulation of 0.9 m²·K/W, 20 mm pipe 60 mm deep at 200 mm, 450 W/m² installed, surface set points 3 °C melting and 0.5 °C idling; everything else as
a blank cell leaves it. Energy is the heat into the slab with its back loss, without edge loss. Percentages are differences from the real hours.

Both sides are this program's own, so the page tells what leaving out the hours costs, not how right the method is; for that see
` + "[calc/README.md](../../calc/README.md)" + `. Each station rests on one year, mostly a typical one; rare hours of many years lie above it. With normals
alone the snow hours have a generic spread of wind, cold and rate, and the results say "coarse".

Written by ` + "`go test ./ingest/hourly -run TestAccuracyOfSyntheticWinters -update`" + `, which needs the hourly files in ` + "`../shared/weather`" + ` beside the checkout.
`
