package slab

import (
	"fmt"

	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// TwoDimensional is the method of Unit.At.
const TwoDimensional = "two-dimensional conduction"

// roomC is the temperature of a heated space below a slab [°C]; engineering method, section 2.
const roomC = 18.0

// Unit is the steady flow of heat in a geometry per kelvin between the pipe, the environment above and what lies below. Steady conduction is linear
// in these three temperatures, so that one Unit answers every load.
type Unit struct {
	Geometry    Geometry
	UpWM2K      float64 // from the pipe to the environment [W/(m²·K)]
	DownWM2K    float64 // from the pipe to what lies below
	ThroughWM2K float64 // from what lies below to the environment, past the pipe
	Least       Place   // surface midway between the pipes
	Greatest    Place   // surface over the pipe
	Sensor      Place   // midway, at the depth of the sensor
	Closure     float64 // heat of the pipe less what leaves above and below, over the heat of the pipe
	Nodes       int     // of the net that was solved
}

// Place is a place's temperature with the environment at 0: by how much it rises per kelvin of the pipe, and of what lies below.
type Place struct{ Pipe, Below float64 }

// Unitary returns the flow of heat per kelvin in the half cell between two pipes or cables.
//
//	∇·(λ ∇t) = 0
//
//	surface     λ ∂t/∂n = 25 W/(m²·K) · (t − t_e)
//	pipe        its circle has one temperature, t_pipe
//	sides       no flow, over the pipe and midway between the pipes
//	underside   a sheet of resistance R without lateral conduction, then over ground 1.0 m of 1.5 W/(m·K) with an isothermal foot, over open air
//	            10 W/(m²·K), over heated space 6 W/(m²·K)
//
//	layers      0 … 0.7 m in all, λ 0.3 … 4 W/(m·K)
//	spacing     0.025 … 0.4 m; OuterM 0.003 … 0.032 m, below it
//	DepthM      to the centre; the circle lies wholly in the section
//	R           0 … 5 m²·K/W
//
// Solved by finite volumes on a graded rectangular grid whose links end on the circle, as a symmetric band system. Against the exact row of cylinders
// it is within 0.5 %.
//
// Source: Fourier's law; the conditions are those of the engineering method, section 2. The links that end on the circle: Gibou, Fedkiw, Cheng and
// Kang 2002, J. Comput. Phys. 176, 205-227 (from memory).
// Errors: ErrSection where a thickness, conductivity, spacing, diameter or depth makes no sense.
func Unitary(g Geometry) (Unit, error) { return unitary(g, topFilm, standard) }

func unitary(g Geometry, film float64, m mesh) (Unit, error) {
	if err := g.check(); err != nil {
		return Unit{}, err
	}
	c := newCell(g, film, m)
	pipe, below, err := c.solve()
	if err != nil {
		return Unit{}, err
	}
	half, last := g.SpacingM/2, len(pipe)-len(c.x)
	u := Unit{Geometry: g, Nodes: len(pipe)}
	for i := range c.x {
		w := c.width(i) / half
		u.UpWM2K += film * w * pipe[i]
		u.DownWM2K += c.foot * w * pipe[last+i]
		u.ThroughWM2K += film * w * below[i]
	}
	heat := c.direct / half
	for i, g := range c.pipe {
		heat += g * (1 - pipe[i]) / half
	}
	u.Closure = (heat - u.UpWM2K - u.DownWM2K) / heat
	place := func(node int) Place { return Place{pipe[node], below[node]} }
	u.Greatest, u.Least = place(0), place(len(c.x)-1)
	u.Sensor = place(c.line(g.SensorDepthM)*len(c.x) + len(c.x) - 1)
	return u, nil
}

// at returns the temperature at a place.
func (p Place) at(environmentC, pipeC, belowC float64) float64 {
	return environmentC + p.Pipe*(pipeC-environmentC) + p.Below*(belowC-environmentC)
}

// star is a Unit as three resistances from one level, in m²·K/W: to the environment, to the pipe and to what lies below. The upward flux passes the
// first, the heat of the pipe the second, the back loss the third.
type star struct{ up, pipe, below float64 }

func (u Unit) star() star {
	d := u.UpWM2K*u.DownWM2K + u.DownWM2K*u.ThroughWM2K + u.ThroughWM2K*u.UpWM2K
	return star{up: u.DownWM2K / d, pipe: u.ThroughWM2K / d, below: u.UpWM2K / d}
}

// rise returns a place's rise above the environment per upward flux and per heat of the pipe, in m²·K/W.
func (p Place) rise(s star) (perUp, perPipe float64) {
	return p.Pipe*s.up + p.Below*(s.up+s.below), p.Pipe*s.pipe - p.Below*s.below
}

// belowC returns the temperature of what lies below the section, in °C.
func (s Section) belowC() float64 {
	switch s.Support {
	case OpenAir:
		return s.OutdoorC
	case HeatedSpace:
		return roomC
	}
	return s.GroundC
}

// At returns the slab's answer to an upward flux.
//
//	t_e     = t_f − q_up / 25
//	t_pipe  = t_e + [q_up − U_through (t_below − t_e)] / U_up
//	q_back  = U_down (t_pipe − t_below) − U_through (t_below − t_e)
//	t_fluid = t_pipe + (q_up + q_back) (R_wall + R_film)
//	t       = t_e + p (t_pipe − t_e) + b (t_below − t_e)   surface midway, surface over the pipe, sensor
//	R_core  = (t_sensor − t_midway) / q_up
//	q_even  = q_up of the same environment with t_midway = 0 °C
//
//	t_f       mean surface temperature, 0.56 °C
//	t_below   ground, outdoor air of the design hour under a slab over open air, or 18 °C of a heated space
//	R_wall    s ln(D / d) / (2 π λ_wall); R_film  s / (π d h), h FluidFilmWM2K, d inside diameter; neither for a cable
//	upWM2     q_up, upward flux [W/m²]  0 … 3000
//
// CoverResistance and PipeResistance give the mean fluid (of a cable, its surface) for any other upward flux and the back loss that goes with it:
//
//	t_fluid = t_midway + q_up R_cover + (q_up + q_back) (R_pipe − R_cover)
//	q_back  = (t_midway + q_up R_level − t_below) / R_below
//
// Source: engineering method, section 2; see Unitary.
// Errors: ErrSection where a wall makes no sense or the section is of another geometry; the flux or a temperature is not a number.
func (u Unit) At(s Section, upWM2 float64) (Solution, error) {
	if err := s.check(); err != nil {
		return Solution{}, err
	}
	if s.Geometry() != u.Geometry {
		return Solution{}, fmt.Errorf("%w: not the geometry that was solved", ErrSection)
	}
	below := s.belowC()
	if !(upWM2 >= 0 && upWM2 <= 1e5 && below >= -100 && below <= 100) {
		return Solution{}, fmt.Errorf("upward flux %g W/m² over %g °C: not a heat flux or not a temperature", upWM2, below)
	}
	out := Solution{Section: s, Method: TwoDimensional, UpWM2: upWM2, Unit: u, SurfaceMeanC: units.Some(surface.Film()), BelowC: below}
	environment := surface.Film() - upWM2/topFilm
	pipe := environment + (upWM2-u.ThroughWM2K*(below-environment))/u.UpWM2K
	out.EnvironmentC, out.PipeSurfaceC = environment, units.Some(pipe)
	out.BackWM2 = u.DownWM2K*(pipe-below) - u.ThroughWM2K*(below-environment)
	out.SurfaceMinC = units.Some(u.Least.at(environment, pipe, below))
	out.SurfaceMaxC = units.Some(u.Greatest.at(environment, pipe, below))
	out.SensorC = units.Some(u.Sensor.at(environment, pipe, below))
	out.Striped = out.SurfaceMinC.Value < 0
	out.EvenWM2 = units.Some(u.even(environment, below))
	if upWM2 > 0 {
		out.BackShare = out.BackWM2 / upWM2
	}
	out.resistances()
	if s.WallM > 0 {
		out.MeanFluidC = units.Some(pipe + (upWM2+out.BackWM2)*out.WallResistance)
	}
	return out, nil
}

// even returns the upward flux that holds the surface midway at 0 °C, in W/m².
func (u Unit) even(environmentC, belowC float64) float64 {
	below := belowC - environmentC
	pipe := (-environmentC - u.Least.Below*below) / u.Least.Pipe
	return u.UpWM2K*pipe + u.ThroughWM2K*below
}

// resistances fills the resistances of a solution. Without a flux R_core is that of heat which only rises.
func (s *Solution) resistances() {
	star := s.Unit.star()
	leastUp, leastPipe := s.Unit.Least.rise(star)
	sensorUp, sensorPipe := s.Unit.Sensor.rise(star)
	s.WallResistance = s.Section.wallResistance()
	s.CoverResistance = star.up - leastUp
	s.PipeResistance = s.CoverResistance + star.pipe - leastPipe + s.WallResistance
	s.LevelResistance, s.BelowResistance = s.CoverResistance-leastPipe, star.below+leastPipe
	s.CoreResistance = sensorUp - leastUp + sensorPipe - leastPipe
	if s.UpWM2 > 0 {
		s.CoreResistance = (s.SensorC.Value - s.SurfaceMinC.Value) / s.UpWM2
	}
}
