package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// parts are the pieces to buy with lead and price, what is missing and to be verified, and the parts that were not taken.
func (s sheet) parts(o calc.Outcome) []core.Row {
	sel := o.Sensing.Selection
	if sel == nil {
		return nil
	}
	rows := append(s.part(s.partsTitle()), s.pieces(o)...)
	for _, m := range sel.Missing {
		rows = append(rows, s.bullet(s.reasons([]sensing.Reason{m}))...)
	}
	for _, m := range sel.Verify {
		rows = append(rows, s.bullet(s.reasons([]sensing.Reason{m}))...)
	}
	if sel.Boxes > 0 {
		rows = append(rows, s.bullet(s.say("pull-boxes", finding.Value("count", float64(sel.Boxes), units.Count)))...)
	}
	return append(rows, s.unfit(sel.Unfit)...)
}

func (s sheet) partsTitle() string {
	if s.Site.Summary.ExamplePrices {
		return s.say("parts-example")
	}
	return s.say("parts")
}

// pieces is the table of what to buy and what is in place; an amount without a price is blank.
func (s sheet) pieces(o calc.Outcome) []core.Row {
	cols := []column{{title: s.say("piece"), width: 22}, {title: s.say("part"), width: 26}, {title: s.say("buy"), width: 6, right: true}, {title: s.say("in-place"), width: 8, right: true},
		{title: s.unit("lead-need", units.Length), width: 11, right: true}, {title: s.unit("lead-factory", units.Length), width: 14, right: true}, {title: s.priced("amount"), width: 13, right: true}}
	var list []cells
	for _, p := range o.Sensing.Selection.Pieces {
		list = append(list, cells{texts: []string{p.Kind, s.bought(p), s.number(float64(p.Buy), units.Count), s.number(float64(p.There), units.Count),
			s.blank(units.Maybe[float64]{Value: p.NeedM, Known: p.NeedM > 0}), s.order(p), s.sum(s.amountOf(p))}})
	}
	list = append(list, cells{bold: true, texts: []string{s.say("total"), "", "", "", "", "", s.sum(o.PartsTotal(s.Settings.Currency))}})
	return s.table(cols, list)
}

func (s sheet) bought(p sensing.Piece) string {
	switch {
	case p.Part != "":
		return p.Part
	case p.Buy == 0:
		return s.say("nothing-to-buy")
	}
	return s.say("none-fits")
}

// order tells the factory lead to order, and that it needs a joint.
func (s sheet) order(p sensing.Piece) string {
	length := s.blank(p.FactoryM)
	if p.Joint {
		return s.say("with-joint", finding.Words("length", length))
	}
	return length
}

// blank writes a length without its unit, or nothing.
func (s sheet) blank(m units.Maybe[float64]) string {
	if !m.Known {
		return ""
	}
	return s.number(m.Value, units.Length)
}

func (s sheet) amountOf(p sensing.Piece) units.Maybe[cost.Money] {
	amount := p.Amount()
	if !amount.Known || p.Part == "" {
		return units.Maybe[cost.Money]{}
	}
	return units.Some(cost.FromMain(amount.Value, s.Settings.Currency))
}

// sum writes an amount, or nothing.
func (s sheet) sum(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return ""
	}
	return s.amount(m)
}

// unfit are the parts that were not taken; those with the same reason stand together.
func (s sheet) unfit(list []sensing.Unfit) []core.Row {
	if len(list) == 0 {
		return nil
	}
	var rows []cells
	at := map[string]int{}
	for _, u := range list {
		why := sentence(s.reasons([]sensing.Reason{u.Why}))
		i, found := at[why]
		if !found {
			at[why] = len(rows)
			rows = append(rows, cells{texts: []string{u.Part, why}})
			continue
		}
		rows[i].texts[0] += "; " + u.Part
	}
	return append(s.part(s.say("parts-not-taken")), s.dense([]column{{title: s.say("part"), width: 34}, {title: s.say("why-not"), width: 66}}, rows)...)
}
