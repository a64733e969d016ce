// Package weather knows hours, years and stations: what an hourly file holds, what of it fell as snow, and the statistics of a winter.
package weather

import "thawbook/calc/units"

// Kind says what a year of hours is.
type Kind string

// The kinds, in the words of results.json.
const (
	Observed   Kind = "observed"
	Typical    Kind = "typical year"
	Synthetic  Kind = "synthetic"
	DesignOnly Kind = "design hour"
)

// Hour is one hour of weather as the rooms use it: complete, in time order, snow told from rain. Comparable and flat.
type Hour struct {
	Month, Day, Clock int8    // Clock 0 to 23: the hour that begins then, local standard time
	AirC              float64 // dry bulb [°C]
	DewC              float64 // dew point [°C]
	PressurePa        float64 // station pressure [Pa]
	WindMS            float64 // as measured at 10 m [m/s]
	CloudShare        float64 // 0 to 1
	InfraredWM2       float64 // horizontal infrared from the sky [W/m²]; NaN where the file gives none
	SunWM2            float64 // global horizontal [W/m²]
	SnowMM            float64 // water equivalent of the hour's snow [mm]
	RainMM            float64 // rain of the hour [mm]
}

// Year is a year of hours from 1 January 00:00, with how they came about. Read only once made: goroutines share it.
type Year struct {
	Label        string // "2006", "typical"
	Hours        []Hour // n × one hour; 8760 or 8784 for a whole year
	Missing      int    // hours of the season whose precipitation is missing
	Filled       int    // hours whose temperature, dew point, wind or pressure was filled from neighbours
	SnowRule     SnowRule
	HasInfrared  bool
	SnowCodeHour int      // hours coded as snow in the source, held reports included
	Assumed      []string // values that the source does not give at all and that were taken: see the Assumed constants
}

// SnowRule names the rule by which a year's snow was found (engineering method, section 1).
type SnowRule string

// The rules.
const (
	RuleDepth      SnowRule = "water depth and temperature"
	RuleDepthCodes SnowRule = "water depth and observed weather type"
	RuleCodesSnow  SnowRule = "weather codes and daily snow depth"
	RuleCodes      SnowRule = "weather codes alone, coarse"
	RuleMeasured   SnowRule = "snowfall as measured"
	RuleSynthetic  SnowRule = "drawn from monthly normals"
	RuleDesignHour SnowRule = "one design hour"
)

// Source is a file that a station was made from.
type Source struct {
	File   string // base name
	SHA256 string
}

// DesignHour is one hour of weather given in place of a record.
type DesignHour struct {
	AirC, DewC, WindMS, SnowMMH float64
}

// Station is years of hours at a place: observed, typical or synthetic. Digest tells stations apart in memo keys.
type Station struct {
	Name            string
	Key             string // of a zone's own weather files: their list as typed, by which alone that zone finds them; blank: found by its name
	LatDeg, LonDeg  float64
	ElevationM      float64
	Kind            Kind
	Years           []Year
	Digest          string
	Sources         []Source
	ExtremeMinC     units.Maybe[float64]
	SnowVariation   units.Maybe[float64] // coefficient of variation of seasonal snow totals
	DesignHour      units.Maybe[DesignHour]
	CoarseSynthetic bool // synthetic from normals alone, without joint snow-hour statistics
}
