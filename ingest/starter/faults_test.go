package starter_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest"
	"thawbook/ingest/starter"
)

const faults = "../../testdata/faults"

// fault is one planted fault: where it must be told, as what.
type fault struct{ sheet, cell, code, severity string }

func expectedFaults(t *testing.T) []fault {
	t.Helper()
	in, err := os.Open(faults + "/expected.tsv")
	require.NoError(t, err)
	defer in.Close()
	r := csv.NewReader(in)
	r.Comma = '\t'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var list []fault
	for _, row := range rows[1:] {
		list = append(list, fault{row[0], row[1], row[2], row[3]})
	}
	return list
}

// The demo with faults planted in it: each is told at its cell, nothing else becomes an error, and a zone without a fault gives what it gives
// in the demo.
func TestPlantedFaults(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, starter.Fill(&b, units.SI, os.DirFS(faults)))
	book := read(t, b.Bytes())
	outcomes, findings := judged(t, book)

	told, errors := map[fault]bool{}, map[fault]bool{}
	for _, f := range findings {
		at := fault{f.At.Sheet, f.At.Ref, string(f.Code), f.Severity.String()}
		told[at] = true
		if f.Severity == finding.Error {
			errors[at] = true
		}
	}
	expected := expectedFaults(t)
	require.GreaterOrEqual(t, len(expected), 20)
	struck := map[string]bool{} // cells of Sites with an expected error, by row
	for _, e := range expected {
		assert.True(t, told[e], "%v is not told", e)
		delete(errors, e)
		if e.sheet == "Sites" && e.severity == "error" {
			struck[rowOf(e.cell)] = true
		}
	}
	assert.Empty(t, errors, "errors that nobody planted")

	sound, _ := judged(t, read(t, written(t, units.SI, true)))
	spared := 0
	for name, o := range outcomes {
		if struck[rowOf(book.Locate(name[0], name[1], "site_id").Ref)] {
			assert.Nil(t, o.Load, "%v has a fault and is calculated all the same", name)
			continue
		}
		spared++
		require.Contains(t, sound, name)
		assert.Equal(t, calc.StatusOK, o.Status(), name)
		assert.Equal(t, sound[name].Load, o.Load, name)
		assert.Equal(t, sound[name].Seasons, o.Seasons, name)
	}
	assert.Equal(t, 4, spared)
}

// A row of Climate or Energy that was refused reaches the zones that name it as one finding, which names its row.
func TestRefusedRowsReachTheirZones(t *testing.T) {
	months := "Station\tMonth\tMean temperature\n"
	for month := range 11 {
		months += fmt.Sprintf("Half\t%d\t-5\n", month+1)
	}
	tables := fstest.MapFS{
		"climate.tsv": {Data: []byte(months)},
		"energy.tsv":  {Data: []byte("Energy ID\tCarrier\tUnit\tPrice per unit\nG\tgas\tm³\t0.9\n")},
		"sites.tsv": {Data: []byte("Site ID\tArea\tUse\tDrain\tStation\tEnergy ID\n" +
			"A\t40\twalk\tyes\tHalf\tG\nB\t40\twalk\tyes\tBurlington, VT\tG\n")},
	}
	book, err := ingest.ReadText(tables, ".")
	require.NoError(t, err)
	_, findings := judged(t, book)
	var told []string
	for _, f := range findings {
		if f.Code == calc.CodeStationRefused || f.Code == calc.CodeEnergyRefused {
			told = append(told, fmt.Sprintf("%s %s %s %s!%s see %s", f.Severity, f.Code, f.Site, f.At.Sheet, f.At.Ref, f.Args[len(f.Args)-1].Text))
		}
		assert.NotContains(t, []finding.Code{calc.CodeStationUnknown, calc.CodeMissingInput, calc.CodeEnergyUnknown}, f.Code, f.Site)
	}
	assert.Contains(t, told, "error station-refused A Sites!E2 see Climate!A2")
	assert.Contains(t, told, "warning energy-refused B Sites!F3 see Energy!A2")
}

// Check raises the errors of a calculation without calculating.
func TestCheckFindsTheSameErrors(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, starter.Fill(&b, units.SI, os.DirFS(faults)))
	book := read(t, b.Bytes())
	e := engine(t, book)
	for _, s := range book.Sites {
		var checked, calculated []finding.Code
		for _, f := range e.Check(s) {
			if f.Severity == finding.Error {
				checked = append(checked, f.Code)
			}
		}
		for _, o := range e.Site(s).Outcomes {
			for _, f := range o.Findings {
				if f.Severity == finding.Error {
					calculated = append(calculated, f.Code)
				}
			}
		}
		assert.ElementsMatch(t, calculated, checked, s.ID)
	}
}

// rowOf returns the row of a cell's address.
func rowOf(cell string) string {
	for i, r := range cell {
		if r >= '0' && r <= '9' {
			return cell[i:]
		}
	}
	return ""
}
