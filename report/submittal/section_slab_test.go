package submittal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// said is the text of a site's document with single spaces.
func said(t *testing.T, o view) (s sheet, all string) {
	t.Helper()
	v := o.make(t)
	doc, err := Render(v)
	require.NoError(t, err)
	return on(v), strings.Join(strings.Fields(text(t, doc)), " ")
}

func TestSlabChapterTellsTheOutcome(t *testing.T) {
	for _, system := range []units.System{units.SI, units.IP} {
		s, all := said(t, view{plain: true, system: system})
		piped, cabled, plant := s.Site.Outcomes[0], s.Site.Outcomes[1], s.Site.Plants[0]
		l, e := piped.Piping, cabled.Electric
		for _, want := range []string{
			"Slab and heat source",
			"over a pipe " + s.with(piped.Slab.SurfaceMaxC.Value, units.Temperature),
			"over a cable " + s.with(cabled.Slab.SurfaceMaxC.Value, units.Temperature),
			"down: " + s.with(piped.Slab.SensorC.Value, units.Temperature),
			s.with(l.Loops.LongestM, units.Length),
			s.with(l.Flow.TotalLS, units.Flow) + " in all",
			s.number(l.Head.LoopPa, units.Pressure) + " " + s.number(l.Head.BendsPa, units.Pressure) + " " + s.number(l.Head.ManifoldPa, units.Pressure),
			s.with(l.Fluid.FreezeC, units.Temperature) + "; needed",
			"none down to " + s.with(l.Fluid.BurstC.Value, units.Temperature),
			s.with(e.Input.CableWM, units.LinearPower) + ", laid at " + s.with(e.SpacingM, units.Thickness) + ", proposed",
			"trips at 30 mA",
			"the adopted electrical code and a licensed person decide",
			"Heat source: gas",
			"Net output " + s.number(plant.NetW, units.Power),
			"rating at sea level: Qrated = Qnet / fz",
		} {
			assert.Contains(t, all, strings.ReplaceAll(want, "\u00a0", " "))
		}
		assert.Equal(t, 1, strings.Count(all, "heat at the design flux"), "a step stands once")
		assert.Equal(t, 1, strings.Count(all, "power density installed"), "a step stands once")
	}
}

func TestWhatIsNotLaidOutIsSaid(t *testing.T) {
	v := view{plain: true}.make(t)
	v.Site.Outcomes[0].Piping = nil
	layout := *v.Site.Outcomes[1].Electric
	layout.Circuits = units.Maybe[electric.Circuits]{}
	v.Site.Outcomes[1].Electric, v.Site.Plants = &layout, nil
	doc, err := Render(v)
	require.NoError(t, err)
	all := strings.Join(strings.Fields(text(t, doc)), " ")
	assert.Contains(t, all, "What feeds this slab is not laid out")
	assert.Contains(t, all, "circuits and protection are left out")
	assert.NotContains(t, all, "Piping schedule")
	assert.NotContains(t, all, "Heat source:")
}

// A plant's advice on shock names its zones once, with the largest difference.
func TestShockAdviceStandsOnce(t *testing.T) {
	s, all := said(t, view{plain: true})
	check := s.Site.Plants[0].Checks[0]
	require.Equal(t, finding.Code("supply-shocks-slab"), check.Code)
	assert.Equal(t, 1, strings.Count(all, "The supply is up to "+strings.ReplaceAll(s.with(check.Found, units.TemperatureDiff), "\u00a0", " ")))
}
