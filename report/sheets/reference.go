package sheets

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// place is a cell as a formula names it. A part with a $ stays where a formula is copied.
type place struct {
	col, row           int
	fixedCol, fixedRow bool
}

// span is a range of cells; a single cell is a span of which both ends are the same.
type span struct {
	top, bottom place
	single      bool
}

const (
	mostRows    = 1_048_576
	mostColumns = 16_384
)

// placeOf reads a cell's name: A1, $A$1.
func placeOf(s string) (p place, ok bool) {
	s, p.fixedCol = strings.CutPrefix(s, "$")
	letters := 0
	for letters < len(s) && letters < 4 {
		c := s[letters] &^ 0x20
		if c < 'A' || c > 'Z' {
			break
		}
		p.col = 26*p.col + int(c-'A') + 1
		letters++
	}
	digits := s[letters:]
	digits, p.fixedRow = strings.CutPrefix(digits, "$")
	if letters == 0 || letters > 3 || p.col > mostColumns || digits == "" || digits[0] == '0' || len(digits) > 7 {
		return place{}, false
	}
	for i := range len(digits) {
		if digits[i] < '0' || digits[i] > '9' {
			return place{}, false
		}
		p.row = 10*p.row + int(digits[i]-'0')
	}
	return p, p.row <= mostRows
}

// String returns the cell's name.
func (p place) String() string {
	name, err := excelize.ColumnNumberToName(p.col)
	if err != nil || p.row < 1 || p.row > mostRows {
		return "#REF!"
	}
	row := strconv.Itoa(p.row)
	if p.fixedRow {
		row = "$" + row
	}
	if p.fixedCol {
		name = "$" + name
	}
	return name + row
}

// spanOf reads a cell or a range.
func spanOf(s string) (span, error) {
	first, second, both := strings.Cut(strings.TrimSpace(s), ":")
	top, ok := placeOf(first)
	if !both && ok {
		return span{top, top, true}, nil
	}
	bottom, also := placeOf(second)
	if !ok || !also {
		return span{}, fmt.Errorf("%q is no range of cells", s)
	}
	return span{top: top, bottom: bottom}, nil
}

// String returns the range as a formula names it.
func (s span) String() string {
	if s.single {
		return s.top.String()
	}
	return s.top.String() + ":" + s.bottom.String()
}

// rewrite hands every cell and range that a formula names to f, with the sheet that stands before it, and puts what f returns in its place.
// Texts, names, functions and references to tables stay as they are.
func rewrite(formula string, f func(sheet string, s span) string) string {
	var out strings.Builder
	sheet, begun := "", 0 // the sheet named before a cell, and where its name begins
	for i := 0; i < len(formula); {
		switch c := formula[i]; {
		case c == '"':
			end := closing(formula, i, '"')
			out.WriteString(formula[i:end])
			i, sheet = end, ""
		case c == '\'':
			end := closing(formula, i, '\'')
			out.WriteString(formula[i:end])
			if end < len(formula) && formula[end] == '!' {
				sheet = strings.ReplaceAll(formula[i+1:end-1], "''", "'")
				out.WriteByte('!')
				end++
			}
			i = end
		case c == '[':
			end := bracket(formula, i)
			out.WriteString(formula[i:end])
			i = end
			begun = i
		case isWord(formula[i:]):
			end := wordEnd(formula, i)
			if end < len(formula) && formula[end] == '!' {
				sheet = formula[i:end]
				if begun == i && i > 0 && formula[i-1] == ']' {
					sheet = "]" + sheet // of another workbook
				}
				out.WriteString(formula[i : end+1])
				i = end + 1
				continue
			}
			word, to := reference(formula, i, end)
			if s, err := spanOf(word); err == nil && (to >= len(formula) || formula[to] != '(' && formula[to] != '[') {
				out.WriteString(f(sheet, s))
			} else {
				word, to = formula[i:end], end
				out.WriteString(word)
			}
			i, sheet = to, ""
		default:
			out.WriteByte(c)
			i, sheet = i+1, ""
		}
	}
	return out.String()
}

