package slab

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

const (
	topFilm    = 25.0 // W/(m²·K), surface to environment; engineering method, section 2
	soffitFilm = 10.0 // W/(m²·K), underside over open air; engineering method, section 2
	roomFilm   = 6.0  // W/(m²·K), underside over heated space; engineering method, section 2
	groundWMK  = 1.5  // W/(m·K); reference, engineering method, section 2
	groundM    = 1.0  // m of ground from the underside to its isothermal foot; engineering method, section 2
)

// cell is the half cell between two pipes as a net: nodes at the crossings of x lines and y lines, conductances between neighbours. The pipe's
// circle, of one temperature, cuts the links that cross it. Per metre of pipe.
type cell struct {
	g      Geometry
	film   float64   // top [W/(m²·K)]
	x, y   []float64 // lines: x from the pipe's centre to midway, y down from the surface
	wmk    []float64 // conductivity between y lines j and j+1 [W/(m·K)]; 0 across the sheet of insulation
	under  int       // the y line of the underside
	sheet  bool      // a sheet of insulation lies between y lines under and under+1, at one depth
	foot   float64   // from the last y line to what lies below [W/(m²·K)]
	matrix blas64.SymmetricBand
	pipe   []float64 // right side: conductance of each node to the pipe
	below  []float64 // right side: conductance of each node to what lies below
	direct float64   // conductance between the pipe and what lies below, where the pipe touches the underside
}

// newCell lays the grid. Over ground the last y line lies one cell above the foot.
func newCell(g Geometry, film float64, m mesh) *cell {
	r := g.OuterM / 2
	total := g.thickM()
	c := &cell{g: g, film: film}
	c.x = m.axis(m.stretch(0, r), 0, r, g.SpacingM/2)
	depth := m.stretch(g.DepthM, r)
	c.y = m.axis(depth, 0, g.SensorDepthM, g.SurfaceM, g.SurfaceM+g.BeddingM, g.DepthM-r, g.DepthM, min(g.DepthM+r, total), total)
	for j := range len(c.y) - 1 {
		c.wmk = append(c.wmk, g.conductivity((c.y[j]+c.y[j+1])/2))
	}
	c.under = len(c.y) - 1
	c.underside(m, depth, total)
	return c
}

// line returns the y line nearest to a depth.
func (c *cell) line(depthM float64) int {
	at := 0
	for j, y := range c.y {
		if math.Abs(y-depthM) < math.Abs(c.y[at]-depthM) {
			at = j
		}
	}
	return at
}

// underside adds what lies below the slab.
func (c *cell) underside(m mesh, depth stretch, total float64) {
	switch c.g.Support {
	case OpenAir:
		c.foot = 1 / (c.g.InsulationM2KW + 1/soffitFilm)
		return
	case HeatedSpace:
		c.foot = 1 / (c.g.InsulationM2KW + 1/roomFilm)
		return
	}
	if c.g.InsulationM2KW > 0 {
		c.sheet = true
		c.y = append(c.y, total)
		c.wmk = append(c.wmk, 0)
	}
	ground := m.axis(depth, total, total+groundM)
	for range len(ground) - 2 {
		c.wmk = append(c.wmk, groundWMK)
	}
	c.y = append(c.y, ground[1:len(ground)-1]...)
	c.foot = groundWMK / (ground[len(ground)-1] - ground[len(ground)-2])
}

// width returns the width of the strip around an x line [m].
func (c *cell) width(i int) float64 {
	w := 0.0
	if i > 0 {
		w += c.x[i] - c.x[i-1]
	}
	if i < len(c.x)-1 {
		w += c.x[i+1] - c.x[i]
	}
	return w / 2
}

// inside says whether a node lies in the pipe or on it.
func (c *cell) inside(i, j int) bool {
	r := c.g.OuterM / 2
	return j <= c.under && math.Hypot(c.x[i], c.y[j]-c.g.DepthM) < r*(1+1e-6)
}

// across returns the conductance from a node to its neighbour at the next x line, per length of the link [W/K].
func (c *cell) across(j int) float64 {
	g := 0.0
	if j > 0 {
		g += c.wmk[j-1] * (c.y[j] - c.y[j-1])
	}
	if j < len(c.wmk) {
		g += c.wmk[j] * (c.y[j+1] - c.y[j])
	}
	if j == len(c.y)-1 && c.g.Support == OnGround {
		g += groundWMK * groundWMK / c.foot // the strip down to the foot
	}
	return g / 2
}

