package sheets

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// Colours of the sheets.
const (
	headInk   = "FFFFFF"
	headFill  = "2F4858"
	linkInk   = "1F5FA8"
	hairline  = "C9D1D6"
	doneFill  = "DDEFE0"
	checkFill = "FFF1CC"
	errorFill = "F8D7D3"
	otherFill = "E8ECEF"
	chosenInk = "1B5E35"
	fontSize  = 10.0
)

// statusFill colours a status by its word.
var statusFill = map[string]string{"done": doneFill, "ok": doneFill, "done, check": checkFill, "warning": checkFill, "incomplete": errorFill, "no": checkFill,
	"error": errorFill, "not included": otherFill, "info": otherFill, "accepted": otherFill}

// looks makes the styles of a workbook, each once.
type looks struct {
	file  *excelize.File
	made  map[string]int
	font  string // of the workbook
	err   error
	style show.Style

	ours   map[int]bool    // formats, as far as they were looked at: whether they are ours
	prints map[string]bool // what is seen of ours
}

func (l *looks) get(key string, s *excelize.Style) int {
	if id, found := l.made[key]; found {
		return id
	}
	if s.Font == nil {
		s.Font = &excelize.Font{}
	}
	s.Font.Family, s.Font.Size = l.font, fontSize
	s.Border = []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	if s.Alignment.Vertical == "" {
		s.Alignment.Vertical = "top"
	}
	id, err := l.file.NewStyle(s)
	if err != nil && l.err == nil {
		l.err = err
	}
	l.made[key] = id
	return id
}

// left is the alignment of text: a little off the number before it.
func left(wrap bool) *excelize.Alignment {
	return &excelize.Alignment{Horizontal: "left", Indent: 1, WrapText: wrap}
}

// head is a heading over words or, on the right, over numbers.
func (l *looks) head(numbers bool) int {
	key, a := "head", left(true)
	if numbers {
		key, a = "head right", &excelize.Alignment{Horizontal: "right", WrapText: true}
	}
	a.Vertical = "center"
	return l.get(key, &excelize.Style{Font: &excelize.Font{Bold: true, Color: headInk}, Fill: solid(headFill), Alignment: a})
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}

func (l *looks) plain() int { return l.get("plain", &excelize.Style{Alignment: left(false)}) }

func (l *looks) wrapped() int { return l.get("wrapped", &excelize.Style{Alignment: left(true)}) }

func (l *looks) link() int {
	return l.get("link", &excelize.Style{Font: &excelize.Font{Color: linkInk, Underline: "single"}, Alignment: left(false)})
}

// statusMark colours a cell by its word.
func (l *looks) statusMark(fill string) int {
	return l.mark("status "+fill, &excelize.Style{Fill: solid(fill)})
}

// chosenMark marks the words of a row that was chosen.
func (l *looks) chosenMark() int {
	return l.mark("chosen", &excelize.Style{Font: &excelize.Font{Bold: true, Color: chosenInk}})
}

// mark makes a conditional format, unless the workbook has the same already.
func (l *looks) mark(key string, s *excelize.Style) int {
	if id, found := l.made[key]; found {
		return id
	}
	id := l.same(s)
	if id < 0 {
		var err error
		if id, err = l.file.NewConditionalStyle(s); err != nil && l.err == nil {
			l.err = err
		}
	}
	l.made[key] = id
	return id
}

// same returns the conditional format that looks the same; −1 without one.
func (l *looks) same(s *excelize.Style) int {
	for id := 0; ; id++ {
		was, err := l.file.GetConditionalStyle(id)
		if err != nil {
			return -1
		}
		if slices.Equal(was.Fill.Color, s.Fill.Color) && sameFont(was.Font, s.Font) && len(was.Border) == 0 && was.Alignment == nil && was.CustomNumFmt == nil {
			return id
		}
	}
}

func sameFont(a, b *excelize.Font) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Bold == b.Bold && a.Color == b.Color && !a.Italic && !a.Strike && a.Underline == "" && a.Size == b.Size && a.Family == b.Family
}

// mostDecimals is how many decimals a number of ours ever shows.
const mostDecimals = 6

