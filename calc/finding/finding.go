// Package finding says what is wrong, where, and what it was about. A finding is a value: its words stand in templates, by its code.
package finding

import (
	"cmp"
	"slices"

	"thawbook/calc/units"
)

// Code names a kind of finding. It is stable: it is never reworded and never used again for something else.
type Code string

// Field names a column of an input sheet or a line of Settings, whatever its heading. It is stable.
type Field string

// Severity says how much a finding weighs.
type Severity uint8

// The severities, from the heaviest.
const (
	Error    Severity = iota // the zone, or the cell, yields no number
	Warning                  // the number stands, look at it
	Info                     // something was taken, repaired or left alone
	Accepted                 // a warning that a person accepted with a reason
)

// String returns the word used in results.json.
func (s Severity) String() string { return [...]string{"error", "warning", "info", "accepted"}[s] }

// Cell is a place in a workbook. Sheet is empty when a finding has no cell.
type Cell struct {
	Sheet string
	Ref   string // "C7"; empty for a whole sheet
	Row   int    // for sorting
	Col   int
}

// Arg fills one {name} in a finding's sentence: a text as typed, or a number that is shown in the reader's units.
type Arg struct {
	Name     string
	Text     string
	Number   float64
	Quantity units.Quantity     // Text: use Text; else use Number
	Minor    units.Maybe[int64] // an amount of money in minor units of the workbook's currency; then neither
	Typed    bool               // the number is told back to who typed it: with the digits that it needs, whatever those of its quantity
}

// Words returns an Arg that is a text.
func Words(name, text string) Arg { return Arg{Name: name, Text: text} }

// Value returns an Arg that is a number of a quantity, in its base unit.
func Value(name string, v float64, q units.Quantity) Arg {
	return Arg{Name: name, Number: v, Quantity: q}
}

// Typed returns an Arg that is a number as it was read from a cell, or a limit of it, in its base unit.
func Typed(name string, v float64, q units.Quantity) Arg {
	return Arg{Name: name, Number: v, Quantity: q, Typed: true}
}

// Amount returns an Arg that is an amount of money, in minor units of the workbook's currency.
func Amount(name string, minor int64) Arg { return Arg{Name: name, Minor: units.Some(minor)} }

// Finding is one thing to tell the user. Rooms fill Code, Severity, Field and Args; the engine adds Site and Zone; the book that was read adds At.
type Finding struct {
	Code       Code
	Severity   Severity
	Site, Zone string
	Field      Field
	At         Cell
	Args       []Arg
	Count      int    // zones that this one cell touches; 0 and 1 both mean one
	Mark       string // of a warning that may be accepted: tells the inputs that it rests on
	Because    Reason // of one that was
}

// Reason is why a person accepted a warning.
type Reason struct{ Reason, By, Date string }

// New returns a finding of a room.
func New(s Severity, code Code, field Field, args ...Arg) Finding {
	return Finding{Code: code, Severity: s, Field: field, Args: args}
}

// Check is a number that stands outside the usual, with the limit it is outside of. What it was found in stands all the same.
type Check struct {
	Code         Code
	Severity     Severity
	Zone         string // where a check of several zones is about one
	Field        Field
	Found, Limit float64
	Quantity     units.Quantity
}

// Finding returns the check as a finding, its numbers under the names found and limit.
func (c Check) Finding() Finding {
	f := New(c.Severity, c.Code, c.Field, Value("found", c.Found, c.Quantity), Value("limit", c.Limit, c.Quantity))
	f.Zone = c.Zone
	return f
}

// Checks are what a room found outside the usual, in the order found.
type Checks []Check

// Findings returns them as findings.
func (l Checks) Findings() []Finding {
	var list []Finding
	for _, c := range l {
		list = append(list, c.Finding())
	}
	return list
}

// Compare orders findings: heaviest first, then by sheet, row, column, code, site, zone.
func Compare(a, b Finding) int {
	return cmp.Or(cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.At.Sheet, b.At.Sheet), cmp.Compare(a.At.Row, b.At.Row),
		cmp.Compare(a.At.Col, b.At.Col), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Site, b.Site), cmp.Compare(a.Zone, b.Zone))
}

// Sort puts findings in the order of Compare.
func Sort(list []Finding) { slices.SortStableFunc(list, Compare) }

// Worst returns the heaviest severity in a list, and Accepted for an empty one.
func Worst(list []Finding) Severity {
	worst := Accepted
	for _, f := range list {
		worst = min(worst, f.Severity)
	}
	return worst
}
