package setpoint

import (
	"fmt"

	"thawbook/calc/air"
	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// MinWind is the least wind speed that a reset curve is drawn for, in m/s: the caller takes the greater of it and the station's mean wind of
// December to February. A calm night must not leave the slab short. Judgement.
const MinWind = 4.0

// Wind returns the wind speed that a reset rests on, in m/s: the greater of the station's mean midwinter wind and MinWind, times the area's factor.
func Wind(midwinterMS, factor float64) float64 { return max(midwinterMS, MinWind) * factor }

const (
	firstC = -30.0 // °C outdoors, the first point
	stepK  = 2.5
	coldC  = -30.0 // °C outdoors, the ends of the span that gives the ratio
	mildC  = 0.0
	leastR = 1e-9 // m²·K/W
)

// Reset returns the outdoor reset curve of a slab: the core temperature that keeps its surface at the set point, at outdoor temperatures from
// −30 to +5 °C.
//
//	t_core(t_o) = t_surf + q_loss(t_o) R_core
//	r = [t_core(−30 °C) − t_core(0 °C)] / 30 K
//	q_back = (t_surf + q_loss R_level − t_below) / R_below
//	t_supply = t_surf + q_loss R_cover + (q_loss + q_back) (R_pipe − R_cover) + drop / 2
//
//	t_surf  surface set point [°C]                     −20 … 20
//	q_loss  upward flux of a dry, snow-free surface at t_surf, T_MR = t_o, surface.DryLoss [W/m²]
//	R_core  sensor to surface                          [m²·K/W]
//	R_level, R_below  of the section, slab.Unit.At     [m²·K/W]
//	R_pipe  mean fluid to surface; R_cover its part above the pipe [m²·K/W]
//
// The line is never clipped: above the set point the loss is negative and the core colder than the surface.
//
// Source: engineering method, section 3: steady heat balance of the slab above the sensor.
// Errors: an input that is not a number or outside what the equation can take.
func Reset(in Input) (Curve, error) {
	if err := in.check(); err != nil {
		return Curve{}, err
	}
	c := Curve{Input: in}
	c.Ratio = (c.At(coldC, true) - c.At(mildC, true)) / (mildC - coldC)
	c.IdleRatio = (c.At(coldC, false) - c.At(mildC, false)) / (mildC - coldC)
	for i := range c.Points {
		c.Points[i] = c.point(firstC + float64(i)*stepK)
	}
	return c, nil
}

func (in Input) check() error {
	for _, v := range [...]struct {
		name        string
		value       float64
		least, most float64
	}{
		{"surface set point melting", in.MeltC, -20, 20},
		{"surface set point idling", in.IdleC, -20, 20},
		{"length", in.LengthM, 1e-3, 1e5},
		{"wind", in.WindMS, 0, 60},
		{"elevation", in.ElevationM, -5000, 11000},
		{"core resistance", in.CoreResistance, leastR, 10},
		{"level resistance", in.LevelResistance, -10, 10},
		{"below resistance", in.BelowResistance, 0, 1000},
		{"temperature below", in.BelowC, -100, 100},
		{"cover resistance", in.CoverResistance, 0, 10},
		{"pipe resistance", in.PipeResistance, 0, 10},
		{"temperature drop", in.DropK, 0, 60},
	} {
		if !(v.value >= v.least && v.value <= v.most) {
			return fmt.Errorf("outdoor reset: %s %g is outside %g to %g", v.name, v.value, v.least, v.most)
		}
	}
	return nil
}

// At returns the core's target at an outdoor temperature, in °C, for melting or for idling.
//
//	outdoorC  −60 … 30 °C
//
// See Reset.
func (c Curve) At(outdoorC float64, melting bool) float64 {
	surfaceC := c.surface(melting)
	return surfaceC + c.Input.loss(surfaceC, outdoorC)*c.Input.CoreResistance
}

func (c Curve) surface(melting bool) float64 {
	if melting {
		return c.Input.MeltC
	}
	return c.Input.IdleC
}

func (c Curve) point(outdoorC float64) Point {
	in := c.Input
	p := Point{OutdoorC: outdoorC, LossMeltWM2: in.loss(in.MeltC, outdoorC), LossIdleWM2: in.loss(in.IdleC, outdoorC),
		CoreMeltC: c.At(outdoorC, true), CoreIdleC: c.At(outdoorC, false)}
	p.BackMeltWM2, p.BackIdleWM2 = in.back(in.MeltC, p.LossMeltWM2), in.back(in.IdleC, p.LossIdleWM2)
	if !in.Electric && in.PipeResistance > 0 {
		p.SupplyMeltC = units.Some(in.supply(in.MeltC, p.LossMeltWM2))
		p.SupplyIdleC = units.Some(in.supply(in.IdleC, p.LossIdleWM2))
	}
	return p
}

// loss returns q_loss in W/m².
func (in Input) loss(surfaceC, outdoorC float64) float64 {
	return surface.DryLoss(surfaceC, surface.Conditions{AirC: outdoorC, WindMS: in.WindMS, PressurePa: air.StandardPressure(in.ElevationM),
		LengthM: in.LengthM, MeanRadiantC: outdoorC})
}

// back returns the back loss that goes with a loss, in W/m²; negative where heat comes from below.
func (in Input) back(surfaceC, lossWM2 float64) float64 {
	if in.BelowResistance == 0 {
		return 0
	}
	return (surfaceC + lossWM2*in.LevelResistance - in.BelowC) / in.BelowResistance
}

// supply returns the supply temperature for a loss, in °C: mean fluid plus half the drop from supply to return.
func (in Input) supply(surfaceC, lossWM2 float64) float64 {
	return surfaceC + lossWM2*in.CoverResistance + (lossWM2+in.back(surfaceC, lossWM2))*(in.PipeResistance-in.CoverResistance) + in.DropK/2
}
