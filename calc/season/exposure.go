package season

import (
	"math"

	"thawbook/calc/air"
	"thawbook/calc/surface"
	"thawbook/calc/weather"
)

const (
	stefanBoltzmann = 5.670374419e-8 // W/(m²·K⁴), CODATA 2018
	bareEmissivity  = 0.9            // ASHRAE Handbook, HVAC Applications (2015) ch. 51
	snowEmissivity  = 0.97           // of snow in the infrared; engineering method, section 4
	bareAbsorptance = 0.6            // of a bare pavement for the sun; engineering method, section 4
	snowAbsorptance = 0.3            // of snow for the sun
	hourS           = 3600.0
	stillK          = 4.0 // natural convection is found at this difference, or for a surface of 0 °C where that is more, and scaled from there [K]
)

// exposure is what one hour does to a pavement, whatever lies on it and whatever heats it. It is found once for all strategies.
type exposure struct {
	month, day, clock   int8
	seen                bool // falling snow that an aerial detector sees
	warm, locked, cold  bool // above the shut-off, below the lockout, below the outdoor temperature of idling
	falls               bool // snow or rain
	airC                float64
	recorded            float64 // snow of the record [mm]
	snow, rain          float64 // [kg/(m²·s)]
	snowC, rainC        float64 // temperatures at which they arrive [°C]
	forced, forcedSlope float64 // plate relation at a surface of 0 °C [W/(m²·K)], and by how much it changes per K
	warmer, colder      float64 // natural convection at 1 K [W/(m²·K)]
	sky                 float64 // black body at T_MR [W/m²]
	bareSun, snowSun    float64 // taken up [W/m²]
	pressurePa          float64
	humidity            float64 // W_a [kg/kg]
	dewC                float64
	coreMeltC           float64 // targets of the outdoor reset
	coreIdleC           float64
}

// exposure returns what an hour does, with the snow of the record.
//
// The sky is the file's infrared, or that of cloud and humidity, also while it snows. Snow arrives at min(t_a, 0) and rain at max(t_a, 0).
func (c *course) exposure(h *weather.Hour) exposure {
	in := c.in
	e := exposure{month: h.Month, day: h.Day, clock: h.Clock, airC: h.AirC,
		warm: h.AirC > in.ShutOffC, cold: h.AirC < in.IdleBelowC, locked: in.LowestMeltC.Known && h.AirC < in.LowestMeltC.Value,
		recorded: h.SnowMM, rain: h.RainMM / hourS, snowC: min(h.AirC, 0), rainC: max(h.AirC, 0), pressurePa: h.PressurePa, dewC: h.DewC,
		bareSun: bareAbsorptance * h.SunWM2, snowSun: snowAbsorptance * h.SunWM2, sky: skyFlux(h),
		humidity: air.HumidityRatio(air.SaturationPressure(h.DewC), h.PressurePa)}
	e.snows(1)
	e.convection(surface.Conditions{AirC: h.AirC, DewC: h.DewC, WindMS: h.WindMS * in.WindFactor, PressurePa: h.PressurePa, LengthM: in.LengthM, MeanRadiantC: h.AirC})
	if c.core != nil {
		e.coreMeltC, e.coreIdleC = c.core.at(h.AirC)
	}
	return e
}

// snows sets the snow to that of the record times a factor.
func (e *exposure) snows(factor float64) {
	h := weather.Hour{SnowMM: factor * e.recorded}
	e.snow, e.seen, e.falls = h.SnowMM/hourS, h.Snowing(), h.SnowMM > 0 || e.rain > 0
}

// skyFlux returns what a black body at T_MR sends [W/m²].
func skyFlux(h *weather.Hour) float64 {
	if h.InfraredWM2 > 0 { // NaN where the file has none
		return h.InfraredWM2
	}
	return cloudFlux(h)
}

// cloudFlux returns the same by cloud and humidity alone.
func cloudFlux(h *weather.Hour) float64 {
	return blackBody(surface.SkyRadiantC(h.AirC, h.DewC, h.CloudShare))
}

func blackBody(c float64) float64 {
	k := air.Kelvin(c)
	k *= k
	return stefanBoltzmann * k * k
}

// convection fills the coefficients of the plate relation and of natural convection. The first is found at two surface temperatures, as air
// properties follow the mean of surface and air.
func (e *exposure) convection(c surface.Conditions) {
	forced := func(surfaceC float64) float64 {
		at := c
		at.AirC = (surfaceC + c.AirC) / 2
		h, _, _ := surface.FilmCoefficient(at.AirC, at) // no difference, no natural convection
		return h
	}
	const apart = 10
	e.forced = forced(0)
	e.forcedSlope = (e.forced - forced(-apart)) / apart
	c.WindMS = 0
	warmer, colder := max(stillK, -c.AirC), max(stillK, c.AirC)
	h, _, _ := surface.FilmCoefficient(c.AirC+warmer, c)
	e.warmer = h / math.Cbrt(warmer)
	h, _, _ = surface.FilmCoefficient(c.AirC-colder, c)
	e.colder = h / math.Sqrt(math.Sqrt(colder))
}

// film returns the coefficient of convection at a surface temperature [W/(m²·K)]: the greater of the two.
func (e *exposure) film(surfaceC float64) float64 {
	h := e.forced + e.forcedSlope*surfaceC
	difference := surfaceC - e.airC
	if difference >= 0 {
		if cube := h / e.warmer; cube*cube*cube < difference {
			return e.warmer * math.Cbrt(difference)
		}
		return h
	}
	if square := h / e.colder; square*square*square*square < -difference {
		return e.colder * math.Sqrt(math.Sqrt(-difference))
	}
	return h
}

const (
	vapourFromC = -60
	vapourToC   = 90
	vapourPerK  = 4
)

// vapour is the pressure of saturated vapour over ice below 0 °C and over water from there on, linear between quarters of a kelvin [Pa].
type vapour [(vapourToC-vapourFromC)*vapourPerK + 1]float64

func newVapour() *vapour {
	var v vapour
	for i := range v {
		v[i] = air.SaturationPressure(vapourFromC + float64(i)/vapourPerK)
	}
	return &v
}

// at returns W at saturation [kg/kg] and its slope per K.
func (v *vapour) at(c, pressurePa float64) (ratio, slope float64) {
	place := (c - vapourFromC) * vapourPerK
	i := max(0, min(len(v)-2, int(place)))
	perStep := v[i+1] - v[i]
	p := v[i] + perStep*(place-float64(i))
	ratio = air.HumidityRatio(p, pressurePa)
	return ratio, ratio * (pressurePa / (p * (pressurePa - p)) * perStep * vapourPerK)
}
