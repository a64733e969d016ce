package piping

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput    = "input"
	sourceGeometry = "geometry"
	sourceCode     = "model mechanical code, loop lengths by size"
	sourcePractice = "common practice"
	sourceJudged   = "judgement"
	sourceMelinder = "Melinder 2010, Properties of Secondary Working Fluids for Indirect Systems, IIR"
	sourceMix      = "densities of the components at 20 °C, CRC Handbook of Chemistry and Physics, from memory"
	sourceHeat     = "heat balance of the fluid"
	sourceChurch   = "laminar below Re 2,300; above: Churchill 1977, unsure up to Re 4,000 as every equation is"
	sourceDarcy    = "Darcy and Weisbach"
	sourceNusselt  = "laminar with even heat flux: Incropera; turbulent: Gnielinski 1976; between: Gnielinski 2013"
	sourceWall     = "radial conduction through the wall, film inside"
)

// Steps tells how the numbers of the layout came about.
func (l Layout) Steps() []trace.Step {
	steps := l.Input.steps()
	steps = append(steps, l.Loops.steps(l.Input, l.Flow.SearchedLoops)...)
	steps = append(steps, l.Fluid.steps(l.Input)...)
	steps = append(steps, l.Flow.steps()...)
	steps = append(steps, l.Head.steps()...)
	return append(steps, l.Volume.steps()...)
}

// known adds a step for a value that is not blank.
func known(list []trace.Step, v units.Maybe[float64], s trace.Step) []trace.Step {
	if !v.Known {
		return list
	}
	s.Value = v.Value
	return append(list, s)
}

func (in Input) steps() []trace.Step {
	told := func(symbol, name string, v float64, q units.Quantity) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
	}
	list := []trace.Step{
		{Group: "piping", Symbol: "A_pipes", Name: "area with pipes", Value: in.AreaM2, Quantity: units.Area, Source: sourceInput},
		told("s_pipes", "spacing of the pipes", in.SpacingM, units.Thickness),
		told("D_pipe", "outside diameter of the pipe", in.OuterM, units.Thickness),
		told("w_pipe", "wall of the pipe", in.WallM, units.Thickness),
		told("λ_pipe", "conductivity of the pipe's wall", in.WallWMK, units.Conductivity),
		{Symbol: "q_up,pipes", Name: "flux up", Value: in.UpWM2, Quantity: units.Flux, Source: "slab"},
		{Symbol: "q_back,pipes", Name: "flux back", Value: in.BackWM2, Quantity: units.Flux, Source: "slab"},
		{Symbol: "Q_edge,pipes", Name: "heat through the edge", Value: in.EdgeW, Quantity: units.Power, Source: "slab"},
		{Symbol: "q_carry", Name: "what the loops are laid out to carry: the installed output", Value: in.CarryWM2, Quantity: units.Flux, Source: "design"},
		{Symbol: "t_pipe,slab", Name: "outer surface of the pipe", Value: in.PipeSurfaceC, Quantity: units.Temperature, Source: "slab"},
		told("ΔT", "temperature drop, supply to return, at what the loops carry", in.DropK, units.TemperatureDiff),
		{Symbol: "fluid", Name: "fluid", Text: string(in.Fluid), Source: sourceInput},
	}
	list = known(list, in.LoopLengthM, told("L_given", "loop length as given, with leaders", 0, units.Length))
	list = known(list, in.LeaderM, told("L_leader,given", "leaders of a loop as given", 0, units.Length))
	list = known(list, in.MainsM, told("L_mains", "mains, one way, as given", 0, units.Length))
	list = known(list, in.SupplyLimitC, told("t_limit", "supply limit", 0, units.Temperature))
	list = known(list, in.Share, told("φ_given", "concentration by volume as given", 0, units.Share))
	return known(list, in.ExtremeMinC, trace.Step{Symbol: "t_extreme", Name: "extreme minimum", Quantity: units.Temperature, Source: "climate"})
}

