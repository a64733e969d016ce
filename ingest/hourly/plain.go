package hourly

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// The hourly CSV is for observed records. It is UTF-8 text; commas, semicolons or tabs separate. Above the heading row stand lines of a name and
// a value: Station, Latitude, Longitude, Elevation, Time zone (hours from UTC). Below it every row is an hour of local standard time, in any order:
//
//	Time                  2022-01-31 14:00 or 2022-01-31T14:53; the hour that begins then; minutes are cut off   required
//	Air temperature       [°C]                                                                                  required
//	Dew point             [°C]     one of these two is required
//	Relative humidity     [%]
//	Wind speed            [m/s]                                                                                 required
//	Water                 [mm]     depth of rain and melted snow; T is a trace and counts as 0
//	Water hours           [h]      that Water stands for; blank is 1
//	Snowfall              [mm]     water equivalent of snow, where it is measured apart from rain
//	Rainfall              [mm]
//	Weather                        groups as observers write them: -SN SN +SN RA DZ FZRA SG PL …
//	Snow depth            [mm]     lying on the ground
//	Pressure              [kPa]    station pressure; left out, that of the elevation
//	Cloud cover           [%]
//	Horizontal infrared   [W/m²]
//	Global sun            [W/m²]
//
// A unit in brackets or parentheses behind a heading converts the column, so [°F], [mph], [in] or [hPa] are fine. Blank, NA, - and M are missing:
// a dry hour has a Water of 0. With semicolons decimal commas are read too.
type csvColumn struct {
	heading  string
	quantity units.Quantity
	at       func(*weather.Observation) *float64
	least    float64 // base unit; outside of the range is missing
	most     float64
}

var csvColumns = []csvColumn{
	{"Air temperature", units.Temperature, func(o *weather.Observation) *float64 { return &o.AirC }, -90, 70},
	{"Dew point", units.Temperature, func(o *weather.Observation) *float64 { return &o.DewC }, -90, 70},
	{"Relative humidity", units.Share, func(o *weather.Observation) *float64 { return &o.HumidityShare }, 0, 1.1},
	{"Wind speed", units.Speed, func(o *weather.Observation) *float64 { return &o.WindMS }, 0, 110},
	{"Water", units.WaterDepth, func(o *weather.Observation) *float64 { return &o.WaterMM }, 0, 500},
	{"Water hours", units.Hours, func(o *weather.Observation) *float64 { return &o.WaterHours }, 0, 24},
	{"Snowfall", units.WaterDepth, func(o *weather.Observation) *float64 { return &o.SnowMM }, 0, 500},
	{"Rainfall", units.WaterDepth, func(o *weather.Observation) *float64 { return &o.RainMM }, 0, 500},
	{"Snow depth", units.WaterDepth, func(o *weather.Observation) *float64 { return &o.DepthMM }, 0, 20000},
	{"Pressure", units.Pressure, func(o *weather.Observation) *float64 { return &o.PressurePa }, 31000, 120000},
	{"Cloud cover", units.Share, func(o *weather.Observation) *float64 { return &o.CloudShare }, 0, 1},
	{"Horizontal infrared", units.Flux, func(o *weather.Observation) *float64 { return &o.InfraredWM2 }, 1, 1000},
	{"Global sun", units.Flux, func(o *weather.Observation) *float64 { return &o.SunWM2 }, 0, 1500},
}

const (
	csvTime    = "Time"
	csvWeather = "Weather"
)

// layout is where the columns of one file stand and in which unit.
type layout struct {
	time, weather int
	columns       []placed
	decimalComma  bool
}

type placed struct {
	csvColumn
	index int
	unit  units.Unit
}

// parseCSV reads an observed record under thawbook's own headings.
func parseCSV(data []byte, name string) (weather.Record, error) {
	r := weather.Record{Format: weather.FormatHourlyCSV, Name: strings.TrimSuffix(name, ".csv"), LatDeg: math.NaN()}
	comma := separator(data)
	in := csv.NewReader(bytes.NewReader(data))
	in.Comma, in.FieldsPerRecord, in.LazyQuotes, in.ReuseRecord = comma, -1, true, true
	var at *layout
	for {
		row, err := in.Read()
		if err == io.EOF {
			break
		}
		line, _ := in.FieldPos(0)
		switch {
		case err != nil:
			return r, badLine(name, line, "text", err.Error())
		case at == nil && fold(row[0]) == fold(csvTime):
			at, err = headings(row, name)
			if err == nil {
				at.decimalComma = comma == ';'
			}
		case at == nil:
			err = preamble(&r, row, name, line)
		default:
			err = csvHour(&r, row, at, name, line)
		}
		if err != nil {
			return r, err
		}
	}
	if at == nil {
		return r, fail(CodeUnknownFormat, "file", name)
	}
	if math.IsNaN(r.LatDeg) {
		return r, fail(CodeNoColumn, "file", name, "what", "Latitude")
	}
	return r, nil
}

// separator is the one that stands most often in the file's first 2,000 bytes.
func separator(data []byte) rune {
	head := data[:min(len(data), 2000)]
	best, most := ',', bytes.Count(head, []byte{','})
	for _, c := range [2]rune{';', '\t'} {
		if n := bytes.Count(head, []byte(string(c))); n > most || c == ';' && n > 4 {
			best, most = c, n
		}
	}
	return best
}

func fold(text string) string {
	text, _, _ = strings.Cut(text, "[")
	text, _, _ = strings.Cut(text, "(")
	return strings.Join(strings.Fields(strings.ToLower(text)), " ")
}

