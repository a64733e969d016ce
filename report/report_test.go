package report_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/units"
	"thawbook/report"
)

func TestMerge(t *testing.T) {
	at := func(row int) finding.Cell { return finding.Cell{Sheet: "Energy", Ref: "C2", Row: row, Col: 3} }
	list := []finding.Finding{
		{Code: "no-price", Severity: finding.Warning, Site: "B", Zone: "1", At: at(2)},
		{Code: "no-price", Severity: finding.Warning, Site: "A", Zone: "1", At: at(2)},
		{Code: "no-price", Severity: finding.Warning, Site: "A", Zone: "1", At: at(2)}, // told by check and by run
		{Code: "no-price", Severity: finding.Warning, Site: "A", Zone: "2", At: at(2)},
		{Code: "no-price", Severity: finding.Warning, Site: "A", Zone: "3", At: at(3)},
		{Code: "far", Severity: finding.Warning, Site: "A", Zone: "1"},
		{Code: "far", Severity: finding.Warning, Site: "A", Zone: "2"},
		{Code: "broken", Severity: finding.Error, Site: "Z", Zone: "1", At: at(9)},
	}
	got := report.Merge(list)
	require.Len(t, got, 5)
	assert.Equal(t, finding.Code("broken"), got[0].Code, "heaviest first")
	assert.Equal(t, "A", got[1].Site, "without a cell each zone keeps its own")
	price := got[3]
	assert.Equal(t, 3, price.Count)
	assert.Empty(t, price.Site, "zones of several sites")
	assert.Equal(t, 1, got[4].Count, "different cells are never merged")
	assert.Equal(t, got, report.Merge(got), "merged once is merged for good")
	assert.Equal(t, "B", list[0].Site, "the list that was given stays as it is")
}

func TestPoints(t *testing.T) {
	c, err := setpoint.Reset(setpoint.Input{MeltC: 3, IdleC: 0.5, LengthM: 6.1, WindMS: 4, CoreResistance: 0.018, PipeResistance: 0.1, CoverResistance: 0.05, DropK: 11})
	require.NoError(t, err)
	si, ip := report.Points(c, units.SI), report.Points(c, units.IP)
	assert.Len(t, si, 15)
	require.Len(t, ip, 13)
	for i, p := range ip {
		assert.InDelta(t, -20+5*float64(i), p.OutdoorC*9/5+32, 1e-9)
		assert.InDelta(t, c.At(p.OutdoorC, true), p.CoreMeltC, 1e-12, "the curve itself, not drawn between its points")
	}
}

func TestHeadings(t *testing.T) {
	h := report.Headings{"spacing": "Spacing"}
	assert.Equal(t, "Spacing", h.Of("spacing"))
	assert.Equal(t, "Slab thickness", h.Of("slab_thickness"), "without a heading, the key as words")
	assert.Empty(t, h.Of(""))
}

func TestWhatControls(t *testing.T) {
	pavement, aerial := sensing.PavementDetector, sensing.AerialDetector
	for _, tt := range []struct {
		choice               sensing.Choice
		begins, ends, limits string
	}{
		{sensing.Choice{Start: sensing.StartManual, Stop: sensing.StopManual}, "begins-manual", "ends-manual", "limits-nothing"},
		{sensing.Choice{Kit: []sensing.Device{pavement}, Start: sensing.StartDetector, Stop: sensing.StopDry, OutdoorReset: true}, "begins-pavement", "ends-dry", "limits-reset"},
		{sensing.Choice{Kit: []sensing.Device{aerial}, Start: sensing.StartDetector, Stop: sensing.StopTimer}, "begins-aerial", "ends-timer", "limits-nothing"},
		{sensing.Choice{Kit: []sensing.Device{pavement, aerial}, Start: sensing.StartDetector, Stop: sensing.StopDry, OutdoorReset: true, Idling: true}, "begins-either", "ends-both", "limits-reset-idling"},
	} {
		assert.Equal(t, []string{tt.begins, tt.ends, tt.limits}, []string{report.Begins(tt.choice), report.Ends(tt.choice), report.Limits(tt.choice)})
	}
}

func TestBeyond(t *testing.T) {
	c, err := setpoint.Reset(setpoint.Input{MeltC: 3, IdleC: 0.5, LengthM: 6.1, WindMS: 4, CoreResistance: 0.018, PipeResistance: 0.1, CoverResistance: 0.05, DropK: 11})
	require.NoError(t, err)
	l := c.Limits(setpoint.Plant{InstalledWM2: 1e6, ShutOffC: 4.4})
	assert.False(t, report.Beyond(l, c.Points[0].OutdoorC), "a strong plant follows the whole curve")
	l.ColdestC = -12.5
	assert.True(t, report.Beyond(l, -15))
	assert.False(t, report.Beyond(l, -12.50001), "a limit found by halving meets its point")
}
