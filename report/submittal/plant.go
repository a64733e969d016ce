package submittal

import (
	"slices"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/plant"
	"thawbook/calc/units"
)

// plants are the heat sources of the site: what zones that melt together ask for, line by line.
func (s sheet) plants(from *references) []core.Row {
	var rows []core.Row
	for _, p := range s.Site.Plants {
		rows = append(rows, space(4))
		rows = append(rows, s.heading(s.say("plant", finding.Words("energy", or(p.EnergyID))), zoneStyle, 1, 1.2, 40)...)
		rows = append(rows, s.plantTable(p)...)
		rows = append(rows, s.pairs(s.plantPairs(p))...)
		for _, f := range p.Findings() {
			if slices.Contains([]finding.Code{plant.CodeShockSlab, plant.CodeShockReturn, plant.CodeNeedsMixing}, f.Code) {
				what, do := s.Words.Finding(f)
				rows = append(rows, s.bullet(s.zonePrefix(f.Zone)+sentence(what)+" "+sentence(do))...)
			}
		}
		rows = append(rows, s.worked(s.say("worked-plant"), plantSteps(p), from)...)
	}
	return rows
}

// zonePrefix names the zone of a line, where it has one and the site has others.
func (s sheet) zonePrefix(zone string) string {
	if zone == "" || len(s.Site.Outcomes) == 1 {
		return ""
	}
	return s.zonesTitle(1, zone) + ": "
}

// plantTable is what each zone asks of the plant, and the sums.
func (s sheet) plantTable(p calc.Plant) []core.Row {
	cols := []column{{title: s.say("zone"), width: 22}, {title: s.unit("plant-flux", units.Flux), width: 13, right: true}, {title: s.unit("area", units.Area), width: 11, right: true},
		{title: s.unit("plant-edge", units.Power), width: 12, right: true}, {title: s.unit("heat", units.Power), width: 12, right: true},
		{title: s.unit("supply", units.Temperature), width: 9, right: true}, {title: s.unit("return", units.Temperature), width: 9, right: true},
		{title: s.unit("cold-supply", units.Temperature), width: 12, right: true}}
	var rows []cells
	for i, n := range p.Needs {
		z := p.Input.Zones[i]
		rows = append(rows, cells{texts: []string{s.nameOf(n.ID), s.number(n.WM2, units.Flux), s.number(z.AreaM2, units.Area), s.number(z.EdgeW, units.Power), s.number(n.HeatW, units.Power),
			s.number(z.SupplyC, units.Temperature), s.number(n.ReturnC, units.Temperature), s.bare(n.StartMostC, units.Temperature)}})
	}
	sum := func(code string, w float64, bold bool, more ...string) {
		texts := append([]string{s.say(code), "", "", "", s.number(w, units.Power)}, more...)
		rows = append(rows, cells{bold: bold, texts: append(texts, "", "", "")[:len(cols)]})
	}
	sum("plant-load", p.LoadW, false)
	sum("plant-mains", p.LossW, false)
	sum("plant-pick-up", p.PickUpW, false)
	sum("plant-net", p.NetW, true, s.number(p.SupplyC, units.Temperature), s.number(p.ReturnC, units.Temperature))
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

func (s sheet) plantPairs(p calc.Plant) [][2]string {
	altitude := ""
	if p.RatedW.Known && p.Derate < 1 {
		altitude = s.say("plant-altitude-of", finding.Value("elevation", p.Input.ElevationM, units.Elevation), finding.Value("share", p.Derate, units.Share), finding.Value("fan", p.DerateFan, units.Share))
	}
	rated := ""
	if p.RatedW.Known && p.RatedFanW.Known {
		rated = s.with(p.RatedW.Value, units.Power)
		if p.RatedFanW.Value != p.RatedW.Value {
			rated = s.say("plant-rated-of", finding.Value("rated", p.RatedW.Value, units.Power), finding.Value("fan", p.RatedFanW.Value, units.Power))
		}
	}
	return [][2]string{{s.say("plant-rated"), rated}, {s.say("plant-altitude"), altitude}, {s.say("plant-drop"), s.with(p.DropK, units.TemperatureDiff)}}
}
