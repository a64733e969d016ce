// Package slab is the pavement between pipe or cable and surface: conduction, back and edge loss, warm-up.
package slab

import "thawbook/calc/units"

// Support says what lies below the slab.
type Support uint8

// The supports.
const (
	OnGround Support = iota
	OpenAir
	HeatedSpace
)

// Section is a slab section. Comparable: it is a memo key. From the top: surface, bedding, slab; the pipe or cable lies DepthM below the top.
type Section struct {
	Support             Support
	SurfaceM            float64 // thickness of a surface course above the slab [m]; 0 without one
	SurfaceWMK          float64
	BeddingM            float64 // [m]
	BeddingWMK          float64
	SlabM               float64 // [m]
	SlabWMK             float64 // [W/m·K]
	DepthM              float64 // to the centre of the pipe or cable [m]
	SpacingM            float64 // [m]
	OuterM              float64 // outside diameter of the pipe or cable [m]
	WallM               float64 // wall of the pipe [m]; 0 for a cable
	WallWMK             float64
	InsulationM2KW      float64 // R under the slab
	GroundC             float64
	SensorDepthM        float64 // 0.025
	SlabHeatCapacityJM3 float64 // ρc [J/m³·K]
}

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
