package season

import (
	"math"

	"thawbook/calc/surface"
)

const (
	iceHeat      = 2100.0   // c_ice [J/(kg·K)]; engineering method, section 1
	waterHeat    = 4217.0   // c_w [J/(kg·K)]
	fusion       = 334e3    // h_if [J/kg]
	evaporating  = 2.4995e6 // h_fg [J/kg]
	sublimating  = evaporating + fusion
	zeroK        = 273.15
	drainS       = 600.0 // time constant of draining melt water [s]; engineering method, section 4
	heldShare    = 0.1   // of its mass that snow holds as water; engineering method, section 4
	wettingMM    = 0.1   // mm of water that wet the whole of the bare share; engineering method, section 4
	lightest     = 100.0 // kg/m³, new snow; engineering method, section 4
	heaviest     = 500.0 // kg/m³, snow full of water
	iceDensity   = 917.0 // kg/m³
	iceWMK       = 2.2   // W/(m·K), ice at 0 °C
	nearK        = 0.5   // a surface temperature nearer than this to the one it was linearised at is good enough
	mostGuesses  = 4
	dustKG       = 1e-9 // kg/m² that are nothing
	hardestSlope = 2000 // W/(m²·K), thin ice
)

// Lying is what lies on a pavement, in the words of the model: dry, wet, slush, snow, ice.
type Lying string

// The states of a surface.
const (
	Dry   Lying = "dry"
	Wet   Lying = "wet"
	Slush Lying = "slush"
	Snow  Lying = "snow"
	Ice   Lying = "ice"
)

// deck is what lies on the pavement [kg/m², which is mm of water], and the temperature of its top.
type deck struct {
	snow, ice, water float64 // ice is what froze from water or frost
	topC             float64 // of the snow, where there is some
}

func (d *deck) solid() float64 { return d.snow + d.ice }

// lying names the state.
func (d *deck) lying() Lying {
	switch solid, water := d.solid(), d.water; {
	case solid < dryMM && water < dryMM:
		return Dry
	case solid < dryMM:
		return Wet
	case water >= dryMM:
		return Slush
	case d.ice > d.snow:
		return Ice
	}
	return Snow
}

// insulance returns the resistance of the layer where it lies [m²·K/W].
//
//	ρ = 100 + 400 w kg/m³,  k = 0.021 + 2.5e−6 ρ² W/(m·K),  w liquid share of snow and water
//
// Source: engineering method, section 4; conductivity of Yen 1981 (CRREL report 81-10) in the form used for season models, from memory.
func (d *deck) insulance(covered float64) float64 {
	r := d.ice / (iceDensity * iceWMK)
	if d.snow > 0 {
		density := lightest + (heaviest-lightest)*d.water/(d.water+d.snow)
		r += d.snow / (density * (0.021 + 2.5e-6*density*density))
	}
	return r / covered
}

// flows are what crossed the bounds of a column and its deck. Energies in J/m², masses in kg/m².
type flows struct {
	heated                     float64 // put in at the pipe level
	surfaceOut, footOut        float64 // by convection, radiation, vapour less sun; at the foot
	carriedIn                  float64 // with snow, rain and dew, less what drains and evaporates
	snowed, rained             float64
	drained, evaporated, froze float64
	gained                     float64 // sum of what came in by any way, that errors are held against
}

// pavement is a column, what lies on it, and what crossed its bounds.
type pavement struct {
	net    *net
	vapour *vapour
	t      [mostNodes]float64 // [°C]
	a      [mostNodes]float64 // of the elimination
	deck
	flows
	meltC     float64 // temperature at which snow melts: 0 °C in a winter, that of the film in the handbook's balance
	alwaysOut bool    // covered share taken as 0: A_r 1 forced
	lewis     float64 // ρ_a h_m / h_c [kg·K/J]
}

// lewisRatio returns ρ_a h_m / h_c of calc/surface [kg·K/J].
func lewisRatio() float64 {
	t := surface.Balance(surface.Conditions{PressurePa: 101325, LengthM: 1, WindMS: 1}, 1)
	return t.AirDensity * t.MassTransferMS / t.FilmCoefficient
}

// loss is the heat that leaves the surface as a straight line through a guess: flux + slope (T − at).
type loss struct {
	at, flux, slope     float64
	vapour, vapourSlope float64 // mass that leaves as vapour from the bare share: the same line [kg/(m²·s)]
	latent              float64 // of that vapour [J/kg]
	top, topSlope       float64 // mass that leaves the snow [kg/(m²·s)], by the surface's temperature
}

