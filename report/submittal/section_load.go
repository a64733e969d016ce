package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/report"
)

// loadRows are the load of each zone: what it comes to, the frequencies, and every term with its equation and source.
func loadRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("load-intro"), bodyStyle)
	from := s.references()
	for _, o := range v.Site.Outcomes {
		rows = append(rows, s.zoneHeading(s.zoneTitle(o.Zone))...)
		if o.Load == nil {
			for _, text := range s.trouble(o) {
				rows = append(rows, s.paragraph(s.say("no-load", finding.Words("why", text)), bodyStyle)...)
			}
			continue
		}
		rows = append(rows, s.buildUp(o)...)
		rows = append(rows, s.frequencies(*o.Load)...)
		rows = append(rows, s.worked(s.say("worked-load"), loadSteps(o), from)...)
	}
	return rows
}

// buildUp is the load line by line, from the design hour to the installed output.
func (s sheet) buildUp(o calc.Outcome) []core.Row {
	l := o.Load
	cols := []column{{title: s.say("load-line"), width: 50}, {title: s.say("symbol"), width: 14, formula: true}, {title: s.unit("flux", units.Flux), width: 18, right: true}, {title: s.unit("heat", units.Power), width: 18, right: true}}
	var rows []cells
	flux := func(code, symbol string, w float64, bold bool) {
		rows = append(rows, cells{bold: bold, texts: []string{s.say(code), symbol, s.number(w, units.Flux), s.number(w*o.Zone.Extent.AreaM2, units.Power)}})
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
	d := o.Design
	if d.BackWM2.Known {
		flux("line-back", "q_back", d.BackWM2.Value, false)
	}
	rows = append(rows, cells{texts: []string{s.say("line-edge"), "Q_edge", "", s.bare(d.EdgeW, units.Power)}},
		cells{bold: true, texts: []string{s.say("line-total"), "Q", "", s.bare(d.TotalW, units.Power)}})
	if d.InstalledWM2.Known {
		flux("line-installed", "q_inst", d.InstalledWM2.Value, false)
	}
	out := append(s.loadNotes(o), s.table(cols, rows)...)
	whole(out)
	return out
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
