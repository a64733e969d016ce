package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/setpoint"
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

// followed is a reset curve and how far a plant can follow it.
type followed struct {
	curve  setpoint.Curve
	limits setpoint.Limits
	judged bool // the limits are known
}

// beyond says whether an outdoor temperature is colder than the plant can follow while melting.
func (f followed) beyond(outdoorC float64) bool { return f.judged && report.Beyond(f.limits, outdoorC) }

// falls says whether any point of the printed table is beyond what the plant can hold.
func (f followed) falls() bool { return f.beyond(f.curve.Points[0].OutdoorC) }

// resetRows are the slab set points against the outdoor temperature, once for all zones that share a curve and its limits.
func resetRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("reset-intro"), bodyStyle)
	from := s.references()
	var list []calculation
	curves, zones := groups(v.Site.Outcomes, func(o calc.Outcome) (followed, bool) {
		if o.Reset == nil {
			return followed{}, false
		}
		f := followed{curve: *o.Reset}
		if o.Limits != nil {
			f.limits, f.judged = *o.Limits, true
		}
		return f, true
	})
	for _, f := range curves {
		c, in := f.curve, f.curve.Input
		rows = append(rows, s.zoneHeading(s.zonesTitle(len(zones[f]), s.names(zones[f])))...)
		rows = append(rows, s.lead(s.say("reset-basis", finding.Value("melt", in.MeltC, units.Temperature), finding.Value("idle", in.IdleC, units.Temperature),
			finding.Value("wind", in.WindMS, units.Speed), finding.Value("core", in.CoreResistance, units.Insulance),
			finding.Value("ratio", c.Ratio, units.Number), finding.Value("idle-ratio", c.IdleRatio, units.Number)), bodyStyle)...)
		if f.judged {
			rows = append(rows, s.limits(f)...)
		}
		rows = append(rows, s.resetTable(f, zones[f])...)
		list = append(list, calculation{zones[f], stepsOf(zones[f][0]).reset})
	}
	return append(rows, s.workedTogether(s.say("worked-reset"), list, from)...)
}

// resetTable is the table of set points beside their chart. Points that the plant can't hold are pale and marked.
func (s sheet) resetTable(f followed, zones []calc.Outcome) []core.Row {
	c := f.curve
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
		beyond := f.beyond(p.OutdoorC)
		if beyond {
			texts[1] = "† " + texts[1]
		}
		rows = append(rows, cells{texts: texts, pale: beyond})
	}
	out := append(s.part(s.ofZone(s.say("set-points", finding.Words("unit", s.Words.Show.Unit(units.Temperature))), zones...)), beside(s.table(cols, rows), func(height float64) core.Component { return picture{chart: s.resetChart(f), height: height} })...)
	if f.falls() {
		out = append(out, s.paragraph(s.say("beyond-note", finding.Value("coldest", f.limits.ColdestC, units.Temperature)), noteStyle)...)
	}
	return figure(out)
}

// limits tell how far the curve can be followed.
func (s sheet) limits(f followed) []core.Row {
	l := f.limits
	outdoors := func(m units.Maybe[float64], none string) string {
		if !m.Known {
			return s.say(none)
		}
		return s.say("outdoors", finding.Value("temperature", m.Value, units.Temperature))
	}
	list := [][2]string{
		{s.say("limit-start"), outdoors(units.Some(l.StartC), "")},
		{s.say("limit-keeps-up"), outdoors(l.KeepsUpC, "limit-keeps-up-none")},
		{s.say("limit-coldest"), outdoors(units.Some(l.ColdestC), "")},
		{s.say("limit-core"), s.with(l.GreatestCoreC, units.Temperature)},
	}
	if l.GreatestSupply.Known {
		list = append(list, [2]string{s.say("limit-supply"), s.with(l.GreatestSupply.Value, units.Temperature)})
	}
	if l.Plant.SupplyLimitC.Known && l.GreatestSupply.Known {
		list = append(list, [2]string{s.say("limit-reached", finding.Value("limit", l.Plant.SupplyLimitC.Value, units.Temperature)), outdoors(l.SupplyLimitAtC, "limit-reached-none")})
	}
	if d := l.SupplyLessCore; d.Known {
		code := "limit-shock-usual"
		if d.Value > setpoint.GreatestSupplyLessCoreK {
			code = "limit-shock-more"
		}
		list = append(list, [2]string{s.say("limit-shock"), s.say(code, finding.Value("difference", d.Value, units.TemperatureDiff),
			finding.Value("usual", setpoint.GreatestSupplyLessCoreK, units.TemperatureDiff))})
	}
	if l.Plant.DesignSupply.Known {
		list = append(list, [2]string{s.say("limit-design"), s.with(l.Plant.DesignSupply.Value, units.Temperature)})
	}
	return append(s.part(s.say("how-far")), s.measures(list)...)
}

// outdoor writes a round outdoor temperature: by 2.5 K, or by 5 °F.
func (s sheet) outdoor(c float64) string {
	decimals := 1
	if s.Settings.Units == units.IP {
		decimals = 0
	}
	return s.Words.Show.Plain(units.Temperature.In(s.Settings.Units).FromBase(c), decimals)
}

// resetChart draws what the table holds; what the plant can't hold is greyed.
func (s sheet) resetChart(f followed) chart.Chart {
	c := f.curve
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
	var shade chart.Shade
	if f.falls() {
		shade = chart.Shade{Below: unit.FromBase(f.limits.ColdestC), Words: s.say("beyond")}
	}
	drawn, err := s.look().Lines(chart.WithUnit(s.say("outdoor"), unit.Symbol), chart.WithUnit(axis, unit.Symbol), lines, shade)
	if err != nil {
		panic(err) // a curve has points, and all of them are numbers
	}
	return drawn
}
