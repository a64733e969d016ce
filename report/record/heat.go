package record

import (
	"thawbook/calc"
	"thawbook/calc/electric"
	"thawbook/calc/piping"
	"thawbook/calc/plant"
	"thawbook/calc/units"
	"thawbook/report"
)

// Slab is the slab's answer to the design flux, by conduction between two pipes or cables. SurfaceMinC is midway between them, SurfaceMaxC over one;
// PipeSurfaceC of a cable is its own surface, and MeanFluidC is null. Striped: the surface midway is below freezing; EvenFluxWM2 is the flux that brings
// it to 0 °C in the same weather. SpacingSetBy: given, proposed, or assumed for a pavement that is there already.
type Slab struct {
	PipeSurfaceC        Number `json:"pipe_surface_c"`
	MeanFluidC          Number `json:"mean_fluid_c"`
	SensorC             Number `json:"sensor_c"`
	SurfaceMinC         Number `json:"surface_min_c"`
	SurfaceMaxC         Number `json:"surface_max_c"`
	WarmUpH             Number `json:"warm_up_h"`
	Method              string `json:"method"`
	SurfaceMeanC        Number `json:"surface_mean_c"`
	DepthMM             Number `json:"depth_mm"`
	SpacingMM           Number `json:"spacing_mm"`
	SpacingSetBy        string `json:"spacing_set_by"`
	FluxWM2             Number `json:"flux_w_m2"`
	Striped             bool   `json:"striped"`
	EvenFluxWM2         Number `json:"even_flux_w_m2"`
	BackLossWM2         Number `json:"back_loss_w_m2"`
	BackShare           Number `json:"back_loss_share"`
	EdgeLossW           Number `json:"edge_loss_w"`
	BelowC              Number `json:"below_c"`
	CoreResistanceM2KW  Number `json:"sensor_to_surface_m2k_w"`
	FluidResistanceM2KW Number `json:"heat_source_to_surface_m2k_w"`
}

// Piping is the loops of a hydronic zone at its design flux. What rests on the coldest to be expected is null where that is not known.
// BurstC never counts as protection: no pump moves the fluid there.
type Piping struct {
	Loops              int    `json:"loops"`
	LoopLengthM        Number `json:"loop_length_m"`
	FlowLS             Number `json:"flow_l_s"`
	HeadKPa            Number `json:"head_kpa"`
	Reynolds           Number `json:"reynolds"`
	FluidVolumeL       Number `json:"fluid_volume_l"`
	FreezePointC       Number `json:"freeze_point_c"`
	LongestLoopM       Number `json:"longest_loop_m"`
	LeaderM            Number `json:"leader_m"`
	PipeM              Number `json:"pipe_m"`
	OuterMM            Number `json:"pipe_outer_mm"`
	BoreMM             Number `json:"pipe_bore_mm"`
	SpacingMM          Number `json:"spacing_mm"`
	HeatW              Number `json:"heat_w"`
	SupplyC            Number `json:"supply_c"`
	ReturnC            Number `json:"return_c"`
	DropK              Number `json:"temperature_drop_k"`
	LoopFlowLS         Number `json:"loop_flow_l_s"`
	SpeedMS            Number `json:"speed_m_s"`
	Friction           Number `json:"friction_factor"`
	HeadLoopKPa        Number `json:"head_loop_kpa"`
	HeadBendsKPa       Number `json:"head_bends_kpa"`
	HeadManifoldKPa    Number `json:"head_manifold_kpa"`
	HeadMainsKPa       Number `json:"head_mains_kpa"`
	HeadSourceKPa      Number `json:"head_source_kpa"`
	PumpW              Number `json:"pump_w"`
	ColdStartC         Number `json:"cold_start_c"`
	ColdStartHeadKPa   Number `json:"cold_start_head_kpa"`
	ColdStartFlowShare Number `json:"cold_start_flow_share"`
	Fluid              string `json:"fluid"`
	Share              Number `json:"concentration_share"`
	ShareSetBy         string `json:"concentration_set_by"`
	FreezeNeedC        Number `json:"freeze_point_needed_c"`
	FreezeMarginK      Number `json:"freeze_margin_k"`
	BurstC             Number `json:"burst_c"`
	LoopsVolumeL       Number `json:"loops_volume_l"`
	MainsVolumeL       Number `json:"mains_volume_l"`
	GlycolL            Number `json:"glycol_l"`
	ExpansionL         Number `json:"expansion_l"`
	ContractionL       Number `json:"contraction_l"`
}

