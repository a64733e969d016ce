package sensing

import (
	"math"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Pavement is the zone seen from above and what its devices are set by. The zero Pavement has no plan.
type Pavement struct {
	AreaM2          float64
	LengthM, WidthM float64              // sides of the rectangle with the zone's area and perimeter, the longer first
	ShapeAssumed    bool                 // the perimeter was not told: a square
	Slope           float64              // fraction
	ShadedShare     units.Maybe[float64] // of the area at noon on the shortest day
	EdgeM           units.Maybe[float64] // from the detector to the heated edge, as told
	SensorDepthM    float64              // of the slab sensor's tip
	SpacingM        units.Maybe[float64] // of pipes or cables, where told
}

// Distances on the plan and in the section. Source: common practice, medium confidence, unless said.
const (
	edgeLeastM    = 0.6   // [m] from the heated edge, inside
	edgeBetterM   = 1.0   // [m] taken where there is room
	sensorApartM  = 0.5   // [m] between slab sensor and detector, and between a sensor and its spare
	mastApartM    = 2.0   // [m] from the area to the mast: out of what a plough throws; judgement
	mastHeightM   = 3.0   // [m] 2.5 to 4; low confidence
	laneM         = 3.5   // [m] width of a lane; judgement
	lanesMost     = 4     // on a wider zone vehicles go anywhere
	gravelM       = 0.15  // [m] of washed gravel below a housing, at least
	levelBelow    = 0.01  // slope: less counts as level
	lastToDry     = 0.75  // of the width, from the side that the sun warms first; judgement
	shadedShareAt = 0.25  // share in shade above which the detector stands there
	besideM       = 1.0   // [m] what lies nearer to the first device has the same run to the panel
	sensorDepthM  = 0.025 // [m] of a slab sensor's tip where none is told
)

// Plan is the zone as a rectangle, for a sketch: it knows area, perimeter and slope, but not the compass. By agreement the length falls towards
// Along 1, and the sun warms the side Across 0 first.
type Plan struct {
	LengthM, WidthM float64
	ShapeAssumed    bool    // drawn as a square
	Stair           bool    // the rectangle stands for the run of stairs
	Slope           float64 // along the length; below levelBelow there is no low end
	Level           bool    // there is no low end to speak of
	Drain           string  // at the low end: yes, no, unknown
	Sun             string  // at the detector: first, last, mixed, unknown
	ShadedShare     units.Maybe[float64]
	Lanes           int     // that vehicles use, along the length; 0: none
	Parked          bool    // vehicles park over the detector
	PanelM          float64 // from the first device to the panel
	PanelAssumed    bool
	Marks           []Mark
}

// Mark is a device on the plan. Fractions run from 0 to 1 over the length and the width; outside of that a device stands beside the area.
type Mark struct {
	Number        int // on the sketch, from 1 over all devices
	Device        Device
	Along, Across float64
	EdgeM         float64 // to the nearest heated edge; negative beside the area [m]
	FromLowM      float64 // from the low end, or from the end that was taken for it [m]
	FromSideM     float64 // from the side that the sun warms first [m]
	RunM          float64 // of its lead to the panel [m]
	HeightM       float64 // above the pavement; 0 in it [m]
	There         bool    // in place today, or in a housing cast in: the sketch shows where a new one would go, the place is measured on site
	Reasons       []Reason
}

// plan places the devices of the choice on the zone's rectangle; nil without one.
func (c *Choice) plan(in Input, s facts.Set) *Plan {
	p := in.Pavement
	if !(p.LengthM > 0 && p.WidthM > 0) {
		return nil
	}
	plan := &Plan{LengthM: p.LengthM, WidthM: p.WidthM, ShapeAssumed: p.ShapeAssumed, Stair: s.Word("use") == "stair", Slope: p.Slope, Level: p.Slope < levelBelow, Drain: s.Word("drain"), Sun: s.Word("sun"),
		ShadedShare: p.ShadedShare, PanelM: in.PanelM, PanelAssumed: s.Word("distance to panel") == "assumed", Parked: s.Word("traffic") == "parked"}
	if driven(s) {
		plan.Lanes = min(lanesMost, max(1, int(math.Round(p.WidthM/laneM))))
	}
	if has(c.Kit, PavementDetector) {
		plan.detectors(c, in, s)
	}
	if has(c.Kit, SlabSensor) {
		plan.sensors(c.number(SlabSensor), in.Pavement)
	}
	if has(c.Kit, AerialDetector) {
		plan.aerial(c.number(AerialDetector), s)
	}
	plan.measure(in.PanelM)
	return plan
}

// driven says whether vehicles drive over the zone.
func driven(s facts.Set) bool {
	switch s.Word("use") {
	case "drive", "parking", "loading dock":
		return true
	}
	return s.Word("traffic") == "wheel" || s.Word("traffic") == "parked"
}

func mark(d Device, along, across float64, codes ...string) Mark {
	m := Mark{Device: d, Along: along, Across: across}
	for _, code := range codes {
		m.Reasons = append(m.Reasons, Reason{Code: code})
	}
	return m
}

// detectors places those in the pavement: one to each part of the grid, then the added ones; on a poured slab only the one that was cast in.
func (plan *Plan) detectors(c *Choice, in Input, s facts.Set) {
	asked, n := in.demand(s, PavementDetector), c.number(PavementDetector)
	g := asked.grid
	if n.Placed < n.Wanted {
		g, asked.extra = grid{1, 1}, nil
	}
	inset := inset(in.Pavement)
	for i := range g.cells() {
		along, across := float64(i/g.across), float64(i%g.across)
		m := plan.spot(s, inset, along/float64(g.along), (along+1)/float64(g.along), across/float64(g.across), (across+1)/float64(g.across))
		m.Reasons = append(m.Reasons, Reason{Code: planInsideEdge, Args: []finding.Arg{finding.Value("least", edgeLeastM, units.Length)}})
		if g.cells() > 1 {
			m.Reasons = append(m.Reasons, Reason{Code: planOwnPart})
		}
		if s.Word(factExisting) == answerYes {
			m.There = true
			m.Reasons = []Reason{{Code: planAsCastIn}}
		}
		plan.Marks = append(plan.Marks, m)
	}
	for _, place := range asked.extra {
		plan.Marks = append(plan.Marks, plan.added(place, inset))
	}
}

// inset returns how far inside the heated edge a detector goes: as told where that is enough, else 1 m.
func inset(p Pavement) float64 {
	if p.EdgeM.Known {
		return max(p.EdgeM.Value, edgeLeastM)
	}
	return edgeBetterM
}

// within keeps a fraction of a side at least a distance inside the part from low to high, or in its middle where the part is too narrow.
func within(at, low, high, distance, side float64) float64 {
	d := distance / side
	if high-low < 2*d {
		return (low + high) / 2
	}
	return min(max(at, low+d), high-d)
}

// spot is the place of a detector in a part of the rectangle: near the low end, in the last place to dry, off wheels.
func (plan *Plan) spot(s facts.Set, inset, alongLow, alongHigh, acrossLow, acrossHigh float64) Mark {
	along, across := alongHigh, acrossLow+lastToDry*(acrossHigh-acrossLow)
	codes := []string{planLowEnd}
	if plan.Level {
		along, codes = (alongLow+alongHigh)/2, nil
	}
	if plan.Stair {
		codes = append(codes, planOnLanding)
	}
	side := planLastToDry
	if plan.Sun == facts.Unknown {
		side = planSunNotTold
	}
	shaded := plan.ShadedShare.Known && plan.ShadedShare.Value > shadedShareAt && plan.ShadedShare.Value < 1
	if shaded && acrossHigh == 1 {
		across, side = max(across, 1-plan.ShadedShare.Value/2), planInShade
	}
	codes = append(codes, side)
	across = within(across, acrossLow, acrossHigh, inset, plan.WidthM)
	switch {
	case s.Word("use") == "parking" || plan.Parked:
		across = within(1, acrossLow, acrossHigh, inset, plan.WidthM)
		codes = append(codes, planBesideStalls)
	case plan.Lanes > 0:
		lane := min(plan.Lanes-1, int(across*float64(plan.Lanes)))
		across = within((float64(lane)+0.5)/float64(plan.Lanes), acrossLow, acrossHigh, inset, plan.WidthM)
		codes = append(codes, planBetweenWheels)
	}
	return mark(PavementDetector, within(along, alongLow, alongHigh, inset, plan.LengthM), across, codes...)
}

// added is the place of a detector beyond those that share the area.
func (plan *Plan) added(place string, inset float64) Mark {
	across := func(at float64) float64 { return within(at, 0, 1, inset, plan.WidthM) }
	along := func(at float64) float64 { return within(at, 0, 1, inset, plan.LengthM) }
	low := 1.0
	if plan.Level {
		low = 0.5
	}
	switch place {
	case placeSunned:
		return mark(PavementDetector, along(low), across((1-plan.ShadedShare.Or(0.5))/2), planSunnedPart)
	case placeOtherEnd:
		return mark(PavementDetector, along(0), across(0.5), planSnowComesIn)
	}
	return mark(PavementDetector, along(low), across(1-lastToDry), planOtherSide)
}

// sensors places the slab sensor half a metre uphill of the first detector, or in the middle without one, and its spare beside it.
func (plan *Plan) sensors(n Number, p Pavement) {
	along, across, codes := 0.5, 0.5, []string{planSensorMidway}
	if plan.Stair {
		codes = []string{planSensorInTread}
	}
	if len(plan.Marks) > 0 {
		along, across = plan.Marks[0].Along-sensorApartM/p.LengthM, plan.Marks[0].Across
		codes = append(codes, planSensorApart)
		if along < 0 { // a zone shorter than that: to the side instead
			along, across = plan.Marks[0].Along, max(0, across-sensorApartM/p.WidthM)
		}
	}
	for i := range n.Placed {
		m := mark(SlabSensor, along, across, codes...)
		if i > 0 {
			m.Across = max(0, across-float64(i)*sensorApartM/p.WidthM)
			m.Reasons = []Reason{{Code: planSensorSpare}}
		}
		if m.There = i < n.There; m.There {
			m.Reasons = []Reason{{Code: planSensorAsFound}}
		}
		plan.Marks = append(plan.Marks, m)
	}
}

// aerial places the detectors that look at the sky beside the area, on the side nearer to the first device: one next to it, several spread along
// the length.
func (plan *Plan) aerial(n Number, s facts.Set) {
	for i := range n.Placed {
		code := planOnMast
		if mount(s) == OnRoofEdge {
			code = planOnRoofEdge
		}
		along, across := (float64(i)+0.5)/float64(n.Placed), -mastApartM/plan.WidthM
		if len(plan.Marks) > 0 && plan.Marks[0].Across > 0.5 {
			across = 1 - across
		}
		if n.Placed == 1 && len(plan.Marks) > 0 {
			along = plan.Marks[0].Along
		}
		m := mark(AerialDetector, along, across, code)
		m.HeightM = mastHeightM
		m.There = i < n.There
		plan.Marks = append(plan.Marks, m)
	}
}

// measure numbers the marks and fills their distances. The panel's distance counts to the first device; another one lies farther by as much as it
// lies from that.
func (plan *Plan) measure(panelM float64) {
	for i := range plan.Marks {
		m := &plan.Marks[i]
		x, y := m.Along*plan.LengthM, m.Across*plan.WidthM
		m.Number, m.FromLowM, m.FromSideM = i+1, plan.LengthM-x, y
		m.EdgeM = min(x, plan.LengthM-x, y, plan.WidthM-y)
		first := plan.Marks[0]
		m.RunM = panelM
		if apart := math.Hypot(x-first.Along*plan.LengthM, y-first.Across*plan.WidthM); apart > besideM {
			m.RunM += apart
		}
	}
}
