package submittal

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/ingest/columns"
	"thawbook/report"
)

// attached returns a picture of a site with its row.
func attached(t *testing.T, width int, section, zone, caption string) report.Attached {
	p := pictureOf(t, 400, 100, "png")
	p.Width = width // as told; the bytes keep their own
	return report.Attached{Attachment: calc.Attachment{SiteID: "A", ZoneID: zone, File: "walk.png", Caption: caption, Section: section}, Picture: p}
}

// TestAttachmentsEndTheirChapter: under their captions; those of no chapter, or of one that is not there, in a chapter of their own.
func TestAttachmentsEndTheirChapter(t *testing.T) {
	v := view{plain: true}.make(t)
	bare, err := Render(v)
	require.NoError(t, err)
	assert.NotContains(t, text(t, bare), "Attachments")
	v.Attached = []report.Attached{attached(t, 400, "slab", "1", "Core hole"), attached(t, 399, "", "", "The walk in March"), attached(t, 398, "reset", "", "")}
	for i := range v.Site.Outcomes {
		v.Site.Outcomes[i].Reset = nil // so that the chapter is not there
	}
	doc, err := Render(v)
	require.NoError(t, err)
	for range 5 {
		again, err := Render(v)
		require.NoError(t, err)
		require.True(t, bytes.Equal(doc.Bytes, again.Bytes), "the same bytes every time")
	}
	said := text(t, doc)
	slab, own, after := strings.Index(said, "Core hole (zone 1)"), strings.Index(said, "Attachments\n"), strings.Index(said, "Review\n")
	assert.Positive(t, slab)
	assert.Less(t, slab, own)
	for _, caption := range []string{"The walk in March", "walk.png"} { // without a caption, the file
		at := strings.Index(said, caption)
		assert.Less(t, own, at)
		assert.Less(t, at, after)
	}
	assert.Len(t, pictures(t, doc), 3)
}

// TestSectionsThatAPictureMayEnd are sections of the document.
func TestSectionsThatAPictureMayEnd(t *testing.T) {
	assert.Subset(t, Sections(), columns.AttachmentSections())
}
