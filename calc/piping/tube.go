package piping

import (
	"math"

	"thawbook/calc/units"
)

// Tube is a size of pipe.
type Tube struct {
	Nominal    string
	OuterM     float64
	LeastWallM float64 // the least that the standard allows; the same as WallM where the standard gives one wall
	WallM      float64 // the wall that the bore is calculated with
}

// BoreM returns the inside diameter in m.
func (t Tube) BoreM() float64 { return t.OuterM - 2*t.WallM }

// The bores that loops in pavements have [m]: what lies outside is a slip of the pen, such as an inside diameter typed as the wall. Source: judgement,
// around the tables below.
const (
	LeastBoreM = 0.005
	MostBoreM  = 0.030
)

// litres in a cubic metre.
const litres = 1000.0

// boreArea returns the section of a bore in m².
func boreArea(boreM float64) float64 { return math.Pi / 4 * boreM * boreM }

// inchTubes are cross-linked polyethylene tubes of ASTM F876 and F877, SDR-9: outer diameter and least wall as a public record reproduces them, bore
// with the average wall (0.475 in read, the others recalled with high confidence). The public record prints the bore of the least wall beside volumes
// that belong to the average wall: 4 % apart in volume, 5 to 11 % in head. The average wall is what a tube has, so it is used throughout.
var inchTubes = [...]struct {
	nominal                 string
	outer, leastWall, boreI float64 // in
}{
	{"3/8", 0.500, 0.070, 0.350},
	{"1/2", 0.625, 0.070, 0.475},
	{"5/8", 0.750, 0.083, 0.574},
	{"3/4", 0.875, 0.097, 0.671},
	{"1", 1.125, 0.125, 0.863},
}

// metricTubes are outer diameter and wall in mm, the thinner wall in use of each size. Source: EN ISO 15875-2 and floor-heating sizes; 17, 20 and 25 mm
// recalled with high confidence, 12, 16 and 32 mm with medium confidence.
var metricTubes = [...]struct {
	nominal     string
	outer, wall float64 // mm
}{
	{"12", 12, 1.3}, {"16", 16, 1.8}, {"17", 17, 2.0}, {"20", 20, 1.9}, {"25", 25, 2.3}, {"32", 32, 2.9},
}

// Inch returns the tube of a nominal size in inches, as "3/4"; false where there is none.
func Inch(nominal string) (Tube, bool) {
	in := units.Thickness.In(units.IP)
	for _, t := range inchTubes {
		if t.nominal == nominal {
			return Tube{Nominal: nominal, OuterM: in.ToBase(t.outer), LeastWallM: in.ToBase(t.leastWall), WallM: in.ToBase((t.outer - t.boreI) / 2)}, true
		}
	}
	return Tube{}, false
}

// Metric returns the tube of an outer diameter in mm; false where there is none.
func Metric(outerMM float64) (Tube, bool) {
	mm := units.Thickness.In(units.SI)
	for _, t := range metricTubes {
		if t.outer == outerMM {
			return Tube{Nominal: t.nominal, OuterM: mm.ToBase(t.outer), LeastWallM: mm.ToBase(t.wall), WallM: mm.ToBase(t.wall)}, true
		}
	}
	return Tube{}, false
}

// spacings are the distances between pipes that are tried, from the widest [m]. Source: common practice, 150 to 300 mm usual.
var spacings = [...]float64{0.225, 0.200, 0.150, 0.100}

// Spacings returns the spacings that a design tries in m, from the widest, without those below three outer diameters.
func Spacings(outerM float64) []float64 {
	var fit []float64
	for _, s := range spacings {
		if s >= spacingDiameters*outerM {
			fit = append(fit, s)
		}
	}
	return fit
}

// spacingDiameters is the least spacing in outer diameters. Source: model mechanical code, read.
const spacingDiameters = 3

// longest are the longest loops with their leaders by inside diameter, both in m. Source: model mechanical code, 140, 250, 325 and 475 ft, read for nominal
// 1/2, 5/8, 3/4 and 1 in and taken here for bores of 12, 16, 20 and 25 mm, which is on the safe side for tubes by inches.
var longest = [...]struct{ boreM, lengthM float64 }{{0.012, 43}, {0.016, 76}, {0.020, 99}, {0.025, 145}}

// sameHead is the power of the bore with which the length of a loop grows at one head and one flux: flow grows with length, head ~ L · L^1.75 / d^4.75
// (Blasius).
const sameHead = 4.75 / 2.75

// LongestLoop returns the greatest length of a loop with its leaders in m.
//
//	between the rows: linear in the bore; below 12 mm: 43 m (d / 12 mm)^1.73; above 25 mm: 145 m
//
//	boreM  inside diameter [m]  0.005 … 0.030
//
// Source: model mechanical code by size; below its least bore the length of the same head (Blasius).
func LongestLoop(boreM float64) float64 {
	first := longest[0]
	if boreM <= first.boreM {
		return first.lengthM * math.Pow(boreM/first.boreM, sameHead)
	}
	for i, to := range longest[1:] {
		if from := longest[i]; boreM <= to.boreM {
			return from.lengthM + (to.lengthM-from.lengthM)*(boreM-from.boreM)/(to.boreM-from.boreM)
		}
	}
	return longest[len(longest)-1].lengthM
}
