package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"
	"gonum.org/v1/plot/vg"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/chart"
	"thawbook/report/words"
)

// placing tells how many devices a zone needs and where each goes, on a sketch to scale and in a cut through the housing.
func (s sheet) placing(o calc.Outcome) []core.Row {
	c := o.Sensing
	if len(c.Numbers) == 0 {
		return nil
	}
	rows := s.part(s.say("numbers"))
	for _, n := range c.Numbers {
		text := report.Pieces(s.Words, n)
		if why := s.reasons(n.Reasons); why != "" {
			text = s.say("number-why", finding.Words("pieces", text), finding.Words("why", why))
		}
		rows = append(rows, s.bullet(text)...)
	}
	if c.Plan != nil && len(c.Plan.Marks) > 0 {
		rows = append(rows, s.plan(*c.Plan)...)
	}
	if c.Section != nil {
		rows = append(rows, s.housing(o)...)
	}
	return rows
}

// reasons returns the sentences of reasons in one text.
func (s sheet) reasons(list []sensing.Reason) string {
	return report.Said(s.Words, words.Reasons, list...)
}

// symbols are how devices are drawn on a plan.
var symbols = map[sensing.Device]chart.Symbol{sensing.PavementDetector: chart.Disc, sensing.SlabSensor: chart.Box, sensing.AerialDetector: chart.Triangle}

// plan is the sketch of a zone with its legend, and a table of its devices.
func (s sheet) plan(p sensing.Plan) []core.Row {
	width := vg.Length((s.paper.text() - chartGap) / mmPerPoint)
	sketch := s.look().Plan(s.sketch(p), width)
	rows := s.part(s.say("places"))
	drawing := s.drawing(sketch, float64(sketch.Height)*mmPerPoint)
	drawing[0].(*block).keep = true // with its caption
	code := "plan-caption"
	if p.ShapeAssumed {
		code = "plan-caption-square"
	}
	rows = append(rows, drawing[:1]...)
	caption := s.say(code, finding.Words("scale", s.short(sketch.Scale)))
	if p.Stair {
		caption += " " + s.say("plan-stair")
	}
	rows = append(rows, s.paragraph(caption, noteStyle)...)
	return append(rows, s.places(p)...)
}

// sketch is what is drawn of a plan.
func (s sheet) sketch(p sensing.Plan) chart.Plan {
	out := chart.Plan{Length: p.LengthM, Width: p.WidthM, Level: p.Level, Lanes: p.Lanes}
	w := &out.Words
	w.Length, w.Width = s.with(p.LengthM, units.Length), s.with(p.WidthM, units.Length)
	for _, m := range p.Marks {
		out.Devices = append(out.Devices, chart.Device{Kind: symbols[m.Device], Along: m.Along, Across: m.Across, Number: s.number(float64(m.Number), units.Count), There: m.There})
		switch m.Device {
		case sensing.PavementDetector:
			w.Discs = s.say("plan-discs")
		case sensing.SlabSensor:
			w.Boxes = s.say("plan-boxes")
		case sensing.AerialDetector:
			w.Tops = s.say("plan-tops")
		}
	}
	if first := p.Marks[0]; !first.There && first.EdgeM > 0 {
		w.FromLow, w.FromSide = s.with(first.FromLowM, units.Length), s.with(first.FromSideM, units.Length)
	}
	run := finding.Value("run", p.PanelM, units.Length)
	w.Panel, w.Run = s.say("plan-panel", run), s.say("plan-run")
	if p.PanelAssumed {
		w.Run = s.say("plan-run-assumed")
	}
	w.Slope = s.say("plan-slope", finding.Value("slope", p.Slope, units.Share))
	switch {
	case p.Stair && !p.Level:
		w.Slope = s.say("plan-slope-stair")
	case p.Level:
		w.Slope = ""
	}
	switch p.Drain {
	case "yes":
		w.Drain = s.say("plan-drain")
	case "unknown":
		w.Drain = s.say("plan-drain-unknown")
	}
	w.Sun = s.say("plan-sun")
	if p.ShadedShare.Known && p.ShadedShare.Value > 0 {
		out.Shade, w.Shade = min(p.ShadedShare.Value, 1), s.say("plan-shade")
	}
	if p.Lanes > 0 {
		w.Lanes = s.say("plan-lanes")
	}
	return out
}

