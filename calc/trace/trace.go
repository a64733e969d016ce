// Package trace tells how a number came about.
package trace

import "thawbook/calc/units"

// Step is one number of a result, with the equation and the source it comes from and the symbols it rests on.
// Steps are read from the fields of a result; nothing is recorded while it is calculated.
type Step struct {
	Group    string // the part of the calculation: "weather", "load", "slab", "reset", "season", "cost"; empty continues the one before
	Symbol   string // "q_m"
	Name     string // "melting flux"
	Value    float64
	Quantity units.Quantity
	Text     string   // in place of Value where the result is a word
	Equation string   // "q_m = ρ_w s h_if"; empty for an input
	Source   string   // where the equation or the input comes from
	From     []string // symbols of earlier steps
}
