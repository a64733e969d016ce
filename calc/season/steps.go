package season

import (
	"strings"

	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput  = "input"
	sourceHours  = "hours of the station"
	sourceMethod = "steady balance of each hour of the season"
)

// begins and ends are what a sense begins and ends heat with, in words.
var begins, ends = map[sense]string{byDate: "date", byOperator: "operator, 3 h late", byFallingSnow: "falling snow seen", byMoisture: "moisture on a cold pavement"},
	map[sense]string{byDate: "date", byOperator: "timer, renewed while snow falls", byFallingSnow: "timer after the last snow seen", byMoisture: "dry, then the off-delay"}

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

// Steps tells the assumptions in force and the totals they led to, each with the months it is the sum of.
func (r Result) Steps() []trace.Step {
	if r.Transient.Known {
		return r.transientSteps()
	}
	return append(append(r.assumptions(), r.hourSteps()...), r.energySteps()...)
}

// given is an input as a step.
func given(symbol, name string, v float64, q units.Quantity) trace.Step {
	return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
}

// words tells the strategy: how it was run, what begins and ends heat, what limits the slab.
func (r Result) words(source string) []trace.Step {
	text := func(symbol, name, word string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Text: word, Source: source}
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

func (r Result) assumptions() []trace.Step {
	in := r.Input
	list := append(r.words(sourceMethod),
		given("f_snow", "factor on every hour's snow", in.SnowFactor, units.Factor),
		given("q_installed", "installed output", in.InstalledWM2, units.Flux),
		given("b_season", "back loss per upward flux", in.BackShare, units.Share),
		given("A_r season", "snow-free area ratio", in.SnowFree, units.Factor))
	return append(list, in.controlSteps()...)
}

// hoursByState tells the hours of each state and their sum.
func (r Result) hoursByState(source string) []trace.Step {
	hours := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Hours, Equation: equation, Source: source, From: from}
	}
	return []trace.Step{
		hours("n_idle", "hours idling", r.HoursIdling, ""),
		hours("n_melt", "hours melting", r.HoursMelting, ""),
		hours("n_dry", "hours drying", r.HoursDrying, ""),
		hours("n_off", "hours off", r.HoursOff, ""),
		hours("n_season", "hours of the season", r.SeasonHours, "n_season = n_off + n_idle + n_melt + n_dry", "n_off", "n_idle", "n_melt", "n_dry"),
	}
}

func (r Result) hourSteps() []trace.Step {
	hours := func(symbol, name string, v float64, equation string, from ...string) trace.Step {
		return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Hours, Equation: equation, Source: sourceHours, From: from}
	}
	return append(r.hoursByState(sourceHours),
		hours("n_beyond", "snowfall hours whose load is above the installed output", r.UnmetHours, "hours with q_o > q_installed/(1 + b)", "q_installed", "b_season"),
		hours("n_locked", "snowfall hours below the lowest melting temperature", r.LockedOutHours, ""))
}

func (r Result) energySteps() []trace.Step {
	return []trace.Step{
		{Symbol: "e_idle", Name: "heat of the idling hours, in e", Value: r.IdlingKWhM2, Quantity: units.EnergyPerArea, Source: sourceMethod},
		{Symbol: "e_back", Name: "back loss, in e", Value: r.BackKWhM2, Quantity: units.EnergyPerArea, Equation: "e_back = Σ months of b q_up", Source: sourceMethod, From: []string{"b_season"}},
		{Symbol: "e", Name: "heat into the slab", Value: r.EnergyKWhM2, Quantity: units.EnergyPerArea, Equation: "e = Σ months of (1 + b) q_up", Source: sourceMethod,
			From: []string{"b_season", "q_installed", "A_r season", "t_melt", "t_idle"}},
		{Symbol: "q_peak", Name: "greatest monthly peak", Value: r.PeakWM2(), Quantity: units.Flux, Equation: "q_peak = greatest of the months", Source: sourceMethod},
		{Symbol: "Σ(t_core − t_o)", Name: "core less outdoor temperature over the hours with heat, K·h", Value: r.EdgeDegreeHours, Quantity: units.Number, Equation: "Σ months", Source: sourceMethod},
	}
}

// PeakWM2 returns the greatest of the months' peaks, in W/m² into the column.
func (r Result) PeakWM2() float64 {
	peak := 0.0
	for _, m := range r.Months {
		peak = max(peak, m.PeakWM2)
	}
	return peak
}
