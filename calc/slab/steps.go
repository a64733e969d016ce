package slab

import (
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput  = "input"
	sourceUnit   = "conduction in two dimensions, finite volumes in the half cell between two pipes; engineering method, section 2"
	sourceLinear = "conduction is linear in the temperatures of pipe, environment and what lies below"
	sourceMethod = "engineering method, section 2"
	sourceFilm   = "ASHRAE Handbook, HVAC Applications (2015) ch. 51: 33 °F"
)

// Steps tells how the numbers of the solution came about; the edge loss, which rests on the area, is told with the design.
func (s Solution) Steps() []trace.Step {
	steps := []trace.Step{{Group: "slab", Symbol: "slab method", Name: "how the slab was solved", Text: s.Method, Source: sourceUnit}}
	steps = append(steps, s.Section.steps()...)
	steps = append(steps, s.boundarySteps()...)
	steps = append(steps, s.unitSteps()...)
	steps = append(steps, s.answerSteps()...)
	return append(steps, s.resistanceSteps()...)
}

// steps tells the layers and the pipe as they were given.
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
	return append(steps, in("R_insulation", "insulation below the slab", s.InsulationM2KW, units.Insulance), in("z_sensor", "depth of the slab sensor", s.SensorDepthM, units.Thickness),
		in("ρc", "heat capacity of the slab", s.SlabHeatCapacityJM3, units.HeatCapacity))
}

// belowName tells what lies below the section, and how heat gets there.
func (s Section) belowName() (name, source string) {
	switch s.Support {
	case OpenAir:
		return "outdoor air of the design hour under the slab", "design hour; underside 10 W/m²·K, engineering method, section 2"
	case HeatedSpace:
		return "heated space under the slab", "18 °C, underside 6 W/m²·K, engineering method, section 2"
	}
	return "ground under the slab", "input; 1.0 m of ground of 1.5 W/m·K, engineering method, section 2"
}

func (s Solution) boundarySteps() []trace.Step {
	name, source := s.Section.belowName()
	return []trace.Step{
		{Symbol: "q_up", Name: "upward flux", Value: s.UpWM2, Quantity: units.Flux, Source: "design flux of the load"},
		{Symbol: "t_f", Name: "mean surface temperature", Value: surface.Film(), Quantity: units.Temperature, Source: sourceFilm},
		{Symbol: "h_top", Name: "film on the surface", Value: topFilm, Quantity: units.Coefficient, Source: sourceMethod},
		{Symbol: "t_e", Name: "environment that keeps the mean surface there", Value: s.EnvironmentC, Quantity: units.Temperature, Equation: "t_e = t_f − q_up / h_top", Source: sourceMethod, From: []string{"t_f", "q_up", "h_top"}},
		{Symbol: "t_below", Name: name, Value: s.BelowC, Quantity: units.Temperature, Source: source},
	}
}

// shaped are the symbols that a geometry rests on in every section.
var shaped = []string{"d", "λ", "z_pipe", "s_pipe", "D", "R_insulation", "z_sensor"}

func (s Solution) unitSteps() []trace.Step {
	u := s.Unit
	flow := func(symbol, name string, v float64) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Coefficient, Equation: "∇·(λ ∇t) = 0", Source: sourceUnit, From: shaped}
	}
	share := func(symbol, name string, v float64) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Number, Equation: "∇·(λ ∇t) = 0", Source: sourceUnit, From: shaped}
	}
	return []trace.Step{
		flow("U_up", "pipe to environment", u.UpWM2K),
		flow("U_down", "pipe to what lies below", u.DownWM2K),
		flow("U_through", "what lies below to environment, past the pipe", u.ThroughWM2K),
		share("p_min", "surface midway, per kelvin of the pipe", u.Least.Pipe),
		share("b_min", "surface midway, per kelvin of what lies below", u.Least.Below),
		share("p_max", "surface over the pipe, per kelvin of the pipe", u.Greatest.Pipe),
		share("b_max", "surface over the pipe, per kelvin of what lies below", u.Greatest.Below),
		share("p_sensor", "sensor, per kelvin of the pipe", u.Sensor.Pipe),
		share("b_sensor", "sensor, per kelvin of what lies below", u.Sensor.Below),
	}
}

// place is the step of a temperature at a place.
func place(tag, name string, v units.Maybe[float64]) trace.Step {
	return trace.Step{Symbol: "t_" + tag, Name: name, Value: v.Value, Quantity: units.Temperature, Source: sourceLinear,
		Equation: "t_" + tag + " = t_e + p_" + tag + " (t_pipe − t_e) + b_" + tag + " (t_below − t_e)", From: []string{"t_e", "t_pipe", "t_below", "p_" + tag, "b_" + tag}}
}

