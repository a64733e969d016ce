package sensing

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Effect columns of the screen besides facts.Code.
const (
	effectAsked  = "asked"  // what an energy code asks; every question is one for itself
	effectAnswer = "answer" // Meets, DoesNot, AskAuthority
)

// Answers of the screen. It certifies nothing: the authority having jurisdiction decides.
const (
	Meets        = "meets"
	DoesNot      = "does not"
	AskAuthority = "ask the authority"
)

// Asked by energy codes.
const (
	AskedPavement = "shut-off by pavement temperature without precipitation"
	AskedOutdoor  = "shut-off by outdoor temperature"
	AskedMoisture = "precipitation or moisture input"
	askedQuestion = "question"
)

var asked = [...]string{AskedPavement, AskedOutdoor, AskedMoisture}

// Temperatures of the screen. Source: model energy codes, one state's text read, the rest from memory: say so and defer.
const (
	ScreenPavementC = 10.0 // °C (50 °F)
	ScreenOutdoorC  = 4.4  // °C (40 °F)
)

// Screened is one line of the energy-code screen: what is asked, whether the chosen set can do it, and why. Questions stand behind.
type Screened struct {
	Asked  string // AskedPavement, AskedOutdoor, AskedMoisture; "" for a question of the region
	Answer string
	Why    Reason
}

// Answer answers what is asked by the first row that holds, and adds the questions whose rows hold; once more with what is known of the set points
// when they stand. more are values that sentences name besides those of the codes and the kit.
func (c *Choice) Answer(table facts.Table, s facts.Set, more ...finding.Arg) {
	c.Screen = nil
	args := append([]finding.Arg{finding.Value("pavement", ScreenPavementC, units.Temperature), finding.Value("outdoor", ScreenOutdoorC, units.Temperature),
		finding.Words("controller", c.Controller), finding.Words("kit", c.KitName())}, more...)
	rows := table.Match(s)
	for _, a := range asked {
		if i := slices.IndexFunc(rows, func(r facts.Row) bool { return r.Effects[effectAsked] == a }); i >= 0 {
			c.Screen = append(c.Screen, Screened{Asked: a, Answer: rows[i].Effects[effectAnswer], Why: reasonOf(rows[i], args...)})
		}
	}
	for _, r := range rows {
		if r.Effects[effectAsked] == askedQuestion {
			c.Screen = append(c.Screen, Screened{Answer: AskAuthority, Why: reasonOf(r, args...)})
		}
	}
}

// CheckScreen returns an error for every row of a screen that is not understood or never decides, and for everything asked that has no last row
// for all other sets, naming the table and the line.
func CheckScreen(screen facts.Table) error {
	var errs []error
	fail := func(r facts.Row, format string, args ...any) {
		errs = append(errs, fmt.Errorf("%s: line %d: %s", screen.Name, r.Line, fmt.Sprintf(format, args...)))
	}
	decided := facts.Table{Name: screen.Name}
	for _, r := range screen.Rows {
		what, says := r.Effects[effectAsked], r.Effects[effectAnswer]
		if what == askedQuestion {
			continue
		}
		if !slices.Contains(asked[:], what) {
			fail(r, "%q is none of %s, %s", what, strings.Join(asked[:], ", "), askedQuestion)
		}
		if says != Meets && says != DoesNot && says != AskAuthority {
			fail(r, "%q is none of the answers %s, %s, %s", says, Meets, DoesNot, AskAuthority)
		}
		decided.Rows = append(decided.Rows, r)
	}
	for _, p := range decided.Dead(effectAsked) {
		fail(p.Later, "never decides: line %d holds whenever it does", p.Earlier.Line)
	}
	for _, a := range asked {
		if !slices.ContainsFunc(decided.Rows, func(r facts.Row) bool { return r.Effects[effectAsked] == a && len(r.Conditions) == 0 }) {
			errs = append(errs, fmt.Errorf("%s: %q has no row that answers it for every set", screen.Name, a))
		}
	}
	return errors.Join(append(errs, screen.Check())...)
}
