package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report/chart"
)

// weathered is a heading that says so where the weather is synthetic.
func (s sheet) weathered(o calc.Outcome, text string) string {
	if o.Weather.Kind == weather.Synthetic {
		return s.say("of-synthetic", finding.Words("title", text))
	}
	return text
}

// seenInBars says what the bars show: the chosen way beside no heat, and what idling takes and gives.
func (s sheet) seenInBars(o calc.Outcome) string {
	chosen, found := o.Chosen()
	if !found || !chosen.SnowOnSurfaceH.Known {
		return s.say("bars-see")
	}
	texts := []string{s.say("bars-see")}
	if chosen.Strategy != season.Unheated && o.Seasons[0].SnowOnSurfaceH.Known {
		texts = append(texts, s.say("bars-chosen", finding.Words("strategy", string(chosen.Strategy)), finding.Words("takes", s.winterTakes(o, chosen)),
			finding.Value("snow", chosen.SnowOnSurfaceH.Value, units.Hours), finding.Value("unheated", o.Seasons[0].SnowOnSurfaceH.Value, units.Hours)))
	}
	if twin, found := idlingTwin(o, chosen.Strategy); found {
		code := "bars-with-idling"
		if idles(twin.Strategy) {
			code = "bars-no-idling"
		}
		texts = append(texts, s.say(code, finding.Words("takes", s.winterTakes(o, twin)), finding.Value("snow", twin.SnowOnSurfaceH.Value, units.Hours)))
	}
	if now := o.Zone.Money.ClearingCost; now.Known {
		texts = append(texts, s.say("bars-clearing", finding.Words("now", s.round(units.Some(cost.FromMain(now.Value, s.Settings.Currency))))))
	}
	return strings.Join(texts, " ")
}

// winterTakes is what a strategy costs a year, or the heat that it takes where there is no price.
func (s sheet) winterTakes(o calc.Outcome, r season.Result) string {
	if year := yearOf(o, r.Strategy); year.Known {
		return s.round(year)
	}
	return s.with(r.EnergyKWhM2, units.EnergyPerArea)
}

const idlingEnd = ", idling" // of the names of strategies that idle

func idles(st season.Strategy) bool { return strings.HasSuffix(string(st), idlingEnd) }

// idlingTwin returns the same way of control with idling in place of without, or without in place of with.
func idlingTwin(o calc.Outcome, st season.Strategy) (season.Result, bool) {
	want := strings.TrimSuffix(string(st), idlingEnd)
	if !idles(st) {
		want += idlingEnd
	}
	for _, r := range o.Seasons {
		if string(r.Strategy) == want && r.SnowOnSurfaceH.Known {
			return r, true
		}
	}
	return season.Result{}, false
}

// monthOrder lists the months from the first of the season, as far as any has hours of it or heat.
func monthOrder(in season.Input) []int {
	from, to := int(in.Start.Month), int(in.End.Month)
	if from < 1 || to < 1 {
		return nil
	}
	var list []int
	for m := from; ; m = m%12 + 1 {
		list = append(list, m-1)
		if m == to || len(list) == 12 {
			return list
		}
	}
}

// monthChart shows the heat of each month, and the hours in which there is heat, under the chosen strategy.
func (s sheet) monthChart(o calc.Outcome, r season.Result) []core.Row {
	order := monthOrder(r.Input)
	if r.EnergyKWhM2 <= 0 || order == nil {
		return nil
	}
	heat := chart.Stack{Axis: chart.WithUnit(s.say("energy"), s.Words.Show.Unit(units.EnergyPerArea)), Parts: []chart.Part{{Shade: chart.Dark}}}
	hours := chart.Stack{Axis: chart.WithUnit(s.say("hours"), units.Hours.In(s.Settings.Units).Symbol), Parts: []chart.Part{
		{Name: s.say("hours-melting"), Shade: chart.Dark}, {Name: s.say("hours-drying"), Shade: chart.Middle}, {Name: s.say("hours-idling"), Shade: chart.Light}}}
	most := order[0]
	for _, m := range order {
		month := r.Months[m]
		heat.Names, hours.Names = append(heat.Names, s.month(m+1)), append(hours.Names, s.month(m+1))
		heat.Parts[0].Values = append(heat.Parts[0].Values, units.EnergyPerArea.In(s.Settings.Units).FromBase(month.EnergyKWhM2))
		for k, v := range []float64{month.HoursMelting, month.HoursDrying, month.HoursIdling} {
			hours.Parts[k].Values = append(hours.Parts[k].Values, v)
		}
		if month.EnergyKWhM2 > r.Months[most].EnergyKWhM2 {
			most = m
		}
	}
	drawn, err := s.look().Stacks(heat, hours)
	if err != nil {
		panic(err) // every month is a number
	}
	see := s.say("months-see", finding.Words("month", s.month(most+1)), finding.Value("heat", r.Months[most].EnergyKWhM2, units.EnergyPerArea), finding.Value("season", r.EnergyKWhM2, units.EnergyPerArea),
		finding.Value("snow", r.Months[most].SnowOnSurfaceH, units.Hours))
	if r.IdlingKWhM2 > 0 {
		see += " " + s.say("months-idling", finding.Value("share", r.IdlingKWhM2/r.EnergyKWhM2, units.Share))
	}
	rows := append(s.part(s.ofZone(s.weathered(o, s.say("by-month", finding.Words("strategy", string(r.Strategy)))), o)), s.drawing(drawn, 34)...)
	rows = append(rows, s.paragraph(see, noteStyle)...)
	return figure(rows)
}

// month is the short name of a month, from 1.
func (s sheet) month(m int) string {
	names := strings.Fields(s.say("month-names"))
	if m < 1 || m > len(names) {
		return ""
	}
	return names[m-1]
}
