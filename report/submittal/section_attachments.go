package submittal

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/phpdave11/gofpdf"

	"thawbook/calc/finding"
	"thawbook/report"
)

func hasAttachments(v report.View) bool { return len(on(v).attachedTo("")) > 0 }

// attachmentRows are the pictures that end no other chapter.
func attachmentRows(v report.View) []core.Row {
	s := on(v)
	return s.pictures(s.attachedTo(""))
}

// attachedTo returns the pictures of a section. Those of a section that this document lacks stand in their own, as do those of none.
func (s sheet) attachedTo(section string) []report.Attached {
	here := func(name string) bool {
		return slices.ContainsFunc(sections(), func(c Section) bool { return c.Name == name && c.Applies(s.View) })
	}
	var out []report.Attached
	for _, a := range s.Attached {
		own := a.Section == "" || !here(a.Section)
		if own == (section == "") && (own || a.Section == section) {
			out = append(out, a)
		}
	}
	return out
}

// pictures sets pictures, each on one page with its caption.
func (s sheet) pictures(list []report.Attached) []core.Row {
	var rows []core.Row
	for _, a := range list {
		p := fitted(a.Picture, report.AttachmentWidthMM, report.AttachmentHeightMM)
		p.name = fmt.Sprintf("attachment %d", a.Width) // unlike that of any other picture, as its width is
		b := newBlock(p.height+1, nil, col.New(grid).Add(p))
		b.keep = true
		rows = append(append(rows, space(2), b), s.paragraph(s.caption(a), noteStyle)...)
	}
	return rows
}

// caption returns what stands under a picture; without words of the user's, its file.
func (s sheet) caption(a report.Attached) string {
	text := or(a.Caption)
	if a.Caption == "" {
		text = a.File
	}
	if a.ZoneID == "" {
		return text
	}
	return s.say("picture-of", finding.Words("caption", text), finding.Words("zone", a.ZoneID))
}

// leastDPI is how coarse a small picture may get before it is printed smaller than its box.
const leastDPI = 96.0

const mmPerInch = 25.4

// pixels draws a picture of pixels at the left margin. The PDF library orders pictures by their width: no two of a document may have the same.
type pixels struct {
	plain
	name          string
	picture       report.Picture
	width, height float64 // mm
}

// fitted scales a picture to a box [mm].
func fitted(p report.Picture, most, highest float64) pixels {
	width, height := float64(p.Width), float64(p.Height)
	share := min(most/width, highest/height, mmPerInch/leastDPI)
	return pixels{picture: p, width: width * share, height: height * share}
}

func (e pixels) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	how := gofpdf.ImageOptions{ImageType: e.picture.Kind}
	pdf.RegisterImageOptionsReader(e.name, how, bytes.NewReader(e.picture.Bytes))
	pdf.ImageOptions(e.name, left+cell.X, top+cell.Y, e.width, e.height, false, how, 0, "")
}
