package calc

import (
	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

const (
	typicalYearK = 5.0   // K, how much colder than a typical year's coldest hour the extreme minimum is taken; judgement
	stripesK     = 2.0   // K below freezing midway between the pipes from which stripes are a warning; judgement
	leastRiseK   = 0.5   // K: at less the radiation of the hour tells no coefficient, and the usual film is taken
	leastCableM  = 0.025 // m, least spacing of cables; memory of NEC 426, defer to the adopted code
)

// section solves the slab at the design flux with the pipes or cables that feed it. A spacing that is left to design is the widest whose supply
// stays under its limit.
func (e *Engine) section(o *Outcome, st *weather.Station) bool {
	spacings := spacings(*o)
	for i, spacing := range spacings {
		if !e.conduct(o, spacing, 0) || !e.pipes(o, st, spacing) {
			return false
		}
		if i == len(spacings)-1 || !o.supplyTooHot() {
			break
		}
	}
	if z := o.Zone; z.Heat.Kind == Electric && !z.Heat.SpacingM.Known && !e.conduct(o, cableSpacing(z, o.Load.DesignWM2, o.Slab.BackWM2), 0) {
		return false
	}
	o.Design.SpacingProposed = !o.Zone.Heat.SpacingM.Known
	o.evenness()
	if o.Piping != nil {
		o.Findings = append(o.Findings, o.Piping.Checks.Findings()...)
	}
	if o.pipingErr != nil {
		o.add(finding.Warning, CodeNoPiping, "pipe", finding.Words("why", o.pipingErr.Error()))
	}
	return true
}

// conduct solves the slab at a spacing: conduction once per geometry, whoever asks, scaled to this load. film is that between fluid and pipe in
// W/m²·K, 0 until the flow is known.
func (e *Engine) conduct(o *Outcome, spacing, film float64) bool {
	section := sectionOf(o.Zone, spacing)
	section.OutdoorC, section.FluidFilmWM2K = o.Load.Hour.Value.AirC, film
	unit, err := e.sections.Get(section.Geometry(), slab.Unitary)
	if !o.fail(err) {
		return false
	}
	solution, err := unit.At(section, o.Load.DesignWM2)
	if !o.fail(err) {
		return false
	}
	if o.Load.Hour.Known {
		solution.EdgeW = units.Some(slab.EdgeLoss(o.Zone.Extent.PerimeterM.Value, o.Zone.Slab.EdgeInsulation, solution.SensorC.Value, o.Load.Hour.Value.AirC))
	}
	o.Slab = &solution
	return true
}

// pipes lays out the loops of a hydronic zone and solves the slab again with the film that their flow gives.
func (e *Engine) pipes(o *Outcome, st *weather.Station, spacing float64) bool {
	if o.Zone.Heat.Kind != Hydronic {
		return true
	}
	layout, err := e.layouts.Get(pipingInput(*o, st, spacing), piping.Design)
	if err != nil { // the load and the slab stand; a pipe that would have to boil is no layout
		o.Piping, o.pipingErr = nil, err
		return true
	}
	o.Piping, o.pipingErr = &layout, nil
	return e.conduct(o, spacing, layout.Flow.FilmWM2K)
}

// pipingInput is what a zone's loops rest on: the fluxes of the design.
func pipingInput(o Outcome, st *weather.Station, spacing float64) piping.Input {
	h := o.Zone.Heat
	return piping.Input{AreaM2: o.Zone.Extent.AreaM2, SpacingM: spacing, OuterM: h.Pipe.OuterM, WallM: h.Pipe.WallM, WallWMK: pipeWallWMK, LoopLengthM: h.LoopLengthM,
		UpWM2: o.Load.DesignWM2, BackWM2: o.Slab.BackWM2, EdgeW: o.Slab.EdgeW.Or(0), PipeSurfaceC: o.Slab.PipeSurfaceC.Value, DropK: h.DropK, CarryWM2: o.Zone.outputWM2(o.Load.DesignWM2, o.Slab.BackWM2), SupplyLimitC: h.SupplyLimitC,
		Fluid: piping.Fluid(h.Fluid), Share: h.FluidShare, ExtremeMinC: extremeMinC(st)}
}

// extremeMinC returns the coldest to be expected: as Climate tells it, else the coldest hour, less 5 K where the record is one typical year.
func extremeMinC(st *weather.Station) units.Maybe[float64] {
	switch {
	case st == nil:
		return units.Maybe[float64]{}
	case st.ExtremeMinC.Known || len(st.Years) == 0:
		return st.ExtremeMinC
	case st.Kind == weather.Observed:
		return units.Some(weather.ColdestHourC(*st))
	}
	return units.Some(weather.ColdestHourC(*st) - typicalYearK)
}

// supplyTooHot says whether the supply at the design flux lies above its limit.
func (o Outcome) supplyTooHot() bool {
	supply, limit := o.designSupply(), o.Zone.Heat.SupplyLimitC
	return supply.Known && limit.Known && supply.Value > limit.Value
}

// spacings lists what is tried, in m: the spacing told, that of a slab whose pipes are not known, or those of a design.
func spacings(o Outcome) []float64 {
	z := o.Zone
	switch {
	case z.Heat.SpacingM.Known:
		return []float64{z.Heat.SpacingM.Value}
	case z.Heat.Kind == Electric:
		return []float64{cableSpacing(z, o.Load.DesignWM2, 0)}
	case z.Slab.Existing():
		return []float64{designSpacing}
	}
	return piping.Spacings(z.Heat.outerM())
}

// cableSpacing returns the spacing at which the cable gives the installed output, in m: its output per length over the output per area.
func cableSpacing(z Zone, designWM2, backWM2 float64) float64 {
	return max(leastCableM, z.Heat.CableWM/z.outputWM2(designWM2, backWM2))
}

// outputWM2 is the installed output in W/m² of a zone whose element has no other: as told, else what design flux and back loss need, of a pavement that
// is not there yet at least the floor.
func (z Zone) outputWM2(designWM2, backWM2 float64) float64 {
	needed := neededWM2(designWM2, backWM2)
	if z.Slab.Stage != ExistingHeated {
		needed = max(needed, floorWM2(z))
	}
	return z.Heat.InstalledWM2.Or(needed)
}

// conductivities returns those of the surface course and of the slab under it [W/(m·K)]. Conductivity is that of the surface's material: with a
// course of asphalt, pavers or stone the slab below is concrete; without one the surface is the slab.
func (b Slab) conductivities() (course, under float64) {
	course = b.ConductivityWMK.Value
	if b.SurfaceThicknessM.Value > 0 && b.Surface != Concrete {
		return course, conductivity[Concrete]
	}
	return course, course
}

// sensorDepthM returns the depth of the slab sensor's tip [m]: 25 mm in concrete. Nothing is laid into pavers, stone or hot asphalt: there it lies in a
// sleeve right under the course, and with the pipes or cables where they lie in the course or its thickness is not told. Source: common practice.
func (b Slab) sensorDepthM() float64 {
	switch b.Surface {
	case Pavers, Stone, Asphalt:
	default:
		return sensorDepthM
	}
	under := b.DepthM.Value
	if course := b.SurfaceThicknessM.Value; course > 0 {
		under = min(under, course+sensorSleeveM/2)
	}
	return max(under, sensorDepthM)
}

// sectionOf is the zone's slab section at a spacing.
func sectionOf(z Zone, spacing float64) slab.Section {
	b, h := z.Slab, z.Heat
	course, under := b.conductivities()
	s := slab.Section{SurfaceM: b.SurfaceThicknessM.Value, SurfaceWMK: course, BeddingM: b.BeddingThicknessM.Value, BeddingWMK: beddingConductivity,
		SlabM: b.ThicknessM.Value, SlabWMK: under, DepthM: b.DepthM.Value, SpacingM: spacing,
		OuterM: h.outerM(), InsulationM2KW: b.InsulationM2KW.Value, GroundC: b.GroundC.Value, SensorDepthM: b.sensorDepthM(), SlabHeatCapacityJM3: slabHeatJM3K}
	switch b.Support {
	case OverAir:
		s.Support = slab.OpenAir
	case OverHeated:
		s.Support = slab.HeatedSpace
	}
	if h.Kind == Hydronic {
		s.WallM, s.WallWMK = h.Pipe.WallM, pipeWallWMK
	}
	return s
}

// evenness says when the strip midway between the pipes freezes at design, and what flux would keep it bare.
func (o *Outcome) evenness() {
	if !o.Slab.Striped {
		return
	}
	severity, code := finding.Info, CodeStripesSlight
	if o.Slab.SurfaceMinC.Value < -stripesK {
		severity, code = finding.Warning, CodeStripes
	}
	o.add(severity, code, "spacing", finding.Value("least", o.Slab.SurfaceMinC.Value, units.Temperature), finding.Value("even", o.Slab.EvenWM2.Value, units.Flux),
		finding.Value("spacing", o.Slab.Section.SpacingM, units.Thickness))
}

// dryFilm returns the film of an hour's wind on a dry surface with its radiation to the sky at air temperature, in W/m²·K.
func dryFilm(hour surface.Terms) float64 {
	if rise := surface.Film() - hour.AirC; rise > leastRiseK {
		return hour.FilmCoefficient + hour.Radiation/rise
	}
	return 0
}

// fluidMostC returns the hottest mean fluid that the zone bears, in °C: its supply limit less half the drop; blank for cables.
func (z Zone) fluidMostC() units.Maybe[float64] {
	if z.Heat.Kind == Electric || !z.Heat.SupplyLimitC.Known {
		return units.Maybe[float64]{}
	}
	return units.Some(z.Heat.SupplyLimitC.Value - z.Heat.DropK/2)
}

// limited finds the flux up that the fluid still gives at its limit: supply and flux lie on a line, from the mean fluid without a flux up to the supply
// at the design flux.
func (o *Outcome) limited() error {
	supply, limit := o.designSupply(), o.Zone.Heat.SupplyLimitC
	if !supply.Known || !limit.Known || o.Load.DesignWM2 <= 0 {
		return nil
	}
	rest, err := o.Slab.Unit.At(o.Slab.Section, 0)
	if err != nil || supply.Value <= rest.MeanFluidC.Value {
		return err
	}
	d := &o.Design
	d.RestFluidC = rest.MeanFluidC
	d.LimitedWM2 = units.Some(o.Load.DesignWM2 * (limit.Value - d.RestFluidC.Value) / (supply.Value - d.RestFluidC.Value))
	return nil
}

// warmUp finds the hours from a cold start in the design hour's air to the melting set point.
func (e *Engine) warmUp(o *Outcome) {
	if !o.Load.Hour.Known {
		return
	}
	hour := o.Load.Hour.Value
	air := hour.AirC
	in := slab.WarmUpInput{Section: o.Slab.Section, OutputWM2: o.Design.InstalledWM2.Value, StartC: air, AirC: air, TargetC: o.Zone.Sensing.SurfaceMeltC,
		FilmWM2K: dryFilm(hour), PipeResistance: o.Slab.PipeResistance - o.Slab.LevelResistance, FluidMostC: o.Zone.fluidMostC()}
	result, err := e.warmUps.Get(in, slab.WarmUp)
	if !o.fail(err) {
		return
	}
	o.Slab.WarmUpHours = result.Hours
	if !result.Hours.Known {
		severity := finding.Warning
		if o.Zone.Service.SnowFree.Value < 1 { // a level that lets snow lie is not meant to bare the surface in the coldest storm
			severity = finding.Info
		}
		o.add(severity, CodeNoWarmUp, "installed_output", finding.Value("air", air, units.Temperature), finding.Value("rest", result.SteadyC, units.Temperature))
	}
}