// reference extends a word that is a cell by the other end of its range.
func reference(formula string, from, end int) (word string, to int) {
	if end < len(formula) && formula[end] == ':' && isWord(formula[end+1:]) {
		other := wordEnd(formula, end+1)
		if _, ok := placeOf(formula[end+1 : other]); ok {
			return formula[from:other], other
		}
	}
	return formula[from:end], end
}

// closing returns the place behind a quoted text; a doubled mark is part of it.
func closing(s string, from int, mark byte) int {
	for i := from + 1; i < len(s); i++ {
		if s[i] != mark {
			continue
		}
		if i+1 < len(s) && s[i+1] == mark {
			i++
			continue
		}
		return i + 1
	}
	return len(s)
}

// bracket returns the place behind a bracket and all within it; an apostrophe takes the sense from the letter behind it.
func bracket(s string, from int) int {
	depth := 0
	for i := from; i < len(s); i++ {
		switch s[i] {
		case '\'':
			i++
		case '[':
			depth++
		case ']':
			if depth--; depth == 0 {
				return i + 1
			}
		}
	}
	return len(s)
}

func isWord(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return r == '$' || r == '_' || r == '\\' || r == '.' || r == '?' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

func wordEnd(s string, from int) int {
	i := from
	for i < len(s) && isWord(s[i:]) {
		_, n := utf8.DecodeRuneInString(s[i:])
		i += n
	}
	return i
}

// copied returns a formula as it reads after it was copied so many rows down and columns to the right.
func copied(formula string, down, right int) string {
	move := func(p place) place {
		if !p.fixedRow {
			p.row += down
		}
		if !p.fixedCol {
			p.col += right
		}
		return p
	}
	return rewrite(formula, func(_ string, s span) string {
		return span{move(s.top), move(s.bottom), s.single}.String()
	})
}

// moves tells where the rows of a sheet went when it was filled again.
type moves struct {
	to            map[int]int // rows that came from an earlier run
	last, newLast int         // the last row of results, before and now
}

// row returns where a row went. The headings stay, and what stood below the results still does.
func (m moves) row(old int) (int, bool) {
	switch {
	case old <= 1:
		return old, true
	case old > m.last:
		return min(old+m.newLast-m.last, mostRows), true
	}
	now, found := m.to[old]
	return now, found
}

// span returns where a range went. One that spans all results still does.
func (m moves) span(s span) (span, bool) {
	a, b := min(s.top.row, s.bottom.row), max(s.top.row, s.bottom.row)
	from, to := a, b
	if a > 2 || a == b {
		if from = m.nearest(a, b, 1); from == 0 {
			return s, false
		}
	}
	switch {
	case b == m.last && a != b:
		to = max(m.newLast, 2)
	default:
		if to = m.nearest(b, a, -1); to == 0 {
			return s, false
		}
	}
	s.top.row, s.bottom.row = min(from, to), max(from, to)
	return s, true
}

// nearest returns where the first row that is still there went, from one row towards another; 0 where none is.
func (m moves) nearest(from, towards, step int) int {
	for r := from; ; r += step {
		if now, found := m.row(r); found {
			return now
		}
		if r == towards {
			return 0
		}
	}
}

// formula returns a formula of a person's cell on this sheet after the rows moved: what it names is still what it named.
func (m moves) formula(text, sheet string) string {
	return rewrite(text, func(on string, s span) string {
		if on != "" && on != sheet {
			return s.String()
		}
		moved, found := m.span(s)
		if !found {
			return "#REF!"
		}
		return moved.String()
	})
}

// area returns where a list of ranges went, those that are gone left out.
func (m moves) area(list string) string {
	var out []string
	for part := range strings.FieldsSeq(list) {
		s, err := spanOf(part)
		if err != nil { // a whole column or row
			out = append(out, part)
			continue
		}
		if moved, found := m.span(s); found {
			out = append(out, moved.String())
		}
	}
	return strings.Join(out, " ")
}
