package weather

import (
	"math"

	"thawbook/calc/units"
)

// MonthNormals are a month's climate normals. A NaN is not told.
type MonthNormals struct {
	MeanC, DailyRangeK, DewC, WindMS, CloudShare float64
	SnowMM, RainMM, SnowDays                     float64 // SnowMM is water equivalent; a snow day has at least 0.25 mm of it
}

// Normals are a place's twelve months, January first.
type Normals [12]MonthNormals

// Statistics is all that is kept of a station without its hours: normals and, where a record gave them, joint statistics of its snow hours.
type Statistics struct {
	Name           string
	LatDeg, LonDeg float64
	ElevationM     float64
	ExtremeMinC    units.Maybe[float64]
	SnowVariation  units.Maybe[float64]
	Normals        Normals
	Source         string // what they were derived from
	Joint          Joint  // empty with normals alone
}

// Joint is what a winter needs beyond normals. Wet hours are those with any snow at all.
type Joint struct {
	Months [12]MonthJoint
	Storms []StormBin
	Cells  []SnowCell
}

// Known says whether joint statistics are there.
func (j *Joint) Known() bool { return len(j.Cells) > 0 }

// The quantiles that are kept of a month's daily mean temperatures and of the air temperature of its wet hours.
var (
	dailyShares  = [7]float64{0, 0.1, 0.25, 0.5, 0.75, 0.9, 1}
	wetAirShares = [5]float64{0, 0.25, 0.5, 0.75, 1}
)

// MonthJoint is how a month's weather spreads around its normals.
type MonthJoint struct {
	DailyC      [7]float64 // quantiles of the daily mean temperature [°C]
	Persistence float64    // correlation of one day's mean temperature with the next
	WindSpread  float64    // standard deviation of hourly wind over its mean
	WetHours    float64    // hours with any snow
	WetAirC     [5]float64 // quantiles of their air temperature [°C]
	RainHours   float64    // hours with rain and no snow
	ColdRain    float64    // those of them below 2 °C
	SunWM2      float64    // mean global horizontal sun
	SkyClear    float64    // what a clear sky sends less than a black body at air temperature [W/m²]; 0 where no infrared is known
	SkyOvercast float64    // the same under full cloud
}

// StormBin is the storms of a range of lengths. A storm is a run of wet hours with dry gaps of at most 6 hours.
type StormBin struct {
	Storms float64
	Wet    float64 // their wet hours
	Span   float64 // their hours from first to last wet hour, both included
}

// SnowCell is a bin of the joint distribution of wet hours: how many a year, and the means of what a heat balance asks for.
type SnowCell struct {
	Hours  float64
	AirC   float64
	WindMS float64
	RateMM float64
	DewK   float64 // air temperature less dew point
	Cloud  float64
}

// The edges of the bins. The finest distinctions are where fluxes differ most: rate, then wind.
var (
	cellRates = []float64{0.1, 0.17, 0.25, 0.4, 0.65, 1, 1.6, 2.3, 3.2, 4.5, 6, 8, 11, 15} // mm/h
	cellWinds = []float64{1, 2.5, 4, 5.5, 7, 8.5, 10.5, 13, 17, 22}                        // m/s
	cellAirs  = []float64{-24, -19, -15, -12, -9, -7, -5, -3.5, -2, -0.7, 0.5, 1.7}        // °C
	stormLens = []float64{1, 2, 3, 5, 8, 12, 18, 27, 40, 60}                               // wet hours, upper ends
)

// bin returns how many edges lie at or below v.
func bin(v float64, edges []float64) int {
	n := 0
	for n < len(edges) && v >= edges[n]-equal {
		n++
	}
	return n
}

// quantile returns the value below which a share of a sorted list lies, linear between its members.
func quantile(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	at := share * float64(len(sorted)-1)
	i := int(at)
	if i >= len(sorted)-1 {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// unquantile returns the value at a share of a distribution that is told by its quantiles.
func unquantile(values, shares []float64, share float64) float64 {
	for i := 1; i < len(shares); i++ {
		if share <= shares[i] {
			part := (share - shares[i-1]) / (shares[i] - shares[i-1])
			return values[i-1] + part*(values[i]-values[i-1])
		}
	}
	return values[len(values)-1]
}
