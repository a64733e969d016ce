package ingest

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/ingest/columns"
)

// climateStation is all rows of Climate that name one station.
type climateStation struct {
	own     columns.ClimateRow // the row without a month; zero when there is none
	first   record
	months  [12]*columns.ClimateRow
	failed  bool
	ownRows int
}

// climate reads the rows of Climate, grouped by station in the order of their first rows.
func (r *reader) climate() ([]*climateStation, error) {
	var list []*climateStation
	byName := map[string]*climateStation{}
	err := readSheet(r, columns.SheetClimate, columns.Climate(), func(c columns.ClimateRow, row record) {
		key := foldAll(c.Station)
		s := byName[key]
		if s == nil {
			s = &climateStation{first: row, own: columns.ClimateRow{Station: c.Station}}
			byName[key] = s
			list = append(list, s)
			r.book.climate[key] = row.row
		}
		s.failed = s.failed || row.failed
		r.join(s, c, row)
	})
	return list, err
}

// join adds one row to its station.
func (r *reader) join(s *climateStation, c columns.ClimateRow, row record) {
	name := finding.Words("name", c.Station)
	switch {
	case row.failed:
	case c.Month == 0:
		if s.ownRows++; s.ownRows > 1 {
			s.failed = true
			r.tellRow(finding.Error, CodeRowTwice, row, "climate_station", finding.Words("typed", c.Station))
			return
		}
		s.own, s.first = c, row
	case s.months[c.Month-1] != nil:
		s.failed = true
		r.tellRow(finding.Error, CodeMonthTwice, row, "climate_month", name, finding.Words("month", title(months[c.Month-1])))
	default:
		s.months[c.Month-1] = &c
	}
}

func title(word string) string { return strings.ToUpper(word[:1]) + word[1:] }

// stations makes the stations of Climate. Hourly files go before normals, normals before a design hour.
func (r *reader) stations(list []*climateStation) {
	for _, s := range list {
		var station weather.Station
		ok := false
		if !s.failed {
			station, ok = r.station(s)
		}
		if !ok {
			if s.own.Station != "" {
				r.book.RefusedStations = append(r.book.RefusedStations, s.own.Station)
			}
			continue
		}
		if s.own.ExtremeMinC.Known {
			station.ExtremeMinC = s.own.ExtremeMinC
		}
		if !station.SnowVariation.Known {
			station.SnowVariation = s.own.SnowVariation
		}
		r.book.Stations = append(r.book.Stations, station)
	}
}

func (r *reader) station(s *climateStation) (weather.Station, bool) {
	name := finding.Words("name", s.own.Station)
	hour, asked, complete := s.designHour()
	told := 0
	for i, m := range s.months {
		if m != nil {
			told |= 1 << i
		}
	}
	hasFiles := len(split(s.own.WeatherFiles)) > 0
	if (hasFiles && (told != 0 || asked)) || (told != 0 && asked) {
		taken := "monthly normals"
		if hasFiles {
			taken = "weather file"
		}
		r.tellRow(finding.Warning, CodeStationTwofold, s.first, "climate_station", name, finding.Words("taken", taken))
	}
	switch {
	case hasFiles:
		return r.observed(s)
	case told != 0:
		return r.synthetic(s, told)
	case asked && complete:
		return r.designOnly(s, hour)
	case asked:
		r.tellRow(finding.Error, CodeDesignIncomplete, s.first, "climate_design_air", name)
	default:
		r.tellRow(finding.Error, CodeStationNothing, s.first, "climate_station", name)
	}
	return weather.Station{}, false
}

