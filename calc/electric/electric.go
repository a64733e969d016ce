// Package electric lays out the heating cable of a pavement: spacing, length, circuits and their protection, connected load.
package electric

import (
	"errors"
	"fmt"
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// ErrInput says that a layout can't be made as it is asked for.
var ErrInput = errors.New("electric")

const (
	mostWM2   = 1300.0 // W/m² of heated area, 120 W/ft²; National Electrical Code 426, memory: the adopted code decides
	usualWM2  = 650.0  // W/m², of severe climates; common practice
	leastM    = 0.025  // m between cables, 1 in; National Electrical Code 426, memory: the adopted code decides
	stripeM   = 0.200  // m, above which snow stands between the cables; common practice
	tolerance = 0.05   // of the voltage, up and down; common practice
	// continuous is the factor on the current of a load that runs for hours, for conductor and protection. Source: National Electrical Code 426.4, memory.
	continuous = 1.25
	// largestA is the protection of the largest circuit proposed [A]; judgement: above it leakage and one fault take too much away.
	largestA = 40.0
	tripMA   = 30.0 // mA, trip of the ground-fault protection; common practice, National Electrical Code 426.28 and IEC 60364-7-753 by memory
	hair     = 1e-9 // a value typed at its limit meets it
	hairW    = 1e-6 // W, likewise of a sum
)

// The families of protection sizes.
const (
	NECSizes = "NEC 240.6"
	IECSizes = "IEC 60898"
)

// sizes are the standard protection sizes up to the largest proposed [A]. Source: National Electrical Code 240.6 and IEC 60898, memory.
var sizes = map[string][]float64{
	NECSizes: {15, 20, 25, 30, 35, 40},
	IECSizes: {6, 10, 13, 16, 20, 25, 32, 40},
}

// iecVolts are the nominal voltages of supplies whose protection comes in the metric family; every other one takes the other. Source: IEC 60038, memory.
var iecVolts = map[float64]bool{220: true, 230: true, 380: true, 400: true, 415: true, 690: true}

// Input is what a layout rests on. Comparable.
type Input struct {
	AreaM2       float64
	NeedWM2      float64              // design flux up and back loss
	EdgeW        float64              // edge loss
	Laid         bool                 // the cable is there: nothing is laid for the edge
	InstalledWM2 float64              // power density wished
	CableWM      float64              // output per length of cable
	Path         Path                 // from the cable to the surface
	SpacingM     units.Maybe[float64] // as laid or wished; blank follows from InstalledWM2
	VoltageV     units.Maybe[float64] // between the lines of a circuit; blank: no circuits
	Phases       units.Maybe[float64] // 1 or 3; blank: no circuits
}

// Path is the way of the heat from the cable to the surface midway between cables, and what the pavement bears at the cable.
type Path struct {
	SurfaceC       float64 // melting set point [°C]
	ResistanceM2KW float64 // surface of the cable to surface midway, per upward flux
	BackShare      float64 // back loss per upward flux
	LimitC         float64 // of the surface's material [°C]
}

// Layout is the electric heat of a zone.
type Layout struct {
	Input      Input
	SpacingM   float64
	DensityWM2 float64 // installed
	EdgeM      float64 // cable laid along the edges for what leaves there, where the area's falls short of it; none where the spacing was told
	CableM     float64 // in all
	ConnectedW float64
	DemandW    float64               // all circuits at once: heat is not staggered in a storm
	LowWM2     float64               // density with 5 % less voltage
	HighWM2    float64               // density with 5 % more voltage
	CableC     float64               // surface of the cable at full output while the surface midway is at its melting set point
	Circuits   units.Maybe[Circuits] // blank without a voltage
	Checks     finding.Checks        // what stands outside the usual, in the order found
}

// Circuits is how the load is divided.
type Circuits struct {
	Family      string  // of protection sizes
	LargestA    float64 // protection of the largest circuit proposed
	LargestW    float64 // load of the largest circuit
	Count       int
	LoadW       float64 // of each
	Amps        float64 // of each
	NeededA     float64 // current times 1.25
	ProtectionA float64 // next standard size
	Cables      int     // of each circuit: one a phase
	CableM      float64 // of each cable
	SupplyA     float64 // all circuits together
	TripMA      float64 // ground-fault protection of each circuit
}

// Codes of findings about a layout.
const (
	CodeDensityOver    finding.Code = "cable-density-over"
	CodeDensityUnusual finding.Code = "cable-density-unusual"
	CodeTooClose       finding.Code = "cables-too-close"
	CodeStripes        finding.Code = "cables-far-apart"
	CodeBelowNeed      finding.Code = "cable-density-below-need"
	CodeHotForSurface  finding.Code = "cable-hot-for-surface"
	CodeLowVoltage     finding.Code = "low-voltage-short"
	CodeNoVoltage      finding.Code = "voltage-not-told"
)

// Design returns the layout of a zone's electric heat.
//
//	s = p / q; L = A / s + L_edge; P = p L
//	L_edge = [Q_edge − (q − q_need) A] / p, what the area has to spare, not below 0; 0 where the spacing is told or the cable is there
//	n = P / P_largest, rounded up; P_largest = k U I_largest / 1.25, k = 1, √3 with three phases
//	I = P / n / (k U); protection: next standard size from 1.25 I
//	q at other voltages: q (U'/U)²
//	t_cable = t_surface + R q / (1 + b)
//
//	p  output of the cable     [W/m]   10 … 50 usual
//	q  power density           [W/m²]  above 0 … 1300
//	A  area                    [m²]    above 0
//	U  voltage between lines   [V]     100 … 600
//	R  cable to surface        [m²·K/W], b back loss per upward flux, both of the solved section
//
// Source: geometry; National Electrical Code 426.4 and 240.6 and IEC 60898 by memory: the adopted code decides.
// Errors: ErrInput where a value makes no sense.
func Design(in Input) (Layout, error) {
	if err := in.check(); err != nil {
		return Layout{}, err
	}
	l := Layout{Input: in, SpacingM: in.SpacingM.Or(in.CableWM / in.InstalledWM2)}
	l.DensityWM2 = in.CableWM / l.SpacingM
	if !in.SpacingM.Known && !in.Laid {
		l.EdgeM = max(0, in.EdgeW-max(0, l.DensityWM2-in.NeedWM2)*in.AreaM2) / in.CableWM
	}
	l.CableM = in.AreaM2/l.SpacingM + l.EdgeM
	l.ConnectedW = in.CableWM * l.CableM
	l.DemandW = l.ConnectedW
	l.LowWM2, l.HighWM2 = l.DensityWM2*(1-tolerance)*(1-tolerance), l.DensityWM2*(1+tolerance)*(1+tolerance)
	l.CableC = in.Path.SurfaceC + in.Path.ResistanceM2KW*l.DensityWM2/(1+in.Path.BackShare)
	if in.VoltageV.Known && in.Phases.Known {
		l.Circuits = units.Some(divide(l.ConnectedW, l.CableM, in.VoltageV.Value, in.Phases.Value))
	}
	l.judge()
	return l, nil
}

func (in Input) check() error {
	switch {
	case !(in.AreaM2 > 0 && in.AreaM2 <= 1e6):
		return fmt.Errorf("%w: area of %g m²", ErrInput, in.AreaM2)
	case !(in.CableWM > 0 && in.CableWM <= 200):
		return fmt.Errorf("%w: cable of %g W/m", ErrInput, in.CableWM)
	case !(in.InstalledWM2 > 0 && in.InstalledWM2 <= 1e4):
		return fmt.Errorf("%w: density of %g W/m²", ErrInput, in.InstalledWM2)
	case !(in.Path.ResistanceM2KW >= 0 && in.Path.BackShare >= 0):
		return fmt.Errorf("%w: %g m²·K/W from cable to surface, back loss %g", ErrInput, in.Path.ResistanceM2KW, in.Path.BackShare)
	case in.SpacingM.Known && !(in.SpacingM.Value > 0 && in.SpacingM.Value <= 2):
		return fmt.Errorf("%w: spacing %g m", ErrInput, in.SpacingM.Value)
	case in.VoltageV.Known && !(in.VoltageV.Value >= 50 && in.VoltageV.Value <= 1000):
		return fmt.Errorf("%w: %g V", ErrInput, in.VoltageV.Value)
	case in.Phases.Known && !(in.Phases.Value == 1 || in.Phases.Value == 2 || in.Phases.Value == 3):
		return fmt.Errorf("%w: %g phases", ErrInput, in.Phases.Value)
	}
	return nil
}

// divide shares the load over equal circuits.
func divide(loadW, cableM, volts, phases float64) Circuits {
	k, cables := 1.0, 1
	if phases == 3 {
		k, cables = math.Sqrt(3), 3
	}
	c := Circuits{Family: NECSizes, LargestA: largestA, LargestW: k * volts * largestA / continuous, Cables: cables, TripMA: tripMA}
	if iecVolts[volts] {
		c.Family = IECSizes
	}
	c.Count = max(1, int(math.Ceil(loadW/c.LargestW-hair)))
	c.LoadW = loadW / float64(c.Count)
	c.Amps = c.LoadW / (k * volts)
	c.NeededA = continuous * c.Amps
	c.ProtectionA = protection(c.Family, c.NeededA)
	c.CableM = cableM / float64(c.Count*cables)
	c.SupplyA = loadW / (k * volts)
	return c
}

// protection returns the least standard size that is not below a current in A.
func protection(family string, amps float64) float64 {
	for _, size := range sizes[family] {
		if size >= amps-hair {
			return size
		}
	}
	return largestA
}

// setBy names the field that set the density.
func (l *Layout) setBy() finding.Field {
	if l.Input.SpacingM.Known {
		return "spacing"
	}
	return "installed_output"
}

// judge lists what stands outside the usual.
func (l *Layout) judge() {
	in := l.Input
	flag := func(s finding.Severity, code finding.Code, field finding.Field, found, limit float64, q units.Quantity) {
		l.Checks = append(l.Checks, finding.Check{Code: code, Severity: s, Field: field, Found: found, Limit: limit, Quantity: q})
	}
	switch {
	case l.DensityWM2 > mostWM2+hair:
		flag(finding.Warning, CodeDensityOver, "installed_output", l.DensityWM2, mostWM2, units.Flux)
	case l.DensityWM2 > usualWM2+hair:
		flag(finding.Warning, CodeDensityUnusual, "installed_output", l.DensityWM2, usualWM2, units.Flux)
	}
	if l.CableC > in.Path.LimitC+hair {
		flag(finding.Warning, CodeHotForSurface, "installed_output", l.CableC, in.Path.LimitC, units.Temperature)
	}
	if l.SpacingM < leastM-hair {
		flag(finding.Warning, CodeTooClose, "spacing", l.SpacingM, leastM, units.Thickness)
	}
	if l.SpacingM > stripeM+hair {
		flag(finding.Warning, CodeStripes, "spacing", l.SpacingM, stripeM, units.Thickness)
	}
	switch {
	case l.ConnectedW < in.NeedWM2*in.AreaM2+in.EdgeW-hairW:
		flag(finding.Warning, CodeBelowNeed, l.setBy(), l.ConnectedW/in.AreaM2, in.NeedWM2+in.EdgeW/in.AreaM2, units.Flux)
	case l.DensityWM2 >= in.NeedWM2 && l.LowWM2 < in.NeedWM2:
		flag(finding.Info, CodeLowVoltage, "installed_output", l.LowWM2, in.NeedWM2, units.Flux)
	}
	if !l.Circuits.Known {
		flag(finding.Info, CodeNoVoltage, "voltage", l.ConnectedW, l.ConnectedW, units.ElectricPower)
	}
}
