package electric

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput    = "input"
	sourceGeometry = "geometry"
	sourceCode     = "National Electrical Code 426, from memory; the adopted code decides"
	sourceSizes    = ", from memory; the adopted code decides"
	sourceOhm      = "resistive load"
	sourceJudged   = "judgement"
)

// Steps tells how the numbers of the layout came about.
func (l Layout) Steps() []trace.Step {
	steps := append(l.Input.steps(), l.cable()...)
	if l.Circuits.Known {
		steps = append(steps, l.Circuits.Value.steps(l.Input)...)
	}
	return steps
}

func (in Input) steps() []trace.Step {
	list := []trace.Step{
		{Group: "electric", Symbol: "A_cable", Name: "area with cable", Value: in.AreaM2, Quantity: units.Area, Source: sourceInput},
		{Symbol: "q_need", Name: "design flux up and back loss", Value: in.NeedWM2, Quantity: units.Flux, Source: "slab"},
		{Symbol: "Q_edge,cable", Name: "edge loss", Value: in.EdgeW, Quantity: units.Power, Source: "slab"},
		{Symbol: "q_wish", Name: "power density wished", Value: in.InstalledWM2, Quantity: units.Flux, Source: "installed output"},
		{Symbol: "p_cable", Name: "output of the cable", Value: in.CableWM, Quantity: units.LinearPower, Source: sourceInput},
	}
	for _, told := range []struct {
		v            units.Maybe[float64]
		symbol, name string
		q            units.Quantity
	}{{in.SpacingM, "s_given", "spacing as given", units.Thickness}, {in.VoltageV, "U_line", "voltage", units.Voltage}, {in.Phases, "phases", "phases", units.Count}} {
		if told.v.Known {
			list = append(list, trace.Step{Symbol: told.symbol, Name: told.name, Value: told.v.Value, Quantity: told.q, Source: sourceInput})
		}
	}
	return list
}

// edgeEquation says what lays cable along the edges.
func (l Layout) edgeEquation() string {
	if l.Input.SpacingM.Known || l.Input.Laid {
		return "L_edge = 0: the spacing is given"
	}
	return "L_edge = [Q_edge,cable − (q_cable − q_need) A_cable] / p_cable, neither difference below 0"
}

func (l Layout) cable() []trace.Step {
	spacing := trace.Step{Symbol: "s_cable", Name: "spacing of the cable", Value: l.SpacingM, Quantity: units.Thickness, Equation: "s_cable = p_cable / q_wish", Source: sourceGeometry, From: []string{"p_cable", "q_wish"}}
	if l.Input.SpacingM.Known {
		spacing.Equation, spacing.From = "s_cable = s_given", []string{"s_given"}
	}
	return []trace.Step{
		spacing,
		{Symbol: "q_cable", Name: "power density installed", Value: l.DensityWM2, Quantity: units.Flux, Equation: "q_cable = p_cable / s_cable", Source: sourceGeometry, From: []string{"p_cable", "s_cable"}},
		{Symbol: "L_edge", Name: "cable along the edges, for what leaves there", Value: l.EdgeM, Quantity: units.Length, Equation: l.edgeEquation(), Source: sourceGeometry, From: []string{"q_need", "q_cable", "A_cable", "Q_edge,cable", "p_cable"}},
		{Symbol: "L_cable", Name: "cable in all", Value: l.CableM, Quantity: units.Length, Equation: "L_cable = A_cable / s_cable + L_edge", Source: sourceGeometry, From: []string{"A_cable", "s_cable", "L_edge"}},
		{Symbol: "P_connected", Name: "connected load", Value: l.ConnectedW, Quantity: units.ElectricPower, Equation: "P_connected = p_cable L_cable", Source: sourceOhm, From: []string{"p_cable", "L_cable"}},
		{Symbol: "P_demand", Name: "demand, all circuits at once", Value: l.DemandW, Quantity: units.ElectricPower, Equation: "P_demand = P_connected", Source: "no diversity: one storm calls all circuits", From: []string{"P_connected"}},
		{Symbol: "q_low", Name: "power density with 5 % less voltage", Value: l.LowWM2, Quantity: units.Flux, Equation: "q_low = 0.95² q_cable", Source: sourceOhm, From: []string{"q_cable"}},
		{Symbol: "q_high", Name: "power density with 5 % more voltage", Value: l.HighWM2, Quantity: units.Flux, Equation: "q_high = 1.05² q_cable", Source: sourceOhm, From: []string{"q_cable"}},
		{Symbol: "R_cable", Name: "cable to surface midway, per upward flux", Value: l.Input.Path.ResistanceM2KW, Quantity: units.Insulance, Source: "slab"},
		{Symbol: "b_cable", Name: "back loss per upward flux", Value: l.Input.Path.BackShare, Quantity: units.Number, Source: "slab"},
		{Symbol: "t_set", Name: "melting set point of the surface", Value: l.Input.Path.SurfaceC, Quantity: units.Temperature, Source: sourceInput},
		{Symbol: "t_cable", Name: "surface of the cable at full output, the surface at its set point", Value: l.CableC, Quantity: units.Temperature, Equation: "t_cable = t_set + R_cable q_cable / (1 + b_cable)", Source: "steady conduction of the section", From: []string{"t_set", "R_cable", "q_cable", "b_cable"}},
		{Symbol: "t_bear", Name: "what the pavement bears at the cable", Value: l.Input.Path.LimitC, Quantity: units.Temperature, Source: "common practice, as for fluids"},
	}
}

