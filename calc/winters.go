package calc

import (
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/slab"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Codes of findings about the winter.
const (
	CodeWinterOpen   finding.Code = "winter-does-not-close"
	CodeSkyApart     finding.Code = "sky-apart"
	CodeTimerUnusual finding.Code = "timer-unusual"
	CodeOffDelayLong finding.Code = "off-delay-unusual"
)

const (
	defaultVariation = 0.35 // of seasonal snow totals; judgement, practice 7.4
	tenthPercentile  = 1.28 // standard deviations from the mean to the 10th and 90th percentile of a normal distribution
	leastSensorM2KW  = 1e-4 // m²·K/W to the sensor, the least that its rounding leaves
	skyApart         = 0.15 // difference of the two skies that is told; engineering method, section 4
)

// winters runs every strategy through the station's winters; of unheated pavement that alone. A zone of an alternative that does not share the winters
// of the zone beside it as in Sites runs its own strategy alone, which is all that its money hangs on.
func (e *Engine) winters(o *Outcome, st *weather.Station) {
	if st == nil || len(st.Years) == 0 {
		return
	}
	key := e.seasonInput(*o, st)
	if o.beside != nil && key != *o.beside && o.Sensing != nil {
		key.Only = season.Strategy(o.Sensing.Strategy)
	}
	results, err := e.seasons.Get(key, func(in season.Input) ([]season.Result, error) { return season.Run(in, *st) })
	if !o.fail(err) {
		return
	}
	o.Seasons = results
	o.Snow = spread(*st, results[0])
	o.Weather.SeasonHours = results[0].SeasonHours
	o.judgeWinters()
}

// judgeWinters says where the books of a winter don't close and where the two skies differ, and what is unusual about the delays that were found.
func (o *Outcome) judgeWinters() {
	energy, mass := 0.0, 0.0
	for _, r := range o.Seasons {
		energy, mass = max(energy, r.Ground.EnergyResidual), max(mass, r.Ground.MassResidual)
	}
	if energy > season.ClosureLimit || mass > season.ClosureLimit {
		o.add(finding.Warning, CodeWinterOpen, "station", finding.Value("energy", energy, units.Share), finding.Value("water", mass, units.Share))
	}
	if sky := o.Seasons[0].Ground.SkyApart; sky.Known && math.Abs(sky.Value) > skyApart {
		o.add(finding.Info, CodeSkyApart, "station", finding.Value("apart", sky.Value, units.Share))
	}
	chosen, found := o.Chosen()
	if !found || chosen.Strategy == season.Unheated {
		return
	}
	if t := chosen.Ground.TimerH; t.Known && chosen.Strategy.SeesSnow() && (t.Value < timerLeastH || t.Value > timerMostH) {
		o.add(finding.Info, CodeTimerUnusual, "stop_wanted", finding.Value("found", t.Value, units.Hours), finding.Value("least", timerLeastH, units.Hours), finding.Value("most", timerMostH, units.Hours))
	}
	if d := chosen.Ground.OffDelayH; d.Known && chosen.Strategy.SensesMoisture() && d.Value > offDelayMostH {
		o.add(finding.Info, CodeOffDelayLong, "stop_wanted", finding.Value("found", d.Value, units.Hours), finding.Value("most", offDelayMostH, units.Hours))
	}
}

// seasonInput is what the zone's winter rests on. What it takes from the zone is rounded, so that pavements that are nearly alike share their
// winters: resistance to the sensor to 0.0001 m²·K/W, length in the wind's direction to 0.1 m (0.02 m below 2 m), elevation to 10 m, ground to
// 0.1 K. DEVELOPERS.md says what that does to the energy.
func (e *Engine) seasonInput(o Outcome, st *weather.Station) season.Input {
	z := o.Zone
	start, end := e.in.Settings.season(st.LatDeg)
	less, more := snowFactors(*st)
	in := season.Input{Station: st.Digest, LessSnow: less, MoreSnow: more, Start: start, End: end,
		ElevationM: nearest(z.Place.ElevationM.Value, 0.1), WindFactor: z.Place.WindFactor, LengthM: nearestLength(z.Extent.WindLengthM.Value),
		MeltC: z.Sensing.SurfaceMeltC, IdleC: z.Sensing.SurfaceIdleC, IdleBelowC: idleBelowC, ShutOffC: shutOffC, LowestMeltC: z.Sensing.LowestMeltC,
		AerialHoldH: aerialHoldH, ManualHoldH: manualHoldH, DryHoldH: dryHoldH}
	if o.Slab != nil {
		in.InstalledWM2, in.CoreResistance = o.Design.InstalledWM2.Value, max(leastSensorM2KW, nearest(o.Slab.CoreResistance, 1e4))
		in.Column = season.ColumnOf(*o.Slab, z.fluidMostC())
	} else {
		in.Column = season.ColumnOf(slab.Solution{Section: unheatedSection(z)}, units.Maybe[float64]{})
	}
	in.Column.GroundC = nearest(in.Column.GroundC, 10)
	return in
}

// nearest rounds to a part of one: perUnit 10 to tenths, 0.1 to tens.
func nearest(v, perUnit float64) float64 { return math.Round(v*perUnit) / perUnit }

// nearestLength rounds a length to 0.1 m, below 2 m to 0.02 m: the film coefficient hangs on its logarithm.
func nearestLength(m float64) float64 {
	if m < 2 {
		return nearest(m, 50)
	}
	return nearest(m, 10)
}

// unheatedSection is the section of a pavement without heat, where no depth counts: that of the heat is taken at the underside.
func unheatedSection(z Zone) slab.Section {
	s := sectionOf(z, designSpacing)
	s.DepthM = s.SurfaceM + s.BeddingM + s.SlabM
	return s
}

// Rules by which the mild, the typical and the severe winter are found.
const (
	RuleSnowFactors = "snow-factors"          // one winter, run again with less and with more snow
	RuleExtremes    = "lowest-median-highest" // of two to four winters
	RulePercentiles = "percentiles"           // the 10th, 50th and 90th of five winters or more
)

const leastForPercentiles = 5 // winters

// spread says how the mild and the severe winter of a station are found, whose winters r holds.
func spread(st weather.Station, r season.Result) SnowSpread {
	winters := 0
	for _, y := range r.Years {
		if y.SnowFactor == 1 {
			winters++
		}
	}
	switch {
	case winters >= leastForPercentiles:
		return SnowSpread{Rule: RulePercentiles, Winters: winters}
	case winters > 1:
		return SnowSpread{Rule: RuleExtremes, Winters: winters}
	}
	s := SnowSpread{Rule: RuleSnowFactors, Winters: winters, Variation: st.SnowVariation.Or(defaultVariation), Assumed: !st.SnowVariation.Known}
	s.MildFactor, s.SevereFactor = snowFactors(st)
	return s
}

// snowFactors returns the snow of a mild and of a severe winter over that of the winter as it is: 1 ∓ 1.28 CV, not below 0.
func snowFactors(st weather.Station) (mild, severe float64) {
	d := tenthPercentile * st.SnowVariation.Or(defaultVariation)
	return max(0, 1-d), 1 + d
}

// shares are where the mild, the typical and the severe winter stand in the order of cost, from 0, the cheapest, to 1.
func (s SnowSpread) shares() [3]float64 {
	if s.Rule == RulePercentiles {
		return [3]float64{0.1, 0.5, 0.9}
	}
	return [3]float64{0, 0.5, 1}
}

// season returns the season's first and last day at a latitude: as Settings tell it, else the usual one of that hemisphere.
func (s Settings) season(latDeg float64) (start, end season.Day) {
	from, to := weather.DefaultSeason(latDeg)
	start, end = s.SeasonStart, s.SeasonEnd
	if s.defaulted("season_start") {
		start = from
	}
	if s.defaulted("season_end") {
		end = to
	}
	return start, end
}

// defaulted says whether a line of Settings was filled by its default.
func (s Settings) defaulted(f finding.Field) bool {
	for _, d := range s.Defaults {
		if d.Field == f {
			return true
		}
	}
	return false
}

// edgeKWh returns the heat that leaves through the heated edge over some core-minus-outdoor degree hours.
func edgeKWh(z Zone, degreeHours float64) float64 {
	return slab.EdgeLoss(z.Extent.PerimeterM.Value, z.Slab.EdgeInsulation, degreeHours, 0) / 1000
}