// bare adds the loss of the bare share.
func (p *pavement) bare(l *loss, e *exposure, share, water, seconds float64) {
	film := e.film(l.at)
	kelvin := l.at + zeroK
	cube := bareEmissivity * stefanBoltzmann * kelvin * kelvin * kelvin
	flux := film*(l.at-e.airC) + cube*kelvin - bareEmissivity*e.sky - e.bareSun
	slope := film + 4*cube
	if water == 0 && l.at > e.dewC { // dry, and no dew
		l.flux += share * flux
		l.slope += share * slope
		return
	}
	saturated, perK := p.vapour.at(l.at, e.pressurePa)
	mass := p.lewis * film * (saturated - e.humidity)
	massSlope := p.lewis * film * perK
	if mass > 0 { // only what is wet gives vapour off
		wet := min(1, water/(wettingMM+mass*seconds))
		mass *= wet
		massSlope *= wet
	} else if l.at < p.meltC {
		l.latent = sublimating
	}
	l.flux += share * (flux + mass*l.latent)
	l.slope += share * (slope + massSlope*l.latent)
	l.vapour, l.vapourSlope = share*mass, share*massSlope
}

// covered adds the loss through the snow. Its top has no heat of its own and is at most at the melting point: what more comes in there is heat for
// the water that seeps down.
func (p *pavement) covered(l *loss, e *exposure, share float64) {
	top := p.topC
	film := e.film(top)
	kelvin := top + zeroK
	cube := snowEmissivity * stefanBoltzmann * kelvin * kelvin * kelvin
	saturated, perK := p.vapour.at(top, e.pressurePa)
	mass, massSlope := p.lewis*film*(saturated-e.humidity), p.lewis*film*perK
	flux := film*(top-e.airC) + cube*kelvin - snowEmissivity*e.sky - e.snowSun + mass*sublimating
	slope := film + 4*cube + massSlope*sublimating
	through := min(hardestSlope, 1/p.insulance(share))
	next := (through*l.at + slope*top - flux) / (through + slope)
	if next >= p.meltC { // clamped: heat comes in
		p.topC = p.meltC
		l.flux += share * (flux + slope*(p.meltC-top))
		l.top = share * (mass + massSlope*(p.meltC-top))
		return
	}
	p.topC = next
	passes := through / (through + slope)
	l.flux += share * through * (l.at - next)
	l.slope += share * slope * passes
	l.top = share * (mass + massSlope*(next-top))
	l.topSlope = share * massSlope * passes
}

// step moves the pavement on by the factors' time step, with heat at the pipe level [W/m²].
//
//	C (T' − T)/Δt = G (T_1' − T') − q(T') − μ [h_if + (c_w − c_i) t_m]
//
//	C    upper half cell, what lies on it and what falls in the step   [J/(m²·K)]
//	q    loss of the bare share and through the snow, in a straight line at T'; linearised again where T' is far from the guess
//	μ    melts (> 0) or freezes (< 0): the heat left over at the melting point t_m, at most what is there
func (p *pavement) step(f *factors, e *exposure, heat float64) {
	n, dt := p.net, f.seconds
	foot := n.footC(e.airC)
	under := f.up(n, &p.t, &p.a, foot, heat)
	snowIn, rainIn := e.snow*dt, e.rain*dt
	solidBefore := p.solid()
	share := min(1, solidBefore/coverMM)
	if p.alwaysOut {
		share = 0
	}
	held := n.capacity[0] + iceHeat*solidBefore + waterHeat*p.water
	carried := iceHeat*snowIn*e.snowC + waterHeat*rainIn*e.rainC
	solid, water := solidBefore+snowIn, p.water+rainIn
	// Balance without loss: capacity T' = right side.
	capacity := (n.capacity[0]+iceHeat*solid+waterHeat*water)/dt + n.link[0]*(1-f.above[1])
	right := (held*p.t[0]+carried)/dt + n.link[0]*under

	guess := p.t[0]
	if share == 0 {
		p.topC = min(guess, p.meltC)
	}
	var l loss
	var c change
	for try := 1; ; try++ {
		topBefore := p.topC
		l = loss{at: guess, latent: evaporating}
		if share < 1 {
			p.bare(&l, e, 1-share, water, dt)
		}
		if share > 0 {
			p.covered(&l, e, share)
		}
		c = settle(capacity+l.slope, right+l.slope*guess-l.flux, p.meltC, solid, water, dt)
		if try == mostGuesses || math.Abs(c.surfaceC-guess) < nearK && math.Abs(p.topC-topBefore) < nearK {
			break
		}
		guess = c.surfaceC
	}
	p.t[0] = c.surfaceC
	f.down(n, &p.t, &p.a)
	p.carriedIn += carried + fusion*rainIn
	p.lay(&l, &c, f, snowIn, rainIn)
	out := (l.flux + l.slope*(c.surfaceC-l.at)) * dt
	footOut := n.link[n.n-1] * (p.t[n.n-1] - foot) * dt
	p.heated += heat * dt
	p.surfaceOut += out
	p.footOut += footOut
	p.gained += heat * dt
	if out < 0 {
		p.gained -= out
	}
	if footOut < 0 {
		p.gained -= footOut
	}
}

