package starter

import (
	"math"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
)

// column is what a starter workbook and the reference page need of a column, whatever its values land in.
type column struct {
	field         finding.Field
	sheet, group  string
	heading       string
	aliases       []string
	quantity      units.Quantity
	least, most   float64 // in the base unit; equal: any number
	choices       []string
	dflt          string // as typed in an SI workbook; blank: none
	dfltIP        string // as typed in an I-P workbook; blank: dflt
	dfltSource    string
	onlyFor       string
	required      bool
	unitInHeading bool
	help          string
}

// sheets returns the columns of every input sheet in the order of the starter workbook.
func sheets() [][]column {
	return [][]column{plain(columns.Sites()), plain(columns.Climate()), plain(columns.Energy()), plain(columns.Parts()), plain(columns.Costs()), plain(columns.OfferedAlternatives()),
		plain(columns.Revisions()), plain(columns.Accepted()), plain(columns.Attachments()), plain(columns.Settings())}
}

// plain drops from columns where their values land.
func plain[T calc.Zone | columns.ClimateRow | cost.Energy | sensing.Part | cost.UnitCost | calc.Revision | calc.Acceptance | calc.Attachment | calc.Settings](list []columns.Column[T]) []column {
	out := make([]column, len(list))
	for i, c := range list {
		// A pipe is a size with its own unit, mm or in, whatever the workbook's.
		_, pipe := c.At(new(T)).(*calc.Pipe)
		_, read := c.Quantity.Parse(c.Quantity.In(units.SI).Symbol) // a sign such as ° alone is no unit that a heading is read with
		out[i] = column{field: c.Field, sheet: c.Sheet, group: c.Group, heading: c.Heading, aliases: c.Aliases, quantity: c.Quantity, least: c.Min, most: c.Max,
			choices: c.Choices, dflt: c.Default, dfltIP: c.DefaultIP, dfltSource: c.DefaultSource, onlyFor: c.OnlyFor, required: c.Required,
			unitInHeading: read && !pipe, help: c.Help}
	}
	return out
}

// unit returns the symbol of the column's unit; "" for words and bare numbers.
func (c column) unit(system units.System) string { return c.quantity.In(system).Symbol }

// title returns the heading with its unit in brackets.
func (c column) title(system units.System) string {
	text := c.heading
	if u := c.unit(system); u != "" && c.unitInHeading {
		text += " [" + u + "]"
	}
	if c.required {
		text += " *" // which the reader does not see
	}
	return text
}

// bounds returns the ends of the range as shown; false when the column has none that says anything.
func (c column) bounds(system units.System) (least, most string, ranged bool) {
	if c.least == c.most || (c.least == 0 && c.most >= columns.Most) {
		return "", "", false
	}
	u := c.quantity.In(system)
	return rounded(u.FromBase(c.least), upward), rounded(u.FromBase(c.most), downward), true
}

// blank returns the default as shown in a system of units; "" when there is none.
func (c column) blank(system units.System) string {
	switch {
	case system == units.IP && c.dfltIP != "":
		return c.dfltIP
	case c.quantity == units.Text || c.dflt == "":
		return c.dflt
	}
	value, unit, _ := strings.Cut(c.dflt, " ")
	v, err := strconv.ParseFloat(value, 64)
	u, known := c.quantity.Parse(unit)
	if err != nil || !known || !c.unitInHeading {
		return c.dflt
	}
	to := c.quantity.In(system)
	return rounded(to.FromBase(u.ToBase(v)), math.Round) + " " + to.Symbol
}

// called says whether a heading, its unit left out, is the column's or one of its aliases.
func (c column) called(heading string) bool {
	name, _, _ := strings.Cut(heading, "[")
	name = strings.TrimSpace(name)
	if strings.EqualFold(name, c.heading) {
		return true
	}
	for _, a := range c.aliases {
		if strings.EqualFold(name, a) {
			return true
		}
	}
	return false
}

// figures are the significant digits of the ends of ranges and of defaults: enough to be typed, few enough to be read.
const figures = 3

// The ends of a range are rounded inward, so that what is shown is allowed; slack is what a conversion does to the last digits.
const slack = 1e-6

func upward(v float64) float64   { return math.Ceil(v - slack) }
func downward(v float64) float64 { return math.Floor(v + slack) }

// rounded writes a number with few significant digits and its thousands parted.
func rounded(v float64, whole func(float64) float64) string {
	if v == 0 {
		return "0"
	}
	scale := math.Pow(10, figures-1-math.Floor(math.Log10(math.Abs(v))))
	text := strconv.FormatFloat(whole(v*scale)/scale, 'f', -1, 64)
	front, part, _ := strings.Cut(text, ".")
	for at := len(front) - 3; at > 0 && front[at-1] != '-'; at -= 3 {
		front = front[:at] + "," + front[at:]
	}
	if part == "" {
		return front
	}
	return front + "." + part
}
