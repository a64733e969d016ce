package ingest

import (
	"regexp"
	"strings"

	"thawbook/calc/finding"
)

// angle is a letter, degrees, minutes, seconds and a letter; all but the degrees may be left out.
var angle = regexp.MustCompile(`^(?i:([NSEW])\s*)?([-+]?[0-9]+(?:[.,][0-9]+)?)\s*(?:°|º|(?i:degrees|deg)\.?)?\s*` +
	`(?:([0-9]+(?:[.,][0-9]+)?)\s*(?:'|′|’|(?i:min)\.?)\s*)?(?:([0-9]+(?:[.,][0-9]+)?)\s*(?:"|″|”|\'\'|′′|(?i:sec)\.?)\s*)?(?i:([NSEW])\.?)?$`)

// angle reads degrees of latitude or longitude: -71.06, 71.06 W, 71°3'36"W. The letter of the other axis is no number of this column.
func (r reading) angle(t string, m measure) (figure, finding.Code) {
	g := angle.FindStringSubmatch(t)
	if g == nil || g[1] != "" && g[5] != "" {
		return figure{}, CodeNotNumber
	}
	letter := strings.ToUpper(g[1] + g[5])
	degrees, how := decimal(g[2], r.comma)
	minutes, sure := r.sixtieths(g[3])
	seconds, sure2 := r.sixtieths(g[4])
	divided := g[3] != "" || g[4] != ""
	if how == notDecimal || !sure || !sure2 || divided && strings.ContainsAny(g[2], ".,") || letter != "" && !strings.Contains(m.directions, letter) {
		return figure{}, CodeNotNumber
	}
	part := minutes/60 + seconds/3600
	negative := strings.HasPrefix(g[2], "-")
	v := degrees + part
	if negative {
		v = degrees - part
	}
	switch {
	case letter == m.directions[1:] && !negative:
		v = -v
	case letter == m.directions[:1] && negative:
		return figure{}, CodeNotNumber // two signs that contradict each other
	}
	return figure{value: v, repaired: letter != "" || divided}, finite(v)
}

// sixtieths reads minutes or seconds; blank is none.
func (r reading) sixtieths(text string) (float64, bool) {
	if text == "" {
		return 0, true
	}
	v, how := decimal(text, r.comma)
	return v, how != notDecimal && v < 60
}
