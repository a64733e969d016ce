package sheets

import (
	"thawbook/calc/units"
	"thawbook/report"
)

const (
	changesKey  = "changes"
	findingsKey = "findings"
)

// Sum is an amount of money, in main units, in a column of other things.
type Sum float64

// changesSheet is a row for each result that moved since the run before. It comes into a workbook when something first did.
func changesSheet() sheet {
	return sheet{Key: changesKey, Name: "Results Changes", Frozen: 2, Columns: []SheetColumn{
		{Key: "site", Heading: "Site ID", Width: 12, Get: func(r Row) any { return r.Change.Site }},
		{Key: "zone", Heading: "Zone ID", Width: 9, Get: func(r Row) any { return r.Change.Zone }},
		{Key: "what", Heading: "Result", Width: 40, Look: Wrapped, Get: func(r Row) any { return r.Words.Say(r.Change.What) }},
		{Key: "before", Heading: "Before", Width: 30, Get: func(r Row) any { return valueOf(r.Change, r.Change.Before, r.Change.BeforeText) }},
		{Key: "now", Heading: "Now", Width: 30, Get: func(r Row) any { return valueOf(r.Change, r.Change.Now, r.Change.NowText) }},
		{Key: "unit", Heading: "Unit", Width: 12, Get: changeUnit},
		{Key: "by", Heading: "Changed by", Quantity: units.Percent, Get: changedBy},
		{Key: "revision-before", Heading: "Revision before", Width: 12, Get: func(r Row) any { return r.Change.Then }},
		{Key: "revision", Heading: "Revision", Width: 12, Get: func(r Row) any { return r.Change.Revision }},
		{Key: "same", Heading: "Note", Width: 30, Look: Wrapped, Get: func(r Row) any {
			if r.Change.SameRevision() {
				return r.Words.Say("same-revision")
			}
			return nil
		}},
	}}
}

func valueOf(c *report.Change, v units.Maybe[float64], text string) any {
	switch {
	case c.Quantity == units.Text && !c.Money:
		return text
	case !v.Known:
		return nil
	case c.Money:
		return Sum(v.Value)
	}
	return Measured{v.Value, c.Quantity}
}

func changeUnit(r Row) any {
	if r.Change.Money {
		return r.Words.Show.Currency
	}
	return r.Words.Show.Unit(r.Change.Quantity)
}

// changedBy returns by how much of what it was a number moved, in percent.
func changedBy(r Row) any {
	share := r.Change.Share()
	return units.Maybe[float64]{Value: 100 * share.Value, Known: share.Known}
}

// changes fills the sheet of changes. A workbook that has none yet gets one when there is something to tell.
func (w *Writer) changes(list []report.Change, r Row) error {
	switch {
	case w.table(changesKey) != nil:
	case len(list) == 0:
		return nil
	default:
		if err := w.add(changesSheet()); err != nil {
			return err
		}
	}
	t := w.table(changesKey)
	for i := range list {
		r.Change = &list[i]
		t.put(r)
	}
	return t.err
}
