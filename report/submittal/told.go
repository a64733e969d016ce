package submittal

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/report"
)

// told is what findings of the same words say, and of which zones and cells.
type told struct {
	severity finding.Severity
	decide   bool // a person must decide it
	zones    []string
	cells    []string
	what, do string
}

// findings returns what there is to tell of the site, heaviest first. What is said of several zones in the same words stands once.
func (s sheet) findings() []told {
	var out []told
	at := map[[2]string]int{}
	for _, f := range s.merged() {
		what, do := s.Words.Finding(f)
		if f.Severity == finding.Accepted {
			do = s.accepted(f.Because)
		}
		i, found := at[[2]string{what, do}]
		if !found {
			i = len(out)
			at[[2]string{what, do}] = i
			out = append(out, told{severity: f.Severity, decide: decisive(f), what: sentence(what), do: sentence(do)})
		}
		t := &out[i]
		if f.Zone != "" && !slices.Contains(t.zones, f.Zone) {
			t.zones = append(t.zones, f.Zone)
		}
		if cell := strings.TrimSpace(f.At.Sheet + " " + f.At.Ref); cell != "" && !slices.Contains(t.cells, cell) {
			t.cells = append(t.cells, cell)
		}
	}
	return out
}

// accepted says why a warning was taken as it is, by whom and when.
func (s sheet) accepted(b finding.Reason) string {
	if who := strings.Trim(b.By+", "+b.Date, ", "); who != "" {
		return s.say("accepted-by", finding.Words("who", who), finding.Words("reason", b.Reason))
	}
	return s.say("accepted-because", finding.Words("reason", b.Reason))
}

// open are the words of information that a person must decide all the same.
var open = []finding.Code{calc.CodeClearingCheaper, calc.CodeTendonsUnknown}

// decisive says whether a person must decide what a finding tells.
func decisive(f finding.Finding) bool {
	return f.Severity <= finding.Warning || f.Severity == finding.Info && slices.Contains(open, f.Code)
}

// merged returns the findings of the site, heaviest first.
func (s sheet) merged() []finding.Finding { return report.Merge(s.Site.Summary.Findings) }

// trouble returns the errors of a zone, in words.
func (s sheet) trouble(o calc.Outcome) []string {
	var out []string
	for _, f := range s.Site.Summary.Findings { // those of reading too
		if f.Severity == finding.Error && f.Zone == o.Zone.Ref.ZoneID {
			what, do := s.Words.Finding(f)
			out = append(out, sentence(what)+" "+sentence(do))
		}
	}
	if len(out) == 0 && o.Err != nil {
		out = []string{sentence(o.Err.Error())}
	}
	if len(out) == 0 {
		out = []string{s.say("no-reason")}
	}
	return out
}
