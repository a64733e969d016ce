package sheets

import (
	"bytes"
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
	"thawbook/report/show"
)

// rawCell is a cell as it stands in a sheet.
type rawCell struct {
	col, row int
	attrs    string // all but its place
	style    int
	kind     string // how its value is written
	inner    string
}

// eachRow hands over the rows of a sheet's data, each with what stands in it. Rows may leave their number out.
func eachRow(data []byte, f func(row int, inner []byte)) {
	row := 0
	for {
		tag, rest, found := nextTag(data, "<row")
		if !found {
			return
		}
		row++
		if n, err := strconv.Atoi(book.TagAttr(string(tag), "r")); err == nil {
			row = n
		}
		inner := []byte(nil)
		if tag[len(tag)-2] != '/' {
			inner, rest, _ = bytes.Cut(rest, []byte("</row>"))
		}
		f(row, inner)
		data = rest
	}
}

// eachCell hands over the cells of a row.
func eachCell(row int, inner []byte, f func(rawCell)) {
	col := 0
	for {
		tag, rest, found := nextTag(inner, "<c")
		if !found {
			return
		}
		text := string(tag)
		col++
		if p, ok := placeOf(book.TagAttr(text, "r")); ok {
			col = p.col
		}
		c := rawCell{col: col, row: row, kind: book.TagAttr(text, "t")}
		c.style, _ = strconv.Atoi(book.TagAttr(text, "s"))
		closed := strings.HasSuffix(text, "/>")
		c.attrs = strings.TrimRight(strings.TrimSuffix(strings.TrimSuffix(book.WithoutAttr(text, "r"), ">"), "/"), " ")[len("<c"):]
		if !closed {
			before, after, _ := bytes.Cut(rest, []byte("</c>"))
			c.inner, rest = string(before), after
		}
		f(c)
		inner = rest
	}
}

// nextTag finds the next start tag of that name and returns it with what follows.
func nextTag(data []byte, name string) (tag, rest []byte, found bool) {
	for {
		i := bytes.Index(data, []byte(name))
		if i < 0 || i+len(name) >= len(data) {
			return nil, nil, false
		}
		data = data[i:]
		if c := data[len(name)]; c == ' ' || c == '>' || c == '/' || c == '\n' || c == '\r' || c == '\t' {
			end := bytes.IndexByte(data, '>')
			if end < 0 {
				return nil, nil, false
			}
			return data[:end+1], data[end+1:], true
		}
		data = data[len(name):]
	}
}

// within returns what stands in the first element of that name.
func within(text, name string) (tag, inner string, found bool) {
	t, rest, found := nextTag([]byte(text), "<"+name)
	if !found {
		return "", "", false
	}
	if t[len(t)-2] == '/' {
		return string(t), "", true
	}
	in, _, _ := bytes.Cut(rest, []byte("</"+name+">"))
	return string(t), string(in), true
}

// filled says whether a cell holds anything but a format.
func (c rawCell) filled() bool { return c.inner != "" }

// text returns what a cell shows, without its format.
func (c rawCell) text(shared []string) string {
	if c.kind == "inlineStr" {
		wrapped := []byte(c.inner)
		item, err := book.Parse(wrapped, 3)
		if err != nil {
			return ""
		}
		return book.Plain(wrapped, item)
	}
	_, value, _ := within(c.inner, "v")
	switch c.kind {
	case "s":
		if i, err := strconv.Atoi(value); err == nil && i >= 0 && i < len(shared) {
			return shared[i]
		}
		return ""
	case "", "n":
		return numberKey(value)
	}
	return book.Unescape(value)
}

// numberKey returns a number as keys hold it: whatever program wrote it, and however many digits it took.
func numberKey(s string) string {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	return strconv.FormatFloat(show.Significant(v, digits)+0, 'f', -1, 64)
}

// typed returns what a person typed into a cell: the formula, or the value.
func (c rawCell) typed(shared []string) string {
	if _, formula, is := within(c.inner, "f"); is && formula != "" {
		return "=" + book.Unescape(formula)
	}
	return c.text(shared)
}
