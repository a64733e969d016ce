package starter

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// storiesTable says what each site of a filled-in workbook shows: Site ID and text. A workbook without it has no such list.
const storiesTable = "stories"

// first writes the first sheet: what to fill in, three lines of help, what to do then.
type first struct {
	*builder
	sheet string
	row   int
}

// readMe fills the first sheet of the workbook.
func (b *builder) readMe() error {
	f := first{builder: b, sheet: b.texts.say("sheet")}
	if err := b.file.SetSheetName(b.file.GetSheetName(0), f.sheet); err != nil {
		return err
	}
	for col, w := range map[string]float64{"A": 3, "B": 14, "C": 104} {
		if err := b.file.SetColWidth(f.sheet, col, col, w); err != nil {
			return err
		}
	}
	stories, err := readTable(b.tables, ".", storiesTable)
	if err != nil {
		return err
	}
	title := b.texts.say("title")
	if stories != nil && len(stories.titles) > 0 {
		title = stories.titles[0]
	}
	steps := []func() error{
		func() error { return f.heading(title, topHeight) },
		func() error { return f.line("", b.texts.say("about")) },
		func() error { return f.stories(stories) },
		f.fill, f.help, f.then,
		func() error { return b.landscape(f.sheet, 1) },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	grid := false
	return b.file.SetSheetView(f.sheet, 0, &excelize.ViewOptions{ShowGridLines: &grid})
}

// fill says what to fill in first, a line for each sheet, with a link to it.
func (f *first) fill() error {
	if err := f.heading(f.texts.say("fill"), bandHeight); err != nil {
		return err
	}
	for _, list := range sheets() {
		sheet := list[0].sheet
		var must []string
		for _, c := range list {
			if c.required {
				must = append(must, c.heading)
			}
		}
		text := f.texts.say("fill-"+strings.ToLower(sheet), "required", strings.Join(must, ", "))
		if err := f.line(sheet, text); err != nil {
			return err
		}
		if err := f.link(sheet); err != nil {
			return err
		}
	}
	return nil
}

// link makes the word of the last line a link to a sheet.
func (f *first) link(sheet string) error {
	at := ref(f.row, 2)
	if err := f.file.SetCellHyperLink(f.sheet, at, fmt.Sprintf("'%s'!A1", sheet), "Location"); err != nil {
		return err
	}
	return f.file.SetCellStyle(f.sheet, at, at, f.looks.link)
}

func (f *first) help() error {
	return f.list("help", "help-notes", "help-units", "help-own")
}

func (f *first) then() error {
	return f.list("then", "then-check", "then-run", "then-results")
}

// list writes a heading and a line for each code, whose sentence begins with the word to stand in front and a colon.
func (f *first) list(heading string, codes ...string) error {
	if err := f.heading(f.texts.say(heading), bandHeight); err != nil {
		return err
	}
	for _, code := range codes {
		word, text, _ := strings.Cut(f.texts.say(code), ": ")
		if err := f.line(word, text); err != nil {
			return err
		}
	}
	return nil
}

// stories lists what the sites of a filled-in workbook show.
func (f *first) stories(t *table) error {
	if t == nil {
		return nil
	}
	if err := f.heading(f.texts.say("stories"), bandHeight); err != nil {
		return err
	}
	for _, row := range t.rows {
		if err := f.line(row[0], row[1]); err != nil {
			return err
		}
	}
	return nil
}

// heading writes a heading, with a line left free above it.
func (f *first) heading(text string, height float64) error {
	f.row++
	if f.row > 1 {
		f.row++
	}
	if err := f.file.SetRowHeight(f.sheet, f.row, height); err != nil {
		return err
	}
	return f.put(f.sheet, f.row, 2, text, f.looks.title)
}

// lineChars is how many characters of a text stand in one line of its column, and lineHeight how high one is.
const (
	lineChars  = 130
	lineHeight = 13.5
)

// line writes a word and, right of it, a text.
func (f *first) line(word, text string) error {
	f.row++
	if err := f.file.SetRowHeight(f.sheet, f.row, lineHeight*float64(1+len([]rune(text))/lineChars)+3); err != nil {
		return err
	}
	if word == "" {
		return f.put(f.sheet, f.row, 2, text, f.looks.body)
	}
	if err := f.put(f.sheet, f.row, 2, word, f.looks.step); err != nil {
		return err
	}
	return f.put(f.sheet, f.row, 3, text, f.looks.wrapped)
}
