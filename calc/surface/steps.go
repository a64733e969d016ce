package surface

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput    = "input"
	sourceWeather  = "weather of the station"
	sourceSnow     = "ASHRAE Handbook, HVAC Applications (2015) ch. 51"
	sourceAir      = "US Standard Atmosphere 1976"
	sourcePsychro  = "ASHRAE Handbook, Fundamentals (2017) ch. 1"
	sourceFraction = "percentiles by count of snowfall hours, linear between order statistics at p (n − 1)"
)

// Steps tells how the numbers of the load came about, in the order in which they follow from one another.
func (l Load) Steps() []trace.Step {
	steps := l.inputSteps()
	if l.Hour.Known {
		steps = append(steps, l.weatherSteps()...)
		steps = append(steps, l.termSteps()...)
	}
	steps = append(steps, l.frequencySteps()...)
	return append(steps, l.designSteps()...)
}

func input(symbol, name string, v float64, q units.Quantity) trace.Step {
	return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
}

func (l Load) inputSteps() []trace.Step {
	in := l.Input
	steps := []trace.Step{{Group: "load", Symbol: "method", Name: "how the load was found", Text: string(l.Method), Source: "chosen by what is known of the climate"}}
	if in.GivenWM2.Known {
		steps = append(steps, input("q_given", "design flux given by the owner", in.GivenWM2.Value, units.Flux))
	}
	if !l.Hour.Known {
		return steps
	}
	return append(steps,
		input("L", "length in the wind's direction", in.LengthM, units.Length),
		input("A_r", "snow-free area ratio", in.SnowFree, units.Factor),
		input("f_V", "wind factor", in.WindFactor, units.Factor),
		input("z", "elevation of the area", in.ElevationM, units.Elevation),
	)
}

// weatherSteps tells the hour whose terms follow.
func (l Load) weatherSteps() []trace.Step {
	t := l.Hour.Value
	source := sourceWeather
	var steps []trace.Step
	if t.Month > 0 {
		source += ", in the design hour: the snowfall hour with the least flux not below the percentile"
		steps = []trace.Step{
			{Symbol: "year", Name: "design hour, year", Text: t.Year, Source: source},
			{Symbol: "month", Name: "design hour, month", Value: float64(t.Month), Quantity: units.Count, Source: source},
			{Symbol: "day", Name: "design hour, day", Value: float64(t.Day), Quantity: units.Count, Source: source},
			{Symbol: "clock", Name: "design hour, the hour that begins at", Value: float64(t.Clock), Quantity: units.Count, Source: source},
		}
	} else {
		source += ", given as one design hour"
	}
	return append(steps,
		trace.Step{Symbol: "t_a", Name: "air temperature", Value: t.AirC, Quantity: units.Temperature, Source: source},
		trace.Step{Symbol: "t_d", Name: "dew point", Value: t.DewC, Quantity: units.Temperature, Source: source},
		trace.Step{Symbol: "V", Name: "wind at the surface", Value: t.WindMS, Quantity: units.Speed, Equation: "V = f_V V_10", Source: source, From: []string{"f_V"}},
		trace.Step{Symbol: "s", Name: "snowfall rate, water equivalent", Value: t.SnowMMH, Quantity: units.SnowRate, Source: source},
		trace.Step{Symbol: "p", Name: "air pressure at the area", Value: t.PressurePa, Quantity: units.Pressure,
			Equation: "p = p_station p_std(z) / p_std(z_station)", Source: sourceWeather + "; " + sourcePsychro + " eq. 3", From: []string{"z"}},
	)
}

