package chart_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"thawbook/report/chart"
)

// textsAt draws a chart and returns where each of its texts begins.
func textsAt(c chart.Chart) map[string]vg.Point {
	var r recorder.Canvas
	c.Draw(&r, 480, 200)
	at := map[string]vg.Point{}
	for _, a := range r.Actions {
		if s, ok := a.(*recorder.FillString); ok {
			at[s.String] = s.Point
		}
	}
	return at
}

func TestTornadoWritesEachEndOnItsSide(t *testing.T) {
	at := textsAt(look().Tornado("Net savings [EUR]", 1000, []chart.Swing{
		{Name: "wide", Low: 1800, High: 200, LowText: "cheap", HighText: "dear"},
		{Name: "narrow", Low: 1100, High: 1200, LowText: "mild", HighText: "severe"},
	}))
	for _, want := range []string{"Net savings [EUR]", "wide", "narrow", "cheap", "dear", "mild", "severe"} {
		assert.Contains(t, at, want)
	}
	assert.Less(t, at["dear"].X, at["cheap"].X, "a lower figure lies left")
	assert.Less(t, at["mild"].X, at["severe"].X)
	assert.Greater(t, at["wide"].Y, at["narrow"].Y, "the first is on top")
	assert.Greater(t, at["mild"].Y, at["severe"].Y, "ends on one side are written one above the other")
	for text, p := range at {
		assert.True(t, p.X >= 0 && p.X <= 480 && p.Y >= 0 && p.Y <= 200, "%s lies at %v", text, p)
	}
}

func TestTornadoOfWhatDoesNotMove(t *testing.T) {
	at := textsAt(look().Tornado("x", 0, []chart.Swing{{Name: "still", LowText: "a", HighText: "b"}}))
	assert.Contains(t, at, "still")
	assert.Contains(t, at, "a")
	assert.Contains(t, at, "b")
}
