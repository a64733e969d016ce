package sheets

import (
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// summary is a row a site.
func summary() sheet {
	columns := append(siteColumns(),
		SheetColumn{Key: "status", Heading: "Status", Width: 13, Look: Status, Get: func(r Row) any { return r.Site.Summary.Status }},
		SheetColumn{Key: "area", Heading: "Area", Quantity: units.Area, Get: func(r Row) any { return r.Site.Summary.AreaM2 }},
		SheetColumn{Key: "total", Heading: "Total heat", Quantity: units.Power, Get: func(r Row) any { return r.Site.Summary.TotalW }},
		SheetColumn{Key: "kits", Heading: "Sensors", Width: 34, Look: Wrapped, Get: func(r Row) any { return r.Site.Summary.Kits }},
		SheetColumn{Key: "yearly-cost", Heading: "Yearly cost, typical winter", Look: Budget, Get: func(r Row) any { return r.Site.Summary.YearlyCost }},
		SheetColumn{Key: "note", Heading: "Prices", Width: 15, Get: func(r Row) any { return examplePrices(r, r.Site.Summary.ExamplePrices) }},
		SheetColumn{Key: "decision", Heading: "Decision", Width: 12, Get: decision},
		SheetColumn{Key: "pdf", Heading: "Submittal", Width: 34, Get: func(r Row) any { return Link{Text: r.PDF, File: r.PDF} }},
		winterColumn(0, "Yearly cost, mild winter"), winterColumn(2, "Yearly cost, severe winter"),
		SheetColumn{Key: "region", Heading: "Region", Width: 14, Get: func(r Row) any { return r.Site.Summary.Region }},
		SheetColumn{Key: "owner", Heading: "Owner", Width: 18, Get: func(r Row) any { return r.Site.Summary.Owner }},
		SheetColumn{Key: "chosen", Heading: "Chosen alternative", Width: 18, Get: func(r Row) any { return r.Site.Summary.Chosen }},
		SheetColumn{Key: "revision", Heading: "Revision", Width: 10, Get: func(r Row) any { return r.Site.Summary.Revision }},
		SheetColumn{Key: "zones", Heading: "Zones", Quantity: units.Count, Get: func(r Row) any { return r.Site.Summary.Zones }},
		SheetColumn{Key: "errors", Heading: "Zones with errors", Quantity: units.Count, Get: func(r Row) any { return some(r.Site.Summary.Errors) }},
		SheetColumn{Key: "incomplete", Heading: "Zones incomplete", Quantity: units.Count, Get: func(r Row) any { return some(r.Site.Summary.Incomplete) }},
		SheetColumn{Key: "not-included", Heading: "Zones not included", Quantity: units.Count, Get: func(r Row) any { return some(len(r.Site.Excluded)) }},
		SheetColumn{Key: "warnings", Heading: "Warnings", Quantity: units.Count, Get: func(r Row) any { return some(r.Site.Summary.Warnings) }},
	)
	return sheet{Key: "summary", Name: "Results Summary", Frozen: 2, Columns: append(columns, plantColumns()...), Rows: func(r Row, _ units.System, put func(Row)) { put(r) }}
}

func winterColumn(i int, heading string) SheetColumn {
	return SheetColumn{Key: "cost-" + string(cost.Winters[i]), Heading: heading, Look: Budget, Get: func(r Row) any { return r.Site.Summary.Winter[i] }}
}

// decision lists what was decided for the site's zones, each word once.
func decision(r Row) any {
	var said []string
	for _, z := range r.Site.Site.Zones {
		if d := z.Money.Decision; d != "" && !slices.Contains(said, d) {
			said = append(said, d)
		}
	}
	return strings.Join(said, ", ")
}

func some(n int) any {
	if n == 0 {
		return nil
	}
	return n
}

func examplePrices(r Row, example bool) any {
	if !example {
		return nil
	}
	return r.Words.Say("example-prices")
}
