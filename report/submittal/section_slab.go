package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/slab"
	"thawbook/calc/units"
	"thawbook/report"
)

func hasSlab(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Slab != nil })
}

// slabRows are for each zone a cut through its pavement, how even and how soon it is warm, and the loops or circuits that feed it; then the site's plant.
func slabRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("slab-intro"), bodyStyle)
	from := s.references()
	list := map[string][]calculation{}
	for _, o := range v.Site.Outcomes {
		if o.Slab == nil {
			continue
		}
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		rows = append(rows, s.cut(o)...)
		rows = append(rows, s.slab(o)...)
		switch {
		case o.Piping != nil:
			rows = append(rows, s.piping(*o.Piping, o.Zone.Heat.Pipe.Typed)...)
		case o.Electric != nil:
			rows = append(rows, s.electric(*o.Electric, report.SpacingSetBy(o))...)
		default:
			rows = append(rows, s.paragraph(s.say("no-layout"), bodyStyle)...)
		}
		kind := o.Zone.Heat.Kind
		list[kind] = append(list[kind], calculation{[]calc.Outcome{o}, stepsOf(o).heat})
	}
	for _, kind := range []string{calc.Hydronic, calc.Electric} { // their equations differ
		rows = append(rows, s.workedTogether(s.say("worked-slab"), list[kind], from)...)
	}
	return append(rows, s.plants(from)...)
}

// slab tells what the section comes to, but for the temperatures, which stand in the drawing.
func (s sheet) slab(o calc.Outcome) []core.Row {
	x := o.Slab
	return s.pairs([][2]string{
		{s.say("slab-spacing"), s.setBy(report.SpacingSetBy(o), s.with(x.Section.SpacingM, units.Thickness))},
		{s.say("slab-stripes"), s.evenness(*x)},
		{s.say("slab-back"), s.say("slab-back-of", finding.Words("flux", s.exact(x.BackWM2, units.Flux)), finding.Value("share", x.BackShare, units.Share))},
		{s.say("line-edge"), s.known(x.EdgeW, units.Power)},
		{s.say("slab-mean"), s.known(x.SurfaceMeanC, units.Temperature)},
		{s.say("slab-warm-up"), s.warmUp(o)},
	})
}

// evenness judges the strip midway between the pipes.
func (s sheet) evenness(x slab.Solution) string {
	switch {
	case !x.SurfaceMinC.Known:
		return ""
	case !x.Striped:
		return s.say("slab-no-stripes")
	case !x.EvenWM2.Known:
		return s.say("slab-striped")
	}
	return s.say("slab-even", finding.Value("flux", x.EvenWM2.Value, units.Flux))
}

// warmUp tells how long a cold start takes, or that it does not get there.
func (s sheet) warmUp(o calc.Outcome) string {
	if !o.Load.Hour.Known {
		return ""
	}
	air, target := finding.Value("air", o.Load.Hour.Value.AirC, units.Temperature), finding.Value("target", o.Zone.Sensing.SurfaceMeltC, units.Temperature)
	if !o.Slab.WarmUpHours.Known {
		return s.say("slab-warm-up-never", air, target)
	}
	return s.say("slab-warm-up-from", finding.Value("hours", o.Slab.WarmUpHours.Value, units.Hours), air, target)
}

// known writes a value with its unit, or nothing where it is blank, so that its pair is left out.
func (s sheet) known(m units.Maybe[float64], q units.Quantity) string {
	if !m.Known {
		return ""
	}
	return s.with(m.Value, q)
}

// setBy says of a value who set it.
func (s sheet) setBy(who, value string) string {
	return s.say(who+"-value", finding.Words("value", value))
}
