package calc

import (
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/plant"
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
	if o.Piping != nil {
		all = append(all, o.Piping.Steps()...)
	}
	if o.Electric != nil {
		all = append(all, o.Electric.Steps()...)
	}
	if o.Reset != nil {
		all = append(all, o.Reset.Steps()...)
	}
	if o.Limits != nil {
		all = append(append(all, o.Limits.Steps()...), o.stopSteps()...)
	}
	if o.Sensing != nil {
		all = append(all, o.Sensing.Steps()...)
	}
	if chosen, found := o.Chosen(); found {
		all = append(all, chosen.Steps()...)
		if o.Slab != nil {
			all = append(all, o.heatSteps(chosen)...)
		}
		all = append(all, o.winterSteps()...)
	}
	if year, found := o.ChosenCost(cost.TypicalWinter); found {
		all = append(all, year.Steps(o.Tariff, o.PumpTariff)...)
	}
	if o.Metered != nil {
		all = append(all, o.Metered.Steps()...)
	}
	return all
}

// Worked tells how the numbers of one of the site's zones came about, with those of the plants that feed it: what a zone alone can't know.
func (s SiteOutcome) Worked(o Outcome) []trace.Step {
	all := o.Steps()
	for _, p := range s.Plants {
		if slices.ContainsFunc(p.Input.Zones, func(z plant.Zone) bool { return z.ID == o.Zone.Ref.ZoneID }) {
			all = append(all, p.Steps()...)
		}
	}
	return all
}

const (
	loadSource     = "heat balance of a snow-melting surface"
	practiceSource = "common practice"
	inputSource    = "input"
	rankSource     = "order of what the winters cost under the strategy"
)

// designSteps tells how the total heat and the installed output came about.
func (o Outcome) designSteps() []trace.Step {
	z, d := o.Zone, o.Design
	steps := []trace.Step{
		{Group: "design", Symbol: "A", Name: "area", Value: z.Extent.AreaM2, Quantity: units.Area, Source: inputSource},
		{Symbol: "P_edge", Name: "perimeter", Value: z.Extent.PerimeterM.Value, Quantity: units.Length, Source: inputSource},
	}
	if d.EdgeW.Known {
		steps = append(steps, trace.Step{Symbol: "Q_edge", Name: "edge loss", Value: d.EdgeW.Value, Quantity: units.Power,
			Equation: "Q_edge = P_edge ψ (t_sensor − t_a), ψ = 1.5 W/m·K bare, 0.6 with edge insulation", Source: "judgement", From: []string{"P_edge", "t_sensor", "t_a"}})
	}
	steps = append(steps, o.totalStep(), trace.Step{Symbol: "q_floor", Name: "least installed output of the usual band", Value: d.FloorWM2, Quantity: units.Flux,
		Equation: "200 W/m², stairs 300 W/m²", Source: practiceSource})
	if d.InstalledWM2.Known {
		steps = append(steps, o.installedStep())
	}
	unmet := trace.Step{Symbol: "n_inst", Name: "snowfall hours a year not served", Value: d.UnmetHours.Value, Quantity: units.Hours,
		Equation: "hours with q_o > q_inst − q_back", Source: loadSource, From: []string{"q_inst", "q_back"}}
	if d.LimitedWM2.Known {
		steps = append(steps, trace.Step{Symbol: "t_rest", Name: "mean fluid that holds the surface without a flux up", Value: d.RestFluidC.Value, Quantity: units.Temperature, Source: "slab"},
			trace.Step{Symbol: "q_limit", Name: "flux up that the loops give at the supply limit", Value: d.LimitedWM2.Value, Quantity: units.Flux,
				Equation: "q_limit = q_design (t_limit − t_rest) / (t_supply − t_rest)", Source: loadSource, From: []string{"q_design", "t_rest"}})
		unmet.Equation, unmet.From = "hours with q_o > least of q_inst − q_back and q_limit", append(unmet.From, "q_limit")
	}
	if d.UnmetHours.Known {
		steps = append(steps, unmet)
	}
	return steps
}

// totalStep tells the total heat: without an outdoor temperature the edge loss is not known and not in it.
func (o Outcome) totalStep() trace.Step {
	s := trace.Step{Symbol: "Q", Name: "total heat", Value: o.Design.TotalW.Value, Quantity: units.Power,
		Equation: "Q = (q_design + q_back) A + Q_edge", Source: loadSource, From: []string{"q_design", "q_back", "A", "Q_edge"}}
	if !o.Design.EdgeW.Known {
		s.Name, s.Equation, s.From = "total heat without edge loss, which is not known", "Q = (q_design + q_back) A", s.From[:3]
	}
	return s
}

