package report

import (
	"math"

	"thawbook/calc/units"
)

// Change is a result of a zone that moved since the run before. Numbers are in the base unit of Quantity; an amount of money is in main units of the
// currency.
type Change struct {
	Site, Zone     string
	What           string // code of the sentence that names the result
	Key            string // its name in the record
	Quantity       units.Quantity
	Money          bool
	Before, Now    units.Maybe[float64]
	BeforeText     string // in place of Before where Quantity is Text
	NowText        string
	Revision, Then string // of the site, now and in the run before
}

// SameRevision says whether the result moved although the site still bears the revision under which the other result was issued.
func (c Change) SameRevision() bool { return c.Revision != "" && c.Revision == c.Then }

// Share returns by how much of what it was a number moved. A temperature has no such share.
func (c Change) Share() units.Maybe[float64] {
	if !c.Before.Known || !c.Now.Known || c.Before.Value == 0 || c.Quantity == units.Temperature {
		return units.Maybe[float64]{}
	}
	return units.Some((c.Now.Value - c.Before.Value) / math.Abs(c.Before.Value))
}
