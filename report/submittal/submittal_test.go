package submittal

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/johnfercher/maroto/v2"
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/components/row"
	"github.com/johnfercher/maroto/v2/pkg/config"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/phpdave11/gofpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
)

// cases are the documents that every test of the pages looks at.
var cases = map[string]view{
	"torture":    {},
	"torture IP": {system: units.IP},
	"plain":      {plain: true},
	"plain IP":   {plain: true, system: units.IP},
	"no price":   {plain: true, noPrice: true},
	"many":       {zones: 12},
}

// probe catches what is below maroto while a page is drawn.
type probe struct {
	plain
	found **gofpdf.Fpdf
}

func (p probe) Render(provider core.Provider, _ *entity.Cell) { *p.found = fpdf(provider) }

func TestTheDocumentBelowMarotoIsReached(t *testing.T) {
	var found *gofpdf.Fpdf
	m := maroto.New(config.NewBuilder().Build())
	m.AddRows(row.New(10).Add(col.New(12).Add(probe{found: &found})))
	_, err := m.Generate()
	require.NoError(t, err)
	assert.NotNil(t, found, "maroto keeps its document elsewhere now: see fpdf")
}

func TestSameViewSameBytes(t *testing.T) {
	v := view{}.make(t)
	first, err := Render(v)
	require.NoError(t, err)
	for range 20 {
		again, err := Render(v)
		require.NoError(t, err)
		require.Equal(t, sha256.Sum256(first.Bytes), sha256.Sum256(again.Bytes))
	}
}

func TestFortyZones(t *testing.T) {
	doc, err := Render(view{zones: 38}.make(t))
	require.NoError(t, err)
	out, err := exec.Command("pdfinfo", saved(t, doc, "pdfinfo")).Output()
	require.NoError(t, err)
	assert.Contains(t, string(out), fmt.Sprintf("Pages:           %d\n", doc.Pages))
}

func TestSeveralAtOnce(t *testing.T) {
	v := view{plain: true}.make(t)
	want, err := Render(v)
	require.NoError(t, err)
	var wait sync.WaitGroup
	for range 2 {
		wait.Go(func() {
			for range 5 {
				got, err := Render(v)
				assert.NoError(t, err)
				assert.True(t, bytes.Equal(want.Bytes, got.Bytes))
			}
		})
	}
	wait.Wait()
}

func TestPanicIsAnErrorOfThisDocument(t *testing.T) {
	v := view{plain: true}.make(t)
	v.Words = nil
	doc, err := Render(v)
	assert.ErrorContains(t, err, "S000")
	assert.Empty(t, doc.Bytes)
}

func TestSiteWithoutAnything(t *testing.T) {
	full := view{plain: true}.make(t)
	empty := report.View{Words: full.Words, Site: calc.SiteOutcome{Site: calc.Site{ID: "E1"}, Excluded: []calc.Excluded{{Ref: calc.Ref{ZoneID: "1"}, Why: "include-later"}}}}
	doc, err := Render(empty)
	require.NoError(t, err)
	assert.Contains(t, text(t, doc), "E1")
}

var (
	code        = regexp.MustCompile(`\[[a-z]+(-[a-z]+)+\]`)
	placeholder = regexp.MustCompile(`[{}]`)
	pageOf      = regexp.MustCompile(`Page (\d+) of (\d+)`)
)

func TestTextIsWholeAndPagesAreCounted(t *testing.T) {
	for name, o := range cases {
		t.Run(name, func(t *testing.T) {
			doc, err := Render(o.make(t))
			require.NoError(t, err)
			said := text(t, doc)
			assert.Empty(t, placeholder.FindAllString(said, -1), "a placeholder was not filled")
			assert.Empty(t, code.FindAllString(said, -1), "a code has no text")
			assert.NotContains(t, said, "NaN")
			assert.NotContains(t, said, "could not")
			seen := pageOf.FindAllStringSubmatch(said, -1)
			require.Len(t, seen, doc.Pages)
			for i, m := range seen {
				assert.Equal(t, []string{fmt.Sprint(i + 1), fmt.Sprint(doc.Pages)}, m[1:])
			}
		})
	}
}

