package terminal

import (
	"io"
	"strconv"

	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/words"
)

// WeatherReport is what is told of a station: its hours, and the load of a bare surface of the usual length.
type WeatherReport struct {
	Station weather.Station
	Load    surface.Load // at A_r 1, 98 % and 6.1 m
}

// totals are yearly sums over a station's hours.
type totals struct {
	hours, missing, filled, coded int
	snowMM, rainMM                float64
	infrared                      bool
}

func sum(years []weather.Year) totals {
	t := totals{infrared: len(years) > 0}
	for _, y := range years {
		t.hours, t.missing, t.filled, t.coded = t.hours+len(y.Hours), t.missing+y.Missing, t.filled+y.Filled, t.coded+y.SnowCodeHour
		t.infrared = t.infrared && y.HasInfrared
		for i := range y.Hours {
			t.snowMM += y.Hours[i].SnowMM
			t.rainMM += y.Hours[i].RainMM
		}
	}
	if n := float64(len(years)); n > 0 {
		t.snowMM, t.rainMM = t.snowMM/n, t.rainMM/n
	}
	return t
}

// rule returns the rule by which the snow of a station was told.
func (r WeatherReport) rule() string {
	if len(r.Station.Years) == 0 {
		return ""
	}
	return string(r.Station.Years[0].SnowRule)
}

// Weather writes what an hourly file holds: its snow, the frequencies of the flux, and the design hour.
func Weather(w io.Writer, texts *words.Words, r WeatherReport) error {
	p := &page{w: w}
	st, load, t := r.Station, r.Load, sum(r.Station.Years)
	say := texts.Say
	p.text(0, say("weather-place", finding.Words("name", st.Name), finding.Value("lat", st.LatDeg, units.Angle), finding.Value("lon", st.LonDeg, units.Angle),
		finding.Value("elevation", st.ElevationM, units.Elevation)))
	for _, source := range st.Sources {
		p.text(2, source.File+"  "+source.SHA256)
	}
	p.labelled(say("weather-kind"), say("weather-kind-is", finding.Words("kind", string(st.Kind)), number(texts, "years", len(st.Years)), number(texts, "hours", t.hours)))
	p.labelled(say("weather-rule"), r.rule())
	p.labelled(say("weather-gaps"), say("weather-gaps-are", number(texts, "missing", t.missing), number(texts, "filled", t.filled)))
	p.labelled(say("weather-hours"), say("weather-hours-are", finding.Value("hours", load.SnowHours, units.Hours), finding.Value("quarter", load.QuarterHours, units.Hours)))
	p.labelled(say("weather-water"), say("weather-water-is", finding.Value("snow", t.snowMM, units.WaterDepth), finding.Value("rain", t.rainMM, units.WaterDepth)))
	p.frequencies(texts, "weather-flux", load.Frequency)
	p.frequencies(texts, "weather-flux-quarter", load.Quarter)
	p.line("")
	infrared := say("weather-infrared-none")
	if load.InfraredWM2.Known {
		infrared = say("weather-infrared-is", finding.Value("percentile", load.Input.Percentile, units.Percent), finding.Value("flux", load.InfraredWM2.Value, units.Flux))
	}
	p.labelled(say("weather-infrared"), infrared)
	if load.Hour.Known {
		p.designHour(texts, load)
	}
	if load.OneTypicalYear {
		p.labelled(say("weather-note"), say("weather-note-typical"))
	}
	return p.err
}

func (p *page) frequencies(texts *words.Words, title string, f units.Maybe[surface.Frequency]) {
	if !f.Known {
		return
	}
	const first, each = 24, 9
	p.line("")
	p.text(0, texts.Say(title, finding.Value("length", usualLengthM, units.Length), finding.Words("unit", texts.Show.Unit(units.Flux))))
	head := []column{{width: first, text: texts.Say("weather-snow-free")}}
	for _, v := range surface.Percentiles {
		head = append(head, column{width: each, text: strconv.FormatFloat(v, 'f', -1, 64) + "\u00a0%", right: true})
	}
	p.row(0, head...)
	for i, ratio := range surface.Ratios {
		row := []column{{width: first, text: texts.Show.Digits(ratio, 2)}}
		for _, v := range f.Value[i] {
			row = append(row, column{width: each, text: texts.Show.Number(v, units.Flux), right: true})
		}
		p.row(0, row...)
	}
}

