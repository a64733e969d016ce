package hourly

import (
	"bytes"
	"math"
	"strings"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// The columns of an EPW data line that are read, from 0. Source: EnergyPlus auxiliary programs, EPW data dictionary.
const (
	epwYear = iota
	epwMonth
	epwDay
	epwHour
	epwAir         = 6
	epwDew         = 7
	epwHumidity    = 8
	epwPressure    = 9
	epwInfrared    = 12
	epwSun         = 13
	epwWind        = 21
	epwCloud       = 22
	epwIndicator   = 26
	epwCodes       = 27
	epwDepth       = 30
	epwWater       = 33
	epwWaterPeriod = 34
	epwFields      = 35
	epwLeast       = 29 // columns of the oldest files, without water depth
	epwHeaderLines = 8
)

// parseEPW reads a typical or an observed year in EPW form. The hour of a line is the one that ends then, 1 to 24.
func parseEPW(data []byte, name string) (weather.Record, error) {
	in := lines{rest: data}
	r := weather.Record{Format: weather.FormatEPW, HourEnds: true}
	first, _ := in.next()
	if err := epwLocation(&r, first, name); err != nil {
		return r, err
	}
	r.Observations = make([]weather.Observation, 0, 8784)
	var fields [epwFields + 1][]byte
	for {
		line, more := in.next()
		if !more {
			break
		}
		if in.n <= epwHeaderLines && !startsWithDigit(line) || len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if n := split(line, fields[:]); n < epwLeast {
			return r, badLine(name, in.n, "columns", string(line[:min(len(line), 40)]))
		} else {
			clear(fields[n:])
		}
		o, err := epwHourOf(&fields, name, in.n)
		if err != nil {
			return r, err
		}
		r.Observations = append(r.Observations, o)
	}
	r.Typical = typical(&r, strings.Split(string(first), ",")[4])
	return r, nil
}

func startsWithDigit(line []byte) bool { return len(line) > 0 && line[0] >= '0' && line[0] <= '9' }

// epwLocation reads the first line: place, region, country, source, number, latitude, longitude, time zone, elevation.
func epwLocation(r *weather.Record, line []byte, name string) error {
	parts := strings.Split(string(line), ",")
	if len(parts) < 10 {
		return badLine(name, 1, "place, latitude, longitude, time zone and elevation", string(line))
	}
	r.Name = placeName(parts[1], parts[2], parts[3])
	values := [4]*float64{&r.LatDeg, &r.LonDeg, &r.ZoneHours, &r.ElevationM}
	for i, what := range [4]string{"latitude", "longitude", "time zone", "elevation"} {
		*values[i] = number([]byte(parts[6+i]))
		if math.IsNaN(*values[i]) {
			return badLine(name, 1, what, parts[6+i])
		}
	}
	return nil
}

func epwHourOf(f *[epwFields + 1][]byte, name string, line int) (weather.Observation, error) {
	var o weather.Observation
	year, okYear := whole(f[epwYear], 1800, 2200)
	month, okMonth := whole(f[epwMonth], 1, 12)
	day, okDay := whole(f[epwDay], 1, 31)
	hour, okHour := whole(f[epwHour], 1, 24)
	if !okYear || !okMonth || !okDay || !okHour {
		return o, badLine(name, line, "date", string(bytes.Join(f[:4], []byte(","))))
	}
	o.SnowMM, o.RainMM = math.NaN(), math.NaN()
	o.Year, o.Month, o.Day, o.Clock = int16(year), int8(month), int8(day), int8(hour-1)
	o.AirC = within(f[epwAir], -90, 70)
	o.DewC = within(f[epwDew], -90, 70)
	o.HumidityShare = percent.ToBase(within(f[epwHumidity], 0, 110))
	o.PressurePa = within(f[epwPressure], 31000, 120000)
	o.InfraredWM2 = within(f[epwInfrared], 1, 9998)
	o.SunWM2 = within(f[epwSun], 0, 9998)
	o.WindMS = within(f[epwWind], 0, 80)
	o.CloudShare = within(f[epwCloud], 0, 10) / tenths
	o.DepthMM = centimetres.ToBase(within(f[epwDepth], 0, 998))
	o.WaterMM = within(f[epwWater], 0, 998)
	o.WaterHours = within(f[epwWaterPeriod], 0, 98)
	o.Weather = epwWeather(f[epwIndicator], f[epwCodes])
	return o, nil
}

var (
	percent, _     = units.Share.Parse("%")
	centimetres, _ = units.WaterDepth.Parse("cm")
	millibar, _    = units.Pressure.Parse("mbar")
)

// tenths is the whole sky in the unit of cloud cover.
const tenths = 10

// epwWeather reads the nine digits of present weather: thunder, rain, drizzle, snow, snow showers, sleet, fog, smoke, hail; 9 is none. They count
// where the indicator says that weather was observed.
func epwWeather(indicator, codes []byte) weather.Phenomena {
	var p weather.Phenomena
	codes = bytes.TrimSpace(codes)
	if v := number(indicator); v != 0 || len(codes) > 9 || len(codes) == 0 {
		return p
	}
	digits := [9]byte{'0', '0', '0', '0', '0', '0', '0', '0', '0'} // leading zeros are lost where a file was written as numbers
	copy(digits[9-len(codes):], codes)
	p.Reported = true
	for _, d := range digits {
		p.Any = p.Any || d != '9'
	}
	rain, freezing := fall(digits[1])
	p.Rain, p.Freezing = rain, freezing
	if digits[2] >= '3' { // 0 to 2 are squalls, seen at the hour's minute and named again among rain
		p.Drizzle, freezing = fall(digits[2])
		p.Freezing = p.Freezing || freezing
	} else {
		p.Rain = max(p.Rain, steps(digits[2]))
	}
	p.IceCrystals = digits[3] >= '6' && digits[3] <= '8'
	if !p.IceCrystals {
		p.Snow = steps(digits[3])
	}
	p.Snow = max(p.Snow, steps(digits[4]))
	return p
}

// fall reads a digit whose 6 to 8 freeze.
func fall(d byte) (weather.Intensity, bool) { return steps(d), d >= '6' && d <= '8' }

// steps reads light, moderate and heavy, which repeat every three digits; 9 is none.
func steps(d byte) weather.Intensity {
	if d < '0' || d > '8' {
		return weather.None
	}
	return weather.Light + weather.Intensity((d-'0')%3)
}

// typical says whether a year was put together from months of several years, or its source calls it typical.
func typical(r *weather.Record, source string) bool {
	for _, word := range [...]string{"TMY", "TRY", "IWEC", "CWEC", "CTZ", "CSWD", "ISHRAE", "IGDG", "RMY", "SWEC"} {
		if strings.Contains(source, word) {
			return true
		}
	}
	for i := range r.Observations {
		if i > 0 && r.Observations[i].Year < r.Observations[i-1].Year {
			return true
		}
	}
	return false
}
