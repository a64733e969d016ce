package sheets

import (
	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// Basis is what the results rest on that no site holds.
type Basis struct {
	Files []Line // Name is the file, Text its fingerprint
}

// Line is one line of the basis.
type Line struct {
	Topic      string // as shown: "method", "constant", "default", "input"
	Site, Zone string
	Name       string
	Number     float64 // in the base unit of Quantity
	Quantity   units.Quantity
	Text       string // in place of Number where Quantity is Text
	Source     string
}

// methods are the codes of the lines that tell how results are found; each has a sentence for what is done and one for its source.
var methods = []string{"basis-snow", "basis-balance", "basis-frequency", "basis-design", "basis-loss", "basis-reset", "basis-sensing", "basis-season", "basis-synthetic", "basis-cost", "basis-limits"}

// basis is a line for each method, constant, default used and file read.
func basis() sheet {
	return sheet{Key: "basis", Name: "Results Basis", Frozen: 1, Columns: []SheetColumn{
		{Key: "topic", Heading: "Topic", Width: 12, Get: func(r Row) any { return r.Line.Topic }},
		{Key: "site", Heading: "Site ID", Width: 12, Get: func(r Row) any { return r.Line.Site }},
		{Key: "zone", Heading: "Zone ID", Width: 9, Get: func(r Row) any { return r.Line.Zone }},
		{Key: "name", Heading: "What", Width: 34, Look: Wrapped, Get: func(r Row) any { return r.Line.Name }},
		{Key: "value", Heading: "Value", Width: 70, Look: Wrapped, Get: func(r Row) any {
			if r.Line.Quantity == units.Text {
				return r.Line.Text
			}
			return Measured{r.Line.Number, r.Line.Quantity}
		}},
		{Key: "unit", Heading: "Unit", Width: 14, Get: func(r Row) any { return r.Words.Show.Unit(r.Line.Quantity) }},
		{Key: "source", Heading: "Source", Width: 60, Look: Wrapped, Get: func(r Row) any { return r.Line.Source }},
	}, Rows: eachBasis}
}

// Measured is a number of a quantity that its column doesn't know.
type Measured struct {
	Value    float64
	Quantity units.Quantity
}

// methodLines open the sheet: the program and how results are found.
func methodLines(w *words.Words, program string) []Line {
	lines := []Line{{Topic: w.Say("topic-program"), Name: w.Say("basis-program"), Text: program}}
	for _, code := range methods {
		lines = append(lines, Line{Topic: w.Say("topic-method"), Name: w.Say(code + "-name"), Text: w.Say(code), Source: w.Say(code + "-source")})
	}
	return lines
}

// constantLines are the numbers by which every zone is calculated, from the rooms that hold them.
func constantLines(w *words.Words) []Line {
	topic := w.Say("topic-constant")
	var lines []Line
	for _, c := range calc.Constants() {
		lines = append(lines, Line{Topic: topic, Name: c.Symbol + ", " + c.Name, Number: c.Value, Quantity: c.Quantity, Source: c.Source})
	}
	return lines
}

// eachBasis hands over a line for each value of a zone that was not told, and for what its winters rest on.
func eachBasis(r Row, system units.System, put func(Row)) {
	topic := r.Words.Say("topic-default")
	eachZone(r, system, func(r Row) {
		for _, d := range r.Zone.Zone.Ref.Defaults {
			r.Line = defaultLine(r, topic, d)
			put(r)
		}
		for _, line := range winterLines(r.Words, *r.Zone) {
			r.Line = line
			put(r)
		}
	})
}

// winterLines tell a zone's season, and how its mild and its severe winter were found. A variation of snowfall that was assumed stands among the
// defaults.
func winterLines(w *words.Words, o calc.Outcome) []Line {
	if len(o.Seasons) == 0 {
		return nil
	}
	line := func(code string) Line {
		return Line{Topic: w.Say("topic-winter"), Site: o.Zone.Ref.SiteID, Zone: o.Zone.Ref.ZoneID, Name: w.Say(code + "-name"), Source: w.Say(code + "-source")}
	}
	span, winters := line("winter-season"), line("winter-three")
	in := o.Seasons[0].Input
	span.Text = w.Say("winter-season", finding.Words("first", report.Day(w, in.Start)), finding.Words("last", report.Day(w, in.End)))
	number := func(name string, v float64) finding.Arg { return finding.Value(name, v, units.Factor) }
	winters.Text = w.Say("winter-"+o.Snow.Rule, finding.Value("winters", float64(o.Snow.Winters), units.Count), number("mild", o.Snow.MildFactor), number("severe", o.Snow.SevereFactor))
	lines := []Line{span, winters}
	if o.Snow.Rule == calc.RuleSnowFactors && !o.Snow.Assumed {
		variation := line("winter-variation")
		variation.Number, variation.Quantity = o.Snow.Variation, units.Factor
		lines = append(lines, variation)
	}
	return lines
}

func defaultLine(r Row, topic string, d calc.Default) Line {
	ref := r.Zone.Zone.Ref
	return Line{Topic: topic, Site: ref.SiteID, Zone: ref.ZoneID, Name: r.Headings.Of(d.Field), Number: d.Number, Quantity: d.Quantity, Text: d.Word,
		Source: r.Words.Line(words.Defaults, d.Source)[0]}
}
