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

// ErrWindow says that a window lies outside the station's winters, or names no strategy.
var ErrWindow = errors.New("window of a storm")

// Window is a stretch of hours of a winter: First counts from the first hour of the season.
type Window struct{ Winter, First, Hours int }

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

// Storm returns some hours of a strategy's winter: the run of Transient again, told hour by hour within the window.
//
// Source:  engineering method, section 4.
// Errors:  as Transient; ErrWindow.
func Storm(in Input, st weather.Station, s Strategy, at Window) ([]StormHour, error) {
	c, err := newCourse(&in, &st, asUsed)
	if err != nil {
		return nil, err
	}
	k := slices.Index(Strategies[:], s)
	if k < 0 || at.First < 0 || at.Hours < 1 {
		return nil, fmt.Errorf("%w: %q, %+v", ErrWindow, s, at)
	}
	var list []StormHour
	err = c.winters(&st, func(winter int, p pavement, hours []exposure) {
		if winter != at.Winter || at.First+at.Hours > len(hours) {
			return
		}
		var t tally
		w := c.winter(&controls[k], p, &t)
		for i := range hours[:at.First+at.Hours] {
			w.hour(&hours[i])
			if i >= at.First {
				list = append(list, w.told(&hours[i]))
			}
		}
	})
	if err == nil && list == nil {
		err = fmt.Errorf("%w: %+v", ErrWindow, at)
	}
	return list, err
}

// told is the hour that was run last.
func (w *winter) told(e *exposure) StormHour {
	return StormHour{Month: e.month, Day: e.day, Clock: e.clock, AirC: e.airC, SnowMM: e.snow * hourS, RainMM: e.rain * hourS, SurfaceC: w.t[0],
		CoreC: w.t[w.net.sensor], HeatWM2: w.hourWM2, SolidMM: w.solid(), WaterMM: w.water, Lying: w.lying(), Mode: modeNames[w.mode]}
}

// Representative returns the window of the storm to draw: of all storms of the station's winters with at least two snowfall hours and no longer than
// two days, the one whose snow water nine in ten do not exceed, with six hours before it and eighteen after. Storms are parted by six hours without
// a snowfall hour. It is false where there is no storm.
func Representative(in Input, st weather.Station) (Window, bool) {
	type storm struct {
		Window
		snowing int
		water   float64
	}
	var list []storm
	winter, at, last := -1, 0, 0
	for w, h := range st.SeasonHours(in.Start, in.End) {
		if w != winter {
			winter, at, last = w, 0, -stormGapH-1
		}
		if h.SnowMM*in.SnowFactor >= weather.SnowHourMM {
			if at-last > stormGapH {
				list = append(list, storm{Window: Window{Winter: w, First: at}})
			}
			s := &list[len(list)-1]
			s.Hours, s.snowing, s.water = at-s.First+1, s.snowing+1, s.water+h.SnowMM
			last = at
		}
		at++
	}
	list = slices.DeleteFunc(list, func(s storm) bool { return s.snowing < stormLeast || s.Hours > stormLongest })
	if len(list) == 0 {
		return Window{}, false
	}
	slices.SortStableFunc(list, func(a, b storm) int { return cmp.Compare(a.water, b.water) })
	s := list[min(len(list)-1, int(stormShare*float64(len(list))))].Window
	end := min(s.First+s.Hours+trailH, seasonHours(&st, in.Start, in.End, s.Winter))
	s.First = max(0, s.First-leadH)
	s.Hours = end - s.First
	return s, true
}

// seasonHours returns the hours of a winter.
func seasonHours(st *weather.Station, start, end Day, winter int) int {
	n := 0
	for _, run := range st.Season(start, end) {
		if run.Winter == winter {
			n += len(run.Hours)
		}
	}
	return n
}
