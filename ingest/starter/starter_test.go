package starter_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest"
	"thawbook/ingest/hourly"
	"thawbook/ingest/starter"
	"thawbook/templates"
)

// kinds are the workbooks that can be written.
var kinds = []struct {
	name   string
	system units.System
	demo   bool
}{{"SI", units.SI, false}, {"I-P", units.IP, false}, {"demo SI", units.SI, true}, {"demo I-P", units.IP, true}}

// written returns the bytes of a workbook.
func written(t *testing.T, system units.System, demo bool) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, starter.Write(&b, system, demo))
	return b.Bytes()
}

// read puts a workbook into a folder of its own and reads it.
func read(t *testing.T, data []byte) *ingest.Book {
	t.Helper()
	name := filepath.Join(t.TempDir(), "book.xlsx")
	require.NoError(t, os.WriteFile(name, data, 0o600))
	book, err := ingest.Read(name)
	require.NoError(t, err)
	return book
}

// opened opens a workbook with the library that wrote it.
func opened(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, f.Close()) })
	return f
}

func TestSameBytes(t *testing.T) {
	for _, k := range kinds {
		t.Run(k.name, func(t *testing.T) {
			first := written(t, k.system, k.demo)
			for range 5 {
				require.True(t, bytes.Equal(first, written(t, k.system, k.demo)), "the same call writes the same bytes")
			}
		})
	}
}

// Every heading, band, title and note must be understood, or left alone without a word, by the reader.
func TestStarterIsReadWithoutRemarks(t *testing.T) {
	for _, k := range kinds[:2] {
		t.Run(k.name, func(t *testing.T) {
			book := read(t, written(t, k.system, k.demo))
			require.Len(t, book.Findings, 1, "%v", book.Findings)
			assert.Equal(t, ingest.CodeNoZones, book.Findings[0].Code)
			assert.Equal(t, k.system, book.Settings.Units)
			assert.NotEmpty(t, book.Energies)
			for _, e := range book.Energies {
				assert.True(t, e.Example, e.ID)
			}
			assert.Len(t, book.Costs, 14)
			for _, c := range book.Costs {
				assert.True(t, c.Example, c.Item)
			}
			assert.Len(t, book.Parts, 7)
		})
	}
}

