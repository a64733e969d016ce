// Package report is the output side: it takes outcomes and writes them down. It never computes engineering.
package report

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/report/words"
)

// View is what a document is made from.
type View struct {
	Settings calc.Settings
	Site     calc.SiteOutcome
	Words    *words.Words
	Tables   Tables
	Program  string // "thawbook 0.1.0"
	Headings Headings
	Logo     Logo
	Attached []Attached
}

// Tables are the decision tables that documents ask: which cautions, topics and checklist lines fit a zone.
type Tables struct {
	Cautions, Topics, Checklist facts.Table
}

// Headings are the headings of the input sheets, by the field that their column fills.
type Headings map[finding.Field]string

// Of returns the heading that people know a field by; where there is none, the field's key as words.
func (h Headings) Of(f finding.Field) string {
	if heading := h[f]; heading != "" {
		return heading
	}
	text := strings.NewReplacer("_", " ", "-", " ").Replace(string(f))
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
