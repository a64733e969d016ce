package main

import (
	"context"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/report"
	"thawbook/report/record"
	"thawbook/report/submittal"
	"thawbook/report/terminal"
	"thawbook/report/words"
)

// portfolioCommand joins records into one portfolio.
func (p *program) portfolioCommand(f *flags) action {
	var budget, out string
	var asJSON bool
	f.text(&out, "out")
	f.text(&budget, "budget")
	f.yes(&asJSON, "json")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) == 0 {
			return 0, p.misuse("portfolio-joins-nothing")
		}
		j := joint{program: p, from: map[string]string{}}
		for _, file := range args {
			if err := j.take(file); err != nil {
				return 0, err
			}
		}
		if err := j.limit(budget); err != nil {
			return 0, err
		}
		return exitOK, j.tell(out, asJSON)
	}
}

// tell writes the portfolio to standard output, and as documents into a folder where one is named.
func (j *joint) tell(out string, asJSON bool) error {
	texts := *j.words
	texts.Show = styleOf(j.settings)
	joined := record.Join(j.whole, j.settings.Currency, record.Program{Name: programName, Version: Version}, j.records)
	if out != "" {
		if err := j.write(out, &texts, joined); err != nil {
			return err
		}
	}
	if asJSON {
		return terminal.PortfolioJSON(j.stdout, joined)
	}
	return terminal.Portfolio(j.stdout, &texts, j.whole)
}

// write puts portfolio.pdf and portfolio.json into a folder.
func (j *joint) write(folder string, texts *words.Words, joined record.Joined) error {
	dir, err := outdir.Open(folder)
	if err != nil {
		return err
	}
	defer dir.Close()
	j.halts.add(dir.Halt)
	made, err := submittal.RenderPortfolio(report.View{Settings: j.settings, Words: texts, Program: programName + " " + Version}, j.whole)
	if err != nil {
		return err
	}
	if _, err := dir.Write(portfolioName, func(w io.Writer) error {
		_, err := w.Write(made.Bytes)
		return err
	}); err != nil {
		return err
	}
	_, err = dir.Write(joinedName, func(w io.Writer) error { return terminal.PortfolioJSON(w, joined) })
	return err
}

const joinedName = "portfolio.json"

// joint is what has been joined so far.
type joint struct {
	*program
	whole    report.Portfolio
	settings calc.Settings // how documents are headed and values written: by the first record, less what another tells otherwise
	records  []record.Joint
	from     map[string]string // file that a site came from
}

// take joins a record to those before.
func (j *joint) take(file string) error {
	r, err := j.readRecord(file)
	if err != nil {
		return err
	}
	if len(j.records) == 0 {
		j.begin(r)
	}
	if r.Currency != j.settings.Currency {
		return j.misuse("portfolio-currencies", finding.Words("first", j.records[0].File), finding.Words("one", j.settings.Currency), finding.Words("second", file), finding.Words("other", r.Currency))
	}
	sites := r.PortfolioSites()
	for _, s := range sites {
		if first, twice := j.from[s.ID]; twice {
			return j.misuse("portfolio-site-twice", finding.Words("site", s.ID), finding.Words("first", first), finding.Words("second", file))
		}
		j.from[s.ID] = file
		j.whole.Add(s)
	}
	if len(j.records) > 0 {
		j.whole.Terms = j.whole.Terms.Join(r.Terms())
		j.head(r.Head())
	}
	j.records = append(j.records, record.Joint{File: filepath.ToSlash(file), Input: r.Input.File, Program: r.Program, Sites: len(sites)})
	return nil
}

// begin takes from the first record what all share.
func (j *joint) begin(r record.Results) {
	j.settings = r.Head()
	j.whole = report.Portfolio{Portfolio: portfolio.New(r.Currency), Terms: r.Terms()}
}

// head keeps of the heading what another record tells alike.
func (j *joint) head(other calc.Settings) {
	s := &j.settings
	for _, text := range [][2]*string{{&s.Project, &other.Project}, {&s.PreparedFor, &other.PreparedFor}, {&s.PreparedBy, &other.PreparedBy}, {&s.Revision, &other.Revision}, {&s.IssueDate, &other.IssueDate}} {
		if *text[0] != *text[1] {
			*text[0] = ""
		}
	}
}

// limit takes the budget that was asked for in place of the records'.
func (j *joint) limit(typed string) error {
	if typed == "" {
		return nil
	}
	amount, err := strconv.ParseFloat(strings.ReplaceAll(typed, ",", ""), 64)
	if err != nil || !(amount >= 0 && amount <= mostBudget) {
		return j.misuse("portfolio-budget", finding.Words("typed", typed))
	}
	j.whole.Terms.Limit = units.Some(cost.FromMain(amount, j.settings.Currency))
	return nil
}

const mostBudget = 1e12 // far above any; what is more overflows
