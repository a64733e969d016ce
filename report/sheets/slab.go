package sheets

import (
	"thawbook/calc"
	"thawbook/calc/slab"
	"thawbook/calc/units"
	"thawbook/report"
)

// slabs is a row a zone with a heated slab: temperatures in the section at the design flux, evenness, warm-up.
func slabs() sheet {
	return sheet{Key: "slab", Name: "Results Slab", Frozen: 4, Columns: append(zoneColumns(),
		ofSlab("flux", "Upward flux", units.Flux, func(s *slab.Solution) any { return s.UpWM2 }),
		ofSlab("depth", "Pipe or cable depth, to its centre", units.Thickness, func(s *slab.Solution) any { return s.Section.DepthM }),
		ofSlab("spacing", "Spacing", units.Thickness, func(s *slab.Solution) any { return s.Section.SpacingM }),
		SheetColumn{Key: "spacing-by", Heading: "Spacing set by", Width: 12, Get: onSlab(func(r Row, _ *slab.Solution) any { return setBy(r, report.SpacingSetBy(*r.Zone)) })},
		ofSlab("insulation", "Insulation under the slab", units.Insulance, func(s *slab.Solution) any { return s.Section.InsulationM2KW }),
		ofSlab("below", "Under that: ground, air or heated space", units.Temperature, func(s *slab.Solution) any { return s.BelowC }),
		ofSlab("surface-mean", "Surface, mean", units.Temperature, func(s *slab.Solution) any { return s.SurfaceMeanC }),
		ofSlab("surface-least", "Surface midway between pipes", units.Temperature, func(s *slab.Solution) any { return s.SurfaceMinC }),
		ofSlab("surface-greatest", "Surface over a pipe", units.Temperature, func(s *slab.Solution) any { return s.SurfaceMaxC }),
		SheetColumn{Key: "even", Heading: "Evenness", Width: 20, Get: onSlab(func(r Row, s *slab.Solution) any {
			if s.Striped {
				return r.Words.Say("slab-striped")
			}
			return r.Words.Say("slab-even")
		})},
		ofSlab("even-flux", "Flux without stripes, same weather", units.Flux, func(s *slab.Solution) any { return known(s.Striped && s.EvenWM2.Known, s.EvenWM2.Value) }),
		ofSlab("sensor", "At the slab sensor", units.Temperature, func(s *slab.Solution) any { return s.SensorC }),
		ofSlab("pipe", "Outer surface of pipe or cable", units.Temperature, func(s *slab.Solution) any { return s.PipeSurfaceC }),
		ofSlab("fluid", "Mean fluid", units.Temperature, func(s *slab.Solution) any { return s.MeanFluidC }),
		ofSlab("back", "Back loss", units.Flux, func(s *slab.Solution) any { return s.BackWM2 }),
		ofSlab("back-share", "Back loss per upward flux", units.Share, func(s *slab.Solution) any { return s.BackShare }),
		ofSlab("edge", "Edge loss", units.Power, func(s *slab.Solution) any { return s.EdgeW }),
		ofSlab("warm-up", "Warm-up", units.Hours, func(s *slab.Solution) any { return s.WarmUpHours }),
		ofSlab("core-resistance", "Sensor to surface midway", units.Insulance, func(s *slab.Solution) any { return s.CoreResistance }),
		ofSlab("pipe-resistance", "Fluid or cable to surface midway", units.Insulance, func(s *slab.Solution) any { return s.PipeResistance }),
		SheetColumn{Key: "method", Heading: "Method", Width: 28, Get: onSlab(func(_ Row, s *slab.Solution) any { return s.Method })},
	), Rows: zonesWith(func(o *calc.Outcome) bool { return o.Slab != nil })}
}

func ofSlab(key, heading string, q units.Quantity, get func(*slab.Solution) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Quantity: q, Get: onSlab(func(_ Row, s *slab.Solution) any { return get(s) })}
}

// onSlab hands the solution of a zone with a heated slab over.
func onSlab(get func(Row, *slab.Solution) any) func(Row) any {
	return func(r Row) any { return get(r, r.Zone.Slab) }
}
