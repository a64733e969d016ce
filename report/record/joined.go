package record

import (
	"math"

	"thawbook/calc/cost"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
)

// JoinedSchema names the layout of a joined portfolio. Keys may be added to it, none is renamed.
const JoinedSchema = "thawbook.portfolio/1"

// Joined is a portfolio of the sites of one record or several.
type Joined struct {
	Schema   string      `json:"schema"`
	Program  Program     `json:"program"`
	Currency string      `json:"currency"`
	Records  []Joint     `json:"records"`
	Totals   []Region    `json:"totals"`
	Largest  []string    `json:"largest"` // sites by yearly cost as in Sites, typical winter
	Ranking  []Pick      `json:"ranking"`
	Plan     *BudgetPlan `json:"plan"` // null without a budget limit
	Open     []string    `json:"open"`
}

// Joint is a record that was joined.
type Joint struct {
	File    string  `json:"file"`
	Input   string  `json:"input"`
	Program Program `json:"program"`
	Sites   int     `json:"sites"`
}

// Region is what the sites of a region come to, or all where Region is null. Amounts add the sites that have one.
type Region struct {
	Region            *string   `json:"region"`
	Sites             int       `json:"sites"`
	Zones             int       `json:"zones"`
	AreaM2            Number    `json:"area_m2"`
	TotalW            Number    `json:"total_w"`
	AsInSites         Winters   `json:"yearly_cost_as_in_sites"`
	Now               Winters   `json:"yearly_cost_now"`
	Decided           Winters   `json:"yearly_cost_as_decided"`
	CostPerM2         Number    `json:"yearly_cost_per_m2"`
	FirstCostApproved Amount    `json:"first_cost_approved"`
	Decisions         Decisions `json:"decisions"`
	SitesWithoutCost  int       `json:"sites_without_cost"`
	ExamplePrices     bool      `json:"example_prices"`
}

// Decisions counts sites by what their owner decided.
type Decisions struct {
	Open     int `json:"open"`
	Approved int `json:"approved"`
	Declined int `json:"declined"`
	Deferred int `json:"deferred"`
}

// Pick is a site changed to one of its alternatives. Ratio is net savings for each unit of first cost; null where that is 0.
type Pick struct {
	Site        string `json:"site"`
	Alternative string `json:"alternative"`
	FirstCost   Amount `json:"first_cost"`
	NetSavings  Amount `json:"net_savings"`
	Ratio       Number `json:"net_savings_for_each_unit_spent"`
	SavedAYear  Amount `json:"saved_a_year"`
}

// BudgetPlan is which open sites to change within a limit of first costs. No plan saves more than Bound.
type BudgetPlan struct {
	Limit      Amount `json:"limit"`
	Committed  Amount `json:"first_cost_approved"`
	FirstCost  Amount `json:"first_cost"`
	NetSavings Amount `json:"net_savings"`
	Exact      bool   `json:"exact"`
	Bound      Amount `json:"bound"`
	Unpriced   int    `json:"sites_not_considered"`
	Picks      []Pick `json:"picks"`
}

// Join returns a portfolio for other programs.
func Join(p report.Portfolio, currency string, by Program, records []Joint) Joined {
	m := maker{currency: currency}
	out := Joined{Schema: JoinedSchema, Program: by, Currency: currency, Records: records, Largest: idsOf(p.Largest()), Ranking: m.picks(p.Ranking()), Open: idsOf(p.Open())}
	for _, t := range p.Totals() {
		out.Totals = append(out.Totals, m.region(t))
	}
	if plan, made := p.Plan(); made {
		out.Plan = &BudgetPlan{m.some(plan.Limit), m.some(plan.Committed), m.some(plan.First), m.some(plan.Net), plan.Exact, m.some(plan.Bound), plan.Unpriced, m.picks(plan.Picks)}
	}
	return out
}

func (m maker) some(v cost.Money) Amount { return m.amount(units.Some(v)) }

func (m maker) region(t portfolio.Total) Region {
	r := Region{Sites: t.Sites, Zones: t.Zones, AreaM2: Number{t.AreaM2}, TotalW: Number{t.TotalW}, AsInSites: m.winters(t.Design.Winter), Now: m.winters(t.Now.Winter),
		Decided: m.winters(t.Budget.Winter), CostPerM2: Number{t.Design.PerM2}, FirstCostApproved: m.amount(t.Spend),
		Decisions: Decisions{t.Decisions[0], t.Decisions[1], t.Decisions[2], t.Decisions[3]}, SitesWithoutCost: t.Design.Without, ExamplePrices: t.Example}
	if !t.All {
		r.Region = &t.Region
	}
	return r
}

func (m maker) picks(list []portfolio.Pick) []Pick {
	out := make([]Pick, len(list))
	for i, k := range list {
		out[i] = Pick{k.Site, k.Option, m.some(k.First), m.some(k.Net), Number{units.Maybe[float64]{Value: k.Ratio, Known: !math.IsInf(k.Ratio, 0)}}, m.amount(k.Saved)}
	}
	return out
}

func idsOf(list []portfolio.Site) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = s.ID
	}
	return out
}
