package submittal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

func TestStepsOfSeveralZonesAreAligned(t *testing.T) {
	step := func(symbol, equation string, v float64) trace.Step {
		return trace.Step{Symbol: symbol, Equation: equation, Value: v, Quantity: units.Number, Source: "geometry"}
	}
	list := []calculation{
		{steps: []trace.Step{step("given", "", 0), step("a", "a = 1", 1), step("Nu", "Nu = 48/11", 2), step("z", "z = a", 3)}},
		{steps: []trace.Step{step("a", "a = 1", 4), step("b", "b = 2 a", 5), step("Nu", "Nu = 0.02 Re", 6), step("z", "z = a", 7)}},
	}
	var got []string
	for _, l := range aligned(list) {
		text := l.step.Equation
		for _, found := range l.found {
			if found == nil {
				text += " –"
			} else {
				text += " " + string(rune('0'+int(found.Value)))
			}
		}
		got = append(got, text)
	}
	assert.Equal(t, []string{"a = 1 1 4", "b = 2 a – 5", "Nu = 0.02 Re – 6", "Nu = 48/11 2 –", "z = a 3 7"}, got)
}

// Zones are worked side by side: an equation stands once, every zone has its column, and what is given is told of the first and of the others where it differs.
func TestZonesAreWorkedSideBySide(t *testing.T) {
	v := view{plain: true}.make(t)
	second := v.Site.Outcomes[0]
	second.Zone.Ref.ZoneID, second.Zone.Ref.ZoneName = "4", "Second walk"
	load := *second.Load
	load.Input.LengthM = 31.4
	second.Load = &load
	v.Site.Outcomes = []calc.Outcome{v.Site.Outcomes[0], second}
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, equation := range []string{"V = fV V10", "tfluid = tpipe + (qup + qback) Rwall", "Vglycol = φ Vfluid"} {
		assert.Equal(t, 1, strings.Count(said, equation), equation)
	}
	assert.Contains(t, said, "Symbol What it is, and its equation Zone 1 Zone 4 Source")
	assert.Contains(t, said, "Zone 4, as Zone 1 but for: L = 31.4 m length in the wind's direction (input).")
	assert.Contains(t, said, "Flux not exceeded in a share of the snowfall hours: as under Zone 1 Entrance walk.")
	assert.Equal(t, 1, strings.Count(said, "One storm, hour by hour:")-strings.Count(said, "One storm, hour by hour: as drawn"))
}