const usualLengthM = 6.1 // m (20 ft), of the surface that the frequencies are for

func (p *page) designHour(texts *words.Words, l surface.Load) {
	t := l.Hour.Value
	p.labelled(texts.Say("weather-design"), texts.Say("weather-design-is", finding.Words("time", show.Hour(t)),
		finding.Value("outdoor", t.AirC, units.Temperature), finding.Value("dew", t.DewC, units.Temperature), finding.Value("wind", t.WindMS, units.Speed),
		finding.Value("snow", t.SnowMMH, units.SnowRate)))
	p.labelled("", texts.Say("weather-design-flux", finding.Value("sensible", t.Sensible, units.Flux), finding.Value("melt", t.Melt, units.Flux),
		finding.Value("convection", t.ConvectionRadiation(), units.Flux), finding.Value("evaporation", t.Evaporation, units.Flux), finding.Value("total", t.Total, units.Flux)))
}

// WeatherJSON writes the same for other programs, in SI.
func WeatherJSON(w io.Writer, r WeatherReport) error {
	st, l, t := r.Station, r.Load, sum(r.Station.Years)
	type file struct {
		Name   string `json:"name"`
		SHA256 string `json:"sha256"`
	}
	type terms struct {
		Time        string        `json:"time"`
		OutdoorC    record.Number `json:"outdoor_c"`
		DewC        record.Number `json:"dew_point_c"`
		WindMS      record.Number `json:"wind_m_s"`
		SnowMMH     record.Number `json:"snow_mm_h"`
		Sensible    record.Number `json:"sensible_w_m2"`
		Melt        record.Number `json:"melt_w_m2"`
		Convection  record.Number `json:"convection_radiation_w_m2"`
		Evaporation record.Number `json:"evaporation_w_m2"`
		Total       record.Number `json:"total_w_m2"`
	}
	n := record.NumberOf
	out := struct {
		Name         string            `json:"name"`
		Latitude     record.Number     `json:"latitude_deg"`
		Longitude    record.Number     `json:"longitude_deg"`
		ElevationM   record.Number     `json:"elevation_m"`
		Files        []file            `json:"files"`
		Kind         string            `json:"kind"`
		Rule         string            `json:"rule"`
		Years        int               `json:"years"`
		Hours        int               `json:"hours"`
		MissingHours int               `json:"missing_precipitation_h"`
		FilledHours  int               `json:"filled_h"`
		SnowHours    record.Number     `json:"snowfall_h_a_year"`
		QuarterHours record.Number     `json:"snowfall_quarter_mm_h_a_year"`
		SnowMM       record.Number     `json:"snow_water_mm_a_year"`
		RainMM       record.Number     `json:"rain_mm_a_year"`
		LengthM      record.Number     `json:"length_m"`
		Frequency    *record.Frequency `json:"frequency_w_m2"`
		Quarter      *record.Frequency `json:"frequency_quarter_mm_w_m2"`
		HasInfrared  bool              `json:"has_infrared"`
		Infrared     record.Number     `json:"infrared_98_w_m2"`
		DesignHour   *terms            `json:"design_hour"`
	}{Name: st.Name, Latitude: n(st.LatDeg), Longitude: n(st.LonDeg), ElevationM: n(st.ElevationM), Files: []file{}, Kind: string(st.Kind), Rule: r.rule(),
		Years: len(st.Years), Hours: t.hours, MissingHours: t.missing, FilledHours: t.filled, SnowHours: n(l.SnowHours), QuarterHours: n(l.QuarterHours),
		SnowMM: n(t.snowMM), RainMM: n(t.rainMM), LengthM: n(usualLengthM), Frequency: record.FrequencyOf(l.Frequency), Quarter: record.FrequencyOf(l.Quarter),
		HasInfrared: t.infrared, Infrared: record.Number{Maybe: l.InfraredWM2}}
	for _, s := range st.Sources {
		out.Files = append(out.Files, file{s.File, s.SHA256})
	}
	if l.Hour.Known {
		h := l.Hour.Value
		out.DesignHour = &terms{show.Hour(h), n(h.AirC), n(h.DewC), n(h.WindMS), n(h.SnowMMH), n(h.Sensible), n(h.Melt), n(h.ConvectionRadiation()), n(h.Evaporation), n(h.Total)}
	}
	return writeJSON(w, out)
}
