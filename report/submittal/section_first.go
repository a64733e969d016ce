package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/show"
)

// firstRows are the first page: what, how much, what is proposed, what it costs, what must be decided.
func firstRows(v report.View) []core.Row {
	s := on(v)
	rows := append(s.emblem(), s.title()...)
	rows = append(rows, s.figures()...)
	rows = append(rows, s.part(s.say("what"))...)
	rows = append(rows, s.zonesTable()...)
	rows = append(rows, s.proposed()...)
	rows = append(rows, s.costTable()...)
	rows = append(rows, s.decide()...)
	return append(rows, s.paragraph(s.say("not-sealed"), noteStyle)...)
}

func (s sheet) title() []core.Row {
	ref := s.first().Ref
	rows := s.heading(s.say("document-title"), style{size: 8.5, grey: 85, most: 1}, -1, 1, 0)
	rows = append(rows, s.heading(s.siteName(), titleStyle, 0, 1, 0)...)
	if ref.Address != "" {
		rows = append(rows, s.paragraph(ref.Address, style{size: 9, grey: 60, most: 3})...)
	}
	return append(rows, s.pairs([][2]string{
		{s.say("site-id"), s.Site.Site.ID}, {s.say("status"), s.Site.Summary.Status},
		{s.say("project"), s.Settings.Project}, {s.say("issued-for"), ref.IssuedFor},
		{s.say("owner"), ref.Owner}, {s.say("region"), ref.Region},
		{s.say("prepared-for"), s.Settings.PreparedFor}, {s.say("prepared-by"), s.Settings.PreparedBy},
		{s.say("revision-label"), s.issue().Name}, {s.say("issue-date"), s.issue().Date},
	})...)
}

// figures sets the four numbers that a reader looks for first, all in one size.
func (s sheet) figures() []core.Row {
	sum := s.Site.Summary
	yearly := s.say("yearly")
	if sum.ExamplePrices {
		yearly = s.say("yearly-example")
	}
	list := [][2]string{
		{s.maybe(sum.AreaM2, units.Area), s.say("heated-area")},
		{s.maybe(sum.TotalW, units.Power), s.say("total-heat")},
		{s.round(sum.YearlyCost), yearly},
		{s.round(sum.Winter[0]) + "\u2009–\u2009" + s.rounded(sum.Winter[2]), s.say("range")},
	}
	if !sum.Winter[0].Known || !sum.Winter[2].Known {
		list[3][0] = show.NotAvailable
	}
	st, width := figureStyle, s.paper.text()/4-3
	for _, f := range list {
		for st.size > 9 && st.width(clean(f[0]), 0) > width {
			st.size -= 0.5
		}
	}
	height := 0.0
	cols := make([]core.Col, len(list))
	for i, f := range list {
		big, caption := st.set(f[0], width), noteStyle.set(f[1], width)
		big.pad[1] = 1
		caption.pad[1] = big.height() + 0.4
		height = max(height, caption.height())
		cols[i] = col.New(grid/4).Add(big, caption)
	}
	return []core.Row{newBlock(height+2, headLine, cols...), space(1)}
}

func (s sheet) zonesTable() []core.Row {
	cols := []column{{title: s.say("zone"), width: 28}, {title: s.say("use"), width: 18}, {title: s.unit("area", units.Area), width: 10, right: true},
		{title: s.say("service-level"), width: 15, right: true, formula: true}, {title: s.unit("design-flux", units.Flux), width: 17, right: true},
		{title: s.unit("total", units.Power), width: 12, right: true}}
	var rows []cells
	var without []calc.Outcome
	for _, o := range s.Site.Outcomes {
		z := o.Zone
		flux := show.NotAvailable
		if o.Load != nil {
			flux = s.number(o.Load.DesignWM2, units.Flux)
		}
		rows = append(rows, cells{texts: []string{zoneName(z), or(z.Extent.Use), s.positive(z.Extent.AreaM2, units.Area), s.level(o), flux, s.bare(o.Design.TotalW, units.Power)}})
		if o.Status() == calc.StatusError {
			without = append(without, o)
		}
	}
	for _, x := range s.Site.Excluded {
		rows = append(rows, cells{texts: []string{zoneName(calc.Zone{Ref: x.Ref}), s.say(x.Why), "", "", "", ""}})
	}
	if len(rows) > 1 {
		sum := s.Site.Summary
		rows = append(rows, cells{bold: true, texts: []string{s.say("site-total"), "", s.bare(sum.AreaM2, units.Area), "", "", s.bare(sum.TotalW, units.Power)}})
	}
	out := s.table(cols, rows)
	if len(without) > 0 {
		out = append(out, s.paragraph(s.say("without", finding.Words("zones", s.names(without))), bodyStyle)...)
	}
	return out
}

// proposed tells what senses, what begins heat, what ends it and what limits the slab; zones of which the same is proposed stand together.
func (s sheet) proposed() []core.Row {
	type answers struct{ kit, begins, ends, limits string }
	said, zones := groups(s.Site.Outcomes, func(o calc.Outcome) (answers, bool) {
		if o.Sensing == nil {
			return answers{}, false
		}
		c := *o.Sensing
		return answers{c.KitName(), s.Words.Say(report.Begins(c)), s.Words.Say(report.Ends(c)), s.Words.Say(report.Limits(c))}, true
	})
	if len(said) == 0 {
		return nil
	}
	cols := []column{{title: s.say("zone"), width: 15, zones: true}, {title: s.say("sensors"), width: 23}, {title: s.say("begins"), width: 20}, {title: s.say("ends"), width: 18}, {title: s.say("limits"), width: 24}}
	var rows []cells
	for _, a := range said {
		rows = append(rows, cells{texts: []string{s.names(zones[a]), a.kit, a.begins, a.ends, a.limits}})
	}
	return append(s.part(s.say("proposed")), s.table(cols, rows)...)
}

// level tells the service level that the load was found for: free-area ratio and percentile.
func (s sheet) level(o calc.Outcome) string {
	if o.Load == nil {
		return show.NotAvailable
	}
	if o.Load.Method != "hourly" && o.Load.Method != "synthetic" {
		return string(o.Load.Method)
	}
	if !o.Zone.Service.SnowFree.Known || !o.Zone.Service.Percentile.Known {
		return show.NotAvailable
	}
	return s.say("level", finding.Words("ratio", s.short(o.Zone.Service.SnowFree.Value)), finding.Words("percentile", s.short(o.Zone.Service.Percentile.Value)))
}

// chapterOf returns the number of the chapter with this name, as it stands before its heading.
func (s sheet) chapterOf(name string) int {
	n := 0
	for _, c := range sections()[1:] {
		if c.Applies(s.View) {
			n++
		}
		if c.Name == name {
			break
		}
	}
	return n
}
