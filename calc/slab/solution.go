// Package slab is the pavement between pipe or cable and surface: conduction, back and edge loss, warm-up.
package slab

import "thawbook/calc/units"

// Solution is the slab's answer to a design flux. Temperatures in °C, fluxes in W/m².
type Solution struct {
	Section         Section
	UpWM2           float64 // the upward flux it answers
	Method          string  // "one-dimensional resistance" until conduction is solved in two dimensions
	CoreResistance  float64 // R_core, sensor to surface [m²·K/W]
	CoverResistance float64 // pipe level to surface, one-dimensional [m²·K/W]; part of PipeResistance
	PipeResistance  float64 // mean fluid, or surface of the cable, to surface: cover, row of pipes, wall and inner film [m²·K/W]
	BackShare       float64 // back loss per upward flux
	BackWM2         float64
	EdgeW           units.Maybe[float64]
	PipeSurfaceC    units.Maybe[float64]
	MeanFluidC      units.Maybe[float64]
	SensorC         units.Maybe[float64]
	SurfaceMinC     units.Maybe[float64]
	SurfaceMaxC     units.Maybe[float64]
	WarmUpHours     units.Maybe[float64]
}
