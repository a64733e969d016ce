package report_test

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/report/record"
	"thawbook/report/sheets"
	"thawbook/report/show"
	"thawbook/report/submittal"
	"thawbook/report/words"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write report/README.md anew")

const reportPage = "README.md"

// rowOf says what a row of a result sheet is, by the sheet's key.
var rowOf = map[string]string{
	"summary":      "a site: status, area, heat, sensors, yearly cost, link to its PDF",
	"loads":        "a zone: every term of the surface balance in the design hour, percentiles, back and edge loss, totals, unmet hours",
	"slab":         "a zone with a heated slab: conduction, fluid or element temperature, evenness, warm-up",
	"setpoints":    "a zone and an outdoor temperature: what the slab and the supply should be, melting and idling",
	"sensing":      "a zone: sensors, what begins heat, what ends it, what limits the slab, why, and each kit not chosen with the reason; number, place and parts of the devices; the energy-code screen",
	"piping":       "a zone with pipes: loops, flow, head term by term, fluid, volumes",
	"electric":     "a zone with cable: density, cable, circuits, protection",
	"season":       "a zone and a strategy: hours off, idling, melting and drying; energy up and back, and of each month; hours with snow on the surface; delays that storms ask for",
	"cost":         "a zone, a strategy and a winter, mild, typical or severe: energy, demand, standing charge, total, CO2",
	"alternatives": "a site and an alternative: first and yearly cost, present value, savings, paybacks, break-even price, what it lacks",
	"quantities":   "a line of what an alternative costs: quantity, unit cost, amount, and the cell or equation that each came from",
	"checklist":    "a line of what to do where the devices of a zone go: phase, what to do, what it prevents",
	"schedule":     "a piece to buy or to place: part, quantity, lead and where it goes",
	"portfolio":    "a region and a winter, then all regions: yearly cost as in Sites, as it is now, as decided, per area; below them the ten largest sites, which to change first, which are open",
	"findings":     "one code at one cell: what is wrong and what to do",
	"basis":        "a line: method, constant, default used, file read",
	"changes":      "a result of a zone that moved since the run before, by how much; the sheet comes when something first moved",
}

// aboutSection says what a section of the PDF holds and when it is there, by its name.
var aboutSection = map[string]string{
	"first":        "What is heated, how much heat it takes, which sensors, what it costs, what must be decided; contents with pages and links. Always there",
	"basis":        "What was told, what was not told and is taken, the weather. Always there",
	"load":         "The load line by line with equation and source, from the design hour to the installed output; frequencies; the terms below. Where a zone was calculated",
	"slab":         "A cut through each pavement to scale with its temperatures, evenness, warm-up; schedules of loops or of cable and circuits; the plant. Where a zone has a heated slab",
	"reset":        "Slab and supply temperature by outdoor temperature, as a table and a chart, and the limits. Where a zone has a reset curve",
	"sensing":      "The kit, the three answers, the reasons, kits not chosen; number and place of devices on a plan to scale and in a cut through the housing; parts with lead and price. Where a zone has a kit",
	"checklist":    "What to do where detectors go, by phase, and each year by season, each line with the failure it prevents; tests with pass values for this site, and room for what was measured and initials. Where a zone has a kit",
	"sequence":     "How each zone runs, state by state, with its own set points. Where a zone has heat and a kit",
	"screen":       "What an energy code asks of the control: meets, does not, or ask the authority; questions to ask; no certificate. Where a zone has a kit",
	"season":       "Every way of control: hours, heat, snow and cost of a typical winter, snow and cost drawn beside their numbers; months, a storm hour by hour, delays to set and metered energy of the way chosen; mild, typical and severe. Where a zone has a climate",
	"alternatives": "The ways of doing the site side by side: first cost by item, present value by part, what each lacks, and a tornado of what net savings rest on. Where there is more than one",
	"sources":      "The sources of equations and given values, which the tables of calculation number. Where anything was calculated",
	"cautions":     "Cautions that fit this site's choices, and what to ask. Where any applies",
	"findings":     "Everything that was found about this site's input and results. Where there is any",
	"attachments":  "Pictures of the sheet Attachments that end no other chapter, each with its caption. Where there are any",
	"review":       "The lines of Revisions; who prepared, checked and reviewed it, and a space for a seal. Always there",
}

func TestReportPageIsCurrent(t *testing.T) {
	page := "# What comes out\n\nMade from the tables of this folder by its test; run `go test ./report -update` after a change there.\n" +
		sheetsText(t) + sectionsText(t) + keysText(t)
	if *update {
		require.Empty(t, os.Getenv("CI"), "a page is not written anew where it is checked")
		require.NoError(t, os.WriteFile(reportPage, []byte(page), 0o644))
	}
	stored, err := os.ReadFile(reportPage)
	require.NoError(t, err)
	assert.Equal(t, string(stored), page, "run go test ./report -update")
}

// cells writes a row of a Markdown table.
func cells(list ...string) string {
	for i, c := range list {
		list[i] = strings.ReplaceAll(c, "|", `\|`)
	}
	return "| " + strings.Join(list, " | ") + " |\n"
}

