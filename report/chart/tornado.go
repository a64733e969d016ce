package chart

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Swing is what a figure becomes when one thing is moved and the others stay: its value at either end, and what is written there.
type Swing struct {
	Name              string
	Low, High         float64
	LowText, HighText string
}

// Tornado makes a chart of swings about the figure as planned, the first on top: of each the low end light above, the high end dark below, so that
// both are seen where they lie on one side. A thin line marks zero where the figure comes near it.
func (l Look) Tornado(axis string, planned float64, swings []Swing) Chart {
	p := l.blank()
	p.X.Label.Text = axis
	p.X.Min, p.X.Max = reach(planned, swings)
	names := make([]plot.Tick, len(swings))
	for i, s := range swings {
		names[i] = plot.Tick{Value: float64(len(swings) - 1 - i), Label: s.Name}
	}
	p.Y.Min, p.Y.Max = -0.6, float64(len(swings))-0.4
	p.Y.LineStyle.Width, p.Y.Tick.Length = 0, 0
	p.Y.Tick.Marker = plot.ConstantTicks(names)
	p.X.Tick.Marker = plot.TickerFunc(func(low, high float64) []plot.Tick { return l.marks(low, high, mostMarks) })
	p.Add(tornado{planned, swings})
	return Chart{p}
}

// roomForText is the share of the span that stays free on either side for what is written at the ends.
const roomForText = 0.3

// mostMarks is how many figures the axis bears at most, and one more.
const mostMarks = 6

// reach returns the ends of the axis: all figures, and zero where the widest swing would reach it.
func reach(planned float64, swings []Swing) (low, high float64) {
	low, high = planned, planned
	for _, s := range swings {
		low, high = min(low, s.Low, s.High), max(high, s.Low, s.High)
	}
	span := high - low
	if span == 0 {
		span = max(1, math.Abs(planned))
	}
	if planned > 0 && low-span < 0 {
		low = min(low, 0)
	} else if planned < 0 && high+span > 0 {
		high = max(high, 0)
	}
	room := roomForText * max(high-low, span)
	return low - room, high + room
}

type tornado struct {
	planned float64
	swings  []Swing
}

// Plot draws the bars, then the lines of zero and of the plan over them.
func (t tornado) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	text := p.Y.Tick.Label
	for i, s := range t.swings {
		row := float64(len(t.swings) - 1 - i)
		for _, end := range []struct {
			value, from, to float64
			grey            uint8
			text            string
		}{{s.Low, row, row + 0.36, 225, s.LowText}, {s.High, row - 0.36, row, 70, s.HighText}} {
			left, right := toX(min(end.value, t.planned)), toX(max(end.value, t.planned))
			low, high := toY(end.from), toY(end.to)
			fill(c, color.Gray{Y: end.grey}, left, low, right, high)
			c.StrokeLines(draw.LineStyle{Color: ink, Width: hairline}, []vg.Point{{X: left, Y: low}, {X: right, Y: low}, {X: right, Y: high}, {X: left, Y: high}, {X: left, Y: low}})
			at := vg.Point{X: right + 3, Y: (low + high) / 2}
			text.XAlign, text.YAlign = draw.XLeft, draw.YCenter
			if end.value < t.planned {
				at.X, text.XAlign = left-3, draw.XRight
			}
			c.FillText(text, at, end.text)
		}
	}
	for _, line := range []struct {
		at   float64
		kind Stroke
	}{{0, Thin}, {t.planned, Solid}} {
		if x := toX(line.at); x >= c.Min.X && x <= c.Max.X {
			c.StrokeLine2(line.kind.style(), x, c.Min.Y, x, c.Max.Y)
		}
	}
}
