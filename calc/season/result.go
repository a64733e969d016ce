// Package season is the winter hour by hour: what each way of sensing and control does, costs in heat and leaves on the ground.
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
}

// Month is a strategy's month. Energies in kWh/m², peak in W/m² into the column.
type Month struct {
	EnergyKWhM2, BackKWhM2 float64
	PeakWM2                float64
	EdgeDegreeHours        float64 // core minus outdoor over the heated hours [K·h]
}

// Result is one strategy's season, an average over the station's years. Hours sum to SeasonHours.
type Result struct {
	Input           Input
	Strategy        Strategy
	Estimate        string // "steady estimate" until the winter is run as a transient
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
}

// YearTotal is one winter of a strategy's season.
type YearTotal struct {
	EnergyKWhM2     float64
	BackKWhM2       float64
	EdgeDegreeHours float64
	Months          [12]Month
}
