package hourly

import (
	"bytes"
	"encoding/csv"
	"math"
	"strings"

	"thawbook/calc/weather"
)

// looksLikeTMY3 says whether the second line is the heading row of a TMY3 CSV.
func looksLikeTMY3(data []byte) bool {
	in := lines{rest: data}
	in.next()
	second, _ := in.next()
	return bytes.HasPrefix(second, []byte("Date (MM/DD/YYYY),Time (HH:MM)"))
}

// tmy3Columns are found by their headings; all but weather must be there. Lprecip is left alone: it is headed mm and holds tenths, and is zero in
// freezing hours.
type tmy3Columns struct{ sun, cloud, air, dew, humidity, pressure, wind, weather int }

// parseTMY3 reads a typical year in TMY3 CSV form. The hour of a line is the one that ends then, 01:00 to 24:00.
func parseTMY3(data []byte, name string) (weather.Record, error) {
	in := lines{rest: data}
	r := weather.Record{Format: weather.FormatTMY3, HourEnds: true, Typical: true}
	first, _ := in.next()
	if err := tmy3Location(&r, first, name); err != nil {
		return r, err
	}
	second, _ := in.next()
	columns, count, err := tmy3Headings(second, name)
	if err != nil {
		return r, err
	}
	r.Observations = make([]weather.Observation, 0, 8784)
	fields := make([][]byte, count+1)
	for {
		line, more := in.next()
		if !more {
			return r, nil
		}
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if n := split(line, fields); n < count {
			return r, badLine(name, in.n, "columns", string(line[:min(len(line), 40)]))
		}
		o, ok := tmy3HourOf(fields, columns)
		if !ok {
			return r, badLine(name, in.n, "date", string(fields[0])+" "+string(fields[1]))
		}
		r.Observations = append(r.Observations, o)
	}
}

// tmy3Location reads the first line: number, place, region, time zone, latitude, longitude, elevation.
func tmy3Location(r *weather.Record, line []byte, name string) error {
	parts, err := csv.NewReader(bytes.NewReader(line)).Read()
	if err != nil || len(parts) < 7 {
		return badLine(name, 1, "place, time zone, latitude, longitude and elevation", string(line))
	}
	r.Name = placeName(parts[1], parts[2], "USA")
	values := [4]*float64{&r.ZoneHours, &r.LatDeg, &r.LonDeg, &r.ElevationM}
	for i, what := range [4]string{"time zone", "latitude", "longitude", "elevation"} {
		*values[i] = number([]byte(parts[3+i]))
		if math.IsNaN(*values[i]) {
			return badLine(name, 1, what, parts[3+i])
		}
	}
	return nil
}

func tmy3Headings(line []byte, name string) (c tmy3Columns, count int, err error) {
	headings := strings.Split(string(line), ",")
	for _, want := range []struct {
		at      *int
		heading string
		must    bool
	}{
		{&c.sun, "GHI (W/m^2)", true}, {&c.cloud, "TotCld (tenths)", true}, {&c.air, "Dry-bulb (C)", true}, {&c.dew, "Dew-point (C)", true},
		{&c.humidity, "RHum (%)", true}, {&c.pressure, "Pressure (mbar)", true}, {&c.wind, "Wspd (m/s)", true}, {&c.weather, "PresWth (METAR code)", false},
	} {
		*want.at = -1
		for i, h := range headings {
			if strings.TrimSpace(h) == want.heading {
				*want.at = i
			}
		}
		if want.must && *want.at < 0 {
			return c, 0, fail(CodeNoColumn, "file", name, "what", want.heading)
		}
	}
	return c, len(headings), nil
}

func tmy3HourOf(f [][]byte, c tmy3Columns) (o weather.Observation, ok bool) {
	date, time := f[0], f[1]
	if len(date) != 10 || len(time) != 5 {
		return o, false
	}
	month, okMonth := whole(date[:2], 1, 12)
	day, okDay := whole(date[3:5], 1, 31)
	year, okYear := whole(date[6:], 1800, 2200)
	hour, okHour := whole(time[:2], 1, 24)
	if !okMonth || !okDay || !okYear || !okHour {
		return o, false
	}
	n := math.NaN()
	o = weather.Observation{Year: int16(year), Month: int8(month), Day: int8(day), Clock: int8(hour - 1),
		InfraredWM2: n, WaterMM: n, WaterHours: n, SnowMM: n, RainMM: n, DepthMM: n}
	o.SunWM2 = within(f[c.sun], 0, 1500)
	o.CloudShare = within(f[c.cloud], 0, 10) / tenths
	o.AirC = within(f[c.air], -90, 70)
	o.DewC = within(f[c.dew], -90, 70)
	o.HumidityShare = percent.ToBase(within(f[c.humidity], 0, 110))
	o.PressurePa = millibar.ToBase(within(f[c.pressure], 310, 1200))
	o.WindMS = within(f[c.wind], 0, 80)
	if c.weather >= 0 {
		o.Weather = presentWeather(f[c.weather])
	}
	return o, true
}

// presentWeather reads a code of WMO table 4677, which a TMY3 CSV holds under PresWth: 00 to 99.
func presentWeather(code []byte) (p weather.Phenomena) {
	v, ok := whole(code, 0, 99)
	if !ok {
		return p
	}
	p.Reported, p.Any = true, v > 3
	switch {
	case v >= 50 && v <= 57:
		p.Drizzle, p.Freezing = pairs(v-50), v >= 56
		if v >= 56 {
			p.Drizzle = weather.Light + weather.Intensity(v-56)
		}
	case v == 58 || v == 59:
		p.Rain, p.Drizzle = weather.Intensity(v-57), weather.Light
	case v >= 60 && v <= 65:
		p.Rain = pairs(v - 60)
	case v == 66 || v == 67:
		p.Rain, p.Freezing = weather.Intensity(v-65), true
	case v == 68 || v == 69: // rain or drizzle and snow
		p.Rain, p.Snow = weather.Intensity(v-67), weather.Intensity(v-67)
	case v >= 70 && v <= 75:
		p.Snow = pairs(v - 70)
	case v == 76 || v == 78: // ice needles, lone star crystals
		p.IceCrystals = true
	case v == 77 || v == 79: // snow grains, ice pellets
		p.Snow = weather.Light
	case v >= 80 && v <= 82:
		p.Rain = weather.Intensity(v - 79)
	case v == 83 || v == 84: // rain and snow showers
		p.Rain, p.Snow = weather.Intensity(v-82), weather.Intensity(v-82)
	case v >= 85 && v <= 88: // snow showers, snow pellets
		p.Snow = weather.Light + weather.Intensity((v-85)%2)
	case v >= 91 && v <= 92:
		p.Rain = weather.Intensity(v - 90)
	case v == 93 || v == 94:
		p.Snow = weather.Intensity(v - 92)
	case v >= 95 && v <= 97:
		p.Rain = weather.Moderate
	}
	return p
}

// pairs reads light, moderate and heavy, which take two codes each: with and without breaks.
func pairs(v int) weather.Intensity { return weather.Light + weather.Intensity(v/2) }
