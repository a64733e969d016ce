package report

import (
	"thawbook/calc/setpoint"
	"thawbook/calc/units"
)

// Steps and ends of the printed set-point table in I-P: whole steps of 5 °F within the curve's −30 to +5 °C.
const (
	firstF, lastF, stepF = -20, 40, 5
)

// hairK is far below any step of the tables: a limit found by halving meets the point that it stands for.
const hairK = 1e-4

// Beyond says whether an outdoor temperature, in °C, is colder than a plant can follow the reset curve while melting.
func Beyond(l setpoint.Limits, outdoorC float64) bool { return outdoorC < l.ColdestC-hairK }

// Points returns the printed set-point table of a curve: by 2.5 K, or by 5 °F.
func Points(c setpoint.Curve, system units.System) []setpoint.Point {
	if system == units.SI {
		return c.Points[:]
	}
	var out []setpoint.Point
	for f := firstF; f <= lastF; f += stepF {
		out = append(out, c.PointAt(units.Temperature.In(units.IP).ToBase(float64(f))))
	}
	return out
}