// all makes every format of cells that a sheet of ours may bear: any other is a person's.
func (l *looks) all() {
	l.ours = map[int]bool{}
	ids := []int{l.head(false), l.head(true), l.plain(), l.wrapped(), l.link()}
	for d := range mostDecimals + 1 {
		ids = append(ids, l.number(d), l.among(d))
	}
	l.prints = map[string]bool{}
	for _, id := range ids {
		l.ours[id] = true
		l.prints[l.print(id)] = true
	}
}

// isOurs says whether a format is one of ours, also after another program wrote it again in its own way.
func (l *looks) isOurs(id int) bool {
	is, known := l.ours[id]
	if !known {
		is = l.prints[l.print(id)]
		l.ours[id] = is
	}
	return is
}

// usualFormats are the number formats that have a number of their own.
var usualFormats = map[int]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00"}

// print tells a format by what is seen of it.
func (l *looks) print(id int) string {
	s, err := l.file.GetStyle(id)
	if err != nil {
		return "" // a format that the workbook does not have is nobody's
	}
	format := usualFormats[s.NumFmt]
	if s.CustomNumFmt != nil && !strings.EqualFold(*s.CustomNumFmt, "general") {
		format = *s.CustomNumFmt
	}
	var font excelize.Font
	if s.Font != nil {
		font = *s.Font
	}
	var place excelize.Alignment
	if s.Alignment != nil {
		place = *s.Alignment
	}
	lines := ""
	for _, b := range s.Border {
		lines += fmt.Sprint(b.Type, last6(b.Color), b.Style)
	}
	return fmt.Sprintln(format, s.Fill.Pattern, s.Fill.Color, font.Bold, font.Italic, font.Strike, font.Underline, font.Family, font.Size, last6(font.Color),
		place.Horizontal, place.Vertical, place.Indent, place.WrapText, lines)
}

// last6 returns a colour without what is said of its transparency. Black is what a format without a colour has.
func last6(colour string) string {
	colour = strings.TrimPrefix(colour, "#")
	if len(colour) > 6 {
		colour = colour[len(colour)-6:]
	}
	if colour == "000000" {
		return ""
	}
	return strings.ToUpper(colour)
}

func numberFormat(decimals int) string {
	if decimals == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", decimals)
}

func (l *looks) number(decimals int) int { return l.numberAs(numberFormat(decimals)) }

func (l *looks) numberAs(format string) int {
	return l.get(format, &excelize.Style{CustomNumFmt: &format, Alignment: &excelize.Alignment{Horizontal: "right"}})
}

// among is a number that stands in a column of words.
func (l *looks) among(decimals int) int { return l.amongAs(numberFormat(decimals)) }

func (l *looks) amongAs(format string) int {
	return l.get("among "+format, &excelize.Style{CustomNumFmt: &format, Alignment: left(false)})
}

// unsigned is the same look for a number below zero that is shown as 0: its second half, for such numbers, has no sign.
func (l *looks) unsigned(look, decimals int) int {
	format := numberFormat(decimals)
	format += ";" + format
	if look == l.among(decimals) {
		return l.amongAs(format)
	}
	return l.numberAs(format)
}

func (l *looks) quantity(q units.Quantity) int { return l.number(l.style.Decimals(q)) }

func (l *looks) money() int { return l.number(cost.Decimals(l.style.Currency)) }

// heading returns a column's heading with the reader's unit in brackets.
func heading(c SheetColumn, s show.Style) string {
	unit := s.Unit(c.Quantity)
	switch {
	case c.Look == Money, c.Look == Budget:
		unit = s.Currency
	case c.Quantity == units.Hours && strings.Contains(strings.ToLower(c.Heading), "hours"), c.Quantity == units.Years && strings.Contains(c.Heading, "Years"):
		unit = ""
	}
	if unit == "" {
		return c.Heading
	}
	return c.Heading + " [" + unit + "]"
}

const (
	leastWidth = 11.0
	mostWidth  = 15.0
	pageWidth  = 235.0 // characters that one page across still shows legibly
)

// width returns a column's width: its own, or one in which its heading takes at most three lines.
func width(c SheetColumn, s show.Style) float64 {
	if c.Width > 0 {
		return c.Width
	}
	longest := 0
	for word := range strings.FieldsSeq(heading(c, s)) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	third := float64(utf8.RuneCountInString(heading(c, s)))/3 + 4
	return min(max(leastWidth, float64(longest)+3, third), max(mostWidth, float64(longest)+3))
}
