package submittal

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
)

// scripts are names as people write them: signs of engineering, accents, Greek, Cyrillic, what no font of ours covers, long words, nothing at all.
var scripts = []string{
	"Loading dock ≤ 5° at −20 °C, ½ of 120 m², Ø 25 mm", "Übergrößenträgerstraße vor dem Weißgerberhaus, äußere Rampe", "Łódź, ulica Żółkiewskiego – wejście główne i podjazd dla wózków",
	"Århus Åboulevarden, kørerampe øst", "Είσοδος επειγόντων περιστατικών, ράμπα ασθενοφόρων", "Въезд для скорой помощи, верхняя площадка вдоль здания №\u00a04", "正面玄関 🏥 入口",
	"Donaudampfschifffahrtsgesellschaftskapitänswitwenrentenauszahlungsstelle", "", "walk_in_front_of_the_entrance_with_under_scores_and^carets", "a/b\\c: \"quoted\" {braces} [brackets] & <angles>",
	strings.Repeat("very long name that goes on ", 6),
}

// tortured is a site of forty zones of which most lack something, with long words wherever a person may write.
func tortured(t *testing.T, system units.System) report.View {
	t.Helper()
	v := situated(t, system)
	list := v.Site.Outcomes
	list[0].Zone.Ref.IssuedFor = "permit and tender, not for construction"
	list[0].Zone.Ref.Address, list[0].Zone.Ref.Owner, list[0].Zone.Ref.Region = scripts[2]+", "+scripts[4], scripts[1], scripts[5]
	for i := len(list); i < 40; i++ {
		o := list[i%2]
		lacking(&o, i)
		o.Zone.Ref.ZoneID = fmt.Sprintf("Z-%02d", i+1)
		list = append(list, o)
	}
	for i := range list {
		list[i].Zone.Ref.ZoneName = scripts[i%len(scripts)]
	}
	v.Site.Outcomes = list
	v.Site.Site.Name = scripts[3] + " «" + scripts[4] + "» " + scripts[7]
	v.Site.Site.Revisions = []calc.Revision{{Name: "A", Date: "2026-01-02", Description: scripts[11], Prepared: scripts[1], Checked: scripts[5]}, {Name: "B", Description: scripts[7]}}
	s := &v.Settings
	s.Project, s.PreparedFor, s.PreparedBy, s.Country, s.Exclusions = scripts[1], scripts[2], scripts[5], scripts[4], strings.Join(scripts, "; ")
	v.Attached = []report.Attached{attached(t, 400, "slab", "1", scripts[11]), attached(t, 380, "", "", scripts[7])}
	v.Attached[1].Picture = pictureOf(t, 380, 1_900, "png") // as high as a page
	for _, name := range scripts {
		f := finding.New(finding.Warning, "missing-input", "station", finding.Words("near", name))
		f.Zone, f.At = "1", finding.Cell{Sheet: "Sites of " + name, Ref: "ABC123"}
		v.Site.Summary.Findings = append(v.Site.Summary.Findings, f)
	}
	v.Site.Alternatives = ways(t).Site.Alternatives
	for i := range v.Site.Alternatives {
		v.Site.Alternatives[i].Name = scripts[(i+1)%len(scripts)]
	}
	return v
}

// lacking takes one of the optional parts from an outcome.
func lacking(o *calc.Outcome, i int) {
	switch i % 8 {
	case 0:
		o.Sensing, o.Operation, o.Options = nil, nil, nil
	case 1:
		o.Piping, o.Electric = nil, nil
	case 2:
		o.Seasons, o.Costs, o.Winters, o.Metered = nil, nil, nil, nil
	case 3:
		o.Reset, o.Limits = nil, nil
	case 4:
		o.Slab, o.Piping, o.Electric, o.Reset, o.Limits = nil, nil, nil, nil, nil
	case 5:
		*o = calc.Outcome{Zone: o.Zone}
	case 6:
		o.Load, o.Slab, o.Piping, o.Electric, o.Seasons, o.Costs, o.Winters, o.Metered = nil, nil, nil, nil, nil, nil, nil, nil // no climate
	}
}

// A site of forty zones with every script and long words keeps its words apart and inside the margins.
func TestTortureSite(t *testing.T) {
	for name, system := range map[string]units.System{"SI": units.SI, "IP": units.IP} {
		t.Run(name, func(t *testing.T) {
			doc, err := Render(tortured(t, system))
			require.NoError(t, err)
			pages, p := boxes(t, doc), paperFor(system)
			require.Len(t, pages, doc.Pages)
			var m measured
			for i, page := range pages {
				page.check(t, i+1, p)
				m.add(page)
			}
			t.Logf("%d pages, %d kB, %d words; most overlap of two boxes %.2f pt; nearest to the page's side %.1f pt, to its top %.1f pt, to its foot %.1f pt",
				doc.Pages, len(doc.Bytes)/1000, m.words, m.overlap, m.side, m.top, m.foot)
			said := strings.Join(strings.Fields(text(t, doc)), "")
			for _, name := range []string{scripts[0], scripts[1], scripts[2], scripts[3], scripts[4], scripts[5], scripts[7], scripts[9]} {
				assert.Contains(t, said, strings.Join(strings.Fields(name), ""), "every letter of the name can be copied out")
			}
			assert.Contains(t, said, "□□□□□□□", "letters without a picture are seen to lack")
			out, err := exec.Command("qpdf", "--check", saved(t, doc, "qpdf")).CombinedOutput()
			require.NoError(t, err, string(out))
		})
	}
}

// measured is what the boxes of all words come to, in points.
type measured struct {
	words           int
	overlap         float64
	side, top, foot float64
}

func (m *measured) add(page boxPage) {
	if m.words == 0 {
		m.side, m.top, m.foot = page.Width, page.Height, page.Height
	}
	m.words += len(page.Words)
	for i, w := range page.Words {
		m.side, m.top, m.foot = min(m.side, w.XMin, page.Width-w.XMax), min(m.top, w.YMin), min(m.foot, page.Height-w.YMax)
		for _, o := range page.Words[i+1:] {
			if wide := math.Min(w.XMax, o.XMax) - math.Max(w.XMin, o.XMin); wide > 0.1 {
				m.overlap = max(m.overlap, math.Min(wide, math.Min(w.YMax, o.YMax)-math.Max(w.YMin, o.YMin)))
			}
		}
	}
}
