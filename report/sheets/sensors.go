package sheets

import (
	"strings"

	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// sensors is a row a zone: what senses, what begins heat, what ends it, what limits the slab, and why.
func sensors() sheet {
	return sheet{Key: "sensing", Name: "Results Sensing", Frozen: 4, Columns: append(append(zoneColumns(),
		SheetColumn{Key: "stage", Heading: "Stage", Width: 16, Get: func(r Row) any { return r.Zone.Zone.Slab.Stage }},
		SheetColumn{Key: "kit", Heading: "Sensors", Width: 30, Look: Wrapped, Get: ofChoice(func(_ Row, c *sensing.Choice) any { return Kit(c.Kit) })},
		SheetColumn{Key: "start", Heading: "What begins heat", Width: 30, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return r.Words.Say(report.Begins(*c)) })},
		SheetColumn{Key: "stop", Heading: "What ends heat", Width: 28, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return r.Words.Say(report.Ends(*c)) })},
		SheetColumn{Key: "limit", Heading: "What limits the slab", Width: 28, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return r.Words.Say(report.Limits(*c)) })},
		SheetColumn{Key: "lacking", Heading: "Wanted, but not possible", Width: 40, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return reasons(r.Words, c.Lacking) })},
		SheetColumn{Key: "reasons", Heading: "Why", Width: 60, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return reasons(r.Words, codes(c.Reasons)) })},
		SheetColumn{Key: "rejected", Heading: "Kits not chosen", Width: 60, Look: Wrapped, Get: ofChoice(rejected)},
		SheetColumn{Key: "controller", Heading: "Controller", Width: 20, Get: ofChoice(func(_ Row, c *sensing.Choice) any { return c.Controller })},
		SheetColumn{Key: "lead", Heading: "Lead", Quantity: units.Length, Get: ofChoice(func(_ Row, c *sensing.Choice) any { return positive(c.LeadM) })},
		SheetColumn{Key: "siting", Heading: "Siting", Width: 30, Look: Wrapped, Get: ofChoice(func(r Row, c *sensing.Choice) any { return countOfChecks(r, len(c.Checklist)) })},
	), placed()...), Rows: eachZone}
}

func ofChoice(get func(Row, *sensing.Choice) any) func(Row) any {
	return func(r Row) any {
		if r.Zone.Sensing == nil {
			return nil
		}
		return get(r, r.Zone.Sensing)
	}
}

// Kit names the devices of a kit in one line.
func Kit(kit []sensing.Device) string {
	names := make([]string, len(kit))
	for i, d := range kit {
		names[i] = string(d)
	}
	return strings.Join(names, " + ")
}

func codes(list []sensing.Reason) []string {
	out := make([]string, len(list))
	for i, r := range list {
		out[i] = r.Code
	}
	return out
}

func reasons(w *words.Words, list []string) string {
	lines := make([]string, len(list))
	for i, code := range list {
		lines[i] = w.Line(words.Reasons, code)[0]
	}
	return strings.Join(lines, "\n")
}

// rejected tells the kits that were not chosen, those with the same reason together.
func rejected(r Row, c *sensing.Choice) any {
	var order []string
	kits := map[string][]string{}
	for _, k := range c.Rejected {
		if kits[k.Code] == nil {
			order = append(order, k.Code)
		}
		kits[k.Code] = append(kits[k.Code], k.Kit)
	}
	lines := make([]string, len(order))
	for i, code := range order {
		lines[i] = strings.Join(kits[code], "; ") + ": " + r.Words.Line(words.Reasons, code)[0]
	}
	return strings.Join(lines, "\n")
}
