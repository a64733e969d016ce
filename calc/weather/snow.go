package weather

import (
	"math"

	"thawbook/calc/finding"
)

// SnowHourMM is the least snow water of a snowfall hour, and QuarterMM that of the hours which a reanalysis does not dilute [mm].
const (
	SnowHourMM = 0.1
	QuarterMM  = 0.25
)

// equal is the rounding of sums and shares that must not turn a 0.1 mm hour into less [mm].
const equal = 1e-9

// Snowing says whether this is a snowfall hour: at least 0.1 mm of snow water.
func (h *Hour) Snowing() bool { return h.SnowMM >= SnowHourMM-equal }

// SnowingQuarter says whether at least 0.25 mm of snow water fell in this hour.
func (h *Hour) SnowingQuarter() bool { return h.SnowMM >= QuarterMM-equal }

// SnowShare returns the share of precipitation that falls as snow at an air temperature.
//
//	f = clamp((2.5 °C − t_a)/2.5 K, 0, 1)
//
// Source: engineering method, section 1; between Auer 1974 (Weatherwise 27) and Dai 2008 (GRL 35).
func SnowShare(airC float64) float64 { return math.Max(0, math.Min(1, (2.5-airC)/2.5)) }

const (
	leastWaterMM = 1  // a year with less holds no precipitation record: zeros that mean "not given"
	mostWaterMM  = 99 // and more means "missing"
	snowDensity  = 10 // depth of new snow to its water, 10:1
	readingUTC   = 12 // hour of the day's depth reading
)

// Rates of water where a file has codes alone [mm/h]: light, moderate, heavy. Source: engineering method, sections 1 and 4 (Lebanon NH 2022 and
// the depth rises of the 1961-1990 years; heavy snow is assumed).
var (
	snowRate    = [4]float64{0, 0.2, 1.5, 2.5}
	rainRate    = [4]float64{0, 0.5, 2, 5}
	drizzleRate = [4]float64{0, 0.1, 0.2, 0.4}
	depthWeight = [4]float64{0, 1, 4, 7} // shares of a day's new depth
)

// tellSnow finds snow and rain of every hour by the first rule that the record can serve.
func tellSnow(r Record, hours []Observation, y *Year) error {
	codes, coded := heldCodes(hours)
	y.SnowCodeHour = coded
	if measured(hours, y) {
		y.SnowRule = RuleMeasured
		return nil
	}
	water, missing, total := hourlyWater(hours, r.LatDeg, r.Typical)
	switch {
	case total > leastWaterMM && 2*missing <= seasonHours(hours, r.LatDeg):
		y.Missing = missing
		fromWater(r, hours, water, y)
	case coded > 0 && hasDepth(hours):
		y.SnowRule = RuleCodesSnow
		fromDepth(r, hours, codes, y)
		rainFromCodes(codes, y)
	case coded > 0:
		y.SnowRule = RuleCodes
		for i, c := range codes {
			y.Hours[i].SnowMM = snowRate[c.Snow]
		}
		rainFromCodes(codes, y)
	default:
		return noSnowData(total, missing)
	}
	return nil
}

func noSnowData(total float64, missing int) error {
	what := "water depth, snow depth and weather codes"
	if total > leastWaterMM {
		what = "water depth in most hours of the season, and weather codes"
	}
	return &Unusable{Code: CodeNoSnowData, Args: []finding.Arg{finding.Words("what", what)}}
}

// measured takes snow and rain that were measured apart.
func measured(hours []Observation, y *Year) bool {
	known := false
	for _, o := range hours {
		known = known || !math.IsNaN(o.SnowMM)
	}
	if !known {
		return false
	}
	for i, o := range hours {
		if math.IsNaN(o.SnowMM) {
			y.Missing++
			continue
		}
		y.Hours[i].SnowMM = o.SnowMM
		if !math.IsNaN(o.RainMM) {
			y.Hours[i].RainMM = o.RainMM
		}
	}
	return true
}

// fromWater splits the hour's water by temperature; in observed records the reported weather type decides where it is plain.
func fromWater(r Record, hours []Observation, water []float64, y *Year) {
	y.SnowRule = RuleDepth
	for i := range hours {
		if math.IsNaN(water[i]) {
			continue
		}
		share, told := 0.0, false
		if !r.Typical {
			share, told = hours[i].Weather.share()
		}
		if told {
			y.SnowRule = RuleDepthCodes
		} else {
			share = SnowShare(y.Hours[i].AirC)
		}
		y.Hours[i].SnowMM = share * water[i]
		y.Hours[i].RainMM = water[i] - y.Hours[i].SnowMM
	}
}

// share returns the snow share that a report tells: 1 for snow alone, 0 for rain or drizzle alone.
func (p Phenomena) share() (share float64, told bool) {
	rain := p.Rain > None || p.Drizzle > None
	switch {
	case p.Snow > None && !rain:
		return 1, true
	case rain && p.Snow == None:
		return 0, true
	}
	return 0, false
}

// hourlyWater returns the water of each hour, NaN where it stays missing, with the number of missing hours in the season and the year's sum.
// Amounts of several hours are spread, less what those hours already carry, over those of them that have no amount of their own.
func hourlyWater(hours []Observation, latDeg float64, typical bool) (water []float64, missing int, total float64) {
	water = make([]float64, len(hours))
	known := func(o *Observation) bool { return o.WaterMM >= 0 && o.WaterMM < mostWaterMM }
	for i := range hours {
		water[i] = math.NaN()
		if o := &hours[i]; known(o) && period(o) == 1 {
			water[i] = o.WaterMM
		}
	}
	for n := 2; n <= 24; n++ { // the finer amounts first
		for i := range hours {
			if known(&hours[i]) && period(&hours[i]) == n {
				spread(hours, water, i, n, typical)
			}
		}
	}
	for i := range water {
		if math.IsNaN(water[i]) {
			if inSeason(hours[i].Month, latDeg) {
				missing++
			}
			continue
		}
		total += water[i]
	}
	return water, missing, total
}

