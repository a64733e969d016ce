package record

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
)

// Names in Settings of what amounts rest on.
const (
	priceDate           = "price_date"
	priceValidUntil     = "price_valid_until"
	exclusions          = "exclusions"
	analysisYears       = "analysis_years_y"
	discountRate        = "discount_rate_share"
	contingencyNew      = "contingency_new_share"
	contingencyRetrofit = "contingency_retrofit_share"
)

// Cell returns the value of a field under its name in the record.
func Cell(field finding.Field, q units.Quantity, number float64, word string) Named {
	return Named{name(field, q), siValue(number, q, word)}
}

// site is a site as the record holds it: all that a portfolio needs of it.
func (m maker) site(s calc.Summary, pdf string, plants []calc.Plant) Site {
	return Site{Site: s.SiteID, SiteName: s.SiteName, Region: s.Region, Owner: s.Owner, Zones: s.Zones, AreaM2: Number{s.AreaM2}, TotalW: Number{s.TotalW},
		YearlyCost: m.amount(s.YearlyCost), Status: s.Status, Revision: s.Revision, Chosen: text(s.Chosen), PDF: text(pdf), Plants: plantsOf(plants),
		AsInSites: m.winters(s.Winter), Recorded: m.recorded(s.Recorded), Now: m.winters(s.Now), Decided: m.winters(s.Budget), FirstCostApproved: m.amount(s.Spend), Decision: s.Decision,
		ExamplePrices: s.ExamplePrices, AlternativesByRules: s.Proposed, WithoutSeason: s.Unwintered}
}

func (m maker) winters(list [3]units.Maybe[cost.Money]) Winters {
	return Winters{m.amount(list[0]), m.amount(list[1]), m.amount(list[2])}
}

func (m maker) recorded(w portfolio.Recorded) *Recorded {
	if len(w.Winters) == 0 {
		return nil
	}
	out := &Recorded{Mild: NumberOf(w.Mild), Severe: NumberOf(w.Severe)}
	for _, one := range w.Winters {
		out.Winters = append(out.Winters, RecordedWinter{one.Label, m.amount(units.Some(one.Total))})
	}
	return out
}

func (r Results) recorded(w *Recorded) portfolio.Recorded {
	if w == nil {
		return portfolio.Recorded{}
	}
	out := portfolio.Recorded{Mild: w.Mild.Value, Severe: w.Severe.Value}
	for _, one := range w.Winters {
		out.Winters = append(out.Winters, portfolio.Winter{Label: one.Winter, Total: r.money(one.Total).Value})
	}
	return out
}

// PortfolioSites returns the sites of the record as a portfolio takes them, each exactly as the run counted it.
func (r Results) PortfolioSites() []portfolio.Site {
	options := map[string][]portfolio.Option{}
	for _, a := range r.Alternatives {
		options[a.Site] = append(options[a.Site], r.option(a))
	}
	var out []portfolio.Site
	for _, s := range r.Sites {
		if s.Status == calc.NotIncluded {
			continue
		}
		out = append(out, portfolio.Site{ID: s.Site, Name: s.SiteName, Region: s.Region, Owner: s.Owner, Zones: s.Zones, AreaM2: s.AreaM2.Or(0), TotalW: s.TotalW.Maybe,
			Design: r.money3(s.AsInSites), Recorded: r.recorded(s.Recorded), Now: r.money3(s.Now), Budget: r.money3(s.Decided), Spend: r.money(s.FirstCostApproved), Decision: s.Decision, Chosen: word(s.Chosen),
			Options: options[s.Site], Example: s.ExamplePrices, Proposed: s.AlternativesByRules, Unwintered: s.WithoutSeason})
	}
	return out
}

func (r Results) option(a Alternative) portfolio.Option {
	return portfolio.Option{Name: a.Alternative, Base: a.BaseCase, AsInSites: a.AsInSites, Proposed: a.Proposed, FirstCost: r.money(a.FirstCost), Yearly: r.money3(a.ByWinter),
		PresentValue: r.money(a.PresentValue), NetSavings: r.money(a.NetSavings), SIR: a.SavingsToInvestment.Maybe, AIRR: a.InternalRate.Maybe, SimpleY: a.SimplePaybackY.Maybe,
		DiscountedY: a.DiscountedPaybackY.Maybe, Lost: len(a.Lacks) > 0, Rank: a.Rank}
}

func (r Results) money(a Amount) units.Maybe[cost.Money] {
	return units.Maybe[cost.Money]{Value: cost.FromMain(a.Value, r.Currency), Known: a.Known}
}

func (r Results) money3(w Winters) [3]units.Maybe[cost.Money] {
	return [3]units.Maybe[cost.Money]{r.money(w.Mild), r.money(w.Typical), r.money(w.Severe)}
}

// Systems are the words of Settings for the systems of units.
var Systems = [...]string{units.SI: "SI", units.IP: "I-P"}

// told returns a word of Settings.
func (r Results) told(name string) string {
	v, _ := r.Settings.Get(name)
	return v.Word
}

// Head returns what documents are headed with and how values are written.
func (r Results) Head() calc.Settings {
	s := calc.Settings{Currency: r.Currency, DecimalMark: r.told("decimal_mark"), Project: r.told("project"), PreparedFor: r.told("prepared_for"), PreparedBy: r.told("prepared_by"),
		Revision: r.told("revision"), IssueDate: r.told("issue_date")}
	if r.told("units") == Systems[units.IP] {
		s.Units = units.IP
	}
	return s
}

// Terms returns what the record's amounts rest on.
func (r Results) Terms() report.Terms {
	number := func(name string) float64 {
		v, _ := r.Settings.Get(name)
		return v.Number.Value
	}
	t := report.TermsOf(calc.Settings{AnalysisYears: number(analysisYears), DiscountRate: number(discountRate), PriceDate: r.told(priceDate), PriceValidUntil: r.told(priceValidUntil), Exclusions: r.told(exclusions), ContingencyNew: number(contingencyNew),
		ContingencyRetrofit: number(contingencyRetrofit)})
	t.Limit = r.money(r.BudgetLimit)
	return t
}
