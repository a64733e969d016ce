package season

import (
	"fmt"

	"thawbook/calc/weather"
)

// TransientRun is the Result.Estimate of a winter run through its hours with the heat that the pavement stores.
const TransientRun = "transient"

const (
	fineS       = 300.0 // s a step at most while the pavement is wet, snowy or called to heat; engineering method, section 4
	coarseS     = hourS // while it is dry, unheated and nothing falls
	fineSteps   = hourS / fineS
	quietMM     = 0.01 // mm of water or snow below which an hour is one step
	bandK       = 0.5  // K about the target, on and off; engineering method, section 4
	onSurfaceMM = 0.1  // mm of solid that count as snow on the surface; engineering method, section 4
	spinUpHours = 92 * 24
	spinUpMean  = 10 * 24 // hours whose mean air temperature a column starts at
	refrozenMM  = 0.1     // mm that freeze after a stop before it is told
)

// machine is what a strategy carries from one step to the next.
type machine struct {
	timers
	c       *control
	timed   bool    // the date, a timer or the operator calls in this hour
	wet     bool    // the in-pavement detector senses moisture
	dryS    float64 // left of the off-delay after dry
	mode    mode    // of the step before
	on      bool    // heat is on
	stopped bool    // heat ended on a wet pavement
	frozeAt float64 // flows.froze at that stop
	sinceS  float64 // since the last snow seen; below 0: the pavement has been dry since
	filmS   float64 // since the film alone is left; below 0: it is not
}

// detect returns what the in-pavement detector calls for and lets its off-delay run.
func (m *machine) detect(d *deck, surfaceC float64, in *Input, seconds float64) mode {
	solid := d.solid()
	switch {
	case solid > wetMM || d.water > wetMM && surfaceC < moistBelowC:
		m.wet, m.dryS = true, 0
	case m.wet && solid < dryMM && d.water < dryMM:
		m.wet, m.dryS = false, in.DryHoldH*hourS
	}
	switch {
	case m.wet:
		return melting
	case m.dryS > 0:
		m.dryS -= seconds
		return drying
	}
	return off
}

// decide returns what is done in a step: the call of the senses, unless it is too warm and nothing solid lies, or too cold to melt.
func (m *machine) decide(p *pavement, e *exposure, in *Input, seconds float64) mode {
	call := off
	if m.c.by&byMoisture != 0 {
		call = m.detect(&p.deck, p.t[0], in, seconds)
	}
	if m.timed {
		call = melting
	}
	switch {
	case e.warm && p.solid() <= wetMM:
		return off
	case call != off && !e.locked:
		return call
	case m.c.idles && e.cold:
		return idling
	}
	return off
}

// heat returns the heat of a step at the pipe level [W/m²]: on and off about the reset's target at the sensor, or the whole output, and no more than
// the fluid gives off at its limit.
func (m *machine) heat(now mode, p *pavement, e *exposure, installed float64) float64 {
	if now == off {
		m.on = false
		return 0
	}
	m.on = m.on || !m.c.limited
	if m.c.limited {
		target := e.coreMeltC
		if now == idling {
			target = e.coreIdleC
		}
		sensor := p.t[p.net.sensor]
		m.on = sensor < target-bandK || m.on && sensor < target+bandK
	}
	if !m.on {
		return 0
	}
	if p.net.fluidResistance > 0 && installed*p.net.fluidResistance > p.net.fluidLimitC-p.t[p.net.pipe] {
		return max(0, (p.net.fluidLimitC-p.t[p.net.pipe])/p.net.fluidResistance)
	}
	return installed
}

// winter is one strategy's way through a winter.
type winter struct {
	machine
	pavement
	in           *Input
	fine, coarse *factors
	subSteps     int
	tally        *tally
	hourWM2      float64 // mean heat of the hour that was run last
}

