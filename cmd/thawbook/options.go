package main

import (
	"context"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	"thawbook/calc/finding"
)

// runOptions are the flags of run.
type runOptions struct {
	out, templates                                          string
	jobs                                                    int
	sites                                                   []string
	onlyChanged, inPlace, separate, noPDF, quiet, log, demo bool
}

// runCommand calculates a workbook and writes its documents.
func (p *program) runCommand(f *flags) action {
	o := runOptions{}
	f.text(&o.out, "out")
	f.number(&o.jobs, "jobs", runtime.NumCPU())
	f.texts(&o.sites, "site")
	f.yes(&o.onlyChanged, "only-changed")
	f.yes(&o.inPlace, "in-place")
	f.yes(&o.separate, "separate")
	f.yes(&o.noPDF, "no-pdf")
	f.text(&o.templates, "templates")
	f.yes(&o.quiet, "quiet")
	f.yes(&o.log, "log")
	f.yes(&o.demo, "demo")
	return func(ctx context.Context, args []string) (int, error) {
		if err := p.judge(o, args); err != nil {
			return 0, err
		}
		j := &job{program: p, runOptions: o}
		if o.demo {
			j.places = demoPlaces(o.out)
		} else {
			j.places = placesOf(args[0], o.out)
		}
		return j.perform(ctx)
	}
}

// judge refuses what does not go together.
func (p *program) judge(o runOptions, args []string) error {
	switch {
	case o.demo && len(args) > 0:
		return p.misuse("usage-workbook-or-demo")
	case !o.demo && len(args) != 1:
		return p.misuse("usage-one-workbook")
	case o.jobs < 1:
		return p.misuse("usage-jobs", finding.Words("jobs", fmt.Sprint(o.jobs)))
	case o.inPlace && o.separate:
		return p.misuse("usage-in-place-or-separate")
	case o.inPlace && o.demo:
		return p.misuse("usage-in-place-demo")
	}
	return nil
}

// places is where a run reads and writes.
type places struct {
	input   string // the workbook
	out     string // the folder
	results string // name of the results workbook in it
}

// The parts of names that we add.
const (
	resultsInfix   = ".results"
	beforeInfix    = ".before"
	folderSuffix   = " results"
	demoName       = "demo.xlsx"
	submittals     = "submittals"
	portfolioName  = "portfolio.pdf"
	transmittal    = "transmittal.csv"
	recordName     = "results.json"
	workbookEnding = ".xlsx"
	macrosEnding   = ".xlsm"
)

// placesOf derives them from the workbook's name. x.results.xlsx has its results in x.results.xlsx.
func placesOf(input, out string) places {
	name := filepath.Base(input)
	ending := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ending)
	if out == "" {
		out = filepath.Join(filepath.Dir(input), stem+folderSuffix)
	}
	return places{input: input, out: out, results: withoutInfix(stem) + resultsInfix + ending}
}

// withoutInfix returns the name of a workbook, without its ending, less what we add to it for its results.
func withoutInfix(stem string) string {
	if i := len(stem) - len(resultsInfix); i > 0 && strings.EqualFold(stem[i:], resultsInfix) {
		return stem[:i]
	}
	return stem
}

// keptNames returns the names under which older ones of a file stay beside it, by their number: its own name with an infix, then numbered.
func keptNames(name string) func(n int) string {
	ending := filepath.Ext(name)
	kept := strings.TrimSuffix(name, ending) + beforeInfix
	return func(n int) string {
		if n == 1 {
			return kept + ending
		}
		return fmt.Sprintf("%s-%d%s", kept, n, ending)
	}
}

// demoPlaces puts the demo workbook itself into the folder.
func demoPlaces(out string) places {
	p := placesOf(demoName, out)
	p.input = filepath.Join(p.out, demoName)
	return p
}
