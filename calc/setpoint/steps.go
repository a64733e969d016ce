package setpoint

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceInput = "input"
	sourceReset = "heat balance of the slab above the sensor"
	sourceLoss  = "ASHRAE Handbook, HVAC Applications (2015) ch. 51 eq. 4: dry, snow-free surface, T_MR = t_o"
)

// Steps tells how the curve came about: its inputs, the points at −30, 0 and +5 °C, and the ratio that follows.
func (c Curve) Steps() []trace.Step {
	in := c.Input
	steps := []trace.Step{
		{Group: "reset", Symbol: "t_melt", Name: "surface set point melting", Value: in.MeltC, Quantity: units.Temperature, Source: sourceInput},
		input("t_idle", "surface set point idling", in.IdleC, units.Temperature),
		input("L_reset", "length in the wind's direction", in.LengthM, units.Length),
		{Symbol: "V_reset", Name: "wind of the reset curve", Value: in.WindMS, Quantity: units.Speed, Source: "the greater of the station's mean wind of December to February and 4.0 m/s"},
		input("z_reset", "elevation of the area", in.ElevationM, units.Elevation),
		{Symbol: "R_core", Name: "sensor to surface", Value: in.CoreResistance, Quantity: units.Insulance, Source: "slab"},
		{Symbol: "R_level", Name: "surface midway to the level of the back loss", Value: in.LevelResistance, Quantity: units.Insulance, Source: "slab"},
		{Symbol: "R_below", Name: "that level to what lies below", Value: in.BelowResistance, Quantity: units.Insulance, Source: "slab"},
		{Symbol: "t_below", Name: "what lies below the slab", Value: in.BelowC, Quantity: units.Temperature, Source: "slab"},
	}
	if c.Points[0].SupplyMeltC.Known {
		steps = append(steps,
			trace.Step{Symbol: "R_cover", Name: "pipe level to surface", Value: in.CoverResistance, Quantity: units.Insulance, Source: "slab"},
			trace.Step{Symbol: "R_pipe", Name: "mean fluid to surface", Value: in.PipeResistance, Quantity: units.Insulance, Source: "slab"},
			input("Δt", "temperature drop, supply to return", in.DropK, units.TemperatureDiff),
		)
	}
	for _, at := range [...]struct {
		index int
		tag   string
	}{{0, "(−30 °C)"}, {indexAt(mildC), "(0 °C)"}, {Points - 1, "(+5 °C)"}} {
		steps = append(steps, c.Points[at.index].steps(at.tag)...)
	}
	return append(steps,
		ratioStep("r", "reset ratio, melting", c.Ratio, "t_core,melt"),
		ratioStep("r_idle", "reset ratio, idling", c.IdleRatio, "t_core,idle"))
}

func input(symbol, name string, v float64, q units.Quantity) trace.Step {
	return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: q, Source: sourceInput}
}

// indexAt returns the index of the point at an outdoor temperature.
func indexAt(outdoorC float64) int { return int((outdoorC - firstC) / stepK) }

func ratioStep(symbol, name string, v float64, core string) trace.Step {
	return trace.Step{Symbol: symbol, Name: name, Value: v, Quantity: units.Number, Equation: symbol + " = [" + core + "(−30 °C) − " + core + "(0 °C)] / 30 K",
		Source: sourceReset, From: []string{core + "(−30 °C)", core + "(0 °C)"}}
}

// steps tells one point, for melting and for idling.
func (p Point) steps(tag string) []trace.Step {
	steps := []trace.Step{{Symbol: "t_o" + tag, Name: "outdoor temperature", Value: p.OutdoorC, Quantity: units.Temperature, Source: "point of the curve"}}
	steps = append(steps, branch(tag, "melt", "melting", p.LossMeltWM2, p.BackMeltWM2, p.CoreMeltC, p.SupplyMeltC)...)
	return append(steps, branch(tag, "idle", "idling", p.LossIdleWM2, p.BackIdleWM2, p.CoreIdleC, p.SupplyIdleC)...)
}

func branch(tag, short, name string, loss, back, core float64, supply units.Maybe[float64]) []trace.Step {
	surface, q, t := "t_"+short, "q_"+short+tag, "t_core,"+short+tag
	steps := []trace.Step{
		{Symbol: q, Name: "loss of the dry surface, " + name, Value: loss, Quantity: units.Flux, Equation: "q = h_c (t_surf − t_o) + ε σ (T_surf⁴ − T_o⁴)", Source: sourceLoss, From: []string{surface, "t_o" + tag, "V_reset", "L_reset", "z_reset"}},
		{Symbol: t, Name: "core set point, " + name, Value: core, Quantity: units.Temperature, Equation: "t_core = t_surf + q R_core", Source: sourceReset, From: []string{surface, q, "R_core"}},
		{Symbol: "q_back," + short + tag, Name: "back loss, " + name, Value: back, Quantity: units.Flux,
			Equation: "q_back = (t_surf + q R_level − t_below) / R_below", Source: "slab", From: []string{surface, q, "R_level", "t_below", "R_below"}},
	}
	if supply.Known {
		steps = append(steps,
			trace.Step{Symbol: "t_supply," + short + tag, Name: "supply temperature, " + name, Value: supply.Value, Quantity: units.Temperature,
				Equation: "t_supply = t_surf + q R_cover + (q + q_back) (R_pipe − R_cover) + Δt / 2", Source: "mean fluid for loss and back loss, and half the drop", From: []string{surface, q, "q_back," + short + tag, "R_cover", "R_pipe", "Δt"}})
	}
	return steps
}
