package slab

import (
	"fmt"
	"math"

	"thawbook/calc/surface"
	"thawbook/calc/units"
)

// OneDimensional is the method of Solve.
const OneDimensional = "one-dimensional resistance"

const (
	// goodInsulation and someInsulation part the rows of backShares [m²·K/W].
	goodInsulation = 0.9
	someInsulation = 0.2
)

// backShares are the back loss per upward flux by support, and for each uninsulated, some insulation and good insulation.
// Judgement inside the published range of 4 to 50 %, about 20 % for standard construction: ASHRAE Handbook, HVAC Applications (2015) ch. 51.
var backShares = [...][3]float64{
	OnGround:    {0.20, 0.15, 0.10},
	OpenAir:     {0.50, 0.30, 0.15},
	HeatedSpace: {0.20, 0.10, 0.05},
}

// Solve returns the slab's answer to an upward design flux by one-dimensional resistances.
//
//	t_level = t_f + q_up R_cover,  R_cover = Σ thickness / conductivity down to the pipe's centre
//	t_pipe  = t_level + (q_up + q_back) R_x,  R_x = s ln(s / π D) / (2 π λ)
//	t_fluid = t_pipe + (q_up + q_back) (R_wall + R_film)
//	t_sensor = t_f + q_up R_core,  q_back = share · q_up
//
//	t_f     mean surface temperature, 0.56 °C
//	s, D    spacing and outside diameter [m]; R_x holds where the depth is above 0.3 s
//	λ       conductivity at the pipe's level [W/(m·K)]
//	R_wall  s ln(D / d) / (2 π λ_wall); R_film  s / (π d h), h 500 W/(m²·K), d inside diameter; neither for a cable
//
// upWM2 is the upward flux [W/m²], 0 … 3000.
//
// Source: row of pipes: Koschenz and Lehmann 2000, in EN 15377 and ISO 11855-2. Back loss: a flat share, judgement.
// Errors: ErrSection where a thickness, conductivity, spacing, diameter or depth makes no sense; the flux is not a number.
func Solve(s Section, upWM2 float64) (Solution, error) {
	if err := s.check(); err != nil {
		return Solution{}, err
	}
	if !(upWM2 >= 0 && upWM2 <= 1e5) {
		return Solution{}, fmt.Errorf("upward flux %g W/m²: not a heat flux", upWM2)
	}
	film := surface.Film()
	cover, level := s.down(s.DepthM)
	row := rowResistance(s.SpacingM, s.OuterM, level)
	wall := s.wallResistance()
	core, _ := s.down(s.SensorDepthM)
	share := s.backShare()
	back := share * upWM2
	pipe := film + upWM2*cover + (upWM2+back)*row
	out := Solution{Section: s, Method: OneDimensional, UpWM2: upWM2, CoreResistance: core, CoverResistance: cover, PipeResistance: cover + row + wall,
		BackShare: share, BackWM2: back, PipeSurfaceC: units.Some(pipe), SensorC: units.Some(film + upWM2*core)}
	if s.WallM > 0 {
		out.MeanFluidC = units.Some(pipe + (upWM2+back)*wall)
	}
	return out, nil
}

// down returns the resistance from the surface down to a depth inside the section, in m²·K/W, and the conductivity at that depth.
func (s Section) down(depthM float64) (resistance, wmk float64) {
	for _, l := range s.layers() {
		if l.thickM == 0 {
			continue
		}
		part := min(depthM, l.thickM)
		resistance += part / l.wmk
		wmk = l.wmk
		depthM -= part
		if depthM <= 0 {
			break
		}
	}
	return resistance, wmk
}

// rowResistance returns R_x, what a row of pipes adds to a plane heated evenly at their level, in m²·K/W.
func rowResistance(spacingM, outerM, wmk float64) float64 {
	return spacingM * math.Log(spacingM/(math.Pi*outerM)) / (2 * math.Pi * wmk)
}

func (s Section) backShare() float64 {
	row := backShares[s.Support]
	switch {
	case s.InsulationM2KW >= goodInsulation:
		return row[2]
	case s.InsulationM2KW >= someInsulation:
		return row[1]
	}
	return row[0]
}
