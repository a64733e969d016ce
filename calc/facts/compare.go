package facts

import (
	"errors"
	"fmt"
	"slices"
)

// Vocabulary lists the facts there are and the words each can have.
type Vocabulary map[string][]string

// Check returns an error for every fact or word of a table that the vocabulary does not have, naming the table and the line.
func (v Vocabulary) Check(t Table) error {
	var errs []error
	for _, fact := range t.Facts {
		if _, found := v[fact]; !found {
			errs = append(errs, fmt.Errorf("%s: line %d: there is no fact %q", t.Name, t.Line, fact))
		}
	}
	for _, r := range t.Rows {
		for _, fact := range t.Facts {
			words, known := v[fact]
			for _, word := range r.Conditions[fact] {
				if known && !slices.Contains(words, word) {
					errs = append(errs, fmt.Errorf("%s: line %d: %q is no word of the fact %q", t.Name, r.Line, word, fact))
				}
			}
		}
	}
	return errors.Join(errs...)
}

// Check returns an error for every row of a list without a code, and for every row that is never heard because an earlier one with the same code
// holds whenever it does, naming the table and the line.
func (t Table) Check() error {
	var errs []error
	for _, r := range t.Rows {
		if r.Effects[Code] == "" {
			errs = append(errs, fmt.Errorf("%s: line %d: no code", t.Name, r.Line))
		}
	}
	for _, p := range t.Dead(Code) {
		errs = append(errs, fmt.Errorf("%s: line %d: never heard: line %d says %q whenever it would", t.Name, p.Later.Line, p.Earlier.Line, p.Later.Effects[Code]))
	}
	return errors.Join(errs...)
}

// Pair is two rows of a table.
type Pair struct{ Earlier, Later Row }

// Meets says whether one situation can hold for both rows: no condition of one excludes the other.
func (r Row) Meets(o Row) bool {
	for fact, words := range r.Conditions {
		others, asked := o.Conditions[fact]
		if asked && !slices.ContainsFunc(words, func(w string) bool { return slices.Contains(others, w) }) {
			return false
		}
	}
	return true
}

// Contains says whether every situation of o is one of r too.
func (r Row) Contains(o Row) bool {
	for fact, words := range r.Conditions {
		others, asked := o.Conditions[fact]
		if !asked || slices.ContainsFunc(others, func(w string) bool { return !slices.Contains(words, w) }) {
			return false
		}
	}
	return true
}

// Overlaps returns the pairs of rows that can hold together, speak about the same subject and say different things about it.
// subject and says name effect columns; a blank subject means that all rows speak about one thing.
func (t Table) Overlaps(subject, says string) []Pair {
	return t.pairs(func(a, b Row) bool {
		return a.Effects[subject] == b.Effects[subject] && a.Effects[says] != b.Effects[says] && a.Meets(b)
	})
}

// Dead returns the rows that never decide, each as the later of a pair: an earlier row about the same subject contains it.
func (t Table) Dead(subject string) []Pair {
	return t.pairs(func(a, b Row) bool { return a.Effects[subject] == b.Effects[subject] && a.Contains(b) })
}

func (t Table) pairs(match func(earlier, later Row) bool) []Pair {
	var out []Pair
	for i, later := range t.Rows {
		for _, earlier := range t.Rows[:i] {
			if match(earlier, later) {
				out = append(out, Pair{earlier, later})
			}
		}
	}
	return out
}
