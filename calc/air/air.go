// Package air holds the properties of moist air that a surface exchanges heat and vapour with: saturation pressure, humidity, standard
// pressure, viscosity, conductivity and density.
package air

import "math"

const (
	zeroC      = 273.15     // K at 0 °C, exact
	gasDryAir  = 287.042    // J/(kg·K), ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 1
	massRatio  = 0.621945   // water to dry air, ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 20
	seaLevelPa = 101325     // Pa, ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 3
	lapse      = 2.25577e-5 // 1/m, same
	exponent   = 5.2559     // same
)

// Kelvin returns an air or surface temperature in K.
func Kelvin(c float64) float64 { return c + zeroC }

// SaturationPressure returns the pressure of saturated water vapour over ice below 0 °C and over water from there on, in Pa.
//
//	t  temperature [°C]  −100 … 200
//
// Source: ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 5 and 6.
func SaturationPressure(t float64) float64 {
	if t < 0 {
		return SaturationOverIce(t)
	}
	return SaturationOverWater(t)
}

// SaturationOverIce returns the pressure of saturated water vapour over ice, in Pa.
//
//	ln p_ws = C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T
//
//	t  temperature [°C]  −100 … 0
//
// Source: ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 5.
func SaturationOverIce(t float64) float64 {
	k := t + zeroC
	return math.Exp(-5.6745359e3/k + 6.3925247 + k*(-9.677843e-3+k*(6.2215701e-7+k*(2.0747825e-9-9.484024e-13*k))) + 4.1635019*math.Log(k))
}

// SaturationOverWater returns the pressure of saturated water vapour over liquid water, in Pa. Below 0 °C it is that over supercooled water.
//
//	ln p_ws = C8/T + C9 + C10 T + C11 T² + C12 T³ + C13 ln T
//
//	t  temperature [°C]  0 … 200; extrapolated smoothly below
//
// Source: ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 6.
func SaturationOverWater(t float64) float64 {
	k := t + zeroC
	return math.Exp(-5.8002206e3/k + 1.3914993 + k*(-4.8640239e-2+k*(4.1764768e-5-1.4452093e-8*k)) + 6.5459673*math.Log(k))
}

// HumidityRatio returns the mass of water vapour per mass of dry air, in kg/kg.
//
//	W = 0.621945 p_w / (p − p_w)
//
//	vapourPa    partial pressure of the vapour [Pa]  0 … below pressurePa
//	pressurePa  pressure of the moist air [Pa]
//
// Source: ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 20.
func HumidityRatio(vapourPa, pressurePa float64) float64 {
	return massRatio * vapourPa / (pressurePa - vapourPa)
}

// RelativeHumidity returns the vapour pressure over that of saturation over liquid water, as a fraction: the quantity that weather stations
// report, also below 0 °C.
//
//	φ = p_ws(t_d) / p_ws(t_a)
//
//	airC, dewC  dry bulb and dew point [°C]  −100 … 200
//
// Source: World Meteorological Organization, guide no. 8: humidity is reported with respect to water at all temperatures.
func RelativeHumidity(airC, dewC float64) float64 {
	return SaturationOverWater(dewC) / SaturationOverWater(airC)
}

// StandardPressure returns the pressure of the standard atmosphere at an elevation, in Pa.
//
//	p = 101325 (1 − 2.25577e−5 z)^5.2559
//
//	z  elevation [m]  −5000 … 11000
//
// Source: ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 3.
func StandardPressure(z float64) float64 { return seaLevelPa * math.Pow(1-lapse*z, exponent) }

// Viscosity returns the dynamic viscosity of air, in Pa·s.
//
//	μ = 1.458e−6 T^1.5 / (T + 110.4)
//
//	t  temperature [°C]  −100 … 100
//
// Source: US Standard Atmosphere 1976, eq. 51.
func Viscosity(t float64) float64 {
	k := t + zeroC
	return 1.458e-6 * k * math.Sqrt(k) / (k + 110.4)
}

// Conductivity returns the thermal conductivity of air, in W/(m·K).
//
//	k = 2.64638e−3 T^1.5 / (T + 245.4 · 10^(−12/T))
//
//	t  temperature [°C]  −100 … 100
//
// Source: US Standard Atmosphere 1976, eq. 53.
func Conductivity(t float64) float64 {
	k := t + zeroC
	return 2.64638e-3 * k * math.Sqrt(k) / (k + 245.4*math.Exp(-12*math.Ln10/k))
}

// Density returns the density of dry air, in kg/m³.
//
//	ρ_a = p / (287.042 T)
//
//	t           temperature [°C]
//	pressurePa  pressure [Pa]
//
// Source: perfect gas; gas constant of ASHRAE Handbook, Fundamentals (2017) ch. 1 eq. 1. The vapour (under 1 % of the mass in winter) is left out.
func Density(t, pressurePa float64) float64 { return pressurePa / (gasDryAir * (t + zeroC)) }
