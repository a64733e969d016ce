package sheets

import (
	"thawbook/calc/setpoint"
	"thawbook/calc/units"
	"thawbook/report"
)

// setPoints is a row for each zone and outdoor temperature: by 2.5 K, or by 5 °F.
func setPoints() sheet {
	columns := append(zoneColumns(),
		SheetColumn{Key: "outdoor", Heading: "Outdoor", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.OutdoorC }},
		SheetColumn{Key: "slab-melting", Heading: "Slab, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.CoreMeltC }},
		SheetColumn{Key: "supply-melting", Heading: "Supply, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.SupplyMeltC }},
		SheetColumn{Key: "slab-idling", Heading: "Slab, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.CoreIdleC }},
		SheetColumn{Key: "supply-idling", Heading: "Supply, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Point.SupplyIdleC }},
		SheetColumn{Key: "held", Heading: "Can the plant hold it, melting", Width: 17, Look: Status, Get: ofLimits(func(r Row, l *setpoint.Limits) any {
			if report.Beyond(*l, r.Point.OutdoorC) {
				return r.Words.Say("beyond-plant")
			}
			return r.Words.Say("within-plant")
		})},
		SheetColumn{Key: "loss-melting", Heading: "Heat up, melting, dry", Quantity: units.Flux, Get: func(r Row) any { return r.Point.LossMeltWM2 }},
		SheetColumn{Key: "loss-idling", Heading: "Heat up, idling, dry", Quantity: units.Flux, Get: func(r Row) any { return r.Point.LossIdleWM2 }},
		SheetColumn{Key: "ratio", Heading: "Reset ratio, melting", Quantity: units.Number, Get: func(r Row) any { return r.Zone.Reset.Ratio }},
		SheetColumn{Key: "idle-ratio", Heading: "Reset ratio, idling", Quantity: units.Number, Get: func(r Row) any { return r.Zone.Reset.IdleRatio }},
		SheetColumn{Key: "surface-melting", Heading: "Surface, melting", Quantity: units.Temperature, Get: func(r Row) any { return r.Zone.Reset.Input.MeltC }},
		SheetColumn{Key: "surface-idling", Heading: "Surface, idling", Quantity: units.Temperature, Get: func(r Row) any { return r.Zone.Reset.Input.IdleC }},
	)
	return sheet{Key: "setpoints", Name: "Results Set Points", Frozen: 5, Columns: append(columns, limitColumns()...), Rows: eachPoint}
}

// limitColumns tell how far the plant can follow the curve.
func limitColumns() []SheetColumn {
	limit := func(key, heading string, q units.Quantity, get func(*setpoint.Limits) any) SheetColumn {
		return SheetColumn{Key: key, Heading: heading, Quantity: q, Get: ofLimits(func(_ Row, l *setpoint.Limits) any { return get(l) })}
	}
	return []SheetColumn{
		limit("limit-start", "Heat allowed below, outdoors", units.Temperature, func(l *setpoint.Limits) any { return l.StartC }),
		limit("limit-keeps-up", "Output keeps up down to, outdoors", units.Temperature, func(l *setpoint.Limits) any { return l.KeepsUpC }),
		limit("limit-supply-limit", "Supply limit", units.Temperature, func(l *setpoint.Limits) any { return l.Plant.SupplyLimitC }),
		limit("limit-reached", "Supply limit passed below, outdoors", units.Temperature, func(l *setpoint.Limits) any { return l.SupplyLimitAtC }),
		limit("limit-coldest", "Coldest that can be held, outdoors", units.Temperature, func(l *setpoint.Limits) any { return l.ColdestC }),
		limit("limit-core", "Greatest slab temperature", units.Temperature, func(l *setpoint.Limits) any { return l.GreatestCoreC }),
		limit("limit-supply", "Greatest supply temperature", units.Temperature, func(l *setpoint.Limits) any { return l.GreatestSupply }),
		limit("limit-shock", "Greatest supply less slab", units.TemperatureDiff, func(l *setpoint.Limits) any { return l.SupplyLessCore }),
		limit("limit-shock-usual", "Usual most of supply less slab", units.TemperatureDiff, func(l *setpoint.Limits) any {
			return known(l.SupplyLessCore.Known, setpoint.GreatestSupplyLessCoreK)
		}),
		limit("limit-design", "Supply at the design flux", units.Temperature, func(l *setpoint.Limits) any { return l.Plant.DesignSupply }),
	}
}

func ofLimits(get func(Row, *setpoint.Limits) any) func(Row) any {
	return func(r Row) any {
		if r.Zone.Limits == nil {
			return nil
		}
		return get(r, r.Zone.Limits)
	}
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