func TestZoneWithoutLoadSaysWhyAndTheRestIsThere(t *testing.T) {
	doc, err := Render(view{plain: true}.make(t))
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Contains(t, said, "Without a result: 3 Loading dock.")
	assert.Contains(t, said, "There is no load. This zone has no climate")
	assert.Contains(t, said, "Zone 2 Drive")
	assert.Contains(t, said, "example prices")
}

func TestNoPriceNoMoney(t *testing.T) {
	doc, err := Render(view{plain: true, noPrice: true}.make(t))
	require.NoError(t, err)
	said := text(t, doc)
	assert.Contains(t, said, "no price was given")
	assert.NotContains(t, said, "CAD")
	assert.NotContains(t, said, "example prices")
}

// TestCostlessZonesSayWhy tells a zone that lacks a price from one without a winter.
func TestCostlessZonesSayWhy(t *testing.T) {
	unpriced := squeezed(t, view{plain: true, noPrice: true}.make(t))
	assert.Contains(t, unpriced, "No cost for 1 Entrance walk, 2 Drive: no price was given")
	assert.Contains(t, unpriced, "No cost for 3 Loading dock: no winter could be calculated there")
	v := view{plain: true}.make(t)
	v.Site.Outcomes = v.Site.Outcomes[2:]
	failed := squeezed(t, v)
	assert.Contains(t, failed, "no winter could be calculated there")
	assert.NotContains(t, failed, "no price was given")
	v.Site.Outcomes[0].Zone.Slab.Stage = calc.ExistingUnheated
	assert.NotContains(t, squeezed(t, v), "What it costs in a year", "nothing is heated")
}

// TestWhatReadingFoundIsTold: a zone with a refused cell has no findings of its own; those of reading stand in their place, and what was not read is
// blank, never 0.
func TestWhatReadingFoundIsTold(t *testing.T) {
	v := view{plain: true}.make(t)
	refused := calc.Outcome{Zone: calc.Zone{Ref: calc.Ref{SiteID: "S000", ZoneID: "9", Refused: true}}}
	v.Site.Outcomes = []calc.Outcome{refused}
	v.Site.Summary = calc.Summary{SiteID: "S000", Zones: 1, Errors: 1, Status: calc.Failed}
	bad := finding.New(finding.Error, "not-a-number", "area", finding.Words("heading", "Area"), finding.Words("typed", "many"))
	bad.Site, bad.Zone, bad.At = "S000", "9", finding.Cell{Sheet: "Sites", Ref: "C4", Row: 4, Col: 3}
	v.Site.Summary.Tell(bad)
	said := squeezed(t, v)
	decided, rest, found := strings.Cut(said, "This is a calculation for review")
	require.True(t, found)
	assert.Contains(t, decided, `Area: "many" is not a number. Type a number, or leave the cell blank.`)
	assert.Contains(t, decided, "Without a result: 9.")
	assert.Contains(t, rest, "Sites C4")
	assert.Contains(t, rest, `There is no load. Area: "many" is not a number.`)
	assert.NotRegexp(t, `\b0(\.0+)? m²|\b0\.00\b`, said)
	assert.NotContains(t, said, "Nothing is open")
}

// TestNoWeatherNoLevel: the service level is that of a load; without one the first page names none.
func TestNoWeatherNoLevel(t *testing.T) {
	v := view{plain: true}.make(t)
	first, _, _ := strings.Cut(squeezed(t, v), "This is a calculation for review")
	assert.Contains(t, first, "95 %")
	failed := v.Site.Outcomes[2]
	failed.Zone.Service = v.Site.Outcomes[0].Zone.Service
	v.Site.Outcomes = []calc.Outcome{failed}
	first, _, _ = strings.Cut(squeezed(t, v), "This is a calculation for review")
	assert.NotContains(t, first, "95 %")
}

// A chart drawn into the page, as DEVELOPERS.md reports it.
func BenchmarkChart(b *testing.B) {
	s := on(view{plain: true}.make(b))
	drawn := s.resetChart(followed{curve: *s.Site.Outcomes[0].Reset})
	pdf := gofpdf.New("P", "mm", "A4", "")
	for i, f := range customFonts() {
		pdf.AddUTF8FontFromBytes(family, []string{"", "B"}[i], f.Bytes)
	}
	b.Run("make", func(b *testing.B) {
		for b.Loop() {
			s.resetChart(followed{curve: *s.Site.Outcomes[0].Reset})
		}
	})
	b.Run("draw", func(b *testing.B) {
		for b.Loop() {
			pdf.AddPage()
			drawn.Draw(newCanvas(pdf, 20, 100), 250, 200)
		}
	})
}

