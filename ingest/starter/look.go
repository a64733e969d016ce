package starter

import "github.com/xuri/excelize/v2"

// Colours and sizes of the sheets.
const (
	font       = "Calibri"
	fontSize   = 10.0
	titleSize  = 13.0
	ink        = "1E2A32"
	quietInk   = "5E6B74"
	headInk    = "FFFFFF"
	headFill   = "2F4858"
	mustFill   = "B4501E" // headings that must be filled
	linkInk    = "1F5FA8"
	hairline   = "C9D1D6"
	tabSites   = "B4501E"
	tabOthers  = "2F4858"
	evenBand   = "DCE6EA"
	oddBand    = "ECE7DC"
	headHeight = 44.0
	bandHeight = 18.0
	topHeight  = 24.0
)

// looks are the styles of a workbook, each by its number.
type looks struct {
	title, quiet, headNumbers, headWords, must, body, words, wrapped, link, step int
	band                                                                         [2]int
}

func makeLooks(file *excelize.File) (looks, error) {
	var l looks
	var err error
	add := func(s excelize.Style) int {
		s.Font.Family = font
		if s.Font.Size == 0 {
			s.Font.Size = fontSize
		}
		if s.Font.Color == "" {
			s.Font.Color = ink
		}
		id, e := file.NewStyle(&s)
		if err == nil {
			err = e
		}
		return id
	}
	edge := []excelize.Border{{Type: "left", Color: hairline, Style: 1}, {Type: "bottom", Color: hairline, Style: 1}}
	under := []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	right := &excelize.Alignment{Vertical: "center", WrapText: true, Horizontal: "right"}
	inset := &excelize.Alignment{Vertical: "center", WrapText: true, Horizontal: "left", Indent: 1}
	top := &excelize.Alignment{Vertical: "top"}
	wrap := &excelize.Alignment{Vertical: "top", WrapText: true}
	l.title = add(excelize.Style{Font: &excelize.Font{Bold: true, Size: titleSize}, Alignment: &excelize.Alignment{Vertical: "center"}})
	l.quiet = add(excelize.Style{Font: &excelize.Font{Color: quietInk}, Alignment: wrap})
	l.headNumbers = add(excelize.Style{Font: &excelize.Font{Bold: true, Color: headInk}, Fill: solid(headFill), Alignment: right, Border: edge})
	l.headWords = add(excelize.Style{Font: &excelize.Font{Bold: true, Color: headInk}, Fill: solid(headFill), Alignment: inset, Border: edge})
	l.must = add(excelize.Style{Font: &excelize.Font{Bold: true, Color: headInk}, Fill: solid(mustFill), Alignment: inset, Border: edge})
	l.body = add(excelize.Style{Font: &excelize.Font{}, Alignment: top})
	l.words = add(excelize.Style{Font: &excelize.Font{}, Alignment: &excelize.Alignment{Vertical: "top", Horizontal: "left", Indent: 1}})
	l.wrapped = add(excelize.Style{Font: &excelize.Font{}, Alignment: wrap, Border: under})
	l.link = add(excelize.Style{Font: &excelize.Font{Bold: true, Color: linkInk, Underline: "single"}, Alignment: top, Border: under})
	l.step = add(excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: wrap, Border: under})
	for i, fill := range []string{evenBand, oddBand} {
		l.band[i] = add(excelize.Style{Font: &excelize.Font{Bold: true}, Fill: solid(fill), Alignment: &excelize.Alignment{Vertical: "center", Horizontal: "left", Indent: 1}, Border: edge})
	}
	return l, err
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}
