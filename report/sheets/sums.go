package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc/finding"
	"thawbook/report/sheets/book"
)

// CodeValueTyped tells of values that a person typed over results.
const CodeValueTyped finding.Code = "value-over-result"

// sumsPrefix begins the defined name that holds the sums of a sheet. They stand in the workbook, so that they tell without any file beside it what was
// typed over since it was written.
const sumsPrefix = markPrefix + "sums."

// checkSums are check sums of a sheet's columns: each the sum over its cells of a digest of the row's key and the cell's value, so that rows may be sorted.
type checkSums struct {
	rows    int
	columns []uint64 // in the order of our columns
}

func newSums(columns int) checkSums { return checkSums{columns: make([]uint64, columns)} }

// FNV-1a, 64 bits: http://www.isthe.com/chongo/tech/comp/fnv (from memory).
const (
	fnvBasis = 14695981039346656037
	fnvPrime = 1099511628211
)

// digest goes on with a digest over a text.
func digest(h uint64, text string) uint64 {
	for i := range len(text) {
		h = (h ^ uint64(text[i])) * fnvPrime
	}
	return h
}

// add takes in a cell. An empty one counts for nothing, and a part of the key for itself alone.
func (s *checkSums) add(column int, key uint64, text string, isKey bool) {
	if isKey {
		key = fnvBasis
	}
	if text = strings.TrimSpace(text); text != "" {
		s.columns[column] += digest(key, strings.ReplaceAll(text, "\r", ""))
	}
}

const sumDigits = 3 // of a column, to the base of 36: a formula holds a text of 255 characters at most, and a sheet may have seventy columns

// text returns the sums as a formula that is a text: number of rows, mark of the columns, and a few digits of each column.
func (s checkSums) text(columns []SheetColumn) string {
	var b strings.Builder
	fmt.Fprintf(&b, `"%d.%s.`, s.rows, short(layout(columns)))
	for _, v := range s.columns {
		b.WriteString(short(v))
	}
	return b.String() + `"`
}

// layout is the digest of a sheet's columns: sums of other columns say nothing.
func layout(columns []SheetColumn) uint64 {
	h := uint64(fnvBasis)
	for _, c := range columns {
		h = digest(h, c.Key+keyMark)
	}
	return h
}

// short returns the last digits of a number to the base of 36.
func short(v uint64) string {
	text := strings.Repeat("0", sumDigits) + strconv.FormatUint(v, 36)
	return text[len(text)-sumDigits:]
}

// typedOver lists our columns whose sums are not what they were when the sheet was written. Where rows are missing or more than they were, nothing is
// known. Where a key was typed over, every other column of its row differs too.
func (e *earlier) typedOver(written string, columns []SheetColumn, keys []int) []int {
	was := strings.Split(strings.Trim(written, `"`), ".")
	now := strings.Split(strings.Trim(e.sums.text(columns), `"`), ".")
	if len(was) != 3 || was[0] != now[0] || was[1] != now[1] || len(was[2]) != len(now[2]) {
		return nil
	}
	var list []int
	for i := range columns {
		at := sumDigits * i
		if e.at[i] != 0 && was[2][at:at+sumDigits] != now[2][at:at+sumDigits] {
			list = append(list, i)
		}
	}
	if slices.ContainsFunc(list, func(i int) bool { return slices.Contains(keys, i) }) {
		list = slices.DeleteFunc(list, func(i int) bool { return !slices.Contains(keys, i) })
	}
	return list
}

// tellTyped tells in which columns values stand that are not ours. Formulas are told with their cells.
func (t *table) tellTyped(written string) []finding.Finding {
	formula := map[int]bool{}
	for _, k := range t.before.kept {
		for _, c := range k.over {
			formula[c.col] = true
		}
	}
	var names []string
	for _, i := range t.before.typedOver(written, t.Columns, t.keys) {
		if at := t.before.at[i]; !formula[at] {
			names = append(names, t.before.heads[at])
		}
	}
	if len(names) == 0 {
		return nil
	}
	f := finding.New(finding.Warning, CodeValueTyped, "", finding.Words("sheet", t.name), finding.Words("what", strings.Join(names, ", ")))
	f.At = finding.Cell{Sheet: t.name}
	return []finding.Finding{f}
}

// setSums writes the sums of a sheet into the workbook.
func (t *table) setSums(b *book.Book) error {
	return b.SetName(book.Name{Name: sumsPrefix + t.Key, Sheet: -1, Text: t.sums.text(t.Columns)})
}
