// Package setpoint is the outdoor reset of the slab temperature: what core temperature keeps the surface where it should be as it gets colder.
package setpoint

import "thawbook/calc/units"

// Input is what a reset curve rests on. Comparable: it is a memo key.
type Input struct {
	MeltC, IdleC    float64 // surface set points [°C]
	LengthM         float64 // in the wind's direction [m]
	WindMS          float64 // [m/s]
	ElevationM      float64 // [m]
	CoreResistance  float64 // sensor to surface [m²·K/W]
	LevelResistance float64 // surface midway to the level from which the back loss leaves, per upward flux [m²·K/W]
	BelowResistance float64 // that level to what lies below, per back loss [m²·K/W]; 0: no back loss
	BelowC          float64 // what lies below the slab [°C]
	CoverResistance float64 // pipe level to surface [m²·K/W], the part of PipeResistance that back loss does not pass; 0: it passes all of it
	PipeResistance  float64 // mean fluid to surface [m²·K/W]; 0: no supply temperature
	DropK           float64 // supply minus return [K]
	Electric        bool    // no supply temperature
}

// Points is the number of points from −30 to +5 °C by 2.5 K.
const Points = 15

// Point is the curve at one outdoor temperature. °C.
type Point struct {
	OutdoorC                 float64
	LossMeltWM2, LossIdleWM2 float64
	BackMeltWM2, BackIdleWM2 float64 // back loss that goes with them
	CoreMeltC, CoreIdleC     float64
	SupplyMeltC, SupplyIdleC units.Maybe[float64]
}

// Curve is the reset of one zone.
type Curve struct {
	Input     Input
	Ratio     float64 // r = [t_core(−30 °C) − t_core(0 °C)] / 30 K
	IdleRatio float64
	Points    [Points]Point
}
