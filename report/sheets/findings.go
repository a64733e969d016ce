package sheets

import (
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
)

// findings is a row for one code at one cell.
func findings() sheet {
	return sheet{Key: "findings", Name: "Results Findings", Frozen: 1, Columns: []SheetColumn{
		{Key: "severity", Heading: "Severity", Width: 11, Look: Status, Get: func(r Row) any { return r.Finding.Severity.String() }},
		{Key: "sheet", Heading: "Sheet", Width: 12, Get: func(r Row) any { return r.Finding.At.Sheet }},
		{Key: "cell", Heading: "Cell", Width: 8, Get: cellLink},
		{Key: "site", Heading: "Site ID", Width: 12, Get: func(r Row) any { return r.Finding.Site }},
		{Key: "zone", Heading: "Zone ID", Width: 9, Get: func(r Row) any { return r.Finding.Zone }},
		{Key: "what", Heading: "What is wrong", Width: 62, Look: Wrapped, Get: func(r Row) any { what, _ := r.Words.Finding(*r.Finding); return what }},
		{Key: "do", Heading: "What to do", Width: 62, Look: Wrapped, Get: func(r Row) any { _, do := r.Words.Finding(*r.Finding); return do }},
		{Key: "count", Heading: "Zones touched", Quantity: units.Count, Get: func(r Row) any { return r.Finding.Count }},
		{Key: "code", Heading: "Code", Width: 26, Get: func(r Row) any { return string(r.Finding.Code) }},
		{Key: "mark", Heading: "Mark", Width: 11, Get: func(r Row) any { return r.Finding.Mark }},
		{Key: "reason", Heading: "Accepted because", Width: 40, Look: Wrapped, Get: func(r Row) any { return r.Finding.Because.Reason }},
		{Key: "by", Heading: "By", Width: 12, Get: func(r Row) any { return r.Finding.Because.By }},
		{Key: "date", Heading: "Date", Width: 12, Get: func(r Row) any { return r.Finding.Because.Date }},
	}}
}

// cellLink leads to the cell that a finding names.
func cellLink(r Row) any {
	at := r.Finding.At
	if at.Ref == "" {
		return nil
	}
	if !r.Linked {
		return at.Ref
	}
	return Link{Text: at.Ref, Cell: "'" + strings.ReplaceAll(at.Sheet, "'", "''") + "'!" + at.Ref}
}

func findingRows(list []finding.Finding, r Row, put func(Row)) {
	merged := report.Merge(list)
	for i := range merged {
		r.Finding = &merged[i]
		put(r)
	}
}