func (l Load) termSteps() []trace.Step {
	t := l.Hour.Value
	film, filmSource := "h_c = 0.037 (k_air / L) Re^0.8 Pr^⅓", sourceSnow+" eq. 5"
	if t.NaturalConvection {
		film, filmSource = "h_c = 0.15 (k_air / ℓ) Ra^⅓ warm, 0.27 (k_air / ℓ) Ra^¼ cold, ℓ = L/4", "natural convection of a plate: the wind alone would give less"
	}
	evaporation := "q_e = ρ_a h_m (W_f − W_a) h_fg"
	if t.CondensationFloored {
		evaporation = "q_e = max(ρ_a h_m (W_f − W_a) h_fg, 0)"
	}
	return []trace.Step{
		{Symbol: "t_f", Name: "temperature of the liquid film", Value: Film(), Quantity: units.Temperature, Source: sourceSnow + ": 33 °F"},
		{Symbol: "Re", Name: "Reynolds number of the wind", Value: t.Reynolds, Quantity: units.Number, Equation: "Re = V L / ν", Source: sourceSnow + " eq. 6; " + sourceAir, From: []string{"V", "L", "t_a", "t_f", "p"}},
		{Symbol: "h_c", Name: "film coefficient", Value: t.FilmCoefficient, Quantity: units.Coefficient, Equation: film, Source: filmSource, From: []string{"Re", "L"}},
		{Symbol: "ρ_a", Name: "density of dry air", Value: t.AirDensity, Quantity: units.Density, Equation: "ρ_a = p / (R_a T)", Source: sourcePsychro + " eq. 1", From: []string{"p", "t_a", "t_f"}},
		{Symbol: "h_m", Name: "mass transfer coefficient", Value: t.MassTransferMS, Quantity: units.Speed, Equation: "h_m = (Pr/Sc)^⅔ h_c / (ρ_a c_p)", Source: sourceSnow + " eq. 11", From: []string{"h_c", "ρ_a"}},
		{Symbol: "W_f", Name: "humidity ratio at the film", Value: t.SurfaceHumidity, Quantity: units.HumidityRatio, Equation: "W_f = 0.621945 p_ws(t_f) / (p − p_ws(t_f))", Source: sourcePsychro + " eq. 6 and 20", From: []string{"t_f", "p"}},
		{Symbol: "W_a", Name: "humidity ratio of the air", Value: t.AirHumidity, Quantity: units.HumidityRatio, Equation: "W_a = 0.621945 p_ws(t_d) / (p − p_ws(t_d))", Source: sourcePsychro + " eq. 5, 6 and 20", From: []string{"t_d", "p"}},
		{Symbol: "q_s", Name: "sensible flux", Value: t.Sensible, Quantity: units.Flux, Equation: "q_s = ρ_w s [c_ice (t_m − min(t_a, t_m)) + c_w (t_f − t_m)]", Source: sourceSnow + " eq. 2", From: []string{"s", "t_a", "t_f"}},
		{Symbol: "q_m", Name: "melting flux", Value: t.Melt, Quantity: units.Flux, Equation: "q_m = ρ_w s h_if", Source: sourceSnow + " eq. 3", From: []string{"s"}},
		{Symbol: "q_c", Name: "convective flux", Value: t.Convection, Quantity: units.Flux, Equation: "q_c = h_c (t_f − t_a)", Source: sourceSnow + " eq. 4", From: []string{"h_c", "t_f", "t_a"}},
		{Symbol: "q_r", Name: "radiative flux", Value: t.Radiation, Quantity: units.Flux, Equation: "q_r = ε σ (T_f⁴ − T_a⁴)", Source: sourceSnow + " eq. 4; T_MR = T_a while it snows", From: []string{"t_f", "t_a"}},
		{Symbol: "q_h", Name: "convective and radiative flux", Value: t.ConvectionRadiation(), Quantity: units.Flux, Equation: "q_h = q_c + q_r", Source: sourceSnow + " eq. 4", From: []string{"q_c", "q_r"}},
		{Symbol: "q_e", Name: "evaporative flux", Value: t.Evaporation, Quantity: units.Flux, Equation: evaporation, Source: sourceSnow + " eq. 10", From: []string{"ρ_a", "h_m", "W_f", "W_a"}},
		{Symbol: "q_o", Name: "surface flux in the design hour", Value: t.Total, Quantity: units.Flux, Equation: "q_o = q_s + q_m + A_r (q_h + q_e)", Source: sourceSnow + " eq. 1", From: []string{"q_s", "q_m", "A_r", "q_h", "q_e"}},
	}
}

// tags name the printed ratios and percentiles inside symbols, in the order of Ratios and Percentiles.
var (
	ratioTags   = [len(Ratios)]string{"0", "0.5", "1"}
	percentTags = [len(Percentiles)]string{"75", "90", "95", "98", "99", "100"}
)