// assemble builds the symmetric band matrix and the right sides for the pipe at 1 and for what lies below at 1.
func (c *cell) assemble() {
	nx, n := len(c.x), len(c.x)*len(c.y)
	c.matrix = blas64.SymmetricBand{N: n, K: nx, Stride: nx + 1, Uplo: blas.Upper, Data: make([]float64, n*(nx+1))}
	c.pipe, c.below = make([]float64, n), make([]float64, n)
	for j := range c.y {
		across := c.across(j)
		for i := range c.x {
			if i < nx-1 {
				c.link(i, j, 1, 0, across)
			}
			if j < len(c.wmk) && c.wmk[j] > 0 {
				c.link(i, j, 0, 1, c.wmk[j]*c.width(i))
			} else if c.sheet && j == c.under {
				c.join(j*nx+i, nx, c.width(i)/c.g.InsulationM2KW, c.inside(i, j))
			}
		}
	}
	for i := range c.x {
		c.diagonal(i, c.film*c.width(i))
		last := n - nx + i
		c.diagonal(last, c.foot*c.width(i))
		c.below[last] += c.foot * c.width(i)
		if c.inside(i, len(c.y)-1) {
			c.direct += c.foot * c.width(i)
		}
	}
	for j := range c.y {
		for i := range c.x {
			if c.inside(i, j) {
				c.hold(j*nx + i)
			}
		}
	}
}

func (c *cell) diagonal(node int, g float64) { c.matrix.Data[node*c.matrix.Stride] += g }

// link joins a node to its neighbour to the right or below. A link into the pipe ends on the pipe's circle.
func (c *cell) link(i, j, right, down int, conductance float64) {
	a, b := c.inside(i, j), c.inside(i+right, j+down)
	length := c.x[i+right] - c.x[i] + c.y[j+down] - c.y[j]
	if a == b {
		if !a {
			c.join(j*len(c.x)+i, right+down*len(c.x), conductance/length, false)
		}
		return
	}
	out, o, p := j*len(c.x)+i, i, j
	if a {
		out, o, p = (j+down)*len(c.x)+i+right, i+right, j+down
	}
	g := conductance / c.toCircle(o, p, right == 1)
	c.diagonal(out, g)
	c.pipe[out] += g
}

// toCircle returns the distance from a node outside the pipe to its circle along a grid line [m].
func (c *cell) toCircle(i, j int, along bool) float64 {
	r, x, y := c.g.OuterM/2, c.x[i], math.Abs(c.y[j]-c.g.DepthM)
	if !along {
		x, y = y, x
	}
	return x - math.Sqrt(max(0, r*r-y*y))
}

// join puts a conductance between a node and the one step further. Where the first lies in the pipe, the second sees the pipe.
func (c *cell) join(node, step int, g float64, fromPipe bool) {
	c.diagonal(node+step, g)
	if fromPipe {
		c.pipe[node+step] += g
		return
	}
	c.diagonal(node, g)
	c.matrix.Data[node*c.matrix.Stride+step] -= g
}

// hold sets a node in the pipe to the pipe's temperature. No link touches it.
func (c *cell) hold(node int) {
	c.matrix.Data[node*c.matrix.Stride] = 1
	c.pipe[node], c.below[node] = 1, 0
}

// errNet says that the net's matrix is not positive definite.
var errNet = errors.New("the net of conductances has no answer")

// solve returns the temperatures of the nodes with the pipe at 1, and with what lies below at 1, everything else at 0.
func (c *cell) solve() (pipe, below []float64, err error) {
	c.assemble()
	factor, ok := lapack64.Pbtrf(c.matrix)
	if !ok {
		return nil, nil, fmt.Errorf("%w: %w", ErrSection, errNet)
	}
	pipe, below = slices.Clone(c.pipe), slices.Clone(c.below)
	for _, b := range [][]float64{pipe, below} {
		lapack64.Pbtrs(factor, blas64.General{Rows: len(b), Cols: 1, Stride: 1, Data: b})
	}
	return pipe, below, nil
}
