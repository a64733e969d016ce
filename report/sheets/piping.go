package sheets

import (
	"thawbook/calc"
	"thawbook/calc/piping"
	"thawbook/calc/units"
	"thawbook/report"
)

// pipes is a row a zone with pipes: loops, flow, head term by term, fluid and volumes.
func pipes() sheet {
	columns := append(zoneColumns(),
		SheetColumn{Key: "pipe", Heading: "Pipe", Width: 14, Get: onPiping(func(r Row, _ *piping.Layout) any { return r.Zone.Zone.Heat.Pipe.Typed })},
		ofPiping("bore", "Bore", units.Thickness, func(l *piping.Layout) any { return l.Loops.BoreM }),
		ofPiping("spacing", "Spacing", units.Thickness, func(l *piping.Layout) any { return l.Input.SpacingM }),
		SheetColumn{Key: "spacing-by", Heading: "Spacing set by", Width: 12, Get: onPiping(func(r Row, _ *piping.Layout) any { return setBy(r, report.SpacingSetBy(*r.Zone)) })},
		ofPiping("loops", "Loops", units.Count, func(l *piping.Layout) any { return l.Loops.Count }),
		ofPiping("loop-length", "Loop length, with leaders", units.Length, func(l *piping.Layout) any { return l.Loops.LengthM }),
		ofPiping("longest", "Longest loop allowed", units.Length, func(l *piping.Layout) any { return l.Loops.LongestM }),
		ofPiping("leader", "Leaders of a loop, both ways", units.Length, func(l *piping.Layout) any { return l.Loops.LeaderM }),
		ofPiping("pipe-length", "Pipe in all", units.Length, func(l *piping.Layout) any { return l.Loops.TotalM }),
		ofPiping("heat", "Heat that the loops carry", units.Power, func(l *piping.Layout) any { return l.Flow.HeatW }),
		ofPiping("supply", "Supply at the design flux", units.Temperature, func(l *piping.Layout) any { return l.Flow.SupplyC }),
		ofPiping("return", "Return at the design flux", units.Temperature, func(l *piping.Layout) any { return l.Flow.ReturnC }),
		ofPiping("flow", "Flow, all loops", units.Flow, func(l *piping.Layout) any { return l.Flow.TotalLS }),
		ofPiping("loop-flow", "Flow of a loop", units.Flow, func(l *piping.Layout) any { return l.Flow.LoopLS }),
		ofPiping("speed", "Speed in a loop", units.FluidSpeed, func(l *piping.Layout) any { return l.Flow.SpeedMS }),
		ofPiping("reynolds", "Reynolds number", units.Count, func(l *piping.Layout) any { return l.Flow.Reynolds }),
		ofPiping("friction", "Darcy friction factor", units.Friction, func(l *piping.Layout) any { return l.Flow.Friction }),
	)
	columns = append(columns, headColumns()...)
	return sheet{Key: "piping", Name: "Results Piping", Frozen: 4, Columns: append(columns, fluidColumns()...), Rows: zonesWith(func(o *calc.Outcome) bool { return o.Piping != nil })}
}

func headColumns() []SheetColumn {
	return []SheetColumn{
		ofPiping("head-loop", "Head of a loop's pipe", units.Pressure, func(l *piping.Layout) any { return l.Head.LoopPa }),
		ofPiping("head-bends", "Head of bends", units.Pressure, func(l *piping.Layout) any { return l.Head.BendsPa }),
		ofPiping("head-manifold", "Head of the manifold", units.Pressure, func(l *piping.Layout) any { return l.Head.ManifoldPa }),
		ofPiping("head-mains", "Head of the mains", units.Pressure, func(l *piping.Layout) any { return l.Head.MainsPa }),
		ofPiping("head-source", "Head of exchanger or boiler", units.Pressure, func(l *piping.Layout) any { return l.Head.SourcePa }),
		ofPiping("head", "Head of the pump", units.Pressure, func(l *piping.Layout) any { return l.Head.TotalPa }),
		ofPiping("pump", "Pump power at the wire", units.ElectricPower, func(l *piping.Layout) any { return l.Head.PumpW }),
		ofPiping("cold", "Fluid at the coldest start", units.Temperature, func(l *piping.Layout) any { return l.Head.ColdC }),
		ofPiping("cold-head", "Head at the coldest start, design flow", units.Pressure, func(l *piping.Layout) any { return l.Head.ColdPa }),
		ofPiping("cold-flow", "Share of the flow moved at the coldest start", units.Share, func(l *piping.Layout) any { return l.Head.ColdShare }),
	}
}

func fluidColumns() []SheetColumn {
	return []SheetColumn{
		{Key: "fluid", Heading: "Fluid", Width: 17, Get: onPiping(func(_ Row, l *piping.Layout) any { return string(l.Input.Fluid) })},
		ofPiping("share", "Concentration by volume", units.Share, func(l *piping.Layout) any { return l.Fluid.Share }),
		{Key: "share-by", Heading: "Concentration set by", Width: 14, Get: onPiping(func(r Row, l *piping.Layout) any { return setBy(r, report.ShareSetBy(l.Fluid.Proposed)) })},
		ofPiping("freeze", "Freezing point", units.Temperature, func(l *piping.Layout) any { return l.Fluid.FreezeC }),
		ofPiping("freeze-need", "Freezing point needed", units.Temperature, func(l *piping.Layout) any { return l.Fluid.NeedC }),
		ofPiping("freeze-margin", "Extreme minimum above the freezing point", units.TemperatureDiff, func(l *piping.Layout) any { return l.Fluid.MarginK }),
		ofPiping("burst", "No burst down to, never counted as protection", units.Temperature, func(l *piping.Layout) any { return l.Fluid.BurstC }),
		ofPiping("volume-loops", "Fluid in the loops", units.Volume, func(l *piping.Layout) any { return l.Volume.LoopsL }),
		ofPiping("volume-mains", "Fluid in the mains", units.Volume, func(l *piping.Layout) any { return l.Volume.MainsL }),
		ofPiping("volume", "Fluid in all", units.Volume, func(l *piping.Layout) any { return l.Volume.TotalL }),
		ofPiping("glycol", "Glycol", units.Volume, func(l *piping.Layout) any { return l.Volume.GlycolL }),
		ofPiping("expansion", "Expansion from the fill to the hottest", units.Volume, func(l *piping.Layout) any { return l.Volume.ExpansionL }),
		ofPiping("contraction", "Contraction from the fill to the coldest", units.Volume, func(l *piping.Layout) any { return l.Volume.ContractionL }),
	}
}

func ofPiping(key, heading string, q units.Quantity, get func(*piping.Layout) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Quantity: q, Get: onPiping(func(_ Row, l *piping.Layout) any { return get(l) })}
}

// onPiping hands the layout of a zone with pipes over.
func onPiping(get func(Row, *piping.Layout) any) func(Row) any {
	return func(r Row) any { return get(r, r.Zone.Piping) }
}

// zonesWith hands over one row for each zone that has what the sheet is about.
func zonesWith(has func(*calc.Outcome) bool) func(Row, units.System, func(Row)) {
	return func(r Row, s units.System, put func(Row)) {
		eachZone(r, s, func(r Row) {
			if has(r.Zone) {
				put(r)
			}
		})
	}
}

// setBy says who set a value.
func setBy(r Row, who string) string { return r.Words.Say("value-" + who) }
