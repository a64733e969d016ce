package calc

import (
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Codes of findings by the rules across fields.
const (
	CodePerimeterShort    finding.Code = "perimeter-too-short"
	CodePerimeterLong     finding.Code = "perimeter-very-long"
	CodeWalkLength        finding.Code = "walk-length-assumed"
	CodeLevelBelowUse     finding.Code = "level-below-use"
	CodeUseNotTold        finding.Code = "use-not-told"
	CodeDrainNotTold      finding.Code = "drain-not-told"
	CodeOutsideSlab       finding.Code = "pipe-outside-slab"
	CodeCoverThin         finding.Code = "cover-too-thin"
	CodeCoverLow          finding.Code = "cover-low"
	CodeDeep              finding.Code = "deep-and-slow"
	CodeCutReaches        finding.Code = "cut-reaches-pipe"
	CodeSpacingBelowPipe  finding.Code = "spacing-below-pipe"
	CodePipesClose        finding.Code = "pipes-close"
	CodePipeInUnit        finding.Code = "pipe-in-paving-unit"
	CodePipeInAsphalt     finding.Code = "pipe-in-asphalt"
	CodeBore              finding.Code = "bore-out-of-range"
	CodeInsulationIP      finding.Code = "insulation-looks-ip"
	CodeSurveyFirst       finding.Code = "survey-first"
	CodeTendonsUnknown    finding.Code = "tendons-unknown"
	CodeLockoutCritical   finding.Code = "lockout-critical"
	CodeEdgeTooNear       finding.Code = "detector-at-edge"
	CodeEdgeNear          finding.Code = "detector-near-edge"
	CodeObstacleNear      finding.Code = "detector-near-obstacle"
	CodeMarginNotUsed     finding.Code = "margin-not-used"
	CodeFluxGiven         finding.Code = "flux-given"
	CodeOneTypicalYear    finding.Code = "one-typical-year"
	CodeSyntheticWinter   finding.Code = "synthetic-winter"
	CodeCoarseWinter      finding.Code = "coarse-winter"
	CodeDesignHourOnly    finding.Code = "design-hour-only"
	CodeCoarseSnow        finding.Code = "coarse-snow"
	CodeIdleAboveMelt     finding.Code = "idle-above-melt"
	CodeVentilatedSupport finding.Code = "suspended-uninsulated"
)

const (
	hydronicCoverLeast = 0.025 // m over the pipe; practice 4
	hydronicCoverLow   = 0.038 // m; warn below
	leastPipesM        = 0.100 // m between pipes; common practice
	electricCoverLeast = 0.038 // m over the cable; memory of NEC 426, defer to the adopted code
	deepM              = 0.125 // m to the centre; slow to answer without idling
	cutShare           = 0.25  // of the slab: a contraction cut
	spacingDiameters   = 3     // least spacing in outside diameters
	insulationSI       = 3.5   // m²·K/W: more looks like an I-P R-value
	edgeErrorM         = 0.3   // m from the detector to the heated edge
	edgeWarnM          = 0.6
	hairM              = 1e-9 // m: lengths that differ by less are equal, so that a length typed at its limit meets it
)

// rules judges a settled zone across its fields. st may be nil.
func (e *Engine) rules(z Zone, st *weather.Station) []finding.Finding {
	var out []finding.Finding
	add := func(s finding.Severity, c finding.Code, f finding.Field, args ...finding.Arg) {
		out = append(out, finding.New(s, c, f, args...))
	}
	extentRules(z, add)
	serviceRules(z, add)
	if z.Slab.Stage != ExistingUnheated {
		coverRules(z, add)
		boreRule(z.Heat, add)
	}
	slabRules(z, e.in.Settings, add)
	sitingRules(z, add)
	climateRules(z, st, add)
	return out
}

// report takes one finding of a rule.
type report func(finding.Severity, finding.Code, finding.Field, ...finding.Arg)

func extentRules(z Zone, add report) {
	x := z.Extent
	if least := leastPerimeter * math.Sqrt(x.AreaM2); x.PerimeterM.Value < least-hairM {
		add(finding.Error, CodePerimeterShort, "perimeter", finding.Value("perimeter", x.PerimeterM.Value, units.Length), finding.Value("least", least, units.Length))
	}
	if side := shorterSide(x.AreaM2, x.PerimeterM.Value); side < leastWindLength-hairM && !z.defaulted("perimeter") {
		add(finding.Warning, CodePerimeterLong, "perimeter", finding.Value("perimeter", x.PerimeterM.Value, units.Length), finding.Value("width", side, units.Length))
	}
	if (x.Use == Walk || x.Use == Stair) && z.defaulted("wind_length") && z.defaulted("perimeter") {
		add(finding.Warning, CodeWalkLength, "wind_length", finding.Value("length", x.WindLengthM.Value, units.Length))
	}
	if x.Use == "" {
		add(finding.Info, CodeUseNotTold, "use")
	}
	if x.Drain != Yes {
		add(finding.Info, CodeDrainNotTold, "drain")
	}
}

func serviceRules(z Zone, add report) {
	level := useLevels[z.Extent.Use]
	switch z.Extent.Use {
	case EmergencyEntrance, Helistop, Stair, Ramp:
		if !z.defaulted("snow_free_ratio") && z.Service.SnowFree.Value < level.snowFree {
			add(finding.Warning, CodeLevelBelowUse, "snow_free_ratio", finding.Words("use", z.Extent.Use), finding.Value("told", z.Service.SnowFree.Value, units.Emissivity), finding.Value("usual", level.snowFree, units.Emissivity))
		}
		if !z.defaulted("percentile") && z.Service.Percentile.Value < level.percentile {
			add(finding.Warning, CodeLevelBelowUse, "percentile", finding.Words("use", z.Extent.Use), finding.Value("told", z.Service.Percentile.Value, units.Percent), finding.Value("usual", level.percentile, units.Percent))
		}
	}
	if z.Service.DesignFluxWM2.Known {
		if z.Service.DesignMargin > 1 {
			add(finding.Warning, CodeMarginNotUsed, "design_margin")
		}
		add(finding.Info, CodeFluxGiven, "design_flux", finding.Value("flux", z.Service.DesignFluxWM2.Value, units.Flux))
	}
	if z.Sensing.LowestMeltC.Known && (z.Extent.Critical.Value || z.Extent.Use == Stair) {
		add(finding.Warning, CodeLockoutCritical, "lowest_melting_temperature", finding.Value("lowest", z.Sensing.LowestMeltC.Value, units.Temperature))
	}
	if z.Sensing.SurfaceIdleC >= z.Sensing.SurfaceMeltC {
		add(finding.Error, CodeIdleAboveMelt, "surface_set_point_idling", finding.Value("idle", z.Sensing.SurfaceIdleC, units.Temperature), finding.Value("melt", z.Sensing.SurfaceMeltC, units.Temperature))
	}
}

// boreRule refuses a pipe that no loop is made of: its wall would carry all of the heat.
func boreRule(h Heat, add report) {
	if h.Kind != Hydronic {
		return
	}
	if bore := h.Pipe.OuterM - 2*h.Pipe.WallM; bore < piping.LeastBoreM-hairM || bore > piping.MostBoreM+hairM {
		add(finding.Error, CodeBore, "pipe", finding.Value("bore", bore, units.Thickness), finding.Value("least", piping.LeastBoreM, units.Thickness), finding.Value("most", piping.MostBoreM, units.Thickness))
	}
}

func coverRules(z Zone, add report) {
	b, radius := z.Slab, z.Heat.outerM()/2
	depth := b.DepthM.Value
	total := b.SurfaceThicknessM.Value + b.BeddingThicknessM.Value + b.ThicknessM.Value
	cover := depth - radius
	least := hydronicCoverLeast
	if z.Heat.Kind == Electric {
		least = electricCoverLeast
	}
	switch {
	case depth+radius > total+hairM:
		add(finding.Error, CodeOutsideSlab, "depth", finding.Value("depth", depth, units.Thickness), finding.Value("slab", total, units.Thickness))
	case cover < least-hairM:
		add(finding.Error, CodeCoverThin, "depth", finding.Value("cover", cover, units.Thickness), finding.Value("least", least, units.Thickness))
	case cover < hydronicCoverLow-hairM:
		add(finding.Warning, CodeCoverLow, "depth", finding.Value("cover", cover, units.Thickness), finding.Value("least", hydronicCoverLow, units.Thickness))
	}
	if depth > deepM+hairM && z.Sensing.Start == "detector" && !z.Sensing.Idling.Value {
		add(finding.Warning, CodeDeep, "depth", finding.Value("depth", depth, units.Thickness))
	}
	if cut := cutShare * b.ThicknessM.Value; b.Surface == Concrete && cut >= cover-hairM {
		add(finding.Warning, CodeCutReaches, "depth", finding.Value("cut", cut, units.Thickness), finding.Value("cover", cover, units.Thickness))
	}
	courseRule(z, cover, add)
	spacingRule(z, add)
}

// courseRule says where a pipe or cable lies in the surface course: in paving units nothing can, and no plastic pipe bears the asphalt that is laid hot.
func courseRule(z Zone, cover float64, add report) {
	b := z.Slab
	if b.Existing() || cover >= b.SurfaceThicknessM.Value-hairM {
		return
	}
	told := func(severity finding.Severity, code finding.Code) {
		add(severity, code, "depth", finding.Value("cover", cover, units.Thickness), finding.Value("course", b.SurfaceThicknessM.Value, units.Thickness))
	}
	switch {
	case b.Surface == Pavers || b.Surface == Stone:
		told(finding.Error, CodePipeInUnit)
	case b.Surface == Asphalt && z.Heat.Kind == Hydronic:
		told(finding.Warning, CodePipeInAsphalt)
	}
}

// spacingRule refuses pipes that lie too close to be laid; in a slab that is there they may.
func spacingRule(z Zone, add report) {
	s := z.Heat.SpacingM
	if !s.Known {
		return
	}
	if least := spacingDiameters * z.Heat.outerM(); s.Value < least-hairM {
		add(finding.Error, CodeSpacingBelowPipe, "spacing", finding.Value("spacing", s.Value, units.Thickness), finding.Value("least", least, units.Thickness))
	} else if z.Heat.Kind == Hydronic && s.Value < leastPipesM-hairM {
		severity := finding.Error
		if z.Slab.Existing() {
			severity = finding.Warning
		}
		add(severity, CodePipesClose, "spacing", finding.Value("spacing", s.Value, units.Thickness), finding.Value("least", leastPipesM, units.Thickness))
	}
}

func slabRules(z Zone, set Settings, add report) {
	b := z.Slab
	if b.InsulationM2KW.Value > insulationSI && set.Units == units.SI {
		add(finding.Warning, CodeInsulationIP, "insulation", finding.Value("r", b.InsulationM2KW.Value, units.Insulance))
	}
	if b.Support == OverAir && b.InsulationM2KW.Value == 0 && b.Stage != ExistingUnheated {
		add(finding.Warning, CodeVentilatedSupport, "insulation")
	}
	if !b.Existing() {
		return
	}
	if b.Stage == ExistingHeated && (z.defaulted("depth") || z.defaulted("slab_thickness") || !z.Heat.SpacingM.Known) {
		add(finding.Warning, CodeSurveyFirst, "depth")
	}
	if !b.PostTensioned.Told() {
		add(finding.Info, CodeTendonsUnknown, "post_tensioned")
	}
}

func sitingRules(z Zone, add report) {
	t := z.Siting
	if t.EdgeM.Known && t.EdgeM.Value < edgeErrorM {
		add(finding.Error, CodeEdgeTooNear, "distance_to_edge", finding.Value("distance", t.EdgeM.Value, units.Length), finding.Value("least", edgeErrorM, units.Length))
	} else if t.EdgeM.Known && t.EdgeM.Value < edgeWarnM {
		add(finding.Warning, CodeEdgeNear, "distance_to_edge", finding.Value("distance", t.EdgeM.Value, units.Length), finding.Value("better", edgeWarnM, units.Length))
	}
	if t.ObstacleHeightM.Known && t.ObstacleM.Known && t.ObstacleM.Value < t.ObstacleHeightM.Value {
		add(finding.Warning, CodeObstacleNear, "distance_to_obstacle", finding.Value("distance", t.ObstacleM.Value, units.Length), finding.Value("height", t.ObstacleHeightM.Value, units.Length))
	}
}

func climateRules(z Zone, st *weather.Station, add report) {
	if st == nil {
		return
	}
	if d := math.Abs(z.Place.ElevationM.Value - st.ElevationM); d > elevationDiffM {
		add(finding.Warning, CodeElevationDiffers, "elevation", finding.Words("name", st.Name), finding.Value("difference", d, units.Elevation))
	}
	if st.Kind == weather.DesignOnly {
		add(finding.Warning, CodeDesignHourOnly, "station", finding.Words("name", st.Name))
	}
	switch {
	case st.Kind == weather.Synthetic && st.CoarseSynthetic:
		add(finding.Warning, CodeCoarseWinter, "station", finding.Words("name", st.Name))
	case st.Kind == weather.Synthetic:
		add(finding.Warning, CodeSyntheticWinter, "station", finding.Words("name", st.Name))
	case len(st.Years) == 1 && st.Kind == weather.Typical && z.Service.DesignMargin <= 1 && !z.Service.DesignFluxWM2.Known:
		add(finding.Warning, CodeOneTypicalYear, "station", finding.Words("name", st.Name))
	}
	for _, y := range st.Years {
		if y.SnowRule == weather.RuleCodes {
			add(finding.Warning, CodeCoarseSnow, "station", finding.Words("name", st.Name))
			break
		}
	}
}

// defaulted says whether a field was filled by a default.
func (z Zone) defaulted(f finding.Field) bool {
	for _, d := range z.Ref.Defaults {
		if d.Field == f {
			return true
		}
	}
	return false
}
