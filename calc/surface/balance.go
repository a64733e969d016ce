package surface

import (
	"math"

	"thawbook/calc/air"
)

const (
	stefanBoltzmann = 5.670374419e-8 // W/(m²·K⁴), CODATA 2018
	gravity         = 9.80665        // m/s², standard
	mmPerHour       = 1.0 / 1000 / 3600
)

// Conditions are the weather that a surface meets in one hour. Comparable and flat.
type Conditions struct {
	AirC, DewC   float64 // [°C] −60 … 40
	WindMS       float64 // after the wind factor [m/s] 0 … 40
	PressurePa   float64 // [Pa]
	LengthM      float64 // of the slab in the wind's direction [m] 0.5 … 100
	SnowMMH      float64 // water equivalent [mm/h] 0 … 10
	MeanRadiantC float64 // T_MR [°C]; the air's temperature while it snows
}

// Constants are the numbers that editions of the method differ in.
type Constants struct {
	IceHeat, WaterHeat float64 // c_ice, c_w [J/(kg·K)]
	Fusion             float64 // h_if [J/kg]
	Vaporisation       float64 // h_fg at the film's temperature [J/kg]
	WaterDensity       float64 // ρ_w [kg/m³]
	MeltC, FilmC       float64 // t_m and t_f, the liquid film's temperature [°C]
	Emissivity         float64 // ε of the wet surface
	Prandtl, Schmidt   float64 // of air; of vapour in air
	AirHeat            float64 // c_p of air [J/(kg·K)]
}

// method returns the constants by which every load is calculated.
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51 for the film's 33 °F, ε, Pr and Sc and h_if; c_ice and c_w at 0 °C from steam and ice
// tables (the handbook prints 0.49 and 1.0 Btu/lb·°F, 2 % and 1 % less); h_fg at 0.56 °C.
func method() Constants {
	return Constants{IceHeat: 2100, WaterHeat: 4217, Fusion: 334e3, Vaporisation: 2.4995e6, WaterDensity: 1000,
		MeltC: 0, FilmC: 0.56, Emissivity: 0.9, Prandtl: 0.7, Schmidt: 0.6, AirHeat: 1006}
}

// Film returns t_f, the temperature of the liquid film on a melting surface, in °C (33 °F).
func Film() float64 { return method().FilmC }

// Balance returns the terms of the surface heat balance in one hour of snow, in W/m², with the constants of this program.
// See Constants.Balance.
func Balance(c Conditions, snowFree float64) Terms { return method().Balance(c, snowFree) }

// Balance returns the terms of the surface heat balance in one hour of snow, in W/m².
//
//	q_o = q_s + q_m + A_r (q_h + q_e)
//	q_s = ρ_w s [c_ice (t_m − min(t_a, t_m)) + c_w (t_f − t_m)]
//	q_m = ρ_w s h_if
//	q_h = h_c (t_f − t_a) + ε σ (T_f⁴ − T_MR⁴)
//	q_e = ρ_a h_m (W_f − W_a) h_fg,  h_m = (Pr/Sc)^⅔ h_c / (ρ_a c_p)
//
//	A_r  snow-free area ratio, snowFree [–]  0 … 1
//	s    snowfall rate, water equivalent     0 … 10 mm/h
//	h_c  film coefficient, FilmCoefficient   [W/(m²·K)]
//	W_f  humidity ratio saturated over water at t_f; W_a from the dew point, over ice below 0 °C
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51 eq. 1 to 12. A negative q_e (condensation) is left as it is.
// Time, year and CondensationFloored are not filled.
func (k Constants) Balance(c Conditions, snowFree float64) Terms {
	h, natural, re := k.film(k.FilmC, c)
	density := air.Density((k.FilmC+c.AirC)/2, c.PressurePa)
	mass := k.massTransfer(h, density)
	t := Terms{AirC: c.AirC, DewC: c.DewC, WindMS: c.WindMS, SnowMMH: c.SnowMMH, PressurePa: c.PressurePa,
		FilmCoefficient: h, Reynolds: re, NaturalConvection: natural, MassTransferMS: mass, AirDensity: density,
		SurfaceHumidity: air.HumidityRatio(air.SaturationOverWater(k.FilmC), c.PressurePa),
		AirHumidity:     air.HumidityRatio(air.SaturationPressure(c.DewC), c.PressurePa),
	}
	water := k.WaterDensity * c.SnowMMH * mmPerHour
	t.Sensible = water * (k.IceHeat*(k.MeltC-min(c.AirC, k.MeltC)) + k.WaterHeat*(k.FilmC-k.MeltC))
	t.Melt = water * k.Fusion
	t.Convection = h * (k.FilmC - c.AirC)
	t.Radiation = k.radiation(k.FilmC, c.MeanRadiantC)
	t.Evaporation = density * mass * (t.SurfaceHumidity - t.AirHumidity) * k.Vaporisation
	t.Total = t.snow() + float64(snowFree*t.bare())
	return t
}

// snow returns q_s + q_m, the part that does not depend on the snow-free area ratio.
func (t Terms) snow() float64 { return t.Sensible + t.Melt }

// bare returns q_h + q_e, the part that the snow-free area ratio multiplies.
func (t Terms) bare() float64 { return t.Convection + t.Radiation + t.Evaporation }

