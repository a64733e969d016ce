// Package chart makes the charts of documents with gonum/plot: lines and bars that stay readable in greyscale and for colour-blind readers.
// A chart is drawn on any vg.Canvas. The package knows nothing of PDF or of engineering: values come in the reader's units.
package chart

import (
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Look is how charts are written: the document's font and the reader's way with numbers.
type Look struct {
	Fonts  *font.Cache // the face of its default typeface without variant, style or weight is used throughout
	Number func(v float64, decimals int) string
}

// Chart is a chart ready to be drawn in a box of any size.
type Chart struct{ plot *plot.Plot }

// Draw draws the chart on the whole of a canvas of this size.
func (c Chart) Draw(on vg.Canvas, width, height vg.Length) {
	c.plot.Draw(draw.NewCanvas(sized{on, width, height}, width, height))
}

// sized gives a canvas a size.
type sized struct {
	vg.Canvas
	width, height vg.Length
}

// Size returns width and height.
func (s sized) Size() (x, y vg.Length) { return s.width, s.height }

const (
	labelSize = vg.Length(7)
	hairline  = vg.Length(0.3)
)

var (
	ink  = color.Gray{Y: 40}
	rule = color.Gray{Y: 215}
	dim  = color.Gray{Y: 232}
)

// blank returns a plot without data, in the look of our documents.
func (l Look) blank() *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.TextHandler = text.Plain{Fonts: l.Fonts}
	for _, style := range []*text.Style{&p.Title.TextStyle, &p.Legend.TextStyle, &p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label} {
		style.Handler, style.Color = p.TextHandler, ink
		style.Font = font.Font{Size: labelSize}
	}
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.LineStyle = draw.LineStyle{Color: ink, Width: hairline}
		axis.Tick.LineStyle = axis.LineStyle
		axis.Tick.Length = 2
		axis.Label.Padding = 3
		axis.Padding = 0
		axis.Tick.Marker = plot.TickerFunc(l.ticks)
	}
	p.X.Padding = 5 // keeps the first label of one axis off that of the other
	p.Legend.Padding = 2
	p.Legend.ThumbnailWidth = 26
	return p
}

// ticks puts four to eight marks at round steps and writes them as the reader does.
func (l Look) ticks(low, high float64) []plot.Tick { return l.marks(low, high, 8) }

// marks puts at most n marks, and one more, at round steps.
func (l Look) marks(low, high float64, n int) []plot.Tick {
	step := Step(high-low, n)
	decimals := max(0, int(-math.Floor(math.Log10(step))))
	var out []plot.Tick
	for i := math.Ceil(low/step-1e-9) + 0; i*step <= high+step*1e-9; i++ { // + 0: never −0
		out = append(out, plot.Tick{Value: i * step, Label: l.Number(i*step, decimals)})
	}
	return out
}

// Step returns the least of 1, 2, 5, 10 … that divides a span into at most n parts; 1 for a span that is not positive.
func Step(span float64, n int) float64 {
	if !(span > 0) || math.IsInf(span, 1) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(span/float64(n))))
	for _, m := range []float64{1, 2, 5} {
		if span/(m*power) <= float64(n) {
			return m * power
		}
	}
	return 10 * power
}

// round widens an axis to whole steps.
func round(axis *plot.Axis) {
	step := Step(axis.Max-axis.Min, 8)
	axis.Min, axis.Max = step*math.Floor(axis.Min/step+1e-9), step*math.Ceil(axis.Max/step-1e-9)
}

// WithUnit returns "name [unit]", as axes are labelled.
func WithUnit(name, unit string) string {
	return strings.TrimSpace(name + " [" + unit + "]")
}