func (p Loops) steps(in Input, searched bool) []trace.Step {
	leader := trace.Step{Symbol: "L_leader", Name: "leaders of a loop, both ways", Value: p.LeaderM, Quantity: units.Length, Equation: "7.62 m (25 ft)", Source: sourceCode + ", with leaders less without"}
	count := trace.Step{Symbol: "n_loops", Name: "loops", Value: float64(p.Count), Quantity: units.Count,
		Equation: "n_loops = L_heated / (L_longest − L_leader), rounded up", Source: sourceCode, From: []string{"L_heated", "L_longest", "L_leader"}}
	switch {
	case in.LeaderM.Known:
		leader.Equation, leader.Source, leader.From = "L_leader = L_leader,given", sourceInput, []string{"L_leader,given"}
	case in.LoopLengthM.Known:
		leader.Equation, leader.From = "7.62 m (25 ft), at most a quarter of L_given", []string{"L_given"}
	}
	switch {
	case in.LoopLengthM.Known:
		count.Equation, count.Source, count.From = "n_loops = L_heated / (L_given − L_leader), rounded", sourceGeometry, []string{"L_heated", "L_given", "L_leader"}
	case searched:
		count.Equation += "; then more, until Δp_loop ≤ 50 kPa"
		count.Source += "; head of a loop: judgement"
	}
	return []trace.Step{
		{Symbol: "d_pipe", Name: "bore of the pipe", Value: p.BoreM, Quantity: units.Thickness, Equation: "d_pipe = D_pipe − 2 w_pipe", Source: sourceGeometry, From: []string{"D_pipe", "w_pipe"}},
		{Symbol: "L_heated", Name: "pipe in the heated slab", Value: p.HeatedM, Quantity: units.Length, Equation: "L_heated = A_pipes / s_pipes", Source: sourceGeometry, From: []string{"A_pipes", "s_pipes"}},
		leader,
		{Symbol: "L_longest", Name: "longest loop with leaders", Value: p.LongestM, Quantity: units.Length, Equation: "43, 76, 99, 145 m at a bore of 12, 16, 20, 25 mm, linear between", Source: sourceCode, From: []string{"d_pipe"}},
		count,
		{Symbol: "L_loop", Name: "length of each loop with leaders", Value: p.LengthM, Quantity: units.Length, Equation: "L_loop = L_heated / n_loops + L_leader", Source: sourceGeometry, From: []string{"L_heated", "n_loops", "L_leader"}},
		{Symbol: "L_pipe", Name: "pipe in all", Value: p.TotalM, Quantity: units.Length, Equation: "L_pipe = n_loops L_loop", Source: sourceGeometry, From: []string{"n_loops", "L_loop"}},
	}
}

func (c Concentration) steps(in Input) []trace.Step {
	list := known(nil, c.NeedC, trace.Step{Symbol: "t_need", Name: "freezing point needed", Quantity: units.Temperature, Equation: "t_need = t_extreme − 5 K", Source: sourcePractice, From: []string{"t_extreme"}})
	share := trace.Step{Symbol: "φ", Name: "concentration by volume", Value: c.Share, Quantity: units.Share, Source: sourceInput}
	switch {
	case c.Proposed && c.NeedC.Known:
		share.Equation, share.Source, share.From = "least of 30, 35 … 55 % with t_freeze ≤ t_need, else 55 %", sourcePractice, []string{"t_need"}
	case c.Proposed:
		share.Equation, share.Source = "50 %: the extreme minimum is not known", sourceJudged
	default:
		share.Equation, share.From = "φ = φ_given", []string{"φ_given"}
	}
	list = append(list, share,
		trace.Step{Symbol: "x", Name: "concentration by mass", Value: c.MassShare, Quantity: units.Share, Equation: "x = φ ρ_g / (φ ρ_g + (1 − φ) ρ_w)", Source: sourceMix, From: []string{"φ"}},
		trace.Step{Symbol: "t_freeze", Name: "freezing point", Value: c.FreezeC, Quantity: units.Temperature, Equation: "polynomial in x", Source: sourceMelinder, From: []string{"x", "fluid"}})
	list = known(list, c.MarginK, trace.Step{Symbol: "Δt_freeze", Name: "extreme minimum above the freezing point", Quantity: units.TemperatureDiff, Equation: "Δt_freeze = t_extreme − t_freeze", Source: sourceGeometry, From: []string{"t_extreme", "t_freeze"}})
	return known(list, c.BurstC, trace.Step{Symbol: "t_burst", Name: "pipe does not burst down to here; never counted as protection", Quantity: units.Temperature,
		Equation: "about −29 °C from 30 % propylene glycol by volume, else t_freeze where that is lower", Source: sourcePractice + ", medium confidence", From: []string{"φ", "t_freeze"}})
}

