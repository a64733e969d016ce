package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Grid is several charts that are drawn as one, row by row, with their axes in line.
type Grid struct {
	plots [][]*plot.Plot
	keys  []Key // drawn right of the rows; none: the charts take the whole width
}

// Draw draws the charts on the whole of a canvas of this size.
func (g Grid) Draw(on vg.Canvas, width, height vg.Length) {
	whole := draw.NewCanvas(sized{on, width, height}, width, height)
	tiles := draw.Tiles{Rows: len(g.plots), Cols: len(g.plots[0]), PadX: gutter, PadY: gutter}
	left := whole
	if len(g.keys) > 0 {
		left.Max.X -= keyWidth
	}
	for i, row := range plot.Align(g.plots, tiles, left) {
		for j, c := range row {
			g.plots[i][j].Draw(c)
		}
		if len(g.keys) > 0 {
			g.keys[i].draw(whole, row[len(row)-1].Max.Y, g.plots[i][0])
		}
	}
}

const (
	gutter   = vg.Length(7)
	keyWidth = vg.Length(112) // of the names right of the rows
	sample   = vg.Length(20)  // length of the piece of a curve before its name
	keyLine  = vg.Length(9.5)
)

// Key names the curves of a row.
type Key []Line

// draw writes the names from a height down.
func (k Key) draw(c draw.Canvas, top vg.Length, p *plot.Plot) {
	left := c.Max.X - keyWidth + gutter
	for i, line := range k {
		y := top - keyLine*(vg.Length(i)+0.6)
		if line.Kind == Filled {
			fill(c, columnFill, left, y-2, left+sample, y+2)
		} else {
			c.StrokeLine2(line.Kind.style(), left, y, left+sample, y)
		}
		style := p.Y.Tick.Label
		style.XAlign, style.YAlign = draw.XLeft, draw.YCenter
		c.FillText(style, vg.Point{X: left + sample + 4, Y: y}, line.Name)
	}
}

// few puts two to four marks at round steps.
func (l Look) few(low, high float64) []plot.Tick { return l.marks(low, high, 4) }
