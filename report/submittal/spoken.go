package submittal

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/sensing"
)

// spoken is a line of a list with this site's values, and the zones it is for.
type spoken struct {
	rank  int // in the order of the file
	texts []string
	zones []calc.Outcome
}

// spoken returns the lines of a list over all zones in the order of its file; what is said of several zones in the same words stands once.
func (s sheet) spoken(table string, of func(calc.Operation) []sensing.Line) []spoken {
	var out []spoken
	at := map[string]int{}
	for _, o := range s.Site.Outcomes {
		if o.Operation == nil {
			continue
		}
		for _, l := range of(*o.Operation) {
			texts := s.Words.Line(table, l.Code, l.Args...)
			key := strings.Join(texts, "\t")
			i, found := at[key]
			if !found {
				i = len(out)
				at[key] = i
				out = append(out, spoken{rank: slices.Index(s.Words.Codes(table), l.Code), texts: texts})
			}
			out[i].zones = append(out[i].zones, o)
		}
	}
	slices.SortStableFunc(out, func(a, b spoken) int { return a.rank - b.rank })
	return out
}
