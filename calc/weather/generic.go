package weather

import (
	"math"
	"strings"

	"thawbook/calc/finding"
)

// The generic winter, for a place of which normals alone are known: the middle of 23 stations with hourly records from 40° to 60° N, their months
// with at least ten snowfall hours (the stations of templates/stations.tsv without Mount Washington and the gauges of whole millimetres).
const (
	genericPersistence = 0.61 // correlation of a day's mean temperature with the next
	genericWindSpread  = 0.57 // standard deviation of hourly wind over its mean
	genericSnowSpread  = 0.45 // the same, in snowfall hours
	genericSnowWind    = 1.20 // wind in snowfall hours over the month's mean
	genericSnowDewK    = 2.1  // air less dew point in snowfall hours [K]
	genericSnowCloud   = 0.95
	genericRateMM      = 0.42 // mean of the snowfall hours [mm/h], 0.21 to 0.82
	genericDayHours    = 8.5  // snowfall hours a snow day, 5.8 to 10.3
	genericRangeK      = 8.5  // daily range [K]
	genericDewK        = 4.5  // month's mean air less dew point [K]
	genericCloud       = 0.65
	genericRainMM      = 52   // of a month whose mean is 3 °C and above, falling to none at −9 °C [mm]
	genericRainRateMM  = 0.65 // [mm/h]
	genericColdRain    = 8    // hours a month with rain below 2 °C, in months whose mean is 0 °C and below, falling to none at 9 °C
	genericSkyClear    = 82   // what a clear sky sends less than a black body at air temperature, October to April [W/m²]
	genericSkyOvercast = 36   // the same under full cloud
	genericSunRatio    = 1.25 // sun of the months from October to April over what SunEstimate makes of the synthetic cloud, which is too often full
	mostMonthHours     = 600  // snowfall hours that find room in a month
	warmMonthC         = 8    // a month at least this warm may leave its snowfall blank [°C]
)

// genericSnowAirC returns the mean air temperature of snowfall hours in a month of a mean temperature [°C]. Above freezing it rises slowly, since
// what falls in warmer hours is rain. A broken line fitted to 170 months of 33 stations; a station's mean lies 1.4 K from it (root mean square,
// each station left out of its own fit).
func genericSnowAirC(meanC float64) float64 {
	return -1.65 + 0.77*math.Min(meanC, 0) + 0.27*math.Max(meanC, 0)
}

// genericAirSpreadK returns the standard deviation of the air temperature in a month's snowfall hours [K], fitted to the same months.
func genericAirSpreadK(meanC float64) float64 {
	return math.Max(0.65, math.Min(4.5, 2.57-0.175*math.Min(meanC, 0)-0.24*math.Max(meanC, 0)))
}

// genericDayToDayK returns the standard deviation of a month's daily mean temperatures [K] from its mean, the range of the year's monthly means
// and the daily range: a regression over 231 months from October to April of 33 stations, 1.1 K from a month's own with its station left out.
func genericDayToDayK(meanC, yearlyRangeK, dailyRangeK float64) float64 {
	return math.Max(1.5, 1.6-0.114*meanC+0.075*yearlyRangeK+0.125*dailyRangeK)
}

// yearlyRangeK returns the warmest month's mean temperature less the coldest's [K].
func (n *Normals) yearlyRangeK() float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, month := range n {
		low, high = math.Min(low, month.MeanC), math.Max(high, month.MeanC)
	}
	return high - low
}

// The distribution of the rate in snowfall hours over its mean.
var (
	rateShares = []float64{0, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.98, 0.99, 1}
	rateRatios = []float64{0.19, 0.33, 0.44, 0.68, 1.17, 1.89, 2.79, 4.56, 5.44, 8.8}
)

// genericStorms are the storms of 1,000 wet hours.
var genericStorms = []StormBin{{7.77, 7.77, 7.77}, {6.66, 13.3, 16.8}, {6.05, 18.2, 20.3}, {7.40, 32.9, 39.1}, {13.33, 92.6, 104.9},
	{11.23, 118.4, 139.6}, {16.29, 252.0, 285.4}, {9.87, 217.6, 242.9}, {4.20, 141.3, 153.9}, {2.10, 98.2, 109.1}, {0.12, 7.7, 9.6}}

