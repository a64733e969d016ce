package chart

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Part is one layer of stacked columns: its name, how light it is, and its share of every column.
type Part struct {
	Name   string
	Shade  Tone
	Values []float64
}

// Tone is how light a column is filled.
type Tone uint8

// The tones, the darkest first.
const (
	Dark Tone = iota
	Middle
	Light
)

var (
	fills      = [...]color.Gray{Dark: {Y: 70}, Middle: {Y: 150}, Light: {Y: 225}}
	columnFill = color.Gray{Y: 150}
)

// Stack is a chart of columns, each of the same parts on top of another, the first part below. The names stand under the columns.
type Stack struct {
	Axis  string
	Names []string
	Parts []Part
}

// Stacks makes charts of columns side by side. A legend stands in the head room of each that has more than one part.
func (l Look) Stacks(list ...Stack) (Grid, error) {
	row := make([]*plot.Plot, len(list))
	for i, s := range list {
		p, err := l.stack(s)
		if err != nil {
			return Grid{}, err
		}
		row[i] = p
	}
	return Grid{plots: [][]*plot.Plot{row}}, nil
}

func (l Look) stack(s Stack) (*plot.Plot, error) {
	p := l.blank()
	p.Y.Label.Text = s.Axis
	total := make([]float64, len(s.Names))
	var below *plotter.BarChart
	for _, part := range s.Parts {
		columns, err := plotter.NewBarChart(plotter.Values(part.Values), 12)
		if err != nil {
			return nil, err
		}
		columns.LineStyle, columns.Color = draw.LineStyle{Color: ink, Width: hairline}, fills[part.Shade]
		if below != nil {
			columns.StackOn(below)
		}
		below = columns
		p.Add(columns)
		if len(s.Parts) > 1 {
			p.Legend.Add(part.Name, columns)
		}
		for i, v := range part.Values {
			total[i] += v
		}
	}
	most := 0.0
	for _, v := range total {
		most = max(most, v)
	}
	p.Y.Min, p.Y.Max = 0, most
	if most == 0 {
		p.Y.Max = 1
	}
	if len(s.Parts) > 1 {
		p.Y.Max *= 1.45 // head room of the legend
		p.Legend.Top, p.Legend.XOffs, p.Legend.YOffs = true, -2, 2
		p.Legend.ThumbnailWidth = 14
	}
	round(&p.Y)
	names := make([]plot.Tick, len(s.Names))
	for i, name := range s.Names {
		names[i] = plot.Tick{Value: float64(i), Label: name}
	}
	p.X.Min, p.X.Max = -0.6, float64(len(names))-0.4
	p.X.Tick.Marker, p.X.Tick.Length = plot.ConstantTicks(names), vg.Length(0)
	return p, nil
}