func (f Flow) steps() []trace.Step {
	fluid := func(symbol, name string, v float64, q units.Quantity, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Equation: equation, Source: sourceMelinder, From: append([]string{"x"}, from...)}
	}
	return []trace.Step{
		{Symbol: "Q_fluid", Name: "heat that the loops carry", Value: f.HeatW, Quantity: units.Power, Equation: "Q_fluid = q A_pipes + Q_edge,pipes, q the greater of q_carry and q_up,pipes + q_back,pipes", Source: sourceHeat, From: []string{"q_carry", "q_up,pipes", "q_back,pipes", "A_pipes", "Q_edge,pipes"}},
		{Symbol: "Q_design", Name: "heat at the design flux", Value: f.DesignHeatW, Quantity: units.Power, Equation: "Q_design = (q_up,pipes + q_back,pipes) A_pipes + Q_edge,pipes", Source: sourceHeat, From: []string{"q_up,pipes", "q_back,pipes", "A_pipes", "Q_edge,pipes"}},
		{Symbol: "ΔT_design", Name: "supply less return at the design flux", Value: f.DesignDropK, Quantity: units.TemperatureDiff, Equation: "ΔT_design = ΔT Q_design / Q_fluid", Source: sourceHeat, From: []string{"ΔT", "Q_design", "Q_fluid"}},
		{Symbol: "Q_loop", Name: "heat of a loop", Value: f.LoopHeatW, Quantity: units.Power, Equation: "Q_loop = Q_fluid / n_loops", Source: sourceHeat, From: []string{"Q_fluid", "n_loops"}},
		fluid("ρ_fluid", "density of the fluid at its mean temperature", f.DensityKgM3, units.Density, "ρ_fluid(x, t_mean)"),
		fluid("c_fluid", "specific heat of the fluid, likewise", f.HeatJKgK, units.SpecificHeat, "c_fluid(x, t_mean)"),
		fluid("k_fluid", "conductivity of the fluid, likewise", f.FluidWMK, units.Conductivity, "k_fluid(x, t_mean)"),
		fluid("ν_fluid", "kinematic viscosity of the fluid, likewise", f.KinematicM2S, units.Viscosity, "ν_fluid = μ(x, t_mean) / ρ_fluid", "ρ_fluid"),
		fluid("Pr_fluid", "Prandtl number", f.Prandtl, units.Number, "Pr_fluid = ν_fluid ρ_fluid c_fluid / k_fluid", "ν_fluid", "ρ_fluid", "c_fluid", "k_fluid"),
		{Symbol: "q_V,loop", Name: "flow of a loop", Value: f.LoopLS, Quantity: units.Flow, Equation: "q_V,loop = Q_loop / (ρ_fluid c_fluid ΔT)", Source: sourceHeat, From: []string{"Q_loop", "ρ_fluid", "c_fluid", "ΔT"}},
		{Symbol: "q_V", Name: "flow of all loops", Value: f.TotalLS, Quantity: units.Flow, Equation: "q_V = n_loops q_V,loop", Source: sourceHeat, From: []string{"n_loops", "q_V,loop"}},
		{Symbol: "v", Name: "speed in a loop", Value: f.SpeedMS, Quantity: units.FluidSpeed, Equation: "v = 4 q_V,loop / (π d_pipe²)", Source: sourceGeometry, From: []string{"q_V,loop", "d_pipe"}},
		{Symbol: "Re_fluid", Name: "Reynolds number", Value: f.Reynolds, Quantity: units.Count, Equation: "Re_fluid = v d_pipe / ν_fluid", Source: sourceDarcy, From: []string{"v", "d_pipe", "ν_fluid"}},
		{Symbol: "f", Name: "Darcy friction factor", Value: f.Friction, Quantity: units.Friction, Equation: f.frictionEquation(), Source: sourceChurch + "; roughness 0.007 mm: memory, medium confidence", From: []string{"Re_fluid", "d_pipe"}},
		{Symbol: "Nu", Name: "Nusselt number", Value: f.Nusselt, Quantity: units.Number, Equation: f.nusseltEquation(), Source: sourceNusselt, From: []string{"Re_fluid", "Pr_fluid"}},
		{Symbol: "h_fluid", Name: "film between fluid and pipe", Value: f.FilmWM2K, Quantity: units.Coefficient, Equation: "h_fluid = Nu k_fluid / d_pipe", Source: sourceNusselt, From: []string{"Nu", "k_fluid", "d_pipe"}},
		{Symbol: "R_tube", Name: "pipe's wall, per area of pavement", Value: f.WallM2KW, Quantity: units.Insulance, Equation: "R_tube = s_pipes ln(D_pipe / d_pipe) / (2 π λ_pipe)", Source: sourceWall, From: []string{"s_pipes", "D_pipe", "d_pipe", "λ_pipe"}},
		{Symbol: "R_fluid", Name: "fluid's film, per area of pavement", Value: f.FilmM2KW, Quantity: units.Insulance, Equation: "R_fluid = s_pipes / (π d_pipe h_fluid)", Source: sourceWall, From: []string{"s_pipes", "d_pipe", "h_fluid"}},
		{Symbol: "t_mean", Name: "mean fluid temperature", Value: f.MeanC, Quantity: units.Temperature, Equation: "t_mean = t_pipe,slab + Q_design/A_pipes (R_tube + R_fluid), searched, since R_fluid rests on it", Source: sourceWall,
			From: []string{"t_pipe,slab", "Q_design", "A_pipes", "R_tube", "R_fluid"}},
		{Symbol: "t_supply", Name: "supply temperature", Value: f.SupplyC, Quantity: units.Temperature, Equation: "t_supply = t_mean + ΔT_design / 2", Source: sourceHeat, From: []string{"t_mean", "ΔT_design"}},
		{Symbol: "t_return", Name: "return temperature", Value: f.ReturnC, Quantity: units.Temperature, Equation: "t_return = t_mean − ΔT_design / 2", Source: sourceHeat, From: []string{"t_mean", "ΔT_design"}},
	}
}

