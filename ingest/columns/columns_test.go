package columns_test

import (
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
	"thawbook/templates"
)

// each calls check for every column of every sheet, what is common to them taken out of their types.
func each(check func(sheet string, c common)) {
	all(columns.Sites(), check)
	all(columns.Climate(), check)
	all(columns.Energy(), check)
	all(columns.Parts(), check)
	all(columns.Costs(), check)
	all(columns.Settings(), check)
}

type common struct {
	columns.Column[struct{}]
	place any // what At points to, in a fresh row
	index int
}

func all[T any](list []columns.Column[T], check func(string, common)) {
	for i, c := range list {
		var v T
		check(c.Sheet, common{columns.Column[struct{}]{Field: c.Field, Sheet: c.Sheet, Heading: c.Heading, Aliases: c.Aliases, Quantity: c.Quantity, Min: c.Min, Max: c.Max,
			Choices: c.Choices, Synonyms: c.Synonyms, Default: c.Default, DefaultIP: c.DefaultIP, DefaultSource: c.DefaultSource, OnlyFor: c.OnlyFor, Required: c.Required,
			Money: c.Money, PercentAbove: c.PercentAbove, Bookkeeping: c.Bookkeeping, Directions: c.Directions, Help: c.Help}, c.At(&v), i})
	}
}

func TestFieldsAreUniqueOverAllSheets(t *testing.T) {
	seen := map[finding.Field]string{}
	each(func(sheet string, c common) {
		assert.NotEmpty(t, c.Field)
		assert.Empty(t, seen[c.Field], "field %s stands in %s too", c.Field, sheet)
		seen[c.Field] = sheet
	})
}

func TestHeadingsOfASheetAreToldApart(t *testing.T) {
	type key struct{ sheet, heading string }
	seen := map[key]int{}
	each(func(sheet string, c common) {
		for _, name := range append([]string{c.Heading}, c.Aliases...) {
			k := key{sheet, fold(name)}
			if at, had := seen[k]; had {
				assert.Equal(t, at, c.index, "%s: heading %q names two columns", sheet, name)
			}
			seen[k] = c.index
		}
	})
}

// fold is a plain account of what the reader folds: enough for our own headings, which have no accents and no brackets that matter.
func fold(s string) string {
	if i := strings.IndexAny(s, "(["); i > 0 {
		s = s[:i]
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

func TestEntriesAreWhole(t *testing.T) {
	each(func(sheet string, c common) {
		name := sheet + ": " + c.Heading
		assert.NotEmpty(t, c.Help, name)
		assert.LessOrEqual(t, c.Min, c.Max, name)
		assert.NotNil(t, c.place, name)
		if c.Required {
			assert.Empty(t, c.Default, "%s is required and has a default", name)
		}
		if c.Quantity == units.Share {
			assert.Equal(t, 1.0, c.PercentAbove, "%s: above 1 is percent", name)
		}
		for word, choice := range c.Synonyms {
			assert.Equal(t, fold(word), word, "%s: a synonym is folded", name)
			assert.Contains(t, c.Choices, choice, name)
		}
		switch c.place.(type) {
		case *bool, *units.Maybe[bool], *units.System:
			assert.Len(t, c.Choices, 2, "%s: the words of false and true", name)
		case *float64, *units.Maybe[float64], columns.Amount, *columns.NumberList, *calc.Pipe:
			assert.NotEqual(t, units.Text, c.Quantity, name)
		case *string, *season.Day, *columns.Date, *columns.Month, *columns.ChoiceList, *columns.Pattern:
		default:
			t.Errorf("%s: the reader knows no %T", name, c.place)
		}
	})
}

// A blank that is left to other cells or to design is a Maybe and has no default here; what is not a Maybe must never be left at zero.
func TestNumbersHaveADefaultOrMayBeBlank(t *testing.T) {
	settled := map[finding.Field]string{"energy_heat_content": "by unit", "energy_efficiency": "by carrier"}
	each(func(sheet string, c common) {
		switch c.place.(type) {
		case *float64:
			if settled[c.Field] == "" {
				assert.True(t, c.Required || c.Default != "", "%s: %s", sheet, c.Heading)
			}
		case *units.Maybe[float64], *units.Maybe[bool]:
			assert.Empty(t, c.Default, "%s: %s", sheet, c.Heading)
		}
	})
}

// What nothing is calculated from can't be required, and is no number.
func TestBookkeepingIsWords(t *testing.T) {
	each(func(sheet string, c common) {
		if c.Bookkeeping {
			assert.True(t, !c.Required && c.Default == "" && c.Quantity == units.Text, "%s: %s", sheet, c.Heading)
		}
		assert.Equal(t, c.Quantity == units.Angle, len(c.Directions) == 2, "%s: %s", sheet, c.Heading)
	})
}

// A size in SI with its I-P size behind it, as the notes give them.
var bothUnits = regexp.MustCompile(`([0-9.]+) (km|m|mm|K|°C) \(([0-9.,]+) (mi|ft|in|°F)\)`)

// The I-P size is the SI one, rounded to the digits that it is written with. Source of the factors: 1 in = 25.4 mm, 1 mi = 1.609344 km, both exact.
func TestNotesAgreeInBothUnits(t *testing.T) {
	convert := map[string]func(float64) float64{
		"mm in": func(v float64) float64 { return v / 25.4 }, "m ft": func(v float64) float64 { return v / 0.3048 }, "km mi": func(v float64) float64 { return v / 1.609344 },
		"K °F": func(v float64) float64 { return v * 1.8 }, "°C °F": func(v float64) float64 { return v*1.8 + 32 },
	}
	seen := 0
	each(func(sheet string, c common) {
		for _, g := range bothUnits.FindAllStringSubmatch(c.Help, -1) {
			seen++
			v, err := strconv.ParseFloat(g[1], 64)
			require.NoError(t, err)
			require.Contains(t, convert, g[2]+" "+g[4])
			_, decimals, _ := strings.Cut(g[3], ".")
			assert.Equal(t, strings.ReplaceAll(g[3], ",", ""), strconv.FormatFloat(convert[g[2]+" "+g[4]](v), 'f', len(decimals), 64), "%s: %s: %s", sheet, c.Heading, g[0])
		}
	})
	assert.Greater(t, seen, 10)
}

// Reasons are told behind the value that was taken, in the reader's units: they begin small, hold no figure, and name their source last.
func TestReasonsOfDefaultsAreOfOneStyle(t *testing.T) {
	table, err := fs.ReadFile(templates.FS(), "en/defaults.tsv")
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(table)), "\n")[1:] {
		code, reason, _ := strings.Cut(line, "\t")
		assert.Regexp(t, `^[a-z][^0-9]*[a-z]$`, reason, code)
		assert.NotContains(t, reason, ". ", code)
		assert.NotRegexp(t, `^(yes|no|unknown)\b`, reason, "%s: the value stands before it", code)
	}
}