func (o Outcome) installedStep() trace.Step {
	s := trace.Step{Symbol: "q_inst", Name: "installed output", Value: o.Design.InstalledWM2.Value, Quantity: units.Flux,
		Equation: "q_inst = q_design + q_back, rounded up to 10 W/m²", Source: practiceSource, From: []string{"q_design", "q_back"}}
	switch {
	case !o.Zone.Heat.InstalledWM2.Known && o.Zone.Heat.Kind == Electric && o.Zone.Heat.SpacingM.Known:
		s.Equation, s.Source, s.From = "q_inst = output of the cable per length / spacing", inputSource, nil
	case o.Zone.Heat.InstalledWM2.Known:
		s.Equation, s.Source, s.From = "", inputSource, nil
	case o.Design.FloorRules:
		s.Equation, s.From = "q_inst = q_floor, which is more than q_design + q_back", []string{"q_floor", "q_design", "q_back"}
	}
	return s
}

// heatSteps tells how a season's heat per area became the heat of the zone.
func (o Outcome) heatSteps(r season.Result) []trace.Step {
	edge := edgeKWh(o.Zone, r.EdgeDegreeHours)
	return []trace.Step{
		{Symbol: "E_edge", Name: "edge heat of the season", Value: edge, Quantity: units.Energy,
			Equation: "E_edge = P_edge ψ Σ(t_core − t_o)", Source: "judgement", From: []string{"P_edge", "Σ(t_core − t_o)"}},
		{Symbol: "E", Name: "heat of the season", Value: r.EnergyKWhM2*o.Zone.Extent.AreaM2 + edge, Quantity: units.Energy, Equation: "E = e A + E_edge", Source: loadSource, From: []string{"e", "A", "E_edge"}},
	}
}

// ruleWords say how the mild, the typical and the severe winter are found.
var ruleWords = map[string]string{
	RuleSnowFactors: "one winter, run with less snow, as it is and with more: lowest, median, highest by yearly cost",
	RuleExtremes:    "lowest, median, highest by yearly cost of the station's winters",
	RulePercentiles: "10th, 50th and 90th percentile of yearly cost of the station's winters",
}

// winterSteps tells how the mild, the typical and the severe winter were found, and the typical one's heat.
func (o Outcome) winterSteps() []trace.Step {
	s := o.Snow
	list := []trace.Step{
		{Symbol: "n_winters", Name: "winters of the station", Value: float64(s.Winters), Quantity: units.Count, Source: "station"},
		{Symbol: "rank", Name: "mild, typical and severe winter", Text: ruleWords[s.Rule], Source: rankSource},
	}
	if s.Rule == RuleSnowFactors {
		list = append(list, s.factorSteps()...)
	}
	if len(o.Winters) == 0 {
		return list
	}
	low, high, part := between(len(o.Winters), s.shares()[1])
	return append(list,
		trace.Step{Symbol: "r_typ", Name: "place of the typical winter, 1 the cheapest", Value: 1 + float64(low) + part, Quantity: units.Number, Equation: "r_typ = 1 + (n − 1) / 2 of the winters that were run", Source: rankSource},
		trace.Step{Symbol: "E_low", Name: "heat of the winter at or next below that place", Value: o.atPlace(low).Cost.HeatKWh, Quantity: units.Energy, Source: "that winter of the strategy, area and edge"},
		trace.Step{Symbol: "E_high", Name: "heat of the winter next above it", Value: o.atPlace(high).Cost.HeatKWh, Quantity: units.Energy, Source: "that winter of the strategy, area and edge"})
}

// atPlace returns the winter at a place in the order of cost, from 0.
func (o Outcome) atPlace(place int) WinterCost {
	return o.Winters[slices.IndexFunc(o.Winters, func(w WinterCost) bool { return w.Place == place+1 })]
}

// factorSteps tells the snow of the mild and the severe winter.
func (s SnowSpread) factorSteps() []trace.Step {
	source := "station"
	if s.Assumed {
		source = "judgement: the station does not tell"
	}
	return []trace.Step{
		{Symbol: "CV", Name: "variation of seasonal snowfall", Value: s.Variation, Quantity: units.Share, Source: source},
		{Symbol: "f_mild", Name: "factor on every hour's snow, mild winter", Value: s.MildFactor, Quantity: units.Number, Equation: "f_mild = max(0, 1 − 1.28 CV)",
			Source: "10th percentile of a normal distribution", From: []string{"CV"}},
		{Symbol: "f_severe", Name: "factor on every hour's snow, severe winter", Value: s.SevereFactor, Quantity: units.Number, Equation: "f_severe = 1 + 1.28 CV",
			Source: "90th percentile of a normal distribution", From: []string{"CV"}},
	}
}