func (s Solution) answerSteps() []trace.Step {
	name := "temperature of the pipe's outer surface"
	if s.Section.WallM == 0 {
		name = "temperature of the heating element's surface"
	}
	steps := []trace.Step{
		{Symbol: "t_pipe", Name: name, Value: s.PipeSurfaceC.Value, Quantity: units.Temperature, Equation: "t_pipe = t_e + [q_up − U_through (t_below − t_e)] / U_up", Source: sourceLinear, From: []string{"t_e", "q_up", "U_through", "t_below", "U_up"}},
		{Symbol: "q_back", Name: "back loss", Value: s.BackWM2, Quantity: units.Flux, Equation: "q_back = U_down (t_pipe − t_below) − U_through (t_below − t_e)", Source: sourceLinear, From: []string{"U_down", "t_pipe", "t_below", "U_through", "t_e"}},
		{Symbol: "b", Name: "back loss per upward flux", Value: s.BackShare, Quantity: units.Share, Equation: "b = q_back / q_up", Source: sourceMethod, From: []string{"q_back", "q_up"}},
		place("min", "least surface temperature, midway between the pipes", s.SurfaceMinC),
		place("max", "greatest surface temperature, over the pipe", s.SurfaceMaxC),
		place("sensor", "temperature at the sensor, midway between the pipes", s.SensorC),
		{Symbol: "q_even", Name: "upward flux that brings the surface midway to the freezing point in the same weather", Value: s.EvenWM2.Value, Quantity: units.Flux, Equation: "q_even = q_up of t_e with t_min = 0 °C", Source: sourceLinear, From: []string{"U_up", "U_through", "t_e", "t_below", "p_min", "b_min"}},
	}
	if s.MeanFluidC.Known {
		steps = append(steps,
			trace.Step{Symbol: "h_film", Name: "film between fluid and pipe", Value: s.Section.fluidFilm(), Quantity: units.Coefficient, Source: s.Section.filmSource()},
			trace.Step{Symbol: "R_wall", Name: "wall of the pipe and inner film", Value: s.WallResistance, Quantity: units.Insulance, Equation: "R_wall = s_pipe ln(D / d_i) / (2 π λ_wall) + s_pipe / (π d_i h_film), d_i = D − 2 w", Source: "conduction in a tube", From: []string{"s_pipe", "D", "w", "λ_wall", "h_film"}},
			trace.Step{Symbol: "t_fluid", Name: "mean fluid temperature", Value: s.MeanFluidC.Value, Quantity: units.Temperature, Equation: "t_fluid = t_pipe + (q_up + q_back) R_wall", Source: "conduction in a tube", From: []string{"t_pipe", "q_up", "q_back", "R_wall"}})
	}
	return steps
}

// filmSource says where the film between fluid and pipe comes from.
func (s Section) filmSource() string {
	if s.FluidFilmWM2K > 0 {
		return "flow in the pipe"
	}
	return "judgement, where the flow is not known"
}

func (s Solution) resistanceSteps() []trace.Step {
	net := []string{"U_up", "U_down", "U_through", "p_min", "b_min"}
	r := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Insulance, Equation: equation, Source: sourceLinear, From: from}
	}
	name, pipe, fluid := "surface of the cable to surface midway", "t_pipe", net
	if s.MeanFluidC.Known {
		name, pipe, fluid = "mean fluid to surface midway", "t_fluid", append(append([]string(nil), net...), "R_wall")
	}
	steps := []trace.Step{
		r("R_core", "sensor to surface midway", s.CoreResistance, "R_core = (t_sensor − t_min) / q_up", "t_sensor", "t_min", "q_up"),
		r("R_cover", "pipe level to surface midway", s.CoverResistance, pipe+" = t_min + q_up R_cover + (q_up + q_back) (R_pipe − R_cover)", net...),
		r("R_pipe", name, s.PipeResistance, pipe+" = t_min + q_up R_cover + (q_up + q_back) (R_pipe − R_cover)", fluid...),
		r("R_level", "surface midway to the level that back loss leaves", s.LevelResistance, "q_back = (t_min + q_up R_level − t_below) / R_below", net...),
		r("R_below", "that level to what lies below", s.BelowResistance, "q_back = (t_min + q_up R_level − t_below) / R_below", net...),
	}
	if s.WarmUpHours.Known {
		steps = append(steps, trace.Step{Symbol: "τ_warm", Name: "warm-up", Value: s.WarmUpHours.Value, Quantity: units.Hours, Equation: "ρc ∂t/∂τ = ∂/∂z (λ ∂t/∂z) + q at the pipe's level", Source: "transient conduction in one dimension; engineering method, section 4", From: []string{"d", "λ", "z_pipe", "R_insulation", "ρc"}})
	}
	return steps
}