func TestReasonsOfDefaultsHaveWords(t *testing.T) {
	table, err := fs.ReadFile(templates.FS(), "en/defaults.tsv")
	require.NoError(t, err)
	words := map[string]bool{}
	for line := range strings.Lines(string(table)) {
		code, _, _ := strings.Cut(line, "\t")
		words[code] = true
	}
	each(func(sheet string, c common) {
		if c.DefaultSource != "" {
			assert.True(t, words[c.DefaultSource], "%s: %s: no words for %s", sheet, c.Heading, c.DefaultSource)
			assert.NotEmpty(t, c.Default, "%s: %s", sheet, c.Heading)
		}
	})
}

// The columns that the pages for users promise, so that none gets lost.
func TestPromisedColumns(t *testing.T) {
	have := map[string]bool{}
	each(func(sheet string, c common) { have[sheet+"/"+c.Heading] = true })
	for _, want := range []string{"Site ID", "Zone ID", "Include", "Issued for", "Station", "Latitude", "Weather file", "Wind factor", "Area", "Perimeter",
		"Length in the wind's direction", "Use", "Critical", "Slope", "Drain", "Treads", "Riser height", "Risers included", "Snow-free area ratio", "Percentile", "Design flux",
		"Design margin", "Stage", "Support", "Post-tensioned", "Membrane or occupied space below", "Surface", "Slab thickness", "Conductivity", "Surface thickness",
		"Bedding thickness", "Pipe or cable depth", "Under-slab insulation R", "Edge insulation", "Ground temperature", "Heat", "Energy ID", "Pipe", "Spacing", "Loop length",
		"Fluid", "Fluid concentration", "Temperature drop", "Supply limit", "Cable output", "Voltage", "Phases", "Installed output", "Detector housing",
		"Embedded slab sensor", "Control now", "Start wanted", "Stop wanted", "Idling wanted", "Surface set point melting", "Surface set point idling",
		"Lowest melting temperature", "Distance to panel", "Roof or mast available", "Traffic at detector", "Distance to heated edge", "Obstacle height",
		"Distance to obstacle", "Overhang or trees", "Drains past detector", "Sun", "Shaded share at winter noon", "Wind-blown or tracked snow", "Snow stored beside",
		"Salt used", "Exhaust within 3 m", "Unheated walk downhill", "Clearing cost a year now", "Energy used a year now", "Its winter", "First cost",
		"Chosen alternative", "Decision"} {
		assert.True(t, have["Sites/"+want], want)
	}
}
