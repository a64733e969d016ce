package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/consts/border"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/props"
)

const (
	cellPad  = 1.6 // mm right of each column
	cellRise = 0.75
)

var (
	hairline = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.1, BorderColor: &props.Color{Red: 190, Green: 190, Blue: 190}}
	headLine = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.25, BorderColor: &props.Color{Red: 60, Green: 60, Blue: 60}}
)

// column is a column of a table.
type column struct {
	title   string
	width   int // of grid
	right   bool
	formula bool
}

// cells is a row of a table.
type cells struct {
	texts []string
	bold  bool // a total, or what was chosen
}

// table sets rows under hairlines. Its heading stays with the first two rows and stands again on every page; the last two rows stay together.
func (s sheet) table(cols []column, rows []cells) []core.Row {
	var head []core.Row
	if slices.ContainsFunc(cols, func(c column) bool { return c.title != "" }) {
		titles := make([]string, len(cols))
		for i, c := range cols {
			titles[i] = c.title
		}
		b := s.tableRow(cols, titles, headStyle, headLine)
		b.keep = true
		head = []core.Row{b}
	}
	out := slices.Clone(head)
	for i, r := range rows {
		st := cellStyle
		st.bold = r.bold
		b := s.tableRow(cols, r.texts, st, hairline)
		b.head = head
		b.keep = len(rows) > 1 && (i == 0 || i == len(rows)-2)
		out = append(out, b)
	}
	return append(out, space(2))
}

func (s sheet) tableRow(cols []column, texts []string, st style, line *props.Cell) *block {
	height, out := 0.0, make([]core.Col, len(cols))
	for i, c := range cols {
		cs := st
		cs.right, cs.formula = c.right, c.formula
		p := cs.set(texts[i], s.paper.text()*float64(c.width)/grid-cellPad)
		p.pad = [3]float64{0, cellRise, cellPad}
		if i == len(cols)-1 {
			p.pad[2] = 0
		}
		height = max(height, p.height())
		out[i] = col.New(c.width).Add(p)
	}
	return newBlock(height+cellRise, line, out...)
}

// pairs sets label and value side by side, two pairs to a row.
func (s sheet) pairs(list [][2]string) []core.Row {
	label := headStyle
	label.bold = false
	var out []core.Row
	for i := 0; i < len(list); i += 2 {
		height := 0.0
		var cols []core.Col
		for j := i; j < min(i+2, len(list)); j++ {
			l, v := label.set(list[j][0], s.paper.text()*0.16-cellPad), cellStyle.set(list[j][1], s.paper.text()*0.34-2*cellPad)
			l.pad, v.pad = [3]float64{0, cellRise + 0.25}, [3]float64{0, cellRise}
			height = max(height, l.height(), v.height())
			cols = append(cols, col.New(16).Add(l), col.New(34).Add(v))
		}
		out = append(out, newBlock(height+cellRise, hairline, cols...))
	}
	keepAll(out)
	return append(out, space(2))
}

// keepAll keeps rows on one page.
func keepAll(rows []core.Row) {
	for i := 0; i < len(rows)-1; i++ {
		rows[i].(*block).keep = true
	}
}
