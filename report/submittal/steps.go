package submittal

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/plant"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// zoneSteps are the steps of a zone as its chapters work them out, found in one go: asked for chapter by chapter they were a third of a document's time.
type zoneSteps struct {
	load   []trace.Step // of load and sizing
	heat   []trace.Step // of slab, piping and cable
	reset  []trace.Step // of the curve at −30 °C, the ratios and the limits
	season []trace.Step // of the chosen way of control, of its bill and of what was metered
}

// chapterOfGroup is the chapter to which a group of steps belongs.
var chapterOfGroup = map[string]func(*zoneSteps) *[]trace.Step{
	"load": loadChapter, "design": loadChapter, "slab": heatChapter, "piping": heatChapter, "electric": heatChapter, "reset": resetChapter, "limits": resetChapter,
	"season": seasonChapter, "cost": seasonChapter, "metered": seasonChapter,
}

func loadChapter(z *zoneSteps) *[]trace.Step   { return &z.load }
func heatChapter(z *zoneSteps) *[]trace.Step   { return &z.heat }
func resetChapter(z *zoneSteps) *[]trace.Step  { return &z.reset }
func seasonChapter(z *zoneSteps) *[]trace.Step { return &z.season }

// stepsOf returns the steps of a zone by chapters, without what stands in a table or a sentence of theirs, and without given values that an earlier chapter shows.
func stepsOf(o calc.Outcome) zoneSteps {
	var z zoneSteps
	var at func(*zoneSteps) *[]trace.Step
	for _, step := range o.Steps() {
		if step.Group != "" { // a step without a group continues the one before
			at = chapterOfGroup[step.Group]
		}
		if at != nil {
			list := at(&z)
			*list = append(*list, step)
		}
	}
	z.load = slices.DeleteFunc(z.load, func(step trace.Step) bool {
		return strings.HasPrefix(step.Symbol, "q(") || strings.HasPrefix(step.Symbol, "q_¼(") || slices.Contains(hourSymbols, step.Symbol)
	})
	z.heat = anew(z.heat, z.load)
	z.reset = anew(coldest(z.reset), z.load, z.heat)
	z.season = anew(slices.DeleteFunc(z.season, func(step trace.Step) bool { return step.Text != "" }), z.load, z.heat)
	return z
}

// hourSymbols say when the design hour was.
var hourSymbols = []string{"year", "month", "day", "clock"}

// anew leaves out what a calculation was given where a calculation before it shows the same value under the same symbol.
func anew(steps []trace.Step, before ...[]trace.Step) []trace.Step {
	return slices.DeleteFunc(steps, func(step trace.Step) bool {
		return step.Equation == "" && step.Quantity != units.Text && slices.ContainsFunc(before, func(shown []trace.Step) bool {
			return slices.ContainsFunc(shown, func(b trace.Step) bool {
				return b.Symbol == step.Symbol && b.Value == step.Value && b.Quantity == step.Quantity
			})
		})
	})
}

// coldEnd ends the symbols of the curve's coldest point, which is the one that is worked out.
const coldEnd = "(−30 °C)"

// coldest keeps the curve's coldest point; the other points stand in the table.
func coldest(steps []trace.Step) []trace.Step {
	out := slices.DeleteFunc(steps, func(step trace.Step) bool {
		return strings.HasSuffix(step.Symbol, "(0 °C)") || strings.HasSuffix(step.Symbol, "(+5 °C)")
	})
	for i := range out {
		out[i].Symbol = strings.TrimSuffix(out[i].Symbol, coldEnd)
	}
	return out
}

// plantSteps are the steps of a site's plant that are of no zone alone; those of zones stand in the table above them. What height takes from a burner is left out
// where nothing burns.
func plantSteps(p calc.Plant) []trace.Step {
	return slices.DeleteFunc(p.Steps(), func(step trace.Step) bool {
		return !p.RatedW.Known && strings.HasPrefix(step.Symbol, "f_z") || slices.ContainsFunc(p.Needs, func(n plant.Need) bool { return strings.HasSuffix(step.Symbol, ", "+n.ID) })
	})
}