// hour runs one hour: one step while the pavement is dry, unheated and nothing falls, else steps of at most five minutes.
func (w *winter) hour(e *exposure) {
	w.timed = w.timers.timed(w.c.by, w.in, e.seen)
	f, steps := w.fine, w.subSteps
	if w.quiet(e) {
		f, steps = w.coarse, w.subSteps/fineSteps
	}
	t := w.tally
	month := &t.months[e.month-1]
	energy := 0.0
	for range steps {
		now := w.decide(&w.pavement, e, w.in, f.seconds)
		w.stops(now)
		q := w.heat(now, &w.pavement, e, w.in.InstalledWM2)
		w.step(f, e, q)
		hours := f.seconds / hourS
		t.hours[now] += hours
		energy += q * hours
		w.watch(now, e, f.seconds)
		t.surface(&w.deck, e, month, hours)
		month.BackKWhM2 += w.net.underflow(&w.t, w.net.footC(e.airC)) * hours
		if now == off {
			continue
		}
		month.spend(now, hours)
		month.EdgeDegreeHours += max(0, w.t[w.net.sensor]-e.airC) * hours
		if now == idling {
			t.idle += q * hours
		}
		if q > 0 && q < w.in.InstalledWM2 {
			t.fluidLimited += hours
		}
	}
	w.hourWM2 = energy
	month.EnergyKWhM2 += energy
	month.PeakWM2 = max(month.PeakWM2, energy)
	if e.unmet || e.seen && w.c.by == 0 {
		t.unmet++
	}
	if e.seen && e.locked && w.c.by != 0 {
		t.locked++
	}
}

// quiet says whether nothing can begin within the hour.
func (w *winter) quiet(e *exposure) bool {
	dry := !e.falls && w.solid() < quietMM && w.water < quietMM
	calls := w.timed || w.wet || w.dryS > 0 || w.c.idles && e.cold
	return dry && (!calls || e.warm)
}

// stops watches the end of heat on a wet pavement, and whether what was left there freezes.
func (w *winter) stops(now mode) {
	before := w.mode
	w.mode = now
	switch {
	case now > idling:
		w.stopped = false
	case before > idling:
		w.stopped, w.frozeAt = w.water > wetMM, w.froze
	case w.stopped && w.froze-w.frozeAt > refrozenMM:
		w.tally.refrozen++
		w.stopped = false
	case w.stopped && w.water < dryMM && w.solid() < dryMM:
		w.stopped = false
	}
}

// watch times how a storm's end dries with heat on: from the last snow seen, and from a full film.
func (w *winter) watch(now mode, e *exposure, seconds float64) {
	switch {
	case e.seen:
		w.sinceS, w.filmS = 0, -1
		return
	case w.sinceS < 0:
		return
	}
	w.sinceS += seconds
	solid := w.solid() >= dryMM
	switch {
	case !solid && w.water < dryMM:
		if now == melting {
			w.tally.afterSnow.add(w.sinceS)
			if w.filmS >= 0 {
				w.tally.filmDries.add(w.filmS)
			}
		}
		w.sinceS = -1
	case e.falls || now != melting:
		w.filmS = -1
	case w.filmS >= 0:
		w.filmS += seconds
	case !solid && w.water <= filmMM && w.water > filmMM*fullFilm:
		w.filmS = 0
	}
}

// fullFilm is the share of a film that counts as a full one.
const fullFilm = 0.9

// surface adds what lies on the pavement.
func (t *tally) surface(d *deck, e *exposure, month *Month, hours float64) {
	snowed := d.solid() > onSurfaceMM
	if snowed {
		month.SnowOnSurfaceH += hours
	}
	if e.seen {
		t.snowing += hours
		if !snowed {
			t.bare += hours
		}
	}
}

// resolution is how finely a winter is cut: 1 in use, more in tests that show that this is fine enough.
type resolution struct{ cells, steps int }

var asUsed = resolution{1, 1}

// course is what all strategies and winters of a call share.
type course struct {
	in           *Input
	scene        scene
	net          net
	fine, coarse factors
	subSteps     int
	vapour       *vapour
	lewis        float64
}

// check returns what the weather's side of the method can't take; the column and the reset check their own.
func (in *Input) check() error {
	switch {
	case !(in.InstalledWM2 >= 0 && in.InstalledWM2 <= 1e5):
		return fmt.Errorf("installed output %g W/m²: not a heat flux", in.InstalledWM2)
	case !(in.LengthM > 0 && in.LengthM <= 1e5) || !(in.WindFactor >= 0 && in.WindFactor <= 10):
		return fmt.Errorf("length %g m in the wind's direction, wind factor %g", in.LengthM, in.WindFactor)
	case !(in.SnowFactor >= 0 && in.SnowFactor <= 100):
		return fmt.Errorf("factor %g on the snow", in.SnowFactor)
	}
	return nil
}

