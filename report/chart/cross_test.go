package chart_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/report/chart"
)

const (
	millimetre = vg.Length(72 / 25.4)
	paper      = 172 * millimetre
)

var (
	walk = chart.Cross{Layers: []chart.Layer{{Thick: 150, Fill: chart.Concrete, Note: "slab of concrete, 150 mm, 1.40 W/m·K"}}, Depth: 55, Spacing: 200, Outer: 25, Bore: 20.4, Sensor: 25,
		Insulated: true, Below: chart.Earth, Notes: notes("75 mm", "150 mm", "200 mm")}
	court = chart.Cross{Layers: []chart.Layer{{Thick: 60, Fill: chart.Pavers, Note: "pavers, 60 mm"}, {Thick: 30, Fill: chart.Sand, Note: "bedding, 30 mm"},
		{Thick: 150, Fill: chart.Concrete, Note: "slab of concrete, 150 mm"}}, Depth: 75, Spacing: 125, Outer: 6, Sensor: 25, Insulated: true, Below: chart.Earth, Notes: notes("75 mm", "240 mm", "125 mm")}
	bridge = chart.Cross{Layers: []chart.Layer{{Thick: 600, Fill: chart.Concrete, Note: "slab of concrete, 600 mm"}}, Depth: 40, Spacing: 25, Outer: 7, Sensor: 25, Notes: notes("40 mm", "600 mm", "25 mm")}
	wide   = chart.Cross{Layers: []chart.Layer{{Thick: 80, Fill: chart.Asphalt, Note: "asphalt"}, {Thick: 40, Fill: chart.Stone, Note: "stone"}}, Depth: 60, Spacing: 450, Outer: 32, Bore: 26.2,
		Sensor: 25, Insulated: true, Notes: notes("60 mm", "120 mm", "450 mm")}
	tight  = chart.Cross{Layers: []chart.Layer{{Thick: 75, Fill: chart.Concrete, Note: "slab"}}, Depth: 25, Spacing: 26, Outer: 25, Bore: 20.4, Sensor: 25, Notes: notes("25 mm", "75 mm", "26 mm")}
	worded = func() chart.Cross {
		c := court
		c.Notes.Pipe = "Donaudampfschifffahrtsgesellschaftskapitänswitwenrentenauszahlungsstelle and a pipe whose name somebody typed at length: outer surface 30.4 °C, mean fluid 40.6 °C"
		c.Notes.Sensor = "a slab sensor with a note of more than one line, which is 25 mm down and midway between two of the pipes: 11.4 °C"
		return c
	}()
)

// cuts are sections at the ends of what is drawn.
var cuts = map[string]chart.Cross{"walk": walk, "court of pavers": court, "thick slab, close cables": bridge, "wide spacing, two layers": wide, "pipes that touch": tight, "long words": worded,
	"bare": {Layers: []chart.Layer{{Thick: 100}}, Depth: 50, Spacing: 100, Outer: 20, Sensor: 25}}

func notes(depth, thick, spacing string) chart.Notes {
	return chart.Notes{Depth: depth, Thick: thick, Spacing: spacing, Over: "over a pipe 1.0 °C", Midway: "midway −0.1 °C", Sensor: "slab sensor, 25 mm down: 6.2 °C",
		Pipe: "pipe 25x2.3: outer surface 30.4 °C, mean fluid 40.6 °C", Insulation: "insulation, R 0.900 m²·K/W", Below: "ground 7.2 °C"}
}

// box is a text's place from the lower left.
type box struct {
	text                     string
	left, right, low, height vg.Length
}

func (b box) overlaps(o box) bool {
	return min(b.right, o.right)-max(b.left, o.left) > 0.1 && min(b.low+b.height, o.low+o.height)-max(b.low, o.low) > 0.5
}

// drawnCut draws a cut and returns its texts with their places, and the middles of discs.
func drawnCut(c chart.Cut) (texts []box, discs []vg.Point, paths []vg.Path) {
	var r recorder.Canvas
	c.Draw(&r, paper, c.Height)
	for _, a := range r.Actions {
		switch do := a.(type) {
		case *recorder.FillString:
			face := look().Fonts.Lookup(font.Font{Size: do.Size}, do.Size)
			e := face.Extents()
			texts = append(texts, box{do.String, do.Point.X, do.Point.X + face.Width(do.String), do.Point.Y - e.Descent, e.Ascent + e.Descent})
		case *recorder.Fill:
			if len(do.Path) == 6 && do.Path[1].Type == vg.CurveComp {
				discs = append(discs, vg.Point{X: (do.Path[0].Pos.X + do.Path[2].Pos.X) / 2, Y: do.Path[0].Pos.Y})
			}
			paths = append(paths, do.Path)
		case *recorder.Stroke:
			paths = append(paths, do.Path)
		}
	}
	return texts, discs, paths
}

func TestCutStaysInItsBoxAndNoTextLiesOverAnother(t *testing.T) {
	for name, c := range cuts {
		t.Run(name, func(t *testing.T) {
			cut := look().Cross(c, paper)
			texts, _, paths := drawnCut(cut)
			for i, a := range texts {
				assert.True(t, a.left >= -0.1 && a.right <= paper+0.1 && a.low >= -0.1 && a.low+a.height <= cut.Height+0.1, "%+v leaves %v", a, cut.Height)
				for _, b := range texts[i+1:] {
					assert.False(t, a.overlaps(b), "%+v over %+v", a, b)
				}
			}
			for _, p := range paths {
				for _, at := range p {
					assert.True(t, at.Pos.X >= 0 && at.Pos.X <= paper && at.Pos.Y >= -0.1 && at.Pos.Y <= cut.Height+0.1, "%v", at.Pos)
				}
			}
		})
	}
}

func TestCutIsToScale(t *testing.T) {
	for name, c := range cuts {
		t.Run(name, func(t *testing.T) {
			cut := look().Cross(c, paper)
			require.Greater(t, cut.Scale, 0.0)
			_, discs, _ := drawnCut(cut)
			rows := map[float64][]vg.Length{}
			var pipes []vg.Length
			for _, d := range discs {
				y := math.Round(float64(d.Y) * 1000)
				if !slices.Contains(rows[y], d.X) {
					rows[y] = append(rows[y], d.X)
				}
				if len(rows[y]) > len(pipes) {
					pipes = rows[y]
				}
			}
			require.GreaterOrEqual(t, len(pipes), 3)
			for i := range pipes[1:] {
				assert.InDelta(t, c.Spacing/cut.Scale, float64((pipes[i+1]-pipes[i])/millimetre), 1e-6, "pipes lie at their spacing")
			}
		})
	}
}

func TestCutTellsItsNotes(t *testing.T) {
	texts, _, _ := drawnCut(look().Cross(court, paper))
	var said []string
	for _, b := range texts {
		said = append(said, b.text)
	}
	for _, want := range []string{"75 mm", "240 mm", "125 mm", "over a pipe 1.0 °C", "midway −0.1 °C", "pavers, 60 mm", "bedding, 30 mm", "insulation, R 0.900 m²·K/W", "ground 7.2 °C"} {
		assert.Contains(t, said, want)
	}
	again, _, _ := drawnCut(look().Cross(court, paper))
	assert.Equal(t, texts, again)
}
