package calc

import (
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// useLevel is the snow-free area ratio and percentile that a use asks for.
type useLevel struct{ snowFree, percentile float64 }

// useLevels is the use table of service levels. Source: common practice, medium confidence.
var useLevels = map[string]useLevel{
	Walk: {0.5, 95}, Drive: {0.5, 90}, Parking: {0, 90}, Plaza: {0, 75}, LoadingDock: {0.5, 95},
	Stair: {1, 98}, Ramp: {1, 98}, EmergencyEntrance: {1, 99}, Helistop: {1, 99},
}

// lastResort is the service level of a use that was not told.
var lastResort = useLevel{1, 98}

// conductivity of the surface materials in W/(m·K). Source: 1.4 reference, the rest from memory, medium confidence.
var conductivity = map[string]float64{Concrete: 1.4, Asphalt: 1.0, Pavers: 1.2, Stone: 2.3}

// courseThickness is what a paved surface course and its bedding measure when not told, in m. Source: judgement.
var courseThickness = map[string]struct{ surface, bedding float64 }{Pavers: {0.060, 0.030}, Stone: {0.040, 0.030}}

const (
	beddingConductivity = 0.7   // W/(m·K), memory, medium confidence
	slabThickness       = 0.150 // m, trade
	hydronicDepth       = 0.075 // m to the centre, practice
	electricDepth       = 0.050 // m to the centre, practice
	newInsulation       = 0.9   // m²·K/W under a new pour or an overlay, practice
	designSpacing       = 0.225 // m until piping proposes one
	greatestWindLength  = 6.1   // m (20 ft), the length of the published tables
	leastWindLength     = 0.5   // m, the least that may be told
	panelDistance       = 15    // m, marked assumed
	groundLeast         = 1.0   // °C
	groundMost          = 15.0  // °C
	groundNoClimate     = 8.0   // °C
	cableDiameter       = 0.006 // m, judgement: only its place counts
	leastPerimeter      = 3.54  // × √area: a circle
)

// settler fills what a row left to defaults that depend on other cells, and lists each with its reason.
type settler struct{ z *Zone }

// take fills a blank number and lists it.
func (s settler) take(m *units.Maybe[float64], field finding.Field, v float64, q units.Quantity, source string) {
	if m.Known {
		return
	}
	*m = units.Some(v)
	s.z.Ref.Defaults = append(s.z.Ref.Defaults, Default{Field: field, Number: v, Quantity: q, Source: source})
}

// word fills a blank word and lists it.
func (s settler) word(w *string, field finding.Field, v, source string) {
	if *w != "" {
		return
	}
	*w = v
	s.z.Ref.Defaults = append(s.z.Ref.Defaults, Default{Field: field, Word: v, Source: source})
}

// flag fills a blank yes or no and lists it.
func (s settler) flag(m *units.Maybe[bool], field finding.Field, v bool, source string) {
	if m.Known {
		return
	}
	*m = units.Some(v)
	word := string(No)
	if v {
		word = string(Yes)
	}
	s.z.Ref.Defaults = append(s.z.Ref.Defaults, Default{Field: field, Word: word, Source: source})
}

// settle returns the zone with every default filled that the row left open. The station may be nil: then nothing is taken from it.
// Spacing and installed output stay blank where they are left to design.
func (e *Engine) settle(z Zone, st *weather.Station) Zone {
	z.Ref.Defaults = append([]Default(nil), z.Ref.Defaults...)
	s := settler{&z}
	s.extent()
	s.service(e.in.Settings)
	s.slab()
	s.ground(st)
	s.sensing()
	s.variation(st)
	if st != nil {
		s.take(&z.Place.ElevationM, "elevation", st.ElevationM, units.Elevation, "station-elevation")
	}
	return z
}

func (s settler) extent() {
	x := &s.z.Extent
	shorter := math.Sqrt(x.AreaM2)
	if x.PerimeterM.Known {
		shorter = shorterSide(x.AreaM2, x.PerimeterM.Value)
	}
	s.take(&x.PerimeterM, "perimeter", 4*math.Sqrt(x.AreaM2), units.Length, "perimeter-of-square")
	s.take(&x.WindLengthM, "wind_length", min(greatestWindLength, max(leastWindLength, shorter)), units.Length, "wind-length-shorter-side")
	s.flag(&x.Critical, "critical", x.Use == EmergencyEntrance || x.Use == Helistop, "critical-by-use")
}

// shorterSide returns the shorter side of the rectangle with this area and perimeter, in m; the side of the square where no rectangle has both.
func shorterSide(area, perimeter float64) float64 {
	half := perimeter / 4
	return half - math.Sqrt(max(0, half*half-area))
}

func (s settler) service(set Settings) {
	v, level, source := &s.z.Service, lastResort, "level-last-resort"
	if l, told := useLevels[s.z.Extent.Use]; told {
		level, source = l, "level-by-use"
	}
	ratioSource, percentileSource := source, source
	if set.DefaultSnowFree.Known {
		level.snowFree, ratioSource = set.DefaultSnowFree.Value, "level-from-settings"
	}
	if set.DefaultPercentile.Known {
		level.percentile, percentileSource = set.DefaultPercentile.Value, "level-from-settings"
	}
	s.take(&v.SnowFree, "snow_free_ratio", level.snowFree, units.Emissivity, ratioSource)
	s.take(&v.Percentile, "percentile", level.percentile, units.Percent, percentileSource)
}

func (s settler) slab() {
	b := &s.z.Slab
	course := courseThickness[b.Surface]
	s.take(&b.ThicknessM, "slab_thickness", slabThickness, units.Thickness, "slab-thickness")
	s.take(&b.ConductivityWMK, "conductivity", conductivity[b.Surface], units.Conductivity, "conductivity-by-surface")
	if course.surface > 0 {
		s.take(&b.SurfaceThicknessM, "surface_thickness", course.surface, units.Thickness, "course-by-surface")
		s.take(&b.BeddingThicknessM, "bedding_thickness", course.bedding, units.Thickness, "course-by-surface")
	}
	depth := hydronicDepth
	if s.z.Heat.Kind == Electric {
		depth = electricDepth
	}
	if cover := b.SurfaceThicknessM.Value; cover > 0 && (b.Surface == Pavers || b.Surface == Stone) {
		depth = max(depth, cover+b.BeddingThicknessM.Value/2)
	}
	s.take(&b.DepthM, "depth", depth, units.Thickness, "depth-by-heat")
	r, why := newInsulation, "insulation-new"
	if b.Existing() {
		r, why = 0, "insulation-existing"
	}
	s.take(&b.InsulationM2KW, "insulation", r, units.Insulance, why)
	if s.z.Heat.Kind == Hydronic {
		s.take(&s.z.Heat.SupplyLimitC, "supply_limit", warmestC(b.Surface), units.Temperature, "supply-limit-by-surface")
	}
}

// warmestC returns what a pavement of this surface bears at what heats it [°C]: common practice for fluids, taken for cables too.
func warmestC(surface string) float64 {
	if surface == Asphalt {
		return 45
	}
	return 55
}

func (s settler) ground(st *weather.Station) {
	if st == nil || len(st.Years) == 0 {
		s.take(&s.z.Slab.GroundC, "ground_temperature", groundNoClimate, units.Temperature, "ground-without-climate")
		return
	}
	mean := weather.AnnualMeanC(*st)
	s.take(&s.z.Slab.GroundC, "ground_temperature", min(max(mean, groundLeast), groundMost), units.Temperature, "ground-annual-mean")
}

func (s settler) sensing() {
	n := &s.z.Sensing
	s.word(&n.Start, "start_wanted", "detector", "start-detector")
	s.word(&n.Stop, "stop_wanted", "dry", "stop-dry")
	s.flag(&n.Idling, "idling_wanted", s.z.Extent.Critical.Value, "idling-where-critical")
	if s.z.Slab.Existing() {
		s.assume(n.Housing, "detector_housing")
		s.assume(n.SlabSensor, "embedded_slab_sensor")
	}
	s.take(&n.PanelM, "panel_distance", panelDistance, units.Length, "panel-assumed")
}

// assume lists that a piece which was not told is taken as not there; the answer itself stays open, so that rules can ask for a survey.
func (s settler) assume(a Answer, field finding.Field) {
	if !a.Told() {
		s.z.Ref.Defaults = append(s.z.Ref.Defaults, Default{Field: field, Word: string(No), Source: "not-there-verify"})
	}
}

// variation lists the spread of seasonal snow where the station does not tell it.
func (s settler) variation(st *weather.Station) {
	if st != nil && len(st.Years) > 0 && !st.SnowVariation.Known {
		s.z.Ref.Defaults = append(s.z.Ref.Defaults, Default{Field: "climate_snow_variation", Number: defaultVariation, Quantity: units.Factor, Source: "variation-assumed"})
	}
}

// outerM returns the outside diameter of what heats the slab, in m.
func (h Heat) outerM() float64 {
	if h.Kind == Electric {
		return cableDiameter
	}
	return h.Pipe.OuterM
}
