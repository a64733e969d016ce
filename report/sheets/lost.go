package sheets

import (
	"maps"
	"slices"
	"strings"

	"thawbook/calc/finding"
	"thawbook/report"
	"thawbook/report/sheets/book"
)

// The codes of what a person did on a sheet of ours that new results can't keep.
const (
	CodeRowGone   finding.Code = "row-with-notes-gone"
	CodeTypedOver finding.Code = "formula-over-result"
)

// mostTold is how many characters of what a person left are told; all of it stands in the workbook that was read.
const mostTold = 2000

// rowName is how a row is told to people.
type rowName struct {
	site, zone, name string
}

// lost tells what a person left beside rows that are gone, and formulas that stood in place of results.
func (w *Writer) lost(t *table, list []finding.Finding) ([]finding.Finding, error) {
	if t.before == nil {
		return nil, nil
	}
	gone := t.gone(list)
	beside, over := map[int][]string{}, map[int][]string{}
	for row, k := range t.before.kept {
		if gone(row) {
			beside[row] = k.texts(t.before)
		}
		for _, c := range k.over {
			over[row] = append(over[row], place{col: c.col, row: c.row}.String()+" "+c.typed(t.before.shared))
		}
	}
	if err := t.commentsOn(w.source.book, gone, beside); err != nil {
		return nil, err
	}
	return slices.Concat(t.tell(CodeRowGone, beside), t.tell(CodeTypedOver, over), t.tellView(), t.tellTyped(w.source.sums[t.Key])), nil
}

// tell makes a finding for each site and zone of what is lost, by row.
func (t *table) tell(code finding.Code, said map[int][]string) []finding.Finding {
	type owner struct{ site, zone string }
	told := map[owner][]string{}
	var order []owner
	for _, row := range slices.Sorted(maps.Keys(said)) {
		if len(said[row]) == 0 {
			continue
		}
		n := t.before.names[row]
		at := owner{n.site, n.zone}
		if told[at] == nil {
			order = append(order, at)
		}
		told[at] = append(told[at], strings.TrimPrefix(n.name+": "+strings.Join(said[row], "; "), ": "))
	}
	var out []finding.Finding
	for _, at := range order {
		text := strings.Join(told[at], " | ")
		if len(text) > mostTold {
			text = strings.ToValidUTF8(text[:mostTold], "") + "…"
		}
		f := finding.New(finding.Warning, code, "", finding.Words("sheet", t.name), finding.Words("what", text))
		f.At, f.Site, f.Zone = finding.Cell{Sheet: t.name}, at.site, at.zone
		out = append(out, f)
	}
	return out
}

// gone says of a row of the run before whether no row of now has its key. The findings are still to be written: theirs are foretold.
func (t *table) gone(list []finding.Finding) func(row int) bool {
	still := t.moves.to
	if t.Key == findingsKey {
		still = t.foretell(list)
	}
	return func(row int) bool {
		_, found := still[row]
		return !found && row > 1 && row <= t.before.last
	}
}

// foretell finds the rows of the run before that the findings will come to stand in.
func (t *table) foretell(list []finding.Finding) map[int]int {
	r := t.writer.row()
	still := map[int]int{}
	used := map[string]int{}
	for _, f := range report.Merge(list) {
		r.Finding = &f
		key := t.keyOf(r)
		if n := used[key]; n < len(t.before.rows[key]) {
			still[t.before.rows[key][n]] = 0
			used[key]++
		}
	}
	return still
}

// keyOf returns the key of a row of words.
func (t *table) keyOf(r Row) string {
	parts := make([]string, len(t.keys))
	for k, i := range t.keys {
		switch v := t.Columns[i].Get(r).(type) {
		case string:
			parts[k] = strings.TrimSpace(v)
		case Link:
			parts[k] = strings.TrimSpace(v.Text)
		}
	}
	return strings.Join(parts, keyMark)
}

// texts returns what a person left in a row, each with the heading of its column.
func (k *keptRow) texts(e *earlier) []string {
	var out []string
	for _, c := range k.cells {
		text := c.typed(e.shared)
		if text == "" {
			continue
		}
		if heading := e.theirs[c.col]; heading != "" {
			text = heading + ": " + text
		}
		out = append(out, text)
	}
	return out
}

// commentsOn adds the comments on rows that are gone.
func (t *table) commentsOn(b *book.Book, gone func(int) bool, said map[int][]string) error {
	for _, r := range t.before.links {
		if r.Kind() != "comments" {
			continue
		}
		text, list, err := comments(b, r.Part)
		if err != nil {
			return err
		}
		for _, k := range list {
			if s, err := spanOf(k.Attr("ref")); err == nil && gone(s.top.row) {
				said[s.top.row] = append(said[s.top.row], plainText(k.In(text)))
			}
		}
	}
	return nil
}
