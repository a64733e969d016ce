package record_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// TestSensingIsToldInWords holds that a program that reads the record finds what the kit can't do, each offer with its price, and the texts of checklist, tests
// and care beside their codes, in their order.
func TestSensingIsToldInWords(t *testing.T) {
	w, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	o := sample.Whole(sample.Site(0).Outcomes[0].Zone)
	o.Sensing = &sensing.Choice{Kit: []sensing.Device{sensing.AerialDetector}, Lacking: []string{"lacks-dry-stop"}, Offers: []string{"offer-coring", "find-a-mast"},
		Checklist: []string{"aerial-open-sky", "hold-timer-set"}}
	o.Options = []calc.Option{{Option: sensing.Option{Code: "offer-coring", For: sensing.PavementDetector, Checklist: []string{"cut-core"},
		Gives: sensing.Gives{Kit: "in-pavement detector", Strategy: "in-pavement detector"}},
		Lines: []calc.OptionLine{{Item: "coring", Quantity: 1, Unit: units.Count, Amount: units.Some(cost.Money(60000))}, {Item: "saw-cut", Quantity: 1.5, Unit: units.Length, After: true}},
		Total: units.Some(cost.Money(60000)), Waits: true, Example: true}}
	o.Operation = &calc.Operation{Tests: []sensing.Line{{Code: "test-hold-timer", Args: []finding.Arg{finding.Value("timer", 7, units.Hours)}}}, Care: []sensing.Line{{Code: "care-face"}}}
	data, err := json.Marshal(record.SensingOf(w, "USD", o))
	require.NoError(t, err)
	var got struct {
		Checklist, Tests, Care []string
		Lacks                  []record.Reason
		Offers                 []struct {
			Code, Text string
			Device     *string
			Takes      []struct {
				Item        string
				Quantity    float64
				Unit        *string
				AfterSurvey bool `json:"after_survey"`
				Amount      *float64
			}
			Price     *float64
			After     *float64 `json:"price_after_survey"`
			Example   bool     `json:"example_price"`
			Kit       *string
			Checklist []record.Check
		}
		Checks []record.Check  `json:"checklist_lines"`
		Tested []record.Tested `json:"test_lines"`
		Cared  []record.Check  `json:"care_lines"`
	}
	require.NoError(t, json.Unmarshal(data, &got))
	require.Len(t, got.Lacks, 1)
	assert.Equal(t, record.Reason{Code: "lacks-dry-stop", Text: w.Line(words.Reasons, "lacks-dry-stop")[0]}, got.Lacks[0])
	require.Len(t, got.Offers, 2)
	core := got.Offers[0]
	assert.Equal(t, "in-pavement detector", *core.Device)
	assert.InDelta(t, 600, *core.Price, 1e-9)
	assert.Nil(t, core.After, "a saw-cut without a price")
	assert.True(t, core.Example)
	require.Len(t, core.Takes, 2)
	assert.Equal(t, "m", *core.Takes[1].Unit)
	assert.True(t, core.Takes[1].AfterSurvey)
	assert.Equal(t, "cut-core", core.Checklist[0].Code)
	assert.Nil(t, got.Offers[1].Device, "nothing to price")
	assert.Contains(t, got.Offers[1].Text, "mast")
	require.Len(t, got.Checks, 2)
	for i, code := range got.Checklist {
		line := w.Line(words.Checklist, code)
		assert.Equal(t, record.Check{Code: code, Phase: line[0], Text: line[1], Prevents: line[2]}, got.Checks[i])
	}
	require.Len(t, got.Tested, 1)
	assert.Equal(t, got.Tests[0], got.Tested[0].Code)
	assert.Contains(t, got.Tested[0].Pass, "7", "this site's pass value")
	require.Len(t, got.Cared, 1)
	assert.Equal(t, got.Care[0], got.Cared[0].Code)
	assert.Equal(t, "autumn", got.Cared[0].Phase)
}