func (f Flow) frictionEquation() string {
	if f.Reynolds < laminarBelow {
		return "f = 64 / Re_fluid"
	}
	return "f = 8 [(8/Re_fluid)^12 + (A + B)^−1.5]^(1/12), A = [−2.457 ln((7/Re_fluid)^0.9 + 0.27 ε/d_pipe)]^16, B = (37,530/Re_fluid)^16"
}

func (f Flow) nusseltEquation() string {
	const turbulent = "(f_s/8)(Re_fluid − 1000) Pr_fluid / [1 + 12.7 (f_s/8)^½ (Pr_fluid^⅔ − 1)], f_s = (0.79 ln Re_fluid − 1.64)^−2"
	switch {
	case f.Reynolds < laminarBelow:
		return "Nu = 48/11"
	case f.Reynolds < turbulentAbove:
		return "Nu linear in Re_fluid from 48/11 at 2,300 to that at 4,000 of " + turbulent
	}
	return "Nu = " + turbulent
}

func (h Head) steps() []trace.Step {
	term := func(symbol, name string, v float64, source, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Pressure, Equation: equation, Source: source, From: from}
	}
	list := []trace.Step{
		term("Δp_loop", "straight pipe of the worst loop", h.LoopPa, sourceDarcy, "Δp_loop = f L_loop / d_pipe ρ_fluid v² / 2", "f", "L_loop", "d_pipe", "ρ_fluid", "v"),
		term("Δp_bends", "bends of the worst loop", h.BendsPa, sourceJudged, "Δp_bends = 0.10 Δp_loop", "Δp_loop"),
		term("Δp_manifold", "manifold, its valves and flow meter", h.ManifoldPa, sourceJudged, "10 kPa"),
		term("Δp_mains", "mains", h.MainsPa, sourceJudged, "Δp_mains = 2 · 1.5 · 250 Pa/m · 15 m, or L_mains where given"),
		term("Δp_source", "exchanger or boiler", h.SourcePa, sourceJudged, "20 kPa"),
		term("Δp", "head of the pump", h.TotalPa, sourceDarcy, "Δp = Δp_loop + Δp_bends + Δp_manifold + Δp_mains + Δp_source", "Δp_loop", "Δp_bends", "Δp_manifold", "Δp_mains", "Δp_source"),
		{Symbol: "P_pump", Name: "pump power at the wire", Value: h.PumpW, Quantity: units.ElectricPower, Equation: "P_pump = q_V Δp / 0.35", Source: "efficiency at the wire 0.35: judgement", From: []string{"q_V", "Δp"}},
	}
	list = known(list, h.ColdC, trace.Step{Symbol: "t_cold,fluid", Name: "fluid at the coldest start", Quantity: units.Temperature, Equation: "t_cold,fluid = t_extreme, not below t_freeze", Source: sourcePractice, From: []string{"t_extreme", "t_freeze"}})
	list = known(list, h.ColdReynolds, trace.Step{Symbol: "Re_cold", Name: "Reynolds number at the design speed, coldest start", Quantity: units.Count, Equation: "Re_cold = v d_pipe / ν_fluid(x, t_cold,fluid)", Source: sourceMelinder, From: []string{"v", "d_pipe", "x", "t_cold,fluid"}})
	list = known(list, h.ColdPa, trace.Step{Symbol: "Δp_cold", Name: "head of the pump at the design flow, coldest start", Quantity: units.Pressure,
		Equation: "as Δp, with ρ_fluid and f at t_cold,fluid", Source: sourceChurch, From: []string{"Re_cold", "L_loop", "d_pipe", "v", "Δp_manifold", "Δp_mains", "Δp_source"}})
	return known(list, h.ColdShare, trace.Step{Symbol: "q_V,cold/q_V", Name: "share of the design flow that the design head moves, coldest start", Quantity: units.Share,
		Equation: "the share at which the head at t_cold,fluid is Δp", Source: sourceChurch, From: []string{"Δp", "Re_cold"}})
}