// places tells each device's distances, run and reasons.
func (s sheet) places(p sensing.Plan) []core.Row {
	end := s.unit("from-low-end", units.Length)
	if p.Level {
		end = s.unit("from-end", units.Length)
	}
	cols := []column{{title: s.say("device"), width: 21}, {title: end, width: 10, right: true}, {title: s.unit("from-sun-side", units.Length), width: 10, right: true},
		{title: s.unit("run", units.Length), width: 8, right: true}, {title: s.say("where-why"), width: 51}}
	var list []cells
	for _, m := range p.Marks {
		low, side := s.number(m.FromLowM, units.Length), s.number(m.FromSideM, units.Length)
		switch {
		case m.EdgeM < 0:
			side = s.say("beside", finding.Words("distance", s.number(-m.EdgeM, units.Length)))
		case m.There:
			low, side = s.say("on-site"), s.say("on-site")
		}
		list = append(list, cells{texts: []string{report.MarkName(s.Words, m), low, side, s.number(m.RunM, units.Length), s.reasons(m.Reasons)}})
	}
	return s.dense(cols, list)
}

// bases are how the ground below a housing is drawn.
var bases = map[string]chart.Base{sensing.OnGravel: chart.Gravel, sensing.Through: chart.Hole, sensing.AboveMembrane: chart.Membrane, sensing.AsFound: chart.Found}

// housing tells how the devices lie in the pavement; with a drawing where a detector lies in it.
func (s sheet) housing(o calc.Outcome) []core.Row {
	x := o.Sensing.Section
	rows := s.part(s.say("lying"))
	if x.Detector {
		drawing := s.look().Housing(s.detail(o), vg.Length((s.paper.text()-chartGap)/mmPerPoint))
		drawn := s.drawing(drawing, float64(drawing.Height)*mmPerPoint)
		drawn[0].(*block).keep = true // with its caption
		rows = append(rows, drawn[0])
		rows = append(rows, s.paragraph(s.say("housing-caption"), noteStyle)...)
		if x.Mount == "" {
			return rows
		}
	}
	for _, r := range x.Reasons {
		if !x.Detector || r.Code == sectionMount {
			rows = append(rows, s.bullet(s.reasons([]sensing.Reason{r}))...)
		}
	}
	return rows
}

// sectionMount is the reason that no drawing of a housing shows.
const sectionMount = "section-mount"

// detail is what is drawn of a housing: the notes are the section's own reasons.
func (s sheet) detail(o calc.Outcome) chart.Housing {
	x := o.Sensing.Section
	out := chart.Housing{Base: bases[x.Base]}
	if x.Attitude == sensing.OnSlope {
		out.Slope = x.Slope
	}
	for _, r := range x.Reasons {
		text := s.reasons([]sensing.Reason{r})
		switch {
		case strings.HasPrefix(r.Code, "section-flush"):
			out.Words.Detector = text
		case strings.HasPrefix(r.Code, "section-sensor"):
			out.Words.Sensor = text
		case r.Code != sectionMount:
			out.Words.Base = text
		}
	}
	if x.SensorLies == sensing.UnderCourse || x.SensorLies == sensing.UnderAsphalt {
		out.Course = fills[o.Zone.Slab.Surface]
	}
	out.Words.Conduit = s.say("housing-conduit")
	if x.Sensor {
		out.Words.Pipe = s.say("housing-pipes")
		if o.Zone.Heat.Kind == calc.Electric {
			out.Words.Pipe = s.say("housing-cables")
		}
	}
	return out
}
