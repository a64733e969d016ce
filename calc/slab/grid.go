package slab

import (
	"math"
	"slices"
)

// mesh says how fine a grid is: cells per radius of the pipe, their growth per length away from it, and by how much every cell is cut again.
type mesh struct {
	perRadius float64
	growth    float64
	cut       int
}

// standard is the mesh of Unitary. See TestRefinement for what it costs in accuracy.
var standard = mesh{perRadius: 8, growth: 0.15, cut: 1}

// stretch numbers the places of an axis so that cells are even across the pipe and grow with the distance from it: a step of 1 is a cell.
type stretch struct{ centre, radius, fine, growth float64 }

func (m mesh) stretch(centre, radius float64) stretch {
	return stretch{centre, radius, radius / m.perRadius, m.growth}
}

// count returns the number of cells from the centre to a place, negative before it.
func (s stretch) count(at float64) float64 {
	d := math.Abs(at - s.centre)
	n := min(d, s.radius) / s.fine
	if d > s.radius {
		n += math.Log1p(s.growth*(d-s.radius)/s.fine) / s.growth
	}
	return math.Copysign(n, at-s.centre)
}

// place is the inverse of count.
func (s stretch) place(count float64) float64 {
	n, rim := math.Abs(count), s.radius/s.fine
	d := min(n, rim) * s.fine
	if n > rim {
		d += s.fine * math.Expm1(s.growth*(n-rim)) / s.growth
	}
	return s.centre + math.Copysign(d, count)
}

// nearM is the distance below which two lines of a grid are one [m].
const nearM = 1e-7

// axis returns the lines of a grid along one axis: every fixed place is a line, and the cells between two of them follow the stretch.
func (m mesh) axis(s stretch, fixed ...float64) []float64 {
	slices.Sort(fixed)
	fixed = slices.CompactFunc(fixed, func(a, b float64) bool { return math.Abs(b-a) < nearM })
	lines := fixed[:1:1]
	for i, to := range fixed[1:] {
		first, last := s.count(fixed[i]), s.count(to)
		cells := max(1, int(math.Ceil(last-first-1e-9))) * m.cut
		for c := 1; c < cells; c++ {
			lines = append(lines, s.place(first+(last-first)*float64(c)/float64(cells)))
		}
		lines = append(lines, to)
	}
	return lines
}
