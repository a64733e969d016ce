package record

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report"
)

// Alternative is what a way of doing a site costs: in a typical winter, over the study, and against the base case.
type Alternative struct {
	Site                string     `json:"site"`
	Alternative         string     `json:"alternative"`
	FirstCost           Amount     `json:"first_cost"`
	YearlyCost          Amount     `json:"yearly_cost"`
	PresentValue        Amount     `json:"present_value"`
	NetSavings          Amount     `json:"net_savings"`
	SimplePaybackY      Number     `json:"simple_payback_y"`
	DiscountedPaybackY  Number     `json:"discounted_payback_y"`
	SavingsToInvestment Number     `json:"savings_to_investment"`
	InternalRate        Number     `json:"adjusted_internal_rate_of_return"`
	CO2Kg               Number     `json:"co2_kg"`
	BreakEven           *BreakEven `json:"break_even"`
	Sensitivity         []Swing    `json:"sensitivity"`
	Lacks               []Lack     `json:"lacks"`
	FirstCostLines      []CostLine `json:"first_cost_lines"`
	Rank                int        `json:"rank"` // 0 without a present value
	BaseCase            bool       `json:"base_case"`
	Proposed            bool       `json:"proposed"`
	AsInSites           bool       `json:"as_in_sites"`
	ByWinter            Winters    `json:"yearly_cost_by_winter"`
}

// BreakEven is the price of energy at which an alternative and the base case cost the same.
type BreakEven struct {
	Energy   string `json:"energy"`
	Unit     string `json:"unit"`
	Currency string `json:"currency"`
	Now      Number `json:"price_now"`
	Price    Number `json:"price"`
}

// Swing is what net savings come to when one thing is moved and the others stay. Low and High are shares; of the winter null: mild and severe.
type Swing struct {
	Moves   string `json:"moves"`
	Low     Number `json:"low"`
	High    Number `json:"high"`
	NetLow  Amount `json:"net_savings_low"`
	NetHigh Amount `json:"net_savings_high"`
}

// Lack is a function that was wanted in a zone and is not there.
type Lack struct {
	Zone string `json:"zone"`
	Code string `json:"code"`
	Text string `json:"text"`
}

// CostLine is a line of a first cost; zone null is the whole site.
type CostLine struct {
	Zone     *string `json:"zone"`
	Item     string  `json:"item"`
	Quantity Number  `json:"quantity"`
	Unit     string  `json:"unit"`
	UnitCost Number  `json:"unit_cost"`
	Currency string  `json:"currency"`
	Amount   Amount  `json:"amount"`
	From     string  `json:"unit_cost_from"`
	Counted  bool    `json:"counted"`
}

// alternative is an alternative of a site as the record holds it.
func (m maker) alternative(site string, a calc.AlternativeOutcome) Alternative {
	o := a.Option()
	out := Alternative{Site: site, Alternative: a.Name, FirstCost: m.amount(a.FirstCost), YearlyCost: m.amount(a.Years[1].Total), PresentValue: m.amount(o.PresentValue), NetSavings: m.amount(o.NetSavings),
		SimplePaybackY: Number{o.SimpleY}, DiscountedPaybackY: Number{o.DiscountedY}, SavingsToInvestment: Number{o.SIR}, InternalRate: Number{o.AIRR}, CO2Kg: Number{a.Years[1].CO2Kg},
		Sensitivity: []Swing{}, Lacks: []Lack{}, FirstCostLines: []CostLine{}, Rank: a.Rank, BaseCase: a.Base, Proposed: a.Proposed,
		AsInSites: a.AsInSites, ByWinter: m.winters(o.Yearly)}
	if b := a.BreakEven; b.Known {
		out.BreakEven = &BreakEven{b.Value.EnergyID, b.Value.Unit, b.Value.Currency, Number{units.Some(b.Value.Now)}, Number{units.Some(b.Value.Price)}}
	}
	for _, s := range a.Sensitivity {
		share := func(v float64) Number {
			return Number{units.Maybe[float64]{Value: v, Known: s.Moves != calc.MovesWinter}}
		}
		out.Sensitivity = append(out.Sensitivity, Swing{s.Moves, share(s.Low), share(s.High), m.amount(units.Some(s.NetLow)), m.amount(units.Some(s.NetHigh))})
	}
	for _, l := range a.Lost {
		out.Lacks = append(out.Lacks, Lack{l.Zone, l.Code, report.Lacks(m.words, l.Code)})
	}
	for _, l := range a.Lines {
		out.FirstCostLines = append(out.FirstCostLines, m.costLine(l))
	}
	return out
}

func (m maker) costLine(l cost.Line) CostLine {
	return CostLine{Zone: text(l.Zone), Item: l.Item, Quantity: Number{units.Some(l.Quantity)}, Unit: l.Unit, UnitCost: Number{l.UnitCost}, Currency: l.Currency, Amount: m.amount(l.Amount),
		From: l.CostFrom, Counted: l.Uncounted == cost.Counted}
}
