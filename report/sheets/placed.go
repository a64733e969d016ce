package sheets

import (
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// placed are the columns of number, place and parts of the devices, and of the energy-code screen.
func placed() []SheetColumn {
	return []SheetColumn{
		{Key: "number", Heading: "Number of devices", Width: 40, Look: Wrapped, Get: ofChoice(numbers)},
		{Key: "places", Heading: "Where each goes", Width: 60, Look: Wrapped, Get: ofChoice(places)},
		{Key: "parts", Heading: "Parts", Width: 44, Look: Wrapped, Get: ofChoice(bought)},
		{Key: "parts_total", Heading: "Price of the parts", Look: Money, Get: func(r Row) any { return partsTotal(r) }},
		{Key: "parts_open", Heading: "Parts missing or to verify", Width: 44, Look: Wrapped, Get: ofChoice(partsOpen)},
		{Key: "screen_pavement", Heading: "Shut-off by pavement temperature", Width: 20, Look: Wrapped, Get: screened(sensing.AskedPavement)},
		{Key: "screen_outdoor", Heading: "Shut-off by outdoor temperature", Width: 20, Look: Wrapped, Get: screened(sensing.AskedOutdoor)},
		{Key: "screen_moisture", Heading: "Precipitation or moisture input", Width: 20, Look: Wrapped, Get: screened(sensing.AskedMoisture)},
		{Key: "pavement_stop", Heading: "Heat off above, at the slab sensor", Quantity: units.Temperature, Get: pavementStop},
	}
}

func numbers(r Row, c *sensing.Choice) any {
	lines := make([]string, len(c.Numbers))
	for i, n := range c.Numbers {
		lines[i] = strings.TrimSpace(report.Pieces(r.Words, n) + ". " + report.Said(r.Words, words.Reasons, n.Reasons...))
	}
	return strings.Join(lines, "\n")
}

func places(r Row, c *sensing.Choice) any {
	if c.Plan == nil {
		return nil
	}
	lines := make([]string, len(c.Plan.Marks))
	for i, m := range c.Plan.Marks {
		lines[i] = report.Place(r.Words, *c.Plan, m) + " " + report.Said(r.Words, words.Reasons, m.Reasons...)
	}
	return strings.Join(lines, "\n")
}

func bought(r Row, c *sensing.Choice) any {
	if c.Selection == nil {
		return nil
	}
	var lines []string
	for _, p := range c.Selection.Pieces {
		if text := report.Bought(r.Words, p); text != "" {
			lines = append(lines, text)
		}
	}
	if c.Selection.Boxes > 0 {
		lines = append(lines, r.Words.Say("pdf-pull-boxes", finding.Value("count", float64(c.Selection.Boxes), units.Count)))
	}
	return strings.Join(lines, "\n")
}

func partsTotal(r Row) units.Maybe[cost.Money] {
	return r.Zone.PartsTotal(r.Words.Show.Currency)
}

func partsOpen(r Row, c *sensing.Choice) any {
	if c.Selection == nil {
		return nil
	}
	var lines []string
	for _, m := range append(append([]sensing.Reason{}, c.Selection.Missing...), c.Selection.Verify...) {
		lines = append(lines, report.Said(r.Words, words.Reasons, m))
	}
	return strings.Join(lines, "\n")
}

func pavementStop(r Row) any {
	if r.Zone.Operation == nil || !r.Zone.Operation.PavementStop.Known {
		return nil
	}
	return r.Zone.Operation.PavementStop.Value.StopC
}

// screened shows the screen's answer to what is asked.
func screened(asked string) func(Row) any {
	return ofChoice(func(_ Row, c *sensing.Choice) any {
		for _, s := range c.Screen {
			if s.Asked == asked {
				return s.Answer
			}
		}
		return nil
	})
}
