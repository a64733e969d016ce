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
	for _, f := range files {
		if err := w.read(fsys, f); err != nil {
			return nil, err
		}
	}
	return w, nil
}

func (w *Words) read(fsys fs.FS, file string) error {
	data, err := fs.ReadFile(fsys, file)
	if err != nil {
		return err
	}
	name := strings.TrimSuffix(path.Base(file), ".tsv")
	table := map[string][]string{}
	columns := 0
	for i, line := range strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n") {
		line = strings.TrimSuffix(line, "\r")
		if line == "" || line[0] == '#' {
			continue
		}
		row := fields(line)
		if columns == 0 {
			columns = len(row)
			if least := max(1, texts[name]) + 1; columns < least {
				return fmt.Errorf("%s: line %d: %d columns, %d wanted", file, i+1, columns, least)
			}
			continue
		}
		if err := enter(table, row, columns); err != nil {
			return fmt.Errorf("%s: line %d: %w", file, i+1, err)
		}
		w.order[name] = append(w.order[name], row[0])
	}
	w.tables[name] = table
	return nil
}

// enter puts a row into a table.
func enter(table map[string][]string, row []string, columns int) error {
	_, twice := table[row[0]]
	switch {
	case len(row) != columns:
		return fmt.Errorf("%d columns, %d wanted", len(row), columns)
	case row[0] == "" || strings.TrimSpace(row[1]) == "":
		return errors.New("a code or its text is empty")
	case twice:
		return fmt.Errorf("%q stands twice", row[0])
	}
	table[row[0]] = row[1:]
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
	return strings.NewReplacer(pairs...).Replace(text)
}

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
