package season

import (
	"errors"
	"fmt"
	"math"

	"thawbook/calc/surface"
	"thawbook/calc/weather"
)

// SteadyEstimate is the Result.Estimate of this room: each hour a balance by itself, but for the snow, the film and the timers carried over.
const SteadyEstimate = "steady estimate"

// ErrNoHours tells of a station without a single hour of the season.
var ErrNoHours = errors.New("the station has no hours of the season")

// Run returns the season of every strategy at a station, averaged over its winters, in the order of Strategies, by a steady balance of each hour.
//
//	q_in = (1 + b) q_up,  q_up ≤ q_installed / (1 + b)
//
//	full output, not limited by a slab sensor:  q_up = q_installed / (1 + b)
//	melting, snow falls or lies:  q_up = (1 − c) A_r (q_h + q_e) + q_s + q_m,  at most (t_core − t_f)/R_core of the reset
//	melting or drying, no snow:   q_up = dry loss at the melting set point less 0.6 of the sun, not below 0
//	idling:                       the same at the idling set point
//	first hour of a call from a slab not idling:  full output; it stands for warming the slab
//
//	b    back loss per upward flux, BackShare                [–]
//	c    covered share, snow that lies (mm of water)/1 mm    [–]  0 … 1
//	A_r  snow-free area ratio, SnowFree                      [–]  0 … 1
//
// Snow that the heat left over does not melt lies on and is melted later; on a slab without heat it melts by 25 W/(m²·K) of air above 0 °C. Melt
// water leaves a film of 0.3 mm, which dries at q_e of a film at t_f: that is when an in-pavement detector senses dry. It starts on more than
// 0.05 mm of snow, of snow that lies, or of rain while the air is below 2 °C. Above the shut-off nothing heats, and its film is taken as dry.
// Not in it: heat stored in the slab but for the warming hour, dew and frost, drifts. Hours with snow on the surface, the bare share and refreezing
// stay blank, since they hang on the stored heat.
//
// Edge degree hours: core less outdoor temperature over the hours with heat; the core is the reset's target, and at full output
// t_f + q_up R_core while snow takes all heat, else t_a + q_up (R_core + 1/25 m²·K/W).
//
// Source:  engineering method, sections 1, 3 and 4.
// Errors:  ErrNoHours; an input of Input outside what the rooms above take.
func Run(in Input, st weather.Station) ([]Result, error) {
	core, err := targetsOf(&in, &st)
	if err != nil {
		return nil, err
	}
	runs := st.Season(in.Start, in.End)
	if len(runs) == 0 {
		return nil, fmt.Errorf("%s: %w", st.Name, ErrNoHours)
	}
	p := plantOf(&in)
	if !(p.up >= 0 && !math.IsInf(p.up, 0)) {
		return nil, fmt.Errorf("installed output %g W/m² with a back loss of %g per upward flux: want an output not below 0", in.InstalledWM2, in.BackShare)
	}
	winters := runs[len(runs)-1].Winter + 1
	tallies := make([]tally, len(controls)*winters)
	hours := make([]forcing, 0, longest(runs))
	for w, at := 0, 0; w < winters; w++ {
		hours = hours[:0]
		for ; at < len(runs) && runs[at].Winter == w; at++ {
			for i := range runs[at].Hours {
				hours = append(hours, force(&in, &runs[at].Hours[i], core))
			}
		}
		for k := range controls {
			tallies[k*winters+w].winter(&controls[k], &in, &p, hours)
		}
	}
	results := make([]Result, len(controls))
	for k := range controls {
		results[k] = average(in, controls[k].strategy, SteadyEstimate, tallies[k*winters:(k+1)*winters])
	}
	return results, nil
}

// longest returns the hours of the two longest runs: no winter has more.
func longest(runs []weather.Slice) int {
	first, second := 0, 0
	for _, r := range runs {
		if n := len(r.Hours); n > first {
			first, second = n, first
		} else if n > second {
			second = n
		}
	}
	return first + second
}

// plantOf returns what the heat of every hour is held against.
func plantOf(in *Input) plant {
	return plant{up: in.InstalledWM2 / (1 + in.BackShare), perUp: 1 + in.BackShare, back: in.BackShare, meltHeat: meltHeat()}
}

// meltHeat returns the heat in W/m² that melts 1 mm/h of snow that lies at 0 °C and warms it to the film's temperature.
func meltHeat() float64 {
	t := surface.Balance(surface.Conditions{SnowMMH: 1, PressurePa: weather.StandardPressurePa(0), LengthM: 1}, 0)
	return t.Sensible + t.Melt
}

// tally is one strategy's winter. Energies in Wh/m², also those of its months, until it is a YearTotal.
type tally struct {
	hours         [modes]float64
	unmet, locked int
	idle          float64
	months        [12]Month
	// Of the transient alone.
	snowing, bare        float64 // hours of snowfall, and of these with no solid to speak of
	refrozen             int
	fluidLimited         float64 // hours
	books                closure
	afterSnow, filmDries durations
}

// winter runs a strategy through the hours of a winter.
func (t *tally) winter(c *control, in *Input, p *plant, hours []forcing) {
	var s state
	for i := range hours {
		h := &hours[i]
		call := s.called(c.by, in, h)
		m := allowed(call, c.idles, h)
		begins := m > idling && s.call == off && s.mode == off
		up := s.heat(m, begins, c.limited, p, h)
		s.call, s.mode = call, m
		t.hours[m]++
		t.months[h.month-1].spend(m, 1)
		if h.seen {
			t.snowHour(c, p, h)
		}
		if up > 0 {
			t.heated(m, up, c.limited, in.CoreResistance, p, h)
		}
	}
}

// spend adds hours in a mode.
func (m *Month) spend(in mode, hours float64) {
	switch in {
	case idling:
		m.HoursIdling += hours
	case melting:
		m.HoursMelting += hours
	case drying:
		m.HoursDrying += hours
	}
}

// snowHour counts a snowfall hour that the plant can't serve, or does not because of the lockout.
func (t *tally) snowHour(c *control, p *plant, h *forcing) {
	if c.by == 0 || h.wetLoss+h.snowHeat > p.up {
		t.unmet++
	}
	if c.by != 0 && h.locked {
		t.locked++
	}
}

// heated adds an hour's heat.
func (t *tally) heated(m mode, up float64, limited bool, coreResistance float64, p *plant, h *forcing) {
	in := up * p.perUp
	month := &t.months[h.month-1]
	month.EnergyKWhM2 += in
	month.BackKWhM2 += up * p.back
	month.PeakWM2 = max(month.PeakWM2, in)
	if m == idling {
		t.idle += in
	}
	month.EdgeDegreeHours += max(0, h.core(m, up, limited, coreResistance)-h.airC)
}

// core returns the core temperature of an hour with heat in °C.
func (h *forcing) core(m mode, up float64, limited bool, coreResistance float64) float64 {
	switch {
	case m == idling:
		return h.coreIdleC
	case limited:
		return h.coreMeltC
	case h.wetLoss+h.snowHeat >= up:
		return surface.Film() + up*coreResistance
	}
	return h.airC + up*(coreResistance+1/unheatedFilm)
}
