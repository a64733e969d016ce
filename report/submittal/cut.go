package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"
	"gonum.org/v1/plot/vg"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/slab"
	"thawbook/calc/units"
	"thawbook/report/chart"
)

// cut is the drawing of a zone's section, to scale, with its temperatures at the design flux.
func (s sheet) cut(o calc.Outcome) []core.Row {
	width := vg.Length((s.paper.text() - chartGap) / mmPerPoint)
	drawing := s.look().Cross(s.cross(o), width)
	rows := s.drawing(drawing, float64(drawing.Height)*mmPerPoint)
	rows[0].(*block).keep = true // with its caption
	caption := s.say("cut-caption", finding.Words("scale", s.short(drawing.Scale)), finding.Value("flux", o.Slab.UpWM2, units.Flux))
	if o.Zone.Extent.Use == calc.Stair {
		caption += " " + s.say("cut-stair")
	}
	return append(rows[:1], s.paragraph(caption, noteStyle)...)
}

// fills are how the layers of a surface are drawn.
var fills = map[string]chart.Fill{calc.Concrete: chart.Concrete, calc.Asphalt: chart.Asphalt, calc.Pavers: chart.Pavers, calc.Stone: chart.Stone}

// cross is what is drawn of a section.
func (s sheet) cross(o calc.Outcome) chart.Cross {
	x, in := o.Slab, o.Slab.Section
	mm := func(m float64) float64 { return units.Thickness.In(units.SI).FromBase(m) }
	c := chart.Cross{Depth: mm(in.DepthM), Spacing: mm(in.SpacingM), Outer: mm(in.OuterM), Sensor: mm(in.SensorDepthM), Insulated: in.InsulationM2KW > 0}
	if in.WallM > 0 {
		c.Bore = mm(in.OuterM - 2*in.WallM)
	}
	base := o.Zone.Slab.Surface
	if in.SurfaceM > 0 || fills[base] == chart.Empty {
		base = calc.Concrete
	}
	total := 0.0
	layer := func(code, what string, thickM, wmk float64, fill chart.Fill) {
		if thickM > 0 {
			c.Layers = append(c.Layers, chart.Layer{Thick: mm(thickM), Fill: fill, Note: s.say(code, finding.Words("what", what), finding.Value("thickness", thickM, units.Thickness),
				finding.Value("conductivity", wmk, units.Conductivity))})
			total += thickM
		}
	}
	layer("cut-layer", s.say("layer-"+or(o.Zone.Slab.Surface)), in.SurfaceM, in.SurfaceWMK, fills[o.Zone.Slab.Surface])
	layer("cut-layer", s.say("layer-bedding"), in.BeddingM, in.BeddingWMK, chart.Sand)
	layer("cut-layer", s.say("layer-slab", finding.Words("of", base)), in.SlabM, in.SlabWMK, fills[base])
	over := "cut-over"
	if in.WallM == 0 {
		over = "cut-over-cable"
	}
	c.Notes = chart.Notes{Depth: s.with(in.DepthM, units.Thickness), Thick: s.with(total, units.Thickness), Spacing: s.with(in.SpacingM, units.Thickness),
		Over: s.note(over, x.SurfaceMaxC), Midway: s.note("cut-midway", x.SurfaceMinC), Pipe: s.pipeNote(o)}
	if x.SensorC.Known {
		c.Notes.Sensor = s.say("cut-sensor", finding.Value("depth", in.SensorDepthM, units.Thickness), finding.Value("temperature", x.SensorC.Value, units.Temperature))
	}
	if c.Insulated {
		c.Notes.Insulation = s.say("cut-insulation", finding.Value("resistance", in.InsulationM2KW, units.Insulance))
	}
	code := "cut-ground"
	switch in.Support {
	case slab.OpenAir:
		code = "cut-open-air"
	case slab.HeatedSpace:
		code = "cut-heated-space"
	default:
		c.Below = chart.Earth
	}
	c.Notes.Below = s.say(code, finding.Value("temperature", x.BelowC, units.Temperature))
	return c
}

// note tells a temperature of the surface.
func (s sheet) note(code string, c units.Maybe[float64]) string {
	if !c.Known {
		return ""
	}
	return s.say(code, finding.Value("temperature", c.Value, units.Temperature))
}

// pipeNote names pipe or cable with its temperatures.
func (s sheet) pipeNote(o calc.Outcome) string {
	x := o.Slab
	if !x.PipeSurfaceC.Known {
		return ""
	}
	surface := finding.Value("surface", x.PipeSurfaceC.Value, units.Temperature)
	if o.Zone.Heat.Kind == calc.Electric || !x.MeanFluidC.Known {
		return s.say("cut-cable", surface)
	}
	name := clean(strings.TrimSpace(o.Zone.Heat.Pipe.Typed))
	return s.say("cut-pipe", finding.Words("pipe", name), surface, finding.Value("fluid", x.MeanFluidC.Value, units.Temperature))
}
