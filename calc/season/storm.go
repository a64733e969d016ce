package season

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"thawbook/calc/weather"
)

const (
	stormGapH    = 6  // h without snow that part two storms; usual for events of precipitation
	stormLongest = 48 // h: a longer one is no picture
	stormLeast   = 2  // snowfall hours
	leadH        = 6  // h drawn before the first snow
	trailH       = 18 // and after the last
)

// ErrWindow says that a window lies outside the station's winters.
var ErrWindow = errors.New("window of a storm")

// Window is a stretch of hours of a winter: First counts from the first hour of the season.
type Window struct{ Winter, First, Hours int }

// Storm is a stretch of a strategy's winter told hour by hour.
type Storm struct {
	Label string // of the year that its winter begins in
	Hours []StormHour
}

// StormHour is an hour of a strategy's winter. Temperatures and what lies are those at the end of the hour.
type StormHour struct {
	Month, Day, Clock int8
	AirC              float64
	SnowMM, RainMM    float64 // that fell in the hour, as water
	SurfaceC          float64
	CoreC             float64 // at the sensor
	HeatWM2           float64 // mean of the hour
	SolidMM           float64 // snow and ice on the surface, as water
	WaterMM           float64
	Lying             Lying
	Mode              string // off, idling, melting, drying: at the end of the hour
}

// names of the modes.
var modeNames = [modes]string{off: "off", idling: "idling", melting: "melting", drying: "drying"}

// told is the hour that was run last.
func (w *way) told(e *exposure) StormHour {
	return StormHour{Month: e.month, Day: e.day, Clock: e.clock, AirC: e.airC, SnowMM: e.snow * hourS, RainMM: e.rain * hourS, SurfaceC: w.t[0],
		CoreC: w.t[w.net.sensor], HeatWM2: w.hourWM2, SolidMM: w.solid(), WaterMM: w.water, Lying: w.lying(), Mode: modeNames[w.mode]}
}

// window returns the hours that a run tells: those asked for, else those of the representative storm; no hour where there is no storm.
func (in *Input) window(winters [][]weather.Slice) (Window, error) {
	if in.Window == (Window{}) {
		return representative(winters), nil
	}
	w := in.Window
	if w.Winter < 0 || w.Winter >= len(winters) || w.First < 0 || w.Hours < 1 || w.First+w.Hours > hoursOf(winters[w.Winter]) {
		return Window{}, fmt.Errorf("%w: %+v", ErrWindow, w)
	}
	return w, nil
}

// hoursOf returns the hours of a winter.
func hoursOf(runs []weather.Slice) int {
	n := 0
	for _, r := range runs {
		n += len(r.Hours)
	}
	return n
}

// fall is a storm as it fell.
type fall struct {
	Window
	snowing int // hours
	water   float64
}

// representative returns the window of the storm to draw: of all storms of the station's winters with at least two snowfall hours and no longer than
// two days, the one whose snow water nine in ten do not exceed, with six hours before it and eighteen after. Storms are parted by six hours without
// a snowfall hour.
func representative(winters [][]weather.Slice) Window {
	var list []fall
	for w, runs := range winters {
		list = append(list, falls(w, runs)...)
	}
	list = slices.DeleteFunc(list, func(s fall) bool { return s.snowing < stormLeast || s.Hours > stormLongest })
	if len(list) == 0 {
		return Window{}
	}
	slices.SortStableFunc(list, func(a, b fall) int { return cmp.Compare(a.water, b.water) })
	s := list[min(len(list)-1, int(stormShare*float64(len(list))))].Window
	until := min(s.First+s.Hours+trailH, hoursOf(winters[s.Winter]))
	s.First = max(0, s.First-leadH)
	s.Hours = until - s.First
	return s
}

// falls returns the storms of a winter.
func falls(winter int, runs []weather.Slice) []fall {
	var list []fall
	at, last := 0, -stormGapH-1
	for _, r := range runs {
		for i := range r.Hours {
			if h := &r.Hours[i]; h.Snowing() {
				if at-last > stormGapH {
					list = append(list, fall{Window: Window{Winter: winter, First: at}})
				}
				s := &list[len(list)-1]
				s.Hours, s.snowing, s.water = at-s.First+1, s.snowing+1, s.water+h.SnowMM
				last = at
			}
			at++
		}
	}
	return list
}
