package submittal

import (
	"math"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// delays are the timer and the off-delay that the chosen strategy uses: what to set, what the storms of the site ask for, and what the winter above ran with.
func (s sheet) delays(o calc.Outcome, r season.Result) []core.Row {
	if o.Operation == nil {
		return nil
	}
	hours := func(h float64) string { return s.Words.Show.Plain(h, 1) }
	found := func(m units.Maybe[float64]) string {
		if !m.Known {
			return show.NotAvailable
		}
		return hours(m.Value)
	}
	var rows []cells
	if r.Strategy.SeesSnow() {
		rows = append(rows, cells{texts: []string{s.say("delay-timer"), hours(o.Operation.Timer.SetH), found(r.Ground.TimerH), hours(r.Input.AerialHoldH)}})
	}
	if r.Strategy.SensesMoisture() {
		rows = append(rows, cells{texts: []string{s.say("delay-dry"), hours(o.Operation.OffDelay.SetH), found(r.Ground.OffDelayH), hours(r.Input.DryHoldH)}})
	}
	if rows == nil {
		return nil
	}
	cols := []column{{title: s.say("delay"), width: 43}, {title: s.unit("delay-set", units.Hours), width: 17, right: true}, {title: s.unit("delay-found", units.Hours), width: 20, right: true},
		{title: s.unit("delay-default", units.Hours), width: 20, right: true}}
	out := append(s.part(s.weathered(o, s.say("delays"))), s.table(cols, rows)...)
	out = append(out, s.paragraph(s.say("delays-see", finding.Value("storms", r.Ground.Storms, units.Count)), noteStyle)...)
	whole(out)
	return out
}

// metered is the energy of the meter beside the calculated one.
func (s sheet) metered(o calc.Outcome) []core.Row {
	m := o.Metered
	if m == nil {
		return nil
	}
	cols := []column{{title: s.say("metered-control"), width: 34}, {title: s.say("metered-winter"), width: 14}, {title: s.unit("metered-used", units.Energy), width: 17, right: true},
		{title: s.unit("metered-calculated", units.Energy), width: 20, right: true}, {title: s.say("metered-apart") + " [%]", width: 15, right: true}}
	apart := s.number(m.Difference, units.Share)
	if m.Difference > 0 {
		apart = "+" + apart
	}
	out := append(s.part(s.weathered(o, s.say("metered"))), s.table(cols, []cells{{texts: []string{string(m.Strategy), or(m.Winter), s.number(m.UsedKWh, units.Energy), s.number(m.CalculatedKWh, units.Energy), apart}}})...)
	code := "metered-more"
	if m.Difference < 0 {
		code = "metered-less"
	}
	winter := s.say("metered-typical")
	if m.Recorded != "" {
		winter = s.say("metered-recorded", finding.Words("year", m.Recorded))
	}
	out = append(out, s.paragraph(s.say(code, finding.Value("apart", math.Abs(m.Difference), units.Share), finding.Words("winter", winter)), noteStyle)...)
	whole(out)
	return out
}

// spread says how the mild, the typical and the severe winter were found.
func (s sheet) spread(o calc.Outcome) string {
	switch o.Snow.Rule {
	case calc.RulePercentiles:
		return s.say("spread-percentiles", finding.Value("winters", float64(o.Snow.Winters), units.Count))
	case calc.RuleExtremes:
		return s.say("spread-extremes", finding.Value("winters", float64(o.Snow.Winters), units.Count))
	case calc.RuleSnowFactors:
		code := "spread"
		if o.Snow.Assumed {
			code = "spread-assumed"
		}
		return s.say(code, finding.Value("variation", o.Snow.Variation, units.Number), finding.Value("mild", o.Snow.MildFactor, units.Number), finding.Value("severe", o.Snow.SevereFactor, units.Number))
	}
	return ""
}
