package chart_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/report/chart"
)

// drawn draws a grid of charts and returns its texts with the place of each.
func drawn(t *testing.T, g chart.Grid) (texts []string, at map[string]vg.Point, actions int) {
	t.Helper()
	var r recorder.Canvas
	g.Draw(&r, 480, 300)
	at = map[string]vg.Point{}
	for _, a := range r.Actions {
		if s, ok := a.(*recorder.FillString); ok {
			texts = append(texts, s.String)
			at[s.String] = s.Point
		}
	}
	return texts, at, len(r.Actions)
}

func count(list []string, want string) (n int) {
	for _, s := range list {
		if s == want {
			n++
		}
	}
	return n
}

func TestStacksNameMonthsAndParts(t *testing.T) {
	months := []string{"Nov", "Dec"}
	g, err := look().Stacks(chart.Stack{Axis: "Heat [kWh/m²]", Names: months, Parts: []chart.Part{{Name: "one part", Values: []float64{4, 30}}}},
		chart.Stack{Axis: "Hours [h]", Names: months, Parts: []chart.Part{{Name: "melting", Values: []float64{10, 70}}, {Name: "idling", Shade: chart.Light, Values: []float64{5, 0}}}})
	require.NoError(t, err)
	texts, _, _ := drawn(t, g)
	for _, want := range []string{"Heat [kWh/m²]", "Hours [h]", "melting", "idling", "30", "100"} {
		assert.Contains(t, texts, want)
	}
	assert.Equal(t, 2, count(texts, "Dec"))
	assert.NotContains(t, texts, "one part", "a single part needs no legend")
}

func TestHourlyPanelsShareTheTimeAxis(t *testing.T) {
	x := []float64{1, 2, 3}
	g, err := look().Hourly("Time", 3, []chart.Mark{{Hour: 0, Name: "18:00"}, {Hour: 2, Name: "20:00"}}, []chart.Panel{
		{Axis: "Snowfall [mm/h]", Zero: true, Lines: []chart.Line{{Name: "snow", Kind: chart.Filled, X: x, Y: []float64{0, 2, 1}}}},
		{Axis: "Temperature [°C]", Lines: []chart.Line{{Name: "air", Kind: chart.Grey, X: x, Y: []float64{-6, -5, -8}}, {Name: "freezing", Kind: chart.Thin, X: x, Y: []float64{0, 0, 0}}}}})
	require.NoError(t, err)
	texts, at, _ := drawn(t, g)
	for _, want := range []string{"Snowfall [mm/h]", "Temperature [°C]", "snow", "air", "freezing", "Time"} {
		assert.Equal(t, 1, count(texts, want), want)
	}
	assert.Equal(t, 1, count(texts, "18:00"), "only the lowest panel names the hours")
	assert.Greater(t, at["snow"].Y, at["air"].Y)
	assert.Greater(t, at["air"].X, at["20:00"].X, "names stand right of what they name")
}

func TestPanelsThatAreNoNumbers(t *testing.T) {
	_, err := look().Hourly("Time", 1, nil, []chart.Panel{{Lines: []chart.Line{{Kind: chart.Filled, X: []float64{1}, Y: []float64{math.NaN()}}}}})
	assert.Error(t, err)
	_, err = look().Stacks(chart.Stack{Names: []string{"a"}, Parts: []chart.Part{{Values: []float64{math.Inf(1)}}}})
	assert.Error(t, err)
}
