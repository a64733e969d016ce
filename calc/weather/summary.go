package weather

import (
	"math"
	"slices"

	"thawbook/calc/air"
)

const snowDayMM = QuarterMM // about 2.5 mm of new snow, the least that is read on a stake

// Summarise derives the statistics of a station's years: normals and joint statistics, as averages of a year. Months that no year has are drawn
// from the yearly course of the others.
func Summarise(s Station) Statistics {
	st := Statistics{Name: s.Name, LatDeg: s.LatDeg, LonDeg: s.LonDeg, ElevationM: s.ElevationM, ExtremeMinC: s.ExtremeMinC, SnowVariation: s.SnowVariation}
	for m := range 12 {
		st.month(&s, m)
	}
	st.completeMonths()
	st.Joint.Storms = storms(&s)
	st.Joint.Cells = cells(&s)
	return st
}

// month fills one month, 0 to 11.
func (st *Statistics) month(s *Station, m int) {
	var days []day
	var air, dew, wind, windSquare, cloud, snow, rain, hours float64
	var wetAir []float64
	rainHours, coldRain, sun, years := 0, 0, 0.0, 0
	var sky line
	for y := range s.Years {
		before := hours
		for i := range s.Years[y].Hours {
			h := &s.Years[y].Hours[i]
			if int(h.Month) != m+1 {
				continue
			}
			if h.Clock == 0 || len(days) == 0 || hours == before {
				days = append(days, day{low: math.Inf(1), high: math.Inf(-1)})
			}
			days[len(days)-1].add(h)
			hours++
			air, dew, cloud = air+h.AirC, dew+h.DewC, cloud+h.CloudShare
			wind, windSquare = wind+h.WindMS, windSquare+h.WindMS*h.WindMS
			snow, rain = snow+h.SnowMM, rain+h.RainMM
			if h.SnowMM > 0 {
				wetAir = append(wetAir, h.AirC)
			}
			if h.RainMM > 0 && h.SnowMM == 0 {
				rainHours++
				if h.AirC < coldRainC {
					coldRain++
				}
			}
			sun += h.SunWM2
			if h.InfraredWM2 > 0 {
				sky.add(h.CloudShare, blackBody(h.AirC)-h.InfraredWM2)
			}
		}
		if hours > before {
			years++
		}
	}
	n, j := &st.Normals[m], &st.Joint.Months[m]
	if hours == 0 {
		*n = MonthNormals{MeanC: math.NaN()}
		return
	}
	per := 1 / float64(years)
	mean := wind / hours
	*n = MonthNormals{MeanC: air / hours, DewC: dew / hours, WindMS: mean, CloudShare: cloud / hours, SnowMM: snow * per, RainMM: rain * per}
	for _, d := range days {
		n.DailyRangeK += (d.high - d.low) / float64(len(days))
		if d.snow >= snowDayMM-equal {
			n.SnowDays += per
		}
	}
	j.spread(days)
	if mean > 0 {
		j.WindSpread = math.Sqrt(math.Max(windSquare/hours-mean*mean, 0)) / mean
	}
	j.WetHours, j.RainHours, j.ColdRain, j.SunWM2 = float64(len(wetAir))*per, float64(rainHours)*per, float64(coldRain)*per, sun/hours
	j.SkyClear, j.SkyOvercast = sky.ends()
	if len(wetAir) > 0 {
		slices.Sort(wetAir)
		for i, q := range wetAirShares {
			j.WetAirC[i] = quantile(wetAir, q)
		}
	}
}

// coldRainC is the air temperature below which rain wets a pavement that may be cold [°C].
const coldRainC = 2

// blackBody returns σ T⁴ in W/m². Source: CODATA 2018.
func blackBody(c float64) float64 { return 5.670374419e-8 * math.Pow(air.Kelvin(c), 4) }

// line is a straight line through points, by least squares.
type line struct{ n, x, y, xx, xy float64 }

func (l *line) add(x, y float64) {
	l.n, l.x, l.y, l.xx, l.xy = l.n+1, l.x+x, l.y+y, l.xx+x*x, l.xy+x*y
}

// ends returns the line at 0 and at 1, both 0 without points.
func (l *line) ends() (at0, at1 float64) {
	if l.n == 0 {
		return 0, 0
	}
	slope := 0.0
	if spread := l.n*l.xx - l.x*l.x; spread > 1e-9 {
		slope = (l.n*l.xy - l.x*l.y) / spread
	}
	at0 = (l.y - slope*l.x) / l.n
	return at0, at0 + slope
}

// day sums up a day.
type day struct{ sum, hours, low, high, snow float64 }

func (d *day) add(h *Hour) {
	d.sum, d.hours, d.snow = d.sum+h.AirC, d.hours+1, d.snow+h.SnowMM
	d.low, d.high = math.Min(d.low, h.AirC), math.Max(d.high, h.AirC)
}

// spread tells how daily means lie around the month's and how one follows the other.
func (j *MonthJoint) spread(days []day) {
	means := make([]float64, len(days))
	for i, d := range days {
		means[i] = d.sum / d.hours
	}
	_, j.Persistence = meanAndPersistence(means)
	slices.Sort(means)
	for i, q := range dailyShares {
		j.DailyC[i] = quantile(means, q)
	}
}

// meanAndPersistence returns the mean of a series and the correlation of each value with the one before it, 0 to 0.95.
func meanAndPersistence(series []float64) (mean, persistence float64) {
	for _, v := range series {
		mean += v / float64(len(series))
	}
	var square, lagged float64
	for i, v := range series {
		square += (v - mean) * (v - mean)
		if i > 0 {
			lagged += (v - mean) * (series[i-1] - mean)
		}
	}
	if square > 0 {
		persistence = math.Max(0, math.Min(0.95, lagged/square))
	}
	return mean, persistence
}