func (l Load) frequencySteps() []trace.Step {
	if !l.Frequency.Known {
		return nil
	}
	steps := []trace.Step{{Symbol: "n", Name: "snowfall hours a year of at least 0.1 mm (0.004 in) of water", Value: l.SnowHours, Quantity: units.Hours, Source: sourceWeather}}
	steps = append(steps, tableSteps("q", "flux", "n", l.Frequency.Value)...)
	steps = append(steps, trace.Step{Symbol: "n_¼", Name: "snowfall hours a year of at least 0.25 mm (0.01 in) of water", Value: l.QuarterHours, Quantity: units.Hours, Source: sourceWeather})
	if l.Quarter.Known {
		steps = append(steps, tableSteps("q_¼", "flux over the hours of at least 0.25 mm", "n_¼", l.Quarter.Value)...)
	}
	return steps
}

func tableSteps(symbol, name, count string, f Frequency) []trace.Step {
	steps := make([]trace.Step, 0, len(Ratios)*len(Percentiles))
	for r, ratio := range ratioTags {
		for p, percent := range percentTags {
			steps = append(steps, trace.Step{Symbol: symbol + "(" + ratio + "; " + percent + " %)", Name: name + " at ratio " + ratio + " not exceeded in " + percent + " % of the snowfall hours",
				Value: f[r][p], Quantity: units.Flux, Equation: "q_o of every snowfall hour, ranked", Source: sourceFraction, From: []string{count}})
		}
	}
	return steps
}

func (l Load) designSteps() []trace.Step {
	var steps []trace.Step
	if l.Frequency.Known {
		steps = append(steps,
			input("P", "percentile of the snowfall hours", l.Input.Percentile, units.Percent),
			trace.Step{Symbol: "Δq_P", Name: "to the percentile", Value: l.ToPercentileWM2, Quantity: units.Flux, Equation: "Δq_P = q_P − q_o", Source: "the percentile lies between two hours", From: []string{"q_o", "P"}},
			trace.Step{Symbol: "q_P", Name: "flux at the percentile", Value: l.PercentileWM2, Quantity: units.Flux, Equation: "q_P = q_o + Δq_P", Source: sourceFraction, From: []string{"q_o", "Δq_P", "P", "n"}},
		)
	}
	if l.InfraredWM2.Known {
		steps = append(steps, trace.Step{Symbol: "q_IR", Name: "flux at the percentile with the file's infrared from the sky", Value: l.InfraredWM2.Value, Quantity: units.Flux,
			Equation: "T_MR = (G_L / σ)^¼ in q_r of every snowfall hour", Source: sourceFraction, From: []string{"P", "n"}})
	}
	steps = append(steps, l.sizeSteps()...)
	if l.UnmetHours.Known {
		steps = append(steps, trace.Step{Symbol: "n_unmet", Name: "snowfall hours a year above the design flux", Value: l.UnmetHours.Value, Quantity: units.Hours,
			Equation: "count of hours with q_o > q_design", Source: sourceWeather, From: []string{"q_design"}})
	}
	return steps
}

// sizeSteps tells the design flux: the given one, or the percentile's (the design hour's) with margin and stairs.
func (l Load) sizeSteps() []trace.Step {
	design := trace.Step{Symbol: "q_design", Name: "design flux", Value: l.DesignWM2, Quantity: units.Flux}
	if l.Method == Given {
		design.Equation, design.Source, design.From = "q_design = q_given", "the owner's own; margin and stairs do not count", []string{"q_given"}
		return []trace.Step{design}
	}
	base := "q_P"
	if l.Method == DesignHour {
		base = "q_o"
	}
	design.Equation, design.Source, design.From = "q_design = "+base+" + q_margin + q_stairs", "upward, without back and edge loss", []string{base, "q_margin", "q_stairs"}
	stairs, factor := "no stairs: nothing is added", 1.0
	if l.Input.Stairs {
		stairs, factor = "trade guide, judgement: risers lose heat too", stairsFactor
	}
	return []trace.Step{
		input("f_m", "design margin", l.Input.Margin, units.Factor),
		{Symbol: "q_margin", Name: "added by the design margin", Value: l.MarginWM2, Quantity: units.Flux, Equation: "q_margin = " + base + " (f_m − 1)", Source: "design margin", From: []string{base, "f_m"}},
		{Symbol: "f_st", Name: "factor for stairs", Value: factor, Quantity: units.Factor, Source: stairs},
		{Symbol: "q_stairs", Name: "added for stairs", Value: l.StairsWM2, Quantity: units.Flux, Equation: "q_stairs = (" + base + " + q_margin) (f_st − 1)", Source: stairs, From: []string{base, "q_margin", "f_st"}},
		design,
	}
}
