package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/consts/border"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/props"
)

const cellPad = 1.6 // mm right of each column

var (
	hairline = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.1, BorderColor: &props.Color{Red: 190, Green: 190, Blue: 190}}
	headLine = &props.Cell{BorderType: border.Bottom, BorderThickness: 0.25, BorderColor: &props.Color{Red: 60, Green: 60, Blue: 60}}
)

// setting is how a table is set.
type setting struct {
	head, cell style
	rise       float64 // over and under the text of a row [mm]
	gap        float64 // between a right-aligned column and a left-aligned one [mm]
	line       *props.Cell
}

var (
	// results are the tables that a reader looks at.
	results = setting{headStyle, cellStyle, 0.42, 4.5, hairline}
	// reasons are the tables that a reviewer goes through line by line.
	reasons = setting{headStyle, denseStyle, 0.18, 2.6, hairline}
)

// column is a column of a table.
type column struct {
	title   string
	empty   bool // left blank, without rules: a drawing stands there
	zones   bool // tells zones: left out where the site has one zone only
	width   int  // of grid
	right   bool
	formula bool
	aside   bool // the row's aside runs on behind the text
	bar     bool // the row's share is drawn as a bar
}

// cells is a row of a table.
type cells struct {
	texts []string
	aside string  // in grey, behind the text of its column
	bars  []bar   // one for each column of bars
	bold  bool    // a total, or what was chosen
	pale  bool    // stands, but is not reached
	group bool    // a heading within the table: stays with the row below
	least float64 // height for handwriting [mm]
}

// table sets rows of results under hairlines.
func (s sheet) table(cols []column, rows []cells) []core.Row { return s.tableAs(results, cols, rows) }

// dense sets rows closer, for long tables.
func (s sheet) dense(cols []column, rows []cells) []core.Row { return s.tableAs(reasons, cols, rows) }

// tableAs sets rows under hairlines. Their heading stays with the first two rows and stands again on every page; the last two rows stay together.
func (s sheet) tableAs(as setting, cols []column, rows []cells) []core.Row {
	cols, rows = s.withoutZones(cols, rows)
	var head []core.Row
	if slices.ContainsFunc(cols, func(c column) bool { return c.title != "" }) {
		titles := make([]string, len(cols))
		for i, c := range cols {
			titles[i] = c.title
		}
		b := s.tableRow(as, cols, cells{texts: titles}, as.head, headLine)
		b.keep = true
		head = []core.Row{b}
	}
	out := slices.Clone(head)
	for i, r := range rows {
		st := as.cell
		st.bold = r.bold || r.group
		if r.pale {
			st.grey = 130
		}
		b := s.tableRow(as, cols, r, st, as.line)
		b.head = head
		b.keep = r.group || len(rows) > 1 && (i == 0 || i == len(rows)-2)
		out = append(out, b)
	}
	return append(out, space(1.6))
}

// withoutZones leaves out the column that tells zones where there is one zone only; the widest column takes its room.
func (s sheet) withoutZones(cols []column, rows []cells) ([]column, []cells) {
	at := slices.IndexFunc(cols, func(c column) bool { return c.zones })
	if at < 0 || len(s.Site.Outcomes) > 1 {
		return cols, rows
	}
	room := cols[at].width
	cols = slices.Delete(slices.Clone(cols), at, at+1)
	widest := 0
	for i, c := range cols {
		if c.width > cols[widest].width {
			widest = i
		}
	}
	cols[widest].width += room
	rows = slices.Clone(rows)
	for i := range rows {
		rows[i].texts = slices.Delete(slices.Clone(rows[i].texts), at, at+1)
	}
	return cols, rows
}

func (s sheet) tableRow(as setting, cols []column, r cells, st style, line *props.Cell) *block {
	height, out, bars := r.least, make([]core.Col, len(cols)), r.bars
	inset := cols[0].empty
	for i, c := range cols {
		cs := st
		cs.right, cs.formula = c.right, c.formula
		pad := cellPad
		switch {
		case i == len(cols)-1:
			pad = 0
		case c.right && !cols[i+1].right:
			pad = as.gap
		}
		aside := ""
		if c.aside {
			aside = r.aside
		}
		p := cs.setWith(r.texts[i], aside, s.paper.text()*float64(c.width)/grid-pad)
		p.pad = [3]float64{0, as.rise, pad}
		height = max(height, p.height())
		out[i] = col.New(c.width).Add(p)
		if c.bar && len(bars) > 0 {
			out[i].Add(bars[0])
			bars = bars[1:]
		}
		if inset && !c.empty {
			out[i].WithStyle(line)
		}
	}
	b := newBlock(height+as.rise, line, out...)
	if inset {
		b.Row.WithStyle(nil) // each column draws its own rule
	}
	return b
}

// beside sets a drawing into the empty first column of a table, as high as the table.
func beside(rows []core.Row, draw func(height float64) core.Component) []core.Row {
	height := 0.0
	for _, r := range rows[:len(rows)-1] { // the last one is a gap
		height += r.GetHeight(nil, nil)
	}
	bind(rows)
	rows[0].GetColumns()[0].Add(draw(height))
	return rows
}

// pairs sets label and value side by side, two pairs to a row. A pair without a value is left out.
func (s sheet) pairs(list [][2]string) []core.Row { return s.pairsOf(17, list) }

// measures are pairs with long labels and short values.
func (s sheet) measures(list [][2]string) []core.Row { return s.pairsOf(26, list) }

func (s sheet) pairsOf(labelWidth int, list [][2]string) []core.Row {
	valueWidth := grid/2 - labelWidth
	share := s.paper.text() / grid
	list = slices.DeleteFunc(list, func(p [2]string) bool { return p[1] == "" })
	label := headStyle
	label.bold = false
	var out []core.Row
	for i := 0; i < len(list); i += 2 {
		height := 0.0
		var cols []core.Col
		for j := i; j < min(i+2, len(list)); j++ {
			l, v := label.set(list[j][0], share*float64(labelWidth)-cellPad), cellStyle.set(list[j][1], share*float64(valueWidth)-2*cellPad)
			l.pad, v.pad = [3]float64{0, results.rise + 0.2}, [3]float64{0, results.rise}
			height = max(height, l.height(), v.height())
			cols = append(cols, col.New(labelWidth).Add(l), col.New(valueWidth).Add(v))
		}
		out = append(out, newBlock(height+results.rise, hairline, cols...))
	}
	whole(out)
	return append(out, space(1.6))
}

// bind keeps rows on one page.
func bind(rows []core.Row) {
	for i := 0; i < len(rows)-1; i++ {
		rows[i].(*block).keep = true
	}
}

// whole keeps rows on one page unless that would leave much of the page before empty.
func whole(rows []core.Row) {
	for i := 0; i < len(rows)-1; i++ {
		rows[i].(*block).whole = true
	}
}
