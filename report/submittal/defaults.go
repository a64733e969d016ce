package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// levels is the table of service levels and of what the balance takes from each zone.
func (s sheet) levels() []core.Row {
	cols := []column{{title: s.say("zone"), width: 28}, {title: s.say("ratio"), width: 11, right: true, formula: true}, {title: s.say("percentile"), width: 12, right: true},
		{title: s.unit("wind-length", units.Length), width: 14, right: true}, {title: s.say("wind-factor"), width: 11, right: true},
		{title: s.say("margin"), width: 11, right: true}, {title: s.unit("elevation", units.Elevation), width: 13, right: true}}
	var rows []cells
	for _, o := range s.Site.Outcomes {
		z := o.Zone
		rows = append(rows, cells{texts: []string{zoneName(z), s.bare(z.Service.SnowFree, units.Number), s.maybe(z.Service.Percentile, units.Percent), s.bare(z.Extent.WindLengthM, units.Length),
			s.positive(z.Place.WindFactor, units.Number), s.positive(z.Service.DesignMargin, units.Number), s.bare(z.Place.ElevationM, units.Elevation)}})
	}
	rowsOut := append(s.part(s.say("levels")), s.table(cols, rows)...)
	return append(rowsOut, s.paragraph(s.say("levels-note"), noteStyle)...)
}

// defaults lists each value that was not told, with its source, once for all zones that share it.
func (s sheet) defaults() []core.Row {
	keys := []calc.Default{}
	zones := map[calc.Default][]calc.Outcome{}
	for _, o := range s.Site.Outcomes {
		for _, d := range o.Zone.Ref.Defaults {
			if zones[d] == nil {
				keys = append(keys, d)
			}
			zones[d] = append(zones[d], o)
		}
	}
	if len(keys) == 0 {
		return nil
	}
	cols := []column{{title: s.say("value-of"), width: 26}, {title: s.say("taken"), width: 17}, {title: s.say("zones"), width: 10, zones: true}, {title: s.say("reason"), width: 47}}
	var rows []cells
	for _, d := range keys {
		value := d.Word
		if d.Quantity != units.Text {
			value = s.exact(d.Number, d.Quantity)
		}
		rows = append(rows, cells{texts: []string{s.Headings.Of(d.Field), or(value), s.ids(zones[d]), s.Words.Line(words.Defaults, d.Source)[0]}})
	}
	return append(s.part(s.say("defaults")), s.dense(cols, rows)...)
}
