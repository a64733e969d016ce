package submittal

import (
	"fmt"
	"strconv"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
)

// entry is a chapter in the contents. Its page is known once all rows are placed, its link once the contents are drawn, which is before any chapter is.
type entry struct {
	plain
	title string
	page  int
	link  int
}

// entries are the chapters of the document, in order.
func (s sheet) entries() []*entry {
	var list []*entry
	for _, section := range sections()[1:] {
		if section.Applies(s.View) {
			list = append(list, &entry{title: fmt.Sprintf("%d  %s", len(list)+1, s.say("section-"+section.Name))})
		}
	}
	return list
}

const contentsColumns = 3

var contentsStyle = style{size: 7.6, grey: 30}

// contents lists the chapters with their pages in columns, each a link.
func (s sheet) contents(list []*entry) []core.Row {
	lines := (len(list) + contentsColumns - 1) / contentsColumns
	out := s.part(s.say("contents"))
	for i := range lines {
		cols := make([]core.Col, contentsColumns)
		for k := range cols {
			cols[k] = col.New(grid / contentsColumns)
			if at := k*lines + i; at < len(list) {
				cols[k].Add(list[at])
			}
		}
		out = append(out, newBlock(contentsStyle.lineHeight()+0.3, nil, cols...))
	}
	bind(out)
	return out
}

// Render draws title and page, and makes the whole a link.
func (e *entry) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	st, x, y := contentsStyle, left+cell.X, top+cell.Y
	width := cell.Width - chartGap
	page := strconv.Itoa(e.page)
	wide := st.width(page, 0)
	pdf.SetFont(family, "", st.size)
	pdf.SetTextColor(st.grey, st.grey, st.grey)
	base := y + ascent*st.size*mmPerPoint
	title := st.clip(clean(e.title), width-wide-2)
	pdf.Text(x, base, title)
	pdf.Text(x+width-wide, base, page)
	pdf.SetDrawColor(190, 190, 190)
	pdf.SetLineWidth(0.1)
	pdf.Line(x+st.width(title, 0)+1, base, x+width-wide-1, base)
	e.link = pdf.AddLink()
	pdf.Link(x, y, width, cell.Height, e.link)
}

// target is where an entry of the contents leads.
type target struct {
	plain
	of *entry
}

// Render sets the link's end.
func (t target) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	_, top, _, _ := pdf.GetMargins()
	pdf.SetLink(t.of.link, top+cell.Y, -1)
}
