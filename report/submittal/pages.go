package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/components/row"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/johnfercher/maroto/v2/pkg/props"

	"thawbook/calc/units"
)

// paper is a page and its margins in mm.
type paper struct{ width, height, side, top, bottom float64 }

const (
	headerHeight = 8.0
	footerHeight = 7.0
)

// paperFor returns A4, or Letter where people work in I-P units.
func paperFor(system units.System) paper {
	if system == units.IP {
		return paper{215.9, 279.4, 18, 9, 8}
	}
	return paper{210, 297, 17, 9, 8}
}

// text returns the width of the text.
func (p paper) text() float64 { return p.width - 2*p.side }

// room returns the height between header and footer, a hair less than maroto reckons, so that pages break where we say and nowhere else.
func (p paper) room() float64 {
	return p.height - p.top - p.bottom - headerHeight - footerHeight - 0.05
}

// frame is the running header and footer. Pages is known once all rows are placed, before anything is drawn.
type frame struct {
	plain
	sheet sheet
	pages *int
	foot  bool
}

// running returns the row that carries the header or the footer.
func (f frame) running(height float64) core.Row {
	return slack{row.New(height - hair).Add(col.New(grid).Add(f)).WithStyle(&props.Cell{}), height}
}

// hair is what a running row is lower than it says [mm]. maroto fills a page to the last bit, and the PDF library then breaks the page before
// the footer whenever the sum of the heights is rounded up: the page loses its footer and the document has a page too many.
const hair = 0.01

// slack is a row that says a height of its own.
type slack struct {
	core.Row
	height float64
}

// GetHeight returns the height that is said.
func (s slack) GetHeight(core.Provider, *entity.Cell) float64 { return s.height }

// Render draws three texts over a hairline (header) or under it (footer).
func (f frame) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	texts, y, rule := f.sheet.header(), top+cell.Y+3.2, top+cell.Y+5.2
	if f.foot {
		texts, y, rule = f.sheet.footer(pdf.PageNo(), *f.pages), top+cell.Y+5.6, top+cell.Y+2.2
	}
	pdf.SetDrawColor(60, 60, 60)
	pdf.SetLineWidth(0.2)
	pdf.Line(left, rule, left+cell.Width, rule)
	st := style{size: 7, grey: 85}
	pdf.SetFont(family, "", st.size)
	pdf.SetTextColor(st.grey, st.grey, st.grey)
	third := cell.Width/3 - 2
	for i, text := range texts {
		text = st.clip(clean(text), third)
		x := left + float64(i)*(cell.Width-st.width(text, 0))/2
		pdf.Text(x, y, text)
	}
}
