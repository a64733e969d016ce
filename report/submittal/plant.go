package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/plant"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// plants are the heat sources of the site: what zones that melt together ask for, line by line.
func (s sheet) plants(from *references) []core.Row {
	var rows []core.Row
	var before []trace.Step
	for _, o := range s.Site.Outcomes {
		before = append(before, stepsOf(o).load...)
	}
	for _, p := range s.Site.Plants {
		rows = append(rows, space(4))
		rows = append(rows, s.heading(s.say("plant", finding.Words("energy", or(p.EnergyID))), zoneStyle, 1, 1.2, 40)...)
		rows = append(rows, s.plantTable(p)...)
		rows = append(rows, s.plantAdvice(p)...)
		rows = append(rows, s.worked(s.say("worked-plant"), anew(plantSteps(p), before), from)...)
	}
	return rows
}

// plantAdvice tells what a plant could harm, and what prevents it.
func (s sheet) plantAdvice(p calc.Plant) []core.Row {
	var rows []core.Row
	var shocked []string
	var most, limit float64
	for _, c := range p.Checks {
		switch c.Code {
		case plant.CodeShockSlab:
			shocked = append(shocked, s.nameOf(c.Zone))
			most, limit = max(most, c.Found), c.Limit
		case plant.CodeShockReturn, plant.CodeNeedsMixing:
			what, do := s.Words.Finding(c.Finding())
			rows = append(rows, s.bullet(s.zonePrefix(c.Zone)+sentence(what)+" "+sentence(do))...)
		}
	}
	if len(shocked) == 0 {
		return rows
	}
	shock := s.say("plant-shock", finding.Value("most", most, units.TemperatureDiff), finding.Value("limit", limit, units.TemperatureDiff), finding.Words("zones", strings.Join(shocked, ", ")))
	return append(s.bullet(shock), rows...)
}

// zonePrefix names the zone of a line, where it has one and the site has others.
func (s sheet) zonePrefix(zone string) string {
	if zone == "" || len(s.Site.Outcomes) == 1 {
		return ""
	}
	return s.zonesTitle(1, zone) + ": "
}

// plantTable is what each zone asks of the plant, and its net output; how that came about stands below, step by step.
func (s sheet) plantTable(p calc.Plant) []core.Row {
	cols := []column{{title: s.say("zone"), width: 19}, {title: s.unit("plant-flux", units.Flux), width: 12, right: true}, {title: s.unit("area", units.Area), width: 10, right: true},
		{title: s.unit("plant-edge", units.Power), width: 10, right: true}, {title: s.unit("heat", units.Power), width: 11, right: true},
		{title: s.unit("supply", units.Temperature), width: 9, right: true}, {title: s.unit("return", units.Temperature), width: 9, right: true},
		{title: s.unit("plant-less-slab", units.TemperatureDiff), width: 9, right: true}, {title: s.unit("cold-supply", units.Temperature), width: 11, right: true}}
	var rows []cells
	for i, n := range p.Needs {
		z := p.Input.Zones[i]
		rows = append(rows, cells{texts: []string{s.nameOf(n.ID), s.number(n.WM2, units.Flux), s.number(z.AreaM2, units.Area), s.number(z.EdgeW, units.Power), s.number(n.HeatW, units.Power),
			s.number(n.SupplyC, units.Temperature), s.number(n.ReturnC, units.Temperature), s.number(n.SlabDiffK, units.TemperatureDiff), s.bare(n.StartMostC, units.Temperature)}})
	}
	rows = append(rows, cells{bold: true, texts: []string{s.say("plant-net"), "", "", "", s.number(p.NetW, units.Power), s.number(p.SupplyC, units.Temperature), s.number(p.ReturnC, units.Temperature), "", ""}})
	return s.table(cols, rows)
}

// nameOf names a zone by its ID.
func (s sheet) nameOf(id string) string {
	for _, o := range s.Site.Outcomes {
		if o.Zone.Ref.ZoneID == id {
			return zoneName(o.Zone)
		}
	}
	return id
}
