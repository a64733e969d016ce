package calc

import (
	"fmt"

	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/memo"
	"thawbook/calc/piping"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/weather"
)

// CodeZoneFailed tells of a zone whose calculation stopped with an error or a panic.
const CodeZoneFailed finding.Code = "zone-failed"

// Inputs is everything that is not a site: what was read once and is shared by all.
type Inputs struct {
	Settings      Settings
	Climate       Climate
	Energies      []cost.Energy
	EnergyRefused []string // names of rows of Energy that have an error
	Parts         []sensing.Part
	UnitCosts     []cost.UnitCost
	Rules         facts.Table // sensing
	Checklist     facts.Table // lines of sensing's checklist
	Numbers       facts.Table // how many of each device
	Screen        facts.Table // of energy codes
	Sequence      facts.Table // of operation
	Tests         facts.Table // of commissioning
	Care          facts.Table // each year
}

// Climate is the stations a zone can name.
type Climate struct {
	Stations []weather.Station // of the workbook: rows of Climate, and weather files named in Sites under their Place.WeatherFiles text
	BuiltIn  []weather.Statistics
	Refused  []string // names of rows of Climate that have an error
}

// Engine calculates sites. It is safe for several goroutines: what it shares is read only or memoised.
type Engine struct {
	in        Inputs
	synthetic memo.Map[int, *weather.Station] // built-in stations as hours, by their place in Climate.BuiltIn
	loads     memo.Map[surface.Input, surface.Load]
	unmet     memo.Map[unmetKey, float64]
	sections  memo.Map[slab.Geometry, slab.Unit]
	layouts   memo.Map[piping.Input, piping.Layout]
	warmUps   memo.Map[slab.WarmUpInput, slab.WarmUpResult]
	resets    memo.Map[setpoint.Input, setpoint.Curve]
	seasons   memo.Map[season.Input, []season.Result]
}

// unmetKey asks for the snowfall hours whose load exceeds a flux.
type unmetKey struct {
	load surface.Input
	flux float64
}

// NewEngine returns an engine for these inputs.
func NewEngine(in Inputs) *Engine { return &Engine{in: in} }

// Site calculates every zone of a site that is included. A zone that fails or panics is its own Outcome.Err.
func (e *Engine) Site(s Site) SiteOutcome {
	out := SiteOutcome{Site: s}
	for _, z := range s.Zones {
		if why := excluded(z); why != "" {
			out.Excluded = append(out.Excluded, Excluded{Ref: z.Ref, Why: why})
			continue
		}
		out.Outcomes = append(out.Outcomes, e.guarded(z))
	}
	out.Plants = e.plants(out.Outcomes)
	out.SharedStart = sharedStart(out.Outcomes)
	e.bills(out.Outcomes)
	for i := range out.Outcomes {
		locate(&out.Outcomes[i])
	}
	out.Alternatives = e.alternatives(&out)
	out.Summary = e.summarise(out)
	return out
}

// Check judges a site by the rules across fields and calculates nothing. Site runs the same rules.
func (e *Engine) Check(s Site) []finding.Finding {
	var all []finding.Finding
	for _, z := range s.Zones {
		if excluded(z) != "" || z.Ref.Refused {
			continue
		}
		o := Outcome{Zone: z}
		e.prepare(&o)
		locate(&o)
		all = append(all, o.Findings...)
	}
	for _, a := range s.Alternatives {
		for _, z := range a.Zones {
			if excluded(z) != "" || z.Ref.Refused {
				continue
			}
			o := Outcome{Zone: z}
			e.prepare(&o)
			all = append(all, o.unlike(all)...)
		}
	}
	return all
}

// excluded returns the code of why a zone is not calculated; "" when it is.
func excluded(z Zone) string {
	switch z.Ref.Include {
	case "later":
		return "include-later"
	case "no":
		return "include-no"
	}
	return ""
}

// guarded evaluates a zone and turns a panic into that zone's error.
func (e *Engine) guarded(z Zone) Outcome { return e.guardedBeside(z, nil) }

// guardedBeside evaluates a zone of an alternative beside the winters of the same zone as in Sites.
func (e *Engine) guardedBeside(z Zone, winters *season.Input) (o Outcome) {
	o.Zone, o.beside = z, winters
	defer func() {
		if p := recover(); p != nil {
			o.Err = fmt.Errorf("panic: %v", p)
			o.Findings = append(o.Findings, finding.New(finding.Error, CodeZoneFailed, "site_id", finding.Words("why", o.Err.Error())))
		}
	}()
	if z.Ref.Refused {
		return o
	}
	e.evaluate(&o)
	return o
}

// locate gives each finding of a zone its site and zone.
func locate(o *Outcome) {
	for i := range o.Findings {
		o.Findings[i].Site, o.Findings[i].Zone = o.Zone.Ref.SiteID, o.Zone.Ref.ZoneID
	}
}

// Work is how much an engine computed and how much its zones shared.
type Work struct{ Loads, Sections, Layouts, Winters memo.Counts }

// Work tells what was computed so far.
func (e *Engine) Work() Work {
	return Work{Loads: e.loads.Counts(), Sections: e.sections.Counts(), Layouts: e.layouts.Counts(), Winters: e.seasons.Counts()}
}