func newCourse(in *Input, st *weather.Station, cut resolution) (*course, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	core, err := targetsOf(in, st)
	if err != nil {
		return nil, err
	}
	c := &course{in: in, scene: scene{in: in, core: core, up: in.InstalledWM2 / (1 + in.BackShare)}, vapour: newVapour(), lewis: lewisRatio()}
	if c.net, err = netOf(&in.Column, in.CoreResistance, cut.cells); err != nil {
		return nil, err
	}
	c.subSteps = fineSteps * cut.steps
	c.fine, c.coarse = c.net.factor(fineS/float64(cut.steps)), c.net.factor(coarseS/float64(cut.steps))
	return c, nil
}

// start returns a dry column at the mean air temperature of the first days, its ground on a line to the foot.
func (c *course) start(hours []exposure) pavement {
	p := pavement{net: &c.net, vapour: c.vapour, lewis: c.lewis}
	mean, n := 0.0, min(len(hours), spinUpMean)
	for i := range n {
		mean += hours[i].airC / float64(n)
	}
	n = c.net.n
	total := 0.0
	for i := range n {
		total += 1 / c.net.link[i]
	}
	foot, above := c.net.footC(mean), 0.0
	for i := range n {
		p.t[i] = mean + (foot-mean)*above/total
		above += 1 / c.net.link[i]
	}
	return p
}

// run returns a strategy's winter from a pavement as it lies.
func (c *course) run(by *control, p pavement, hours []exposure, t *tally) {
	w := c.winter(by, p, t)
	at := w.opened()
	for i := range hours {
		w.hour(&hours[i])
	}
	t.books = w.closed(at)
}

func (c *course) winter(by *control, p pavement, t *tally) winter {
	return winter{machine: machine{c: by, sinceS: -1, filmS: -1}, pavement: p, in: c.in, fine: &c.fine, coarse: &c.coarse, subSteps: c.subSteps, tally: t}
}

// before returns the hours of the same year that come before a run, at most spinUpHours.
func before(st *weather.Station, first *weather.Hour) []weather.Hour {
	for i := range st.Years {
		hours := st.Years[i].Hours
		for k := range hours {
			if &hours[k] == first {
				return hours[max(0, k-spinUpHours):k]
			}
		}
	}
	return nil
}

// winters calls do with each winter's hours and the pavement at their beginning, spun up without heat.
func (c *course) winters(st *weather.Station, do func(winter int, p pavement, hours []exposure)) error {
	runs := st.Season(c.in.Start, c.in.End)
	if len(runs) == 0 {
		return fmt.Errorf("%s: %w", st.Name, ErrNoHours)
	}
	n := runs[len(runs)-1].Winter + 1
	hours := make([]exposure, 0, longest(runs)+spinUpHours)
	for w, at := 0, 0; w < n; w++ {
		hours = hours[:0]
		early := before(st, &runs[at].Hours[0])
		for i := range early {
			hours = append(hours, c.scene.exposure(&early[i]))
		}
		for ; at < len(runs) && runs[at].Winter == w; at++ {
			for i := range runs[at].Hours {
				hours = append(hours, c.scene.exposure(&runs[at].Hours[i]))
			}
		}
		var idle tally
		spun := c.winter(&controls[0], c.start(hours), &idle)
		for i := range early {
			spun.hour(&hours[i])
		}
		do(w, spun.pavement, hours[len(early):])
	}
	return nil
}

// Transient returns the season of every strategy at a station, averaged over its winters, in the order of Strategies. See the package comment for
// the model.
//
// Source:  engineering method, sections 1 to 4.
// Errors:  ErrNoHours; ErrColumn; an input of Input outside what the rooms above take.
func Transient(in Input, st weather.Station) ([]Result, error) { return transient(in, st, asUsed) }

func transient(in Input, st weather.Station, cut resolution) ([]Result, error) {
	c, err := newCourse(&in, &st, cut)
	if err != nil {
		return nil, err
	}
	var tallies [len(controls)][]tally
	err = c.winters(&st, func(_ int, p pavement, hours []exposure) {
		for k := range controls {
			tallies[k] = append(tallies[k], tally{})
			t := &tallies[k][len(tallies[k])-1]
			c.run(&controls[k], p, hours, t)
		}
		for k := len(controls) - 1; k >= 0; k-- {
			last := len(tallies[k]) - 1
			tallies[k][last].lessUnheated(&tallies[0][last])
		}
	})
	if err != nil {
		return nil, err
	}
	results := make([]Result, len(controls))
	for k := range controls {
		results[k] = average(in, controls[k].strategy, TransientRun, tallies[k])
		results[k].ground(tallies[k])
	}
	recommend(results, skyApart(&in, &st))
	return results, nil
}
