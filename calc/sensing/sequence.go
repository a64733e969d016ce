package sensing

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
)

// effectState is the effect column of a sequence that names the state of a line.
const effectState = "state"

// States of a zone and what can interrupt them, in the order of a sequence. Heat is on while heating up, melting, drying, idling and run by hand;
// start and stop are changes of state with a cause.
var States = [...]string{"off season", "ready", "idling", "heating up", "melting", "drying", "run by hand", "warm-weather shut-off", "low-ambient lockout", "high limit",
	"freeze protection", "sensor fault", "power return"}

// Line is a line of a sequence, a list of tests or of care: a code whose sentence stands in templates, with this zone's values.
type Line struct {
	State string // of a sequence; "" elsewhere
	Code  string
	Args  []finding.Arg
	Facts []string // it rests on
}

// Lines returns the lines of a table that hold, in order, each with all values: a sentence takes those it names.
func Lines(t facts.Table, s facts.Set, values []finding.Arg) []Line {
	var out []Line
	for _, r := range t.Match(s) {
		out = append(out, Line{State: r.Effects[effectState], Code: r.Effects[facts.Code], Args: values, Facts: r.Asks()})
	}
	return out
}

// CheckSequence returns an error for every row of a sequence whose state is not known or not in order, or that is never heard, naming the table and
// the line.
func CheckSequence(sequence facts.Table) error {
	var errs []error
	last := 0
	for _, r := range sequence.Rows {
		at := slices.Index(States[:], r.Effects[effectState])
		switch {
		case at < 0:
			errs = append(errs, fmt.Errorf("%s: line %d: %q is none of the states %s", sequence.Name, r.Line, r.Effects[effectState], strings.Join(States[:], ", ")))
		case at < last:
			errs = append(errs, fmt.Errorf("%s: line %d: %q stands behind %q", sequence.Name, r.Line, States[at], States[last]))
		}
		last = max(last, at)
	}
	return errors.Join(append(errs, sequence.Check())...)
}
