// Package report is the output side: it takes outcomes and writes them down. It never computes engineering.
package report

import (
	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/report/words"
)

// View is what a document is made from.
type View struct {
	Settings calc.Settings
	Site     calc.SiteOutcome
	Words    *words.Words
	Tables   Tables
	Program  string // "thawbook 0.1.0"
}

// Tables are the decision tables that documents ask: which cautions, topics and checklist lines fit a zone.
type Tables struct {
	Cautions, Topics, Checklist facts.Table
}
