package sheets

import (
	"math"
	"strings"

	"thawbook/calc/cost"
	sums "thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// portfolio is a row for each region and winter, then for all; below them the largest sites, what to change first, and what waits for a decision.
func portfolio() sheet {
	return sheet{Key: "portfolio", Name: "Results Portfolio", Frozen: 4, Columns: []SheetColumn{
		{Key: "region", Heading: "Region", Width: 22, Get: regionName},
		{Key: "winter", Heading: "Winter", Width: 10, Get: func(r Row) any { return string(cost.Winters[r.Winter]) }},
		{Key: "part", Heading: "List", Width: 26, Get: partName},
		{Key: "site", Heading: "Site ID", Width: 12, Get: ofOwned(func(o *owned) any { return o.Site.ID })},
		{Key: "site-name", Heading: "Site name", Width: 26, Get: ofOwned(func(o *owned) any { return o.Site.Name })},
		{Key: "place", Heading: "Place", Quantity: units.Count, Get: ofOwned(func(o *owned) any { return o.Place })},
		{Key: "sites", Heading: "Sites", Quantity: units.Count, Get: func(r Row) any { return r.Total.Sites }},
		{Key: "zones", Heading: "Zones", Quantity: units.Count, Get: func(r Row) any { return r.Total.Zones }},
		{Key: "area", Heading: "Area", Quantity: units.Area, Get: func(r Row) any { return r.Total.AreaM2 }},
		{Key: "heat", Heading: "Total heat", Quantity: units.Power, Get: func(r Row) any { return r.Total.TotalW }},
		yearly("total", "Yearly cost", func(t *sums.Total) *sums.Sum { return &t.Design }),
		yearly("now", "Yearly cost as it is now", func(t *sums.Total) *sums.Sum { return &t.Now }),
		yearly("budget", "Yearly cost as decided", func(t *sums.Total) *sums.Sum { return &t.Budget }),
		{Key: "per-area", Heading: "Yearly cost per area", Look: Money, Get: perArea},
		{Key: "spend", Heading: "First cost of what is approved", Look: Budget, Width: 15, Get: func(r Row) any { return r.Total.Spend }},
		{Key: "decision", Heading: "Decision", Width: 12, Get: ofOwned(func(o *owned) any { return o.Site.Decision })},
		{Key: "alternative", Heading: "Alternative", Width: 40, Get: ofOwned((*owned).alternative)},
		ofPick("first-cost", "First cost", func(k sums.Pick) any { return units.Some(k.First) }),
		ofPick("net-savings", "Net savings", func(k sums.Pick) any { return units.Some(k.Net) }),
		{Key: "ratio", Heading: "Net savings for each unit spent", Quantity: units.Factor, Get: ofOwned((*owned).ratio)},
		ofPick("saved", "Saved a year", func(k sums.Pick) any { return k.Saved }),
		{Key: "unpriced", Heading: "Sites without a cost, left out", Quantity: units.Count, Get: func(r Row) any { return some(r.Total.Design.Without) }},
		{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Total.Example) }},
		{Key: "remark", Heading: "How it is counted", Look: Wrapped, Width: 70, Get: remark},
	}}
}

// owned is a site in one of the lists below the totals.
type owned struct {
	Part  string // code of the list
	Place int    // from 1
	Site  sums.Site
	Pick  *sums.Pick // what it would be changed to
}

func ofOwned(get func(*owned) any) func(Row) any {
	return func(r Row) any {
		if r.Owned == nil {
			return nil
		}
		return get(r.Owned)
	}
}

func ofPick(key, heading string, get func(sums.Pick) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Look: Budget, Width: 15, Get: ofOwned(func(o *owned) any {
		if o.Pick == nil {
			return nil
		}
		return get(*o.Pick)
	})}
}

func yearly(key, heading string, get func(*sums.Total) *sums.Sum) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Look: Budget, Width: 15, Get: func(r Row) any { return get(&r.Total).Winter[r.Winter] }}
}

// alternative is what the site would be changed to, else what was chosen.
func (o *owned) alternative() any {
	if o.Pick != nil {
		return o.Pick.Option
	}
	return o.Site.Chosen
}

// ratio is blank where a change costs nothing.
func (o *owned) ratio() any {
	if o.Pick == nil || math.IsInf(o.Pick.Ratio, 0) {
		return nil
	}
	return o.Pick.Ratio
}

// perArea is the yearly cost in this winter over the area of the sites that have one, in minor units, for each unit of area that is shown.
func perArea(r Row) any {
	m := r.Total.Design.Winter[r.Winter]
	if !m.Known || r.Total.Design.AreaM2 <= 0 {
		return nil
	}
	area := units.Area.In(r.Words.Show.Units).FromBase(r.Total.Design.AreaM2)
	return units.Some(cost.Money(math.Round(float64(m.Value) / area)))
}

func partName(r Row) any {
	if r.Owned == nil {
		return r.Words.Say("portfolio-totals")
	}
	return r.Words.Say(r.Owned.Part)
}

func remark(r Row) any {
	if r.Remark == "" {
		return nil
	}
	return r.Remark
}

func regionName(r Row) any { return report.RegionName(r.Words, r.Total) }

func portfolioRows(p report.Portfolio, r Row, put func(Row)) {
	for _, t := range p.Totals() {
		for w := range cost.Winters {
			r.Total, r.Winter = t, w
			r.Remark = ""
			if t.All {
				r.Remark = counting(p, r.Words, w)
			}
			put(r)
		}
	}
	r.Remark, r.Winter = "", 1
	list := func(part string, sites []sums.Site) {
		for i, site := range sites {
			putOwned(p, r, owned{Part: part, Place: i + 1, Site: site}, put)
		}
	}
	picks := func(part string, picks []sums.Pick) {
		for i, k := range picks {
			putOwned(p, r, owned{Part: part, Place: i + 1, Site: p.Site(k.Site), Pick: &k}, put)
		}
	}
	list("portfolio-largest", p.Largest())
	if plan, made := p.Plan(); made {
		picks("portfolio-within", plan.Picks)
	}
	picks("portfolio-ranking", p.Ranking())
	list("portfolio-open", p.Open())
}

// putOwned hands over a site's row: its amounts are those of a portfolio of itself alone.
func putOwned(p report.Portfolio, r Row, o owned, put func(Row)) {
	r.Owned, r.Total = &o, p.Alone(o.Site)
	put(r)
}

// counting says how the totals of all regions are counted: a sentence beside each winter.
func counting(p report.Portfolio, w *words.Words, winter int) string {
	switch winter {
	case 0:
		return strings.Join(append([]string{w.Say("portfolio-columns"), p.Counted(w)}, p.Terms.Sentences(w)...), " ")
	case 1:
		return p.Planned(w)
	}
	return w.Say("portfolio-severe")
}
