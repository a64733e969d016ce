package slab

import (
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput = "input"
	sourceRow   = "row of pipes: Koschenz and Lehmann 2000, in EN 15377 and ISO 11855-2"
	sourceLayer = "one-dimensional conduction"
	sourceBack  = "judgement by support and insulation, inside the published 4 to 50 % (about 20 % for standard construction), ASHRAE Handbook, HVAC Applications (2015) ch. 51"
)

// Steps tells how the numbers of the solution came about; the edge loss is told where perimeter and outdoor temperature are known.
func (s Solution) Steps() []trace.Step {
	if s.Method == TwoDimensional {
		return s.conductionSteps()
	}
	steps := []trace.Step{{Group: "slab", Symbol: "slab method", Name: "how the slab was solved", Text: s.Method, Source: sourceLayer}}
	steps = append(steps, s.Section.steps()...)
	steps = append(steps,
		trace.Step{Symbol: "q_up", Name: "upward flux", Value: s.UpWM2, Quantity: units.Flux, Source: "design flux of the load"},
		trace.Step{Symbol: "t_f", Name: "mean surface temperature", Value: surface.Film(), Quantity: units.Temperature, Source: "ASHRAE Handbook, HVAC Applications (2015) ch. 51: 33 °F"},
		trace.Step{Symbol: "R_core", Name: "sensor to surface", Value: s.CoreResistance, Quantity: units.Insulance, Equation: "R_core = Σ thickness / conductivity down to the sensor", Source: sourceLayer, From: []string{"z_sensor", "λ"}},
		trace.Step{Symbol: "R_cover", Name: "pipe level to surface", Value: s.CoverResistance, Quantity: units.Insulance, Equation: "R_cover = Σ thickness / conductivity down to the pipe or cable", Source: sourceLayer, From: []string{"z_pipe", "λ"}},
		s.pipeStep(),
		trace.Step{Symbol: "b", Name: "back loss per upward flux", Value: s.BackShare, Quantity: units.Share, Source: sourceBack, From: []string{"R_insulation"}},
		trace.Step{Symbol: "q_back", Name: "back loss", Value: s.BackWM2, Quantity: units.Flux, Equation: "q_back = b q_up", Source: sourceBack, From: []string{"b", "q_up"}},
	)
	return append(steps, s.temperatureSteps()...)
}

func (s Section) steps() []trace.Step {
	in := func(symbol, name string, v float64, q units.Quantity) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
	}
	var steps []trace.Step
	if s.SurfaceM > 0 {
		steps = append(steps, in("d_surface", "thickness of the surface course", s.SurfaceM, units.Thickness), in("λ_surface", "conductivity of the surface course", s.SurfaceWMK, units.Conductivity))
	}
	if s.BeddingM > 0 {
		steps = append(steps, in("d_bedding", "thickness of the bedding", s.BeddingM, units.Thickness), in("λ_bedding", "conductivity of the bedding", s.BeddingWMK, units.Conductivity))
	}
	steps = append(steps,
		in("d", "thickness of the slab", s.SlabM, units.Thickness),
		in("λ", "conductivity of the slab", s.SlabWMK, units.Conductivity),
		in("z_pipe", "depth of the pipe or cable to its centre", s.DepthM, units.Thickness),
		in("s_pipe", "spacing", s.SpacingM, units.Thickness),
		in("D", "outside diameter of the pipe or cable", s.OuterM, units.Thickness),
	)
	if s.WallM > 0 {
		steps = append(steps, in("w", "wall of the pipe", s.WallM, units.Thickness), in("λ_wall", "conductivity of the pipe's wall", s.WallWMK, units.Conductivity))
	}
	return append(steps, in("R_insulation", "insulation below the slab", s.InsulationM2KW, units.Insulance), in("z_sensor", "depth of the slab sensor", s.SensorDepthM, units.Thickness))
}

func (s Solution) pipeStep() trace.Step {
	step := trace.Step{Symbol: "R_pipe", Name: "cable to surface", Value: s.PipeResistance, Quantity: units.Insulance, Source: sourceRow,
		Equation: "R_pipe = R_cover + s_pipe ln(s_pipe / π D) / (2 π λ)", From: []string{"R_cover", "s_pipe", "D", "λ"}}
	if s.Section.WallM > 0 {
		step.Name = "mean fluid to surface"
		step.Equation += " + s_pipe ln(D / d_i) / (2 π λ_wall) + s_pipe / (π d_i h_film), h_film 500 W/m²·K"
		step.Source += "; inner film: judgement, until the flow is known"
		step.From = append(step.From, "w", "λ_wall")
	}
	return step
}

func (s Solution) temperatureSteps() []trace.Step {
	var steps []trace.Step
	known := func(v units.Maybe[float64], step trace.Step) {
		if v.Known {
			step.Value = v.Value
			steps = append(steps, step)
		}
	}
	known(s.SensorC, trace.Step{Symbol: "t_sensor", Name: "temperature at the sensor", Quantity: units.Temperature, Equation: "t_sensor = t_f + q_up R_core", Source: sourceLayer, From: []string{"t_f", "q_up", "R_core"}})
	known(s.PipeSurfaceC, trace.Step{Symbol: "t_pipe", Name: "temperature of the pipe's or cable's outer surface", Quantity: units.Temperature,
		Equation: "t_pipe = t_f + q_up R_cover + (q_up + q_back) R_x, R_x = s_pipe ln(s_pipe / π D) / (2 π λ)", Source: sourceRow, From: []string{"t_f", "q_up", "q_back", "R_cover", "s_pipe", "D", "λ"}})
	known(s.MeanFluidC, trace.Step{Symbol: "t_fluid", Name: "mean fluid temperature", Quantity: units.Temperature,
		Equation: "t_fluid = t_f + q_up R_cover + (q_up + q_back) (R_pipe − R_cover)", Source: sourceRow, From: []string{"t_f", "q_up", "q_back", "R_cover", "R_pipe"}})
	known(s.SurfaceMinC, trace.Step{Symbol: "t_min", Name: "least surface temperature", Quantity: units.Temperature, Source: s.Method})
	known(s.SurfaceMaxC, trace.Step{Symbol: "t_max", Name: "greatest surface temperature", Quantity: units.Temperature, Source: s.Method})
	known(s.WarmUpHours, trace.Step{Symbol: "τ_warm", Name: "warm-up", Quantity: units.Hours, Source: s.Method})
	return steps
}