// preamble reads a line of a name and a value above the headings.
func preamble(r *weather.Record, row []string, name string, line int) error {
	if len(row) < 2 || strings.TrimSpace(row[1]) == "" {
		return nil
	}
	typed := strings.TrimSpace(row[1])
	value := func(to *float64, q units.Quantity) error {
		unit, err := unitOf(row[0], q, name)
		if err != nil {
			return err
		}
		v := number([]byte(strings.Replace(typed, ",", ".", 1)))
		if math.IsNaN(v) {
			return badLine(name, line, row[0], typed)
		}
		*to = unit.ToBase(v)
		return nil
	}
	switch fold(row[0]) {
	case "station":
		r.Name = typed
	case "latitude":
		return value(&r.LatDeg, units.Angle)
	case "longitude":
		return value(&r.LonDeg, units.Angle)
	case "elevation":
		return value(&r.ElevationM, units.Elevation)
	case "time zone":
		return value(&r.ZoneHours, units.Hours)
	}
	return nil
}

// unitOf returns the unit in the brackets behind a heading, the quantity's SI unit where there are none.
func unitOf(heading string, q units.Quantity, name string) (units.Unit, error) {
	open := strings.IndexAny(heading, "[(")
	if open < 0 {
		return q.In(units.SI), nil
	}
	text := strings.Trim(heading[open:], "[]() ")
	unit, known := q.Parse(text)
	if !known {
		return unit, fail(CodeUnknownUnit, "file", name, "what", strings.TrimSpace(heading[:open]), "typed", text)
	}
	return unit, nil
}

func headings(row []string, name string) (*layout, error) {
	l := &layout{time: 0, weather: -1}
	found := map[string]bool{}
	for i, h := range row {
		if fold(h) == fold(csvWeather) {
			l.weather = i
		}
		for _, c := range csvColumns {
			if fold(h) != fold(c.heading) {
				continue
			}
			unit, err := unitOf(h, c.quantity, name)
			if err != nil {
				return nil, err
			}
			l.columns = append(l.columns, placed{c, i, unit})
			found[c.heading] = true
		}
	}
	var missing []string
	for _, must := range [...]string{"Air temperature", "Wind speed"} {
		if !found[must] {
			missing = append(missing, must)
		}
	}
	if !found["Dew point"] && !found["Relative humidity"] {
		missing = append(missing, "Dew point or Relative humidity")
	}
	if !found["Water"] && !found["Snowfall"] && l.weather < 0 {
		missing = append(missing, "Water, Snowfall or Weather")
	}
	if len(missing) > 0 {
		return nil, fail(CodeNoColumn, "file", name, "what", strings.Join(missing, "; "))
	}
	return l, nil
}

func csvHour(r *weather.Record, row []string, at *layout, name string, line int) error {
	if len(row) == 1 && strings.TrimSpace(row[0]) == "" {
		return nil
	}
	o := missingHour()
	if err := csvDate(&o, row[at.time], name, line); err != nil {
		return err
	}
	for i := range at.columns {
		c := &at.columns[i]
		if c.index >= len(row) {
			continue
		}
		v, err := csvNumber(row[c.index], at.decimalComma)
		if err != nil {
			return badLine(name, line, c.heading, row[c.index])
		}
		if v = c.unit.ToBase(v); v >= c.least && v <= c.most {
			*c.at(&o) = v
		}
	}
	if at.weather >= 0 && at.weather < len(row) {
		o.Weather = reportedWeather(row[at.weather])
	}
	r.Observations = append(r.Observations, o)
	return nil
}

func missingHour() weather.Observation {
	var o weather.Observation
	for _, c := range csvColumns {
		*c.at(&o) = math.NaN()
	}
	return o
}

func csvDate(o *weather.Observation, text, name string, line int) error {
	text = strings.TrimSpace(text)
	for _, form := range [...]string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05"} {
		if t, err := time.Parse(form, text); err == nil {
			o.Year, o.Month, o.Day, o.Clock = int16(t.Year()), int8(t.Month()), int8(t.Day()), int8(t.Hour())
			return nil
		}
	}
	return badLine(name, line, csvTime, text)
}

func csvNumber(text string, decimalComma bool) (float64, error) {
	text = strings.TrimSpace(text)
	switch strings.ToUpper(text) {
	case "", "NA", "N/A", "NAN", "-", "M":
		return math.NaN(), nil
	case "T":
		return 0, nil
	}
	if decimalComma {
		text = strings.Replace(text, ",", ".", 1)
	}
	v := number([]byte(text))
	if math.IsNaN(v) {
		return v, fmt.Errorf("no number: %q", text)
	}
	return v, nil
}

// reportedWeather reads groups as observers write them; "-" before a group is light, "+" heavy. What stands in no group is no weather.
func reportedWeather(text string) (p weather.Phenomena) {
	for _, group := range strings.Fields(strings.ToUpper(text)) {
		p.Reported, p.Any = true, true
		level := weather.Moderate
		switch group[0] {
		case '-':
			level = weather.Light
		case '+':
			level = weather.Heavy
		}
		body := strings.Trim(group, "+-")
		p.Freezing = p.Freezing || strings.HasPrefix(body, "FZ") && !strings.HasPrefix(body, "FZFG")
		for len(body) >= 2 {
			switch body[:2] {
			case "SN", "SG":
				p.Snow = max(p.Snow, level)
			case "RA":
				p.Rain = max(p.Rain, level)
			case "DZ":
				p.Drizzle = max(p.Drizzle, level)
			case "IC":
				p.IceCrystals = true
			case "BL", "DR", "VC": // blown about, or seen from afar: nothing falls here
				body = ""
				continue
			}
			body = body[2:]
		}
	}
	return p
}
