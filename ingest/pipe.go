package ingest

import (
	"regexp"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/units"
)

// metricWalls is the wall in mm of a pipe given by its outer diameter in mm alone: the thinner wall in use. Source: EN ISO 15875-2 and
// floor-heating sizes; 17, 20 and 25 mm recalled with high confidence, 12, 16 and 32 mm with medium confidence.
var metricWalls = map[float64]float64{12: 1.3, 16: 1.8, 17: 2.0, 20: 1.9, 25: 2.3, 32: 2.9}

// inchPipes is outer diameter and least wall in inches by nominal size. Source: ASTM F876, as reproduced in a public record.
var inchPipes = map[string][2]float64{"3/8": {0.500, 0.070}, "1/2": {0.625, 0.070}, "5/8": {0.750, 0.083}, "3/4": {0.875, 0.097}, "1": {1.125, 0.125}}

var (
	byWall   = regexp.MustCompile(`^(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*[x×X*]\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?$`)
	byOuter  = regexp.MustCompile(`^(\d+(?:[.,]0*)?)\s*(mm)?$`)
	byInches = regexp.MustCompile(`^(\d(?:/\d)?)\s*(?:in\.?|inch|inches|"|″|”|'')?$`)
)

// pipe reads a pipe size: outer diameter by wall in mm, taken as written; an outer diameter in mm; or a nominal size in inches.
func (r reading) pipe(text string) (calc.Pipe, bool) {
	t := strings.ReplaceAll(clean(text), "\u00a0", " ")
	mm, in := units.Thickness.In(units.SI), units.Thickness.In(units.IP)
	if g := byWall.FindStringSubmatch(t); g != nil {
		outer, wall := plain(g[1]), plain(g[2])
		return calc.Pipe{Typed: t, OuterM: mm.ToBase(outer), WallM: mm.ToBase(wall)}, wall > 0 && wall < outer/2
	}
	fraction := strings.Contains(t, "/")
	if g := byInches.FindStringSubmatch(t); g != nil && (fraction || len(g[1]) < len(t) || r.system == units.IP) {
		size, found := inchPipes[g[1]]
		return calc.Pipe{Typed: t, OuterM: in.ToBase(size[0]), WallM: in.ToBase(size[1])}, found
	}
	if g := byOuter.FindStringSubmatch(t); g != nil {
		outer := plain(g[1])
		wall, found := metricWalls[outer]
		return calc.Pipe{Typed: t, OuterM: mm.ToBase(outer), WallM: mm.ToBase(wall)}, found
	}
	return calc.Pipe{}, false
}

// plain reads digits with either decimal mark.
func plain(text string) float64 {
	v, _ := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64) // the patterns above let nothing else through
	return v
}