// generic fills what normals leave open and puts the generic joint distribution in place of a record's.
func (s Statistics) generic() (Statistics, error) {
	if err := s.missing(); err != nil {
		return s, err
	}
	s.fillNormals()
	s.Joint = Joint{}
	yearly := s.Normals.yearlyRangeK()
	wet, place := 0.0, 0
	for m := range s.Normals {
		n, j := &s.Normals[m], &s.Joint.Months[m]
		*j = MonthJoint{Persistence: genericPersistence, WindSpread: genericWindSpread, WetHours: math.Round(snowHoursOf(n)),
			RainHours: n.RainMM / genericRainRateMM, ColdRain: genericColdRain * share((9-n.MeanC)/9), SkyClear: genericSkyClear, SkyOvercast: genericSkyOvercast}
		j.ColdRain = math.Min(j.ColdRain, j.RainHours)
		for i, q := range dailyShares {
			j.DailyC[i] = n.MeanC + genericDayToDayK(n.MeanC, yearly, n.DailyRangeK)*normalQuantile(math.Max(0.02, math.Min(0.98, q)))
		}
		for i, q := range wetAirShares {
			j.WetAirC[i] = genericSnowAirC(n.MeanC) + genericAirSpreadK(n.MeanC)*normalQuantile(math.Max(0.02, math.Min(0.98, q)))
		}
		s.Joint.Cells = append(s.Joint.Cells, genericCells(n, int(j.WetHours), place)...)
		place += int(j.WetHours)
		wet += j.WetHours
	}
	for _, b := range genericStorms {
		s.Joint.Storms = append(s.Joint.Storms, StormBin{b.Storms * wet / 1000, b.Wet * wet / 1000, b.Span * wet / 1000})
	}
	return s, nil
}

// missing names the normals without which there is no winter.
func (s *Statistics) missing() error {
	var mean, snow, wind int
	for _, n := range s.Normals {
		if math.IsNaN(n.MeanC) {
			mean++
		}
		if math.IsNaN(n.SnowMM) && !(n.MeanC >= warmMonthC) {
			snow++
		}
		if math.IsNaN(n.WindMS) {
			wind++
		}
	}
	var what []string
	if mean > 0 {
		what = append(what, "mean temperature")
	}
	if snow > 0 {
		what = append(what, "snowfall water equivalent")
	}
	if wind == len(s.Normals) {
		what = append(what, "wind")
	}
	if len(what) == 0 {
		return nil
	}
	return &Unusable{Code: CodeMissingNormals, Args: []finding.Arg{finding.Words("what", strings.Join(what, ", "))}}
}

// fillNormals puts the stated defaults in place of blanks; a month without wind has the mean of the others.
func (s *Statistics) fillNormals() {
	wind, told := 0.0, 0.0
	for _, n := range s.Normals {
		if !math.IsNaN(n.WindMS) {
			wind, told = wind+n.WindMS, told+1
		}
	}
	for m := range s.Normals {
		n := &s.Normals[m]
		blank(&n.WindMS, wind/told)
		blank(&n.SnowMM, 0)
		blank(&n.DailyRangeK, genericRangeK)
		blank(&n.DewC, n.MeanC-genericDewK)
		blank(&n.CloudShare, genericCloud)
		blank(&n.RainMM, genericRainMM*share((n.MeanC+9)/12))
	}
}

// share holds a number within 0 and 1.
func share(v float64) float64 { return math.Max(0, math.Min(1, v)) }

func blank(v *float64, taken float64) {
	if math.IsNaN(*v) {
		*v = taken
	}
}

// snowHoursOf returns the snowfall hours of a month: from its snow days where they are told, else from its water. Either way the mean rate stays
// within what stations have.
func snowHoursOf(n *MonthNormals) float64 {
	hours := n.SnowMM / genericRateMM
	if n.SnowDays > 0 {
		hours = n.SnowDays * genericDayHours
	}
	return math.Min(mostMonthHours, math.Max(n.SnowMM/0.9, math.Min(hours, n.SnowMM/0.2)))
}

// genericCells returns the wet hours of a month, one an entry. Temperature, rate and wind run through their distributions in steps that never
// fall together (fractions of the golden ratio and of its like in two dimensions), as they hardly depend on each other in the stations: correlation
// of the rate's logarithm with wind 0.09 and with temperature 0.04.
func genericCells(n *MonthNormals, hours, place int) []SnowCell {
	cells := make([]SnowCell, hours)
	shape := math.Pow(genericSnowSpread, -1.086)
	scale := genericSnowWind * n.WindMS / math.Gamma(1+1/shape)
	ratios := 0.0
	for k := range cells {
		a, b, c := (float64(k)+0.5)/float64(hours), step(place+k, 0.7548776662466927), step(place+k, 0.5698402909980532)
		air := genericSnowAirC(n.MeanC) + genericAirSpreadK(n.MeanC)*normalQuantile(a)
		cells[k] = SnowCell{Hours: 1, AirC: math.Min(air, 2), WindMS: scale * math.Pow(-math.Log(1-b), 1/shape),
			RateMM: unquantile(rateRatios, rateShares, c), DewK: genericSnowDewK, Cloud: genericSnowCloud}
		ratios += cells[k].RateMM
	}
	for k := range cells {
		cells[k].RateMM *= n.SnowMM / ratios
	}
	return cells
}

// step returns the place-th number of a sequence that fills 0 to 1 evenly.
func step(place int, stride float64) float64 {
	v := (float64(place) + 0.5) * stride
	return math.Max(1e-4, math.Min(1-1e-4, v-math.Floor(v)))
}
