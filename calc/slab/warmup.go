package slab

import (
	"fmt"

	"thawbook/calc/units"
)

const (
	warmStepS   = 60.0  // s; halving it moves the hours by less than 1 %
	warmLimitH  = 72.0  // h: whatever takes longer is not reached in the life of a storm. Judgement
	groundJM3K  = 2.0e6 // J/(m³·K), ground; reference, engineering method, section 4
	columnM     = 0.006 // greatest cell in the slab [m]
	columnGrows = 1.3   // cells of the ground, each per the one above
)

// WarmUpInput is a cold start. Comparable: it is a memo key.
type WarmUpInput struct {
	Section        Section
	OutputWM2      float64              // into the pipe's level [W/m²]
	StartC         float64              // the whole slab at first
	TargetC        float64              // of the mean surface
	AirC           float64              // environment above the surface, and below a slab over open air
	FilmWM2K       float64              // from the surface to it [W/m²·K]; 0: 25
	PipeResistance float64              // mean fluid to the pipe's level [m²·K/W]: PipeResistance less LevelResistance of the solution; 0: FluidC is the level itself
	FluidMostC     units.Maybe[float64] // the hottest mean fluid; blank, or without a PipeResistance: the output comes whatever it takes
}

// WarmUpResult is how a cold start goes.
type WarmUpResult struct {
	Hours   units.Maybe[float64] // to the target; blank where it is not reached in three days
	SteadyC float64              // where the mean surface comes to rest in the end
	FluidC  float64              // mean fluid, or the cable's surface, when the target is reached, else at rest [°C]
}

// WarmUp returns the hours from a cold start to a surface target at a steady output.
//
//	ρc ∂t/∂τ = ∂/∂z (λ ∂t/∂z) + q at the pipe's level
//
//	surface    λ ∂t/∂z = h (t − t_air)
//	underside  as in Unitary: insulation, then ground of 2.0e6 J/(m³·K), open air or heated space
//	start      the slab at StartC; the ground at rest between it and its foot
//
//	q          OutputWM2, back loss included [W/m²]  0 … 1300; less where the fluid is at its hottest: (t_most − t_level) / R_pipe
//	StartC     −40 … 20 °C; TargetC −20 … 20 °C; AirC −60 … 30 °C
//	ρc         SlabHeatCapacityJM3 [J/(m³·K)]        1e5 … 1e7
//
// One dimension: the surface is its mean; the strip midway between the pipes follows later. No snow lies, nothing freezes or melts in the slab. The
// temperature at rest is found first, so that a target out of reach costs no time. Implicit steps of 60 s.
//
// Source: engineering method, sections 2 and 4.
// Errors: ErrSection where the section makes no sense; an input outside its range.
func WarmUp(in WarmUpInput) (WarmUpResult, error) {
	if err := in.check(); err != nil {
		return WarmUpResult{}, err
	}
	c := in.column()
	given := in.atRest(c)
	rest := c.rest(given)
	out := WarmUpResult{SteadyC: rest[0], FluidC: rest[c.level] + given*in.PipeResistance}
	hours, reached := 0.0, in.StartC >= in.TargetC
	if !reached && rest[0] > in.TargetC {
		hours, reached = c.march(in.gives, in.TargetC, warmStepS)
	}
	if reached {
		out.Hours = units.Some(hours)
		out.FluidC = c.t[c.level] + in.gives(c.t[c.level])*in.PipeResistance
	}
	return out, nil
}

// gives returns what the pipes give while their level is at a temperature, in W/m².
func (in WarmUpInput) gives(levelC float64) float64 {
	if !in.FluidMostC.Known || in.PipeResistance <= 0 {
		return in.OutputWM2
	}
	return max(0, min(in.OutputWM2, (in.FluidMostC.Value-levelC)/in.PipeResistance))
}

// atRest returns what the pipes give in the end: the level rises by as much for every watt.
func (in WarmUpInput) atRest(c *column) float64 {
	if !in.FluidMostC.Known || in.PipeResistance <= 0 {
		return in.OutputWM2
	}
	none, one := c.rest(0)[c.level], c.rest(1)[c.level]
	return max(0, min(in.OutputWM2, (in.FluidMostC.Value-none)/(in.PipeResistance+one-none)))
}

func (in WarmUpInput) check() error {
	if err := in.Section.Geometry().check(); err != nil {
		return err
	}
	for _, v := range [...]struct {
		name               string
		value, least, most float64
	}{
		{"output", in.OutputWM2, 0, 1e4},
		{"start temperature", in.StartC, -80, 80},
		{"surface target", in.TargetC, -80, 80},
		{"air temperature", in.AirC, -80, 80},
		{"surface film", in.FilmWM2K, 0, 1e9},
		{"pipe resistance", in.PipeResistance, 0, 10},
		{"hottest fluid", in.FluidMostC.Value, -80, 300},
		{"ground temperature", in.Section.GroundC, -80, 80},
		{"heat capacity", in.Section.SlabHeatCapacityJM3, 1e5, 1e7},
	} {
		if !(v.value >= v.least && v.value <= v.most) {
			return fmt.Errorf("warm-up: %s %g is outside %g to %g", v.name, v.value, v.least, v.most)
		}
	}
	return nil
}

// film returns the film above the surface in W/(m²·K).
func (in WarmUpInput) film() float64 {
	if in.FilmWM2K > 0 {
		return in.FilmWM2K
	}
	return topFilm
}