func (v Volume) steps() []trace.Step {
	litre := func(symbol, name string, value float64, source, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: value, Quantity: units.Volume, Equation: equation, Source: source, From: from}
	}
	list := []trace.Step{
		litre("V_loops", "fluid in the loops", v.LoopsL, sourceGeometry, "V_loops = π/4 d_pipe² L_pipe", "d_pipe", "L_pipe"),
		litre("V_mains", "fluid in the mains", v.MainsL, sourceJudged, "V_mains = 2 · 15 m q_V / (1 m/s), or L_mains where given", "q_V"),
		litre("V_fluid", "fluid in all", v.TotalL, sourceGeometry, "V_fluid = V_loops + V_mains; plant and exchanger not in it", "V_loops", "V_mains"),
		litre("V_glycol", "glycol", v.GlycolL, sourceGeometry, "V_glycol = φ V_fluid", "φ", "V_fluid"),
		{Symbol: "t_hot", Name: "hottest fluid", Value: v.HotC, Quantity: units.Temperature, Equation: "t_hot = greater of t_supply and t_limit", Source: sourcePractice, From: []string{"t_supply"}},
		litre("V_expand", "expansion from the fill at 10 °C (50 °F) to the hottest", v.ExpansionL, sourceMelinder, "V_expand = V_fluid (ρ_fluid(10 °C) / ρ_fluid(t_hot) − 1)", "V_fluid", "x", "t_hot"),
	}
	return known(list, v.ContractionL, litre("V_shrink", "contraction from the fill at 10 °C (50 °F) to the coldest", 0, sourceMelinder, "V_shrink = V_fluid (1 − ρ_fluid(10 °C) / ρ_fluid(t_cold,fluid))", "V_fluid", "x", "t_cold,fluid"))
}