// change is what a step does at the surface.
type change struct {
	surfaceC float64
	melted   float64 // [kg/m²], below 0: frozen
}

// settle solves the surface's balance with what melts or freezes.
//
//	A T' = B − μ [h_if + (c_w − c_i) t_m]/Δt
//
// Snow and water together hold the surface at t_m; where all has melted or frozen it goes on from there.
func settle(a, b, meltC, solid, water, dt float64) change {
	t := b / a
	const warms = waterHeat - iceHeat
	latent := fusion + warms*meltC
	over := (b - a*meltC) * dt // heat left over at the melting point [J/m²]
	switch {
	case over > 0 && solid > 0:
		if over < solid*latent {
			return change{meltC, over / latent}
		}
		return change{(b - fusion*solid/dt) / (a + warms*solid/dt), solid}
	case over < 0 && water > 0:
		if -over < water*latent {
			return change{meltC, over / latent}
		}
		return change{(b + fusion*water/dt) / (a - warms*water/dt), -water}
	}
	return change{t, 0}
}

// lay puts the step's masses in place: what fell, melted, froze, left as vapour and drained.
func (p *pavement) lay(l *loss, c *change, f *factors, snowIn, rainIn float64) {
	if p.snow+p.ice+p.water+snowIn+rainIn == 0 && l.vapour == 0 { // dry
		return
	}
	p.snowed += snowIn
	p.rained += rainIn
	p.snow += snowIn
	p.water += rainIn
	if c.melted >= 0 {
		if solid := p.solid(); solid > 0 {
			left := max(0, 1-c.melted/solid)
			p.snow *= left
			p.ice *= left
		}
	} else {
		p.ice -= c.melted
		p.froze -= c.melted
	}
	p.water += c.melted
	p.vapours(l, c.surfaceC, f.seconds)
	if most := filmMM + heldShare*p.snow; p.water > most {
		drained := (p.water - most) * (1 - f.drains)
		p.water -= drained
		p.drained += drained
		p.carriedIn -= drained * (fusion + waterHeat*c.surfaceC)
	}
	p.dust(c.surfaceC)
}

// vapours takes what evaporates and adds dew and frost.
func (p *pavement) vapours(l *loss, surfaceC, seconds float64) {
	rise := surfaceC - l.at
	mass := (l.vapour + l.vapourSlope*rise) * seconds
	if l.latent == evaporating {
		mass = min(mass, p.water)
		p.water -= mass
		p.carriedIn -= mass * (fusion + waterHeat*surfaceC)
	} else {
		mass = min(mass, 0)
		p.ice -= mass
		p.carriedIn -= mass * iceHeat * surfaceC
	}
	p.evaporated += mass
	if l.top == 0 {
		return
	}
	mass = min((l.top+l.topSlope*rise)*seconds, p.solid())
	if mass > 0 {
		left := 1 - mass/p.solid()
		p.snow *= left
		p.ice *= left
	} else {
		p.snow -= mass
	}
	p.evaporated += mass
	p.carriedIn -= mass * iceHeat * surfaceC
}

// dust clears what is left of rounding, so that nothing of no weight lies on.
func (p *pavement) dust(surfaceC float64) {
	if p.solid() < dustKG {
		p.evaporated += p.solid()
		p.carriedIn -= p.solid() * iceHeat * surfaceC
		p.snow, p.ice = 0, 0
	}
	if p.water < dustKG {
		p.evaporated += p.water
		p.carriedIn -= p.water * (fusion + waterHeat*surfaceC)
		p.water = 0
	}
}

// stored returns the heat in the column and on it, above ice at 0 °C [J/m²].
func (p *pavement) stored() float64 {
	e := (iceHeat*p.solid()+waterHeat*p.water)*p.t[0] + fusion*p.water
	for i := range p.net.n {
		e += p.net.capacity[i] * p.t[i]
	}
	return e
}

// closure is how far the books of a stretch are from closing.
type closure struct {
	energyJ, energyGained float64
	massKG, massGained    float64
}

// opened starts the books, closed ends them.
func (p *pavement) opened() closure {
	p.flows = flows{}
	return closure{energyJ: p.stored(), massKG: p.solid() + p.water}
}

func (p *pavement) closed(at closure) closure {
	in := p.heated - p.surfaceOut - p.footOut + p.carriedIn
	wet := p.snowed + p.rained - p.drained - p.evaporated
	return closure{energyJ: p.stored() - at.energyJ - in, energyGained: p.gained,
		massKG: p.solid() + p.water - at.massKG - wet, massGained: p.snowed + p.rained}
}
