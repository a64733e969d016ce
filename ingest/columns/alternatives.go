package columns

import (
	"slices"

	"thawbook/calc"
	"thawbook/calc/finding"
)

// SheetAlternatives is the sheet whose rows are laid over rows of Sites.
const SheetAlternatives = "Alternatives"

// ownAlone are the columns of Sites whose cells an alternative does not take over: a first cost is an offer for that row alone, and a site is decided
// once.
var ownAlone = []finding.Field{"first_cost", "chosen_alternative", "decision"}

// offered are the columns that a starter workbook shows: what alternatives mostly differ in. Any other column of Sites is read too.
var offered = []finding.Field{"site_id", "zone_id", "alternative", "stage", "surface", "slab_thickness", "depth", "insulation", "heat", "energy_id", "spacing", "installed_output",
	"detector_housing", "embedded_slab_sensor", "stop_wanted", "idling_wanted", "first_cost"}

// OfferedAlternatives returns the columns of Alternatives that a starter workbook shows, with what a blank means there.
func OfferedAlternatives() []Column[calc.Zone] {
	list := slices.DeleteFunc(Alternatives(), func(c Column[calc.Zone]) bool { return !slices.Contains(offered, c.Field) })
	for i := range list {
		c := &list[i]
		if c.Group = ""; c.Required {
			continue
		}
		c.Default, c.DefaultIP, c.DefaultSource = "as in Sites", "", ""
		switch c.Field {
		case "zone_id":
			c.Default, c.Help = "every zone of the site", "As it stands in Sites."
		case "first_cost":
			c.Default, c.Help = "", "Of this zone in this alternative, as offered. Blank: by quantities and Costs."
		case "detector_housing":
			c.Help = "In a pour, no means that none is set: the kit is the one that is then left."
		}
	}
	return list
}

// Inherited says whether a blank cell of Alternatives means what Sites says.
func Inherited(f finding.Field) bool { return !slices.Contains(ownAlone, f) }

// Alternatives returns the columns of Alternatives: those of Sites, none but the names required, and the alternative's.
func Alternatives() []Column[calc.Zone] {
	list := Sites()
	for i := range list {
		list[i].Required = list[i].Field == "site_id"
	}
	at := slices.IndexFunc(list, func(c Column[calc.Zone]) bool { return c.Field == "zone_id" }) + 1
	return sheetOf(SheetAlternatives, slices.Insert(list, at, Column[calc.Zone]{Field: "alternative", Group: "identity", Heading: "Alternative",
		Aliases: []string{"Alternative name", "Option", "Variant"}, Required: true,
		Help: "A name of your own. Rows of a site with the same one make one alternative; zones it does not name stay as they are. A blank cell means what Sites says. Any column of Sites may stand in this sheet.",
		At:   func(z *calc.Zone) any { return &z.Ref.Alternative }}))
}
