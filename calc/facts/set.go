// Package facts is the decision table: rows of conditions on named facts, blank meaning any. There is no expression language.
package facts

// Set is what is known of a zone: a word for each named fact. A fact that is not told has the word "unknown".
type Set map[string]string

// Unknown is the word of a fact that was not told.
const Unknown = "unknown"
