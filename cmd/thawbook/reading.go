package main

import (
	"errors"
	"fmt"
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
	found  map[string][]finding.Finding // by Site ID, of reading
	engine *calc.Engine
	texts  *words.Words // in the workbook's units and marks, with the user's texts over ours
	tables report.Tables
	files  map[string][]byte // the texts and rules themselves
	logo   report.Logo
}

// readAll reads the texts and rules with the user's folder laid over ours, then the workbook.
func (p *program) readAll(workbook, overlay string) (*reading, error) {
	if info, err := os.Stat(overlay); overlay != "" && (err != nil || !info.IsDir()) {
		return nil, p.misuse("usage-no-folder", finding.Words("folder", overlay))
	}
	r, in, err := readTemplates(overlay)
	if err != nil {
		return nil, err
	}
	book, err := ingest.Read(workbook)
	if err != nil {
		return nil, err
	}
	accept(book)
	s := book.Settings
	r.book, r.found = book, bySite(book.Findings)
	r.texts.Show = show.Style{Units: s.Units, DecimalMark: s.DecimalMark, Currency: s.Currency}
	in.Settings, in.Energies, in.EnergyRefused, in.Parts, in.UnitCosts = s, book.Energies, book.RefusedEnergies, book.Parts, book.Costs
	in.Climate.Stations, in.Climate.Refused = book.Stations, book.RefusedStations
	r.engine = calc.NewEngine(in)
	r.readLogo(workbook)
	return r, nil
}

// readTemplates reads texts, rules and built-in stations; a broken one is told before anything of the workbook is read.
func readTemplates(overlay string) (r *reading, in calc.Inputs, err error) {
	layered := templates.Layered(overlay)
	r = &reading{}
	if r.texts, err = words.Load(templates.FS(), language, show.Style{}); err != nil {
		return nil, in, err
	}
	if overlay != "" {
		if err = r.texts.Lay(templates.Own(overlay), language); err != nil {
			return nil, in, err
		}
	}
	if r.files, err = allFiles(layered); err != nil {
		return nil, in, err
	}
	if err = r.readRules(layered, &in); err != nil {
		return nil, in, err
	}
	in.Climate.BuiltIn, err = hourly.ReadStations(layered)
	return r, in, err
}

// accept makes accepted ones of what reading found and a person took as it is. What becomes of the rows is told once a site is calculated.
func accept(book *ingest.Book) {
	sites := map[string]calc.Site{}
	for _, s := range book.Sites {
		sites[s.ID] = s
	}
	for i, f := range book.Findings {
		calc.Accept(book.Accepted, sites[f.Site], book.Findings[i:i+1])
	}
}

// bySite sorts the findings that are about a site.
func bySite(list []finding.Finding) map[string][]finding.Finding {
	out := map[string][]finding.Finding{}
	for _, f := range list {
		if f.Site != "" {
			out[f.Site] = append(out[f.Site], f)
		}
	}
	return out
}

// readRules reads and judges every decision table. Errors of all of them are reported together.
func (r *reading) readRules(fsys fs.FS, in *calc.Inputs) error {
	var errs []error
	for _, table := range []struct {
		name, texts string // of the rules and of the texts that they speak through
		at          *facts.Table
	}{
		{"sensing", words.Reasons, &in.Rules}, {"numbers", words.Reasons, &in.Numbers}, {"screen", "screen", &in.Screen}, {"sequence", "sequence", &in.Sequence},
		{"tests", "tests", &in.Tests}, {"care", "care", &in.Care}, {words.Checklist, words.Checklist, &r.tables.Checklist},
		{words.Cautions, words.Cautions, &r.tables.Cautions}, {words.Topics, words.Topics, &r.tables.Topics},
	} {
		var err error
		if *table.at, err = rulesOf(fsys, table.name); err == nil {
			err = errors.Join(calc.CheckRules(table.name, *table.at), r.speaks(*table.at, table.texts))
		}
		errs = append(errs, err)
	}
	in.Checklist = r.tables.Checklist
	return errors.Join(errs...)
}

// speaks returns an error for every row whose code has no sentence.
func (r *reading) speaks(rules facts.Table, texts string) error {
	var errs []error
	for _, row := range rules.Rows {
		if code := row.Effects[facts.Code]; !r.texts.Has(texts, code) && !r.texts.Has(words.Findings, code) {
			errs = append(errs, fmt.Errorf("%s: line %d: %s/%s.tsv has no text for %q", rules.Name, row.Line, language, texts, code))
		}
	}
	return errors.Join(errs...)
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
			r.book.Place(&list[i])
		}
	}
}
