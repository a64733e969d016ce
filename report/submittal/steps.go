package submittal

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/plant"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// stepsOf returns the steps of some groups of an outcome, in order. A step without a group continues the one before.
func stepsOf(o calc.Outcome, groups ...string) []trace.Step {
	var out []trace.Step
	in := false
	for _, step := range o.Steps() {
		if step.Group != "" {
			in = slices.Contains(groups, step.Group)
		}
		if in {
			out = append(out, step)
		}
	}
	return out
}

// hourSymbols say when the design hour was.
var hourSymbols = []string{"year", "month", "day", "clock"}

// loadSteps are the steps of load and sizing, without those that stand in the table of frequencies and in the sentence on the design hour.
func loadSteps(o calc.Outcome) []trace.Step {
	return slices.DeleteFunc(stepsOf(o, "load", "design"), func(step trace.Step) bool {
		return strings.HasPrefix(step.Symbol, "q(") || strings.HasPrefix(step.Symbol, "q_¼(") || slices.Contains(hourSymbols, step.Symbol)
	})
}

// heatSteps are the steps of slab, piping and cable.
func heatSteps(o calc.Outcome) []trace.Step {
	return anew(stepsOf(o, "slab", "piping", "electric"), loadSteps(o))
}

// anew leaves out what a calculation was given where a calculation of the same zone before it shows the same value under the same symbol.
func anew(steps []trace.Step, before ...[]trace.Step) []trace.Step {
	shown := slices.Concat(before...)
	return slices.DeleteFunc(steps, func(step trace.Step) bool {
		return step.Equation == "" && step.Quantity != units.Text && slices.ContainsFunc(shown, func(b trace.Step) bool {
			return b.Symbol == step.Symbol && b.Value == step.Value && b.Quantity == step.Quantity
		})
	})
}

// plantSteps are the steps of a site's plant that are of no zone alone; those of zones stand in the table above them.
func plantSteps(p calc.Plant) []trace.Step {
	return slices.DeleteFunc(p.Steps(), func(step trace.Step) bool {
		return slices.ContainsFunc(p.Needs, func(n plant.Need) bool { return strings.HasSuffix(step.Symbol, ", "+n.ID) })
	})
}

// coldEnd ends the symbols of the curve's coldest point, which is the one that is worked out.
const coldEnd = "(−30 °C)"

// resetSteps are the steps of the curve at −30 °C, the ratios and the limits; the other points stand in the table.
func resetSteps(o calc.Outcome) []trace.Step {
	out := slices.DeleteFunc(stepsOf(o, "reset", "reset limits"), func(step trace.Step) bool {
		return strings.HasSuffix(step.Symbol, "(0 °C)") || strings.HasSuffix(step.Symbol, "(+5 °C)")
	})
	for i := range out {
		out[i].Symbol = strings.TrimSuffix(out[i].Symbol, coldEnd)
	}
	return anew(out, loadSteps(o), heatSteps(o))
}

// seasonSteps are the steps of the chosen way of control, of its bill and of what was metered, without the words that stand in other tables.
func seasonSteps(o calc.Outcome) []trace.Step {
	return anew(slices.DeleteFunc(stepsOf(o, "season", "cost", "metered"), func(step trace.Step) bool { return step.Text != "" }), loadSteps(o), heatSteps(o))
}
