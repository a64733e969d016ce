package calc

import (
	"thawbook/calc/finding"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

const (
	stripesK    = 2.0   // K below freezing midway between the pipes from which stripes are a warning; judgement
	leastRiseK  = 0.5   // K: at less the radiation of the hour tells no coefficient, and the usual film is taken
	leastCableM = 0.025 // m, least spacing of cables; memory of NEC 426, defer to the adopted code
)

// hydronicSpacings are the spacings that a design tries, the widest first, in m. Source: common practice.
var hydronicSpacings = [...]float64{0.225, 0.200, 0.150, 0.100}

// section solves the slab at the design flux. A spacing that is left to design is the widest whose supply stays under its limit.
func (e *Engine) section(o *Outcome, st *weather.Station) bool {
	spacings := e.spacings(*o)
	for i, spacing := range spacings {
		if !e.conduct(o, spacing) {
			return false
		}
		if supply, limit := o.designSupply(), o.Zone.Heat.SupplyLimitC; i == len(spacings)-1 || !limit.Known || supply.Value <= limit.Value {
			break
		}
	}
	o.Design.SpacingProposed = !o.Zone.Heat.SpacingM.Known
	if st != nil && o.Load.Hour.Known {
		o.Slab.EdgeW = units.Some(slab.EdgeLoss(o.Zone.Extent.PerimeterM.Value, o.Zone.Slab.EdgeInsulation, o.Slab.SensorC.Value, o.Load.Hour.Value.AirC))
	}
	o.evenness()
	return true
}

// conduct solves the slab at a spacing: conduction once per geometry, whoever asks, scaled to this load.
func (e *Engine) conduct(o *Outcome, spacing float64) bool {
	section := sectionOf(o.Zone, spacing)
	section.OutdoorC = o.Load.Hour.Value.AirC
	unit, err := e.sections.Get(section.Geometry(), slab.Unitary)
	if !o.fail(err) {
		return false
	}
	solution, err := unit.At(section, o.Load.DesignWM2)
	if !o.fail(err) {
		return false
	}
	o.Slab = &solution
	return true
}

// spacings lists what is tried, in m: the spacing told, that of a slab whose pipes are not known, or those of a design.
func (e *Engine) spacings(o Outcome) []float64 {
	z := o.Zone
	switch {
	case z.Heat.SpacingM.Known:
		return []float64{z.Heat.SpacingM.Value}
	case z.Heat.Kind == Electric:
		return []float64{cableSpacing(z, o.Load.DesignWM2)}
	case z.Slab.Existing():
		return []float64{designSpacing}
	}
	var list []float64
	for _, s := range hydronicSpacings {
		if s >= spacingDiameters*z.Heat.outerM()-hairM {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return []float64{spacingDiameters * z.Heat.outerM()}
	}
	return list
}

// cableSpacing returns the spacing at which the cable gives the installed output, in m: its output per length over the output per area. Back loss
// is not known before the slab is solved; a cable is sized for the design flux and the usual step above it.
func cableSpacing(z Zone, designWM2 float64) float64 {
	installed := z.Heat.InstalledWM2.Or(max(floorWM2(z), neededWM2(designWM2, installedStep)))
	return max(leastCableM, z.Heat.CableWM/installed)
}

// sectionOf is the zone's slab section at a spacing.
func sectionOf(z Zone, spacing float64) slab.Section {
	b, h := z.Slab, z.Heat
	s := slab.Section{SurfaceM: b.SurfaceThicknessM.Value, SurfaceWMK: conductivity[b.Surface], BeddingM: b.BeddingThicknessM.Value, BeddingWMK: beddingConductivity,
		SlabM: b.ThicknessM.Value, SlabWMK: b.ConductivityWMK.Value, DepthM: b.DepthM.Value, SpacingM: spacing,
		OuterM: h.outerM(), InsulationM2KW: b.InsulationM2KW.Value, GroundC: b.GroundC.Value, SensorDepthM: sensorDepthM, SlabHeatCapacityJM3: slabHeatJM3K}
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

// warmUp finds the hours from a cold start in the design hour's air to the melting set point.
func (e *Engine) warmUp(o *Outcome) {
	if !o.Load.Hour.Known {
		return
	}
	hour := o.Load.Hour.Value
	air := hour.AirC
	in := slab.WarmUpInput{Section: o.Slab.Section, OutputWM2: o.Design.InstalledWM2.Value, StartC: air, AirC: air, TargetC: o.Zone.Sensing.SurfaceMeltC,
		FilmWM2K: dryFilm(hour), PipeResistance: o.Slab.PipeResistance - o.Slab.LevelResistance}
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
