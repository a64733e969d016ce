package ingest

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"thawbook/calc/units"
)

// fold brings together what a person would call the same heading or word: case, spaces, punctuation and accents do not count, nor does what
// stands in brackets behind.
func fold(text string) string {
	if i := strings.IndexAny(text, "(["); i > 0 {
		text = text[:i]
	}
	return foldAll(text)
}

// foldAll folds the whole text, brackets included.
func foldAll(text string) string {
	plain := true
	for i := range len(text) {
		if text[i] >= unicode.MaxASCII {
			plain = false
			break
		}
	}
	if !plain {
		text = norm.NFKD.String(text)
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, strings.ReplaceAll(text, "ß", "ss"))
}

// brackets returns what stands in each pair of brackets or parentheses of a heading, outermost pairs only.
func brackets(heading string) []string {
	var out []string
	depth, start := 0, 0
	for i, r := range heading {
		switch r {
		case '(', '[':
			if depth == 0 {
				start = i + 1
			}
			depth++
		case ')', ']':
			if depth--; depth == 0 {
				out = append(out, heading[start:i])
			}
			depth = max(depth, 0)
		}
	}
	if depth > 0 {
		out = append(out, heading[start:])
	}
	return out
}

// unitOf finds the unit that a person wrote for a quantity. Percent stands for a hundredth in any bare number.
func unitOf(q units.Quantity, text string) (units.Unit, bool) {
	text = clean(text)
	if text == "" {
		return units.Unit{}, false
	}
	if u, found := q.Parse(text); found {
		return u, true
	}
	for _, u := range q.Units() {
		if u.Symbol == text {
			return u, true // a sign alone, such as °
		}
	}
	if u, found := units.Share.Parse(text); found && u.Symbol == "%" && bare(q) {
		return u, true
	}
	return units.Unit{}, false
}

// bare says whether a quantity is a bare number in both systems.
func bare(q units.Quantity) bool { return q.In(units.SI).Symbol == "" && q != units.Text }

// distance returns the edit distance of two folded words: letters added, dropped, changed or swapped with their neighbour.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range y {
		rows[0][j+1] = j + 1
	}
	for i := range x {
		for j := range y {
			change := 1
			if x[i] == y[j] {
				change = 0
			}
			d := min(rows[i][j]+change, rows[i][j+1]+1, rows[i+1][j]+1)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				d = min(d, rows[i-1][j-1]+1)
			}
			rows[i+1][j+1] = d
		}
	}
	return rows[len(x)][len(y)]
}

// longest bounds the words that are compared letter by letter.
const longest = 60

// nearest returns the one word that is written most like want, with at most a quarter of its letters wrong; "" when none is, or two are alike.
func nearest(want string, words []string) string {
	if len(want) < 4 || len(want) > longest {
		return ""
	}
	best, found, twice := len(want)/4+1, "", false
	for _, w := range words {
		if len(w) < 4 || len(w)-len(want) > best || len(want)-len(w) > best {
			continue
		}
		switch d := distance(want, w); {
		case d < best:
			best, found, twice = d, w, false
		case d == best && found != "" && w != found:
			twice = true
		}
	}
	if twice {
		return ""
	}
	return found
}

// clean trims what a person doesn't see at the ends of a text.
func clean(text string) string {
	return strings.TrimFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff' })
}
