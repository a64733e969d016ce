package sheets

import (
	"thawbook/calc/units"
	"thawbook/report"
)

// setPoints is a row for each zone and outdoor temperature: by 2.5 K, or by 5 °F.
func setPoints() sheet {
	return sheet{Key: "setpoints", Name: "Results Set Points", Frozen: 4, Columns: append(zoneColumns(),
		SheetColumn{Key: "outdoor", Heading: "Outdoor", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.OutdoorC }},
		SheetColumn{Key: "slab-melting", Heading: "Slab, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.CoreMeltC }},
		SheetColumn{Key: "supply-melting", Heading: "Supply, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.SupplyMeltC }},
		SheetColumn{Key: "slab-idling", Heading: "Slab, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.CoreIdleC }},
		SheetColumn{Key: "supply-idling", Heading: "Supply, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.SupplyIdleC }},
		SheetColumn{Key: "loss-melting", Heading: "Heat up, melting, dry", Quantity: units.Flux, Get: func(r Row) any { return r.Point.LossMeltWM2 }},
		SheetColumn{Key: "loss-idling", Heading: "Heat up, idling, dry", Quantity: units.Flux, Get: func(r Row) any { return r.Point.LossIdleWM2 }},
		SheetColumn{Key: "ratio", Heading: "Reset ratio, melting", Quantity: units.Number, Get: func(r Row) any { return r.Zone.Reset.Ratio }},
		SheetColumn{Key: "idle-ratio", Heading: "Reset ratio, idling", Quantity: units.Number, Get: func(r Row) any { return r.Zone.Reset.IdleRatio }},
		SheetColumn{Key: "surface-melting", Heading: "Surface, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Zone.Reset.Input.MeltC }},
		SheetColumn{Key: "surface-idling", Heading: "Surface, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Zone.Reset.Input.IdleC }},
	), Rows: eachPoint}
}

func eachPoint(r Row, system units.System, put func(Row)) {
	eachZone(r, system, func(r Row) {
		if r.Zone.Reset == nil {
			return
		}
		for _, p := range report.Points(*r.Zone.Reset, system) {
			r.Point = p
			put(r)
		}
	})
}
