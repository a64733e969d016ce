package chart

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Bar is one bar: its name on the left, its length, and what is written at its end. The chosen one is dark.
type Bar struct {
	Name   string
	Value  float64
	Label  string
	Chosen bool
}

// Bars makes a chart of horizontal bars from zero, the first on top.
func (l Look) Bars(axis string, bars []Bar) (Chart, error) {
	p := l.blank()
	p.X.Label.Text = axis
	p.X.Min = 0
	names := make([]plot.Tick, len(bars))
	for i, bar := range bars {
		at := float64(len(bars) - 1 - i)
		names[i] = plot.Tick{Value: at, Label: bar.Name}
		drawn, err := plotter.NewBarChart(plotter.Values{bar.Value}, 7.5)
		if err != nil {
			return Chart{}, err
		}
		drawn.Horizontal, drawn.XMin = true, at
		drawn.LineStyle, drawn.Color = draw.LineStyle{Color: ink, Width: hairline}, empty
		if bar.Chosen {
			drawn.Color = color.Gray{Y: 70}
		}
		label, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: bar.Value, Y: at}}, Labels: []string{bar.Label}})
		if err != nil {
			return Chart{}, err
		}
		label.TextStyle[0] = text.Style{Color: ink, Font: font.Font{Size: labelSize}, Handler: p.TextHandler, YAlign: -0.45}
		label.Offset = vg.Point{X: 3}
		p.Add(drawn, label)
	}
	round(&p.X)
	p.Y.Min, p.Y.Max = -0.6, float64(len(bars))-0.4
	p.Y.LineStyle.Width, p.Y.Tick.Length = 0, 0
	p.Y.Tick.Marker = plot.ConstantTicks(names)
	return Chart{p}, nil
}
