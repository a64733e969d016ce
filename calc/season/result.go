package season

import (
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Strategy is a way of sensing and control, in the words of results.json.
type Strategy string

// The strategies, in the order of tables.
const (
	Unheated            Strategy = "unheated"
	AlwaysOn            Strategy = "always on"
	Manual              Strategy = "manual"
	ManualSlab          Strategy = "manual + slab sensor"
	Aerial              Strategy = "aerial detector"
	AerialSlab          Strategy = "aerial detector + slab sensor"
	AerialSlabIdling    Strategy = "aerial detector + slab sensor, idling"
	Pavement            Strategy = "in-pavement detector"
	PavementIdling      Strategy = "in-pavement detector, idling"
	BothDetectors       Strategy = "in-pavement + aerial detector"
	BothDetectorsIdling Strategy = "in-pavement + aerial detector, idling"
)

// Strategies lists all of them in order.
var Strategies = [11]Strategy{Unheated, AlwaysOn, Manual, ManualSlab, Aerial, AerialSlab, AerialSlabIdling, Pavement, PavementIdling, BothDetectors, BothDetectorsIdling}

// Day is a day of the year, whatever the year.
type Day = weather.Day

// Transient is the Result.Estimate of a winter run step by step with the heat that the pavement stores.
const Transient = "transient"

// Input is what a winter rests on. Comparable: it is a memo key. All per m² of pavement, so that zones can share it.
type Input struct {
	Station        string  // digest of the station
	LessSnow       float64 // factors on every hour's snow in the mild and the severe winter of a station with one winter; 1 for none
	MoreSnow       float64
	Start, End     Day // of the season, both included
	ElevationM     float64
	WindFactor     float64
	LengthM        float64
	InstalledWM2   float64              // 0 for a pavement that nothing heats
	MeltC, IdleC   float64              // surface set points
	IdleBelowC     float64              // outdoor
	ShutOffC       float64              // warm-weather shut-off, outdoor
	LowestMeltC    units.Maybe[float64] // low-ambient lockout
	CoreResistance float64
	AerialHoldH    float64
	ManualHoldH    float64
	DryHoldH       float64
	Only           Strategy // the one that runs beside unheated pavement; blank: all of them
	Column         Column
	Window         Window // of the hours that Result.Storm tells; zero for a storm that is representative
}

// Month is a strategy's month. Energies in kWh/m², peak in W/m² into the column: the greatest mean of an hour.
type Month struct {
	EnergyKWhM2, BackKWhM2 float64
	PeakWM2                float64
	EdgeDegreeHours        float64 // core minus outdoor over the heated hours [K·h]
	HoursIdling            float64
	HoursMelting           float64
	HoursDrying            float64
	SnowOnSurfaceH         float64
}

// Result is one strategy's season, an average over the station's winters. Hours sum to SeasonHours.
type Result struct {
	Input           Input
	Strategy        Strategy
	Estimate        string // how it was made: Transient
	SeasonHours     float64
	HoursOff        float64
	HoursIdling     float64
	HoursMelting    float64
	HoursDrying     float64
	EnergyKWhM2     float64 // heat into the column, back loss included, edge loss not
	IdlingKWhM2     float64 // part of EnergyKWhM2
	BackKWhM2       float64 // part of EnergyKWhM2
	EdgeDegreeHours float64
	SnowOnSurfaceH  units.Maybe[float64]
	BareShare       units.Maybe[float64] // of the snowfall hours, with no solid on the surface
	RefreezeEvents  units.Maybe[float64]
	LockedOutHours  float64 // snowfall hours below the low-ambient lockout
	Months          [12]Month
	Years           []YearTotal // each winter by itself in time order; of a station with one: with less snow, as it is, with more
	Ground          Ground
	Storm           Storm // hour by hour, with the snow as it is; without hours where there is no storm
}

// Ground is what the steps tell beyond hours and heat.
type Ground struct {
	EnergyResidual float64              // what the books of energy lack, over the heat that came in by any way: the worst winter's
	MassResidual   float64              // what the books of water lack, over the snow and rain: the worst winter's
	FluidLimitedH  float64              // hours with heat in which the supply limit held it below the installed output
	Storms         float64              // a winter, that ended dry with heat on: what the two below rest on
	AfterSnowH     units.Maybe[float64] // from the last snow to dry with heat on, 90th percentile of storms
	FilmDriesH     units.Maybe[float64] // that a full film of 0.3 mm takes to dry with heat on, 90th percentile
	TimerH         units.Maybe[float64] // recommended timer after the last snow seen
	OffDelayH      units.Maybe[float64] // recommended off-delay after dry
	SkyApart       units.Maybe[float64] // sky by cloud and humidity over that of the file's infrared, less 1, mean of the season
}

// YearTotal is one winter of a strategy's season: what its bill rests on.
type YearTotal struct {
	Label           string  // of the year its first hours are of
	SnowFactor      float64 // on every hour's snow
	EnergyKWhM2     float64
	EdgeDegreeHours float64
	HeatedHours     float64 // idling, melting and drying
	Months          [12]YearMonth
}

// YearMonth is a month of one winter, as in Month.
type YearMonth struct{ EnergyKWhM2, PeakWM2, EdgeDegreeHours float64 }
