package chart_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/report/chart"
)

func look() chart.Look {
	return chart.Look{Fonts: font.NewCache(font.Collection{{Font: font.Font{Typeface: "test"}, Face: liberation.Collection()[0].Face}}), Number: func(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }}
}

// written draws a chart and returns its texts, and all that was done.
func written(t *testing.T, c chart.Chart) (texts, actions []string) {
	t.Helper()
	var r recorder.Canvas
	c.Draw(&r, 300, 200)
	for _, a := range r.Actions {
		actions = append(actions, a.Call())
		if s, ok := a.(*recorder.FillString); ok {
			texts = append(texts, s.String)
		}
	}
	return texts, actions
}

func TestLinesNameAxesAndCurves(t *testing.T) {
	c, err := look().Lines("Outdoor [°C]", "Slab [°C]", []chart.Line{
		{Name: "melting", X: []float64{-30, 0, 5}, Y: []float64{13, 4, 3}}, {Name: "idling", Kind: chart.GreyDashed, X: []float64{-30, 0, 5}, Y: []float64{10, 1, 0}}}, chart.Shade{Below: -20, Words: "beyond"})
	require.NoError(t, err)
	texts, first := written(t, c)
	for _, want := range []string{"Outdoor [°C]", "Slab [°C]", "melting", "idling", "beyond", "-30", "0", "5"} {
		assert.Contains(t, texts, want)
	}
	_, again := written(t, c)
	assert.Equal(t, first, again)
}

func TestWhatIsNoNumberIsAnError(t *testing.T) {
	_, err := look().Lines("x", "y", []chart.Line{{X: []float64{1, 2}, Y: []float64{1, math.NaN()}}}, chart.Shade{})
	assert.Error(t, err)
	_, err = look().Lines("x", "y", []chart.Line{{X: []float64{1, 2}, Y: []float64{1, math.Inf(1)}}}, chart.Shade{})
	assert.Error(t, err)
}

func TestStep(t *testing.T) {
	for _, tt := range []struct {
		span float64
		n    int
		want float64
	}{{35, 8, 5}, {70, 8, 10}, {1, 8, 0.2}, {0.05, 8, 0.01}, {8, 8, 1}, {8.1, 8, 2}, {2934, 8, 500}, {0, 8, 1}, {-1, 8, 1}, {math.NaN(), 8, 1}, {math.Inf(1), 8, 1}} {
		assert.InDelta(t, tt.want, chart.Step(tt.span, tt.n), 1e-12, fmt.Sprint(tt.span))
	}
}
