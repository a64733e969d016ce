// Package starter makes what can be made from the tables of columns: the workbook to start from, the demo workbook and the reference page.
package starter

import (
	"fmt"
	"io"
	"io/fs"
	"path"
	"time"

	"github.com/xuri/excelize/v2"

	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/ingest/columns"
	"thawbook/ingest/hourly"
	"thawbook/templates"
)

const (
	demoTables    = "demo"
	starterTables = "starter" // and the system of units: prices and parts are told per unit sold
)

// Write writes the workbook to start from, with headings in a system of units. The demo is the same workbook filled in for an invented owner,
// whose headings name their own units; system then is the one in which its results are shown. The same call writes the same bytes.
func Write(w io.Writer, system units.System, demo bool) error {
	tables := path.Join(starterTables, "si")
	switch {
	case demo:
		tables = demoTables
	case system == units.IP:
		tables = path.Join(starterTables, "ip")
	}
	sub, err := fs.Sub(templates.FS(), tables)
	if err != nil {
		return err
	}
	if demo {
		return Fill(w, system, sub)
	}
	return write(w, builder{system: system, tables: sub, every: true})
}

// Fill writes a workbook that holds the tables of a folder: sites.tsv, climate.tsv and so on, each with its own headings in the line that first
// has more than one cell. A cell that is a plain number is stored as one, one that begins with = as a formula, any other as text. A line
// #hidden hides the row after it.
func Fill(w io.Writer, system units.System, tables fs.FS) error {
	return write(w, builder{system: system, tables: tables})
}

// builder makes one workbook.
type builder struct {
	system   units.System
	tables   fs.FS
	every    bool // every column stands in its sheet, filled or not; else only those that the tables name
	texts    texts
	stations []weather.Statistics // built in
	file     *excelize.File
	looks    looks
}

func write(w io.Writer, b builder) error {
	var err error
	if b.texts, err = readTexts(templates.FS()); err != nil {
		return err
	}
	if b.stations, err = hourly.ReadStations(templates.FS()); err != nil {
		return err
	}
	b.file = excelize.NewFile()
	defer b.file.Close()
	if b.looks, err = makeLooks(b.file); err != nil {
		return err
	}
	if err := b.readMe(); err != nil {
		return fmt.Errorf("sheet %s: %w", b.texts.say("sheet"), err)
	}
	for _, list := range sheets() {
		name := list[0].sheet
		if _, err := b.file.NewSheet(name); err != nil {
			return err
		}
		if err := b.sheet(name, list); err != nil {
			return fmt.Errorf("sheet %s: %w", name, err)
		}
	}
	if err := b.stationsSheet(); err != nil {
		return err
	}
	if err := b.properties(); err != nil {
		return err
	}
	return b.file.Write(w)
}

// sheet fills one input sheet.
func (b *builder) sheet(name string, list []column) error {
	t, err := readTable(b.tables, ".", name)
	if err != nil {
		return err
	}
	if t == nil {
		t = &table{}
	}
	if name == columns.SheetSettings {
		return b.settings(list, t)
	}
	return b.grid(name, b.heads(list, t), t)
}

// made is the date in the properties of every workbook: the program takes no clock.
var made = time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC).Format(time.RFC3339)

func (b *builder) properties() error {
	b.file.SetActiveSheet(0)
	if err := b.file.SetAppProps(&excelize.AppProperties{Application: "thawbook"}); err != nil {
		return err
	}
	return b.file.SetDocProps(&excelize.DocProperties{Creator: "thawbook", LastModifiedBy: "thawbook", Title: b.texts.say("title"), Created: made, Modified: made})
}
