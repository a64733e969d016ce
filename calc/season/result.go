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

// Input is what a winter rests on. Comparable: it is a memo key. All per m² of pavement, so that zones can share it.
type Input struct {
	Station        string  // digest of the station
	SnowFactor     float64 // on every hour's snow: 1 for the winter as it is
	Start, End     Day     // of the season, both included
	ElevationM     float64
	WindFactor     float64
	LengthM        float64
	SnowFree       float64 // A_r of the steady estimate
	InstalledWM2   float64
	BackShare      float64              // back loss per upward flux
	MeltC, IdleC   float64              // surface set points
	IdleBelowC     float64              // outdoor
	ShutOffC       float64              // warm-weather shut-off, outdoor
	LowestMeltC    units.Maybe[float64] // low-ambient lockout
	CoreResistance float64
	AerialHoldH    float64
	ManualHoldH    float64
	DryHoldH       float64
	Column         Column // of the transient alone
}

// Month is a strategy's month. Energies in kWh/m², peak in W/m² into the column: the greatest mean of an hour.
type Month struct {
	EnergyKWhM2, BackKWhM2 float64
	PeakWM2                float64
	EdgeDegreeHours        float64 // core minus outdoor over the heated hours [K·h]
	HoursIdling            float64
	HoursMelting           float64
	HoursDrying            float64
	SnowOnSurfaceH         float64 // by the transient; the steady estimate leaves it 0
}

// Result is one strategy's season, an average over the station's years. Hours sum to SeasonHours.
type Result struct {
	Input           Input
	Strategy        Strategy
	Estimate        string // SteadyEstimate or TransientRun
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
	BareShare       units.Maybe[float64]
	RefreezeEvents  units.Maybe[float64]
	UnmetHours      float64 // snowfall hours in which the installed output is less than the load
	LockedOutHours  float64 // snowfall hours below the low-ambient lockout
	Months          [12]Month
	Years           []YearTotal // each winter of the station by itself, in time order
	Transient       units.Maybe[Ground]
}

// Ground is what the transient alone knows of a strategy's season.
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

// YearTotal is one winter of a strategy's season.
type YearTotal struct {
	EnergyKWhM2     float64
	BackKWhM2       float64
	EdgeDegreeHours float64
	Months          [12]Month
}
