// Package sensing chooses what senses snow and slab temperature, given what is already poured, and says why.
package sensing

import (
	"thawbook/calc/facts"
	"thawbook/calc/finding"
)

// Device is a piece of a kit, in the words of results.json. It is also the name of the fact that says whether the chosen kit has it.
type Device string

// The devices.
const (
	PavementDetector Device = "in-pavement detector"
	AerialDetector   Device = "aerial detector"
	SlabSensor       Device = "slab temperature sensor"
)

// NoDevices names the kit without any device: a person alone.
const NoDevices = "none"

// Start, Stop: what begins and what ends heat, in the words of results.json.
const (
	StartDetector = "detector"
	StartManual   = "manual"
	StopDry       = "dry"
	StopTimer     = "timer"
	StopManual    = "manual"
)

// Facts that Choose reads besides those its rules ask for, and those it tells of its choice.
const (
	FactStartWanted  = "start wanted"
	FactStopWanted   = "stop wanted"
	FactIdlingWanted = "idling wanted"
	FactCritical     = "critical"
	FactStarts       = "starts"
	FactStops        = "stops"
	FactIdles        = "idles"
	FactReset        = "outdoor reset"
	FactSensesSlab   = "detector senses slab" // no; yes; dearer: yes, at a higher price than a detector without and a slab sensor
)

// Codes of findings. Those of the rules' warnings stand in the rules.
const (
	CodeNoControllerFits finding.Code = "no-controller-fits"
	CodeCriticalByHand   finding.Code = "critical-by-hand"
)

// Vocabulary returns the facts of wishes and of a choice, with their words.
func Vocabulary() facts.Vocabulary {
	v := facts.Vocabulary{
		FactStartWanted: {StartDetector, StartManual}, FactStopWanted: {StopDry, StopTimer, StopManual}, FactStarts: {StartDetector, StartManual},
		FactStops: {StopDry, StopTimer, StopManual}, FactSensesSlab: {sensesNo, sensesYes, sensesDearer},
	}
	for _, fact := range []string{FactIdlingWanted, FactCritical, FactIdles, FactReset, string(PavementDetector), string(AerialDetector), string(SlabSensor)} {
		v[fact] = []string{answer(true), answer(false)}
	}
	return v
}

// Reason is a rule that spoke: a stable code, whose sentence stands in templates, and the facts it rested on.
type Reason struct {
	Code  string
	Facts []string // names of the facts in the rule's conditions
}

// Rejected is a kit that was not chosen, with the decisive rule.
type Rejected struct {
	Kit  string // "in-pavement detector + slab temperature sensor"; NoDevices
	Code string
}

// Choice is what a zone should be given.
type Choice struct {
	Kit          []Device
	Start        string // StartDetector, StartManual
	Stop         string // StopDry, StopTimer, StopManual
	Idling       bool
	OutdoorReset bool
	Strategy     string   // the season strategy that this kit and the idling wish name
	Begins       []string // codes of sentences: what begins heat
	Ends         []string // what ends it
	Limits       []string // what limits the slab
	Lacking      []string // codes of what the kit can't do that was wanted; said first
	Offers       []string // codes of what it would take to get more: an option or a survey, never the default
	Reasons      []Reason
	Rejected     []Rejected
	Checklist    []string // codes of siting lines that fit this zone, in order of phase
	Controller   string   // name of the part chosen; empty when none fits or none was listed
	LeadM        float64  // lead to the panel, with allowance [m]; 0 without a device
	Findings     []finding.Finding
}

// KitName returns the kit as one text.
func (c Choice) KitName() string { return kitName(c.Kit) }

// Tell adds to a set what was chosen, for tables that ask for it.
func (c Choice) Tell(s facts.Set) {
	for _, d := range devices {
		s[string(d)] = answer(has(c.Kit, d))
	}
	s[FactStarts], s[FactStops] = c.Start, c.Stop
	s[FactIdles], s[FactReset] = answer(c.Idling), answer(c.OutdoorReset)
}

// Part is one row of the Parts sheet: the user's own catalogue.
type Part struct {
	Name      string
	Kind      string // in-pavement detector, aerial detector, slab temperature sensor, controller
	Senses    string // moisture, falling snow, slab temperature; several separated by ";"
	LeadM     string // factory lead lengths in m, separated by ";"
	Inputs    string // a controller accepts: kinds of part, separated by ";"
	Outputs   string // pump, valve, burner, contactor
	Functions string // ends when dry, ends on a timer, idling, outdoor reset
	Price     float64
	Priced    bool
}