// massTransfer returns h_m in m/s, by the analogy of Chilton and Colburn.
func (k Constants) massTransfer(h, density float64) float64 {
	root := math.Cbrt(k.Prandtl / k.Schmidt)
	return root * root * h / (density * k.AirHeat)
}

// radiation returns ε σ (T_s⁴ − T_MR⁴) in W/m².
func (k Constants) radiation(surfaceC, meanRadiantC float64) float64 {
	return k.Emissivity * stefanBoltzmann * (fourth(air.Kelvin(surfaceC)) - fourth(air.Kelvin(meanRadiantC)))
}

func fourth(x float64) float64 { return x * x * x * x }

// DryLoss returns the upward heat flux of a dry, snow-free surface, in W/m²: no evaporation, no sun.
//
//	q_loss = h_c (t_s − t_a) + ε σ (T_s⁴ − T_MR⁴)
//
//	surfaceC  t_s [°C]  −40 … 60
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51 eq. 4, at the surface's own temperature. Snow and dew point do not count.
func DryLoss(surfaceC float64, c Conditions) float64 {
	k := method()
	h, _, _ := k.film(surfaceC, c)
	return h*(surfaceC-c.AirC) + k.radiation(surfaceC, c.MeanRadiantC)
}

// FilmCoefficient returns h_c, the coefficient of convection between a surface and the air, in W/(m²·K), whether it is that of natural
// convection, and the Reynolds number of the wind.
//
//	h_c  = 0.037 (k_air / L) Re_L^0.8 Pr^⅓,  Re_L = V L / ν
//	h_c ≥ 0.15 (k_air / ℓ) Ra^⅓   surface warmer than the air
//	h_c ≥ 0.27 (k_air / ℓ) Ra^¼   surface colder than the air
//
//	L  length in the wind's direction [m]; ℓ = L/4, area over perimeter of a square
//	Air properties at the mean of surface and air and at the hour's pressure.
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51 eq. 5 and 6, turbulent over the whole length; the floor in still air is natural
// convection of a horizontal plate, Incropera, Fundamentals of Heat and Mass Transfer, ch. 9.
func FilmCoefficient(surfaceC float64, c Conditions) (h float64, natural bool, re float64) {
	return method().film(surfaceC, c)
}

func (k Constants) film(surfaceC float64, c Conditions) (h float64, natural bool, re float64) {
	mean := (surfaceC + c.AirC) / 2
	conductivity := air.Conductivity(mean)
	viscosity := air.Viscosity(mean) / air.Density(mean, c.PressurePa)
	re = c.WindMS * c.LengthM / viscosity
	forced := 0.037 * conductivity / c.LengthM * math.Pow(re, 0.8) * math.Cbrt(k.Prandtl)
	floor := k.still(surfaceC-c.AirC, c.LengthM, conductivity, viscosity, air.Kelvin(mean))
	if forced < floor {
		return floor, true, re
	}
	return forced, false, re
}

// still returns the coefficient of natural convection over a horizontal plate in W/(m²·K).
func (k Constants) still(warmerK, lengthM, conductivity, viscosity, meanK float64) float64 {
	length := lengthM / 4
	ra := gravity / meanK * math.Abs(warmerK) * length * length * length * k.Prandtl / (viscosity * viscosity)
	if warmerK >= 0 {
		return 0.15 * conductivity / length * math.Cbrt(ra)
	}
	return 0.27 * conductivity / length * math.Sqrt(math.Sqrt(ra))
}

// SkyRadiantC returns T_MR, the mean radiant temperature of the sky while no snow falls, in °C.
//
//	T_MR⁴ = F_sc T_cloud⁴ + (1 − F_sc) T_sky⁴
//	T_sky = T_a − (1.1058e3 − 7.562 T_a + 1.333e−2 T_a² − 31.292 φ + 14.58 φ²)
//	T_cloud = max(T_a − 19.2 K, T_sky)
//
//	airC, dewC  t_a and dew point [°C]  −60 … 40
//	cloudShare  F_sc, cloud-covered share of the sky [–]  0 … 1
//	φ           relative humidity [–]
//
// Source: ASHRAE Handbook, HVAC Applications (2015) ch. 51 eq. 7 to 9; 19.2 K is the lapse to clouds at 3 km.
func SkyRadiantC(airC, dewC, cloudShare float64) float64 {
	t := air.Kelvin(airC)
	φ := air.RelativeHumidity(airC, dewC)
	sky := t - (1.1058e3 - 7.562*t + 1.333e-2*t*t - 31.292*φ + 14.58*φ*φ)
	cloud := max(t-19.2, sky)
	return math.Sqrt(math.Sqrt(cloudShare*fourth(cloud)+(1-cloudShare)*fourth(sky))) - air.Kelvin(0)
}

// InfraredRadiantC returns T_MR of a measured horizontal infrared flux from the sky, in °C.
//
//	T_MR = (G_L / σ)^¼
//
//	infraredWM2  G_L [W/m²]  above 0
//
// Source: definition of the black body's flux.
func InfraredRadiantC(infraredWM2 float64) float64 {
	return math.Sqrt(math.Sqrt(infraredWM2/stefanBoltzmann)) - air.Kelvin(0)
}
