package slab

import "fmt"

// Geometry is what of a section shapes the flow of heat: neither temperatures nor what lies inside the pipe. Comparable: it is a memo key.
type Geometry struct {
	Support        Support
	SurfaceM       float64
	SurfaceWMK     float64
	BeddingM       float64
	BeddingWMK     float64
	SlabM          float64
	SlabWMK        float64
	DepthM         float64
	SpacingM       float64
	OuterM         float64
	InsulationM2KW float64
	SensorDepthM   float64
}

// Geometry returns the section's geometry. Sections that differ only in temperatures, in wall or fluid of the pipe, or in the conductivity of a
// layer that they don't have share one.
func (s Section) Geometry() Geometry {
	g := Geometry{Support: s.Support, SurfaceM: s.SurfaceM, BeddingM: s.BeddingM, SlabM: s.SlabM, SlabWMK: s.SlabWMK, DepthM: s.DepthM,
		SpacingM: s.SpacingM, OuterM: s.OuterM, InsulationM2KW: s.InsulationM2KW, SensorDepthM: s.SensorDepthM}
	if s.SurfaceM > 0 {
		g.SurfaceWMK = s.SurfaceWMK
	}
	if s.BeddingM > 0 {
		g.BeddingWMK = s.BeddingWMK
	}
	return g
}

// section returns the geometry as a section, to be judged by the same rules.
func (g Geometry) section() Section {
	return Section{Support: g.Support, SurfaceM: g.SurfaceM, SurfaceWMK: g.SurfaceWMK, BeddingM: g.BeddingM, BeddingWMK: g.BeddingWMK, SlabM: g.SlabM,
		SlabWMK: g.SlabWMK, DepthM: g.DepthM, SpacingM: g.SpacingM, OuterM: g.OuterM, InsulationM2KW: g.InsulationM2KW, SensorDepthM: g.SensorDepthM}
}

// thickM returns the depth of the underside [m].
func (g Geometry) thickM() float64 { return g.SurfaceM + g.BeddingM + g.SlabM }

// endless is a length [m] or a conductivity [W/(m·K)] that no pavement has.
const endless = 1e4

// check refuses a pipe or cable that does not lie wholly in the section, and what Section refuses.
func (g Geometry) check() error {
	if err := g.section().check(); err != nil {
		return err
	}
	for _, v := range [...]float64{g.thickM(), g.SpacingM, g.SurfaceWMK, g.BeddingWMK, g.SlabWMK, g.InsulationM2KW / 1e9} {
		if !(v <= endless) {
			return fmt.Errorf("%w: %+v is without bounds", ErrSection, g)
		}
	}
	r := g.OuterM / 2
	if !(g.DepthM > r && g.DepthM+r <= g.thickM()+nearM) {
		return fmt.Errorf("%w: pipe or cable of %g m, %g m below the top of %g m, reaches out of it", ErrSection, g.OuterM, g.DepthM, g.thickM())
	}
	return nil
}

// conductivity returns the conductivity at a depth [W/(m·K)].
func (g Geometry) conductivity(depthM float64) float64 {
	for _, l := range g.section().layers() {
		if depthM < l.thickM {
			return l.wmk
		}
		depthM -= l.thickM
	}
	return g.SlabWMK
}