// observed makes a station of hourly files. A place told in the row goes before that of the file.
func (r *reader) observed(s *climateStation) (weather.Station, bool) {
	station, bad := r.files.station(s.own.Station, s.own.WeatherFiles)
	if bad != nil {
		bad.Field, bad.At = "climate_weather_file", s.first.layout.cell(s.first.row, "climate_weather_file")
		r.add(*bad)
		return station, false
	}
	if s.own.LatitudeDeg.Known || s.own.LongitudeDeg.Known || s.own.ElevationM.Known {
		place := weather.Place{LatDeg: s.own.LatitudeDeg.Or(station.LatDeg), LonDeg: s.own.LongitudeDeg.Or(station.LonDeg), ElevationM: s.own.ElevationM.Or(station.ElevationM)}
		station = weather.NewStation(station.Name, place, station.Kind, station.Years, station.Sources)
	}
	return station, true
}

// synthetic makes a station of monthly normals.
func (r *reader) synthetic(s *climateStation, told int) (weather.Station, bool) {
	name := finding.Words("name", s.own.Station)
	if told != 1<<12-1 {
		var missing []string
		for i, m := range s.months {
			if m == nil {
				missing = append(missing, title(months[i]))
			}
		}
		r.tellRow(finding.Error, CodeMonthsMissing, s.first, "climate_month", name, finding.Words("months", strings.Join(missing, ", ")))
		return weather.Station{}, false
	}
	stats := weather.Statistics{Name: s.own.Station, LatDeg: s.own.LatitudeDeg.Value, LonDeg: s.own.LongitudeDeg.Value, ElevationM: s.own.ElevationM.Value,
		ExtremeMinC: s.own.ExtremeMinC, SnowVariation: s.own.SnowVariation, Source: "monthly normals of the workbook"}
	nan := math.NaN()
	for i, m := range s.months {
		stats.Normals[i] = weather.MonthNormals{MeanC: m.MeanC.Or(nan), DailyRangeK: m.DailyRangeK.Or(nan), DewC: m.DewC.Or(nan), WindMS: m.WindMS.Or(nan),
			CloudShare: m.CloudShare.Or(nan), SnowMM: m.SnowMM.Or(nan), RainMM: m.RainMM.Or(nan), SnowDays: m.SnowDays.Or(nan)}
	}
	station, err := stats.Station()
	if err != nil {
		bad := fileFinding(s.own.Station, err)
		bad.Field, bad.At = "climate_station", s.first.layout.cell(s.first.row, "climate_station")
		bad.Args = append(bad.Args, name)
		r.add(*bad)
		return station, false
	}
	return station, true
}

// designHour returns the design hour of the row, whether any of it is given, and whether all of it is.
func (s *climateStation) designHour() (hour weather.DesignHour, asked, complete bool) {
	o := s.own
	hour = weather.DesignHour{AirC: o.DesignAirC.Value, DewC: o.DesignDewC.Value, WindMS: o.DesignWindMS.Value, SnowMMH: o.DesignSnowMMH.Value}
	asked = o.DesignAirC.Known || o.DesignDewC.Known || o.DesignWindMS.Known || o.DesignSnowMMH.Known
	return hour, asked, o.DesignAirC.Known && o.DesignDewC.Known && o.DesignWindMS.Known && o.DesignSnowMMH.Known
}

// designOnly makes a station of one design hour.
func (r *reader) designOnly(s *climateStation, hour weather.DesignHour) (weather.Station, bool) {
	if hour.DewC > hour.AirC {
		r.tellRow(finding.Error, CodeDewAboveAir, s.first, "climate_design_dew", finding.Typed("dew", hour.DewC, units.Temperature), finding.Typed("air", hour.AirC, units.Temperature))
		return weather.Station{}, false
	}
	place := weather.Place{LatDeg: s.own.LatitudeDeg.Value, LonDeg: s.own.LongitudeDeg.Value, ElevationM: s.own.ElevationM.Value}
	station := weather.NewStation(s.own.Station, place, weather.DesignOnly, nil, nil)
	station.DesignHour = units.Some(hour)
	sum := sha256.Sum256(fmt.Appendf(nil, "%s %v", station.Digest, hour)) // the hour is all its weather
	station.Digest = hex.EncodeToString(sum[:])
	return station, true
}
