package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report"
	"thawbook/report/show"
	"thawbook/report/words"
)

// basisRows tell what the results rest on: weather, service levels, assumed values.
func basisRows(v report.View) []core.Row {
	s := on(v)
	var rows []core.Row
	type key struct {
		station string
		kind    weather.Kind
		rule    weather.SnowRule
	}
	keys, zones := groups(v.Site.Outcomes, func(o calc.Outcome) (key, bool) {
		return key{o.Weather.Station, o.Weather.Kind, o.Weather.Rule}, o.Weather.Kind != ""
	})
	if len(keys) == 0 {
		rows = append(rows, s.paragraph(s.say("no-weather"), bodyStyle)...)
	}
	for _, k := range keys {
		rows = append(rows, s.weather(zones[k])...)
	}
	rows = append(rows, s.levels()...)
	rows = append(rows, s.defaults()...)
	if x := v.Settings.Exclusions; x != "" {
		rows = append(rows, s.part(s.say("exclusions"))...)
		rows = append(rows, s.paragraph(x, bodyStyle)...)
	}
	return rows
}

// weather tells the weather that some zones share.
func (s sheet) weather(zones []calc.Outcome) []core.Row {
	o := zones[0]
	w := o.Weather
	files := make([]string, len(w.Sources))
	for i, f := range w.Sources {
		files[i] = f.File
		if len(f.SHA256) >= 8 {
			files[i] += " (" + f.SHA256[:8] + ")"
		}
	}
	height := show.NotAvailable
	if e := o.Zone.Place.ElevationM; e.Known {
		height = s.with(w.ElevationM-e.Value, units.Elevation)
	}
	distance := show.NotAvailable
	if w.DistanceKM.Known {
		distance = s.Words.Show.Plain(w.DistanceKM.Value, 0) + "\u00a0km"
	}
	hours := show.NotAvailable
	if o.Load != nil && o.Load.Frequency.Known {
		hours = s.with(o.Load.SnowHours, units.Hours)
	}
	rows := append(s.part(s.say("weather-of", finding.Words("zones", s.names(zones)))), s.pairs([][2]string{
		{s.say("station"), or(w.Station)}, {s.say("weather-kind"), or(string(w.Kind))},
		{s.say("years"), s.number(float64(w.Years), units.Count)}, {s.say("snow-rule"), or(string(w.Rule))},
		{s.say("latitude"), s.with(w.LatDeg, units.Angle)}, {s.say("longitude"), s.with(w.LonDeg, units.Angle)},
		{s.say("station-elevation"), s.with(w.ElevationM, units.Elevation)}, {s.say("station-height"), height},
		{s.say("station-distance"), distance}, {s.say("snow-hours"), hours},
		{s.say("season-hours"), s.with(w.SeasonHours, units.Hours)}, {s.say("files"), or(strings.Join(files, ", "))},
	})...)
	for _, note := range weatherNotes(o) {
		rows = append(rows, s.paragraph(s.say(note), bodyStyle)...)
	}
	return rows
}

// weatherNotes returns the codes of what a reader must know of this weather.
func weatherNotes(o calc.Outcome) []string {
	var notes []string
	if o.Load != nil && o.Load.OneTypicalYear {
		notes = append(notes, "note-typical")
	}
	if o.Weather.Kind == weather.Synthetic {
		notes = append(notes, "note-synthetic")
	}
	if o.Weather.Kind == weather.DesignOnly {
		notes = append(notes, "note-design-hour")
	}
	if o.Weather.Coarse {
		notes = append(notes, "note-coarse")
	}
	return notes
}

// levels is the table of service levels and of what the balance takes from each zone.
func (s sheet) levels() []core.Row {
	cols := []column{{title: s.say("zone"), width: 28}, {title: s.say("ratio"), width: 11, right: true, formula: true}, {title: s.say("percentile"), width: 12, right: true},
		{title: s.unit("wind-length", units.Length), width: 14, right: true}, {title: s.say("wind-factor"), width: 11, right: true},
		{title: s.say("margin"), width: 11, right: true}, {title: s.unit("elevation", units.Elevation), width: 13, right: true}}
	var rows []cells
	for _, o := range s.Site.Outcomes {
		z := o.Zone
		rows = append(rows, cells{texts: []string{zoneName(z), s.bare(z.Service.SnowFree, units.Number), s.maybe(z.Service.Percentile, units.Percent), s.bare(z.Extent.WindLengthM, units.Length),
			s.number(z.Place.WindFactor, units.Number), s.number(z.Service.DesignMargin, units.Number), s.bare(z.Place.ElevationM, units.Elevation)}})
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
	cols := []column{{title: s.say("value-of"), width: 22}, {title: s.say("taken"), width: 16}, {title: s.say("zones"), width: 12}, {title: s.say("reason"), width: 50}}
	var rows []cells
	for _, d := range keys {
		value := d.Word
		if d.Quantity != units.Text {
			value = s.exact(d.Number, d.Quantity)
		}
		rows = append(rows, cells{texts: []string{fieldName(d.Field), or(value), s.ids(zones[d]), s.Words.Line(words.Defaults, d.Source)[0]}})
	}
	return append(s.part(s.say("defaults")), s.table(cols, rows)...)
}

// fieldName writes a field's key as words: "slab_thickness" becomes "Slab thickness".
func fieldName(f finding.Field) string {
	text := strings.NewReplacer("_", " ", "-", " ").Replace(string(f))
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
