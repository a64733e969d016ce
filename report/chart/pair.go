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

// BarPair makes two charts of the same horizontal bars side by side, named once: first[i] and second[i] are of one name.
func (l Look) BarPair(firstAxis string, first []Bar, secondAxis string, second []Bar) (Grid, error) {
	nameless := make([]Bar, len(second))
	for i, bar := range second {
		bar.Name = ""
		nameless[i] = bar
	}
	row := make([]*plot.Plot, 2)
	for i, bars := range [][]Bar{first, nameless} {
		c, err := l.Bars([]string{firstAxis, secondAxis}[i], bars)
		if err != nil {
			return Grid{}, err
		}
		p := c.plot
		p.X.Tick.Marker = plot.TickerFunc(l.few)
		p.X.Max = ample(bars)
		row[i] = p
	}
	return Grid{plots: [][]*plot.Plot{row}}, nil
}

// ample returns the end of an axis that leaves room for the label of the longest bar.
func ample(bars []Bar) float64 {
	most := 0.0
	for _, b := range bars {
		most = max(most, b.Value)
	}
	if most == 0 {
		return 1
	}
	return most * 1.25
}

// few puts two to four marks at round steps.
func (l Look) few(low, high float64) []plot.Tick { return l.marks(low, high, 4) }
