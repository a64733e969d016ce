package slab

import (
	"errors"
	"fmt"
	"math"
)

// Support says what lies below the slab.
type Support uint8

// The supports.
const (
	OnGround Support = iota
	OpenAir
	HeatedSpace
)

// Section is a slab section. Comparable: it is a memo key. From the top: surface, bedding, slab; the pipe or cable lies DepthM below the top.
type Section struct {
	Support             Support
	SurfaceM            float64 // thickness of a surface course above the slab [m]; 0 without one
	SurfaceWMK          float64
	BeddingM            float64 // [m]
	BeddingWMK          float64
	SlabM               float64 // [m]
	SlabWMK             float64 // [W/m·K]
	DepthM              float64 // to the centre of the pipe or cable [m]
	SpacingM            float64 // [m]
	OuterM              float64 // outside diameter of the pipe or cable [m]
	WallM               float64 // wall of the pipe [m]; 0 for a cable
	WallWMK             float64
	FluidFilmWM2K       float64 // between fluid and pipe [W/m²·K]; 0 where the flow is not known: DefaultFluidFilm
	InsulationM2KW      float64 // R under the slab
	GroundC             float64
	OutdoorC            float64 // of the design hour; only a slab over open air rests on it
	SensorDepthM        float64 // of the slab sensor's tip [m]; 0.025 in concrete
	SlabHeatCapacityJM3 float64 // ρc [J/m³·K]
}

// DefaultFluidFilm is the coefficient between fluid and pipe in W/(m²·K) where the flow is not known: glycol and water near the transition to
// turbulent flow. Judgement.
const DefaultFluidFilm = 500.0

// ErrSection says that a section can't be solved as it is given.
var ErrSection = errors.New("slab section")

// layer is a thickness [m] of one conductivity [W/(m·K)].
type layer struct{ thickM, wmk float64 }

// layers returns the section from the top.
func (s Section) layers() [3]layer {
	return [3]layer{{s.SurfaceM, s.SurfaceWMK}, {s.BeddingM, s.BeddingWMK}, {s.SlabM, s.SlabWMK}}
}

func (s Section) check() error {
	total := 0.0
	for _, l := range s.layers() {
		if !(l.thickM >= 0) || l.thickM > 0 && !(l.wmk > 0) {
			return fmt.Errorf("%w: a layer of %g m with conductivity %g W/m·K", ErrSection, l.thickM, l.wmk)
		}
		total += l.thickM
	}
	switch {
	case !(s.SlabM > 0):
		return fmt.Errorf("%w: slab thickness %g m", ErrSection, s.SlabM)
	case !(s.DepthM > 0 && s.DepthM <= total):
		return fmt.Errorf("%w: pipe or cable %g m below the top of %g m", ErrSection, s.DepthM, total)
	case !(s.SensorDepthM > 0 && s.SensorDepthM <= total):
		return fmt.Errorf("%w: sensor %g m below the top of %g m", ErrSection, s.SensorDepthM, total)
	case !(s.OuterM > 0 && s.SpacingM > s.OuterM):
		return fmt.Errorf("%w: spacing %g m of pipes or cables of %g m", ErrSection, s.SpacingM, s.OuterM)
	case !(s.WallM >= 0 && 2*s.WallM < s.OuterM) || s.WallM > 0 && !(s.WallWMK > 0 && s.FluidFilmWM2K >= 0):
		return fmt.Errorf("%w: wall of %g m and %g W/m·K in a pipe of %g m", ErrSection, s.WallM, s.WallWMK, s.OuterM)
	case !(s.InsulationM2KW >= 0) || s.Support > HeatedSpace:
		return fmt.Errorf("%w: insulation of %g m²·K/W on support %d", ErrSection, s.InsulationM2KW, s.Support)
	}
	return nil
}

// fluidFilm returns the coefficient between fluid and pipe in W/(m²·K).
func (s Section) fluidFilm() float64 {
	if s.FluidFilmWM2K > 0 {
		return s.FluidFilmWM2K
	}
	return DefaultFluidFilm
}

// wallResistance returns the resistance of pipe wall and inner film per area of pavement, in m²·K/W; 0 for a cable.
func (s Section) wallResistance() float64 {
	if s.WallM == 0 {
		return 0
	}
	inner := s.OuterM - 2*s.WallM
	return s.SpacingM * (math.Log(s.OuterM/inner)/(2*math.Pi*s.WallWMK) + 1/(math.Pi*inner*s.fluidFilm()))
}
