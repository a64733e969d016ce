package main

import (
	"context"
	"path/filepath"
	"strconv"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/terminal"
)

// portfolioCommand joins records into one portfolio.
func (p *program) portfolioCommand(f *flags) action {
	var budget string
	var asJSON bool
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
		if asJSON {
			return exitOK, terminal.PortfolioJSON(p.stdout, record.Join(j.whole, j.currency, record.Program{Name: programName, Version: Version}, j.records))
		}
		texts := *p.words
		texts.Show = j.show
		return exitOK, terminal.Portfolio(p.stdout, &texts, j.whole)
	}
}

// joint is what has been joined so far.
type joint struct {
	*program
	whole    report.Portfolio
	currency string
	show     show.Style // of the first record
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
	if r.Currency != j.currency {
		return j.misuse("portfolio-currencies", finding.Words("first", j.records[0].File), finding.Words("one", j.currency), finding.Words("second", file), finding.Words("other", r.Currency))
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
	}
	j.records = append(j.records, record.Joint{File: filepath.ToSlash(file), Input: r.Input.File, Program: r.Program, Sites: len(sites)})
	return nil
}

// begin takes from the first record what all share.
func (j *joint) begin(r record.Results) {
	j.currency, j.show = r.Currency, styleOf(r)
	j.whole = report.Portfolio{Portfolio: portfolio.New(r.Currency), Terms: r.Terms()}
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
	j.whole.Terms.Limit = units.Some(cost.FromMain(amount, j.currency))
	return nil
}

const mostBudget = 1e12 // far above any; what is more overflows