func sheetsText(t *testing.T) string {
	var p strings.Builder
	p.WriteString("\n## Result sheets\n\nIn a copy of the workbook, behind the user's own sheets. The unit stands in brackets behind a heading, in the units that Settings asks for; money is in " +
		"the workbook's currency. A cell is empty where a value does not apply or is not known. Keys are names for developers; they don't stand in the sheet.\n")
	for _, s := range sheets.List() {
		require.Contains(t, rowOf, s.Key, "say in report/readme_test.go what a row of %s is", s.Name)
		p.WriteString("\n### " + s.Name + "\n\nA row is " + rowOf[s.Key] + ".\n\n" + cells("Heading", "Unit, SI / I-P", "Key") + "|---|---|---|\n")
		for _, c := range s.Columns {
			p.WriteString(cells(c.Heading, unitOf(c), "`"+c.Key+"`"))
		}
	}
	return p.String()
}

func unitOf(c sheets.SheetColumn) string {
	si, ip := c.Quantity.In(units.SI).Symbol, c.Quantity.In(units.IP).Symbol
	switch {
	case c.Look == sheets.Money:
		return "currency"
	case si == ip:
		return si
	}
	return si + " / " + ip
}

func sectionsText(t *testing.T) string {
	w, err := words.Load(templates.FS(), "en", show.Style{})
	require.NoError(t, err)
	var p strings.Builder
	p.WriteString("\n## Sections of the PDF\n\nOne PDF a site, in this order. A4 where Settings asks for SI, Letter for I-P.\n\n" + cells("Section", "What it holds, and when it is there") + "|---|---|\n")
	for i, name := range submittal.Sections() {
		require.Contains(t, aboutSection, name, "say in report/readme_test.go what the section %s holds", name)
		title := "The first page"
		if i > 0 {
			title = w.Say("pdf-section-" + name)
		}
		p.WriteString(cells(title, aboutSection[name]+"."))
	}
	return p.String()
}

// keysText tells every key of results.json, an object at a time, with what its type's comment says.
func keysText(t *testing.T) string {
	said := comments(t, "record")
	var p strings.Builder
	p.WriteString("\n## Keys of results.json\n\nOne object, schema `" + record.Schema + "`. SI units; the unit stands at the end of a name. Identifiers are English in every language; paths count " +
		"from the file's folder. What does not apply or is not calculated is null. Keys may be added; none is renamed.\n")
	writeObject(t, &p, said, "", reflect.TypeFor[record.Results](), map[reflect.Type]bool{})
	return p.String()
}

// writeObject tells the keys of an object, then those of the objects in it, each type once.
func writeObject(t *testing.T, p *strings.Builder, said map[string]string, path string, of reflect.Type, told map[reflect.Type]bool) {
	about := said[of.Name()]
	require.NotEmpty(t, about, "the type %s has no comment", of.Name())
	title := path
	if path == "" {
		title = "The whole"
	}
	p.WriteString("\n### " + title + "\n\n" + about + "\n\n" + cells("Key", "Holds") + "|---|---|\n")
	type object struct {
		path string
		of   reflect.Type
	}
	var inside []object
	for i := range of.NumField() {
		f := of.Field(i)
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		require.NotEmpty(t, key, "%s.%s has no key", of.Name(), f.Name)
		holds, inner, list := holdsOf(f.Type)
		p.WriteString(cells("`"+key+"`", holds))
		if inner == nil || told[inner] {
			continue
		}
		told[inner] = true
		at := strings.TrimPrefix(path+"."+key, ".")
		if list {
			at += "[]"
		}
		inside = append(inside, object{at, inner})
	}
	for _, o := range inside {
		writeObject(t, p, said, o.path, o.of, told)
	}
}

// holdsOf names what a key holds, and the type of the object in it where there is one.
func holdsOf(of reflect.Type) (name string, inner reflect.Type, list bool) {
	switch of {
	case reflect.TypeFor[record.Number]():
		return "number or null", nil, false
	case reflect.TypeFor[record.Amount]():
		return "money or null", nil, false
	case reflect.TypeFor[record.Value]():
		return "number or text", nil, false
	case reflect.TypeFor[record.Moved]():
		return "number, text or null", nil, false
	case reflect.TypeFor[record.Inputs]():
		return "object: every cell of the row as read, under the field's name with its unit", nil, false
	}
	switch of.Kind() {
	case reflect.Pointer:
		name, inner, list = holdsOf(of.Elem())
		return name + " or null", inner, list
	case reflect.Slice:
		name, inner, _ = holdsOf(of.Elem())
		if inner == nil {
			return "list of " + name + "s", nil, true
		}
		return "list of objects", inner, true
	case reflect.Struct:
		return "object", of, false
	case reflect.String:
		return "text", nil, false
	case reflect.Bool:
		return "true or false", nil, false
	case reflect.Int:
		return "whole number", nil, false
	}
	return of.String(), nil, false
}

// comments returns the comments on the types of a folder, without the type's name in front.
func comments(t *testing.T, folder string) map[string]string {
	t.Helper()
	said := map[string]string{}
	paths, err := filepath.Glob(filepath.Join(folder, "*.go"))
	require.NoError(t, err)
	for _, path := range paths {
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
		require.NoError(t, err)
		for _, d := range file.Decls {
			g, is := d.(*ast.GenDecl)
			if !is || g.Tok != token.TYPE {
				continue
			}
			for _, s := range g.Specs {
				spec := s.(*ast.TypeSpec)
				text := strings.Join(strings.Fields(g.Doc.Text()), " ")
				text = strings.TrimPrefix(strings.TrimPrefix(text, spec.Name.Name+" "), "is ")
				if text != "" {
					said[spec.Name.Name] = strings.ToUpper(text[:1]) + text[1:]
				}
			}
		}
	}
	return said
}
