package sheets

import (
	"thawbook/calc/units"
)

// plantColumns tell of a site's heat source: what its plants must give in all, and the hottest supply that a zone needs.
func plantColumns() []SheetColumn {
	return []SheetColumn{
		{Key: "plant-net", Heading: "Plant, net", Quantity: units.Power, Get: func(r Row) any {
			sum := 0.0
			for _, p := range r.Site.Plants {
				sum += p.NetW
			}
			return known(len(r.Site.Plants) > 0, sum)
		}},
		{Key: "plant-supply", Heading: "Plant supply", Quantity: units.Temperature, Get: func(r Row) any {
			hottest := units.Maybe[float64]{}
			for _, p := range r.Site.Plants {
				hottest = units.Some(max(p.SupplyC, hottest.Or(p.SupplyC)))
			}
			return hottest
		}},
	}
}