// A row of the columns that stand first gives a result: what the first sheet promises.
func TestFirstColumnsAreEnough(t *testing.T) {
	f := opened(t, written(t, units.SI, false))
	for cell, v := range map[string]any{"A4": "S-1", "E4": "Burlington, VT", "F4": 120, "G4": "walk", "I4": "GAS"} {
		require.NoError(t, f.SetCellValue("Sites", cell, v))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	book := read(t, b.Bytes())
	require.Len(t, book.Sites, 1)
	o := engine(t, book).Site(book.Sites[0]).Outcomes[0]
	assert.Equal(t, calc.StatusOK, o.Status(), "%v", o.Findings)
	assert.NotNil(t, o.Load)
	assert.NotEmpty(t, o.Costs)
}

// Limits of the spreadsheet format. Source: ECMA-376 part 1, dataValidation (promptTitle 32, prompt 255, list 255 characters).
func TestNotesAndDropDowns(t *testing.T) {
	for _, k := range kinds {
		t.Run(k.name, func(t *testing.T) {
			f := opened(t, written(t, k.system, k.demo))
			lists := 0
			for _, sheet := range []string{"Sites", "Climate", "Energy", "Parts", "Costs"} {
				all, err := f.GetDataValidations(sheet)
				require.NoError(t, err)
				require.NotEmpty(t, all)
				for _, v := range all {
					require.NotNil(t, v.Prompt)
					assert.LessOrEqual(t, len([]rune(*v.PromptTitle)), 32)
					assert.LessOrEqual(t, len([]rune(*v.Prompt)), 255)
					assert.NotContains(t, *v.Prompt, "…", "a note is cut: %s", *v.PromptTitle)
					assert.LessOrEqual(t, len(v.Formula1), 255+2)
					if v.Type == "list" {
						lists++
					}
				}
			}
			assert.Greater(t, lists, 10)
		})
	}
}

func TestStationsCanBeChosen(t *testing.T) {
	f := opened(t, written(t, units.SI, false))
	all, err := f.GetDataValidations("Sites")
	require.NoError(t, err)
	stations, err := hourly.ReadStations(templates.FS())
	require.NoError(t, err)
	for _, v := range all {
		if *v.PromptTitle != "Station" {
			continue
		}
		last, err := f.GetCellValue("Stations", excelRef(t, 2+len(stations)))
		require.NoError(t, err)
		assert.Equal(t, stations[len(stations)-1].Name, last)
		assert.Contains(t, v.Formula1, "'Stations'!$A$3:$A$")
		return
	}
	t.Error("Station has no drop-down")
}

func excelRef(t *testing.T, row int) string {
	t.Helper()
	name, err := excelize.CoordinatesToCellName(1, row)
	require.NoError(t, err)
	return name
}

// A sentence that is missing shows as its code in brackets.
func TestEverySentenceIsThere(t *testing.T) {
	for _, k := range kinds {
		f := opened(t, written(t, k.system, k.demo))
		for _, sheet := range f.GetSheetList() {
			assert.NotContains(t, sheet, "[starter-")
			rows, err := f.GetRows(sheet)
			require.NoError(t, err)
			for _, row := range rows {
				for _, cell := range row {
					assert.NotContains(t, cell, "[starter-")
				}
			}
		}
	}
	page, err := starter.Reference()
	require.NoError(t, err)
	assert.NotContains(t, page, "[starter-")
	assert.NotContains(t, page, "()", "a default without a reason")
}

func TestLookOfSites(t *testing.T) {
	f := opened(t, written(t, units.IP, false))
	panes, err := f.GetPanes("Sites")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	assert.Equal(t, []int{1, 3}, []int{panes.XSplit, panes.YSplit}, "Site ID and the headings stay in view")
	layout, err := f.GetPageLayout("Sites")
	require.NoError(t, err)
	assert.Equal(t, "landscape", *layout.Orientation)
	for cell, want := range map[string]string{"A2": "Fill these first", "A3": "Site ID *", "E3": "Station", "F3": "Area [ft²] *"} {
		got, err := f.GetCellValue("Sites", cell)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}

func TestFill(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, starter.Fill(&b, units.SI, fstest.MapFS{"sites.tsv": {Data: []byte(
		"Our list\nSite ID\tArea [m2]\tOwn column\nS-1\t12.5\t007\n#hidden\nS-2\t1,150\t=B4*2\nS-3\t-4\t1e3\n")}}))
	f := opened(t, b.Bytes())
	title, err := f.GetCellValue("Sites", "A1")
	require.NoError(t, err)
	assert.Equal(t, "Our list", title)
	for cell, want := range map[string]struct {
		kind excelize.CellType
		text string
	}{
		"B4": {excelize.CellTypeUnset, "12.5"}, "C4": {excelize.CellTypeSharedString, "007"},
		"B5": {excelize.CellTypeSharedString, "1,150"}, "B6": {excelize.CellTypeUnset, "-4"}, "C6": {excelize.CellTypeSharedString, "1e3"},
	} {
		kind, err := f.GetCellType("Sites", cell)
		require.NoError(t, err)
		text, err := f.GetCellValue("Sites", cell)
		require.NoError(t, err)
		assert.Equal(t, want.kind, kind, cell)
		assert.Equal(t, want.text, text, cell)
	}
	formula, err := f.GetCellFormula("Sites", "C5")
	require.NoError(t, err)
	assert.Equal(t, "B4*2", strings.TrimPrefix(formula, "="))
	for row, want := range map[int]bool{4: true, 5: false, 6: true} {
		visible, err := f.GetRowVisible("Sites", row)
		require.NoError(t, err)
		assert.Equal(t, want, visible, "row %d", row)
	}
}

// engine returns an engine for what a workbook says.
func engine(t *testing.T, book *ingest.Book) *calc.Engine {
	t.Helper()
	builtIn, err := hourly.ReadStations(templates.FS())
	require.NoError(t, err)
	in, err := templates.FS().Open("rules/sensing.tsv")
	require.NoError(t, err)
	defer in.Close()
	rules, err := facts.Parse("sensing", in)
	require.NoError(t, err)
	return calc.NewEngine(calc.Inputs{Settings: book.Settings, Climate: calc.Climate{Stations: book.Stations, BuiltIn: builtIn, Refused: book.RefusedStations},
		Energies: book.Energies, EnergyRefused: book.RefusedEnergies, Parts: book.Parts, UnitCosts: book.Costs, Rules: rules})
}

// judged returns what calculating a workbook gives: the outcome of each zone by site and zone, and every finding at its cell.
func judged(t *testing.T, book *ingest.Book) (map[[2]string]calc.Outcome, []finding.Finding) {
	t.Helper()
	e, outcomes := engine(t, book), map[[2]string]calc.Outcome{}
	all := append([]finding.Finding(nil), book.Findings...)
	for _, s := range book.Sites {
		for _, o := range e.Site(s).Outcomes {
			outcomes[[2]string{o.Zone.Ref.SiteID, o.Zone.Ref.ZoneID}] = o
			for _, f := range o.Findings {
				book.Place(&f)
				all = append(all, f)
			}
		}
	}
	return outcomes, all
}
