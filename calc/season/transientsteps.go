package season

import (
	"thawbook/calc/slab"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const sourceTransient = "the winter step by step: engineering method, section 4"

// supports are what lies below a slab, in words.
var supports = map[slab.Support]string{slab.OnGround: "ground", slab.OpenAir: "open air", slab.HeatedSpace: "heated space"}

// transientSteps tells the assumptions in force and the totals they led to, of a winter run as a transient.
func (r Result) transientSteps() []trace.Step {
	return append(append(append(r.transientAssumptions(), r.columnSteps()...), r.transientHours()...), r.transientEnergy()...)
}

func (r Result) transientAssumptions() []trace.Step {
	in := r.Input
	method := func(symbol, name string, v float64, q units.Quantity) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceTransient}
	}
	list := append(r.words(sourceTransient),
		given("f_snow", "factor on every hour's snow", in.SnowFactor, units.Factor),
		given("f_wind", "wind factor", in.WindFactor, units.Factor),
		given("L_season", "length in the wind's direction", in.LengthM, units.Length),
		given("q_installed", "installed output", in.InstalledWM2, units.Flux))
	list = append(list, in.controlSteps()...)
	return append(list,
		method("Δ_band", "on and off about the target at the sensor", bandK, units.TemperatureDiff),
		method("a_bare", "sun taken up, bare", bareAbsorptance, units.Share),
		method("a_snow", "sun taken up, snow", snowAbsorptance, units.Share),
		method("w_film", "film that stays when melt water has drained", filmMM, units.WaterDepth),
		method("w_starts", "snow or water that an in-pavement detector starts on", wetMM, units.WaterDepth),
		method("w_dry", "below it the detector senses dry", dryMM, units.WaterDepth),
		method("τ_drain", "time constant of draining", drainS/hourS, units.Hours),
		method("Δt_step", "longest step while wet, snowy or called to heat", fineS/hourS, units.Hours))
}

// columnSteps tells what lies under the surface.
func (r Result) columnSteps() []trace.Step {
	c := r.Input.Column
	var list []trace.Step
	for i, symbols := range [...][2]string{{"d_surface", "λ_surface"}, {"d_bedding", "λ_bedding"}, {"d_slab", "λ_slab"}} {
		if l := c.Layers[i]; l.ThickM > 0 {
			list = append(list, given(symbols[0]+" season", [...]string{"surface course", "bedding", "slab"}[i]+", thickness", l.ThickM, units.Thickness),
				given(symbols[1]+" season", [...]string{"surface course", "bedding", "slab"}[i]+", conductivity", l.WMK, units.Conductivity))
		}
	}
	list = append(list,
		given("z_level", "pipe or cable, depth to its centre", c.DepthM, units.Thickness),
		given("ρc season", "heat capacity of the layers", c.HeatJM3K, units.HeatCapacity),
		given("R_insulation season", "insulation under the slab", c.InsulationM2KW, units.Insulance),
		trace.Step{Symbol: "below season", Name: "below it", Text: supports[c.Support], Source: sourceInput})
	if c.Support == slab.OnGround {
		list = append(list, given("t_foot", "foot of the ground, 3 m below the slab", c.GroundC, units.Temperature))
	}
	list = append(list,
		trace.Step{Symbol: "R_sensor", Name: "resistance above the column's sensor", Value: r.Input.CoreResistance, Quantity: units.Insulance, Source: "slab"},
		trace.Step{Symbol: "R_fluid", Name: "mean fluid or element to the pipe level", Value: c.FluidResistance, Quantity: units.Insulance, Source: "slab"})
	if c.FluidLimitC.Known {
		list = append(list, given("t_fluid most", "greatest mean fluid temperature", c.FluidLimitC.Value, units.Temperature))
	}
	return list
}

func (r Result) transientHours() []trace.Step {
	hours := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Hours, Equation: equation, Source: sourceTransient, From: from}
	}
	g := r.Transient.Value
	list := append(r.hoursByState(sourceTransient),
		hours("n_snow", "hours with more than 0.1 mm of solid on the surface", r.SnowOnSurfaceH.Value, ""))
	if r.BareShare.Known {
		list = append(list, trace.Step{Symbol: "b_bare", Name: "snowfall hours bare", Value: r.BareShare.Value, Quantity: units.Share, Source: sourceTransient})
	}
	list = append(list,
		trace.Step{Symbol: "n_refreeze", Name: "refreezing after a stop, events a winter", Value: r.RefreezeEvents.Value, Quantity: units.Number, Source: sourceTransient},
		hours("n_beyond", "snowfall hours whose steady load is above the installed output", r.UnmetHours, ""),
		hours("n_locked", "snowfall hours below the lowest melting temperature", r.LockedOutHours, ""),
		hours("n_fluid", "hours with heat held back by the greatest fluid temperature", g.FluidLimitedH, ""),
		trace.Step{Symbol: "n_storms", Name: "storms a winter that dried with heat on", Value: g.Storms, Quantity: units.Number, Source: sourceTransient})
	if g.AfterSnowH.Known {
		list = append(list, hours("h_dries", "from the last snow to dry, 90th percentile of these storms", g.AfterSnowH.Value, ""))
	}
	if g.FilmDriesH.Known {
		list = append(list, hours("h_film", "a film of 0.3 mm dries in, 90th percentile", g.FilmDriesH.Value, ""))
	}
	if g.TimerH.Known {
		list = append(list, hours("h_timer", "recommended timer after the last snow seen", g.TimerH.Value, "h_dries of the strategy that heats from the first snow until dry"))
	}
	if g.OffDelayH.Known {
		list = append(list, hours("h_delay", "recommended off-delay after dry", g.OffDelayH.Value, "a quarter of h_film of the same strategy: the last place to dry"))
	}
	return list
}

func (r Result) transientEnergy() []trace.Step {
	g := r.Transient.Value
	energy := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.EnergyPerArea, Equation: equation, Source: sourceTransient, From: from}
	}
	list := []trace.Step{
		energy("e_idle", "heat of the idling hours, in e", r.IdlingKWhM2, ""),
		energy("e_back", "back loss, in e: flow at the underside less the unheated slab's", r.BackKWhM2, "e_back = Σ (q_under − q_under,unheated) Δt", "R_insulation season"),
		energy("e", "heat into the slab", r.EnergyKWhM2, "e = Σ q_in Δt,  q_in ≤ q_installed, t_fluid ≤ its greatest", "q_installed", "R_fluid", "R_sensor", "t_melt", "t_idle"),
		{Symbol: "q_peak", Name: "greatest mean of an hour", Value: r.PeakWM2(), Quantity: units.Flux, Equation: "q_peak = greatest of the months", Source: sourceTransient},
		{Symbol: "Σ(t_core − t_o)", Name: "core less outdoor temperature over the hours of heat and idling, K·h", Value: r.EdgeDegreeHours, Quantity: units.Number, Equation: "Σ months", Source: sourceTransient},
		{Symbol: "ε_energy", Name: "energy that the books lack, of what came in", Value: g.EnergyResidual, Quantity: units.Share, Source: sourceTransient},
		{Symbol: "ε_mass", Name: "water that the books lack, of what fell", Value: g.MassResidual, Quantity: units.Share, Source: sourceTransient},
	}
	if g.SkyApart.Known {
		list = append(list, trace.Step{Symbol: "Δ_sky", Name: "sky by cloud and humidity over the file's infrared, less 1", Value: g.SkyApart.Value, Quantity: units.Share, Source: sourceHours})
	}
	return list
}
