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

// firstRows are the first page: what, how much, what it costs, what must be decided.
func firstRows(v report.View) []core.Row {
	s := on(v)
	rows := s.title()
	rows = append(rows, s.figures()...)
	rows = append(rows, s.part(s.say("what"))...)
	rows = append(rows, s.zonesTable()...)
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
		{s.say("status"), or(s.Site.Summary.Status)}, {s.say("project"), or(s.Settings.Project)},
		{s.say("issued-for"), or(ref.IssuedFor)}, {s.say("prepared-for"), or(s.Settings.PreparedFor)},
		{s.say("revision-label"), or(s.Settings.Revision)}, {s.say("prepared-by"), or(s.Settings.PreparedBy)},
		{s.say("issue-date"), or(s.Settings.IssueDate)}, {s.say("site-id"), or(s.Site.Site.ID)},
		{s.say("owner"), or(ref.Owner)}, {s.say("region"), or(ref.Region)},
	})...)
}

// figures sets the four numbers that a reader looks for first.
func (s sheet) figures() []core.Row {
	sum := s.Site.Summary
	yearly := s.say("yearly")
	if sum.ExamplePrices {
		yearly = s.say("yearly-example")
	}
	list := [][2]string{
		{s.with(sum.AreaM2, units.Area), s.say("heated-area")},
		{s.maybe(sum.TotalW, units.Power), s.say("total-heat")},
		{s.round(sum.YearlyCost), yearly},
		{s.round(sum.Winter[0]) + " to " + s.Words.Show.Plain(sum.Winter[2].Value.Main(s.Settings.Currency), 0), s.say("range")},
	}
	if !sum.Winter[0].Known || !sum.Winter[2].Known {
		list[3][0] = show.NotAvailable
	}
	height := 0.0
	cols := make([]core.Col, len(list))
	for i, f := range list {
		st := figureStyle
		width := s.paper.text()/4 - 3
		for st.size > 9 && st.width(clean(f[0]), 0) > width {
			st.size--
		}
		big, caption := st.set(f[0], width), noteStyle.set(f[1], width)
		big.pad[1] = 1 + (figureStyle.size-st.size)*mmPerPoint
		caption.pad[1] = big.height() + 0.4
		height = max(height, caption.height())
		cols[i] = col.New(grid/4).Add(big, caption)
	}
	return []core.Row{newBlock(height+2, headLine, cols...), space(1)}
}

func (s sheet) zonesTable() []core.Row {
	cols := []column{{title: s.say("zone"), width: 21}, {title: s.say("use"), width: 11}, {title: s.unit("area", units.Area), width: 9, right: true},
		{title: s.say("service-level"), width: 15, right: true, formula: true}, {title: s.unit("design-flux", units.Flux), width: 13, right: true},
		{title: s.unit("total", units.Power), width: 14, right: true}, {title: s.say("sensors"), width: 17}}
	var rows []cells
	var without []calc.Outcome
	for _, o := range s.Site.Outcomes {
		z := o.Zone
		flux := show.NotAvailable
		if o.Load != nil {
			flux = s.number(o.Load.DesignWM2, units.Flux)
		}
		sensors := show.NotAvailable
		if o.Sensing != nil {
			sensors = o.Sensing.KitName()
		}
		rows = append(rows, cells{texts: []string{zoneName(z), or(z.Extent.Use), s.number(z.Extent.AreaM2, units.Area), s.level(o), flux, s.bare(o.Design.TotalW, units.Power), sensors}})
		if o.Status() == calc.StatusError {
			without = append(without, o)
		}
	}
	for _, x := range s.Site.Excluded {
		rows = append(rows, cells{texts: []string{zoneName(calc.Zone{Ref: x.Ref}), s.say(x.Why), "", "", "", "", ""}})
	}
	sum := s.Site.Summary
	rows = append(rows, cells{bold: true, texts: []string{s.say("site-total"), "", s.number(sum.AreaM2, units.Area), "", "", s.bare(sum.TotalW, units.Power), ""}})
	out := s.table(cols, rows)
	if len(without) > 0 {
		out = append(out, s.paragraph(s.say("without", finding.Words("zones", s.names(without))), bodyStyle)...)
	}
	return out
}

// level tells the service level: free-area ratio and percentile.
func (s sheet) level(o calc.Outcome) string {
	if o.Load != nil && o.Load.Method != "hourly" && o.Load.Method != "synthetic" {
		return string(o.Load.Method)
	}
	if !o.Zone.Service.SnowFree.Known || !o.Zone.Service.Percentile.Known {
		return show.NotAvailable
	}
	return s.say("level", finding.Words("ratio", s.short(o.Zone.Service.SnowFree.Value)), finding.Words("percentile", s.short(o.Zone.Service.Percentile.Value)))
}
