package weather

import (
	"math"
	"strconv"
)

// FromRecord makes the year of hours that a record of one typical or calendar year holds: gaps filled and counted, snow told from rain.
//
// Errors: *Unusable when air temperature, humidity, wind or everything about snow is missing, or when the record covers several calendar years
// (YearsFromRecord takes those).
func FromRecord(r Record) (Year, error) {
	years, err := YearsFromRecord(r)
	if err != nil {
		return Year{}, err
	}
	if len(years) > 1 {
		return Year{}, unusable(CodeSeveralYears, "years", years[0].Label+" … "+years[len(years)-1].Label)
	}
	return years[0], nil
}

// YearsFromRecord makes a year of hours of each calendar year in a record; a typical year is one.
//
// Errors: as FromRecord.
func YearsFromRecord(r Record) ([]Year, error) {
	var years []Year
	for _, hours := range calendar(r) {
		y, err := yearOf(r, hours)
		if err != nil {
			return nil, err
		}
		years = append(years, y)
	}
	if len(years) == 0 {
		return nil, unusable(CodeFewHours, "hours", "0")
	}
	return years, nil
}

// leastHours is the shortest record that can tell anything of a winter: four weeks.
const leastHours = 28 * 24

func yearOf(r Record, hours []Observation) (Year, error) {
	y := Year{Label: "typical"}
	if !r.Typical {
		y.Label = strconv.Itoa(int(hours[0].Year))
	}
	if len(hours) < leastHours {
		return Year{}, unusable(CodeFewHours, "hours", strconv.Itoa(len(hours)))
	}
	filled, err := fill(r, hours)
	if err != nil {
		return Year{}, err
	}
	y.Filled, y.Assumed = filled.hours, filled.assumed
	y.Hours = make([]Hour, len(hours))
	for i, o := range hours {
		y.Hours[i] = Hour{Month: o.Month, Day: o.Day, Clock: o.Clock, AirC: o.AirC, DewC: o.DewC, PressurePa: o.PressurePa,
			WindMS: o.WindMS, CloudShare: o.CloudShare, InfraredWM2: o.InfraredWM2, SunWM2: o.SunWM2}
		y.HasInfrared = y.HasInfrared || !math.IsNaN(o.InfraredWM2)
	}
	if err := tellSnow(r, hours, &y); err != nil {
		return Year{}, err
	}
	estimateSky(r.LatDeg, r.LonDeg, r.ZoneHours, &y)
	return y, nil
}

// calendar puts observations in their places: one list a calendar year, without holes from its first to its last hour. A typical year has no
// 29 February. The later of two rows of one hour counts.
func calendar(r Record) [][]Observation {
	var years [][]Observation
	for _, span := range spans(r) {
		list := make([]Observation, span.last-span.first+1)
		for i := range list {
			list[i] = missingHour(int16(span.year), span.first+i, span.leap)
		}
		for _, o := range r.Observations {
			if !r.Typical && int(o.Year) != span.year {
				continue
			}
			if i := hourOfYear(o.Month, o.Day, o.Clock, span.leap); i >= 0 {
				list[i-span.first] = o
			}
		}
		years = append(years, list)
	}
	return years
}

type span struct {
	year, first, last int
	leap              bool
}

func spans(r Record) []span {
	var list []span
	for _, o := range r.Observations {
		year := int(o.Year)
		if r.Typical {
			year = 0
		}
		leap := !r.Typical && isLeap(year)
		i := hourOfYear(o.Month, o.Day, o.Clock, leap)
		if i < 0 {
			continue
		}
		at := -1
		for k := range list {
			if list[k].year == year {
				at = k
			}
		}
		if at < 0 {
			list = append(list, span{year, i, i, leap})
			continue
		}
		list[at].first, list[at].last = min(list[at].first, i), max(list[at].last, i)
	}
	for i := 1; i < len(list); i++ {
		for k := i; k > 0 && list[k-1].year > list[k].year; k-- {
			list[k-1], list[k] = list[k], list[k-1]
		}
	}
	return list
}

var monthDays = [13]int{0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

func isLeap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

func daysIn(month int, leap bool) int {
	if month == 2 && leap {
		return 29
	}
	return monthDays[month]
}

// hourOfYear counts hours from 1 January 00:00; −1 for no date of the year.
func hourOfYear(month, day, clock int8, leap bool) int {
	if month < 1 || month > 12 || day < 1 || int(day) > daysIn(int(month), leap) || clock < 0 || clock > 23 {
		return -1
	}
	days := int(day) - 1
	for m := 1; m < int(month); m++ {
		days += daysIn(m, leap)
	}
	return days*24 + int(clock)
}

// dateOf is the inverse of hourOfYear.
func dateOf(i int, leap bool) (month, day, clock int8) {
	days := i / 24
	m := 1
	for days >= daysIn(m, leap) {
		days -= daysIn(m, leap)
		m++
	}
	return int8(m), int8(days + 1), int8(i % 24)
}

func missingHour(year int16, i int, leap bool) Observation {
	n := math.NaN()
	o := Observation{Year: year, AirC: n, DewC: n, HumidityShare: n, PressurePa: n, WindMS: n, CloudShare: n, InfraredWM2: n, SunWM2: n,
		WaterMM: n, WaterHours: n, SnowMM: n, RainMM: n, DepthMM: n}
	o.Month, o.Day, o.Clock = dateOf(i, leap)
	return o
}
