package chart_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/report/chart"
)

// plans are pavements at the ends of what is drawn.
var plans = map[string]chart.Plan{
	"court":              plan(12, 8, chart.Device{Along: 0.9, Across: 0.75, Number: "1"}, chart.Device{Kind: chart.Box, Along: 0.86, Across: 0.75, Number: "2"}, chart.Device{Kind: chart.Box, Along: 0.86, Across: 0.69, Number: "3"}, chart.Device{Kind: chart.Triangle, Along: 0.9, Across: -0.25, Number: "4"}),
	"walk, mast below":   plan(60, 2, chart.Device{Along: 0.98, Across: 0.5, Number: "1"}, chart.Device{Kind: chart.Triangle, Along: 0.98, Across: 2, Number: "2"}),
	"large":              plan(300, 200, chart.Device{Along: 0.25, Across: 0.75, Number: "1"}, chart.Device{Along: 0.5, Across: 0.75, Number: "2"}, chart.Device{Along: 0.99, Across: 0.99, Number: "3"}, chart.Device{Kind: chart.Box, Along: 0.25, Across: 0.748, Number: "12"}),
	"sliver":             plan(400, 1, chart.Device{Along: 0.999, Across: 0.5, Number: "1"}, chart.Device{Kind: chart.Box, Along: 0.998, Across: 0.5, Number: "2"}),
	"step":               plan(1.2, 1, chart.Device{Along: 0.5, Across: 0.5, Number: "1", There: true}, chart.Device{Kind: chart.Triangle, Along: 0.5, Across: -2, Number: "2"}),
	"nothing but a mast": plan(24, 11, chart.Device{Kind: chart.Triangle, Along: 0.5, Across: -0.2, Number: "1"}),
}

func plan(length, width float64, devices ...chart.Device) chart.Plan {
	return chart.Plan{Length: length, Width: width, Shade: 0.4, Lanes: 2, Devices: devices, Words: chart.PlanWords{Length: "12.0 m", Width: "1,008.0 m", FromLow: "1.2 m", FromSide: "6.0 m",
		Panel: "panel 115.0 m", Slope: "falls by 2.0 % to the low end", Drain: "a drain belongs at the low end; whether one is there was not told", Sun: "the side that the sun warms first",
		Shade: "in shade at noon", Lanes: "wheel tracks", Discs: "in-pavement detector", Boxes: "slab temperature sensor", Tops: "aerial detector", Run: "lead to the panel"}}
}

// drawing is what can be drawn and knows its height.
type drawing interface {
	Draw(on vg.Canvas, width, height vg.Length)
}

// staysClean holds that a drawing stays in its box and that no text lies over another. It returns the texts.
func staysClean(t *testing.T, d drawing, height vg.Length) []string {
	t.Helper()
	var r recorder.Canvas
	d.Draw(&r, paper, height)
	var texts []box
	var said []string
	inside := func(path vg.Path) {
		for _, at := range path {
			assert.True(t, at.Pos.X >= -0.1 && at.Pos.X <= paper+0.1 && at.Pos.Y >= -0.1 && at.Pos.Y <= height+0.1, "%v of %v", at.Pos, height)
		}
	}
	for _, a := range r.Actions {
		switch do := a.(type) {
		case *recorder.FillString:
			face := look().Fonts.Lookup(font.Font{Size: do.Size}, do.Size)
			e := face.Extents()
			texts = append(texts, box{do.String, do.Point.X, do.Point.X + face.Width(do.String), do.Point.Y - e.Descent, e.Ascent + e.Descent})
			said = append(said, do.String)
		case *recorder.Fill:
			inside(do.Path)
		case *recorder.Stroke:
			inside(do.Path)
		}
	}
	for i, a := range texts {
		assert.True(t, a.left >= -0.1 && a.right <= paper+0.1 && a.low >= -0.1 && a.low+a.height <= height+0.1, "%+v leaves %v", a, height)
		for _, b := range texts[i+1:] {
			assert.False(t, a.overlaps(b), "%+v over %+v", a, b)
		}
	}
	return said
}

func TestPlanStaysInItsBoxAndTellsItsNumbers(t *testing.T) {
	for name, p := range plans {
		t.Run(name, func(t *testing.T) {
			s := look().Plan(p, paper)
			said := staysClean(t, s, s.Height)
			for _, d := range p.Devices {
				assert.Contains(t, said, d.Number)
			}
			assert.Contains(t, said, "panel 115.0 m")
		})
	}
}

func TestPlanIsToScale(t *testing.T) {
	s := look().Plan(plans["court"], paper)
	var r recorder.Canvas
	s.Draw(&r, paper, s.Height)
	for _, a := range r.Actions {
		if do, is := a.(*recorder.Fill); is { // the rectangle is filled first
			wide, high := do.Path[1].Pos.X-do.Path[0].Pos.X, math.Abs(float64(do.Path[2].Pos.Y-do.Path[1].Pos.Y))
			assert.InDelta(t, 12000/s.Scale, float64(wide/millimetre), 1e-6)
			assert.InDelta(t, 8000/s.Scale, high/float64(millimetre), 1e-6)
			return
		}
	}
	require.Fail(t, "nothing was filled")
}

// TestCourseAboveTheSlabSensor holds that a course lies above the slab sensor only where there is one, and that one of pieces has joints.
func TestCourseAboveTheSlabSensor(t *testing.T) {
	lines := func(course chart.Fill) (n int) {
		var r recorder.Canvas
		d := look().Housing(chart.Housing{Course: course, Words: chart.HousingWords{Sensor: "sensor", Pipe: "pipes"}}, paper)
		d.Draw(&r, paper, d.Height)
		for _, a := range r.Actions {
			if _, is := a.(*recorder.Stroke); is {
				n++
			}
		}
		return n
	}
	assert.Equal(t, lines(chart.Empty)+1, lines(chart.Asphalt), "its underside")
	assert.Greater(t, lines(chart.Pavers), lines(chart.Asphalt)+5, "joints")
}

func TestHousingStaysInItsBox(t *testing.T) {
	words := chart.HousingWords{Detector: "The detector lies flush with the surface and on its slope, its lead leaving downhill.", Base: "The housing stands on at least 150 mm of washed gravel.",
		Conduit: "Conduit of its own.", Sensor: "The slab sensor lies midway between pipes or cables, its tip 25 mm below the surface.", Pipe: "Pipes"}
	for name, h := range map[string]chart.Housing{
		"on gravel": {Words: words}, "steep": {Slope: 0.5, Words: words}, "over air": {Base: chart.Hole, Slope: 0.02, Words: words}, "over a membrane": {Base: chart.Membrane, Words: words},
		"under pavers": {Course: chart.Pavers, Slope: 0.02, Words: words}, "under asphalt": {Course: chart.Asphalt, Words: words},
		"as found": {Base: chart.Found, Words: chart.HousingWords{Detector: "flush"}},
	} {
		t.Run(name, func(t *testing.T) {
			d := look().Housing(h, paper)
			said := staysClean(t, d, d.Height)
			assert.NotEmpty(t, said)
		})
	}
}
