package submittal

import (
	"bytes"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/phpdave11/gofpdf"

	"thawbook/report"
)

// leastDPI is how coarse a small logo may get before it is printed smaller than its box.
const leastDPI = 96.0

// emblem sets the logo over the title of the first page.
func (s sheet) emblem() []core.Row {
	if len(s.Logo.Bytes) == 0 {
		return nil
	}
	e := fitted(s.Logo)
	b := newBlock(e.height+3, nil, col.New(grid).Add(e))
	b.keep = true
	return []core.Row{b}
}

// fitted scales a logo to its box.
func fitted(l report.Logo) emblem {
	width, height := float64(l.Width), float64(l.Height)
	share := min(report.LogoWidthMM/width, report.LogoHeightMM/height, mmPerInch/leastDPI)
	return emblem{logo: l, width: width * share, height: height * share}
}

const mmPerInch = 25.4

// emblem draws the logo at the left margin. It is the only picture of pixels in the document: two of the same width would change places from one
// writing to the next, since the PDF library sorts pictures by it.
type emblem struct {
	plain
	logo          report.Logo
	width, height float64 // mm
}

func (e emblem) Render(provider core.Provider, cell *entity.Cell) {
	const name = "logo"
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	how := gofpdf.ImageOptions{ImageType: e.logo.Kind}
	pdf.RegisterImageOptionsReader(name, how, bytes.NewReader(e.logo.Bytes))
	pdf.ImageOptions(name, left+cell.X, top+cell.Y, e.width, e.height, false, how, 0, "")
}
