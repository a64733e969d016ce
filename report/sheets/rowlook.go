package sheets

import (
	"math"
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
)

// rowLook is what a person did to a row as a whole.
type rowLook struct {
	height string // points
	attrs  string // all else: hidden, grouped, formatted; as it stands in the row's start tag
}

// heightSlack is how far, in points, a height may be from ours and still be ours: screens round it.
const heightSlack = 0.35

// lookOf reads from a row's start tag what is a person's. A filter hides rows too: with one, a hidden row is not theirs.
func lookOf(row int, tag string, filtered bool) rowLook {
	var l rowLook
	is := func(name string) bool { v := book.TagAttr(tag, name); return v == "1" || v == "true" }
	if h := book.TagAttr(tag, "ht"); h != "" && is("customHeight") && !ourHeight(row, h) {
		l.height = h
	}
	if is("hidden") && !filtered {
		l.attrs += ` hidden="1"`
	}
	if n := book.TagAttr(tag, "outlineLevel"); n != "" && n != "0" {
		l.attrs += ` outlineLevel="` + n + `"`
	}
	if is("collapsed") {
		l.attrs += ` collapsed="1"`
	}
	if is("customFormat") {
		l.attrs += ` s="` + book.TagAttr(tag, "s") + `" customFormat="1"`
	}
	return l
}

// ourHeight says whether a row is as high as we make them: the headings, or a whole number of lines.
func ourHeight(row int, height string) bool {
	h, err := strconv.ParseFloat(height, 64)
	if err != nil || h == 0 {
		return true
	}
	usual := math.Max(1, math.Round(h/rowHeight)) * rowHeight
	if row == 1 {
		usual = headHeight
	}
	return math.Abs(h-usual) <= heightSlack
}

// onto returns a row's start tag with what is a person's.
func (l rowLook) onto(tag string) string {
	if l.height != "" {
		tag = book.WithoutAttr(book.WithoutAttr(tag, "ht"), "customHeight")
		l.attrs = ` ht="` + l.height + `" customHeight="1"` + l.attrs
	}
	return strings.TrimSuffix(tag, ">") + l.attrs + ">"
}
