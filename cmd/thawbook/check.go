package main

import (
	"context"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/report/terminal"
)

// checkCommand reads a workbook and judges it; it calculates nothing.
func (p *program) checkCommand(f *flags) action {
	var asJSON bool
	f.yes(&asJSON, "json")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) != 1 {
			return 0, p.misuse("usage-one-workbook")
		}
		r, err := p.readAll(args[0], "")
		if err != nil {
			return 0, err
		}
		found, counts := r.judged()
		write := terminal.Check
		if asJSON {
			write = terminal.CheckJSON
		}
		if err := write(p.stdout, r.texts, found, counts); err != nil {
			return 0, err
		}
		if finding.Worst(found) == finding.Error {
			return exitPartial, nil
		}
		return exitOK, nil
	}
}

// judged returns what is to be told of the workbook, and how much of it was read.
func (r *reading) judged() ([]finding.Finding, terminal.Counts) {
	found := r.book.Findings
	counts := terminal.Counts{Sites: len(r.book.Sites)}
	for _, s := range r.book.Sites {
		told := r.engine.Check(s)
		r.locate(told)
		_, missing := r.pictures(s)
		told = append(told, missing...)
		calc.Accept(r.book.Accepted, s, told) // what became of its rows is known once the rest is calculated
		found = append(found, told...)
		counts.Zones += len(s.Zones)
		for _, z := range s.Zones {
			if z.Ref.Include == "later" || z.Ref.Include == "no" {
				counts.NotIncluded++
			}
		}
	}
	return found, counts
}
