package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/units"
	"thawbook/report"
)

// piping is a zone's loops, what flows in them, the head term by term, and the fluid.
func (s sheet) piping(l piping.Layout, pipe string) []core.Row {
	rows := append(s.part(s.say("piping")), s.loops(l, pipe)...)
	rows = append(rows, s.part(s.say("head", finding.Words("unit", s.Words.Show.Unit(units.Pressure))))...)
	rows = append(rows, s.head(l.Head)...)
	rows = append(rows, s.part(s.say("fluid"))...)
	return append(rows, s.fluid(l)...)
}

func (s sheet) loops(l piping.Layout, pipe string) []core.Row {
	p, f := l.Loops, l.Flow
	return s.pairs([][2]string{
		{s.say("pipe"), s.say("pipe-bore", finding.Words("pipe", pipe), finding.Words("bore", s.exact(p.BoreM, units.Thickness)))},
		{s.say("loops"), s.say("loops-of", finding.Value("count", float64(p.Count), units.Count), finding.Value("length", p.LengthM, units.Length), finding.Value("leaders", p.LeaderM, units.Length))},
		{s.say("longest-loop"), s.with(p.LongestM, units.Length)},
		{s.say("pipe-in-all"), s.with(p.TotalM, units.Length)},
		{s.say("fluid-heat"), s.with(f.HeatW, units.Power)},
		{s.say("supply-return"), s.say("supply-return-of", finding.Value("supply", f.SupplyC, units.Temperature), finding.Value("return", f.ReturnC, units.Temperature), finding.Value("drop", l.Input.DropK, units.TemperatureDiff))},
		{s.say("flow"), s.say("flow-of", finding.Value("flow", f.TotalLS, units.Flow), finding.Value("loop", f.LoopLS, units.Flow))},
		{s.say("speed"), s.say("speed-of", finding.Value("speed", f.SpeedMS, units.FluidSpeed), finding.Value("reynolds", f.Reynolds, units.Count), finding.Words("regime", s.say("regime-"+string(f.Regime()))))},
	})
}

// head is the pump's head as a sum; at a cold start only the sum is told.
func (s sheet) head(h piping.Head) []core.Row {
	terms := []struct {
		code string
		pa   float64
	}{{"head-loop", h.LoopPa}, {"head-bends", h.BendsPa}, {"head-manifold", h.ManifoldPa}, {"head-mains", h.MainsPa}, {"head-source", h.SourcePa}, {"head-total", h.TotalPa}}
	var cols []column
	row := cells{}
	for _, t := range terms {
		cols = append(cols, column{title: s.say(t.code), width: 14, right: true})
		row.texts = append(row.texts, s.number(t.pa, units.Pressure))
	}
	cols = append(cols, column{title: s.unit("pump-power", units.ElectricPower), width: 16, right: true})
	row.texts = append(row.texts, s.Words.Show.Digits(units.ElectricPower.In(s.Settings.Units).FromBase(h.PumpW), 3))
	rows := s.table(cols, []cells{row})
	if h.ColdC.Known && h.ColdPa.Known && h.ColdShare.Known {
		rows = append(rows, s.paragraph(s.say("cold-start", finding.Value("cold", h.ColdC.Value, units.Temperature), finding.Value("head", h.ColdPa.Value, units.Pressure),
			finding.Value("share", h.ColdShare.Value, units.Share)), noteStyle)...)
	}
	return rows
}

func (s sheet) fluid(l piping.Layout) []core.Row {
	c, v := l.Fluid, l.Volume
	freeze, burst, shrink := s.with(c.FreezeC, units.Temperature), "", ""
	if c.NeedC.Known {
		freeze = s.say("freeze-need", finding.Value("freeze", c.FreezeC, units.Temperature), finding.Value("need", c.NeedC.Value, units.Temperature))
	}
	if c.BurstC.Known {
		burst = s.say("burst-at", finding.Value("burst", c.BurstC.Value, units.Temperature))
	}
	if v.ContractionL.Known {
		shrink = s.say("contraction-to", finding.Value("volume", v.ContractionL.Value, units.Volume), finding.Value("cold", l.Head.ColdC.Value, units.Temperature))
	}
	margin := ""
	if c.MarginK.Known {
		margin = s.say("freeze-margin-of", finding.Value("margin", c.MarginK.Value, units.TemperatureDiff), finding.Value("coldest", l.Input.ExtremeMinC.Value, units.Temperature))
	}
	share := s.say("fluid-share", finding.Words("fluid", string(l.Input.Fluid)), finding.Value("share", c.Share, units.Share))
	return s.pairs([][2]string{
		{s.say("fluid-mix"), s.setBy(report.ShareSetBy(c.Proposed), share)}, {s.say("freeze"), freeze},
		{s.say("freeze-margin"), margin}, {s.say("burst"), burst},
		{s.say("fluid-volume"), s.say("fluid-volume-of", finding.Value("loops", v.LoopsL, units.Volume), finding.Value("mains", v.MainsL, units.Volume), finding.Value("all", v.TotalL, units.Volume))},
		{s.say("glycol"), s.with(v.GlycolL, units.Volume)},
		{s.say("expansion"), s.say("expansion-to", finding.Value("volume", v.ExpansionL, units.Volume), finding.Value("hot", v.HotC, units.Temperature))}, {s.say("contraction"), shrink},
	})
}
