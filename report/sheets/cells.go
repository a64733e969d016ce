package sheets

import (
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
	"thawbook/report/show"
)

// rawCell is a cell as it stands in a sheet.
type rawCell struct {
	col, row int
	tag      string // its start tag
	style    int
	kind     string // how its value is written
	inner    string
}

// eachRow hands over the rows of a sheet's data, each with its start tag and what stands in it. Rows may leave their number out.
func eachRow(data string, f func(row int, tag, inner string)) {
	row := 0
	for {
		tag, rest, found := nextTag(data, "<row")
		if !found {
			return
		}
		row++
		if n, err := strconv.Atoi(book.TagAttr(tag, "r")); err == nil {
			row = n
		}
		inner := ""
		if tag[len(tag)-2] != '/' {
			inner, rest, _ = strings.Cut(rest, "</row>")
		}
		f(row, tag, inner)
		data = rest
	}
}

// eachCell hands over the cells of a row. Cells may leave their place out.
func eachCell(row int, inner string, f func(rawCell)) {
	col := 0
	for {
		tag, rest, found := nextTag(inner, "<c")
		if !found {
			return
		}
		col++
		c := rawCell{row: row, tag: tag}
		c.read(&col)
		if tag[len(tag)-2] != '/' {
			c.inner, rest, _ = strings.Cut(rest, "</c>")
		}
		f(c)
		inner = rest
	}
}

// read reads the attributes of a cell that rows are known by. There are many cells: this is quicker than to look for one after the other.
func (c *rawCell) read(col *int) {
	tag := c.tag
	for i := 2; i < len(tag); {
		equals := strings.IndexByte(tag[i:], '=')
		if equals < 0 {
			break
		}
		name := strings.TrimSpace(tag[i : i+equals])
		i += equals + 1
		for i < len(tag) && tag[i] != '"' && tag[i] != '\'' {
			i++
		}
		end := -1
		if i < len(tag) {
			end = strings.IndexByte(tag[i+1:], tag[i])
		}
		if end < 0 {
			break
		}
		value := tag[i+1 : i+1+end]
		i += end + 2
		switch name {
		case "r":
			if p, ok := placeOf(value); ok {
				*col = p.col
			}
		case "s":
			c.style, _ = strconv.Atoi(value)
		case "t":
			c.kind = value
		}
	}
	*col = min(*col, mostColumns)
	c.col = *col
}

// nextTag finds the next start tag of that name and returns it with what follows.
func nextTag(data, name string) (tag, rest string, found bool) {
	for {
		i := strings.Index(data, name)
		if i < 0 || i+len(name) >= len(data) {
			return "", "", false
		}
		data = data[i:]
		if c := data[len(name)]; c == ' ' || c == '>' || c == '/' || c == '\n' || c == '\r' || c == '\t' {
			end := strings.IndexByte(data, '>')
			if end < 0 {
				return "", "", false
			}
			return data[:end+1], data[end+1:], true
		}
		data = data[len(name):]
	}
}

// within returns what stands in the first element of that name.
func within(text, name string) (tag, inner string, found bool) {
	t, rest, found := nextTag(text, "<"+name)
	if !found {
		return "", "", false
	}
	if t[len(t)-2] == '/' {
		return t, "", true
	}
	in, _, _ := strings.Cut(rest, "</"+name+">")
	return t, in, true
}

// filled says whether a cell holds anything but a format.
func (c rawCell) filled() bool { return c.inner != "" }

// text returns what a cell shows, without its format.
func (c rawCell) text(shared []string) string {
	if c.kind == "inlineStr" {
		return inlineText(c.inner)
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

// inlineText returns the text of a cell that holds it itself.
func inlineText(inner string) string {
	const begin, end = "<is><t", "</t></is>"
	if strings.HasPrefix(inner, begin) && strings.HasSuffix(inner, end) && strings.Count(inner, "<") == 4 {
		inner = inner[len(begin) : len(inner)-len(end)]
		return book.Unescape(inner[strings.IndexByte(inner, '>')+1:])
	}
	item, err := book.Parse([]byte(inner), 3)
	if err != nil {
		return ""
	}
	return book.Plain([]byte(inner), item)
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