// Electric is the cable and the circuits of an electric zone. Circuits are null without a voltage. The adopted code decides on protection and
// ground-fault trip.
type Electric struct {
	ConnectedKW      Number  `json:"connected_kw"`
	Circuits         *int    `json:"circuits"`
	CableSpacingMM   Number  `json:"cable_spacing_mm"`
	DemandKW         Number  `json:"demand_kw"`
	DensityWM2       Number  `json:"density_w_m2"`
	DensityLowWM2    Number  `json:"density_low_voltage_w_m2"`
	DensityHighWM2   Number  `json:"density_high_voltage_w_m2"`
	CableC           Number  `json:"cable_c"`
	CableWM          Number  `json:"cable_w_m"`
	CableM           Number  `json:"cable_m"`
	VoltageV         Number  `json:"voltage_v"`
	Phases           Number  `json:"phases"`
	CircuitKW        Number  `json:"circuit_kw"`
	CircuitA         Number  `json:"circuit_a"`
	CircuitNeededA   Number  `json:"circuit_needed_a"`
	ProtectionA      Number  `json:"protection_a"`
	ProtectionSizes  *string `json:"protection_sizes"`
	CablesPerCircuit *int    `json:"cables_per_circuit"`
	CircuitCableM    Number  `json:"circuit_cable_m"`
	SupplyA          Number  `json:"supply_a"`
	GroundFaultMA    Number  `json:"ground_fault_ma"`
}

// Plant is the heat source of the zones of a site that use the same row of Energy: they melt together, so their heat adds up. Powers are heat out of
// the plant, before its efficiency. Ratings are at sea level and of a burner only; null for other plant.
type Plant struct {
	EnergyID string      `json:"energy_id"`
	Zones    []PlantZone `json:"zones"`
	LoadW    Number      `json:"load_w"`
	MainsW   Number      `json:"mains_loss_w"`
	PickUpW  Number      `json:"pick_up_w"`
	NetW     Number      `json:"net_w"`
	Derate   Number      `json:"altitude_share"`
	RatedW   Number      `json:"rated_w"`
	RatedFan Number      `json:"rated_fan_w"`
	SupplyC  Number      `json:"supply_c"`
	ReturnC  Number      `json:"return_c"`
	DropK    Number      `json:"supply_less_return_k"`
	FullDrop Number      `json:"supply_less_return_at_load_k"`
}

// PlantZone is what a zone asks of its plant. ColdStartMostC is the hottest supply that does not shock the slab at a cold start.
type PlantZone struct {
	Zone           string `json:"zone"`
	HeatW          Number `json:"heat_w"`
	SupplyC        Number `json:"supply_c"`
	ReturnC        Number `json:"return_c"`
	SlabDiffK      Number `json:"supply_less_slab_k"`
	ColdStartMostC Number `json:"cold_start_supply_most_c"`
	NeedsMixing    bool   `json:"needs_mixing"`
}

// inSI writes a value in the SI unit that names in the record end with: mm, kPa, kW.
func inSI(v float64, q units.Quantity) Number { return NumberOf(q.In(units.SI).FromBase(v)) }

func milli(m float64) Number { return inSI(m, units.Thickness) }

func slabOf(o calc.Outcome) *Slab {
	s := *o.Slab
	out := &Slab{PipeSurfaceC: Number{s.PipeSurfaceC}, MeanFluidC: Number{s.MeanFluidC}, SensorC: Number{s.SensorC}, SurfaceMinC: Number{s.SurfaceMinC},
		SurfaceMaxC: Number{s.SurfaceMaxC}, WarmUpH: Number{s.WarmUpHours}, Method: s.Method, SurfaceMeanC: Number{s.SurfaceMeanC}, DepthMM: milli(s.Section.DepthM),
		SpacingMM: milli(s.Section.SpacingM), SpacingSetBy: report.SpacingSetBy(o), FluxWM2: NumberOf(s.UpWM2), Striped: s.Striped, BackLossWM2: NumberOf(s.BackWM2),
		BackShare: NumberOf(s.BackShare), EdgeLossW: Number{s.EdgeW}, BelowC: NumberOf(s.BelowC), CoreResistanceM2KW: NumberOf(s.CoreResistance),
		FluidResistanceM2KW: NumberOf(s.PipeResistance)}
	if s.Striped {
		out.EvenFluxWM2 = Number{s.EvenWM2}
	}
	return out
}

