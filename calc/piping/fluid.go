package piping

import (
	"errors"
	"fmt"
	"math"
)

// Fluid is what is mixed with water so that it stays fluid in the cold. Plain water is not offered.
type Fluid string

// The fluids.
const (
	PropyleneGlycol Fluid = "propylene glycol"
	EthyleneGlycol  Fluid = "ethylene glycol" // poisonous
)

// ErrFluid says that a mixture lies outside what the property fits cover.
var ErrFluid = errors.New("fluid")

const (
	kelvin      = 273.15 // °C to K
	mostMass    = 0.60   // mass share up to which the fits hold
	hottestFitC = 100.0  // °C up to which the fits hold
	// waterKgM3 is the density of water at 20 °C [kg/m³]. Source: steam table.
	waterKgM3 = 998.2
)

// pureKgM3 is the density of the pure glycol at 20 °C [kg/m³]. Source: CRC Handbook of Chemistry and Physics, 1.0361 and 1.1135 g/cm³; memory, high
// confidence.
var pureKgM3 = map[Fluid]float64{PropyleneGlycol: 1036.1, EthyleneGlycol: 1113.5}

// fit is a property as Σ Σ c[i][j] (T − T_base)^i (x − x_base)^j, i the row and j the column.
type fit [4][6]float64

// fits are the properties of a glycol and water over temperature [K] and mass share.
type fits struct {
	baseK, baseShare                     float64
	density, heat, conductivity, viscous fit        // kg/m³, J/(kg·K), W/(m·K), ln(Pa·s)
	freezing                             [6]float64 // K, over mass share alone
}

// melinder holds the coefficients of both glycols. Source: Melinder 2010, Properties of Secondary Working Fluids for Indirect Systems, IIR, as carried
// in an open property library; mass share 0 to 0.6, freezing point to 100 °C.
var melinder = map[Fluid]*fits{
	PropyleneGlycol: {
		baseK: 305.8583, baseShare: 0.307031,
		density: fit{
			{1018, 76.04, -24.98, -155, -113.1, 234.2},
			{-0.5406, -0.945, 0.27, 2.829, -2.221, 0},
			{-0.002666, 0.005541, -0.004018, -0.007175, 0, 0},
			{1.347e-05, -1.343e-05, 3.376e-05, 0, 0, 0},
		},
		heat: fit{
			{3882, -1304, -1598, 353.9, 5000, -4959},
			{2.699, 5.07, 0.9534, 31.02, -71.35, 0},
			{-0.001659, -0.004752, 0.1167, -0.295, 0, 0},
			{-1.032e-05, 0.0001522, -0.000487, 0, 0, 0},
		},
		conductivity: fit{
			{0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104},
			{0.0007955, -0.001678, 0.001563, -0.002518, -0.003605, 0},
			{3.482e-08, 8.941e-06, -4.615e-05, 6.543e-05, 0, 0},
			{-5.966e-09, 1.493e-08, 9.897e-08, 0, 0, 0},
		},
		viscous: fit{
			{-6.224055, 3.328, 0.5453, -3.9, -1.587, 35.64},
			{-0.03045, -0.03984, -0.00086, 0.1054, 0.04475, 0},
			{0.0002525, 0.0004332, -0.0001593, -0.001589, 0, 0},
			{-1.399e-06, -1.86e-06, -4.465e-07, 0, 0, 0},
		},
		freezing: [6]float64{259.9, -66.31, -109.4, -228.3, -340.9, 146.5},
	},
	EthyleneGlycol: {
		baseK: 304.878, baseShare: 0.308462,
		density: fit{
			{1034, 131.1, 0.749, -106.2, -96.23, 489.1},
			{-0.4781, -0.6876, 0.7855, 1.229, -7.211, 0},
			{-0.002692, 0.004805, -0.003995, -0.01153, 0, 0},
			{4.725e-06, 1.69e-06, 4.982e-05, 0, 0, 0},
		},
		heat: fit{
			{3737, -1799, -993.3, 2610, 1537, -16180},
			{2.93, 10.46, 3.516, -1.189, -42.72, 0},
			{-0.004675, -0.04147, 0.05109, -0.1643, 0, 0},
			{-1.389e-05, 1.847e-05, -0.0007138, 0, 0, 0},
		},
		conductivity: fit{
			{0.472, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678},
			{0.0008903, -0.001473, 0.0006814, -0.002412, 0.002555, 0},
			{-1.058e-06, 1.059e-05, -3.612e-05, 4.004e-05, 0, 0},
			{-2.789e-09, -1.142e-08, 2.365e-08, 0, 0, 0},
		},
		viscous: fit{
			{-6.437255, 2.471, 0.03328, 1.659, 3.089, -18.65},
			{-0.0255, -0.01171, 0.01086, 0.003157, 0.01831, 0},
			{0.0001782, 0.0001052, 0.0001051, 0.0004063, 0, 0},
			{-7.669e-07, -1.634e-06, -6.475e-06, 0, 0, 0},
		},
		freezing: [6]float64{257.9, -80.8, -133.4, -72.93, 100.6, 11.4},
	},
}

