package submittal

import (
	"fmt"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report/chart"
)

const (
	lyingMM    = 0.1  // of water: what counts as snow on the surface; engineering method, section 4
	panelMM    = 22.5 // height of a panel on the page
	markEveryH = 6    // hours between marks of the time axis
)

// stormChart draws one storm hour by hour: the chosen strategy beside the same pavement without heat.
func (s sheet) stormChart(o calc.Outcome, r season.Result) []core.Row {
	bare := o.Seasons[0]
	if len(r.Storm.Hours) < 2 || len(bare.Storm.Hours) != len(r.Storm.Hours) {
		return nil
	}
	panels := s.stormPanels(r, bare)
	drawn, err := s.look().Hourly(s.say("storm-axis"), len(r.Storm.Hours), s.marks(r.Storm.Hours), panels)
	if err != nil {
		panic(err) // every hour is a number
	}
	rows := append(s.part(s.ofZone(s.weathered(o, s.say("storm", finding.Words("strategy", string(r.Strategy)))), o)), s.drawing(drawn, 9+panelMM*float64(len(panels)))...)
	rows = append(rows, s.paragraph(s.seenInStorm(o, r, bare), noteStyle)...)
	return figure(rows)
}

// stormPanels are snowfall, temperatures, heat and what lies, from the top down; without heat there is one curve of each, and no panel of heat.
func (s sheet) stormPanels(r, bare season.Result) []chart.Panel {
	heated := r.Strategy != season.Unheated
	line := func(code string, kind chart.Stroke, hours []season.StormHour, q units.Quantity, of func(season.StormHour) float64) chart.Line {
		out := chart.Line{Name: s.say(code), Kind: kind}
		for i, h := range hours {
			out.X, out.Y = append(out.X, float64(i+1)), append(out.Y, q.In(s.Settings.Units).FromBase(of(h)))
		}
		return out
	}
	axis := func(code string, q units.Quantity) string { return chart.WithUnit(s.say(code), s.Words.Show.Unit(q)) }
	surface, solid := func(h season.StormHour) float64 { return h.SurfaceC }, func(h season.StormHour) float64 { return h.SolidMM }
	fall := []chart.Line{line("storm-snow", chart.Filled, r.Storm.Hours, units.SnowRate, func(h season.StormHour) float64 { return h.SnowMM })}
	if rained(r.Storm.Hours) {
		fall = append(fall, line("storm-rain", chart.GreyDashed, r.Storm.Hours, units.SnowRate, func(h season.StormHour) float64 { return h.RainMM }))
	}
	warmth := []chart.Line{line("storm-freezing", chart.Thin, r.Storm.Hours, units.Temperature, func(season.StormHour) float64 { return 0 }),
		line("storm-air", chart.Grey, r.Storm.Hours, units.Temperature, func(h season.StormHour) float64 { return h.AirC }),
		line("storm-surface-bare", chart.GreyDashed, bare.Storm.Hours, units.Temperature, surface)}
	var lies []chart.Line
	if heated {
		warmth = append(warmth, line("storm-surface", chart.Solid, r.Storm.Hours, units.Temperature, surface),
			line("storm-core", chart.Dashed, r.Storm.Hours, units.Temperature, func(h season.StormHour) float64 { return h.CoreC }))
		lies = append(lies, line("storm-lies", chart.Solid, r.Storm.Hours, units.WaterDepth, solid))
	}
	lies = append(lies, line("storm-lies-bare", chart.GreyDashed, bare.Storm.Hours, units.WaterDepth, solid))
	panels := []chart.Panel{{Axis: axis("storm-fall", units.SnowRate), Zero: true, Lines: fall}, {Axis: axis("storm-temperature", units.Temperature), Lines: warmth}}
	if heated {
		panels = append(panels, chart.Panel{Axis: axis("heat", units.Flux), Zero: true, Span: [2]float64{0, units.Flux.In(s.Settings.Units).FromBase(10)},
			Lines: []chart.Line{line("storm-heat", chart.Filled, r.Storm.Hours, units.Flux, func(h season.StormHour) float64 { return h.HeatWM2 })}})
	}
	return append(panels, chart.Panel{Axis: axis("storm-lying", units.WaterDepth), Zero: true, Lines: lies})
}

func rained(hours []season.StormHour) bool {
	for _, h := range hours {
		if h.RainMM > lyingMM {
			return true
		}
	}
	return false
}

// marks name every sixth hour of the clock, midnight by its date.
func (s sheet) marks(hours []season.StormHour) []chart.Mark {
	var list []chart.Mark
	for i, h := range hours {
		if h.Clock%markEveryH != 0 {
			continue
		}
		name := fmt.Sprintf("%d:00", h.Clock)
		if h.Clock == 0 {
			name = s.date(h)
		}
		list = append(list, chart.Mark{Hour: i, Name: name})
	}
	return list
}

func (s sheet) date(h season.StormHour) string {
	return s.say("day-of-month", finding.Words("day", fmt.Sprint(h.Day)), finding.Words("month", s.month(int(h.Month))))
}

// course is what a storm leaves on a pavement.
type course struct {
	lies    float64 // hours with snow on it
	most    float64 // mm of water
	clear   int     // hours from the last snow to the first without snow on it
	cleared bool
}

// courseOf follows the snow on a pavement through a storm.
func courseOf(hours []season.StormHour) (c course) {
	last := 0
	for i, h := range hours {
		if h.SnowMM >= lyingMM {
			last = i
		}
		if h.SolidMM > lyingMM {
			c.lies++
		}
		c.most = max(c.most, h.SolidMM)
	}
	for i := last; i < len(hours) && !c.cleared; i++ {
		c.clear, c.cleared = i-last, hours[i].SolidMM <= lyingMM
	}
	return c
}

// seenInStorm says what the storm was and what it left.
func (s sheet) seenInStorm(o calc.Outcome, r, bare season.Result) string {
	water, snowing := 0.0, 0.0
	first := r.Storm.Hours[0]
	for i := len(r.Storm.Hours) - 1; i >= 0; i-- {
		if h := r.Storm.Hours[i]; h.SnowMM >= lyingMM {
			water, snowing, first = water+h.SnowMM, snowing+1, h
		}
	}
	code := "storm-was"
	if o.Weather.Kind == weather.Synthetic {
		code = "storm-was-synthetic"
	}
	texts := []string{s.say(code, finding.Words("date", s.date(first)), finding.Words("year", r.Storm.Label), finding.Value("water", water, units.WaterDepth), finding.Value("hours", snowing, units.Hours))}
	unheated := courseOf(bare.Storm.Hours)
	if heated := courseOf(r.Storm.Hours); r.Strategy != season.Unheated {
		code := "storm-heated-not-clear"
		switch {
		case heated.lies == 0:
			code = "storm-heated-bare"
		case heated.cleared && heated.clear == 0:
			code = "storm-heated-at-once"
		case heated.cleared:
			code = "storm-heated"
		}
		texts = append(texts, s.say(code, finding.Value("lies", heated.lies, units.Hours), finding.Value("most", heated.most, units.WaterDepth), finding.Value("clear", float64(heated.clear), units.Hours)))
	}
	code = "storm-unheated-not-clear"
	if unheated.cleared {
		code = "storm-unheated"
	}
	texts = append(texts, s.say(code, finding.Value("lies", unheated.lies, units.Hours), finding.Value("most", unheated.most, units.WaterDepth), finding.Value("clear", float64(unheated.clear), units.Hours)))
	return strings.Join(texts, " ")
}
