package facts

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// How a table is written.
const (
	effectMark = "->" // before the name of an effect column
	comment    = "#"  // begins a line that is not read
	or         = "|"  // between the words that a cell accepts
)

// Parse reads a table: tab-separated, a heading row of fact names and then of effect names marked "->", blank cells meaning any.
// Lines that begin with "#" and blank lines are left out. Errors name the table and the line; all of them are reported together.
func Parse(name string, r io.Reader) (Table, error) {
	p := parser{table: Table{Name: name}}
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		text := strings.TrimSuffix(lines.Text(), "\r")
		if n == 1 {
			text = strings.TrimPrefix(text, "\ufeff")
		}
		if strings.TrimSpace(text) == "" || strings.HasPrefix(text, comment) {
			continue
		}
		p.line(n, cells(text))
	}
	if err := lines.Err(); err != nil {
		p.errs = append(p.errs, fmt.Errorf("%s: %w", name, err))
	} else if p.table.Effects == nil && p.errs == nil {
		p.errs = append(p.errs, fmt.Errorf("%s: no heading row", name))
	}
	return p.table, errors.Join(p.errs...)
}

// Split returns the words of a cell that holds several.
func Split(cell string) []string {
	var words []string
	for word := range strings.SplitSeq(cell, or) {
		if word = strings.TrimSpace(word); word != "" {
			words = append(words, word)
		}
	}
	return words
}

func cells(line string) []string {
	out := strings.Split(line, "\t")
	for i := range out {
		out[i] = strings.TrimSpace(out[i])
	}
	return out
}

type parser struct {
	table Table
	errs  []error
	read  bool // the heading row
}

func (p *parser) fail(line int, format string, args ...any) {
	p.errs = append(p.errs, fmt.Errorf("%s: line %d: %s", p.table.Name, line, fmt.Sprintf(format, args...)))
}

func (p *parser) line(n int, row []string) {
	if !p.read {
		p.read, p.table.Line = true, n
		p.heading(n, row)
		return
	}
	p.row(n, row)
}

func (p *parser) heading(n int, row []string) {
	for _, name := range row {
		effect, isEffect := strings.CutPrefix(name, effectMark)
		effect = strings.TrimSpace(effect)
		switch {
		case effect == "":
			p.fail(n, "a column has no heading")
		case slices.Contains(p.table.Facts, name), slices.Contains(p.table.Effects, effect):
			p.fail(n, "the heading %q stands twice", name)
		case isEffect:
			p.table.Effects = append(p.table.Effects, effect)
		case p.table.Effects != nil:
			p.fail(n, "the fact %q stands behind an effect", name)
		default:
			p.table.Facts = append(p.table.Facts, name)
		}
	}
	if p.table.Effects == nil {
		p.fail(n, "no column is marked %q as an effect", effectMark)
	}
}

func (p *parser) row(n int, row []string) {
	columns := len(p.table.Facts) + len(p.table.Effects)
	if len(row) > columns {
		p.fail(n, "%d cells under %d headings", len(row), columns)
		return
	}
	r := Row{Line: n, Conditions: map[string][]string{}, Effects: map[string]string{}}
	for i, cell := range row {
		switch {
		case cell == "":
		case i < len(p.table.Facts):
			r.Conditions[p.table.Facts[i]] = Split(cell)
		default:
			r.Effects[p.table.Effects[i-len(p.table.Facts)]] = cell
		}
	}
	if len(r.Effects) == 0 {
		p.fail(n, "the row says nothing: every effect is blank")
		return
	}
	p.table.Rows = append(p.table.Rows, r)
}
