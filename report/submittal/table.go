package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/consts/border"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/props"

	"thawbook/report/chart"
)

const (
	cellPad  = 1.6 // mm right of each column
	widePad  = 4.5 // mm between a right-aligned column and a left-aligned one
	cellRise = 0.6
)

var (
	hairline = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.1, BorderColor: &props.Color{Red: 190, Green: 190, Blue: 190}}
	headLine = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.25, BorderColor: &props.Color{Red: 60, Green: 60, Blue: 60}}
)

// column is a column of a table.
type column struct {
	title   string
	empty   bool // left blank, without rules: a drawing stands there
	width   int  // of grid
	right   bool
	formula bool
}

// cells is a row of a table.
type cells struct {
	texts []string
	bold  bool    // a total, or what was chosen
	least float64 // height for handwriting [mm]
}

// table sets rows under hairlines. Its heading stays with the first two rows and stands again on every page; the last two rows stay together.
func (s sheet) table(cols []column, rows []cells) []core.Row {
	var head []core.Row
	if slices.ContainsFunc(cols, func(c column) bool { return c.title != "" }) {
		titles := make([]string, len(cols))
		for i, c := range cols {
			titles[i] = c.title
		}
		b := s.tableRow(cols, titles, headStyle, headLine, 0)
		b.keep = true
		head = []core.Row{b}
	}
	out := slices.Clone(head)
	for i, r := range rows {
		st := cellStyle
		st.bold = r.bold
		b := s.tableRow(cols, r.texts, st, hairline, r.least)
		b.head = head
		b.keep = len(rows) > 1 && (i == 0 || i == len(rows)-2)
		out = append(out, b)
	}
	return append(out, space(2))
}

func (s sheet) tableRow(cols []column, texts []string, st style, line *props.Cell, least float64) *block {
	height, out := least, make([]core.Col, len(cols))
	inset := cols[0].empty
	for i, c := range cols {
		cs := st
		cs.right, cs.formula = c.right, c.formula
		pad := cellPad
		switch {
		case i == len(cols)-1:
			pad = 0
		case c.right && !cols[i+1].right:
			pad = widePad
		}
		p := cs.set(texts[i], s.paper.text()*float64(c.width)/grid-pad)
		p.pad = [3]float64{0, cellRise, pad}
		height = max(height, p.height())
		out[i] = col.New(c.width).Add(p)
		if inset && !c.empty {
			out[i].WithStyle(line)
		}
	}
	b := newBlock(height+cellRise, line, out...)
	if inset {
		b.Row.WithStyle(nil) // each column draws its own rule
	}
	return b
}

// beside sets a drawing into the empty first column of a table, as high as the table.
func (s sheet) beside(c chart.Chart, rows []core.Row) []core.Row {
	height := 0.0
	for _, r := range rows {
		height += r.GetHeight(nil, nil)
	}
	keepAll(rows)
	rows[0].GetColumns()[0].Add(picture{chart: c, height: height - 2})
	return rows
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
			l, v := label.set(list[j][0], s.paper.text()*0.17-cellPad), cellStyle.set(list[j][1], s.paper.text()*0.33-2*cellPad)
			l.pad, v.pad = [3]float64{0, cellRise + 0.25}, [3]float64{0, cellRise}
			height = max(height, l.height(), v.height())
			cols = append(cols, col.New(17).Add(l), col.New(33).Add(v))
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
