// Package columns holds the tables of what a workbook may say: a file for each sheet, an entry for each column. The reader, the starter
// workbook, its drop-downs and the reference page are loops over these tables. It is data: it reads nothing and judges nothing.
package columns

import (
	"maps"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Column is one column of an input sheet, or one line of Settings, whose values land in a T.
type Column[T any] struct {
	Field         finding.Field // its name in findings and in results.json; it never changes and is unique over all sheets
	Sheet         string
	Group         string // columns of one group stand together
	Heading       string
	Aliases       []string // further headings, an old one among them when a heading is renamed
	Quantity      units.Quantity
	Min, Max      float64 // in the base unit, both allowed; equal: any number
	Choices       []string
	Synonyms      map[string]string // further words for a choice, folded like headings
	Default       string            // as a person would type it, with its unit; blank: none, or settled by what other cells say
	DefaultIP     string            // in an I-P workbook, where the usual size is another one
	DefaultSource string            // code of the reason; blank: the blank's plain meaning, which is not listed as assumed
	OnlyFor       string            // the kind of heat that the column is about; blank: both
	Required      bool
	Money         bool    // an amount in a currency
	PercentAbove  float64 // a bare number above it is percent; 0: a bare number is never percent
	RangeCode     finding.Code
	Bookkeeping   bool   // nothing is calculated from it: what can't be read in it is told and left out, and its row counts all the same
	Directions    string // of an angle: the letters of its positive and its negative side
	Help          string
	At            func(*T) any // pointer to its place in T, read and written
}

// Ranged says whether the column has a range.
func (c Column[T]) Ranged() bool { return c.Min != c.Max }

// The sheets that are read.
const (
	SheetSites    = "Sites"
	SheetClimate  = "Climate"
	SheetEnergy   = "Energy"
	SheetParts    = "Parts"
	SheetCosts    = "Costs"
	SheetSettings = "Settings"
)

// CodeSnowfallHigh says that a snowfall rate is too high for a water equivalent.
const CodeSnowfallHigh finding.Code = "snowfall-depth-or-water"

// Most stands where only the lower end of a range means something.
const Most = 1e9

// Words for yes and no that people use, folded.
var noYesWords = map[string]string{"y": "yes", "true": "yes", "1": "yes", "x": "yes", "n": "no", "false": "no", "0": "no", "none": "no"}

// answerWords are those, and words for not known.
var answerWords = func() map[string]string {
	m := maps.Clone(noYesWords)
	for _, w := range []string{"dontknow", "notknown", "notsure", "maybe", "tbd", "na"} {
		m[w] = "unknown"
	}
	return m
}()

var (
	answers = []string{"yes", "no", "unknown"}
	noYes   = []string{"no", "yes"} // the places of false and true
)

// NumberList is a text that holds numbers of one quantity, separated by ";", in the base unit.
type NumberList string

// ChoiceList is a text that holds several choices, separated by ";".
type ChoiceList string

// Month is a month of the year, 1 to 12; 0 is not told.
type Month int8

// Date is a day written as 2026-01-31, or the words that stood in its place.
type Date string

// Pattern is a file name that is made of words and Placeholders.
type Pattern string

// Placeholders returns what is filled in in a Pattern.
func Placeholders() []string { return []string{"{project}", "{site}", "{name}", "{revision}"} }

// Amount is a price with whether it is known.
type Amount struct {
	Value *float64
	Known *bool
}

// sheetOf names the sheet in each of its columns.
func sheetOf[T any](sheet string, list []Column[T]) []Column[T] {
	for i := range list {
		list[i].Sheet = sheet
	}
	return list
}
