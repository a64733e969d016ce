package starter

import (
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"unicode"

	"thawbook/calc/units"
)

// language is that of the starter's sentences. The headings are the same in every language.
const language = "en"

// texts are the sentences and the reasons of defaults, by code.
type texts struct{ sentences, reasons map[string]string }

func readTexts(fsys fs.FS) (texts, error) {
	var t texts
	var err error
	if t.sentences, err = readLines(fsys, "sentences"); err != nil {
		return t, err
	}
	t.reasons, err = readLines(fsys, "defaults")
	return t, err
}

// readLines reads a table of two columns: code and text.
func readLines(fsys fs.FS, name string) (map[string]string, error) {
	rows, err := readRows(fsys, path.Join(language, name+".tsv"))
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	for _, r := range rows {
		if len(r) > 1 {
			out[r[0]] = r[1]
		}
	}
	return out, nil
}

// say returns a sentence with its {names} filled by pairs of name and value. A code without a sentence returns itself in brackets.
func (t texts) say(code string, pairs ...string) string {
	text, found := t.sentences["starter-"+code]
	if !found {
		return "[starter-" + code + "]"
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		text = strings.ReplaceAll(text, "{"+pairs[i]+"}", pairs[i+1])
	}
	return text
}

// note tells what a column means, what it takes and what its blank means.
func (t texts) note(c column, system units.System) string {
	parts := []string{c.help}
	if c.required {
		parts = append([]string{t.say("required")}, parts...)
	}
	if least, most, ranged := c.bounds(system); ranged {
		unit := c.unit(system)
		if unit == "" {
			parts = append(parts, t.say("range-bare", "least", least, "most", most))
		} else {
			parts = append(parts, t.say("range", "least", least, "most", most, "unit", unit))
		}
	}
	if dflt := c.blank(system); dflt != "" {
		parts = append(parts, t.say("blank", "default", plainly(dflt)))
	}
	return strings.Join(parts, " ")
}

// plainly quotes a value that is a sign, such as a decimal mark.
func plainly(value string) string {
	if strings.ContainsFunc(value, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		return value
	}
	return "“" + value + "”"
}

// choices lists the choices of a column.
func (t texts) choices(c column) string {
	list := make([]string, len(c.choices))
	for i, choice := range c.choices {
		list[i] = plainly(choice)
	}
	return strings.Join(list, ", ")
}

// readRows reads a tab-separated table as it stands: rows of any length, quotes as they are.
func readRows(fsys fs.FS, name string) ([][]string, error) {
	in, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	r := csv.NewReader(in)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = '\t', true, -1
	var rows [][]string
	for {
		row, err := r.Read()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		rows = append(rows, row)
	}
}
