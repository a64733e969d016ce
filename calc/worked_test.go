package calc

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/trace"
)

// TestWorkedHoldsThePlant: what a zone asks of its plant, and the plant's sums, stand behind the zone's own steps; cables have no plant.
func TestWorkedHoldsThePlant(t *testing.T) {
	plantSteps := func(change func(*Zone)) int {
		so := engine().Site(site(zone(change)))
		all, own := so.Worked(so.Outcomes[0]), so.Outcomes[0].Steps()
		assert.Equal(t, own, all[:len(own)])
		behind := all[len(own):]
		assert.Equal(t, len(behind) > 0, strings.Contains(groups(behind), "plant"))
		return len(behind)
	}
	assert.Positive(t, plantSteps(func(z *Zone) {}))
	assert.Zero(t, plantSteps(func(z *Zone) { z.Heat.Kind = Electric }))
}

func groups(steps []trace.Step) string {
	var all []string
	for _, s := range steps {
		all = append(all, s.Group)
	}
	return strings.Join(all, " ")
}
