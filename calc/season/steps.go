package season

import (
	"strings"

	"thawbook/calc/slab"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput  = "input"
	sourceHours  = "hours of the station"
	sourceMethod = "the winter step by step: engineering method, section 4"
)

// begins and ends are what a sense begins and ends heat with, in words.
var begins, ends = map[sense]string{byDate: "date", byOperator: "operator, 3 h late", byFallingSnow: "falling snow seen", byMoisture: "moisture on a cold pavement"},
	map[sense]string{byDate: "date", byOperator: "timer, renewed while snow falls", byFallingSnow: "timer after the last snow seen", byMoisture: "dry, then the off-delay"}

// supports are what lies below a slab, in words.
var supports = map[slab.Support]string{slab.OnGround: "ground", slab.OpenAir: "open air", slab.HeatedSpace: "heated space"}

// words joins the words of each sense of a strategy.
func (by sense) words(of map[sense]string, join string) string {
	var list []string
	for _, one := range [...]sense{byDate, byOperator, byFallingSnow, byMoisture} {
		if by&one != 0 {
			list = append(list, of[one])
		}
	}
	if list == nil {
		return "never"
	}
	return strings.Join(list, join)
}

// limit says in words what limits the slab.
func (c *control) limit() string {
	switch {
	case c.by == 0:
		return "no heat"
	case !c.limited:
		return "nothing: the whole installed output runs"
	case c.idles:
		return "outdoor reset at the slab sensor, idling"
	}
	return "outdoor reset at the slab sensor"
}

// Steps tells the assumptions in force and the totals they led to.
func (r Result) Steps() []trace.Step {
	return append(append(append(r.assumptions(), r.Input.Column.steps(r.Input.CoreResistance)...), r.hourSteps()...), r.energySteps()...)
}

// given is an input as a step.
func given(symbol, name string, v float64, q units.Quantity) trace.Step {
	return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
}

// words tells the strategy: how it was run, what begins and ends heat, what limits the slab.
func (r Result) words() []trace.Step {
	text := func(symbol, name, word string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Text: word, Source: sourceMethod}
	}
	list := []trace.Step{{Group: "season", Symbol: "strategy", Name: "strategy", Text: string(r.Strategy), Source: "kit and idling wish"},
		text("estimate", "made as", r.Estimate)}
	for i := range controls {
		if c := &controls[i]; c.strategy == r.Strategy {
			list = append(list, text("begins", "what begins heat", c.by.words(begins, ", or ")), text("ends", "what ends heat", c.by.words(ends, ", and ")),
				text("limits", "what limits the slab", c.limit()))
		}
	}
	return list
}

// controlSteps tells the set points and timers.
func (in Input) controlSteps() []trace.Step {
	list := []trace.Step{
		given("t_melt", "surface set point, melting", in.MeltC, units.Temperature),
		given("t_idle", "surface set point, idling", in.IdleC, units.Temperature),
		given("t_idle below", "idling below this outdoor temperature", in.IdleBelowC, units.Temperature),
		given("t_off", "warm-weather shut-off", in.ShutOffC, units.Temperature),
		given("h_aerial", "timer after the last snow seen", in.AerialHoldH, units.Hours),
		given("h_manual", "timer of the operator", in.ManualHoldH, units.Hours),
		given("h_dry", "off-delay after dry", in.DryHoldH, units.Hours)}
	if in.LowestMeltC.Known {
		list = append(list, given("t_lowest", "lowest melting temperature", in.LowestMeltC.Value, units.Temperature))
	}
	return list
}

// hoursByState tells the hours of each state and their sum.
func (r Result) hoursByState() []trace.Step {
	hours := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Hours, Equation: equation, Source: sourceMethod, From: from}
	}
	return []trace.Step{
		hours("n_idle", "hours idling", r.HoursIdling, ""),
		hours("n_melt", "hours melting", r.HoursMelting, ""),
		hours("n_dry", "hours drying", r.HoursDrying, ""),
		hours("n_off", "hours off", r.HoursOff, ""),
		hours("n_season", "hours of the season", r.SeasonHours, "n_season = n_off + n_idle + n_melt + n_dry", "n_off", "n_idle", "n_melt", "n_dry"),
	}
}

