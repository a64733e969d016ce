package submittal

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os/exec"
	"regexp"
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
	assert.Contains(t, said, "No price was given")
	assert.NotContains(t, said, "CAD")
	assert.NotContains(t, said, "example prices")
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