// period returns the whole hours that an amount stands for; a quantity of 0 or "missing" is one hour.
func period(o *Observation) int {
	if o.WaterHours > 1 && o.WaterHours <= 24 {
		return int(math.Round(o.WaterHours))
	}
	return 1
}

// spread puts the amount of hour i over the n hours that end with it.
func spread(hours []Observation, water []float64, i, n int, typical bool) {
	first := i
	for first > 0 && i-first+1 < n && follows(hours, first, typical) {
		first--
	}
	rest, blanks := hours[i].WaterMM, 0
	for k := first; k <= i; k++ {
		if math.IsNaN(water[k]) {
			blanks++
		} else {
			rest -= water[k]
		}
	}
	rest = math.Max(rest, 0)
	for k := first; k <= i; k++ {
		switch {
		case blanks == 0:
			water[k] += rest / float64(i-first+1)
		case math.IsNaN(water[k]):
			water[k] = rest / float64(blanks)
		}
	}
}

// follows says whether hour i really followed the hour before it: not across the join of two months of a typical year.
func follows(hours []Observation, i int, typical bool) bool {
	return !typical || hours[i].Month == hours[i-1].Month
}

// inSeason says whether a month belongs to the snow season, October to April, mirrored in the south.
func inSeason(month int8, latDeg float64) bool {
	if latDeg < 0 {
		return month >= 4 && month <= 10
	}
	return month >= 10 || month <= 4
}

func seasonHours(hours []Observation, latDeg float64) int {
	n := 0
	for i := range hours {
		if inSeason(hours[i].Month, latDeg) {
			n++
		}
	}
	return n
}

func hasDepth(hours []Observation) bool {
	for i := range hours {
		if hours[i].DepthMM > 0 {
			return true
		}
	}
	return false
}

// heldCodes returns the weather of each hour, with the reports of months that carry one at every third hour only held over the hour before and
// after, and the number of hours that are then coded as snow.
func heldCodes(hours []Observation) (codes []Phenomena, snowing int) {
	codes = make([]Phenomena, len(hours))
	for i := range hours {
		codes[i] = hours[i].Weather
	}
	for from := 0; from < len(hours); {
		to := from
		for to < len(hours) && hours[to].Month == hours[from].Month {
			to++
		}
		if thirdHours(hours[from:to]) {
			hold(hours, codes, from, to)
		}
		from = to
	}
	for _, c := range codes {
		if c.Snow > None {
			snowing++
		}
	}
	return codes, snowing
}

// thirdHours says whether all weather of a month stands in one of the three classes of hours.
func thirdHours(month []Observation) bool {
	var count [3]int
	for i := range month {
		if month[i].Weather.Any {
			count[month[i].Clock%3]++
		}
	}
	used := 0
	for _, n := range count {
		if n > 0 {
			used++
		}
	}
	return used == 1
}

// hold gives each hour of a month without weather of its own that of the report before or after it, over the month's end too.
func hold(hours []Observation, codes []Phenomena, from, to int) {
	for i := from; i < to; i++ {
		if hours[i].Weather.Any {
			continue
		}
		for _, k := range [2]int{i - 1, i + 1} {
			if k >= 0 && k < len(hours) && hours[k].Weather.Any {
				codes[i] = hours[k].Weather
			}
		}
	}
}

// fromDepth turns the new depth of each day into water and spreads it over the coded snow hours of the 24 h that end with the day's reading.
func fromDepth(r Record, hours []Observation, codes []Phenomena, y *Year) {
	reading := ((readingUTC+int(math.Floor(r.ZoneHours)))%24 + 24) % 24 // the local hour that begins when depth is read
	before := math.NaN()
	for from := 0; from < len(hours); {
		to := from
		for to < len(hours) && hours[to].Day == hours[from].Day && hours[to].Month == hours[from].Month {
			to++
		}
		depth := depthOf(hours[from:to])
		if follows(hours, max(from, 1), r.Typical) && depth > before {
			end := min(from+reading, to)
			give(codes, max(end-24, 0), end, (depth-before)/snowDensity, y)
		}
		before, from = depth, to
	}
}

// depthOf returns the depth that stands with a day: the greatest of its hours, NaN when none is given.
func depthOf(day []Observation) float64 {
	depth := math.NaN()
	for i := range day {
		if d := day[i].DepthMM; !(d <= depth) && !math.IsNaN(d) {
			depth = d
		}
	}
	return depth
}

func give(codes []Phenomena, from, to int, water float64, y *Year) {
	weights := 0.0
	for _, c := range codes[from:to] {
		weights += depthWeight[c.Snow]
	}
	if weights == 0 {
		return
	}
	for i := from; i < to; i++ {
		y.Hours[i].SnowMM += water * depthWeight[codes[i].Snow] / weights
	}
}

// rainFromCodes gives the rain of coded hours; freezing rain and drizzle fall as water.
func rainFromCodes(codes []Phenomena, y *Year) {
	for i, c := range codes {
		y.Hours[i].RainMM = rainRate[c.Rain] + drizzleRate[c.Drizzle]
	}
}
