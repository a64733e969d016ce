package terminal

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// Run is what the last lines of a run tell.
type Run struct {
	Sites    map[string]int  // by status
	Total    portfolio.Total // of all sites
	Findings []finding.Finding
	Files    []string // to open, as the user would type them
}

// statuses in the order in which they are counted out.
var statuses = []string{calc.Done, calc.DoneCheck, calc.Incomplete, calc.Failed, calc.NotIncluded}

const mostToFix = 3

// Receipt writes the last lines of a run: sites by status, what the portfolio costs, what to fix first and which files to open.
func Receipt(w io.Writer, texts *words.Words, r Run) error {
	p := &page{w: w}
	p.text(0, counted(texts, r.Sites))
	p.total(texts, r.Total)
	p.toFix(texts, r.Findings)
	if len(r.Files) > 0 {
		p.line(texts.Say("receipt-open"))
		for _, f := range r.Files {
			p.line("  " + f)
		}
	}
	return p.err
}

// counted tells the sites by status.
func counted(texts *words.Words, sites map[string]int) string {
	all := 0
	var parts []string
	for _, s := range statuses {
		all += sites[s]
		if sites[s] > 0 {
			parts = append(parts, strconv.Itoa(sites[s])+" "+s)
		}
	}
	if all == 0 {
		return texts.Say("receipt-no-sites")
	}
	return texts.Say("receipt-sites", number(texts, "sites", all), finding.Words("statuses", strings.Join(parts, "; ")))
}

// total tells what all sites cost in the three winters.
func (p *page) total(texts *words.Words, t portfolio.Total) {
	if t.Sites == 0 {
		return
	}
	p.text(0, texts.Say("receipt-heat", finding.Words("area", texts.Show.Maybe(t.AreaM2, units.Area)), finding.Words("heat", texts.Show.Maybe(t.TotalW, units.Power))))
	p.cost(texts, t)
	if unpriced := t.Design.Without - t.Unwintered; unpriced > 0 {
		p.text(0, texts.Say("receipt-unpriced", number(texts, "sites", unpriced)))
	}
	if t.Unwintered > 0 {
		p.text(0, texts.Say("receipt-unwintered", number(texts, "sites", t.Unwintered)))
	}
}

// cost tells what the sites that have a cost come to.
func (p *page) cost(texts *words.Words, t portfolio.Total) {
	if !t.Design.Winter[1].Known {
		p.text(0, texts.Say("receipt-no-cost"))
		return
	}
	money := func(i int) finding.Arg {
		return finding.Words(string(cost.Winters[i]), texts.Show.Round(t.Design.Winter[i]))
	}
	line := texts.Say("receipt-cost", money(0), money(1), money(2))
	if t.Example {
		line += " (" + texts.Say("example-prices") + ")"
	}
	p.text(0, line)
}

// toFix lists the first errors and warnings, each kind once.
func (p *page) toFix(texts *words.Words, list []finding.Finding) {
	var told []finding.Code
	for _, f := range report.Merge(list) {
		if f.Severity > finding.Warning || slices.Contains(told, f.Code) {
			continue
		}
		if len(told) == mostToFix {
			break
		}
		if len(told) == 0 {
			p.line(texts.Say("receipt-fix"))
		}
		told = append(told, f.Code)
		p.finding(texts, f)
	}
}
