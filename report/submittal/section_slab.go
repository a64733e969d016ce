package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
)

func hasSlab(v report.View) bool {
	return slices.ContainsFunc(v.Site.Outcomes, func(o calc.Outcome) bool { return o.Slab != nil })
}

// slabRows are the temperatures in the section of each zone at the design flux, how even its surface is, and how long it takes to warm up.
func slabRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("slab-intro"), bodyStyle)
	from := s.references()
	for _, o := range v.Site.Outcomes {
		if o.Slab == nil {
			continue
		}
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		rows = append(rows, s.slab(o)...)
		rows = append(rows, s.worked(s.say("worked-slab"), slabSteps(o), from)...)
	}
	return rows
}

func (s sheet) slab(o calc.Outcome) []core.Row {
	x, in := o.Slab, o.Slab.Section
	known := func(m units.Maybe[float64], q units.Quantity) string {
		if !m.Known {
			return ""
		}
		return s.with(m.Value, q)
	}
	even := ""
	if x.Striped && x.EvenWM2.Known {
		even = s.say("slab-even", finding.Value("flux", x.EvenWM2.Value, units.Flux))
	}
	return s.measures([][2]string{
		{s.say("slab-depth"), s.with(in.DepthM, units.Thickness)}, {s.say("slab-spacing"), s.with(in.SpacingM, units.Thickness)},
		{s.say("slab-over"), known(x.SurfaceMaxC, units.Temperature)}, {s.say("slab-midway"), known(x.SurfaceMinC, units.Temperature)},
		{s.say("slab-sensor"), known(x.SensorC, units.Temperature)}, {s.say("slab-pipe"), known(x.PipeSurfaceC, units.Temperature)},
		{s.say("slab-fluid"), known(x.MeanFluidC, units.Temperature)}, {s.say("slab-warm-up"), known(x.WarmUpHours, units.Hours)},
		{s.say("slab-back"), s.say("slab-back-of", finding.Value("flux", x.BackWM2, units.Flux), finding.Value("share", x.BackShare, units.Share))}, {s.say("slab-stripes"), even},
	})
}
