// Package terminal writes what check, explain, weather and the end of a run say on a terminal, at most 110 characters wide.
package terminal

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

const lineWidth = 110

// page collects lines; the first failed write is told at the end.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(text string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, strings.TrimRight(text, " "))
	}
}

// column is a cell of a row in columns: its text, wrapped into its width; numbers stand on the right.
type column struct {
	width int
	text  string
	right bool
}

// row writes cells side by side, two blanks between them, over as many lines as the longest needs.
func (p *page) row(indent int, cells ...column) {
	wrapped := make([][]string, len(cells))
	lines := 1
	for i, c := range cells {
		wrapped[i] = wrap(c.text, c.width)
		lines = max(lines, len(wrapped[i]))
	}
	for n := range lines {
		var b strings.Builder
		b.WriteString(strings.Repeat(" ", indent))
		for i, c := range cells {
			text := ""
			if n < len(wrapped[i]) {
				text = wrapped[i][n]
			}
			gap := strings.Repeat(" ", max(0, c.width-utf8.RuneCountInString(text)))
			if c.right {
				text = gap + text
			} else {
				text += gap
			}
			b.WriteString(text)
			if i < len(cells)-1 {
				b.WriteString("  ")
			}
		}
		p.line(b.String())
	}
}

// text writes a wrapped text with an indent.
func (p *page) text(indent int, text string) {
	p.row(indent, column{width: lineWidth - indent, text: text})
}

// labelled writes "label   text" lines of a list.
func (p *page) labelled(label, text string) {
	const width = 24
	p.row(0, column{width: width, text: label}, column{width: lineWidth - width - 2, text: text})
}

// wrap breaks a text at blanks into lines of at most width characters; a longer word is cut.
func wrap(text string, width int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		for utf8.RuneCountInString(word) > width {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			head := string([]rune(word)[:width])
			lines, word = append(lines, head), word[len(head):]
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}
