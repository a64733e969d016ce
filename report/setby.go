package report

import "thawbook/calc"

// Who set a value.
const (
	Given    = "given"    // told in the workbook
	Proposed = "proposed" // left to design
	Assumed  = "assumed"  // not told of a pavement that is there already: survey first
)

// SpacingSetBy says who set the spacing of a zone's pipes or cable.
func SpacingSetBy(o calc.Outcome) string {
	switch {
	case !o.Design.SpacingProposed:
		return Given
	case o.Zone.Slab.Existing():
		return Assumed
	}
	return Proposed
}

// ShareSetBy says who set the concentration of a zone's fluid, which is proposed for a new and for an old pavement alike.
func ShareSetBy(proposed bool) string {
	if proposed {
		return Proposed
	}
	return Given
}
