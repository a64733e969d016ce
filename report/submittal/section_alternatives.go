package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
)

const dash = "–"

func hasAlternatives(v report.View) bool { return len(v.Site.Alternatives) > 1 }

// alternativeRows holds the ways of doing the site side by side: what each costs first, in a year and over the study, what it lacks, and how far the
// best of them rests on prices and winters.
func alternativeRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.alternativesIntro(), bodyStyle)
	rows = append(rows, s.compared()...)
	rows = append(rows, s.lacking()...)
	rows = append(rows, s.firstCosts()...)
	rows = append(rows, s.lifeCycles()...)
	if best, found := bestAlternative(v.Site); found {
		rows = append(rows, s.tornado(best)...)
	}
	return rows
}

func (s sheet) alternativesIntro() string {
	study := s.Site.Alternatives[0].Study
	texts := []string{s.say("alternatives-intro", finding.Value("years", float64(study.Years), units.Years), finding.Value("rate", study.Discount, units.Share))}
	if s.Site.Summary.Proposed {
		texts = append(texts, s.Words.Say("alternatives-proposed"))
	}
	if s.Site.Summary.ExamplePrices {
		texts = append(texts, s.say("example-prices"))
	}
	if date := s.Settings.PriceDate; date != "" {
		texts = append(texts, s.say("priced-on", finding.Words("date", date)))
	}
	if until := s.Settings.PriceValidUntil; until != "" {
		texts = append(texts, s.say("price-valid", finding.Words("date", until)))
	}
	return strings.Join(texts, " ")
}

// compared is a row for each way.
func (s sheet) compared() []core.Row {
	cols := []column{{title: s.say("alternative"), width: 24}, {title: s.say("rank"), width: 6, right: true}, {title: s.priced("first-cost"), width: 12, right: true},
		{title: s.priced("yearly-cost-typical"), width: 13, right: true}, {title: s.priced("present-value"), width: 12, right: true}, {title: s.priced("net-savings"), width: 13, right: true},
		{title: s.unit("simple-payback", units.Years), width: 10, right: true}, {title: s.unit("discounted-payback", units.Years), width: 10, right: true}}
	count := func(n units.Maybe[float64]) string { return s.bare(n, units.Count) }
	years := func(y units.Maybe[float64]) string { return s.bare(y, units.Years) }
	list := make([]cells, len(s.Site.Alternatives))
	for i, a := range s.Site.Alternatives {
		o := a.Option()
		list[i] = cells{bold: o.Name == s.Site.Summary.Chosen, texts: []string{s.alternativeName(a), ifKnown(units.Maybe[float64]{Value: float64(a.Rank), Known: a.Rank > 0}, count), s.rounded(o.FirstCost), s.rounded(o.Yearly[1]),
			s.rounded(o.PresentValue), ifKnown(o.NetSavings, s.rounded), ifKnown(o.SimpleY, years), ifKnown(o.DiscountedY, years)}}
	}
	table := s.table(cols, list)
	whole(table)
	return append(table, s.paragraph(s.say("alternatives-note"), noteStyle)...)
}

// ifKnown writes a value, or a dash where there is none by its nature: a payback that never comes, savings of the base case against itself.
func ifKnown[T any](v units.Maybe[T], write func(units.Maybe[T]) string) string {
	if !v.Known {
		return dash
	}
	return write(v)
}

// alternativeName is the name with what was decided of it.
func (s sheet) alternativeName(a calc.AlternativeOutcome) string {
	if sum := s.Site.Summary; a.Name == sum.Chosen && sum.Decision != "" {
		return a.Name + " (" + sum.Decision + ")"
	}
	return a.Name
}

// bestAlternative is the way that the owner chose, else the one of best rank; the base case is none.
func bestAlternative(so calc.SiteOutcome) (best calc.AlternativeOutcome, found bool) {
	for _, a := range so.Alternatives {
		if a.Base || !a.Savings.Known {
			continue
		}
		if a.Name == so.Summary.Chosen {
			return a, true
		}
		if !found || a.Rank < best.Rank {
			best, found = a, true
		}
	}
	return best, found
}
