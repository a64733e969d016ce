package season

import (
	"thawbook/calc/setpoint"
	"thawbook/calc/surface"
	"thawbook/calc/weather"
)

const (
	absorptance  = 0.6             // of a bare pavement for the sun; engineering method, section 4
	moistBelowC  = 2.0             // °C: rain on a pavement below this is what an in-pavement detector starts on; engineering method, section 4
	vaporisation = 2.4995e6 / 3600 // W/m² that evaporate 1 mm/h of water (1 kg/(m²·h)); h_fg as in calc/surface
)

// forcing is what one hour does to the pavement, the same for every strategy. Fluxes in W/m².
type forcing struct {
	month                int8
	seen                 bool    // falling snow that an aerial detector sees
	moist                bool    // snow, or rain on a cold pavement, that an in-pavement detector senses
	warm, locked, cold   bool    // above the shut-off, below the lockout, below the outdoor temperature of idling
	airC                 float64 // °C
	snowMM, rainMM       float64 // mm of water
	wetLoss              float64 // A_r (q_h + q_e) less the sun on the bare share
	snowHeat             float64 // q_s + q_m of the snow that falls
	evaporates           float64 // mm of water
	melt, idle           float64 // dry loss less sun at the set points, not below 0
	coreMeltC, coreIdleC float64 // targets of the outdoor reset
	wetLimit             float64 // what the reset lets up through a wet surface at the film's temperature
}

// plant is what the heat of every hour is held against.
type plant struct {
	up       float64 // installed output less back loss [W/m²]
	perUp    float64 // heat into the column per upward heat
	back     float64 // back loss per upward heat
	meltHeat float64 // heat that melts and warms 1 mm/h of snow at 0 °C [W/m²]
}

// force returns what an hour does to the pavement.
//
// Snow falls with T_MR = T_a and without sun; else the sky is the file's infrared, or that of cloud and humidity. Rain wets but carries no heat.
func force(in *Input, hour *weather.Hour, core *targets) forcing {
	h := *hour
	h.SnowMM *= in.SnowFactor
	f := forcing{month: h.Month, airC: h.AirC, snowMM: h.SnowMM, rainMM: h.RainMM, seen: h.Snowing(),
		moist: h.SnowMM > wetMM || h.RainMM > wetMM && h.AirC < moistBelowC,
		warm:  h.AirC > in.ShutOffC, cold: h.AirC < in.IdleBelowC, locked: in.LowestMeltC.Known && h.AirC < in.LowestMeltC.Value}
	if f.warm && h.SnowMM == 0 {
		return f
	}
	c := surface.Conditions{AirC: h.AirC, DewC: h.DewC, WindMS: h.WindMS * in.WindFactor, PressurePa: h.PressurePa, LengthM: in.LengthM, SnowMMH: h.SnowMM,
		MeanRadiantC: radiantC(&h)}
	sun := absorptance * h.SunWM2
	if h.SnowMM > 0 {
		sun = 0
	}
	t := surface.Balance(c, in.SnowFree)
	f.snowHeat = t.Sensible + t.Melt
	f.wetLoss = t.Total - f.snowHeat - in.SnowFree*sun
	f.evaporates = max(0, t.Evaporation/vaporisation)
	f.melt = max(0, surface.DryLoss(in.MeltC, c)-sun)
	if f.cold {
		f.idle = max(0, surface.DryLoss(in.IdleC, c)-sun)
	}
	if core != nil {
		f.coreMeltC, f.coreIdleC = core.at(h.AirC)
		f.wetLimit = max(0, (f.coreMeltC-surface.Film())/in.CoreResistance)
	}
	return f
}

// radiantC returns the mean radiant temperature of what the pavement sees, in °C.
func radiantC(h *weather.Hour) float64 {
	switch {
	case h.SnowMM > 0:
		return h.AirC
	case h.InfraredWM2 > 0: // NaN where the file has none
		return surface.InfraredRadiantC(h.InfraredWM2)
	}
	return surface.SkyRadiantC(h.AirC, h.DewC, h.CloudShare)
}

const (
	coldestC = -60 // °C outdoors, the first entry of targets
	warmestC = 20  // °C outdoors, the last
)

// targets are the core's targets by the outdoor reset at whole degrees outdoors, melting and idling, in °C.
type targets [warmestC - coldestC + 1][2]float64

// targetsOf returns the outdoor reset of the slab, nil where nothing is installed.
func targetsOf(in *Input, st *weather.Station) (*targets, error) {
	if in.InstalledWM2 == 0 {
		return nil, nil
	}
	wind := setpoint.Wind(weather.MeanWindDJF(*st), in.WindFactor)
	curve, err := setpoint.Reset(setpoint.Input{MeltC: in.MeltC, IdleC: in.IdleC, LengthM: in.LengthM, WindMS: wind, ElevationM: in.ElevationM,
		CoreResistance: in.CoreResistance})
	if err != nil {
		return nil, err
	}
	var t targets
	for i := range t {
		outdoor := float64(coldestC + i)
		t[i] = [2]float64{curve.At(outdoor, true), curve.At(outdoor, false)}
	}
	return &t, nil
}

// at returns the targets at an outdoor temperature, linear between whole degrees and from the outer ones on.
func (t *targets) at(outdoorC float64) (melt, idle float64) {
	i := max(0, min(len(t)-2, int(outdoorC-coldestC)))
	part := outdoorC - float64(coldestC+i)
	return t[i][0] + part*(t[i+1][0]-t[i][0]), t[i][1] + part*(t[i+1][1]-t[i][1])
}
