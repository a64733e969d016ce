package slab

import "math"

// column is a section as a column of nodes from the surface down, per m² of pavement.
type column struct {
	g        []float64 // conductance between nodes i and i+1 [W/(m²·K)]
	heat     []float64 // capacity of each node [J/(m²·K)]
	t        []float64 // [°C]
	level    int       // the node of the pipe's level
	film     float64   // above the first node [W/(m²·K)]
	foot     float64   // below the last node [W/(m²·K)]
	airC     float64
	belowC   float64
	pivot, c []float64 // of the implicit step: pivots, and conductance over pivot
	stepS    float64   // of the pivots
}

// column lays out the section at its start.
func (in WarmUpInput) column() *column {
	s := in.Section
	s.OutdoorC = in.AirC
	g := s.Geometry()
	c := &column{film: in.film(), airC: in.AirC, belowC: s.belowC(), heat: []float64{0}}
	for _, part := range [...]struct{ from, to float64 }{{0, g.DepthM}, {g.DepthM, g.thickM()}} {
		c.layers(g, part.from, part.to, s.SlabHeatCapacityJM3)
		if part.from == 0 {
			c.level = len(c.heat) - 1
		}
	}
	underside := len(c.heat) - 1
	switch s.Support {
	case OpenAir:
		c.foot = 1 / (s.InsulationM2KW + 1/soffitFilm)
	case HeatedSpace:
		c.foot = 1 / (s.InsulationM2KW + 1/roomFilm)
	default:
		c.ground(s.InsulationM2KW)
	}
	c.start(in.StartC, underside)
	return c
}

// layers adds the nodes of the section between two depths.
func (c *column) layers(g Geometry, from, to, heat float64) {
	lines := []float64{from}
	depth := 0.0
	for _, l := range g.section().layers() {
		depth += l.thickM
		if depth > from+nearM && depth < to-nearM {
			lines = append(lines, depth)
		}
	}
	lines = append(lines, to)
	for i, end := range lines[1:] {
		cells := int(math.Ceil((end - lines[i]) / columnM))
		step := (end - lines[i]) / float64(cells)
		for range cells {
			c.add(step, g.conductivity((lines[i]+end)/2)/step, heat)
		}
	}
}

// add appends a node below a slice of some thickness, conductance and heat capacity.
func (c *column) add(thickM, conductance, heat float64) {
	c.heat[len(c.heat)-1] += heat * thickM / 2
	c.g = append(c.g, conductance)
	c.heat = append(c.heat, heat*thickM/2)
}

// ground adds the insulation and the ground down to its foot.
func (c *column) ground(insulation float64) {
	if insulation > 0 {
		c.add(0, 1/insulation, 0)
	}
	step, left := columnM, groundM
	for left > step*(1+columnGrows) {
		c.add(step, groundWMK/step, groundJM3K)
		left -= step
		step *= columnGrows
	}
	c.heat[len(c.heat)-1] += groundJM3K * left / 2
	c.foot = groundWMK / left
}

// start sets the slab to one temperature and the ground below it to rest.
func (c *column) start(startC float64, underside int) {
	c.t = make([]float64, len(c.heat))
	below := 1 / c.foot
	for _, g := range c.g[underside:] {
		below += 1 / g
	}
	flux, t := (startC-c.belowC)/below, startC
	for i := range c.t {
		if i > underside {
			t -= flux / c.g[i-1]
		}
		c.t[i] = t
	}
}

// factor prepares implicit steps of a length in seconds; 0 for the state at rest.
func (c *column) factor(stepS float64) {
	n := len(c.heat)
	c.stepS, c.pivot, c.c = stepS, make([]float64, n), make([]float64, n)
	for i := range n {
		d := c.film
		if i > 0 {
			d = c.g[i-1] - c.g[i-1]*c.c[i-1]
		}
		if i < n-1 {
			d += c.g[i]
		} else {
			d += c.foot
		}
		if stepS > 0 {
			d += c.heat[i] / stepS
		}
		c.pivot[i] = d
		if i < n-1 {
			c.c[i] = c.g[i] / d
		}
	}
}

// step overwrites t by the state one step later with a heat at the pipe's level.
func (c *column) step(t []float64, flux float64) {
	n := len(t)
	for i := range n {
		load := 0.0
		if c.stepS > 0 {
			load = t[i] * c.heat[i] / c.stepS
		}
		if i == 0 {
			load += c.film * c.airC
		} else {
			load += c.g[i-1] * t[i-1]
		}
		if i == c.level {
			load += flux
		}
		if i == n-1 {
			load += c.foot * c.belowC
		}
		t[i] = load / c.pivot[i]
	}
	for i := n - 2; i >= 0; i-- {
		t[i] += c.c[i] * t[i+1]
	}
}

// rest returns the temperatures that a heat at the pipe's level ends in.
func (c *column) rest(flux float64) []float64 {
	t := make([]float64, len(c.heat))
	c.factor(0)
	c.step(t, flux)
	return t
}

// march heats the column, by what its level's temperature lets the pipes give, until the surface reaches the target and returns the hours, between steps by a straight line; false after warmLimitH.
func (c *column) march(gives func(levelC float64) float64, targetC, stepS float64) (hours float64, reached bool) {
	c.factor(stepS)
	for n := 0; float64(n)*stepS < warmLimitH*3600; n++ {
		before := c.t[0]
		c.step(c.t, gives(c.t[c.level]))
		if c.t[0] >= targetC {
			return (float64(n) + (targetC-before)/(c.t[0]-before)) * stepS / 3600, true
		}
	}
	return 0, false
}
