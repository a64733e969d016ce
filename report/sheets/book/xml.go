package book

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
)

// Namespaces of the format.
const (
	mainSpace     = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	officeSpace   = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	typesSpace    = "http://schemas.openxmlformats.org/package/2006/content-types"
	packageSpace  = "http://schemas.openxmlformats.org/package/2006/relationships"
	strictSpace   = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	declaredSpace = "xmlns"
)

// Element is an element of an XML text, by its places in that text.
type Element struct {
	Space, Local string
	Attrs        []xml.Attr
	Start, Open  int // of the start tag, and behind it
	Close, End   int // of the end tag, and behind it; Close is Open in an element without content
	Kids         []*Element
}

// Parse finds the elements of a text down to a depth: 1 is the root alone. It fails on a text that is not well formed.
func Parse(text []byte, depth int) (*Element, error) {
	skipped := 0
	if mark := []byte("\ufeff"); bytes.HasPrefix(text, mark) {
		skipped = len(mark)
	}
	d := xml.NewDecoder(bytes.NewReader(text[skipped:]))
	var root *Element
	var open []*Element // nil below the depth
	for {
		before := int(d.InputOffset()) + skipped
		token, err := d.Token()
		after := int(d.InputOffset()) + skipped
		switch {
		case errors.Is(err, io.EOF) && root == nil:
			return nil, errors.New("no XML")
		case errors.Is(err, io.EOF):
			return root, nil
		case err != nil:
			return nil, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			var e *Element
			if len(open) < depth {
				e = &Element{Space: t.Name.Space, Local: t.Name.Local, Attrs: slices.Clone(t.Attr), Start: before, Open: after}
				if len(open) == 0 {
					root = e
				} else {
					up := open[len(open)-1]
					up.Kids = append(up.Kids, e)
				}
			}
			open = append(open, e)
		case xml.EndElement:
			if e := open[len(open)-1]; e != nil {
				e.Close, e.End = before, after
			}
			open = open[:len(open)-1]
		}
	}
}

// Child returns the first child of that name, nil without one.
func (e *Element) Child(local string) *Element {
	for _, k := range e.Kids {
		if k.Local == local {
			return k
		}
	}
	return nil
}

// Attr returns the value of an attribute without a namespace.
func (e *Element) Attr(local string) string { return e.attrIn("", local) }

// attrIn returns the value of an attribute in a namespace.
func (e *Element) attrIn(space, local string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == local && a.Name.Space == space {
			return a.Value
		}
	}
	return ""
}

// In returns the element as it stands in its text.
func (e *Element) In(text []byte) string { return string(text[e.Start:e.End]) }

// Content returns what stands between its tags.
func (e *Element) Content(text []byte) string { return string(text[e.Open:e.Close]) }

// name returns the element's name as it is written, with its prefix.
func (e *Element) name(text []byte) string {
	tag := string(text[e.Start+1 : e.Open])
	return tag[:strings.IndexAny(tag, " \t\r\n/>")]
}

// prefix returns what stands before the names of children in the same namespace: "x:" or nothing.
func (e *Element) prefix(text []byte) string {
	before, _, found := strings.Cut(e.name(text), ":")
	if !found {
		return ""
	}
	return before + ":"
}

// empty says whether the element is one tag: <a/>.
func (e *Element) empty(text []byte) bool {
	return e.Open == e.Close && e.Open == e.End && text[e.Open-2] == '/'
}

// Edit replaces a stretch of a text.
type Edit struct {
	From, To int
	Text     string
}

// Within adds a text at the end of an element's content.
func (e *Element) Within(text []byte, add string) Edit {
	if e.empty(text) {
		return Edit{e.Open - 2, e.Open, ">" + add + "</" + e.name(text) + ">"}
	}
	return Edit{e.Close, e.Close, add}
}

// WithAttr sets an attribute; an empty value removes it.
func (e *Element) WithAttr(text []byte, name, value string) Edit {
	tag := string(text[e.Start:e.Open])
	from, to := attrAt(tag, name)
	set := ""
	if value != "" {
		set = " " + name + `="` + Escape(value) + `"`
	}
	if from < 0 {
		at := e.Open - 1
		if tag[len(tag)-2] == '/' {
			at--
		}
		return Edit{at, at, set}
	}
	return Edit{e.Start + from, e.Start + to, set}
}

// attrAt finds an attribute, with the space before it, in a start tag.
func attrAt(tag, name string) (from, to int) {
	for i := strings.IndexAny(tag, " \t\r\n"); i >= 0 && i < len(tag); {
		begin := i
		for i < len(tag) && strings.IndexByte(" \t\r\n", tag[i]) >= 0 {
			i++
		}
		equals := strings.IndexByte(tag[i:], '=')
		if equals < 0 {
			break
		}
		found := strings.TrimSpace(tag[i : i+equals])
		i += equals + 1
		for i < len(tag) && tag[i] != '"' && tag[i] != '\'' {
			i++
		}
		if i >= len(tag) {
			break
		}
		end := strings.IndexByte(tag[i+1:], tag[i])
		if end < 0 {
			break
		}
		i += end + 2
		if found == name {
			return begin, i
		}
	}
	return -1, -1
}

// Apply makes edits. They may come in any order and must not overlap. What is added at the place where something is replaced comes before it; what is
// added at the same place comes in the order given.
func Apply(text []byte, edits ...Edit) []byte {
	slices.SortStableFunc(edits, func(a, b Edit) int { return cmp.Or(a.From-b.From, min(a.To-a.From, 1)-min(b.To-b.From, 1)) })
	var out bytes.Buffer
	at := 0
	for _, e := range edits {
		out.Write(text[at:e.From])
		out.WriteString(e.Text)
		at = e.To
	}
	out.Write(text[at:])
	return out.Bytes()
}

// Escape returns a text as it stands in XML.
func Escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a builder takes everything
	return b.String()
}

// declares says whether the root declares a namespace under some prefix, and under which.
func (e *Element) declares(space string) (prefix string, is bool) {
	for _, a := range e.Attrs {
		if a.Name.Space == declaredSpace && a.Value == space {
			return a.Name.Local, true
		}
	}
	return "", false
}

// Unescape returns the text that stands in XML as s.
func Unescape(s string) string {
	if !strings.ContainsAny(s, "&<\r") {
		return s
	}
	d := xml.NewDecoder(strings.NewReader("<a>" + s + "</a>"))
	var out strings.Builder
	for {
		token, err := d.Token()
		if err != nil {
			return out.String()
		}
		if t, is := token.(xml.CharData); is {
			out.Write(t)
		}
	}
}

// TagAttr returns the value of an attribute in a start tag.
func TagAttr(tag, name string) string {
	from, to := attrAt(tag, name)
	if from < 0 {
		return ""
	}
	set := tag[from:to]
	return Unescape(set[strings.IndexAny(set, `"'`)+1 : len(set)-1])
}

// WithoutAttr returns a start tag less an attribute.
func WithoutAttr(tag, name string) string {
	from, to := attrAt(tag, name)
	if from < 0 {
		return tag
	}
	return tag[:from] + tag[to:]
}

// ReplaceAttr returns an element with another value in an attribute of its start tag.
func ReplaceAttr(element, name, value string) string {
	end := strings.IndexByte(element, '>') + 1
	from, to := attrAt(element[:end], name)
	if from < 0 {
		return element
	}
	return element[:from] + " " + name + `="` + Escape(value) + `"` + element[to:]
}
