package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/report"
)

// lacking tells the wanted functions that ways lack, and of which no cost, or not all of it, is known.
func (s sheet) lacking() []core.Row {
	var rows []core.Row
	for _, a := range s.Site.Alternatives {
		if a.Err != nil {
			rows = append(rows, s.bullet(s.say("alternative-failed", finding.Words("alternative", a.Name)))...)
			continue
		}
		if withoutCircuits(a) {
			rows = append(rows, s.bullet(s.say("alternative-no-circuits", finding.Words("alternative", a.Name)))...)
		}
		for _, l := range lostFunctions(a.Lost) {
			rows = append(rows, s.bullet(s.where(a, l.zones)+": "+report.Lacks(s.Words, l.code))...)
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return append(s.part(s.say("alternatives-lack")), rows...)
}

// where names a way, with the zones that are meant where the site has several.
func (s sheet) where(a calc.AlternativeOutcome, zones []string) string {
	if len(s.Site.Outcomes) == 1 {
		return a.Name
	}
	return a.Name + ", " + strings.ToLower(s.zonesTitle(len(zones), strings.Join(zones, ", ")))
}

// lostFunction is a function that is not there, with the zones that want it.
type lostFunction struct {
	code  string
	zones []string
}

// lostFunctions lists each function once, in order of the first.
func lostFunctions(list []calc.Lost) []lostFunction {
	var out []lostFunction
	for _, l := range list {
		i := slices.IndexFunc(out, func(o lostFunction) bool { return o.code == l.Code })
		if i < 0 {
			i, out = len(out), append(out, lostFunction{code: l.Code})
		}
		out[i].zones = append(out[i].zones, l.Zone)
	}
	return out
}

// withoutCircuits says whether cable is laid whose circuits could not be laid out.
func withoutCircuits(a calc.AlternativeOutcome) bool {
	return slices.ContainsFunc(a.Zones, func(z calc.AlternativeZone) bool {
		e := z.Outcome.Electric
		return e != nil && !z.ClearingNow && !e.Circuits.Known
	})
}
