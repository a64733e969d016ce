package calc

import (
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// Names of the alternatives that the engine proposes.
const (
	NameSlabSensor = "slab sensor in a saw-cut"
	NameCored      = "in-pavement detector in a core"
	NameOverlay    = "heated overlay"
	NameNewPour    = "torn out and poured new"
	NameNoHousing  = "without a detector housing"
	NameElectric   = "electric heat"
	NameHydronic   = "hydronic heat"
)

// Sizes of a heated overlay where none is told. Source: common practice, bonded concrete of 75 to 100 mm.
const (
	overlayM      = 0.100 // thick
	overlayDepthM = 0.060 // to the pipe's centre
)

// proposal is an alternative that fits some zones: it returns the zone changed, or false where it does not fit.
type proposal struct {
	name   string
	change func(e *Engine, z Zone, o Outcome) (Zone, bool)
}

// proposals in the order in which they are listed. The first two and NameNoHousing leave the pavement as it is: they share the winters of the site as
// in Sites. Each of the others has winters of its own, one of them for a new pour and two for an existing slab.
var proposals = []proposal{
	{NameSlabSensor, (*Engine).withSlabSensor},
	{NameCored, (*Engine).cored},
	{NameOverlay, (*Engine).overlaid},
	{NameNewPour, (*Engine).pouredNew},
	{NameNoHousing, (*Engine).withoutHousing},
	{NameElectric, (*Engine).electric},
	{NameHydronic, (*Engine).hydronic},
}

// propose returns the alternatives that fit a site which names none. Each changes every zone that it fits.
func (e *Engine) propose(so *SiteOutcome) []Alternative {
	read := map[string]Zone{} // before defaults that depend on other cells were settled
	for _, z := range so.Site.Zones {
		read[z.Ref.ZoneID] = z
	}
	var out []Alternative
	for _, p := range proposals {
		a := Alternative{Name: p.name, Proposed: true}
		for _, o := range so.Outcomes {
			if z, fits := p.change(e, read[o.Zone.Ref.ZoneID], o); fits {
				z.Ref.Alternative = p.name
				z.Money.FirstCost = units.Maybe[float64]{} // it is that of the zone as in Sites
				a.Zones = append(a.Zones, z)
			}
		}
		if len(a.Zones) > 0 {
			out = append(out, a)
		}
	}
	return out
}

// mayCut says whether an existing slab may be cored and cut: nothing unknown is taken for a no.
func mayCut(z Zone) bool {
	return z.Slab.Existing() && z.Slab.PostTensioned == No && z.Slab.MembraneBelow == No && z.Slab.Surface != Pavers
}

// withSlabSensor keeps a heated slab and adds a sensor of its temperature to a detector that looks at the sky.
func (e *Engine) withSlabSensor(z Zone, o Outcome) (Zone, bool) {
	z.Sensing.SlabSensor = Yes
	return z, z.Slab.Stage == ExistingHeated && mayCut(z) && !o.Sensing.OutdoorReset && !slices.Contains(o.Sensing.Kit, sensing.PavementDetector)
}

// cored keeps a heated slab and sets a detector into it.
func (e *Engine) cored(z Zone, o Outcome) (Zone, bool) {
	fits := z.Sensing.Housing != Yes
	z.Sensing.Housing, z.Sensing.SlabSensor = Yes, Yes
	return z, fits && z.Slab.Stage == ExistingHeated && mayCut(z) && !slices.Contains(o.Sensing.Kit, sensing.PavementDetector)
}

// overlaid lays a heated slab of concrete on what is there.
func (e *Engine) overlaid(z Zone, _ Outcome) (Zone, bool) {
	if !z.Slab.Existing() {
		return z, false
	}
	fresh(&z, Overlay)
	b := &z.Slab
	b.Surface, b.SurfaceThicknessM, b.BeddingThicknessM, b.ConductivityWMK = Concrete, units.Maybe[float64]{}, units.Maybe[float64]{}, units.Maybe[float64]{}
	b.ThicknessM = units.Some(overlayM)
	if z.Heat.Kind == Hydronic {
		b.DepthM = units.Some(overlayDepthM)
	}
	return z, true
}

// pouredNew takes the slab out and pours a heated one.
func (e *Engine) pouredNew(z Zone, _ Outcome) (Zone, bool) {
	if !z.Slab.Existing() {
		return z, false
	}
	fresh(&z, NewPour)
	return z, true
}

// fresh leaves to design what a new slab is free to choose.
func fresh(z *Zone, stage string) {
	z.Slab.Stage = stage
	z.Slab.DepthM, z.Slab.InsulationM2KW = units.Maybe[float64]{}, units.Maybe[float64]{}
	redesigned(z)
	z.Sensing.Housing, z.Sensing.SlabSensor, z.Sensing.ControlNow = Unknown, Unknown, ""
}

func redesigned(z *Zone) {
	z.Heat.SpacingM, z.Heat.LoopLengthM, z.Heat.InstalledWM2 = units.Maybe[float64]{}, units.Maybe[float64]{}, units.Maybe[float64]{}
}

// withoutHousing pours without a place for an in-pavement detector.
func (e *Engine) withoutHousing(z Zone, o Outcome) (Zone, bool) {
	z.Sensing.NoHousing = true
	return z, !z.Slab.Existing() && slices.Contains(o.Sensing.Kit, sensing.PavementDetector)
}

// electric heats a pour by cable.
func (e *Engine) electric(z Zone, _ Outcome) (Zone, bool) {
	return e.otherHeat(z, Electric, cost.Electricity)
}

// hydronic heats a pour by warm fluid.
func (e *Engine) hydronic(z Zone, _ Outcome) (Zone, bool) {
	return e.otherHeat(z, Hydronic, "gas", "district heat", "oil", "propane")
}

// otherHeat heats a pour in another way, by the first row of Energy with the first of the carriers that has one; without a row there is no other way.
func (e *Engine) otherHeat(z Zone, kind string, carriers ...string) (Zone, bool) {
	if z.Slab.Existing() || z.Heat.Kind == kind {
		return z, false
	}
	for _, carrier := range carriers {
		if i := slices.IndexFunc(e.in.Energies, func(row cost.Energy) bool { return row.Carrier == carrier }); i >= 0 {
			z.Heat.Kind, z.Heat.EnergyID = kind, e.in.Energies[i].ID
			z.Slab.DepthM = units.Maybe[float64]{}
			redesigned(&z)
			return z, true
		}
	}
	return z, false
}
