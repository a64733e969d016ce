package calc

import (
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// EdgeKWhM2 returns the heat that leaves through the heated edge in a season, per m² of pavement, in kWh/m²; blank without an area.
// It stands beside the season's heat into the column, not in it.
func (o Outcome) EdgeKWhM2(r season.Result) units.Maybe[float64] {
	if o.Zone.Extent.AreaM2 <= 0 {
		return units.Maybe[float64]{}
	}
	return units.Some(edgeKWh(o.Zone, r.EdgeDegreeHours) / o.Zone.Extent.AreaM2)
}
