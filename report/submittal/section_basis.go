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
	hours := show.NotAvailable
	if o.Load != nil && o.Load.Frequency.Known {
		hours = s.with(o.Load.SnowHours, units.Hours)
	}
	rows := append(s.part(s.say("weather-of", finding.Words("zones", s.names(zones)))), s.pairs([][2]string{
		{s.say("station"), or(w.Station)}, {s.say("weather-kind"), or(string(w.Kind))},
		{s.say("years"), s.number(float64(w.Years), units.Count)}, {s.say("snow-rule"), or(string(w.Rule))},
		{s.say("latitude"), s.with(w.LatDeg, units.Angle)}, {s.say("longitude"), s.with(w.LonDeg, units.Angle)},
		{s.say("station-elevation"), s.with(w.ElevationM, units.Elevation)}, {s.say("station-height"), height},
		{s.say("station-distance"), s.maybe(w.DistanceKM, units.Distance)}, {s.say("snow-hours"), hours},
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
