package calc_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/ingest"
	"thawbook/ingest/hourly"
	"thawbook/ingest/starter"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write calc/README.md anew")

const (
	calcPage = "README.md"
	pageHead = `# Symbols, sources, agreement

Made from the steps of the demo's zones and from ` + "`testdata/published`" + ` by the test of this folder; run ` + "`go test ./calc -update`" + ` after a change there. What
` + "`thawbook explain`" + ` prints of a zone are these steps with its numbers.
`
	hoursHeading = "\n### Against hourly records\n"
)

func TestCalcPageIsCurrent(t *testing.T) {
	stored, err := os.ReadFile(calcPage)
	if !*update {
		require.NoError(t, err)
	}
	hours, known := hoursText(t)
	if _, kept, found := strings.Cut(string(stored), hoursHeading); found && !known { // without the hourly files the part that needs them stays as it is
		hours = hoursHeading + kept
	}
	steps := demoSteps(t)
	page := pageHead + symbolsText(steps) + sourcesText(steps) + agreementText(t) + hours
	if *update {
		require.Empty(t, os.Getenv("CI"), "a page is not written anew where it is checked")
		require.NoError(t, os.WriteFile(calcPage, []byte(page), 0o644))
		return
	}
	assert.Equal(t, string(stored), page, "run go test ./calc -update")
}

// grouped is a step with the part of the calculation it belongs to.
type grouped struct {
	group string
	trace.Step
}

// demoSteps returns each different step of the demo's zones once, those with the same symbol together, in the order of the calculation.
func demoSteps(t *testing.T) []grouped {
	var all []grouped
	seen := map[string]bool{}
	for _, o := range demoOutcomes(t) {
		group := ""
		for _, s := range o.Steps() {
			if s.Group != "" {
				group = s.Group
			}
			s.Symbol = anyPoint(s.Symbol)
			key := strings.Join([]string{group, s.Symbol, s.Equation, s.Source}, "\n")
			if seen[key] {
				continue
			}
			seen[key] = true
			all = slices.Insert(all, placeOf(all, group, s.Symbol), grouped{group, s})
		}
	}
	return all
}

// placeOf returns where a step stands: behind the last of its symbol, else behind the last of its group, else at the end.
func placeOf(all []grouped, group, symbol string) int {
	place := len(all)
	for i, s := range all {
		if s.group == group {
			place = i + 1
		}
	}
	for i, s := range all {
		if s.group == group && s.Symbol == symbol {
			place = i + 1
		}
	}
	return place
}

var point = regexp.MustCompile(`\([^()]*(%|°C)\)$`)

// anyPoint takes the point out of the symbol of a series: q(0.5; 98 %) and t_core(−30 °C) stand for all of theirs.
func anyPoint(symbol string) string { return point.ReplaceAllString(symbol, "(…)") }

// demoOutcomes calculates the demo.
func demoOutcomes(t *testing.T) []calc.Outcome {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, starter.Write(&b, units.SI, true))
	path := filepath.Join(t.TempDir(), "demo.xlsx")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	book, err := ingest.Read(path)
	require.NoError(t, err)
	builtIn, err := hourly.ReadStations(templates.FS())
	require.NoError(t, err)
	engine := calc.NewEngine(calc.Inputs{Settings: book.Settings, Climate: calc.Climate{Stations: book.Stations, BuiltIn: builtIn},
		Energies: book.Energies, Parts: book.Parts, UnitCosts: book.Costs, Rules: rules(t, "sensing"), Checklist: rules(t, "checklist")})
	var all []calc.Outcome
	for _, s := range book.Sites {
		all = append(all, engine.Site(s).Outcomes...)
	}
	require.NotEmpty(t, all)
	return all
}

// row writes a row of a Markdown table.
func row(cells ...string) string {
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(c, "|", `\|`)
	}
	return "| " + strings.Join(cells, " | ") + " |\n"
}

func symbolsText(steps []grouped) string {
	var p strings.Builder
	p.WriteString("\n## Symbols\n\nUnits are those of SI in which results are shown. A symbol without an equation is an input or comes from the weather. (…) stands for each point of " +
		"a series. Money, units of energy and station are the demo's.\n")
	group := ""
	for _, s := range steps {
		if s.group != group {
			group = s.group
			p.WriteString("\n### " + strings.ToUpper(group[:1]) + group[1:] + "\n\n" + row("Symbol", "Name", "Unit", "Equation", "Source") + "|---|---|---|---|---|\n")
		}
		p.WriteString(row(s.Symbol, s.Name, s.Quantity.In(units.SI).Symbol, s.Equation, s.Source))
	}
	return p.String()
}

// sourcesText lists the sources in the order in which they are first used, with what rests on them.
func sourcesText(steps []grouped) string {
	var order []string
	symbols := map[string][]string{}
	for _, s := range steps {
		if s.Source == "" || s.Source == "input" {
			continue
		}
		if symbols[s.Source] == nil {
			order = append(order, s.Source)
		}
		if !slices.Contains(symbols[s.Source], s.Symbol) {
			symbols[s.Source] = append(symbols[s.Source], s.Symbol)
		}
	}
	var p strings.Builder
	p.WriteString("\n## Sources\n\n\"Judgement\" and \"common practice\" are the trade's, without a printed source; they are yours to change where the workbook has a cell for them.\n\n" +
		row("Source", "Symbols") + "|---|---|\n")
	for _, s := range order {
		p.WriteString(row(s, strings.Join(symbols[s], ", ")))
	}
	return p.String()
}
