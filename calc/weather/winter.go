package weather

import (
	"iter"
	"math"
	"strconv"

	"thawbook/calc/units"
)

// Day is a day of the year, whatever the year.
type Day struct{ Month, Day int8 }

// DefaultSeason returns the first and the last day of the snow season, mirrored in the southern hemisphere.
func DefaultSeason(latDeg float64) (start, end Day) {
	if latDeg < 0 {
		return Day{4, 1}, Day{10, 31}
	}
	return Day{10, 1}, Day{4, 30}
}

// Slice is a run of hours of one year that belong to one winter.
type Slice struct {
	Winter int
	Hours  []Hour
}

// Season returns the station's winters between two days, both included, as runs of hours in time order. A winter that spans the new year has two
// runs: of a typical year its own autumn and then its own spring; of observed years the autumn of one and the spring of the next. Where no next
// year follows, a year that stands alone is taken as a typical one; the spring of the first and the autumn of the last of several are left out.
func (s *Station) Season(start, end Day) []Slice {
	var list []Slice
	winter := 0
	if !after(start, end) { // within one calendar year
		for i := range s.Years {
			list = appendRun(list, winter, between(s.Years[i].Hours, start, end))
			winter++
		}
		return list
	}
	for i := 0; i < len(s.Years); i++ {
		spring := i
		switch {
		case s.followedByNext(i):
			spring = i + 1
		case i > 0 && s.followedByNext(i-1):
			continue
		}
		list = appendRun(list, winter, between(s.Years[i].Hours, start, Day{12, 31}))
		list = appendRun(list, winter, between(s.Years[spring].Hours, Day{1, 1}, end))
		winter++
	}
	return list
}

// RecordYears returns how many years a station's hours stand for: the hours that lie in the usual snow season over those of a whole one. A winter that
// spans two calendar years is one year; calendar years count each by itself. At least a hundredth.
func (s *Station) RecordYears() float64 {
	start, end := DefaultSeason(s.LatDeg)
	hours := 0
	for i := range s.Years {
		all := s.Years[i].Hours
		if after(start, end) {
			hours += len(between(all, start, Day{12, 31})) + len(between(all, Day{1, 1}, end))
		} else {
			hours += len(between(all, start, end))
		}
	}
	years := float64(hours) / wholeSeason(start, end)
	if whole := math.Round(years); math.Abs(years-whole) < leapShare*max(1, whole) {
		return max(1, whole)
	}
	return max(0.01, years)
}

// leapShare is more than the share of a season that 29 February adds.
const leapShare = 0.006

// wholeSeason returns the hours of a season in a year without 29 February.
func wholeSeason(start, end Day) float64 {
	days := dayOfYear(end) - dayOfYear(start) + 1
	if days <= 0 {
		days += 365
	}
	return 24 * float64(days)
}

// dayOfYear returns the number of a day in a year without 29 February.
func dayOfYear(d Day) int {
	before := [...]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334}
	return before[d.Month-1] + int(d.Day)
}

// SeasonHours iterates over the hours of all winters between two days, both included, in the order of Season.
func (s *Station) SeasonHours(start, end Day) iter.Seq2[int, *Hour] {
	runs := s.Season(start, end)
	return func(yield func(int, *Hour) bool) {
		for _, run := range runs {
			for i := range run.Hours {
				if !yield(run.Winter, &run.Hours[i]) {
					return
				}
			}
		}
	}
}

// Winters returns how many winters a station's hours hold between two days.
func (s *Station) Winters(start, end Day) int {
	runs := s.Season(start, end)
	if len(runs) == 0 {
		return 0
	}
	return runs[len(runs)-1].Winter + 1
}

func appendRun(list []Slice, winter int, hours []Hour) []Slice {
	if len(hours) == 0 {
		return list
	}
	return append(list, Slice{winter, hours})
}

// followedByNext says whether the next of an observed station's years is the next calendar year.
func (s *Station) followedByNext(i int) bool {
	if s.Kind != Observed || i+1 >= len(s.Years) {
		return false
	}
	a, errA := strconv.Atoi(s.Years[i].Label)
	b, errB := strconv.Atoi(s.Years[i+1].Label)
	return errA == nil && errB == nil && b == a+1
}

func after(a, b Day) bool { return a.Month > b.Month || a.Month == b.Month && a.Day > b.Day }

func between(hours []Hour, start, end Day) []Hour {
	from := 0
	for from < len(hours) && after(start, Day{hours[from].Month, hours[from].Day}) {
		from++
	}
	to := len(hours)
	for to > from && after(Day{hours[to-1].Month, hours[to-1].Day}, end) {
		to--
	}
	return hours[from:to]
}

// mean returns the average of a value over the hours that count, NaN when there are none.
func (s *Station) mean(counts func(*Hour) bool, value func(*Hour) float64) float64 {
	sum, n := 0.0, 0
	for y := range s.Years {
		for i := range s.Years[y].Hours {
			if h := &s.Years[y].Hours[i]; counts(h) {
				sum += value(h)
				n++
			}
		}
	}
	if n == 0 {
		return math.NaN()
	}
	return sum / float64(n)
}

func (s *Station) midwinter(h *Hour) bool {
	if s.LatDeg < 0 {
		return h.Month >= 6 && h.Month <= 8
	}
	return h.Month == 12 || h.Month <= 2
}

// MeanWindDJF returns the mean wind of December to February, of June to August in the southern hemisphere, in m/s.
func MeanWindDJF(s Station) float64 {
	return s.mean(s.midwinter, func(h *Hour) float64 { return h.WindMS })
}

// AnnualMeanC returns the mean air temperature of all hours, in °C. Of a record that lacks a part of the year it is the mean of what there is.
func AnnualMeanC(s Station) float64 {
	return s.mean(func(*Hour) bool { return true }, func(h *Hour) float64 { return h.AirC })
}

// ColdestHourC returns the lowest air temperature of all hours, in °C.
func ColdestHourC(s Station) float64 {
	coldest := math.Inf(1)
	for y := range s.Years {
		for i := range s.Years[y].Hours {
			coldest = math.Min(coldest, s.Years[y].Hours[i].AirC)
		}
	}
	return coldest
}

// leastWinters is the number of winters from which a variation can be told.
const leastWinters = 3

// variation returns the coefficient of variation of seasonal snow totals over observed winters.
func variation(s Station) (v units.Maybe[float64]) {
	if s.Kind != Observed {
		return v
	}
	start, end := DefaultSeason(s.LatDeg)
	n := s.Winters(start, end)
	if n < leastWinters {
		return v
	}
	totals := make([]float64, n)
	for _, run := range s.Season(start, end) {
		for i := range run.Hours {
			totals[run.Winter] += run.Hours[i].SnowMM
		}
	}
	mean, square := 0.0, 0.0
	for _, t := range totals {
		mean += t / float64(n)
	}
	for _, t := range totals {
		square += (t - mean) * (t - mean) / float64(n-1)
	}
	if !(mean > 0) {
		return v
	}
	return units.Some(math.Sqrt(square) / mean)
}
