// Package slab is the pavement between pipe or cable and surface: conduction, back and edge loss, warm-up.
package slab

import "thawbook/calc/units"

// Solution is the slab's answer to a design flux. Temperatures in °C, fluxes in W/m², resistances in m²·K/W. Comparable.
type Solution struct {
	Section         Section
	UpWM2           float64 // the upward flux it answers
	Method          string
	Unit            Unit                 // what it was scaled from
	EnvironmentC    float64              // above the top film, so that the mean surface is 0.56 °C
	BelowC          float64              // ground, outdoor air or heated space under the slab
	CoreResistance  float64              // R_core, sensor to surface midway
	CoverResistance float64              // pipe level to surface midway, the part of PipeResistance that back loss does not pass
	PipeResistance  float64              // mean fluid, or surface of the cable, to surface midway: cover, row of pipes, wall and inner film
	WallResistance  float64              // pipe wall and inner film, a part of PipeResistance
	LevelResistance float64              // surface midway to the level from which the back loss leaves, per upward flux
	BelowResistance float64              // that level to what lies below, per back loss
	BackShare       float64              // back loss per upward flux
	BackWM2         float64              // negative where heat comes from below
	Striped         bool                 // the surface midway is below 0 °C at the design flux: bare strips over the pipes, snow between them
	EvenWM2         units.Maybe[float64] // the upward flux that brings the surface midway to 0 °C in the same weather
	EdgeW           units.Maybe[float64]
	PipeSurfaceC    units.Maybe[float64] // outer surface of the pipe, or the cable's element
	MeanFluidC      units.Maybe[float64]
	SensorC         units.Maybe[float64]
	SurfaceMeanC    units.Maybe[float64]
	SurfaceMinC     units.Maybe[float64] // midway between the pipes
	SurfaceMaxC     units.Maybe[float64] // over the pipe
	WarmUpHours     units.Maybe[float64]
}
