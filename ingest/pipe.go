package ingest

import (
	"regexp"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/piping"
	"thawbook/calc/units"
)

var (
	byWall   = regexp.MustCompile(`^(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*[x×X*]\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?$`)
	byOuter  = regexp.MustCompile(`^(\d+(?:[.,]0*)?)\s*(mm)?$`)
	byInches = regexp.MustCompile(`^(\d(?:/\d)?)\s*(?:in\.?|inch|inches|"|″|”|'')?$`)
)

// pipe reads a pipe size: outer diameter by wall in mm, taken as written; an outer diameter in mm; or a nominal size in inches.
func (r reading) pipe(text string) (calc.Pipe, bool) {
	t := strings.ReplaceAll(clean(text), "\u00a0", " ")
	mm := units.Thickness.In(units.SI)
	if g := byWall.FindStringSubmatch(t); g != nil {
		outer, wall := plain(g[1]), plain(g[2])
		return calc.Pipe{Typed: t, OuterM: mm.ToBase(outer), WallM: mm.ToBase(wall)}, wall > 0 && wall < outer/2
	}
	fraction := strings.Contains(t, "/")
	if g := byInches.FindStringSubmatch(t); g != nil && (fraction || len(g[1]) < len(t) || r.system == units.IP) {
		tube, found := piping.Inch(g[1])
		return calc.Pipe{Typed: t, OuterM: tube.OuterM, WallM: tube.WallM}, found
	}
	if g := byOuter.FindStringSubmatch(t); g != nil {
		tube, found := piping.Metric(plain(g[1]))
		return calc.Pipe{Typed: t, OuterM: tube.OuterM, WallM: tube.WallM}, found
	}
	return calc.Pipe{}, false
}

// plain reads digits with either decimal mark.
func plain(text string) float64 {
	v, _ := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64) // the patterns above let nothing else through
	return v
}
