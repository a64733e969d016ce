package sheets

import (
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// checklistName is where the siting lines stand.
const checklistName = "Results Checklist"

// checklist is a row for each line of what to do where the devices of a zone go, phase by phase.
func checklist() sheet {
	return sheet{Key: "checklist", Name: checklistName, Frozen: 4, Columns: append(zoneColumns(),
		ofLine("phase", "Phase", 12, Plain, func(line []string) string { return line[0] }),
		SheetColumn{Key: "code", Heading: "Code", Width: 24, Get: func(r Row) any { return r.Code }},
		ofLine("do", "What to do", 80, Wrapped, func(line []string) string { return line[1] }),
		ofLine("prevents", "What it prevents", 60, Wrapped, func(line []string) string { return line[2] }),
	), Rows: eachCheck}
}

func ofLine(key, heading string, width float64, look Look, get func([]string) string) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Width: width, Look: look, Get: func(r Row) any { return get(r.Words.Line(words.Checklist, r.Code)) }}
}

func eachCheck(r Row, system units.System, put func(Row)) {
	eachZone(r, system, func(r Row) {
		if r.Zone.Sensing == nil {
			return
		}
		for _, code := range r.Zone.Sensing.Checklist {
			r.Code = code
			put(r)
		}
	})
}

// countOfChecks says how many lines of the checklist a zone has, and where they stand.
func countOfChecks(r Row, n int) any {
	if n == 0 {
		return nil
	}
	return r.Words.Say("siting-count", finding.Value("count", float64(n), units.Count), finding.Words("sheet", checklistName))
}
