package season

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
)

const (
	groundWMK    = 1.5   // W/(m·K); engineering method, section 2
	groundJM3K   = 2.0e6 // J/(m³·K); defaults page
	groundM      = 3.0   // m from the underside to the foot: a season reaches deeper than the steady 1 m; engineering method, section 4
	groundCells  = 6     // each twice as thick as the one above
	soffitFilm   = 10.0  // W/(m²·K), underside to outdoor air; engineering method, section 2
	roomFilm     = 6.0   // W/(m²·K), underside to a heated space; engineering method, section 2
	roomC        = 18.0  // °C; engineering method, section 2
	finestM      = 0.008 // cells grow from this at the surface
	growth       = 0.22  // by this per depth
	nearM        = 1e-6  // places nearer than this are one node
	mostNodes    = 48
	mostCellsPer = 12 // between two fixed places
)

// ErrColumn says that the pavement below the surface can't be calculated as it is given.
var ErrColumn = errors.New("pavement column")

// Layer is a course of the pavement.
type Layer struct {
	ThickM float64 // [m]; 0 without it
	WMK    float64 // [W/(m·K)]
}

// Column is the pavement and what lies below it, per m². Comparable. Layers run from the top.
type Column struct {
	Layers          [3]Layer
	DepthM          float64 // to the level of the pipe or cable [m]
	HeatJM3K        float64 // ρc of all layers [J/(m³·K)]
	InsulationM2KW  float64 // R under the slab
	Support         slab.Support
	GroundC         float64              // foot of the ground
	FluidResistance float64              // mean fluid, or the element, to the pipe level: PipeResistance − CoverResistance of the slab [m²·K/W]
	FluidLimitC     units.Maybe[float64] // greatest mean fluid temperature: supply limit less half the drop; blank for cables
}

// ColumnOf returns the column of a slab's section. The resistance of the fluid is such that at the slab's own flux the column has the slab's mean
// fluid, or element, temperature over its mean surface:
//
//	R_fluid = (t_fluid − t_surface,mean − q_up Σ d/k) / (q_up + q_back)
//
// fluidLimitC is the supply limit less half the temperature drop; blank for cables and where there is none. A solution without a flux, of a slab that
// nothing heats, gives a resistance of 0. It is rounded to 0.0001 m²·K/W, as it hangs a little on the flux, so that pavements share their winters.
func ColumnOf(s slab.Solution, fluidLimitC units.Maybe[float64]) Column {
	b := s.Section
	c := Column{Layers: [3]Layer{{b.SurfaceM, b.SurfaceWMK}, {b.BeddingM, b.BeddingWMK}, {b.SlabM, b.SlabWMK}}, DepthM: b.DepthM, HeatJM3K: b.SlabHeatCapacityJM3,
		InsulationM2KW: b.InsulationM2KW, Support: b.Support, GroundC: b.GroundC, FluidLimitC: fluidLimitC}
	for i, l := range c.Layers {
		if l.ThickM == 0 {
			c.Layers[i] = Layer{}
		}
	}
	if b.Support != slab.OnGround {
		c.GroundC = 0 // has no part in it: pavements that differ by it alone share their winters
	}
	source := s.MeanFluidC
	if !source.Known {
		source = s.PipeSurfaceC
	}
	if in := s.UpWM2 + s.BackWM2; in > 0 && source.Known {
		r := (source.Value - s.SurfaceMeanC.Or(surface.Film()) - s.UpWM2*c.resistance(c.DepthM)) / in
		c.FluidResistance = max(0, math.Round(r*1e4)/1e4)
	}
	return c
}

