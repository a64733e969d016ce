// Package facts is the decision table: rows of conditions on named facts, blank meaning any. There is no expression language.
package facts

import "slices"

// Set is what is known of a zone: a word for each named fact. A fact that is not told has the word "unknown".
type Set map[string]string

// Unknown is the word of a fact that was not told.
const Unknown = "unknown"

// Word returns the word of a fact, Unknown when the set does not have it.
func (s Set) Word(fact string) string {
	if word, told := s[fact]; told {
		return word
	}
	return Unknown
}

// Table is a decision table: rows in order, each with the facts it asks for and what it says.
type Table struct {
	Name    string
	Line    int      // of the heading row
	Facts   []string // names of the condition columns, in order
	Effects []string // names of the effect columns, in order
	Rows    []Row
}

// Row says Effects when every condition holds. Conditions maps a fact to the words it accepts; a blank cell is in neither map.
type Row struct {
	Line       int // of the file
	Conditions map[string][]string
	Effects    map[string]string
}

// Code is the effect column that names the sentence of a row.
const Code = "code"

// Holds says whether every condition of the row accepts what is known.
func (r Row) Holds(s Set) bool {
	for fact, words := range r.Conditions {
		if !slices.Contains(words, s.Word(fact)) {
			return false
		}
	}
	return true
}

// Asks returns the names of the facts that the row asks for, sorted.
func (r Row) Asks() []string {
	names := make([]string, 0, len(r.Conditions))
	for fact := range r.Conditions {
		names = append(names, fact)
	}
	slices.Sort(names)
	return names
}

// Match returns every row that holds, in order.
func (t Table) Match(s Set) []Row {
	var rows []Row
	for _, r := range t.Rows {
		if r.Holds(s) {
			rows = append(rows, r)
		}
	}
	return rows
}

// First returns the first row that holds.
func (t Table) First(s Set) (Row, bool) {
	for _, r := range t.Rows {
		if r.Holds(s) {
			return r, true
		}
	}
	return Row{}, false
}

// Codes returns the code of every row that holds, in order and each once.
func (t Table) Codes(s Set) []string {
	var codes []string
	for _, r := range t.Rows {
		if code := r.Effects[Code]; code != "" && r.Holds(s) && !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}
