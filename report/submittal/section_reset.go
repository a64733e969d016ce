package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/setpoint"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/chart"
)

func hasReset(v report.View) bool {
	for _, o := range v.Site.Outcomes {
		if o.Reset != nil {
			return true
		}
	}
	return false
}

// resetRows are the slab set points against the outdoor temperature, once for all zones that share a curve.
func resetRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("reset-intro"), bodyStyle)
	from := &sources{}
	curves, zones := groups(v.Site.Outcomes, func(o calc.Outcome) (setpoint.Curve, bool) {
		if o.Reset == nil {
			return setpoint.Curve{}, false
		}
		return *o.Reset, true
	})
	for _, c := range curves {
		rows = append(rows, s.zoneHeading(s.zonesTitle(len(zones[c]), s.names(zones[c])))...)
		in := c.Input
		rows = append(rows, s.lead(s.say("reset-basis", finding.Value("melt", in.MeltC, units.Temperature), finding.Value("idle", in.IdleC, units.Temperature),
			finding.Value("wind", in.WindMS, units.Speed), finding.Value("core", in.CoreResistance, units.Insulance),
			finding.Value("ratio", c.Ratio, units.Number), finding.Value("idle-ratio", c.IdleRatio, units.Number)), bodyStyle)...)
		rows = append(rows, s.resetTable(c)...)
		rows = append(rows, s.worked(s.say("worked-reset"), resetSteps(c), from)...)
	}
	return append(rows, s.sourceList(from)...)
}

// resetTable is the table of set points beside their chart.
func (s sheet) resetTable(c setpoint.Curve) []core.Row {
	supply := c.Points[0].SupplyMeltC.Known
	cols := []column{{empty: true, width: 50}, {title: s.say("outdoor-short"), width: 10, right: true}, {title: s.say("slab-melting"), width: 10, right: true}, {title: s.say("slab-idling"), width: 10, right: true}}
	if supply {
		cols = append(cols, column{title: s.say("supply-melting"), width: 10, right: true}, column{title: s.say("supply-idling"), width: 10, right: true})
	} else {
		cols[0].width = 70
	}
	var rows []cells
	for _, p := range report.Points(c, s.Settings.Units) {
		texts := []string{"", s.outdoor(p.OutdoorC), s.number(p.CoreMeltC, units.Temperature), s.number(p.CoreIdleC, units.Temperature)}
		if supply {
			texts = append(texts, s.bare(p.SupplyMeltC, units.Temperature), s.bare(p.SupplyIdleC, units.Temperature))
		}
		rows = append(rows, cells{texts: texts})
	}
	return append(s.part(s.say("set-points", finding.Words("unit", s.Words.Show.Unit(units.Temperature)))), s.beside(s.resetChart(c), s.table(cols, rows))...)
}

// outdoor writes a round outdoor temperature: by 2.5 K, or by 5 °F.
func (s sheet) outdoor(c float64) string {
	decimals := 1
	if s.Settings.Units == units.IP {
		decimals = 0
	}
	return s.Words.Show.Plain(units.Temperature.In(s.Settings.Units).FromBase(c), decimals)
}

// resetChart draws what the table holds.
func (s sheet) resetChart(c setpoint.Curve) chart.Chart {
	lines := []chart.Line{{Name: s.say("slab-melting"), Kind: chart.Solid}, {Name: s.say("slab-idling"), Kind: chart.Dashed}}
	axis := s.say("slab-temperature")
	if c.Points[0].SupplyMeltC.Known {
		axis = s.say("slab-or-supply")
		lines = append(lines, chart.Line{Name: s.say("supply-melting"), Kind: chart.Grey}, chart.Line{Name: s.say("supply-idling"), Kind: chart.GreyDashed})
	}
	unit := units.Temperature.In(s.Settings.Units)
	for _, p := range c.Points {
		for i, y := range []float64{p.CoreMeltC, p.CoreIdleC, p.SupplyMeltC.Value, p.SupplyIdleC.Value}[:len(lines)] {
			lines[i].X, lines[i].Y = append(lines[i].X, unit.FromBase(p.OutdoorC)), append(lines[i].Y, unit.FromBase(y))
		}
	}
	drawn, err := s.look().Lines(chart.WithUnit(s.say("outdoor"), unit.Symbol), chart.WithUnit(axis, unit.Symbol), lines)
	if err != nil {
		panic(err) // a curve has points, and all of them are numbers
	}
	return drawn
}

// resetSteps are the steps of the curve at −30 °C and the ratios; the other points stand in the table.
func resetSteps(c setpoint.Curve) []trace.Step {
	var out []trace.Step
	for _, step := range c.Steps() {
		if !hasAnySuffix(step.Symbol, "(0 °C)", "(+5 °C)") {
			out = append(out, step)
		}
	}
	return out
}
