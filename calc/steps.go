package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/season"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// Steps tells how the numbers of an outcome came about, in the order of the calculation, read from its fields.
func (o Outcome) Steps() []trace.Step {
	var all []trace.Step
	if o.Load != nil {
		all = append(all, o.Load.Steps()...)
	}
	if o.Slab != nil {
		all = append(all, o.Slab.Steps()...)
		all = append(all, o.designSteps()...)
	}
	if o.Reset != nil {
		all = append(all, o.Reset.Steps()...)
	}
	if chosen, found := o.Chosen(); found {
		all = append(all, chosen.Steps()...)
		all = append(all, o.heatSteps(chosen)...)
	}
	if year, found := o.ChosenCost(cost.TypicalWinter); found {
		all = append(all, year.Steps(o.Tariff)...)
	}
	return all
}

const (
	loadSource     = "heat balance of a snow-melting surface"
	practiceSource = "common practice"
	inputSource    = "input"
)

// designSteps tells how the total heat and the installed output came about.
func (o Outcome) designSteps() []trace.Step {
	z, d := o.Zone, o.Design
	steps := []trace.Step{
		{Group: "design", Symbol: "A", Name: "area", Value: z.Extent.AreaM2, Quantity: units.Area, Source: inputSource},
		{Symbol: "P", Name: "perimeter", Value: z.Extent.PerimeterM.Value, Quantity: units.Length, Source: inputSource},
	}
	if d.EdgeW.Known {
		steps = append(steps, trace.Step{Symbol: "Q_edge", Name: "edge loss", Value: d.EdgeW.Value, Quantity: units.Power,
			Equation: "Q_edge = P ψ (t_core − t_o), ψ = 1.5 W/m·K bare, 0.6 with edge insulation", Source: "judgement", From: []string{"P", "t_core", "t_a"}})
	}
	steps = append(steps, trace.Step{Symbol: "Q", Name: "total heat", Value: d.TotalW.Value, Quantity: units.Power,
		Equation: "Q = (q_design + q_back) A + Q_edge", Source: loadSource, From: []string{"q_design", "q_back", "A", "Q_edge"}})
	if d.InstalledWM2.Known {
		steps = append(steps, o.installedStep())
	}
	if d.UnmetHours.Known {
		steps = append(steps, trace.Step{Symbol: "n_unmet", Name: "snowfall hours a year not served", Value: d.UnmetHours.Value, Quantity: units.Hours,
			Equation: "hours with q_o > q_inst − q_back", Source: loadSource, From: []string{"q_inst", "q_back"}})
	}
	return steps
}

func (o Outcome) installedStep() trace.Step {
	s := trace.Step{Symbol: "q_inst", Name: "installed output", Value: o.Design.InstalledWM2.Value, Quantity: units.Flux,
		Equation: "q_inst = q_design + q_back, rounded up to 10 W/m²", Source: practiceSource, From: []string{"q_design", "q_back"}}
	switch {
	case o.Zone.Heat.InstalledWM2.Known:
		s.Equation, s.Source, s.From = "", inputSource, nil
	case o.Design.FloorRules:
		s.Equation, s.Source, s.From = "least of the usual band: 200 W/m², stairs 300 W/m²", practiceSource, nil
	}
	return s
}

// heatSteps tells how a season's heat per area became the heat of the zone.
func (o Outcome) heatSteps(r season.Result) []trace.Step {
	u := use(o, r, cost.TypicalWinter)
	return []trace.Step{
		{Symbol: "E_edge", Name: "edge heat of the season", Value: edgeKWh(o.Zone, r.EdgeDegreeHours), Quantity: units.Energy,
			Equation: "E_edge = P ψ Σ(t_core − t_o)", Source: "judgement", From: []string{"P"}},
		{Symbol: "E", Name: "heat of the season", Value: u.HeatKWh, Quantity: units.Energy, Equation: "E = e A + E_edge", Source: loadSource, From: []string{"e", "A", "E_edge"}},
	}
}
