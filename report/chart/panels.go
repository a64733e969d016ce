package chart

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// Panel is a chart of what happened hour by hour: lines at the end of each hour, columns over each hour.
type Panel struct {
	Axis  string
	Zero  bool // the axis begins at zero
	Lines []Line
	Span  [2]float64 // least span of the axis: low and high; equal for none
}

// Mark is a name under the time axis, at the beginning of an hour that counts from zero.
type Mark struct {
	Hour int
	Name string
}

// Hourly makes a chart of panels over one axis of hours, the names of the curves right of each.
func (l Look) Hourly(axis string, hours int, marks []Mark, panels []Panel) (Grid, error) {
	var g Grid
	for i, panel := range panels {
		p, err := l.panel(panel, hours)
		if err != nil {
			return Grid{}, err
		}
		last := i == len(panels)-1
		names := make([]plot.Tick, len(marks))
		for k, m := range marks {
			names[k].Value = float64(m.Hour)
			names[k].Label = " " // a blank one is a minor tick
			if last {
				names[k].Label = m.Name
			}
		}
		p.X.Tick.Marker = plot.ConstantTicks(names)
		if last {
			p.X.Label.Text = axis
		}
		g.plots, g.keys = append(g.plots, []*plot.Plot{p}), append(g.keys, Key(panel.Lines))
	}
	return g, nil
}

func (l Look) panel(panel Panel, hours int) (*plot.Plot, error) {
	p := l.blank()
	p.Y.Label.Text = panel.Axis
	p.Y.Tick.Marker = plot.TickerFunc(l.few)
	grid := plotter.NewGrid()
	grid.Vertical, grid.Horizontal = draw.LineStyle{Color: rule, Width: hairline}, draw.LineStyle{Color: rule, Width: hairline}
	p.Add(grid)
	for _, line := range panel.Lines {
		points := make(plotter.XYs, len(line.X))
		for i := range points {
			points[i] = plotter.XY{X: line.X[i], Y: line.Y[i]}
		}
		if line.Kind == Filled {
			drawn, err := plotter.NewPolygon(outlines(points))
			if err != nil {
				return nil, err
			}
			drawn.Color, drawn.LineStyle.Width = columnFill, 0
			p.Add(drawn)
			continue
		}
		curve, err := plotter.NewLine(points)
		if err != nil {
			return nil, err
		}
		curve.LineStyle = line.Kind.style()
		p.Add(curve)
	}
	if panel.Span[0] < panel.Span[1] {
		p.Y.Min, p.Y.Max = min(p.Y.Min, panel.Span[0]), max(p.Y.Max, panel.Span[1])
	}
	p.X.Min, p.X.Max = 0, float64(hours)
	step := Step(p.Y.Max-p.Y.Min, 4)
	p.Y.Min, p.Y.Max = step*math.Floor(p.Y.Min/step+1e-9), step*math.Ceil(p.Y.Max/step-1e-9)
	if panel.Zero {
		p.Y.Min = 0
	}
	return p, nil
}

// outlines are the columns of hours as polygon: each from the end of the hour before to the end of its own.
func outlines(ends plotter.XYs) plotter.XYs {
	if len(ends) == 0 {
		return nil
	}
	out := plotter.XYs{{X: ends[0].X - 1}}
	for _, end := range ends {
		out = append(out, plotter.XY{X: end.X - 1, Y: end.Y}, plotter.XY{X: end.X, Y: end.Y})
	}
	return append(out, plotter.XY{X: ends[len(ends)-1].X})
}
