// Package sensing chooses what senses snow and slab temperature, given what is already poured, and says why.
package sensing

import "thawbook/calc/finding"

// Device is a piece of a kit, in the words of results.json.
type Device string

// The devices.
const (
	PavementDetector Device = "in-pavement detector"
	AerialDetector   Device = "aerial detector"
	SlabSensor       Device = "slab temperature sensor"
)

// Start, Stop: what begins and what ends heat, in the words of results.json.
const (
	StartDetector = "detector"
	StartManual   = "manual"
	StopDry       = "dry"
	StopTimer     = "timer"
	StopManual    = "manual"
)

// Reason is a rule that spoke: a stable code, whose sentence stands in templates, and the facts it rested on.
type Reason struct {
	Code  string
	Facts []string // names of the facts in the rule's conditions
}

// Rejected is a kit that was not chosen, with the decisive rule.
type Rejected struct {
	Kit  string // "in-pavement detector + slab temperature sensor"
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
	Lacking      []string // codes of what the kit can't do that was wanted; said first
	Reasons      []Reason
	Rejected     []Rejected
	Checklist    []string // codes of siting lines that fit this zone, in order of phase
	Controller   string   // name of the part chosen; empty when none fits or none was listed
	LeadM        float64
	Findings     []finding.Finding
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
