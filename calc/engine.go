package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/trace"
	"thawbook/calc/weather"
)

// Inputs is everything that is not a site: what was read once and is shared by all.
type Inputs struct {
	Settings  Settings
	Climate   Climate
	Energies  []cost.Energy
	Parts     []sensing.Part
	UnitCosts []cost.UnitCost
	Rules     facts.Table // sensing
}

// Climate is the stations a zone can name.
type Climate struct {
	Stations []weather.Station // of the workbook: rows of Climate, and weather files named in Sites under their Place.WeatherFiles text
	BuiltIn  []weather.Statistics
}

// Engine calculates sites. It is safe for several goroutines: what it shares is read only or memoised.
type Engine struct {
	in Inputs
}

// NewEngine returns an engine for these inputs.
func NewEngine(in Inputs) *Engine { return &Engine{in: in} }

// Site calculates every zone of a site. A zone that fails or panics is its own Outcome.Err.
func (e *Engine) Site(s Site) SiteOutcome { return SiteOutcome{Site: s} }

// Check judges a site by the rules across fields and calculates nothing. Site runs the same rules.
func (e *Engine) Check(s Site) []finding.Finding { return nil }

// Steps tells how the numbers of an outcome came about, read from its fields.
func (o Outcome) Steps() []trace.Step { return nil }
