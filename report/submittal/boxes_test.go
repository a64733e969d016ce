package submittal

import (
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// saved writes a document where a tool can read it.
func saved(t *testing.T, doc Document, tool string) string {
	t.Helper()
	if _, err := exec.LookPath(tool); err != nil {
		t.Skip("needs " + tool)
	}
	name := filepath.Join(t.TempDir(), "site.pdf")
	require.NoError(t, os.WriteFile(name, doc.Bytes, 0o600))
	return name
}

// text returns the document's text in reading order.
func text(t *testing.T, doc Document) string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", saved(t, doc, "pdftotext"), "-").Output()
	require.NoError(t, err)
	return string(out)
}

// word is a word's box in points from the top left.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

func (w word) height() float64 { return w.YMax - w.YMin }

func (w word) overlaps(o word) bool {
	const touch = 0.6 // pt: boxes hold the font's whole height
	return math.Min(w.XMax, o.XMax)-math.Max(w.XMin, o.XMin) > touch && math.Min(w.YMax, o.YMax)-math.Max(w.YMin, o.YMin) > touch
}

type boxPage struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"flow>block>line>word"`
}

func boxes(t *testing.T, doc Document) []boxPage {
	t.Helper()
	out, err := exec.Command("pdftotext", "-bbox-layout", saved(t, doc, "pdftotext"), "-").Output()
	require.NoError(t, err)
	var parsed struct {
		Pages []boxPage `xml:"body>doc>page"`
	}
	dec := xml.NewDecoder(strings.NewReader(string(out)))
	dec.Strict, dec.Entity = false, xml.HTMLEntity
	require.NoError(t, dec.Decode(&parsed))
	return parsed.Pages
}

func TestPagesAreClean(t *testing.T) {
	for name, o := range cases {
		t.Run(name, func(t *testing.T) {
			doc, err := Render(o.make(t))
			require.NoError(t, err)
			pages, p := boxes(t, doc), paperFor(o.system)
			require.Len(t, pages, doc.Pages)
			for i, page := range pages {
				require.NotEmpty(t, page.Words)
				page.check(t, i+1, p)
			}
		})
	}
}

// check holds that no word lies over another or outside the margins, and that no heading ends the page.
func (page boxPage) check(t *testing.T, number int, p paper) {
	t.Helper()
	const headingHeight = 11 // pt of box height: chapters and zones are larger than all other text but the title and the figures below it
	side, top, bottom := p.side/mmPerPoint-1, p.top/mmPerPoint-1, page.Height-p.bottom/mmPerPoint+1
	foot := page.Height - (footerHeight+p.bottom)/mmPerPoint
	last := word{}
	for j, w := range page.Words {
		inside := w.XMin >= side && w.XMax <= page.Width-side && w.YMin >= top && w.YMax <= bottom
		assert.True(t, inside, "page %d: %q leaves the margins: %+v", number, w.Text, w)
		for _, other := range page.Words[j+1:] {
			if w.overlaps(other) {
				assert.Fail(t, "overlap", "page %d: %q lies over %q: %+v %+v", number, w.Text, other.Text, w, other)
			}
		}
		if w.YMax < foot && w.YMax > last.YMax {
			last = w
		}
	}
	assert.Less(t, last.height(), float64(headingHeight), "page %d ends with the heading %q", number, last.Text)
}

func TestOtherToolsAccept(t *testing.T) {
	doc, err := Render(view{}.make(t))
	require.NoError(t, err)
	t.Run("qpdf", func(t *testing.T) {
		out, err := exec.Command("qpdf", "--check", saved(t, doc, "qpdf")).CombinedOutput()
		require.NoError(t, err, string(out))
		assert.NotContains(t, string(out), "WARNING")
	})
	t.Run("fonts are embedded", func(t *testing.T) {
		out, err := exec.Command("pdffonts", saved(t, doc, "pdffonts")).Output()
		require.NoError(t, err)
		lines := strings.Split(strings.TrimSpace(string(out)), "\n")[2:]
		assert.Len(t, lines, 2)
		for _, line := range lines {
			assert.Contains(t, line, "yes", line)
			assert.NotContains(t, line, "Helvetica", line)
		}
	})
	t.Run("title", func(t *testing.T) {
		out, err := exec.Command("pdfinfo", saved(t, doc, "pdfinfo")).Output()
		require.NoError(t, err)
		assert.Contains(t, string(out), "Clínica Ąžuolynė")
		assert.Contains(t, string(out), fmt.Sprintf("Pages:           %d\n", doc.Pages))
		assert.Contains(t, string(out), "2026")
	})
}
