// Package sheets writes the result sheets: into a copy of the user's workbook, or into a workbook of their own. A sheet is a list of
// SheetColumns and a function that turns an outcome into rows, so that a new result is one entry in a list.
package sheets

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	sums "thawbook/calc/portfolio"
	"thawbook/calc/season"
	"thawbook/calc/setpoint"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// SheetColumn is one column of a result sheet.
type SheetColumn struct {
	Key      string // stable name
	Heading  string // without the unit, which is added in brackets
	Quantity units.Quantity
	Width    float64 // in characters; 0 follows from the heading
	Look     Look
	Get      func(Row) any // string, int, float64 in the base unit, Maybe of it, cost.Money, Maybe of it, bool, Link; nil is an empty cell
}

// Look says how the cells of a column are drawn.
type Look uint8

// The looks.
const (
	Plain Look = iota
	Wrapped
	Money
	Budget // an amount of money for a budget: exact in the cell, shown in whole units
	Status
	Chosen // bold in the row that was chosen
)

// Row is what one row of a result sheet is about. Only what the sheet needs is filled.
type Row struct {
	Words       *words.Words
	Headings    report.Headings
	Site        *calc.SiteOutcome
	PDF         string // of the site, relative to the workbook
	Zone        *calc.Outcome
	Point       setpoint.Point
	Season      *season.Result
	Cost        *cost.Year
	Alternative *calc.AlternativeOutcome
	Taken       taken
	Placed      placedPiece
	Code        string // of a line of a table of texts
	Total       sums.Total
	Winter      int    // index in cost.Winters
	Owned       *owned // in the lists of sites of the portfolio
	Remark      string // how a total is counted
	Finding     *finding.Finding
	Change      *report.Change
	Linked      bool // the cells that findings name stand in this workbook
	Line        Line
	IsChosen    bool
}

// Link is a text that leads somewhere: to a file beside the workbook, or to a cell of it.
type Link struct {
	Text, File, Cell string
}

// sheet is one result sheet.
type sheet struct {
	Key     string
	Name    string
	Columns []SheetColumn
	Frozen  int // columns that stay in sight
	Rows    func(Row, units.System, func(Row))
}

// all lists the result sheets in their order in the workbook. Those without Rows are filled at the end.
func all() []sheet {
	return []sheet{summary(), loads(), slabs(), setPoints(), sensors(), checklist(), pipes(), cables(), seasons(), costs(), alternatives(), quantities(), schedule(), portfolio(), findings(), basis(), changesSheet()}
}

// eachZone hands over one row for each zone.
func eachZone(r Row, _ units.System, put func(Row)) {
	for i := range r.Site.Outcomes {
		r.Zone = &r.Site.Outcomes[i]
		put(r)
	}
}

// siteColumns and zoneColumns open the sheets, so that rows of different sheets can be matched.
func siteColumns() []SheetColumn {
	return []SheetColumn{
		{Key: "site", Heading: "Site ID", Width: 12, Get: func(r Row) any { return r.Site.Site.ID }},
		{Key: "site-name", Heading: "Site name", Width: 26, Get: func(r Row) any { return r.Site.Site.Name }},
	}
}

func zoneColumns() []SheetColumn {
	return append(siteColumns(),
		SheetColumn{Key: "zone", Heading: "Zone ID", Width: 9, Get: func(r Row) any { return r.Zone.Zone.Ref.ZoneID }},
		SheetColumn{Key: "zone-name", Heading: "Zone name", Width: 22, Get: func(r Row) any { return r.Zone.Zone.Ref.ZoneName }})
}

// of shows a value of the zone's load.
func ofLoad(get func(*surface.Load) any) func(Row) any {
	return func(r Row) any {
		if r.Zone.Load == nil {
			return nil
		}
		return get(r.Zone.Load)
	}
}

// ofHour shows a term of the zone's design hour.
func ofHour(get func(surface.Terms) any) func(Row) any {
	return ofLoad(func(l *surface.Load) any {
		if !l.Hour.Known {
			return nil
		}
		return get(l.Hour.Value)
	})
}
