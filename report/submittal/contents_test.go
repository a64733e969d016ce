package submittal

import (
	"encoding/json"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
)

// outline is an entry of a document's outline as qpdf reads it.
type outline struct {
	Title string    `json:"title"`
	Page  int       `json:"destpageposfrom1"`
	Kids  []outline `json:"kids"`
}

func outlineOf(t *testing.T, doc Document) []outline {
	t.Helper()
	out, err := exec.Command("qpdf", "--json=1", "--json-key=outlines", saved(t, doc, "qpdf")).Output()
	require.NoError(t, err)
	var parsed struct {
		Outlines []outline `json:"outlines"`
	}
	require.NoError(t, json.Unmarshal(out, &parsed))
	return parsed.Outlines
}

// Contents, outline and pages agree: each chapter begins on the page that both name.
func TestContentsNameTheirPages(t *testing.T) {
	v := situated(t, 0)
	doc, err := Render(v)
	require.NoError(t, err)
	pages := strings.Split(text(t, doc), "\f")
	list := on(v).entries()
	marks := outlineOf(t, doc)
	require.Len(t, marks, len(list)+1, "the site, then every chapter")
	assert.Equal(t, "Clinic North", marks[0].Title)
	said := strings.Join(strings.Fields(pages[0]+pages[1]), " ")
	for i, e := range list {
		number, name, _ := strings.Cut(e.title, "  ")
		heading := regexp.MustCompile(`(?m)^ *` + number + ` +` + regexp.QuoteMeta(name) + `$`)
		assert.Equal(t, e.title, marks[i+1].Title)
		page := marks[i+1].Page
		assert.Regexp(t, heading, pages[page-1], e.title)
		assert.Contains(t, said, number+" "+name+" "+strconv.Itoa(page))
	}
	slab := marks[3]
	require.Contains(t, slab.Title, "Slab")
	var kids []string
	for _, k := range slab.Kids {
		kids = append(kids, k.Title)
	}
	assert.Equal(t, []string{"Zone 1 Entrance walk", "Zone 2 Drive", "Calculation: Zone 1", "Calculation: Zone 2", "Heat source: gas"}, kids)
}

// Every entry of the contents is a link to a page of the document.
func TestContentsAreLinks(t *testing.T) {
	v := view{plain: true}.make(t)
	doc, err := Render(v)
	require.NoError(t, err)
	links := regexp.MustCompile(`/Subtype /Link [^>]*/Dest \[(\d+) 0 R`).FindAllSubmatch(doc.Bytes, -1)
	assert.Len(t, links, len(on(v).entries()))
}

func TestRevisionsOfTheSiteStandInTheReview(t *testing.T) {
	v := view{plain: true}.make(t)
	v.Site.Site.Revisions = []calc.Revision{
		{Name: "C1", Date: "2026-05-06", Description: "For tender", Prepared: "First Hand", Checked: "Second Hand"},
		{Name: "C2", Description: "Wider drive", Prepared: "Third Hand"},
	}
	for i := range v.Site.Outcomes {
		v.Site.Outcomes[i].Zone.Ref.IssuedFor = "construction"
	}
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Contains(t, said, "C1 2026-05-06 For tender First Hand Second Hand C2 2026-03-04 construction Wider drive Third Hand", "a blank date is that of Settings")
	assert.Contains(t, said, "Clinic North Revision C2", "the last row is the site's revision")
	assert.NotContains(t, said, "Revision B", "that of Settings")
}

// The review takes along what stands before it rather than begin a last page alone, wherever the page before it ends.
func TestReviewStandsNotAlone(t *testing.T) {
	begins := regexp.MustCompile(`^ *\d+ +Review$`)
	for lines := range 16 {
		v := view{plain: true}.make(t)
		v.Site.Outcomes = v.Site.Outcomes[:1]
		v.Settings.Exclusions = strings.Repeat("Structure, drains, waterproofing and the power supply are by others, and so is the clearing of snow. ", 6*(lines+1))
		doc, err := Render(v)
		require.NoError(t, err)
		pages := strings.Split(strings.TrimSuffix(text(t, doc), "\f"), "\f")
		last := slices.DeleteFunc(strings.Split(pages[len(pages)-1], "\n"), func(line string) bool { return strings.TrimSpace(line) == "" })
		require.Greater(t, len(last), 3)
		assert.False(t, begins.MatchString(last[1]), "%d lines more", lines)
		assert.True(t, slices.ContainsFunc(last, begins.MatchString), "signatures stay with their chapter")
	}
}
