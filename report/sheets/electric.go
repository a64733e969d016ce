package sheets

import (
	"thawbook/calc"
	"thawbook/calc/electric"
	"thawbook/calc/units"
	"thawbook/report"
)

// cables is a row a zone with cable: density, cable, circuits and their protection.
func cables() sheet {
	return sheet{Key: "electric", Name: "Results Electric", Frozen: 4, Columns: append(zoneColumns(),
		ofElectric("density", "Power density", units.Flux, func(l *electric.Layout) any { return l.DensityWM2 }),
		ofElectric("need", "Density needed, with back loss", units.Flux, func(l *electric.Layout) any { return l.Input.NeedWM2 }),
		ofElectric("density-low", "Density with 5 % less voltage", units.Flux, func(l *electric.Layout) any { return l.LowWM2 }),
		ofElectric("density-high", "Density with 5 % more voltage", units.Flux, func(l *electric.Layout) any { return l.HighWM2 }),
		ofElectric("cable-temperature", "Cable at full output, surface at its set point", units.Temperature, func(l *electric.Layout) any { return l.CableC }),
		ofElectric("cable", "Output of the cable", units.LinearPower, func(l *electric.Layout) any { return l.Input.CableWM }),
		ofElectric("spacing", "Cable spacing", units.Thickness, func(l *electric.Layout) any { return l.SpacingM }),
		SheetColumn{Key: "spacing-by", Heading: "Spacing set by", Width: 12, Get: onElectric(func(r Row, _ *electric.Layout) any { return setBy(r, report.SpacingSetBy(*r.Zone)) })},
		ofElectric("cable-length", "Cable in all", units.Length, func(l *electric.Layout) any { return l.CableM }),
		ofElectric("connected", "Connected load", units.ElectricPower, func(l *electric.Layout) any { return l.ConnectedW }),
		ofElectric("demand", "Demand, all circuits at once", units.ElectricPower, func(l *electric.Layout) any { return l.DemandW }),
		ofElectric("voltage", "Voltage", units.Voltage, func(l *electric.Layout) any { return l.Input.VoltageV }),
		ofElectric("phases", "Phases", units.Count, func(l *electric.Layout) any { return l.Input.Phases }),
		ofCircuits("circuits", "Circuits", units.Count, func(c electric.Circuits) any { return c.Count }),
		ofCircuits("circuit-load", "Load of a circuit", units.ElectricPower, func(c electric.Circuits) any { return c.LoadW }),
		ofCircuits("circuit-current", "Current of a circuit", units.Current, func(c electric.Circuits) any { return c.Amps }),
		ofCircuits("needed-current", "Current × 1.25, for conductor and protection", units.Current, func(c electric.Circuits) any { return c.NeededA }),
		ofCircuits("protection", "Protection of a circuit", units.Current, func(c electric.Circuits) any { return c.ProtectionA }),
		ofCircuits("sizes", "Sizes of", units.Text, func(c electric.Circuits) any { return c.Family }),
		ofCircuits("cables", "Cables of a circuit", units.Count, func(c electric.Circuits) any { return c.Cables }),
		ofCircuits("circuit-cable", "Length of each cable", units.Length, func(c electric.Circuits) any { return c.CableM }),
		ofCircuits("supply-current", "Current of all circuits", units.Current, func(c electric.Circuits) any { return c.SupplyA }),
		ofCircuits("ground-fault", "Ground-fault trip, mA", units.Count, func(c electric.Circuits) any { return c.TripMA }),
		SheetColumn{Key: "code", Heading: "Decided by", Width: 27, Get: onElectric(func(r Row, _ *electric.Layout) any { return r.Words.Say("adopted-code") })},
	), Rows: zonesWith(func(o *calc.Outcome) bool { return o.Electric != nil })}
}

func ofElectric(key, heading string, q units.Quantity, get func(*electric.Layout) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Quantity: q, Get: onElectric(func(_ Row, l *electric.Layout) any { return get(l) })}
}

// ofCircuits leaves the cell empty without a voltage.
func ofCircuits(key, heading string, q units.Quantity, get func(electric.Circuits) any) SheetColumn {
	return ofElectric(key, heading, q, func(l *electric.Layout) any {
		if !l.Circuits.Known {
			return nil
		}
		return get(l.Circuits.Value)
	})
}

// onElectric hands the layout of a zone with cable over.
func onElectric(get func(Row, *electric.Layout) any) func(Row) any {
	return func(r Row) any { return get(r, r.Zone.Electric) }
}
