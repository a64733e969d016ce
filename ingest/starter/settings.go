package starter

import (
	"github.com/xuri/excelize/v2"

	"thawbook/calc/units"
	"thawbook/ingest/columns"
)

// unitsField is the line of Settings that names the system of units.
const unitsField = "units"

// The columns of Settings.
const (
	settingCol = iota + 1
	valueCol
	meaningCol
)

// settings writes Settings: a line for each, its value and what it means. Lines of the table that are no setting's follow below.
func (b *builder) settings(list []column, t *table) error {
	const sheet, headRow = columns.SheetSettings, 2
	for col, w := range map[string]float64{"A": 30, "B": 40, "C": 95} {
		if err := b.file.SetColWidth(sheet, col, col, w); err != nil {
			return err
		}
	}
	if err := b.top(sheet, b.texts.say("title-settings"), headRow); err != nil {
		return err
	}
	for col, text := range []string{b.texts.say("setting"), b.texts.say("value"), b.texts.say("meaning")} {
		if err := b.put(sheet, headRow, col+1, text, b.looks.headWords); err != nil {
			return err
		}
	}
	values, others := sortOut(list, t)
	row := headRow + 1
	for i, c := range list {
		if err := b.setting(row, c, values[i]); err != nil {
			return err
		}
		row++
	}
	for _, line := range others {
		if err := b.line(row, line[0], line[1], ""); err != nil {
			return err
		}
		row++
	}
	return b.settingsPage(sheet, headRow)
}

// sortOut finds the value of each setting in a table; others are the lines that are no setting's.
func sortOut(list []column, t *table) (values []string, others [][2]string) {
	values = make([]string, len(list))
	for _, line := range t.rows {
		value := ""
		if len(line) > 1 {
			value = line[1]
		}
		found := false
		for i, c := range list {
			if c.called(line[0]) {
				values[i], found = value, true
			}
		}
		if !found {
			others = append(others, [2]string{line[0], value})
		}
	}
	return values, others
}

func (b *builder) setting(row int, c column, value string) error {
	if c.field == unitsField && value == "" {
		value = c.choices[0]
		if b.system == units.IP {
			value = c.choices[1]
		}
	}
	meaning := b.texts.note(c, b.system)
	if len(c.choices) > 1 {
		meaning += " " + b.texts.say("choices", "choices", b.texts.choices(c))
	}
	if err := b.line(row, c.heading, value, meaning); err != nil {
		return err
	}
	if len(c.choices) == 0 || !listable(c.choices) {
		return nil
	}
	v := excelize.NewDataValidation(true)
	v.Sqref = ref(row, valueCol)
	if err := v.SetDropList(c.choices); err != nil {
		return err
	}
	return b.file.AddDataValidation(columns.SheetSettings, v)
}

func (b *builder) line(row int, name, value, meaning string) error {
	const sheet = columns.SheetSettings
	if err := b.put(sheet, row, settingCol, name, b.looks.step); err != nil {
		return err
	}
	if err := b.file.SetCellStyle(sheet, ref(row, valueCol), ref(row, valueCol), b.looks.wrapped); err != nil {
		return err
	}
	if err := b.cell(sheet, ref(row, valueCol), value); err != nil {
		return err
	}
	if meaning == "" {
		return nil
	}
	return b.put(sheet, row, meaningCol, meaning, b.looks.quiet)
}

func (b *builder) settingsPage(sheet string, headRow int) error {
	if err := b.file.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: headRow, TopLeftCell: ref(headRow+1, 1), ActivePane: "bottomLeft",
		Selection: []excelize.Selection{{SQRef: ref(headRow+1, valueCol), ActiveCell: ref(headRow+1, valueCol), Pane: "bottomLeft"}}}); err != nil {
		return err
	}
	return b.landscape(sheet, 1)
}
