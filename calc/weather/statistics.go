package weather

import "thawbook/calc/units"

// MonthNormals are a month's climate normals. A NaN is not told.
type MonthNormals struct {
	MeanC, DailyRangeK, DewC, WindMS, CloudShare float64
	SnowMM, RainMM, SnowDays                     float64 // SnowMM is water equivalent
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
}
