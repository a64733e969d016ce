package season

import (
	"thawbook/calc/setpoint"
	"thawbook/calc/weather"
)

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