func (r Result) assumptions() []trace.Step {
	in := r.Input
	method := func(symbol, name string, v float64, q units.Quantity) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceMethod}
	}
	list := append(r.words(),
		given("f_wind", "wind factor", in.WindFactor, units.Factor),
		given("L_season", "length in the wind's direction", in.LengthM, units.Length),
		given("z_season", "elevation", in.ElevationM, units.Elevation),
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

// steps tells what lies under the surface.
func (c *Column) steps(coreResistance float64) []trace.Step {
	var list []trace.Step
	for i, symbols := range [...][2]string{{"d_1", "λ_1"}, {"d_2", "λ_2"}, {"d_3", "λ_3"}} {
		if l := c.Layers[i]; l.ThickM > 0 {
			list = append(list, given(symbols[0], [...]string{"surface course", "bedding", "slab"}[i]+", thickness", l.ThickM, units.Thickness),
				given(symbols[1], [...]string{"surface course", "bedding", "slab"}[i]+", conductivity", l.WMK, units.Conductivity))
		}
	}
	list = append(list,
		given("z_level", "pipe or cable, depth to its centre", c.DepthM, units.Thickness),
		given("ρc_w", "heat capacity of the layers", c.HeatJM3K, units.HeatCapacity),
		given("R_under", "insulation under the slab", c.InsulationM2KW, units.Insulance),
		trace.Step{Symbol: "below slab", Name: "below it", Text: supports[c.Support], Source: sourceInput})
	if c.Support == slab.OnGround {
		list = append(list, given("t_foot", "foot of the ground, 3 m below the slab", c.GroundC, units.Temperature))
	}
	list = append(list,
		trace.Step{Symbol: "R_sensor", Name: "resistance above the column's sensor", Value: coreResistance, Quantity: units.Insulance, Source: "slab"},
		trace.Step{Symbol: "R_source", Name: "mean fluid or element to the pipe level", Value: c.FluidResistance, Quantity: units.Insulance, Source: "slab"})
	if c.FluidLimitC.Known {
		list = append(list, given("t_fluid most", "greatest mean fluid temperature", c.FluidLimitC.Value, units.Temperature))
	}
	return list
}

func (r Result) hourSteps() []trace.Step {
	hours := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Hours, Equation: equation, Source: sourceMethod, From: from}
	}
	g := r.Ground
	list := append(r.hoursByState(),
		hours("n_snow", "hours with more than 0.1 mm of solid on the surface", r.SnowOnSurfaceH.Value, ""))
	if r.BareShare.Known {
		list = append(list, trace.Step{Symbol: "b_bare", Name: "snowfall hours bare", Value: r.BareShare.Value, Quantity: units.Share, Source: sourceMethod})
	}
	list = append(list,
		trace.Step{Symbol: "n_refreeze", Name: "refreezing after a stop, events a winter", Value: r.RefreezeEvents.Value, Quantity: units.Number, Source: sourceMethod},
		hours("n_locked", "snowfall hours below the lowest melting temperature", r.LockedOutHours, ""),
		hours("n_fluid", "hours with heat held back by the greatest fluid temperature", g.FluidLimitedH, ""),
		trace.Step{Symbol: "n_storms", Name: "storms a winter that dried with heat on", Value: g.Storms, Quantity: units.Number, Source: sourceMethod})
	if g.AfterSnowH.Known {
		list = append(list, hours("h_dries", "from the last snow to dry, 90th percentile of these storms", g.AfterSnowH.Value, ""))
	}
	if g.FilmDriesH.Known {
		list = append(list, hours("h_last", "a film of 0.3 mm dries in, 90th percentile", g.FilmDriesH.Value, ""))
	}
	if g.TimerH.Known {
		list = append(list, hours("h_timer", "recommended timer after the last snow seen", g.TimerH.Value, "h_dries of the strategy that heats from the first snow until dry"))
	}
	if g.OffDelayH.Known {
		list = append(list, hours("h_delay", "recommended off-delay after dry", g.OffDelayH.Value, "a quarter of h_last of the same strategy: the last place to dry"))
	}
	return list
}

func (r Result) energySteps() []trace.Step {
	g := r.Ground
	energy := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.EnergyPerArea, Equation: equation, Source: sourceMethod, From: from}
	}
	list := []trace.Step{
		energy("e_idle", "heat of the idling hours, in e", r.IdlingKWhM2, ""),
		energy("e_back", "back loss, in e: flow at the underside less the unheated slab's", r.BackKWhM2, "e_back = Σ (q_under − q_under,unheated) Δt", "R_under"),
		energy("e", "heat into the slab", r.EnergyKWhM2, "e = Σ q_in Δt,  q_in ≤ q_installed, t_fluid ≤ its greatest", "q_installed", "R_source", "R_sensor", "t_melt", "t_idle"),
		{Symbol: "q_peak", Name: "greatest mean of an hour", Value: r.PeakWM2(), Quantity: units.Flux, Equation: "q_peak = greatest of the months", Source: sourceMethod},
		{Symbol: "Σ(t_core − t_o)", Name: "core less outdoor temperature over the hours of heat and idling, K·h", Value: r.EdgeDegreeHours, Quantity: units.Number, Equation: "Σ months", Source: sourceMethod},
		{Symbol: "ε_energy", Name: "energy that the books lack, of what came in", Value: g.EnergyResidual, Quantity: units.Share, Source: sourceMethod},
		{Symbol: "ε_mass", Name: "water that the books lack, of what fell", Value: g.MassResidual, Quantity: units.Share, Source: sourceMethod},
	}
	if g.SkyApart.Known {
		list = append(list, trace.Step{Symbol: "Δ_sky", Name: "sky by cloud and humidity over the file's infrared, less 1", Value: g.SkyApart.Value, Quantity: units.Share, Source: sourceHours})
	}
	return list
}

// PeakWM2 returns the greatest of the months' peaks, in W/m² into the column.
func (r Result) PeakWM2() float64 {
	peak := 0.0
	for _, m := range r.Months {
		peak = max(peak, m.PeakWM2)
	}
	return peak
}
