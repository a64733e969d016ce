package calc

import (
	"errors"
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/setpoint"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Codes of findings about results.
const (
	CodeInstalledBelow   finding.Code = "installed-below-design"
	CodeInstalledShort   finding.Code = "installed-below-design-hours-unknown"
	CodeInstalledAssumed finding.Code = "installed-assumed"
	CodeInstalledFloor   finding.Code = "installed-floor"
	CodeSupplyAbove      finding.Code = "supply-above-limit"
	CodeEnergyUnusual    finding.Code = "energy-unusual"
	CodeClearingCheaper  finding.Code = "clearing-cheaper"
	CodeOutsideMethod    finding.Code = "outside-method"
	CodeLockedOut        finding.Code = "snow-below-lockout"
	CodeNoCore           finding.Code = "core-no-warmer"
	CodeStripes          finding.Code = "surface-stripes"
	CodeStripesSlight    finding.Code = "surface-stripes-slightly"
	CodeNoWarmUp         finding.Code = "warm-up-out-of-reach"
	CodeNoSnow           finding.Code = "no-snowfall"
)

const (
	installedStep   = 10    // W/m²: the installed output is rounded up to this
	installedFloor  = 200   // W/m², least of the trade's band; practice 4.1
	installedStairs = 300   // W/m²
	idleBelowC      = 2.0   // °C outdoors; reference
	shutOffC        = 4.4   // °C (40 °F) outdoors; energy-code screen
	aerialHoldH     = 4     // h after the last snow seen; reference
	manualHoldH     = 6     // h
	dryHoldH        = 1     // h after dry
	energyLeast     = 30    // kWh/m² a year: less is looked at; practice 7.2
	energyMost      = 600   // kWh/m² a year: more is looked at
	sensorDepthM    = 0.025 // m of the slab sensor's tip in concrete
	sensorSleeveM   = 0.020 // m, outside diameter of the sleeve that a slab sensor is pulled into; judgement
	slabHeatJM3K    = 2.1e6
	pipeWallWMK     = 0.38 // memory, high confidence
)

// evaluate calculates one zone: the rooms in order, each resting on those before.
func (e *Engine) evaluate(o *Outcome) {
	st := e.prepare(o)
	if refused(o.Findings) && !(st == nil && o.Zone.Service.DesignFluxWM2.Known && onlyMissing(o.Findings)) {
		return
	}
	e.choose(o)
	if !e.load(o, st) {
		return
	}
	if o.Zone.Slab.Stage == ExistingUnheated {
		e.winters(o, st)
		return
	}
	if !e.section(o, st) {
		return
	}
	e.design(o, st)
	e.cables(o)
	e.reset(o, st)
	if o.Reset != nil {
		e.winters(o, st)
	}
	e.operation(o)
	e.judge(o)
}

// prepare finds the zone's station, settles its defaults and judges it by the rules across fields.
func (e *Engine) prepare(o *Outcome) *weather.Station {
	st, found := e.station(o.Zone)
	o.Zone = e.settle(o.Zone, st)
	o.Findings = append(append(o.Findings, found...), e.rules(o.Zone, st)...)
	e.judgeTariff(o)
	if st != nil {
		o.Weather = e.used(o.Zone, st)
	}
	return st
}

// refused says whether a finding stops the calculation.
func refused(list []finding.Finding) bool { return finding.Worst(list) == finding.Error }

// onlyMissing says whether every error is a missing climate: a given flux still gets its load and slab.
func onlyMissing(list []finding.Finding) bool {
	for _, f := range list {
		if f.Severity == finding.Error && f.Code != CodeMissingInput && f.Code != CodeStationUnknown {
			return false
		}
	}
	return true
}

// fail records an error of a room on the zone and reports false.
func (o *Outcome) fail(err error) bool {
	if err == nil {
		return true
	}
	o.Err = err
	o.Findings = append(o.Findings, finding.New(finding.Error, CodeZoneFailed, "site_id", finding.Words("why", err.Error())))
	return false
}

func (o *Outcome) add(s finding.Severity, c finding.Code, f finding.Field, args ...finding.Arg) {
	o.Findings = append(o.Findings, finding.New(s, c, f, args...))
}

// used tells which weather a zone rests on.
func (e *Engine) used(z Zone, st *weather.Station) WeatherUsed {
	w := WeatherUsed{Station: st.Name, Digest: st.Digest, LatDeg: st.LatDeg, LonDeg: st.LonDeg, ElevationM: st.ElevationM, Years: len(st.Years),
		Kind: st.Kind, Sources: st.Sources, Coarse: st.CoarseSynthetic, Rule: weather.RuleDesignHour}
	if len(st.Years) > 0 {
		w.Rule = st.Years[0].SnowRule
		w.InfraredAll = st.Years[0].HasInfrared
	}
	if z.Place.LatitudeDeg.Known && z.Place.LongitudeDeg.Known && (st.LatDeg != 0 || st.LonDeg != 0) {
		w.DistanceKM = units.Some(distanceKM(z.Place.LatitudeDeg.Value, z.Place.LongitudeDeg.Value, st.LatDeg, st.LonDeg))
	}
	return w
}

// loadInput is what the zone's load rests on.
func loadInput(z Zone, st *weather.Station) surface.Input {
	in := surface.Input{ElevationM: z.Place.ElevationM.Value, WindFactor: z.Place.WindFactor, LengthM: z.Extent.WindLengthM.Value,
		SnowFree: z.Service.SnowFree.Value, Percentile: z.Service.Percentile.Value, Margin: z.Service.DesignMargin,
		Stairs: z.Extent.Use == Stair && !z.Extent.RisersIncluded, GivenWM2: z.Service.DesignFluxWM2}
	if st != nil {
		in.Station = st.Digest
	}
	return in
}

// load finds the design flux.
func (e *Engine) load(o *Outcome, st *weather.Station) bool {
	in := loadInput(o.Zone, st)
	load, err := e.loads.Get(in, func(in surface.Input) (surface.Load, error) {
		if st == nil {
			return surface.Analyse(in, weather.Station{})
		}
		return surface.Analyse(in, *st)
	})
	if errors.Is(err, surface.ErrNoSnow) {
		o.add(finding.Error, CodeNoSnow, "station", finding.Words("name", st.Name))
		return false
	}
	if !o.fail(err) {
		return false
	}
	o.Load = &load
	for _, what := range load.OutOfRange {
		o.add(finding.Warning, CodeOutsideMethod, "station", finding.Words("what", what))
	}
	return true
}

// design sizes the installed output and adds up the heat.
func (e *Engine) design(o *Outcome, st *weather.Station) {
	z, d := o.Zone, &o.Design
	back := o.Slab.BackWM2
	d.BackWM2, d.EdgeW = units.Some(back), o.Slab.EdgeW
	d.TotalW = units.Some((o.Load.DesignWM2+back)*z.Extent.AreaM2 + d.EdgeW.Or(0))
	d.FloorWM2 = floorWM2(z)
	needed := neededWM2(o.Load.DesignWM2, back)
	switch {
	case z.Heat.InstalledWM2.Known:
		d.InstalledWM2 = z.Heat.InstalledWM2
	case z.Heat.Kind == Electric && z.Heat.SpacingM.Known:
		d.InstalledWM2 = units.Some(z.Heat.CableWM / z.Heat.SpacingM.Value)
	case z.Slab.Stage == ExistingHeated:
		d.InstalledWM2 = units.Some(z.outputWM2(o.Load.DesignWM2, back))
		o.add(finding.Warning, CodeInstalledAssumed, "installed_output", finding.Value("installed", needed, units.Flux))
	default:
		d.InstalledWM2, d.FloorRules = units.Some(z.outputWM2(o.Load.DesignWM2, back)), d.FloorWM2 > needed
	}
	if d.FloorRules {
		o.add(finding.Info, CodeInstalledFloor, "installed_output", finding.Value("installed", d.FloorWM2, units.Flux), finding.Value("needed", needed, units.Flux))
	}
	if !o.fail(o.limited()) {
		return
	}
	e.unmetHours(o, st)
	e.warmUp(o)
}

// neededWM2 returns the installed output that a design flux and its back loss ask for, in W/m²; heat from below spares none.
func neededWM2(design, back float64) float64 {
	return math.Ceil((design+max(0, back))/installedStep) * installedStep
}

// floorWM2 returns the least installed output of the trade's usual band, in W/m².
func floorWM2(z Zone) float64 {
	if z.Extent.Use == Stair {
		return installedStairs
	}
	return installedFloor
}

// unmetHours counts the snowfall hours that the installed output, less back loss, can't serve, or the fluid at its limit, where there are hours to count.
func (e *Engine) unmetHours(o *Outcome, st *weather.Station) {
	d := &o.Design
	if st == nil || len(st.Years) == 0 {
		if d.InstalledWM2.Value < o.Load.DesignWM2 {
			o.add(finding.Warning, CodeInstalledShort, "installed_output", finding.Value("installed", d.InstalledWM2.Value, units.Flux),
				finding.Value("design", o.Load.DesignWM2, units.Flux))
		}
		return
	}
	most := d.InstalledWM2.Value - d.BackWM2.Value
	key := unmetKey{loadInput(o.Zone, st), min(most, d.LimitedWM2.Or(most))}
	hours, err := e.unmet.Get(key, func(k unmetKey) (float64, error) { return surface.Unmet(k.load, *st, k.flux), nil })
	if !o.fail(err) {
		return
	}
	d.UnmetHours = units.Some(hours)
	if d.InstalledWM2.Value < o.Load.DesignWM2 {
		o.add(finding.Warning, CodeInstalledBelow, "installed_output", finding.Value("installed", d.InstalledWM2.Value, units.Flux),
			finding.Value("design", o.Load.DesignWM2, units.Flux), finding.Value("hours", hours, units.Hours))
	}
}

// reset finds the slab temperature to hold as it gets colder.
func (e *Engine) reset(o *Outcome, st *weather.Station) {
	if st == nil || len(st.Years) == 0 {
		return
	}
	if o.Slab.CoreResistance <= 0 {
		o.add(finding.Warning, CodeNoCore, "spacing")
		return
	}
	z := o.Zone
	in := setpoint.Input{MeltC: z.Sensing.SurfaceMeltC, IdleC: z.Sensing.SurfaceIdleC, LengthM: z.Extent.WindLengthM.Value,
		WindMS: setpoint.Wind(weather.MeanWindDJF(*st), z.Place.WindFactor), ElevationM: z.Place.ElevationM.Value,
		CoreResistance: o.Slab.CoreResistance, CoverResistance: o.Slab.CoverResistance, PipeResistance: o.Slab.PipeResistance,
		LevelResistance: o.Slab.LevelResistance, BelowResistance: o.Slab.BelowResistance, BelowC: o.Slab.BelowC,
		DropK: z.Heat.DropK, Electric: z.Heat.Kind == Electric}
	curve, err := e.resets.Get(in, setpoint.Reset)
	if !o.fail(err) {
		return
	}
	plant := setpoint.Plant{InstalledWM2: o.Design.InstalledWM2.Value, SupplyLimitC: z.Heat.SupplyLimitC, ShutOffC: shutOffC, DesignSupply: o.designSupply()}
	limits := curve.Limits(plant)
	o.Reset, o.Limits = &curve, &limits
}

// designSupply returns the supply temperature at the design flux, in °C; blank without a fluid.
func (o Outcome) designSupply() units.Maybe[float64] {
	if o.Piping == nil {
		return units.Maybe[float64]{}
	}
	return units.Some(o.Piping.Flow.SupplyC)
}

// judge looks at results that stand outside the usual.
func (e *Engine) judge(o *Outcome) {
	if o.supplyTooHot() {
		o.add(finding.Warning, CodeSupplyAbove, "supply_limit", finding.Value("supply", o.designSupply().Value, units.Temperature), finding.Value("limit", o.Zone.Heat.SupplyLimitC.Value, units.Temperature))
	}
	chosen, found := o.Chosen()
	if !found {
		return
	}
	if chosen.Strategy != season.Unheated && (chosen.EnergyKWhM2 < energyLeast || chosen.EnergyKWhM2 > energyMost) {
		o.add(finding.Warning, CodeEnergyUnusual, "station", finding.Value("energy", chosen.EnergyKWhM2, units.EnergyPerArea),
			finding.Value("least", energyLeast, units.EnergyPerArea), finding.Value("most", energyMost, units.EnergyPerArea))
	}
	if chosen.LockedOutHours > 0 {
		o.add(finding.Warning, CodeLockedOut, "lowest_melting_temperature", finding.Value("hours", chosen.LockedOutHours, units.Hours))
	}
}
