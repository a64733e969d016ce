package report

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// Portfolio is an owner's sites and the terms on which their amounts stand.
type Portfolio struct {
	*portfolio.Portfolio
	Terms Terms
}

// Terms are what amounts rest on, each told once however many workbooks tell it.
type Terms struct {
	PriceDates, ValidUntil, Exclusions []string
	Contingencies                      []Contingency
	Studies                            []Study
	Limit                              units.Maybe[cost.Money] // what may be spent on first costs
}

// Contingency is the share that first costs hold for what can't be foreseen.
type Contingency struct{ New, Retrofit float64 }

// Study is over how many years, and at which discount rate as told, savings are counted.
type Study struct{ Years, Rate float64 }

// TermsOf returns the terms that a workbook tells.
func TermsOf(s calc.Settings) Terms {
	return Terms{PriceDates: told(s.PriceDate), ValidUntil: told(s.PriceValidUntil), Exclusions: told(s.Exclusions), Contingencies: []Contingency{{s.ContingencyNew, s.ContingencyRetrofit}}, Studies: []Study{{s.AnalysisYears, s.DiscountRate}},
		Limit: units.Maybe[cost.Money]{Value: cost.FromMain(s.BudgetLimit.Value, s.Currency), Known: s.BudgetLimit.Known}}
}

func told(text string) []string {
	if text = strings.TrimSpace(text); text == "" {
		return nil
	}
	return []string{text}
}

// Join takes in the terms of another workbook. A limit that not both tell alike is none of the whole.
func (t Terms) Join(other Terms) Terms {
	t.PriceDates, t.ValidUntil, t.Exclusions = union(t.PriceDates, other.PriceDates), union(t.ValidUntil, other.ValidUntil), union(t.Exclusions, other.Exclusions)
	t.Contingencies, t.Studies = union(t.Contingencies, other.Contingencies), union(t.Studies, other.Studies)
	if t.Limit != other.Limit {
		t.Limit = units.Maybe[cost.Money]{}
	}
	return t
}

func union[T comparable](list, more []T) []T {
	out := slices.Clone(list)
	for _, v := range more {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// Plan returns what to change first within the limit; false where none is told.
func (p Portfolio) Plan() (portfolio.Plan, bool) {
	if !p.Terms.Limit.Known {
		return portfolio.Plan{}, false
	}
	return p.Within(p.Terms.Limit.Value), true
}

// Counted says how decisions are counted, in a sentence.
func (p Portfolio) Counted(w *words.Words) string {
	return w.Say("portfolio-decisions", finding.Words("open", w.Show.Number(float64(len(p.Open())), units.Count)))
}

// Yearly says what all sites come to with clearing and care; "" where nothing is known of them.
func (p Portfolio) Yearly(w *words.Words) string {
	all := p.All()
	if !all.Now.Winter[1].Known {
		return ""
	}
	return w.Say("portfolio-now", finding.Words("now", w.Show.Round(all.Now.Winter[1])), finding.Words("decided", w.Show.Round(all.Budget.Winter[1])))
}

// Lacks say what the yearly cost lacks: prices of the owner's own, sites.
func (p Portfolio) Lacks(w *words.Words) []string {
	all := p.All()
	var out []string
	if all.Example {
		out = append(out, w.Say("portfolio-example"))
	}
	if all.Design.Without > 0 {
		out = append(out, w.Say("portfolio-without", finding.Words("sites", w.Show.Number(float64(all.Design.Without), units.Count))))
	}
	return out
}

// Sentences say on what terms the amounts stand.
func (t Terms) Sentences(w *words.Words) []string {
	var out []string
	for _, list := range []struct {
		code  string
		texts []string
	}{{"portfolio-price-date", t.PriceDates}, {"portfolio-valid", t.ValidUntil}, {"portfolio-exclusions", t.Exclusions}} {
		if len(list.texts) > 0 {
			out = append(out, w.Say(list.code, finding.Words("told", strings.TrimSuffix(strings.Join(list.texts, "; "), "."))))
		}
	}
	for _, s := range t.Studies {
		if s.Years > 0 {
			out = append(out, w.Say("portfolio-study", finding.Value("years", s.Years, units.Years), finding.Value("rate", s.Rate, units.Share)))
		}
	}
	for _, c := range t.Contingencies {
		out = append(out, w.Say("portfolio-contingency", finding.Words("new", w.Show.With(c.New, units.Share)), finding.Words("retrofit", w.Show.With(c.Retrofit, units.Share))))
	}
	return out
}

// Planned says what the plan comes to, and how sure it is that none is better.
func (p Portfolio) Planned(w *words.Words) string {
	plan, made := p.Plan()
	if !made {
		return w.Say("portfolio-no-limit")
	}
	money := func(name string, m cost.Money) finding.Arg { return finding.Words(name, w.Show.Round(units.Some(m))) }
	text := w.Say("portfolio-plan", money("limit", plan.Limit), money("committed", plan.Committed), money("first", plan.First), money("net", plan.Net),
		finding.Words("unpriced", w.Show.Number(float64(plan.Unpriced), units.Count)))
	if plan.Exact {
		return text + " " + w.Say("portfolio-exact")
	}
	return text + " " + w.Say("portfolio-bound", money("bound", plan.Bound))
}

// RegionName returns a total's name.
func RegionName(w *words.Words, t portfolio.Total) string {
	switch {
	case t.All:
		return w.Say("all-regions")
	case t.Region == "":
		return w.Say("no-region")
	}
	return t.Region
}
