package sheets

import (
	"time"

	"thawbook/calc/season"
	"thawbook/calc/units"
)

// groundColumns tell what the steps of a winter tell beyond hours and heat, and the heat of each month.
func groundColumns() []SheetColumn {
	list := []SheetColumn{
		ofSeason("supply-limited", "Hours held back by the supply limit", units.Hours, func(s *season.Result) any { return s.Ground.FluidLimitedH }),
		delay("timer", "Timer after the last snow, from storms", func(s *season.Result) units.Maybe[float64] { return s.Ground.TimerH }),
		delay("off-delay", "Off-delay after dry, from storms", func(s *season.Result) units.Maybe[float64] { return s.Ground.OffDelayH }),
		ofSeason("energy-lacking", "Energy that the books lack", units.Share, func(s *season.Result) any { return s.Ground.EnergyResidual }),
		ofSeason("water-lacking", "Water that the books lack", units.Share, func(s *season.Result) any { return s.Ground.MassResidual }),
	}
	for m := range 12 {
		month := time.Month(m + 1).String()
		list = append(list, ofSeason("heat-"+month[:3], "Heat, "+month, units.EnergyPerArea, func(s *season.Result) any { return s.Months[m].EnergyKWhM2 }))
	}
	return list
}

// delay is a column of hours with their parts.
func delay(key, heading string, get func(*season.Result) units.Maybe[float64]) SheetColumn {
	return SheetColumn{Key: key, Heading: heading + " [h]", Quantity: units.Number, Get: func(r Row) any { return get(r.Season) }}
}
