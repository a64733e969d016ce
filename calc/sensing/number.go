package sensing

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Effect columns of the table of numbers besides facts.Code.
const (
	effectDevice = "device" // whose number
	effectNumber = "number" // m², m or pieces
	effectPlace  = "place"  // of an added one
)

// Effects of a row of the table of numbers.
const (
	numberArea  = "area"  // how much area one of the device speaks for [m²]; the first row that holds
	numberReach = "reach" // how far the farthest place may be from it [m]; the first row that holds
	numberAdd   = "add"   // so many more, each at a place of its own; every row that holds
	numberNote  = "note"  // something to know; every row that holds
)

// Places of an added device.
const (
	placeSunned    = "sunned part" // where the others watch the shade
	placeOtherEnd  = "other end"   // away from the low end: where snow is carried in
	placeOtherSide = "other side"  // apart from the first, so that one cause does not blind both
	placeBeside    = "beside"      // next to the first of its kind
)

// Number is how many of one device a zone needs, and why.
type Number struct {
	Device  Device
	Wanted  int // what the rules ask for
	Placed  int // what has a place: on a poured slab only what was cast in
	There   int // of the placed, in place today: to check and use
	Reasons []Reason
}

// demand is what the rules ask of one device before it is known what has a place.
type demand struct {
	grid    grid
	extra   []string // places of added ones
	reasons []Reason
}

func (d demand) wanted() int { return d.grid.cells() + len(d.extra) }

// demand reads the table of numbers for a device. Without rows one is enough.
func (in Input) demand(s facts.Set, d Device) demand {
	out := demand{grid: grid{1, 1}}
	area, reach := math.Inf(1), math.Inf(1)
	for _, r := range in.Numbers.Match(s) {
		if Device(r.Effects[effectDevice]) != d {
			continue
		}
		n, err := strconv.ParseFloat(r.Effects[effectNumber], 64)
		if says := r.Effects[effectSays]; err != nil && says != numberNote {
			continue
		} else if says == numberArea && math.IsInf(area, 1) && in.Pavement.AreaM2 > 0 {
			area = n
			out.grid = split(in.Pavement, max(1, int(math.Ceil(in.Pavement.AreaM2/area))))
			out.reasons = append(out.reasons, reasonOf(r, finding.Value("area", in.Pavement.AreaM2, units.Area), finding.Value("limit", area, units.Area),
				finding.Value("count", float64(out.grid.cells()), units.Count)))
		} else if says == numberReach && math.IsInf(reach, 1) && in.Pavement.AreaM2 > 0 {
			reach = n
			out.stretch(r, in.Pavement, reach)
		} else if says == numberAdd {
			out.extra = append(out.extra, slices.Repeat([]string{r.Effects[effectPlace]}, int(n))...)
			out.reasons = append(out.reasons, reasonOf(r))
		} else if says == numberNote {
			out.reasons = append(out.reasons, reasonOf(r))
		}
	}
	return out
}

// stretch adds detectors until each part's farthest place is within reach of its own, and says so where that took more.
func (d *demand) stretch(r facts.Row, p Pavement, reach float64) {
	before := d.grid.cells()
	for n := before; d.grid.reach(p) > reach; n++ {
		d.grid = split(p, n)
	}
	if d.grid.cells() > before {
		d.reasons = append(d.reasons, reasonOf(r, finding.Value("limit", reach, units.Length), finding.Value("count", float64(d.grid.cells()), units.Count)))
	}
}

func reasonOf(r facts.Row, args ...finding.Arg) Reason {
	return Reason{Code: r.Effects[facts.Code], Facts: r.Asks(), Args: args}
}

// numbers says how many of each device of the kit the zone needs and how many have a place.
func (c *Choice) numbers(in Input, s facts.Set) {
	for _, d := range c.Kit {
		asked := in.demand(s, d)
		n := Number{Device: d, Wanted: asked.wanted(), Placed: asked.wanted(), Reasons: asked.reasons}
		if s.Word(factExisting) == answerYes && d != AerialDetector {
			n.Placed = 1
		}
		if n.Placed < n.Wanted {
			n.Reasons = append(n.Reasons, Reason{Code: codeHousingOnly, Facts: []string{factExisting}, Args: []finding.Arg{finding.Value("count", float64(n.Wanted), units.Count)}})
		}
		if isThere(s, d) {
			n.There = 1
			n.Reasons = append(n.Reasons, Reason{Code: codeThere, Facts: []string{factControlNow, factSlabSensor}})
		}
		if d == PavementDetector && n.Wanted > 1 {
			c.Reasons = append(c.Reasons, Reason{Code: codeSeveral, Facts: []string{factArea}})
		}
		c.Numbers = append(c.Numbers, n)
	}
}

