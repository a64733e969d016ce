// Package ingest is the input side: it reads a workbook into sites, stations, prices, parts and settings, in base units, and tells what it
// found wrong with the cell where it stands. It calculates nothing and writes nothing.
package ingest

import (
	"sync"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/weather"
	"thawbook/ingest/columns"
)

// Book is all that a workbook says.
type Book struct {
	Path, SHA256 string
	Settings     calc.Settings
	Sites        []calc.Site // in the order of their first rows, zones in the order of rows; those not to be calculated too
	Stations     []weather.Station
	Energies     []cost.Energy
	Parts        []sensing.Part
	Costs        []cost.UnitCost
	Accepted     []calc.Acceptance
	Findings     []finding.Finding // with their cells, sorted
	Files        []weather.Source  // read beside the workbook, in the order of their first use

	RefusedStations []string // of Climate, and
	RefusedEnergies []string // of Energy: the names of rows with an error, which zones may still name

	layouts  map[string]layout // by the sheet's name in columns
	zones    map[zoneName]zonePlace
	sites    map[string]int // first row of a site
	energy   map[string]int // row of an Energy ID, folded
	climate  map[string]int // first row of a station, folded
	settings map[finding.Field]finding.Cell
}

type zoneName struct{ site, zone string }

// zonePlace is where a zone stands and the rows of other sheets that it names.
type zonePlace struct {
	row             int
	energy, station string // folded
}

// sheetOfField maps every field to its sheet in columns.
var sheetOfField = sync.OnceValue(func() map[finding.Field]string {
	m := map[finding.Field]string{columns.RateField: columns.SheetSettings}
	addFields(m, columns.Sites())
	addFields(m, columns.Climate())
	addFields(m, columns.Energy())
	addFields(m, columns.Parts())
	addFields(m, columns.Costs())
	addFields(m, columns.Settings())
	addFields(m, columns.Revisions())
	addFields(m, columns.Accepted())
	addFields(m, columns.Attachments())
	m["alternative"] = columns.SheetAlternatives
	return m
})

func addFields[T any](m map[finding.Field]string, list []columns.Column[T]) {
	for _, c := range list {
		m[c.Field] = c.Sheet
	}
}

// Locate returns the cell of a field of a zone: the zone's own cell, else the heading of that column, else the cell of its Site ID. A field of
// Settings is its line; a field of Energy or Climate is in the row that the zone names.
func (b *Book) Locate(site, zone string, f finding.Field) finding.Cell {
	z := b.zones[zoneName{site, zone}]
	if z.row == 0 {
		z.row = b.sites[site]
	}
	switch sheetOfField()[f] {
	case columns.SheetSettings:
		if at, told := b.settings[f]; told {
			return at
		}
	case columns.SheetEnergy:
		if at, here := b.layouts[columns.SheetEnergy].at(b.energy[z.energy], f); here {
			return at
		}
	case columns.SheetCosts: // no zone names a row of it: the heading of the column
		if l, here := b.layouts[columns.SheetCosts]; here {
			return l.cell(0, f)
		}
	case columns.SheetClimate:
		if at, here := b.layouts[columns.SheetClimate].at(b.climate[z.station], f); here {
			return at
		}
	}
	sites := b.layouts[columns.SheetSites]
	if at, here := sites.at(z.row, f); here {
		return at
	}
	if at, here := sites.at(sites.head, f); here {
		return at
	}
	if at, here := sites.at(z.row, "site_id"); here {
		return at
	}
	return finding.Cell{Sheet: sites.sheet}
}

// Place gives a finding of a zone its cell, and to one about a row that was refused the cell of that row.
func (b *Book) Place(f *finding.Finding) {
	f.At = b.Locate(f.Site, f.Zone, f.Field)
	z := b.zones[zoneName{f.Site, f.Zone}]
	switch f.Code {
	case calc.CodeStationRefused:
		f.Args = append(f.Args, rowOf(b.layouts[columns.SheetClimate].cell(b.climate[z.station], "climate_station")))
	case calc.CodeEnergyRefused:
		f.Args = append(f.Args, rowOf(b.layouts[columns.SheetEnergy].cell(b.energy[z.energy], "energy_row")))
	}
}

// rowOf names the cell that stands for another row.
func rowOf(at finding.Cell) finding.Arg { return finding.Words("cell", at.Sheet+"!"+at.Ref) }

// LocateSetting returns the cell of a line of Settings; the whole sheet where the line is not there.
func (b *Book) LocateSetting(f finding.Field) finding.Cell {
	if at, told := b.settings[f]; told {
		return at
	}
	return finding.Cell{Sheet: b.layouts[columns.SheetSettings].sheet}
}

// LocateEnergy returns the cell of a field in the row of an Energy ID, else the heading of that column.
func (b *Book) LocateEnergy(id string, f finding.Field) finding.Cell {
	return b.layouts[columns.SheetEnergy].cell(b.energy[foldAll(id)], f)
}

// LocateStation returns the cell of a field in the first row of a station, else the heading of that column.
func (b *Book) LocateStation(name string, f finding.Field) finding.Cell {
	return b.layouts[columns.SheetClimate].cell(b.climate[foldAll(name)], f)
}

// cell returns the cell of a column in a row, else the row's name, else the heading of the column, else the whole sheet.
func (l layout) cell(row int, f finding.Field) finding.Cell {
	for _, c := range []struct {
		row int
		f   finding.Field
	}{{row, f}, {row, l.key}, {l.head, f}} {
		if at, here := l.at(c.row, c.f); here {
			return at
		}
	}
	return finding.Cell{Sheet: l.sheet}
}
