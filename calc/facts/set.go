// Package facts is the decision table: rows of conditions on named facts, blank meaning any. There is no expression language.
package facts

// Set is what is known of a zone: a word for each named fact. A fact that is not told has the word "unknown".
type Set map[string]string

// Unknown is the word of a fact that was not told.
const Unknown = "unknown"

// Table is a decision table: rows in order, each with the facts it asks for and what it says.
type Table struct {
	Name string
	Rows []Row
}

// Row says Effects when every condition holds. Conditions maps a fact to the words it accepts.
type Row struct {
	Line       int // of the file
	Conditions map[string][]string
	Effects    map[string]string
}
