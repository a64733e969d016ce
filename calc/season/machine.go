package season

const (
	fineS       = 300.0 // s a step at most while the pavement is wet, snowy or called to heat; engineering method, section 4
	coarseS     = hourS // while it is dry, unheated and nothing falls
	fineSteps   = hourS / fineS
	quietMM     = 0.01 // mm of water or snow below which an hour is one step
	bandK       = 0.5  // K about the target, on and off; engineering method, section 4
	onSurfaceMM = 0.1  // mm of solid that count as snow on the surface; engineering method, section 4
	moistBelowC = 2.0  // °C: water on a surface below this is what an in-pavement detector starts on; engineering method, section 4
	refrozenMM  = 0.1  // mm that freeze after a stop before it is told
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

// way is one strategy's way through a winter.
type way struct {
	machine
	pavement
	in           *Input
	fine, coarse *factors
	subSteps     int
	tally        *tally
	hourWM2      float64 // mean heat of the hour that was run last
}

// hour runs one hour: one step while the pavement is dry, unheated and nothing falls, else steps of at most five minutes.
func (w *way) hour(e *exposure) {
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
	if e.seen && e.locked && w.c.by != 0 {
		t.locked++
	}
}

// quiet says whether nothing can begin within the hour.
func (w *way) quiet(e *exposure) bool {
	dry := !e.falls && w.solid() < quietMM && w.water < quietMM
	calls := w.timed || w.wet || w.dryS > 0 || w.c.idles && e.cold
	return dry && (!calls || e.warm)
}

// stops watches the end of heat on a wet pavement, and whether what was left there freezes.
func (w *way) stops(now mode) {
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
func (w *way) watch(now mode, e *exposure, seconds float64) {
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