// check returns what makes no sense.
func (c *Column) check(coreResistance float64) error {
	total, resistance := 0.0, 0.0
	for _, l := range c.Layers {
		if !(l.ThickM >= 0 && l.ThickM <= 5) || l.ThickM > 0 && !(l.WMK > 0.01 && l.WMK < 100) {
			return fmt.Errorf("%w: a layer of %g m with conductivity %g W/m·K", ErrColumn, l.ThickM, l.WMK)
		}
		if l.ThickM > 0 {
			total += l.ThickM
			resistance += l.ThickM / l.WMK
		}
	}
	switch {
	case !(total >= 0.02):
		return fmt.Errorf("%w: layers of %g m in all", ErrColumn, total)
	case !(c.DepthM > 0 && c.DepthM <= total):
		return fmt.Errorf("%w: pipe or cable %g m below the top of %g m", ErrColumn, c.DepthM, total)
	case !(coreResistance >= 0 && coreResistance <= resistance):
		return fmt.Errorf("%w: sensor under %g m²·K/W of %g", ErrColumn, coreResistance, resistance)
	case !(c.HeatJM3K >= 1e5 && c.HeatJM3K <= 1e7):
		return fmt.Errorf("%w: heat capacity %g J/m³·K", ErrColumn, c.HeatJM3K)
	case !(c.InsulationM2KW >= 0 && c.InsulationM2KW <= 100) || !(c.FluidResistance >= 0 && c.FluidResistance <= 10):
		return fmt.Errorf("%w: insulation %g, fluid %g m²·K/W", ErrColumn, c.InsulationM2KW, c.FluidResistance)
	case !(c.GroundC >= -30 && c.GroundC <= 60) || c.Support > slab.HeatedSpace:
		return fmt.Errorf("%w: ground at %g °C, support %d", ErrColumn, c.GroundC, c.Support)
	}
	return nil
}

// resistance returns that from the surface down to a depth in the layers [m²·K/W].
func (c *Column) resistance(depthM float64) float64 {
	r := 0.0
	for _, l := range c.Layers {
		if part := min(depthM, l.ThickM); part > 0 {
			r += part / l.WMK
			depthM -= part
		}
	}
	return r
}

// depth is the inverse of resistance: where a sensor stands that has this resistance above it [m].
func (c *Column) depth(resistance float64) float64 {
	d := 0.0
	for _, l := range c.Layers {
		if l.ThickM > 0 {
			part := min(resistance, l.ThickM/l.WMK)
			d += part * l.WMK
			resistance -= part
		}
	}
	return d
}

// net is the column as nodes, from the surface down, with what joins each to the next; the last to the foot. Nodes stand at the surface, at the
// sensor, at the pipe level and at the underside, so that none of these is interpolated.
type net struct {
	n                        int
	sensor, pipe, under      int
	capacity                 [mostNodes]float64 // [J/(m²·K)]
	link                     [mostNodes]float64 // [W/(m²·K)]
	foot                     slab.Support
	groundC, fluidResistance float64
	fluidLimitC              float64 // +Inf without one
}

// netOf lays the nodes. cut divides every cell, for tests of refinement.
func netOf(c *Column, coreResistance float64, cut int) (net, error) {
	if err := c.check(coreResistance); err != nil {
		return net{}, err
	}
	total := c.Layers[0].ThickM + c.Layers[1].ThickM + c.Layers[2].ThickM
	n := net{foot: c.Support, groundC: c.GroundC, fluidResistance: c.FluidResistance, fluidLimitC: c.FluidLimitC.Or(math.Inf(1))}
	sensorM := c.depth(coreResistance)
	places := []float64{0, sensorM, c.DepthM, total}
	slices.Sort(places)
	at := []float64{0}
	for _, to := range places {
		from := at[len(at)-1]
		if to-from < nearM {
			continue
		}
		cells := min(mostCellsPer, int(math.Ceil((to-from)/(finestM+growth*(from+to)/2)))) * cut
		for i := 1; i <= cells; i++ {
			at = append(at, from+(to-from)*float64(i)/float64(cells))
		}
	}
	n.under = len(at) - 1
	n.sensor, n.pipe = nearest(at, sensorM), nearest(at, c.DepthM)
	if n.pipe == 0 {
		n.pipe = 1
	}
	n.n = len(at)
	for i := range len(at) - 1 {
		n.link[i] = 1 / (c.resistance(at[i+1]) - c.resistance(at[i]))
		n.store(i, (at[i+1]-at[i])*c.HeatJM3K)
	}
	n.below(c.InsulationM2KW, cut)
	return n, nil
}