// completeMonths gives months without hours the temperature of a yearly sine through the others, and else their mean.
func (st *Statistics) completeMonths() {
	var told []int
	for m, n := range st.Normals {
		if !math.IsNaN(n.MeanC) {
			told = append(told, m)
		}
	}
	if len(told) == 12 || len(told) < 6 {
		return
	}
	mean, swing, warmest := st.yearlySine(told)
	var other MonthNormals
	for _, m := range told {
		n, k := st.Normals[m], 1/float64(len(told))
		other.DailyRangeK, other.WindMS, other.CloudShare, other.DewC = other.DailyRangeK+k*n.DailyRangeK, other.WindMS+k*n.WindMS, other.CloudShare+k*n.CloudShare, other.DewC+k*(n.MeanC-n.DewC)
	}
	for m := range st.Normals {
		if !math.IsNaN(st.Normals[m].MeanC) {
			continue
		}
		t := mean + swing*math.Cos(2*math.Pi*(float64(m)-warmest)/12)
		st.Normals[m] = MonthNormals{MeanC: t, DailyRangeK: other.DailyRangeK, DewC: t - other.DewC, WindMS: other.WindMS, CloudShare: other.CloudShare}
		j := &st.Joint.Months[m]
		*j = MonthJoint{Persistence: genericPersistence, WindSpread: genericWindSpread}
		for i, q := range dailyShares {
			j.DailyC[i] = t + genericDayToDayK(t, 2*swing, other.DailyRangeK)*normalQuantile(q)
		}
	}
}

// yearlySine fits mean + swing cos(2π (m − warmest)/12) to the months that are told: the warmest month is sought, the two others are linear.
func (st *Statistics) yearlySine(told []int) (mean, swing, warmest float64) {
	best := math.Inf(1)
	for try := 0.0; try < 12; try += 0.25 {
		var sc, st2, sct, scc float64
		for _, m := range told {
			c, t := math.Cos(2*math.Pi*(float64(m)-try)/12), st.Normals[m].MeanC
			sc, st2, sct, scc = sc+c, st2+t, sct+c*t, scc+c*c
		}
		n := float64(len(told))
		b := (n*sct - sc*st2) / (n*scc - sc*sc)
		a := (st2 - b*sc) / n
		miss := 0.0
		for _, m := range told {
			d := st.Normals[m].MeanC - a - b*math.Cos(2*math.Pi*(float64(m)-try)/12)
			miss += d * d
		}
		if b > 0 && miss < best {
			best, mean, swing, warmest = miss, a, b, try
		}
	}
	return mean, swing, warmest
}

// stormGap is the longest dry gap inside a storm [h]: the hold time of a timer after the last snow, and a little more.
const stormGap = 6

// storms sorts the storms of all years into bins of their wet hours, as averages of a year.
func storms(s *Station) []StormBin {
	bins := make([]StormBin, len(stormLens)+1)
	winters := snowWinters(s)
	for y := range s.Years {
		hours := s.Years[y].Hours
		for i := 0; i < len(hours); i++ {
			if hours[i].SnowMM <= 0 {
				continue
			}
			last, wet := i, 1.0
			for k := i + 1; k < len(hours) && k-last <= stormGap+1 && hours[k].Month == hours[i].Month; k++ {
				if hours[k].SnowMM > 0 {
					last, wet = k, wet+1
				}
			}
			b := &bins[bin(wet-0.5, stormLens)]
			b.Storms, b.Wet, b.Span = b.Storms+1/winters, b.Wet+wet/winters, b.Span+float64(last-i+1)/winters
			i = last
		}
	}
	return slices.DeleteFunc(bins, func(b StormBin) bool { return b.Storms == 0 })
}

// snowWinters returns how many times the snowiest month of the record is in it: the years by which counts are divided.
func snowWinters(s *Station) float64 {
	var months [12]int
	for y := range s.Years {
		var seen [12]bool
		for i := range s.Years[y].Hours {
			seen[s.Years[y].Hours[i].Month-1] = true
		}
		for m, there := range seen {
			if there {
				months[m]++
			}
		}
	}
	if s.LatDeg < 0 {
		return math.Max(1, float64(months[6]))
	}
	return math.Max(1, float64(months[0]))
}

// cells bins the wet hours of all years by air temperature, wind and rate.
func cells(s *Station) []SnowCell {
	grid := map[[3]int]*SnowCell{}
	var order [][3]int
	for y := range s.Years {
		for i := range s.Years[y].Hours {
			h := &s.Years[y].Hours[i]
			if h.SnowMM <= 0 {
				continue
			}
			key := [3]int{bin(h.SnowMM, cellRates), bin(h.WindMS, cellWinds), bin(h.AirC, cellAirs)}
			c := grid[key]
			if c == nil {
				c = &SnowCell{}
				grid[key] = c
				order = append(order, key)
			}
			c.Hours++
			c.AirC, c.WindMS, c.RateMM, c.DewK, c.Cloud = c.AirC+h.AirC, c.WindMS+h.WindMS, c.RateMM+h.SnowMM, c.DewK+h.AirC-h.DewC, c.Cloud+h.CloudShare
		}
	}
	slices.SortFunc(order, func(a, b [3]int) int { return slices.Compare(a[:], b[:]) })
	winters := snowWinters(s)
	list := make([]SnowCell, 0, len(order))
	for _, key := range order {
		c := *grid[key]
		list = append(list, SnowCell{c.Hours / winters, c.AirC / c.Hours, c.WindMS / c.Hours, c.RateMM / c.Hours, c.DewK / c.Hours, c.Cloud / c.Hours})
	}
	return list
}
