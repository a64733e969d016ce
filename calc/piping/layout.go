// Package piping lays out the loops of a heated pavement: how many and how long, what flows in them, what the pump must lift, how much fluid they hold
// and whether it stays fluid.
package piping

import (
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Input is what a layout rests on. Comparable.
type Input struct {
	AreaM2       float64
	SpacingM     float64
	OuterM       float64 // of the pipe
	WallM        float64
	WallWMK      float64              // conductivity of the pipe's wall [W/(m·K)]
	LoopLengthM  units.Maybe[float64] // of one loop with its leaders; blank is left to design
	LeaderM      units.Maybe[float64] // both ways between header and heated slab, of one loop; blank: 7.6 m
	MainsM       units.Maybe[float64] // one way between plant and header; blank: 15 m
	UpWM2        float64              // flux up
	BackWM2      float64              // flux back; negative where heat comes from below
	EdgeW        float64              // heat through the edge
	CarryWM2     float64              // what the loops are laid out to carry: the installed output; the fluxes where these are more
	PipeSurfaceC float64              // outer surface of the pipe at the fluxes, from the slab
	DropK        float64              // supply less return at what the loops carry
	SupplyLimitC units.Maybe[float64] // the hottest that the fluid is let become
	Fluid        Fluid
	Share        units.Maybe[float64] // by volume; blank is left to design
	ExtremeMinC  units.Maybe[float64] // the coldest to be expected
}

// Layout is the piping of a zone.
type Layout struct {
	Input  Input
	Loops  Loops
	Fluid  Concentration
	Flow   Flow
	Head   Head
	Volume Volume
	Checks finding.Checks // what stands outside the usual, in the order found
}

// Loops says how the pipe is divided.
type Loops struct {
	BoreM    float64 // inside diameter
	HeatedM  float64 // pipe in the heated slab, all loops
	LeaderM  float64 // both ways, of one loop
	LongestM float64 // allowed for this bore, with leaders
	Count    int
	LengthM  float64 // of each, with leaders
	TotalM   float64 // of all, with leaders
}

// Concentration is how much glycol the fluid holds and what that protects from.
type Concentration struct {
	Share     float64 // by volume
	Proposed  bool    // it was left to design
	MassShare float64
	FreezeC   float64              // freezing point
	NeedC     units.Maybe[float64] // the extreme minimum less 5 K
	MarginK   units.Maybe[float64] // extreme minimum less freezing point
	BurstC    units.Maybe[float64] // a pipe does not burst down to here; no pump moves the fluid there, so it never counts as protection
}

// Flow is what moves in the loops, and how warm the fluid is at the fluxes of the input, with its properties at its mean temperature then.
type Flow struct {
	HeatW         float64 // that the loops carry, all of them
	DesignHeatW   float64 // at the fluxes
	DesignDropK   float64 // supply less return at the fluxes
	LoopHeatW     float64
	DensityKgM3   float64
	HeatJKgK      float64 // specific heat
	FluidWMK      float64 // conductivity of the fluid
	KinematicM2S  float64 // kinematic viscosity
	Prandtl       float64
	LoopLS        float64 // flow of one loop
	TotalLS       float64
	SpeedMS       float64
	Reynolds      float64
	Friction      float64 // Darcy friction factor
	Nusselt       float64
	FilmWM2K      float64 // coefficient between fluid and pipe, per inner surface
	WallM2KW      float64 // resistance of the pipe's wall per area of pavement
	FilmM2KW      float64 // resistance of the fluid's film per area of pavement
	MeanC         float64 // mean fluid temperature at the fluxes
	SupplyC       float64
	ReturnC       float64
	SearchedLoops bool // loops were added until the head of one met its limit
}

// Head is the pressure that the pump must give, term by term.
type Head struct {
	LoopPa       float64 // straight pipe of the worst loop
	BendsPa      float64
	ManifoldPa   float64 // manifold, its valves and flow meter
	MainsPa      float64
	SourcePa     float64 // exchanger or boiler
	TotalPa      float64
	PumpW        float64              // at the wire
	ColdC        units.Maybe[float64] // fluid at the coldest start
	ColdReynolds units.Maybe[float64]
	ColdPa       units.Maybe[float64] // at the design flow with the fluid that cold
	ColdShare    units.Maybe[float64] // of the design flow, which the design head still moves with the fluid that cold
}

// Volume is how much fluid there is.
type Volume struct {
	LoopsL       float64 // with leaders
	MainsL       float64
	TotalL       float64
	GlycolL      float64
	HotC         float64              // the hottest that expansion is calculated to
	ExpansionL   float64              // from the cold fill to the hottest
	ContractionL units.Maybe[float64] // from the cold fill to the coldest
}

// Codes of findings about a layout.
const (
	CodeLaminar       finding.Code = "loop-laminar"
	CodeDropLarge     finding.Code = "temperature-drop-large"
	CodeLoopLong      finding.Code = "loop-too-long"
	CodeLoopsUneven   finding.Code = "loops-uneven"
	CodeLoopHead      finding.Code = "loop-head-high"
	CodeFreezes       finding.Code = "fluid-freezes"
	CodeShareShort    finding.Code = "fluid-share-not-enough"
	CodeShareUnusual  finding.Code = "fluid-share-unusual"
	CodeMinimumNeeded finding.Code = "fluid-minimum-unknown"
	CodeFlowSlow      finding.Code = "flow-slow"
	CodeFlowFast      finding.Code = "flow-fast"
	CodeColdStart     finding.Code = "cold-start-slow"
	CodeFluidHot      finding.Code = "fluid-beyond-properties"
)
