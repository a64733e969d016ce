package chart

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Line is one curve with the name that stands in the legend. Its kind sets the stroke, so that curves are told apart without colour.
type Line struct {
	Name string
	Kind Stroke
	X, Y []float64 // of one length
}

// Stroke is how a curve is drawn.
type Stroke uint8

// The strokes.
const (
	Solid Stroke = iota
	Dashed
	Grey
	GreyDashed
	Thin   // a level, not a curve
	Filled // columns from zero
)

func (s Stroke) style() draw.LineStyle {
	out := draw.LineStyle{Color: color.Gray{Y: 20}, Width: 1.3}
	if s == Grey || s == GreyDashed {
		out = draw.LineStyle{Color: color.Gray{Y: 135}, Width: 1.6}
	}
	if s == Thin {
		out = draw.LineStyle{Color: color.Gray{Y: 90}, Width: 0.5}
	}
	if s == Dashed || s == GreyDashed {
		out.Dashes = []vg.Length{4, 2.5}
	}
	return out
}

// Shade is a part of a chart that is greyed: all below a value of the x axis. Its words stand in the legend; without words there is none.
type Shade struct {
	Below float64
	Words string
}

// Plot greys the part.
func (s Shade) Plot(c draw.Canvas, p *plot.Plot) {
	fill(c, dim, c.Min.X, c.Min.Y, s.right(c, p), c.Max.Y)
}

// right returns where the grey ends.
func (s Shade) right(c draw.Canvas, p *plot.Plot) vg.Length {
	if s.Words == "" {
		return c.Min.X
	}
	toX, _ := p.Transforms(&c)
	return max(c.Min.X, min(toX(s.Below), c.Max.X))
}

// fill fills a rectangle; one without width is nothing.
func fill(c draw.Canvas, with color.Color, left, low, right, high vg.Length) {
	if right > left {
		c.FillPolygon(with, []vg.Point{{X: left, Y: low}, {X: right, Y: low}, {X: right, Y: high}, {X: left, Y: high}})
	}
}

// Thumbnail draws the grey into the legend.
func (s Shade) Thumbnail(c *draw.Canvas) {
	fill(*c, dim, c.Min.X, c.Min.Y, c.Max.X, c.Max.Y)
}

// Lines makes a chart of curves over one axis. The legend stands at the top right.
func (l Look) Lines(x, y string, lines []Line, shade Shade) (Chart, error) {
	p := l.blank()
	p.X.Label.Text, p.Y.Label.Text = x, y
	grid := plotter.NewGrid()
	grid.Vertical, grid.Horizontal = draw.LineStyle{Color: rule, Width: hairline}, draw.LineStyle{Color: rule, Width: hairline}
	names := make([]string, len(lines), len(lines)+1)
	for i, line := range lines {
		names[i] = line.Name
	}
	if shade.Words != "" {
		names = append(names, shade.Words)
		p.Add(shade)
	}
	p.Add(grid, backdrop{names, shade})
	for _, line := range lines {
		points := make(plotter.XYs, len(line.X))
		for i := range points {
			points[i] = plotter.XY{X: line.X[i], Y: line.Y[i]}
		}
		curve, err := plotter.NewLine(points)
		if err != nil {
			return Chart{}, err
		}
		curve.LineStyle = line.Kind.style()
		p.Add(curve)
		p.Legend.Add(line.Name, curve)
	}
	if shade.Words != "" {
		p.Legend.Add(shade.Words, shade)
	}
	round(&p.X)
	round(&p.Y)
	p.Legend.Top = true
	p.Legend.XOffs, p.Legend.YOffs = -4, -4
	return Chart{p}, nil
}

// backdrop keeps the grid away from behind the legend.
type backdrop struct {
	names []string
	shade Shade
}

// Plot covers the legend's place in the colour of the ground.
func (b backdrop) Plot(c draw.Canvas, p *plot.Plot) {
	wide := vg.Length(0)
	for _, name := range b.names {
		wide = max(wide, p.Legend.TextStyle.Width(name))
	}
	left, right := c.Max.X-wide-p.Legend.ThumbnailWidth-12, c.Max.X-0.5
	high := vg.Length(len(b.names))*(p.Legend.TextStyle.Rectangle("M").Size().Y+p.Legend.Padding) + 6
	fill(c, color.White, left, c.Max.Y-high, right, c.Max.Y-0.5)
	fill(c, dim, left, c.Max.Y-high, min(right, b.shade.right(c, p)), c.Max.Y-0.5)
}
