package main

import (
	"io/fs"
	"os"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/ingest"
	"thawbook/ingest/hourly"
	"thawbook/report"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// reading is everything that is read before the first zone is calculated.
type reading struct {
	book   *ingest.Book
	engine *calc.Engine
	texts  *words.Words // in the workbook's units and marks, with the user's texts over ours
	tables report.Tables
	files  map[string][]byte // the texts and rules themselves
}

// readAll reads a workbook, and the texts and rules with the user's folder laid over ours.
func (p *program) readAll(workbook, overlay string) (*reading, error) {
	if info, err := os.Stat(overlay); overlay != "" && (err != nil || !info.IsDir()) {
		return nil, p.misuse("usage-no-folder", finding.Words("folder", overlay))
	}
	book, err := ingest.Read(workbook)
	if err != nil {
		return nil, err
	}
	layered := templates.Layered(overlay)
	r := &reading{book: book}
	s := book.Settings
	if r.texts, err = words.Load(layered, language, show.Style{Units: s.Units, DecimalMark: s.DecimalMark, Currency: s.Currency}); err != nil {
		return nil, err
	}
	if r.files, err = allFiles(layered); err != nil {
		return nil, err
	}
	var sensing facts.Table
	for name, at := range map[string]*facts.Table{
		"sensing": &sensing, "cautions": &r.tables.Cautions, "topics": &r.tables.Topics, "checklist": &r.tables.Checklist,
	} {
		if *at, err = rulesOf(layered, name); err != nil {
			return nil, err
		}
	}
	builtIn, err := hourly.ReadStations(layered)
	if err != nil {
		return nil, err
	}
	r.engine = calc.NewEngine(calc.Inputs{
		Settings: s, Climate: calc.Climate{Stations: book.Stations, BuiltIn: builtIn},
		Energies: book.Energies, Parts: book.Parts, UnitCosts: book.Costs, Rules: sensing, Checklist: r.tables.Checklist,
	})
	return r, nil
}

// rulesOf reads a decision table.
func rulesOf(fsys fs.FS, name string) (facts.Table, error) {
	file := "rules/" + name + ".tsv"
	in, err := fsys.Open(file)
	if err != nil {
		return facts.Table{}, err
	}
	defer in.Close()
	return facts.Parse(file, in)
}

// allFiles returns every file with its content.
func allFiles(fsys fs.FS) (map[string][]byte, error) {
	all := map[string][]byte{}
	err := fs.WalkDir(fsys, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		all[name], err = fs.ReadFile(fsys, name)
		return err
	})
	return all, err
}

// locate puts the cell to every finding that has none.
func (r *reading) locate(list []finding.Finding) {
	for i, f := range list {
		if f.At == (finding.Cell{}) {
			list[i].At = r.book.Locate(f.Site, f.Zone, f.Field)
		}
	}
}
