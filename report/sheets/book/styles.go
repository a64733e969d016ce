package book

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
)

// lists are the lists of a styles part in their order. Those with a default must not be missing or empty.
var lists = []struct{ name, least string }{
	{"numFmts", ""},
	{"fonts", `<font><sz val="11"/><name val="Calibri"/><family val="2"/></font>`},
	{"fills", `<fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>`},
	{"borders", `<border><left/><right/><top/><bottom/><diagonal/></border>`},
	{"cellStyleXfs", `<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>`},
	{"cellXfs", `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>`},
	{"cellStyles", `<cellStyle name="Normal" xfId="0" builtinId="0"/>`},
	{"dxfs", ""},
}

// Styles returns the workbook's styles with all lists that styles need, and with honest counts. A workbook without a styles part gets one.
func (b *Book) Styles() ([]byte, error) {
	if b.styles == "" || !b.Has(b.styles) {
		if err := b.addStyles(); err != nil {
			return nil, err
		}
	}
	text, err := b.Part(b.styles)
	if err != nil {
		return nil, err
	}
	root, err := Parse(text, 3)
	if err != nil {
		return nil, err
	}
	if root.Space != mainSpace || root.Local != "styleSheet" {
		return nil, fmt.Errorf("%s holds no styles", b.styles)
	}
	return complete(text, root), nil
}

func (b *Book) addStyles() error {
	name := path.Join(path.Dir(b.main), "styles.xml")
	b.Set(name, []byte(Header+`<styleSheet xmlns="`+mainSpace+`"></styleSheet>`))
	if err := b.SetType(name, styleType); err != nil {
		return err
	}
	if b.styles == "" {
		if _, err := b.addRelation(b.main, "styles", name); err != nil {
			return err
		}
	}
	b.styles = name
	return nil
}

// complete fills what is missing and counts what is there.
func complete(text []byte, root *Element) []byte {
	var edits []Edit
	missing, at := "", root.Open
	flush := func(to int) {
		if missing != "" {
			edits = append(edits, Edit{to, to, missing})
			missing = ""
		}
	}
	if root.empty(text) {
		for _, l := range lists {
			missing += block(l.name, l.least)
		}
		return Apply(text, root.Within(text, missing))
	}
	for _, l := range lists {
		e := root.Child(l.name)
		switch {
		case e == nil && l.least == "":
		case e == nil:
			missing += block(l.name, l.least)
		default:
			flush(e.Start)
			at = e.End
			edits = append(edits, counted(text, e, l.least)...)
		}
	}
	flush(at)
	return Apply(text, edits...)
}

// block is a list with its defaults.
func block(name, least string) string {
	if least == "" {
		return ""
	}
	return fmt.Sprintf(`<%s xmlns="%s" count="%d">%s</%[1]s>`, name, mainSpace, len(childrenOf(least)), least)
}

// childrenOf returns the elements of a text, each as it stands there.
func childrenOf(text string) []string {
	wrapped := []byte("<a>" + text + "</a>")
	root, err := Parse(wrapped, 2)
	if err != nil {
		return nil // never: the texts are ours
	}
	var out []string
	for _, k := range root.Kids {
		out = append(out, k.In(wrapped))
	}
	return out
}

// counted puts the defaults into an empty list, and the right count to any.
func counted(text []byte, e *Element, least string) []Edit {
	n, add := len(e.Kids), ""
	if n == 0 && least != "" {
		n, add = len(childrenOf(least)), foreign(least, e.prefix(text))
	}
	var edits []Edit
	if e.Attr("count") != strconv.Itoa(n) {
		edits = append(edits, e.WithAttr(text, "count", strconv.Itoa(n)))
	}
	if add != "" {
		edits = append(edits, e.Within(text, add))
	}
	return edits
}

// foreign makes elements written without a prefix fit for a text whose names have one.
func foreign(text, prefix string) string {
	if prefix == "" {
		return text
	}
	var out strings.Builder
	for _, k := range childrenOf(text) {
		end := strings.IndexAny(k, " />")
		out.WriteString(k[:end] + ` xmlns="` + mainSpace + `"` + k[end:])
	}
	return out.String()
}

// GrowStyles adds what another program appended to the lists of the styles that Styles returned. All that was there stays as it was written.
func (b *Book) GrowStyles(base, grown []byte) error {
	was, err := Parse(base, 3)
	if err != nil {
		return err
	}
	is, err := Parse(grown, 3)
	if err != nil {
		return err
	}
	var edits []Edit
	at := was.Open
	for _, l := range lists {
		old, new := was.Child(l.name), is.Child(l.name)
		if old != nil {
			at = old.End
		}
		if new == nil {
			continue
		}
		before := 0
		if old != nil {
			before = len(old.Kids)
		}
		if len(new.Kids) < before {
			return fmt.Errorf("%s lost %d of its %s", b.styles, before-len(new.Kids), l.name)
		}
		var add strings.Builder
		for _, k := range new.Kids[before:] {
			add.WriteString(k.In(grown))
		}
		switch {
		case add.Len() == 0:
		case old == nil:
			edits = append(edits, Edit{at, at, fmt.Sprintf(`<%s xmlns="%s" count="%d">%s</%[1]s>`, l.name, mainSpace, len(new.Kids), add.String())})
		default:
			edits = append(edits, old.WithAttr(base, "count", strconv.Itoa(len(new.Kids))), old.Within(base, foreign(add.String(), old.prefix(base))))
		}
	}
	if original, err := b.Part(b.styles); err == nil && len(edits) == 0 && slices.Equal(original, base) {
		return nil
	}
	b.Set(b.styles, Apply(base, edits...))
	return nil
}

// Font returns the name of the font that a workbook's cells have without a format.
func Font(styles []byte) string {
	const usual = "Calibri"
	root, err := Parse(styles, 4)
	if err != nil {
		return usual
	}
	fonts := root.Child("fonts")
	if fonts == nil || len(fonts.Kids) == 0 {
		return usual
	}
	if name := fonts.Kids[0].Child("name"); name != nil && name.Attr("val") != "" {
		return name.Attr("val")
	}
	return usual
}
