package terminal

import (
	"io"
	"math"
	"strconv"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/record"
	"thawbook/report/words"
)

// Portfolio writes what the sites come to by region, the largest, and which to change first.
func Portfolio(w io.Writer, texts *words.Words, p report.Portfolio) error {
	out := &page{w: w}
	out.regions(texts, p)
	if yearly := p.Yearly(texts); yearly != "" {
		out.text(0, yearly)
	}
	out.text(0, p.Counted(texts))
	out.text(0, texts.Say("portfolio-severe"))
	for _, s := range p.Terms.Sentences(texts) {
		out.text(0, s)
	}
	out.largest(texts, p.Largest())
	out.line("")
	out.text(0, p.Planned(texts))
	if plan, made := p.Plan(); made {
		out.picks(texts, "portfolio-within", plan.Picks)
	}
	out.picks(texts, "portfolio-ranking", p.Ranking())
	if open := p.Open(); len(open) > 0 {
		out.titled(texts, "portfolio-open")
		ids := make([]string, len(open))
		for i, s := range open {
			ids[i] = s.ID
		}
		out.text(2, strings.Join(ids, ", "))
	}
	return out.err
}

// PortfolioJSON writes the same for other programs.
func PortfolioJSON(w io.Writer, joined record.Joined) error { return writeJSON(w, joined) }

func (p *page) titled(texts *words.Words, code string) {
	p.line("")
	p.line(texts.Say(code))
}

// regions is a table of what each region costs a year as in Sites.
func (p *page) regions(texts *words.Words, of report.Portfolio) {
	area := texts.Show.Unit(units.Area)
	p.row(0, column{width: 28, text: texts.Say("portfolio-region")}, column{6, texts.Say("portfolio-sites"), true}, column{12, area, true}, column{14, texts.Say("portfolio-mild"), true},
		column{14, texts.Say("portfolio-typical"), true}, column{14, texts.Say("portfolio-severe-short"), true})
	for _, t := range of.Totals() {
		money := func(i int) column { return column{14, amount(texts, t.Design.Winter[i]), true} }
		size := ""
		if t.AreaM2.Known {
			size = texts.Show.Number(t.AreaM2.Value, units.Area)
		}
		p.row(0, column{width: 28, text: report.RegionName(texts, t)}, column{6, strconv.Itoa(t.Sites), true}, column{12, size, true}, money(0), money(1), money(2))
	}
	p.text(0, texts.Say("portfolio-in", finding.Words("currency", texts.Show.Currency)))
	for _, lack := range of.Lacks(texts) {
		p.text(0, lack)
	}
}

func amount(texts *words.Words, m units.Maybe[cost.Money]) string {
	if !m.Known {
		return texts.Show.Maybe(units.Maybe[float64]{}, units.Number)
	}
	return texts.Show.Whole(m.Value)
}

func (p *page) largest(texts *words.Words, list []portfolio.Site) {
	if len(list) == 0 {
		return
	}
	p.titled(texts, "portfolio-largest")
	for _, s := range list {
		p.row(2, column{width: 12, text: s.ID}, column{width: 50, text: s.Name}, column{14, amount(texts, s.Design[1]), true})
	}
}

// picks is a list of changes: what is spent and what it saves over the study.
func (p *page) picks(texts *words.Words, code string, list []portfolio.Pick) {
	if len(list) == 0 {
		return
	}
	p.titled(texts, code)
	p.row(2, column{width: 12, text: texts.Say("portfolio-site")}, column{width: 42, text: texts.Say("portfolio-change")}, column{14, texts.Say("portfolio-first-cost"), true},
		column{14, texts.Say("portfolio-net"), true}, column{8, texts.Say("portfolio-ratio"), true})
	for _, k := range list {
		ratio := ""
		if !math.IsInf(k.Ratio, 0) {
			ratio = texts.Show.Number(k.Ratio, units.Factor)
		}
		p.row(2, column{width: 12, text: k.Site}, column{width: 42, text: k.Option}, column{14, amount(texts, units.Some(k.First)), true}, column{14, amount(texts, units.Some(k.Net)), true},
			column{8, ratio, true})
	}
}
