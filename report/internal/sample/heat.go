package sample

import (
	"thawbook/calc"
	"thawbook/calc/electric"
	"thawbook/calc/piping"
	"thawbook/calc/plant"
	"thawbook/calc/slab"
	"thawbook/calc/units"
)

// section is a walk of concrete on insulated ground, its pipes 75 mm deep at 200 mm.
func section() slab.Section {
	return slab.Section{SlabM: 0.15, SlabWMK: 1.7, DepthM: 0.075, SpacingM: 0.2, OuterM: 0.025, WallM: 0.0023, WallWMK: 0.38, InsulationM2KW: 0.9, GroundC: 8,
		OutdoorC: -8.3, SensorDepthM: 0.025, SlabHeatCapacityJM3: 2.1e6}
}

// Slab is a section's answer to the sample's load.
func Slab(s slab.Section) *slab.Solution {
	unit := must(slab.Unitary(s.Geometry()))
	solution := must(unit.At(s, 518.3))
	solution.EdgeW, solution.WarmUpHours = units.Some(812.4), units.Some(7.25)
	return &solution
}

// Piped is a zone with pipes: its slab and the loops that feed it.
func Piped(o calc.Outcome) calc.Outcome {
	o.Slab = Slab(section())
	layout := must(piping.Design(piping.Input{AreaM2: o.Zone.Extent.AreaM2, SpacingM: 0.2, OuterM: 0.025, WallM: 0.0023, WallWMK: 0.38, UpWM2: 518.3, BackWM2: o.Slab.BackWM2,
		EdgeW: 812.4, PipeSurfaceC: o.Slab.PipeSurfaceC.Value, DropK: 11, Fluid: piping.PropyleneGlycol, ExtremeMinC: units.Some(-27.5)}))
	o.Piping = &layout
	o.Zone.Heat.Pipe = calc.Pipe{Typed: "25 x 2.3 mm", OuterM: 0.025, WallM: 0.0023}
	return o
}

// Cabled is a zone with cable under pavers: its slab and the circuits that feed it.
func Cabled(o calc.Outcome) calc.Outcome {
	s := section()
	s.SurfaceM, s.SurfaceWMK, s.BeddingM, s.BeddingWMK = 0.06, 1.2, 0.03, 0.6
	s.WallM, s.WallWMK, s.OuterM, s.SpacingM, s.DepthM = 0, 0, 0.007, 0.08, 0.085
	o.Slab = Slab(s)
	layout := must(electric.Design(electric.Input{AreaM2: o.Zone.Extent.AreaM2, NeedWM2: 536.5, InstalledWM2: 540, CableWM: 30, VoltageV: units.Some(480.0), Phases: units.Some(3.0)}))
	o.Electric, o.Design.SpacingProposed = &layout, true
	o.Zone.Heat.Kind, o.Zone.Slab.Surface = calc.Electric, calc.Pavers
	return o
}

// plants is the heat source of the zones with pipes.
func plants(list []calc.Outcome) []calc.Plant {
	in := plant.Input{ElevationM: 1650, Burner: true}
	for _, o := range list {
		if o.Piping != nil {
			in.Zones = append(in.Zones, plant.Zone{ID: o.Zone.Ref.ZoneID, AreaM2: o.Zone.Extent.AreaM2, DesignWM2: 536.5, InstalledWM2: o.Design.InstalledWM2, EdgeW: 812.4,
				SupplyC: o.Piping.Flow.SupplyC, DropK: o.Piping.Flow.DesignDropK, FullDropK: o.Piping.Input.DropK, LimitC: units.Some(60.0), SlabC: o.Slab.SensorC.Value, StartC: units.Some(-8.3)})
		}
	}
	if len(in.Zones) == 0 {
		return nil
	}
	return []calc.Plant{{EnergyID: "gas", Output: must(plant.Size(in))}}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