func BenchmarkRender(b *testing.B) {
	for _, zones := range []string{"one zone", "three zones"} {
		v := view{plain: true}.make(b)
		if zones == "one zone" {
			v.Site.Outcomes = v.Site.Outcomes[:1]
		}
		b.Run(zones, func(b *testing.B) {
			b.ReportAllocs()
			var doc Document
			for b.Loop() {
				doc, _ = Render(v)
			}
			b.ReportMetric(float64(doc.Pages), "pages")
			b.ReportMetric(float64(len(doc.Bytes))/1000, "kB")
		})
	}
}

// squeezed returns the document's text with single spaces.
func squeezed(t *testing.T, v report.View) string {
	t.Helper()
	doc, err := Render(v)
	require.NoError(t, err)
	return strings.Join(strings.Fields(text(t, doc)), " ")
}

func TestWhatIsProposedAndHowFarItGoes(t *testing.T) {
	v := view{plain: true}.make(t)
	v.Headings = report.Headings{"stage": "Stage of work"}
	v.Site.Outcomes = v.Site.Outcomes[:1]
	l := v.Site.Outcomes[0].Limits
	require.True(t, report.Beyond(*l, -30), "the sample's plant can't follow to the cold end")
	said := squeezed(t, v)
	for _, want := range []string{"What is proposed", "falling snow", "a timer, after the last", "a slab temperature that follows",
		"How far the plant can follow", "Heat is allowed below 4.4 °C outdoors", "Supply at the design flux 48.2 °C", "Supply limit 55.0 °C passed below", "† −30.0", "† Melting below",
		"beyond what the plant can hold", "Stage of work", "[1]"} {
		assert.Contains(t, said, want)
	}
	assert.NotContains(t, said, "Zone 1 Entrance walk", "a site with one zone needs no headings of zones")
	assert.NotContains(t, said, "(−30 °C) loss", "symbols of the coldest point stand without it")
	l.ColdestC = -30
	assert.NotContains(t, squeezed(t, v), "†", "a plant that follows the whole curve")
}

func TestFirstPageShowsSomeDecisionsAndWhereTheRestStands(t *testing.T) {
	v := view{plain: true}.make(t)
	var all []finding.Finding
	for i := range 12 {
		f := finding.New(finding.Warning, "station-unknown", "station", finding.Words("name", fmt.Sprint("place ", i)), finding.Words("near", "none"))
		f.Zone, f.At = "1", finding.Cell{Sheet: "Sites", Ref: fmt.Sprint("C", 8+i), Row: 8 + i, Col: 3}
		all = append(all, f)
	}
	open := finding.New(finding.Info, calc.CodeTendonsUnknown, "post_tensioned")
	note := finding.New(finding.Info, "installed-floor", "installed_output", finding.Value("installed", 200, units.Flux), finding.Value("needed", 150, units.Flux))
	v.Site.Summary.Findings = []finding.Finding{open, note}
	first, _, _ := strings.Cut(squeezed(t, v), "Page 1 of")
	assert.Contains(t, first, "post-tensioned", "unknown tendons are a decision")
	assert.NotContains(t, first, "least of the trade", "what was only taken is none")

	v.Site.Summary.Findings = all
	said := squeezed(t, v)
	first, _, _ = strings.Cut(said, "Page 1 of")
	assert.Equal(t, decisions, strings.Count(first, "There is no station"))
	assert.Contains(t, first, fmt.Sprintf("And %d more in chapter %d.", 12-decisions, on(v).chapterOf("findings")))
	assert.Contains(t, said, fmt.Sprintf("%d Findings of this site", on(v).chapterOf("findings")))
}

func TestSourcesAreNumberedOnceAndInOrder(t *testing.T) {
	r := &references{}
	assert.Equal(t, "input", r.mark("input"))
	assert.Equal(t, "[1] eq.\u00a04", r.mark("A handbook eq. 4"))
	assert.Equal(t, "[2]", r.mark("hours of the station"))
	assert.Equal(t, "[1] eq.\u00a05 and 6", r.mark("A handbook eq. 5 and 6"))
	assert.Equal(t, "[3]", r.mark("A handbook eq. 4; T = 0"))
	assert.Equal(t, []string{"A handbook", "hours of the station", "A handbook eq. 4; T = 0"}, r.list)
}