// isThere says whether a device works in the zone today, as far as it was told.
func isThere(s facts.Set, d Device) bool {
	if d == SlabSensor {
		return s.Word(factExisting) == answerYes && s.Word(factSlabSensor) == answerYes
	}
	return s.Word(factControlNow) == string(d)
}

// number returns how many of a device are placed.
func (c Choice) number(d Device) Number {
	for _, n := range c.Numbers {
		if n.Device == d {
			return n
		}
	}
	return Number{Device: d}
}

// grid is how a rectangle is split so that each part has a detector: parts along the length times parts across.
type grid struct{ along, across int }

func (g grid) cells() int { return g.along * g.across }

// reach returns the distance from one corner of a part to the opposite one, in m: the farthest a place can be from a detector in that part.
func (g grid) reach(p Pavement) float64 {
	return math.Hypot(p.LengthM/float64(g.along), p.WidthM/float64(g.across))
}

// split returns the grid of at least n parts: the fewest, then the most square, then the one with fewer parts across.
func split(p Pavement, n int) grid {
	best := grid{n, 1}
	for across := 2; across <= n; across++ {
		g := grid{(n + across - 1) / across, across}
		if g.cells() < best.cells() || g.cells() == best.cells() && g.reach(p) < best.reach(p) {
			best = g
		}
	}
	return best
}

// CheckNumbers returns an error for every row of a table of numbers that is not understood or never decides, naming the table and the line.
func CheckNumbers(numbers facts.Table) error {
	var errs []error
	places := []string{placeSunned, placeOtherEnd, placeOtherSide, placeBeside}
	fail := func(r facts.Row, format string, args ...any) {
		errs = append(errs, fmt.Errorf("%s: line %d: %s", numbers.Name, r.Line, fmt.Sprintf(format, args...)))
	}
	first := facts.Table{Name: numbers.Name}
	for _, r := range numbers.Rows {
		n, err := strconv.ParseFloat(r.Effects[effectNumber], 64)
		says := r.Effects[effectSays]
		if !slices.Contains(devices[:], Device(r.Effects[effectDevice])) {
			fail(r, "%q is no device", r.Effects[effectDevice])
		}
		switch {
		case says == numberNote:
		case says != numberArea && says != numberReach && says != numberAdd:
			fail(r, "%q is none of the effects %s", says, strings.Join([]string{numberArea, numberReach, numberAdd, numberNote}, ", "))
		case says == numberArea && !(err == nil && n >= leastAreaM2 && n <= mostAreaM2):
			fail(r, "%q is no area from %d to %d m²", r.Effects[effectNumber], leastAreaM2, mostAreaM2)
		case says == numberReach && !(err == nil && n >= leastReachM && n <= mostReachM):
			fail(r, "%q is no distance from %d to %d m", r.Effects[effectNumber], leastReachM, mostReachM)
		case says == numberAdd && !(err == nil && n == math.Trunc(n) && n >= 1 && n <= mostAdded):
			fail(r, "%q is no whole number from 1 to %d", r.Effects[effectNumber], mostAdded)
		case says == numberAdd && !slices.Contains(places, r.Effects[effectPlace]):
			fail(r, "%q is none of the places %s", r.Effects[effectPlace], strings.Join(places, ", "))
		}
		if says == numberArea || says == numberReach {
			subject := facts.Row{Line: r.Line, Conditions: r.Conditions, Effects: map[string]string{effectDevice: r.Effects[effectDevice] + plus + says}}
			first.Rows = append(first.Rows, subject)
		}
	}
	for _, p := range first.Dead(effectDevice) {
		fail(p.Later, "never decides: line %d holds whenever it does", p.Earlier.Line)
	}
	return errors.Join(append(errs, numbers.Check())...)
}

// Bounds of what a table of numbers may say.
const (
	leastAreaM2, mostAreaM2 = 50, 100000
	leastReachM, mostReachM = 10, 10000
	mostAdded               = 20
)
