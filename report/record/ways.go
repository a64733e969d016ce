package record

import (
	"strconv"
)

// WayMoved is a result of an alternative that moved, or a decision of a site, where Alternative is null. What names it in the record.
type WayMoved struct {
	Site        string  `json:"site"`
	Alternative *string `json:"alternative"`
	What        string  `json:"what"`
	Before      Value   `json:"before"`
	Now         Value   `json:"now"`
	money       bool
}

// Money says whether the values are amounts in the currency of the records.
func (w WayMoved) Money() bool { return w.money }

// movedWays lists what moved of the alternatives and decisions that stand in both records. Amounts in two currencies are not compared.
func movedWays(before, now Results) []WayMoved {
	list := []WayMoved{}
	was := map[[2]string]Alternative{}
	for _, a := range before.Alternatives {
		was[[2]string{a.Site, a.Alternative}] = a
	}
	for _, a := range now.Alternatives {
		name := a.Alternative
		old, known := was[[2]string{a.Site, name}]
		if !known {
			continue
		}
		if before.Currency == now.Currency {
			for _, m := range []struct {
				what    string
				was, is Amount
			}{{"first_cost", old.FirstCost, a.FirstCost}, {"yearly_cost", old.YearlyCost, a.YearlyCost}, {"present_value", old.PresentValue, a.PresentValue}, {"net_savings", old.NetSavings, a.NetSavings}} {
				if m.was.Maybe != m.is.Maybe {
					list = append(list, WayMoved{a.Site, &name, m.what, Value{Number: Number{m.was.Maybe}}, Value{Number: Number{m.is.Maybe}}, true})
				}
			}
		}
		if old.Rank != a.Rank {
			list = append(list, WayMoved{a.Site, &name, "rank", Value{Word: strconv.Itoa(old.Rank)}, Value{Word: strconv.Itoa(a.Rank)}, false})
		}
	}
	return append(list, movedDecisions(before, now)...)
}

// movedDecisions lists the sites whose owner decided otherwise.
func movedDecisions(before, now Results) []WayMoved {
	var list []WayMoved
	was := map[string]Site{}
	for _, s := range before.Sites {
		was[s.Site] = s
	}
	for _, s := range now.Sites {
		old, known := was[s.Site]
		if !known {
			continue
		}
		for _, m := range []struct{ what, was, is string }{{"decision", old.Decision, s.Decision}, {"chosen", word(old.Chosen), word(s.Chosen)}} {
			if m.was != m.is {
				list = append(list, WayMoved{s.Site, nil, m.what, Value{Word: m.was}, Value{Word: m.is}, false})
			}
		}
	}
	return list
}