// store shares the capacity of a cell between the nodes at its ends.
func (n *net) store(upper int, capacity float64) {
	n.capacity[upper] += capacity / 2
	n.capacity[upper+1] += capacity / 2
}

// below adds what lies under the slab.
func (n *net) below(insulation float64, cut int) {
	switch n.foot {
	case slab.OpenAir:
		n.link[n.under] = 1 / (insulation + 1/soffitFilm)
		return
	case slab.HeatedSpace:
		n.link[n.under] = 1 / (insulation + 1/roomFilm)
		return
	}
	if insulation > 0 {
		n.link[n.under] = 1 / insulation
		n.n++
	}
	cells := groundCells * cut
	for k := range cells {
		d := groundM / (math.Exp2(groundCells) - 1) * math.Exp2(float64(k/cut)) / float64(cut)
		last := n.n - 1
		n.link[last] = groundWMK / d
		if k == cells-1 {
			n.capacity[last] += d * groundJM3K / 2 // the other half hangs on the foot
			return
		}
		n.store(last, d*groundJM3K)
		n.n++
	}
}

func nearest(at []float64, place float64) int {
	best := 0
	for i := range at {
		if math.Abs(at[i]-place) < math.Abs(at[best]-place) {
			best = i
		}
	}
	return best
}

// footC returns the temperature that the last node hangs on [°C].
func (n *net) footC(airC float64) float64 {
	switch n.foot {
	case slab.OpenAir:
		return airC
	case slab.HeatedSpace:
		return roomC
	}
	return n.groundC
}

// factors are the elimination of an implicit step of one length, from the foot up to the surface. They hang on the net alone, so that a step costs
// one pass up and one down.
//
//	(C_i/Δt)(T_i' − T_i) = G_{i−1}(T_{i−1}' − T_i') + G_i(T_{i+1}' − T_i') + q_i
//	T_i' = a_i + above_i T_{i−1}',  a_i = keep_i T_i + below_i a_{i+1} + source q_i
type factors struct {
	seconds float64
	keep    [mostNodes]float64
	below   [mostNodes]float64
	above   [mostNodes]float64
	source  float64 // of the pipe's node [m²·K/W]
	drains  float64 // share of the water to drain that is still there after the step
}

// factor prepares steps of a length.
//
// Source: backward Euler and the elimination of Thomas; any text on numerical methods.
func (n *net) factor(seconds float64) factors {
	f := factors{seconds: seconds, drains: math.Exp(-seconds / drainS)}
	above := 0.0 // of the node below, whose place the foot takes at first
	for i := n.n - 1; i > 0; i-- {
		d := n.capacity[i]/seconds + n.link[i-1] + n.link[i]*(1-above)
		f.keep[i] = n.capacity[i] / seconds / d
		f.below[i] = n.link[i] / d
		above = n.link[i-1] / d
		f.above[i] = above
		if i == n.pipe {
			f.source = 1 / d
		}
	}
	return f
}

// up runs the elimination from the foot to the node under the surface, with heat [W/m²] at the pipe, into a. It returns a_1.
func (f *factors) up(n *net, t, a *[mostNodes]float64, footC, heat float64) float64 {
	v := footC
	for i := min(n.n, mostNodes) - 1; i > n.pipe; i-- {
		v = f.keep[i]*t[i] + f.below[i]*v
		a[i] = v
	}
	v = f.keep[n.pipe]*t[n.pipe] + f.below[n.pipe]*v + f.source*heat
	a[n.pipe] = v
	for i := n.pipe - 1; i > 0; i-- {
		v = f.keep[i]*t[i] + f.below[i]*v
		a[i] = v
	}
	return v
}

// down puts the new temperatures in place once that of the surface, t[0], is known.
func (f *factors) down(n *net, t, a *[mostNodes]float64) {
	v := t[0]
	for i := 1; i < min(n.n, mostNodes); i++ {
		v = a[i] + f.above[i]*v
		t[i] = v
	}
}

// underflow returns the heat that leaves the slab at its underside [W/m²].
func (n *net) underflow(t *[mostNodes]float64, footC float64) float64 {
	if n.under+1 < n.n {
		footC = t[n.under+1]
	}
	return n.link[n.under] * (t[n.under] - footC)
}