func (c Circuits) steps(in Input) []trace.Step {
	amps := func(symbol, name string, v float64, source, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Current, Equation: equation, Source: source, From: from}
	}
	k := ""
	if in.Phases.Value == 3 {
		k = "√3 "
	}
	return []trace.Step{
		{Symbol: "sizes", Name: "family of protection sizes", Text: c.Family, Source: c.Family + sourceSizes, From: []string{"U_line"}},
		amps("I_largest", "protection of the largest circuit", c.LargestA, sourceJudged, "40 A"),
		{Symbol: "P_largest", Name: "load of the largest circuit", Value: c.LargestW, Quantity: units.ElectricPower, Equation: "P_largest = " + k + "U_line I_largest / 1.25", Source: sourceCode, From: []string{"U_line", "I_largest"}},
		{Symbol: "n_circuits", Name: "circuits", Value: float64(c.Count), Quantity: units.Count, Equation: "n_circuits = P_connected / P_largest, rounded up", Source: sourceOhm, From: []string{"P_connected", "P_largest"}},
		{Symbol: "P_circuit", Name: "load of a circuit", Value: c.LoadW, Quantity: units.ElectricPower, Equation: "P_circuit = P_connected / n_circuits", Source: sourceOhm, From: []string{"P_connected", "n_circuits"}},
		amps("I", "current of a circuit", c.Amps, sourceOhm, "I = P_circuit / ("+k+"U_line)", "P_circuit", "U_line"),
		amps("I_needed", "current for conductor and protection, continuous load", c.NeededA, sourceCode, "I_needed = 1.25 I", "I"),
		amps("I_protection", "protection of a circuit", c.ProtectionA, c.Family+sourceSizes, "next standard size from I_needed", "I_needed", "sizes"),
		{Symbol: "n_cables", Name: "cables of a circuit, one a phase", Value: float64(c.Cables), Quantity: units.Count, Source: sourceOhm, From: []string{"phases"}},
		{Symbol: "L_circuit", Name: "length of each cable", Value: c.CableM, Quantity: units.Length, Equation: "L_circuit = L_cable / (n_circuits n_cables)", Source: sourceGeometry, From: []string{"L_cable", "n_circuits", "n_cables"}},
		amps("I_supply", "current of all circuits", c.SupplyA, sourceOhm, "I_supply = P_connected / ("+k+"U_line)", "P_connected", "U_line"),
		{Symbol: "I_trip", Name: "trip of the ground-fault protection of each circuit, mA", Value: c.TripMA, Quantity: units.Number, Equation: "30 mA, or as the cable is listed", Source: "common practice; " + sourceCode},
	}
}
