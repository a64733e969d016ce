// Package words is every text for users: tables of sentences from templates, checked before work starts, filled with values in the reader's units.
package words

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// The tables of a language: files <language>/<table>.tsv with a heading row, the code in the first column.
const (
	Findings  = "findings"  // code, what is wrong, what to do
	Sentences = "sentences" // code, text
	Reasons   = "reasons"   // code, text: why a kit was chosen or rejected, what a kit lacks
	Cautions  = "cautions"  // code, text, why it is shown
	Topics    = "topics"    // code, text: what to ask the authority having jurisdiction
	Checklist = "checklist" // code, phase, line, the failure it prevents
	Defaults  = "defaults"  // code, text: where a default comes from
	Screen    = "screen"    // code, text: what the set can do of what an energy code asks, and questions
	Sequence  = "sequence"  // code, text: how a zone runs
	Tests     = "tests"     // code, test, what passes, the failure it prevents
	Care      = "care"      // code, when, line, the failure it prevents
)

// texts is how many texts each table holds behind the code. A table that is not listed holds at least one.
var texts = map[string]int{Findings: 2, Sentences: 1, Reasons: 1, Cautions: 2, Topics: 1, Checklist: 3, Defaults: 1, Screen: 1, Sequence: 1, Tests: 3, Care: 3}

// Words are the texts of one language, for one reader.
type Words struct {
	Show   show.Style
	tables map[string]map[string][]string
	order  map[string][]string
}

// Load reads all tables of a language. Errors name the file and the line.
func Load(fsys fs.FS, language string, style show.Style) (*Words, error) {
	w := &Words{Show: style, tables: map[string]map[string][]string{}, order: map[string][]string{}}
	files, err := fs.Glob(fsys, path.Join(language, "*.tsv"))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("no texts for language %q", language)
	}
	for _, file := range files {
		rows, err := read(fsys, file, 0)
		if err != nil {
			return nil, err
		}
		w.tables[tableOf(file)] = map[string][]string{}
		for _, r := range rows {
			w.put(tableOf(file), r)
		}
	}
	return w, nil
}

func tableOf(file string) string { return strings.TrimSuffix(path.Base(file), ".tsv") }

// row is a line of a table.
type row struct {
	line  int
	code  string
	texts []string
}

// put enters a row; one whose code is known stands in place of that.
func (w *Words) put(table string, r row) {
	if w.tables[table][r.code] == nil {
		w.order[table] = append(w.order[table], r.code)
	}
	w.tables[table][r.code] = r.texts
}

// mostText is the longest text that is read, in bytes; ours have less than a tenth of it.
const mostText = 8_000

// read reads the rows of a file with at least so many columns, and as many as its table needs.
func read(fsys fs.FS, file string, least int) ([]row, error) {
	data, err := fs.ReadFile(fsys, file)
	if err != nil {
		return nil, err
	}
	least = max(least, max(1, texts[tableOf(file)])+1)
	var rows []row
	seen := map[string]bool{}
	columns := 0
	for i, line := range strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n") {
		line = strings.TrimSuffix(line, "\r")
		if line == "" || line[0] == '#' {
			continue
		}
		cells := fields(line)
		if columns == 0 {
			if columns = len(cells); columns < least {
				return nil, fmt.Errorf("%s: line %d: %d columns, %d wanted", file, i+1, columns, least)
			}
			continue
		}
		if err := judge(cells, columns, seen); err != nil {
			return nil, fmt.Errorf("%s: line %d: %w", file, i+1, err)
		}
		seen[cells[0]] = true
		rows = append(rows, row{i + 1, cells[0], cells[1:]})
	}
	return rows, nil
}

// judge says what is wrong with the cells of a row.
func judge(cells []string, columns int, seen map[string]bool) error {
	switch {
	case len(cells) != columns:
		return fmt.Errorf("%d columns, %d wanted", len(cells), columns)
	case cells[0] == "" || strings.TrimSpace(cells[1]) == "":
		return errors.New("a code or its text is empty")
	case seen[cells[0]]:
		return fmt.Errorf("%q stands twice", cells[0])
	}
	for _, c := range cells {
		if len(c) > mostText {
			return fmt.Errorf("a text of %d bytes, at most %d are read", len(c), mostText)
		}
	}
	return nil
}

// fields cuts a line at its tabs. Quotation marks are text, unless a spreadsheet program put them around a whole field.
func fields(line string) []string {
	row := strings.Split(line, "\t")
	for i, f := range row {
		if len(f) < 2 || f[0] != '"' || f[len(f)-1] != '"' {
			continue
		}
		inner := f[1 : len(f)-1]
		if bare := strings.ReplaceAll(inner, `""`, ""); !strings.Contains(bare, `"`) {
			row[i] = strings.ReplaceAll(inner, `""`, `"`)
		}
	}
	return row
}

// Say returns the sentence with this code, filled.
func (w *Words) Say(code string, args ...finding.Arg) string {
	return w.Line(Sentences, code, args...)[0]
}

// Line returns the texts of a code in a table, filled. A code without texts returns itself in brackets: a test holds that this never happens.
func (w *Words) Line(table, code string, args ...finding.Arg) []string {
	texts, found := w.tables[table][code]
	if !found {
		return []string{"[" + code + "]", "", "", ""}
	}
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = w.fill(t, args)
	}
	return out
}

// Finding returns what is wrong and what to do.
func (w *Words) Finding(f finding.Finding) (what, todo string) {
	line := w.Line(Findings, string(f.Code), f.Args...)
	return line[0], line[1]
}

// Codes returns the codes of a table in the order of its file.
func (w *Words) Codes(table string) []string { return w.order[table] }

// Has says whether a table has a code.
func (w *Words) Has(table, code string) bool { return w.tables[table][code] != nil }

// fill puts each Arg in place of its {name}, once: a brace in a value is not looked at again. A {name} without an Arg stays.
func (w *Words) fill(text string, args []finding.Arg) string {
	if !strings.Contains(text, "{") {
		return text
	}
	pairs := make([]string, 0, 2*len(args))
	for _, a := range args {
		pairs = append(pairs, "{"+a.Name+"}", w.value(a))
	}
	filled := strings.NewReplacer(pairs...).Replace(text)
	if len(filled) > mostFilled {
		filled = strings.ToValidUTF8(filled[:mostFilled], "") + "…"
	}
	return filled
}

// mostFilled is the longest filled text in bytes; what is longer is cut, whatever a text repeats.
const mostFilled = 4 * mostText

func (w *Words) value(a finding.Arg) string {
	switch {
	case a.Minor.Known:
		return w.Show.Money(cost.Money(a.Minor.Value))
	case a.Typed:
		return w.Show.Typed(a.Number, a.Quantity)
	case a.Quantity != units.Text:
		return w.Show.With(a.Number, a.Quantity)
	}
	return a.Text
}