func pipingOf(l piping.Layout) *Piping {
	p, c, f, h, v := l.Loops, l.Fluid, l.Flow, l.Head, l.Volume
	out := &Piping{Loops: p.Count, LoopLengthM: NumberOf(p.LengthM), LongestLoopM: NumberOf(p.LongestM), LeaderM: NumberOf(p.LeaderM), PipeM: NumberOf(p.TotalM),
		OuterMM: milli(l.Input.OuterM), BoreMM: milli(p.BoreM), SpacingMM: milli(l.Input.SpacingM), DropK: NumberOf(l.Input.DropK),
		HeatW: NumberOf(f.HeatW), SupplyC: NumberOf(f.SupplyC), ReturnC: NumberOf(f.ReturnC), FlowLS: NumberOf(f.TotalLS), LoopFlowLS: NumberOf(f.LoopLS),
		SpeedMS: NumberOf(f.SpeedMS), Reynolds: NumberOf(f.Reynolds), Friction: NumberOf(f.Friction),
		HeadKPa: inSI(h.TotalPa, units.Pressure), HeadLoopKPa: inSI(h.LoopPa, units.Pressure), HeadBendsKPa: inSI(h.BendsPa, units.Pressure), HeadManifoldKPa: inSI(h.ManifoldPa, units.Pressure), HeadMainsKPa: inSI(h.MainsPa, units.Pressure),
		HeadSourceKPa: inSI(h.SourcePa, units.Pressure), PumpW: NumberOf(h.PumpW), ColdStartC: Number{h.ColdC}, ColdStartFlowShare: Number{h.ColdShare},
		Fluid: string(l.Input.Fluid), Share: NumberOf(c.Share), ShareSetBy: report.ShareSetBy(c.Proposed), FreezePointC: NumberOf(c.FreezeC), FreezeNeedC: Number{c.NeedC},
		FreezeMarginK: Number{c.MarginK}, BurstC: Number{c.BurstC},
		FluidVolumeL: NumberOf(v.TotalL), LoopsVolumeL: NumberOf(v.LoopsL), MainsVolumeL: NumberOf(v.MainsL), GlycolL: NumberOf(v.GlycolL),
		ExpansionL: NumberOf(v.ExpansionL), ContractionL: Number{v.ContractionL}}
	if h.ColdPa.Known {
		out.ColdStartHeadKPa = inSI(h.ColdPa.Value, units.Pressure)
	}
	return out
}

func electricOf(l electric.Layout) *Electric {
	out := &Electric{ConnectedKW: inSI(l.ConnectedW, units.ElectricPower), DemandKW: inSI(l.DemandW, units.ElectricPower), CableSpacingMM: milli(l.SpacingM), DensityWM2: NumberOf(l.DensityWM2),
		DensityLowWM2: NumberOf(l.LowWM2), DensityHighWM2: NumberOf(l.HighWM2), CableC: NumberOf(l.CableC), CableWM: NumberOf(l.Input.CableWM), CableM: NumberOf(l.CableM),
		VoltageV: Number{l.Input.VoltageV}, Phases: Number{l.Input.Phases}}
	if !l.Circuits.Known {
		return out
	}
	c := l.Circuits.Value
	out.Circuits, out.CablesPerCircuit, out.ProtectionSizes = &c.Count, &c.Cables, text(c.Family)
	out.CircuitKW, out.CircuitA, out.CircuitNeededA, out.ProtectionA = inSI(c.LoadW, units.ElectricPower), NumberOf(c.Amps), NumberOf(c.NeededA), NumberOf(c.ProtectionA)
	out.CircuitCableM, out.SupplyA, out.GroundFaultMA = NumberOf(c.CableM), NumberOf(c.SupplyA), NumberOf(c.TripMA)
	return out
}

func plantsOf(list []calc.Plant) []Plant {
	out := []Plant{}
	for _, p := range list {
		plant := Plant{EnergyID: p.EnergyID, Zones: []PlantZone{}, LoadW: NumberOf(p.LoadW), MainsW: NumberOf(p.LossW), PickUpW: NumberOf(p.PickUpW), NetW: NumberOf(p.NetW),
			Derate: NumberOf(p.Derate), RatedW: Number{p.RatedW}, RatedFan: Number{p.RatedFanW}, SupplyC: NumberOf(p.SupplyC), ReturnC: NumberOf(p.ReturnC), DropK: NumberOf(p.DropK), FullDrop: NumberOf(p.FullDropK)}
		for i, n := range p.Needs {
			plant.Zones = append(plant.Zones, needOf(p.Input.Zones[i], n))
		}
		out = append(out, plant)
	}
	return out
}

func needOf(z plant.Zone, n plant.Need) PlantZone {
	return PlantZone{Zone: n.ID, HeatW: NumberOf(n.HeatW), SupplyC: NumberOf(n.SupplyC), ReturnC: NumberOf(n.ReturnC), SlabDiffK: NumberOf(n.SlabDiffK),
		ColdStartMostC: Number{n.StartMostC}, NeedsMixing: n.NeedsMixing}
}
