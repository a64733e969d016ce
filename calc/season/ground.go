package season

import (
	"math"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// ClosureLimit is what the books of energy and of water may lack: engineering method, section 4.
const ClosureLimit = 0.001

// dryingBins count drying times by five minutes, up to two days.
const dryingBins = 48*12 + 1

// durations are how often something took how long.
type durations [dryingBins]uint16

func (d *durations) add(seconds float64) { d[min(dryingBins-1, int(seconds/fineS+0.5))]++ }

// percentile returns the hours that a share of the durations does not exceed, blank where there are none, and how many there are.
func percentile(of func(*tally) *durations, winters []tally, share float64) (hours units.Maybe[float64], n int) {
	var sum [dryingBins]int
	for i := range winters {
		for k, v := range of(&winters[i]) {
			sum[k] += int(v)
			n += int(v)
		}
	}
	below := 0
	for k, v := range sum {
		below += v
		if v > 0 && float64(below) >= share*float64(n) {
			return units.Some(float64(k) * fineS / hourS), n
		}
	}
	return hours, n
}

// lastPlace is how much more of a film the last place to dry holds than the pavement as a whole; the detector may stand where it dries first.
// Judgement: texture and the foot of a slope.
const lastPlace = 0.25

const stormShare = 0.90 // of storms that a recommended delay serves; engineering method, section 4

// lessUnheated takes the underside's flow of the unheated winter off, month by month: what is left is heat that was put in and lost. The unheated
// winter itself must come last.
func (t *tally) lessUnheated(unheated *tally) {
	for m := range t.months {
		t.months[m].BackKWhM2 -= unheated.months[m].BackKWhM2
	}
}

// ground fills what the steps tell beyond hours and heat.
func (r *Result) ground(winters []tally) {
	var g Ground
	n := float64(len(winters))
	snowing, bare, on, refrozen := 0.0, 0.0, 0.0, 0.0
	for i := range winters {
		t := &winters[i]
		snowing += t.snowing
		bare += t.bare
		refrozen += float64(t.refrozen) / n
		g.FluidLimitedH += t.fluidLimited / n
		g.EnergyResidual = worse(g.EnergyResidual, t.books.energyJ, t.books.energyGained)
		g.MassResidual = worse(g.MassResidual, t.books.massKG, t.books.massGained)
	}
	for m := range r.Months {
		on += r.Months[m].SnowOnSurfaceH
	}
	r.SnowOnSurfaceH, r.RefreezeEvents = units.Some(on), units.Some(refrozen)
	if snowing > 0 {
		r.BareShare = units.Some(bare / snowing)
	}
	var storms int
	g.AfterSnowH, storms = percentile(func(t *tally) *durations { return &t.afterSnow }, winters, stormShare)
	g.FilmDriesH, _ = percentile(func(t *tally) *durations { return &t.filmDries }, winters, stormShare)
	g.Storms = float64(storms) / n
	r.Ground = g
}

// worse returns the greater of a residual and another error over what it is held against.
func worse(than, lacks, against float64) float64 {
	if against > 0 {
		than = max(than, math.Abs(lacks)/against)
	}
	return than
}

// Closes says whether the books of energy and water close.
func (g Ground) Closes() bool {
	return g.EnergyResidual <= ClosureLimit && g.MassResidual <= ClosureLimit
}

// recommend fills what all strategies share: how the sky by cloud compares, and the delays that this site's storms ask for: those of the run that
// heats from the first flake until the pavement is dry, with or without idling as the strategy itself.
func recommend(results []Result, sky units.Maybe[float64]) {
	var from [2]Ground // without and with idling
	for i := range results {
		switch results[i].Strategy {
		case BothDetectors:
			from[0] = results[i].Ground
		case BothDetectorsIdling:
			from[1] = results[i].Ground
		}
	}
	for i := range results {
		best := &from[0]
		if results[i].Strategy.idles() {
			best = &from[1]
		}
		g := &results[i].Ground
		g.TimerH, g.OffDelayH = best.AfterSnowH, best.FilmDriesH
		g.OffDelayH.Value *= lastPlace
		g.SkyApart = sky
	}
}

// skyApart returns by how much the sky of cloud and humidity exceeds the file's infrared over the season, blank where the file has none.
func skyApart(in *Input, st *weather.Station) units.Maybe[float64] {
	cloud, file := 0.0, 0.0
	for _, h := range st.SeasonHours(in.Start, in.End) {
		if h.InfraredWM2 > 0 {
			cloud += cloudFlux(h)
			file += h.InfraredWM2
		}
	}
	if file == 0 {
		return units.Maybe[float64]{}
	}
	return units.Some(cloud/file - 1)
}
