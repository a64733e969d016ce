package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report"
)

// loadRows are the load of each zone: what it comes to, the frequencies, and every term with its equation and source.
func loadRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("load-intro"), bodyStyle)
	from := s.references()
	var list []calculation
	shown := map[frequent]string{}
	for _, o := range v.Site.Outcomes {
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		if o.Load == nil {
			for _, text := range s.trouble(o) {
				rows = append(rows, s.paragraph(s.say("no-load", finding.Words("why", text)), bodyStyle)...)
			}
			continue
		}
		lines, under := s.buildUp(o, from)
		rows = append(rows, lines...)
		rows = append(rows, s.frequencies(o, shown)...)
		list = append(list, calculation{[]calc.Outcome{o}, under})
	}
	return append(rows, s.workedTogether(s.say("worked-load"), list, from)...)
}

// loadLine is a line from the design hour to the installed output.
type loadLine struct {
	code, symbol string
	flux, heat   string
	bold         bool
}

// loadLines are the lines that apply to a zone.
func (s sheet) loadLines(o calc.Outcome) (lines []loadLine) {
	l, d := o.Load, o.Design
	flux := func(code, symbol string, w float64, bold bool) {
		lines = append(lines, loadLine{code, symbol, s.digits(w, units.Flux), s.number(w*o.Zone.Extent.AreaM2, units.Power), bold})
	}
	if h := l.Hour.Value; l.Hour.Known {
		flux("line-sensible", "q_s", h.Sensible, false)
		flux("line-melt", "q_m", h.Melt, false)
		flux("line-radiation", "A_r q_h", l.Input.SnowFree*h.ConvectionRadiation(), false)
		flux("line-evaporation", "A_r q_e", l.Input.SnowFree*h.Evaporation, false)
		flux("line-hour", "q_o", h.Total, true)
	}
	if l.Frequency.Known {
		flux("line-to-percentile", "Δq_P", l.ToPercentileWM2, false)
	}
	if l.Method != surface.Given {
		flux("line-margin", "q_margin", l.MarginWM2, false)
		flux("line-stairs", "q_stairs", l.StairsWM2, false)
	} else if l.Frequency.Known {
		flux("line-given", "q_given − q_P", l.DesignWM2-l.PercentileWM2, false)
	}
	flux("line-design", "q_design", l.DesignWM2, true)
	if d.BackWM2.Known {
		flux("line-back", "q_back", d.BackWM2.Value, false)
	}
	lines = append(lines, loadLine{"line-edge", "Q_edge", "", s.bare(d.EdgeW, units.Power), false}, loadLine{"line-total", "Q", "", s.bare(d.TotalW, units.Power), true})
	if d.InstalledWM2.Known {
		flux("line-installed", "q_inst", d.InstalledWM2.Value, false)
	}
	return lines
}

// buildUp is the load line by line, each with its equation, and what the lines rest on; it returns the steps that are not among them.
func (s sheet) buildUp(o calc.Outcome, from *references) (out []core.Row, under []trace.Step) {
	more := s.longUnits()
	cols := []column{{title: s.say("symbol"), width: 8, formula: true}, {title: s.say("load-line"), width: 61 - 2*more, formula: true},
		{title: s.unit("flux", units.Flux), width: 11 + more, right: true}, {title: s.unit("heat", units.Power), width: 11 + more, right: true}, {title: s.say("source"), width: 9}}
	under = stepsOf(o).load
	var rows []cells
	for _, l := range s.loadLines(o) {
		what, source := s.say(l.code), ""
		if i := slices.IndexFunc(under, func(step trace.Step) bool { return step.Symbol == l.symbol && step.Equation != "" }); i >= 0 {
			what, source = s.say("step", finding.Words("name", what), finding.Words("equation", under[i].Equation)), from.mark(under[i].Source)
			under = slices.Delete(under, i, i+1)
		}
		rows = append(rows, cells{bold: l.bold, texts: []string{unbroken(l.symbol), what, l.flux, l.heat, source}})
	}
	out = append(s.loadNotes(o), s.dense(cols, rows)...)
	whole(out)
	return out, under
}

// loadNotes say what the numbers of the load rest on and where they end.
func (s sheet) loadNotes(o calc.Outcome) []core.Row {
	l := o.Load
	texts := []string{s.say("load-method-" + strings.ReplaceAll(string(l.Method), " ", "-"))}
	if h := s.hour(*l); h != "" {
		texts = append(texts, h)
	}
	unmet := l.UnmetHours
	if o.Design.UnmetHours.Known {
		unmet = o.Design.UnmetHours
	}
	switch {
	case unmet.Known && unmet.Value < 0.5:
		texts = append(texts, s.say("unmet-none"))
	case unmet.Known:
		texts = append(texts, s.say("unmet", finding.Value("hours", unmet.Value, units.Hours)))
	}
	if l.InfraredWM2.Known {
		texts = append(texts, s.say("infrared", finding.Value("flux", l.InfraredWM2.Value, units.Flux)))
	}
	if !o.Design.EdgeW.Known {
		texts = append(texts, s.say("no-edge"))
	}
	for _, what := range l.OutOfRange {
		texts = append(texts, s.say("out-of-range", finding.Words("what", what)))
	}
	return s.lead(strings.Join(texts, " "), bodyStyle)
}
