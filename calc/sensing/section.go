package sensing

import (
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Mounts of an aerial detector.
const (
	OnMast     = "mast beside the area"
	OnRoofEdge = "roof edge"
)

// Section is how the devices lie in the pavement, for a drawing of it.
type Section struct {
	Detector   bool
	Attitude   string // Level or OnSlope: flush with the surface either way
	Slope      float64
	Base       string  // OnGravel, Through, AboveMembrane, AsFound: where the housing's drain goes
	GravelM    float64 // below the housing, at least; 0 without
	Sensor     bool
	SensorM    float64              // depth of the slab sensor's tip below the surface
	SensorLies string               // InConcrete, InTread, UnderCourse, UnderAsphalt
	SpacingM   units.Maybe[float64] // of pipes or cables; the sensor lies midway
	InConduit  bool                 // so that it can be replaced; what is in a poured slab is as it is
	Mount      string               // OnMast, OnRoofEdge; "" without an aerial detector
	MountM     float64              // its height above the pavement
	Reasons    []Reason
}

// How a detector and its housing lie.
const (
	Level         = "level"
	OnSlope       = "on the slope"
	OnGravel      = "gravel with a drain"
	Through       = "a hole through what lies below"
	AboveMembrane = "a drain above the membrane"
	AsFound       = "as found"
)

// Where a slab sensor lies: nothing is laid into a course of pieces, or into asphalt that is rolled hot.
const (
	InConcrete   = "in the concrete"
	InTread      = "in a tread"
	UnderCourse  = "under the pavers or stone"
	UnderAsphalt = "under the hot course"
)

var sensorCodes = map[string]string{InConcrete: sectionSensor, InTread: sectionSensorInTread, UnderCourse: sectionSensorUnderCourse, UnderAsphalt: sectionSensorUnderAsphalt}

// lies says where a slab sensor goes under a surface.
func lies(surface, use string) string {
	switch {
	case surface == "pavers" || surface == "stone":
		return UnderCourse
	case surface == "asphalt":
		return UnderAsphalt
	case use == "stair":
		return InTread
	}
	return InConcrete
}

// mount says where an aerial detector goes: beside a helistop and over a used room a roof edge is there and a mast would stand in the way.
func mount(s facts.Set) string {
	if s.Word("use") == "helistop" || s.Word("support") == "over heated space" {
		return OnRoofEdge
	}
	return OnMast
}

// section says how the devices of the choice lie in the pavement.
func (c *Choice) section(in Input, s facts.Set) *Section {
	if len(c.Kit) == 0 {
		return nil
	}
	p := in.Pavement
	out := &Section{Detector: has(c.Kit, PavementDetector), Sensor: has(c.Kit, SlabSensor), Slope: p.Slope, SpacingM: p.SpacingM}
	why := func(code string, args ...finding.Arg) {
		out.Reasons = append(out.Reasons, Reason{Code: code, Args: args})
	}
	existing := s.Word(factExisting) == answerYes
	if out.Detector {
		code := sectionFlushOnSlope
		out.Attitude = OnSlope
		if p.Slope < levelBelow {
			out.Attitude, code = Level, sectionFlushLevel
		}
		why(code)
		out.Base = base(s)
		code = baseCodes[out.Base]
		switch {
		case out.Base == OnGravel && s.Word("stage") == "overlay": // the gravel lies under the old slab
			code = sectionDrainOverlay
		case out.Base == OnGravel:
			out.GravelM = gravelM
		}
		why(code, finding.Value("gravel", gravelM, units.Thickness))
	}
	if out.Sensor {
		out.SensorM = sensorDepthM
		if p.SensorDepthM > 0 {
			out.SensorM = p.SensorDepthM
		}
		out.InConduit = !existing
		out.SensorLies = lies(s.Word("surface"), s.Word("use"))
		code := sensorCodes[out.SensorLies]
		if existing {
			code = sectionSensorAsFound
		}
		why(code, finding.Value("depth", out.SensorM, units.Thickness))
	}
	if has(c.Kit, AerialDetector) {
		out.Mount, out.MountM = mount(s), mastHeightM
		why(sectionMount, finding.Value("height", mastHeightM, units.Length))
	}
	return out
}

var baseCodes = map[string]string{OnGravel: sectionOnGravel, Through: sectionDrainThrough, AboveMembrane: sectionDrainAboveMembrane, AsFound: sectionDrainAsFound}

var baseWords = map[string]string{OnGravel: wordGravel, Through: wordOpenAir, AboveMembrane: wordMembrane, AsFound: wordAsFound}

// base says where the drain of a housing goes.
func base(s facts.Set) string {
	switch {
	case s.Word(factExisting) == answerYes:
		return AsFound
	case s.Word("membrane") == answerYes || s.Word("support") == "over heated space":
		return AboveMembrane
	case s.Word("support") == "over open air":
		return Through
	}
	return OnGravel
}
