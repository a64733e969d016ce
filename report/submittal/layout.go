package submittal

import (
	"github.com/johnfercher/go-tree/node"
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/components/row"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/johnfercher/maroto/v2/pkg/props"
	"gonum.org/v1/plot/vg"
)

// The page's grid: widths are given in hundredths of the text's width.
const grid = 100

// The styles of text. Hierarchy comes from size and weight alone.
var (
	titleStyle   = style{size: 19, bold: true, most: 3}
	chapterStyle = style{size: 12.5, bold: true, most: 2}
	zoneStyle    = style{size: 10.5, bold: true, most: 2}
	partStyle    = style{size: 8.5, bold: true, most: 2}
	bodyStyle    = style{size: 8.4, grey: 30}
	listStyle    = style{size: 8.2, grey: 30}
	noteStyle    = style{size: 7.6, grey: 85, formula: true}
	cellStyle    = style{size: 7.8, grey: 20, most: 14}
	denseStyle   = style{size: 7.5, grey: 20, dense: true, most: 14}
	givenStyle   = style{size: 7.5, grey: 20, formula: true, dense: true}
	headStyle    = style{size: 7, grey: 75, bold: true}
	figureStyle  = style{size: 15, bold: true, most: 2}
)

// block is a row of the page with what the page breaks need to know.
type block struct {
	core.Row
	height float64
	keep   bool       // stands on one page with the row after it
	whole  bool       // the same, unless much of the page before would stay empty
	gap    bool       // empty: dropped at the top of a page
	figure bool       // part of a figure: what follows in its chapter may go before it
	begins bool       // the heading of a chapter, which no figure passes
	need   float64    // begins a new page when less room than this is left
	entry  *entry     // of the contents: told its page
	head   []core.Row // set again above this row when it begins a page
}

func newBlock(height float64, cell *props.Cell, cols ...core.Col) *block {
	if cell == nil {
		cell = &props.Cell{} // one cell a row instead of one a column
	}
	return &block{Row: row.New(height).Add(cols...).WithStyle(cell), height: height}
}

// space is an empty row.
func space(height float64) *block {
	b := newBlock(height, nil, col.New(grid))
	b.gap = true
	return b
}

// leastChapter is the part of a page that a chapter wants where it does not begin a new one: a tenth.
const leastChapter = 10

// chapter is a section's heading with its bookmark, where its entry of the contents leads.
func (s sheet) chapter(e *entry) []core.Row {
	rows := s.heading(e.title, chapterStyle, 0, 1.4, s.paper.room()/leastChapter)
	b := rows[0].(*block)
	b.entry = e
	b.GetColumns()[0].Add(target{of: e})
	return append([]core.Row{space(4)}, b)
}

// zoneHeading is the heading of a zone within a section; a site with one zone needs none.
func (s sheet) zoneHeading(text string) []core.Row {
	if len(s.Site.Outcomes) == 1 {
		return nil
	}
	return append([]core.Row{space(4)}, s.heading(text, zoneStyle, 1, 1.2, 40)...)
}

// part is the heading of a table or list.
func (s sheet) part(text string) []core.Row {
	return append([]core.Row{space(2.3)}, s.heading(text, partStyle, -1, 0.8, 20)...)
}

func (s sheet) heading(text string, st style, level int, below, need float64) []core.Row {
	p := st.set(text, s.paper.text())
	parts := []core.Component{p}
	if level >= 0 {
		parts = append(parts, bookmark{text: clean(text), level: level})
	}
	b := newBlock(p.height()+below, nil, col.New(grid).Add(parts...))
	b.keep, b.need, b.begins = true, need, level == 0
	return []core.Row{b}
}

// paragraph is running text, a row for every line, so that no row is higher than a page; its first and last two lines stay together.
func (s sheet) paragraph(text string, st style) []core.Row {
	return s.indented("", text, st, 0)
}

// bullet is a paragraph behind a mark.
func (s sheet) bullet(text string) []core.Row { return s.indented("–", text, listStyle, 4) }

func (s sheet) indented(mark, text string, st style, indent float64) []core.Row {
	whole := st.set(text, s.paper.text()-indent)
	var out []core.Row
	for i, line := range whole.lines {
		parts := []core.Component{&prose{style: st, lines: [][]run{line}, pad: [3]float64{indent}}}
		if i == 0 && mark != "" {
			parts = append(parts, st.set(mark, indent))
		}
		b := newBlock(st.lineHeight(), nil, col.New(grid).Add(parts...))
		b.keep = (i == 0 || i == len(whole.lines)-2) && len(whole.lines) > 1
		out = append(out, b)
	}
	return append(out, space(st.size*0.14))
}

// lead is a paragraph that stays with what follows.
func (s sheet) lead(text string, st style) []core.Row {
	rows := s.paragraph(text, st)
	for _, r := range rows {
		b := r.(*block)
		b.keep = true
	}
	return rows
}

// drawing is a chart of this height over the text's width.
func (s sheet) drawing(c drawn, height float64) []core.Row {
	return []core.Row{newBlock(height, nil, col.New(grid).Add(picture{chart: c, height: height})), space(2)}
}

// bookmark puts an entry into the outline.
type bookmark struct {
	plain
	text  string
	level int
}

func (b bookmark) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	_, top, _, _ := pdf.GetMargins()
	pdf.Bookmark(b.text, b.level, top+cell.Y)
}

// chartGap is kept free right of a chart [mm].
const chartGap = 4

// drawn is what can be drawn into a box: a chart or a cross-section.
type drawn interface {
	Draw(on vg.Canvas, width, height vg.Length)
}

// picture draws a chart over its cell and leaves the document's cursor and pens as they were: the cursor drives the page breaks.
type picture struct {
	plain
	chart  drawn
	height float64 // from the top of the cell [mm]; may reach over rows below
}

func (p picture) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	x, y := pdf.GetXY()
	left, top, _, _ := pdf.GetMargins()
	p.chart.Draw(newCanvas(pdf, left+cell.X, top+cell.Y+p.height), vg.Length((cell.Width-chartGap)/mmPerPoint), vg.Length(p.height/mmPerPoint))
	pdf.SetDashPattern(nil, 0)
	pdf.SetLineWidth(0.2)
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetFillColor(255, 255, 255)
	pdf.SetXY(x, y)
}

// plain is a component without height or settings of its own.
type plain struct{}

func (plain) GetHeight(core.Provider, *entity.Cell) float64 { return 0 }
func (plain) SetConfig(*entity.Config)                      {}
func (plain) GetStructure() *node.Node[core.Structure] {
	return node.New(core.Structure{Type: "drawing"})
}