// A figure without room waits for the top of the next page while the text behind it fills this one; it passes no chapter and takes no text with it.
func TestFiguresWaitAndTextGoesOn(t *testing.T) {
	s := on(view{plain: true}.make(t))
	room := s.paper.room()
	line := func(text string) core.Row { return newBlock(10, nil, col.New(grid).Add(cellStyle.set(text, 100))) }
	said := func(rows ...core.Row) string {
		m := maroto.New(s.config(""))
		flow(m, rows, room)
		doc, err := m.Generate()
		require.NoError(t, err)
		return strings.Join(strings.Fields(text(t, Document{Bytes: doc.GetBytes()})), " ")
	}
	drawing := figure([]core.Row{newBlock(room/2, nil, col.New(grid).Add(cellStyle.set("figure", 100))), space(1)})
	before := newBlock(room*0.7, nil, col.New(grid).Add(cellStyle.set("before", 100)))
	after := []core.Row{line("after-1"), line("after-2")}
	chapter := s.chapter(&entry{title: "next chapter"})
	all := said(slices.Concat([]core.Row{before}, drawing, after, chapter, []core.Row{line("end")})...)
	assert.Equal(t, "before after-1 after-2 figure next chapter end", all)
	assert.Equal(t, "before figure next chapter end", said(slices.Concat([]core.Row{before}, drawing, chapter, []core.Row{line("end")})...))
	small := newBlock(room*0.2, nil, col.New(grid).Add(cellStyle.set("before", 100)))
	assert.Equal(t, "before figure after-1 after-2", said(slices.Concat([]core.Row{small}, drawing, after)...), "a figure with room stays where it is")
}

// A list in columns is copied out of the document item by item, and its columns are of like height.
func TestListsInColumnsAreReadInOrder(t *testing.T) {
	s := on(view{plain: true}.make(t))
	items := make([]item, 40)
	var want []string
	lines := 0
	for i := range items {
		items[i] = item{fmt.Sprintf("[%d]", i+1), strings.Repeat("word ", 3+7*(i%3)) + fmt.Sprintf("end%d.", i+1)}
		want = append(want, items[i].mark, fmt.Sprintf("end%d.", i+1))
		lines += len(columnStyle.set(items[i].text, s.paper.text()*33/grid-cellPad-6).lines)
	}
	rows := s.columns(items, 3, 6)
	height := 0.0
	for _, r := range rows {
		height += r.GetHeight(nil, nil)
	}
	assert.Less(t, height, 1.25*float64(lines)/3*columnStyle.lineHeight()+2)
	m := maroto.New(s.config(""))
	flow(m, rows, s.paper.room())
	doc, err := m.Generate()
	require.NoError(t, err)
	raw, err := exec.Command("pdftotext", "-raw", saved(t, Document{Bytes: doc.GetBytes()}, "pdftotext"), "-").Output()
	require.NoError(t, err)
	assert.Equal(t, want, regexp.MustCompile(`\[\d+\]|end\d+\.`).FindAllString(string(raw), -1))
}

// A table that should stay whole moves to the next page while little of this one stays empty, and is divided where much would.
func TestWholeTablesAreDividedOnlyWhereMuchWouldStayEmpty(t *testing.T) {
	s := on(view{plain: true}.make(t))
	rows := make([]cells, 20)
	for i := range rows {
		rows[i].texts = []string{fmt.Sprint(i)}
	}
	table := s.table([]column{{title: "n", width: grid}}, rows)
	whole(table)
	height := 0.0
	for _, r := range table {
		height += r.GetHeight(nil, nil)
	}
	room := s.paper.room()
	pagesFor := func(before float64) int {
		m := maroto.New(s.config(""))
		return flow(m, append([]core.Row{newBlock(before, nil, col.New(grid))}, table...), room)
	}
	assert.Equal(t, 1, pagesFor(room-height-1))
	assert.Equal(t, 2, pagesFor(room-height+5))
	assert.Equal(t, 2, pagesFor(room-room/mostEmpty+5))
}
