package sensing

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
)

// Effect columns of the rules besides facts.Code.
const (
	effectKit    = "kit"       // the subject: devices joined by " + ", a function, or blank for every kit
	effectSays   = "effect"    // what the row does to the subject
	effectLack   = "lack"      // code of what is lacking when the chosen kit does not have the subject
	effectWins   = "wins over" // codes of later rows that say the contrary of the subject in the same situation
	effectField  = "field"     // the column of Sites that a warning is about
	strengths    = 4           // effects that rank kits
	effectReject = "reject"
)

// effects in the order of their strength. The first four rank kits.
var effects = [...]string{effectReject, "require", "avoid", "prefer", "note", "warn", "offer"}

// weight puts rejecting rows before all others and leaves the rest in the order of the table.
func weight(r facts.Row) int {
	if r.Effects[effectSays] == effectReject {
		return 0
	}
	return 1
}

func ranks(r facts.Row) bool { return slices.Contains(effects[:strengths], r.Effects[effectSays]) }

// favours says whether a ranking row speaks for its subject.
func favours(r facts.Row) bool {
	return r.Effects[effectSays] == "require" || r.Effects[effectSays] == "prefer"
}

// explain turns the rows that hold into reasons, what is lacking, offers and warnings about the chosen kit.
func (c *Choice) explain(rows []facts.Row, kit candidate) {
	for _, r := range rows {
		code, met := r.Effects[facts.Code], kit.meets(r.Effects[effectKit])
		switch says := r.Effects[effectSays]; {
		case ranks(r):
			if c.decided(code) {
				c.Reasons = append(c.Reasons, Reason{Code: code, Facts: r.Asks()})
			}
			if favours(r) && !met {
				c.Lacking = addOnce(c.Lacking, r.Effects[effectLack])
			}
		case says == "note" && met:
			c.Reasons = append(c.Reasons, Reason{Code: code, Facts: r.Asks()})
		case says == "warn" && met:
			c.Findings = append(c.Findings, finding.New(finding.Warning, finding.Code(code), finding.Field(r.Effects[effectField])))
		case says == "offer" && !met:
			c.Offers = addOnce(c.Offers, code)
			c.offered = append(c.offered, offered{code, Device(r.Effects[effectKit])})
		}
	}
}

// decided says whether a code put a kit out and is not among the reasons yet.
func (c *Choice) decided(code string) bool {
	return slices.ContainsFunc(c.Rejected, func(r Rejected) bool { return r.Code == code }) &&
		!slices.ContainsFunc(c.Reasons, func(r Reason) bool { return r.Code == code })
}

func addOnce(list []string, word string) []string {
	if word == "" || slices.Contains(list, word) {
		return list
	}
	return append(list, word)
}

// Check judges a table of rules before work starts: that Choose understands every row, that none is dead, and that of two rows which say the
// contrary of one subject in one situation the earlier names the later as the one it wins over. All errors are reported together.
func Check(rules facts.Table) error {
	var errs []error
	fail := func(r facts.Row, format string, args ...any) {
		errs = append(errs, fmt.Errorf("%s: line %d: %s", rules.Name, r.Line, fmt.Sprintf(format, args...)))
	}
	ranking := facts.Table{Name: rules.Name}
	for _, r := range rules.Rows {
		if why := misread(r); why != "" {
			fail(r, "%s", why)
		}
		if ranks(r) {
			ranking.Rows = append(ranking.Rows, r)
		}
	}
	for _, p := range ranking.Dead(effectKit) {
		fail(p.Later, "never decides: line %d holds whenever it does", p.Earlier.Line)
	}
	for _, p := range Contraries(ranking) {
		if !slices.Contains(facts.Split(p.Earlier.Effects[effectWins]), p.Later.Effects[facts.Code]) {
			fail(p.Earlier, "%q and %q (line %d) say the contrary: name the later under %q", p.Earlier.Effects[facts.Code], p.Later.Effects[facts.Code], p.Later.Line, effectWins)
		}
	}
	return errors.Join(errs...)
}

// misread returns what Choose would not understand in a row.
func misread(r facts.Row) string {
	says, kit := r.Effects[effectSays], r.Effects[effectKit]
	switch {
	case !slices.Contains(effects[:], says):
		return fmt.Sprintf("%q is none of the effects %s", says, strings.Join(effects[:], ", "))
	case r.Effects[facts.Code] == "":
		return "no code"
	case ranks(r) && kit == "":
		return "no kit, device or function to " + says
	}
	switch kit {
	case "", subjectDetectorStart, subjectDryStop, subjectSlabLimits:
		return ""
	}
	for d := range strings.SplitSeq(kit, plus) {
		if !slices.Contains(devices[:], Device(d)) {
			return fmt.Sprintf("%q is no device or function", d)
		}
	}
	return ""
}

// Contraries returns the pairs of ranking rows that can hold together and of which one speaks for and the other against one subject, or for
// a kit and against a device of it.
func Contraries(rules facts.Table) []facts.Pair {
	var out []facts.Pair
	for i, later := range rules.Rows {
		for _, earlier := range rules.Rows[:i] {
			if ranks(earlier) && ranks(later) && favours(earlier) != favours(later) && earlier.Meets(later) && collide(earlier, later) {
				out = append(out, facts.Pair{Earlier: earlier, Later: later})
			}
		}
	}
	return out
}

// collide says whether what one row asks for holds what the other speaks against.
func collide(a, b facts.Row) bool {
	wanted, unwanted := a.Effects[effectKit], b.Effects[effectKit]
	if favours(b) {
		wanted, unwanted = unwanted, wanted
	}
	return wanted == unwanted || slices.Contains(strings.Split(wanted, plus), unwanted)
}