// Mixture is a glycol and water of one concentration. Its properties are cubics in temperature, so that they cost little in a search.
type Mixture struct {
	Fluid     Fluid
	MassShare float64
	FreezeC   float64 // freezing point [°C]: first crystals, not a burst pipe

	baseK                                float64
	density, heat, conductivity, viscous [4]float64
}

// Mix returns a glycol and water by mass share, with its freezing point in °C.
//
//	t_freeze = Σ c_j (x − x_base)^j − 273.15
//
//	x  mass share of the glycol  0 … 0.6
//
// Source: Melinder 2010. By the tables of the ASHRAE Handbook, Fundamentals, propylene glycol freezes up to 1.4 K later and ethylene glycol up to 2.9 K
// earlier.
// Errors: ErrFluid where the glycol is unknown or x is outside its range.
func Mix(fluid Fluid, massShare float64) (Mixture, error) {
	f, found := melinder[fluid]
	if !found || !(massShare >= 0 && massShare <= mostMass) {
		return Mixture{}, fmt.Errorf("%w: %q with a mass share of %g", ErrFluid, fluid, massShare)
	}
	x := massShare - f.baseShare
	return Mixture{Fluid: fluid, MassShare: massShare, FreezeC: row(f.freezing, x) - kelvin, baseK: f.baseK,
		density: f.density.at(x), heat: f.heat.at(x), conductivity: f.conductivity.at(x), viscous: f.viscous.at(x)}, nil
}

// row evaluates one row of a fit.
func row(c [6]float64, x float64) float64 {
	return c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*(c[4]+x*c[5]))))
}

// at returns the cubic in temperature that a fit is at one concentration.
func (f fit) at(x float64) [4]float64 {
	return [4]float64{row(f[0], x), row(f[1], x), row(f[2], x), row(f[3], x)}
}

// cubic evaluates a property at a temperature in °C, which is held to the range of the fits from above.
func (m Mixture) cubic(c [4]float64, atC float64) float64 {
	t := min(atC, hottestFitC) + kelvin - m.baseK
	return c[0] + t*(c[1]+t*(c[2]+t*c[3]))
}

// Density returns the density of the mixture in kg/m³.
//
//	ρ = Σ Σ c_ij (T − T_base)^i (x − x_base)^j
//
//	atC  temperature [°C]  freezing point … 100
//
// Source: Melinder 2010.
func (m Mixture) Density(atC float64) float64 { return m.cubic(m.density, atC) }

// SpecificHeat returns the specific heat of the mixture in J/(kg·K), by the same form as Density.
//
//	atC  temperature [°C]  freezing point … 100
//
// Source: Melinder 2010.
func (m Mixture) SpecificHeat(atC float64) float64 { return m.cubic(m.heat, atC) }

// Conductivity returns the thermal conductivity of the mixture in W/(m·K), by the same form as Density.
//
//	atC  temperature [°C]  freezing point … 100
//
// Source: Melinder 2010.
func (m Mixture) Conductivity(atC float64) float64 { return m.cubic(m.conductivity, atC) }

// Viscosity returns the dynamic viscosity of the mixture in Pa·s.
//
//	μ = exp Σ Σ c_ij (T − T_base)^i (x − x_base)^j
//
//	atC  temperature [°C]  freezing point … 100
//
// Source: Melinder 2010.
func (m Mixture) Viscosity(atC float64) float64 { return math.Exp(m.cubic(m.viscous, atC)) }

// MassShare returns the mass share of a glycol that is mixed with water by volume at 20 °C.
//
//	x = φ ρ_g / (φ ρ_g + (1 − φ) ρ_w)
//
//	φ    share by volume before mixing    0 … 1
//	ρ_g  density of the glycol at 20 °C   [kg/m³]  propylene 1036.1, ethylene 1113.5
//	ρ_w  density of water at 20 °C        [kg/m³]  998.2
//
// Source: densities of the components; CRC Handbook, memory. The volumes that the ASHRAE Handbook prints beside its masses are up to 0.9 points higher.
// Errors: ErrFluid where the glycol is unknown or φ is outside its range.
func MassShare(fluid Fluid, byVolume float64) (float64, error) {
	glycol, found := pureKgM3[fluid]
	if !found || !(byVolume >= 0 && byVolume <= 1) {
		return 0, fmt.Errorf("%w: %q with a share of %g by volume", ErrFluid, fluid, byVolume)
	}
	return byVolume * glycol / (byVolume*glycol + (1-byVolume)*waterKgM3), nil
}
