package finding_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

func TestWords(t *testing.T) {
	for s, want := range map[finding.Severity]string{finding.Error: "error", finding.Warning: "warning", finding.Info: "info", finding.Accepted: "accepted"} {
		assert.Equal(t, want, s.String())
	}
}

func TestWorst(t *testing.T) {
	f := func(s ...finding.Severity) (list []finding.Finding) {
		for _, one := range s {
			list = append(list, finding.New(one, "code", "field"))
		}
		return list
	}
	assert.Equal(t, finding.Accepted, finding.Worst(nil))
	assert.Equal(t, finding.Info, finding.Worst(f(finding.Accepted, finding.Info)))
	assert.Equal(t, finding.Warning, finding.Worst(f(finding.Info, finding.Warning, finding.Info)))
	assert.Equal(t, finding.Error, finding.Worst(f(finding.Warning, finding.Error, finding.Accepted)))
}

// TestOrder: heaviest first, then by sheet, row, column, code, site and zone; whatever the order they came in.
func TestOrder(t *testing.T) {
	at := func(sheet string, row, col int) finding.Cell { return finding.Cell{Sheet: sheet, Row: row, Col: col} }
	want := []finding.Finding{
		{Severity: finding.Error, Code: "a", At: at("Sites", 9, 1)},
		{Severity: finding.Warning, Code: "z", At: at("Climate", 9, 9)},
		{Severity: finding.Warning, Code: "a", At: at("Sites", 2, 3)},
		{Severity: finding.Warning, Code: "a", At: at("Sites", 10, 2)},
		{Severity: finding.Warning, Code: "a", At: at("Sites", 10, 3), Site: "A", Zone: "1"},
		{Severity: finding.Warning, Code: "a", At: at("Sites", 10, 3), Site: "A", Zone: "2"},
		{Severity: finding.Warning, Code: "a", At: at("Sites", 10, 3), Site: "B", Zone: "1"},
		{Severity: finding.Warning, Code: "b", At: at("Sites", 10, 3), Site: "A", Zone: "1"},
		{Severity: finding.Info, Code: "a"},
		{Severity: finding.Accepted, Code: "a"},
	}
	random := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		got := append([]finding.Finding(nil), want...)
		random.Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		finding.Sort(got)
		assert.Equal(t, want, got)
	}
}

func TestArgs(t *testing.T) {
	assert.Equal(t, finding.Arg{Name: "name", Text: "Burlington"}, finding.Words("name", "Burlington"))
	assert.Equal(t, finding.Arg{Name: "least", Number: 0.3, Quantity: units.Length}, finding.Value("least", 0.3, units.Length))
	assert.Equal(t, units.Some(int64(12345)), finding.Amount("now", 12345).Minor)
	f := finding.New(finding.Warning, "code", "field", finding.Words("a", "b"))
	assert.Equal(t, finding.Finding{Code: "code", Severity: finding.Warning, Field: "field", Args: []finding.Arg{{Name: "a", Text: "b"}}}, f)
}

func TestChecks(t *testing.T) {
	list := finding.Checks{
		{Code: "loop-too-long", Severity: finding.Warning, Field: "loop_length", Found: 120, Limit: 100, Quantity: units.Length},
		{Code: "zone-needs-mixing", Severity: finding.Info, Zone: "2", Field: "supply_limit", Found: 55, Limit: 45, Quantity: units.Temperature},
	}.Findings()
	mixing := finding.New(finding.Info, "zone-needs-mixing", "supply_limit", finding.Value("found", 55, units.Temperature), finding.Value("limit", 45, units.Temperature))
	mixing.Zone = "2"
	assert.Equal(t, []finding.Finding{
		finding.New(finding.Warning, "loop-too-long", "loop_length", finding.Value("found", 120, units.Length), finding.Value("limit", 100, units.Length)), mixing,
	}, list)
	assert.Empty(t, finding.Checks(nil).Findings())
}
