package record_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/electric"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
)

// The record writes 7 significant digits.
const written = 1e-6

func TestHeatSourceIsTheOutcomes(t *testing.T) {
	site := sample.Site(0)
	got, err := record.Read(bytes.NewReader(write(t, []calc.SiteOutcome{site})))
	require.NoError(t, err)
	piped, cabled := site.Outcomes[0], site.Outcomes[1]
	require.NotNil(t, piped.Piping)
	require.NotNil(t, cabled.Electric)
	p, l := got.Zones[0].Piping, piped.Piping
	s, e := got.Zones[1].Slab, got.Zones[1].Electric
	plant, size := got.Sites[0].Plants[0], site.Plants[0]
	circuits := cabled.Electric.Circuits.Value
	for _, tt := range []struct {
		key  string
		got  record.Number
		want float64
	}{
		{"loop_length_m", p.LoopLengthM, l.Loops.LengthM},
		{"flow_l_s", p.FlowLS, l.Flow.TotalLS},
		{"head_kpa", p.HeadKPa, l.Head.TotalPa / 1000},
		{"reynolds", p.Reynolds, l.Flow.Reynolds},
		{"fluid_volume_l", p.FluidVolumeL, l.Volume.TotalL},
		{"freeze_point_c", p.FreezePointC, l.Fluid.FreezeC},
		{"pipe_bore_mm", p.BoreMM, l.Loops.BoreM * 1000},
		{"concentration_share", p.Share, l.Fluid.Share},
		{"cold_start_head_kpa", p.ColdStartHeadKPa, l.Head.ColdPa.Value / 1000},
		{"surface_min_c", s.SurfaceMinC, cabled.Slab.SurfaceMinC.Value},
		{"spacing_mm", s.SpacingMM, cabled.Slab.Section.SpacingM * 1000},
		{"connected_kw", e.ConnectedKW, cabled.Electric.ConnectedW / 1000},
		{"cable_spacing_mm", e.CableSpacingMM, cabled.Electric.SpacingM * 1000},
		{"protection_a", e.ProtectionA, circuits.ProtectionA},
		{"net_w", plant.NetW, size.NetW},
		{"rated_w", plant.RatedW, size.RatedW.Value},
		{"supply_c of the plant", plant.SupplyC, size.SupplyC},
		{"heat_w of a zone", plant.Zones[0].HeatW, size.Needs[0].HeatW},
	} {
		require.True(t, tt.got.Known, tt.key)
		assert.InEpsilon(t, tt.want, tt.got.Value, written, tt.key)
	}
	assert.Equal(t, l.Loops.Count, p.Loops)
	require.NotNil(t, e.Circuits)
	assert.Equal(t, circuits.Count, *e.Circuits)
	terms := p.HeadLoopKPa.Value + p.HeadBendsKPa.Value + p.HeadManifoldKPa.Value + p.HeadMainsKPa.Value + p.HeadSourceKPa.Value
	assert.InEpsilon(t, p.HeadKPa.Value, terms, written, "the terms of the head add up")
	assert.InEpsilon(t, plant.NetW.Value, plant.LoadW.Value+plant.MainsW.Value+plant.PickUpW.Value, written, "the terms of the plant add up")
	assert.False(t, s.MeanFluidC.Known, "a cable has no fluid")
	assert.Nil(t, got.Zones[1].Piping)
}

// Without a voltage there are no circuits, without an evenness to ask for no flux: null, never 0.
func TestWhatIsNotKnownIsNull(t *testing.T) {
	site := sample.Site(0)
	o := &site.Outcomes[1]
	layout := *o.Electric
	layout.Circuits = units.Maybe[electric.Circuits]{}
	o.Electric = &layout
	require.False(t, o.Slab.Striped)
	got, err := record.Read(bytes.NewReader(write(t, []calc.SiteOutcome{site})))
	require.NoError(t, err)
	e := got.Zones[1].Electric
	assert.Nil(t, e.Circuits)
	assert.False(t, e.ProtectionA.Known)
	assert.True(t, e.ConnectedKW.Known)
	assert.False(t, got.Zones[1].Slab.EvenFluxWM2.Known)
}
