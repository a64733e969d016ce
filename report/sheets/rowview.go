package sheets

import (
	"slices"
	"strconv"
	"strings"

	"thawbook/calc/finding"
	"thawbook/report/sheets/book"
)

// The codes of what a person set on a sheet of ours that does not hold for new results.
const (
	CodeFilterOff finding.Code = "filter-taken-off"
	CodeOrderLost finding.Code = "sorting-not-kept"
)

// rowView is how a person looks at the rows of a sheet: by the columns, counted from 1.
type rowView struct {
	filtered, sorted []int
}

// add takes in a filter or an order from an element of a table or a sheet.
func (v *rowView) add(e *book.Element) {
	switch e.Local {
	case "autoFilter":
		for _, k := range e.Kids {
			if k.Local == "filterColumn" && len(k.Kids) > 0 {
				if id, err := strconv.Atoi(k.Attr("colId")); err == nil {
					v.filtered = append(v.filtered, id+1)
				}
			}
			v.add(k)
		}
	case "sortState":
		for _, k := range e.Kids {
			if s, err := spanOf(k.Attr("ref")); err == nil {
				v.sorted = append(v.sorted, s.top.col)
			}
		}
	}
}

// tellView tells of a filter and an order that are gone: new rows must all be seen, and stand in the order of the sites.
func (t *table) tellView() []finding.Finding {
	var out []finding.Finding
	for _, one := range []struct {
		code    finding.Code
		columns []int
	}{{CodeFilterOff, t.before.view.filtered}, {CodeOrderLost, t.before.view.sorted}} {
		var names []string
		for _, col := range one.columns {
			names = append(names, t.before.heads[col])
		}
		if len(names) == 0 {
			continue
		}
		f := finding.New(finding.Info, one.code, "", finding.Words("sheet", t.name), finding.Words("what", strings.Join(slices.Compact(names), ", ")))
		f.At = finding.Cell{Sheet: t.name}
		out = append(out, f)
	}
	return out
}
