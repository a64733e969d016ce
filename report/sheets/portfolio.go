package sheets

import (
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report"
)

// portfolio is a row for each region and winter, then for all.
func portfolio() sheet {
	return sheet{Key: "portfolio", Name: "Results Portfolio", Frozen: 2, Columns: []SheetColumn{
		{Key: "region", Heading: "Region", Width: 22, Get: regionName},
		{Key: "winter", Heading: "Winter", Width: 10, Get: func(r Row) any { return string(cost.Winters[r.Winter]) }},
		{Key: "sites", Heading: "Sites", Quantity: units.Count, Get: func(r Row) any { return r.Total.Sites }},
		{Key: "zones", Heading: "Zones", Quantity: units.Count, Get: func(r Row) any { return r.Total.Zones }},
		{Key: "area", Heading: "Area", Quantity: units.Area, Get: func(r Row) any { return r.Total.AreaM2 }},
		{Key: "heat", Heading: "Total heat", Quantity: units.Power, Get: func(r Row) any { return r.Total.TotalW }},
		{Key: "total", Heading: "Yearly cost", Look: Budget, Width: 15, Get: func(r Row) any { return r.Total.Winter[r.Winter] }},
		{Key: "unpriced", Heading: "Sites without a cost, left out", Quantity: units.Count, Get: func(r Row) any { return some(r.Total.WithoutCost()) }},
		{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Total.Example) }},
	}}
}

func regionName(r Row) any {
	switch {
	case r.Total.All:
		return r.Words.Say("all-regions")
	case r.Total.Region == "":
		return r.Words.Say("no-region")
	}
	return r.Total.Region
}

func portfolioRows(p *report.Portfolio, r Row, put func(Row)) {
	for _, t := range p.Totals() {
		for w := range cost.Winters {
			r.Total, r.Winter = t, w
			put(r)
		}
	}
}
