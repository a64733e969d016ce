package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// strategies are hours, heat, snow and cost of each way of control; the hours with snow and the cost, or the heat where there is no price, are drawn beside their numbers.
func (s sheet) strategies(o calc.Outcome) []core.Row {
	t := s.hoursOfStrategies(o)
	t.add(column{title: s.unit("energy", units.EnergyPerArea), width: 10}, func(r season.Result) string { return s.number(r.EnergyKWhM2, units.EnergyPerArea) })
	if !priced(o) {
		t.draw(func(r season.Result) units.Maybe[float64] { return units.Some(r.EnergyKWhM2) })
	}
	t.add(column{title: s.unit("energy-back", units.EnergyPerArea), width: 9}, func(r season.Result) string { return s.number(r.BackKWhM2, units.EnergyPerArea) })
	if snowKnown(o) {
		t.add(column{title: s.say("snow-on-surface"), width: 6}, func(r season.Result) string { return s.bare(r.SnowOnSurfaceH, units.Hours) })
		t.draw(func(r season.Result) units.Maybe[float64] { return r.SnowOnSurfaceH })
	}
	if priced(o) {
		t.add(column{title: s.priced("yearly-cost"), width: 8}, func(r season.Result) string { return s.rounded(yearOf(o, r.Strategy)) })
		t.draw(func(r season.Result) units.Maybe[float64] {
			year := yearOf(o, r.Strategy)
			return units.Maybe[float64]{Value: year.Value.Main(s.Settings.Currency), Known: year.Known}
		})
	}
	table := s.dense(t.cols, t.rows)
	whole(table)
	return append(append(s.part(s.weathered(o, s.say("by-strategy"))), table...), s.paragraph(s.seenInBars(o), noteStyle)...)
}

// hoursOfStrategies begins the table with the names and the hours.
func (s sheet) hoursOfStrategies(o calc.Outcome) *strategyTable {
	t := &strategyTable{seasons: o.Seasons, cols: []column{{title: s.say("strategy"), width: grid}}, rows: make([]cells, len(o.Seasons))}
	for i, r := range o.Seasons {
		name := string(r.Strategy)
		if isChosen(o, r.Strategy) {
			name, t.rows[i].bold = s.say("chosen-mark", finding.Words("strategy", name)), true
		}
		t.rows[i].texts = []string{name}
	}
	for _, c := range []struct {
		code  string
		hours func(season.Result) float64
	}{{"hours-off", func(r season.Result) float64 { return r.HoursOff }}, {"hours-idling", func(r season.Result) float64 { return r.HoursIdling }},
		{"hours-melting", func(r season.Result) float64 { return r.HoursMelting }}, {"hours-drying", func(r season.Result) float64 { return r.HoursDrying }}} {
		t.add(column{title: s.say(c.code), width: 7}, func(r season.Result) string { return s.number(c.hours(r), units.Hours) })
	}
	return t
}

func snowKnown(o calc.Outcome) bool {
	for _, r := range o.Seasons {
		if r.SnowOnSurfaceH.Known {
			return true
		}
	}
	return false
}

// strategyTable grows column by column; its first one has the width that is left.
type strategyTable struct {
	seasons []season.Result
	cols    []column
	rows    []cells
}

// add puts a column of numbers behind the others.
func (t *strategyTable) add(c column, text func(season.Result) string) {
	c.right = true
	t.cols[0].width -= c.width
	t.cols = append(t.cols, c)
	for i, r := range t.seasons {
		t.rows[i].texts = append(t.rows[i].texts, text(r))
	}
}

// draw puts a column of bars behind the numbers that they show.
func (t *strategyTable) draw(value func(season.Result) units.Maybe[float64]) {
	const width = 9
	most := 0.0
	for _, r := range t.seasons {
		if v := value(r); v.Known {
			most = max(most, v.Value)
		}
	}
	t.cols[0].width -= width
	t.cols = append(t.cols, column{width: width, bar: true})
	for i, r := range t.seasons {
		v := value(r)
		t.rows[i].texts = append(t.rows[i].texts, "")
		t.rows[i].bars = append(t.rows[i].bars, bar{share: v.Value / max(most, 1e-9), known: v.Known, dark: t.rows[i].bold})
	}
}
