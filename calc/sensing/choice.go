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
	FactDetectors    = "detectors"            // one, several: in the pavement
	FactController   = "controller"           // chosen, none fits, not listed
	FactLead         = "lead"                 // fits, joint
	FactBase         = "housing base"         // gravel, open air, membrane, as found: what lies below a housing; unknown without one
	FactCutting      = "cutting"              // what an option takes: coring, slot, lifting (of pavers); no: for the choice itself
)

// Facts of a zone that placing and buying ask for besides the rules.
const (
	factExisting   = "existing"
	factSlabSensor = "slab sensor"
	factControlNow = "control now"
	factArea       = "area"
	factHeat       = "heat"
	factHousing    = "housing"
)

// Words of the facts that a choice tells.
const (
	wordOne, wordSeveral                    = "one", "several"
	wordChosen, wordNoneFits, wordNotListed = "chosen", "none fits", "not listed"
	wordFits, wordJoint                     = "fits", "joint"
	wordCoring, wordSlot, wordLifting       = "coring", "slot", "lifting"
	wordGravel, wordOpenAir                 = "gravel", "open air"
	wordMembrane, wordAsFound               = "membrane", "as found"
)

// CodeCriticalByHand tells of a critical area that no detector can start. Codes of the rules' warnings stand in the rules.
const CodeCriticalByHand finding.Code = "critical-by-hand"

// Vocabulary returns the facts of wishes and of a choice, with their words.
func Vocabulary() facts.Vocabulary {
	v := facts.Vocabulary{
		FactStartWanted: {StartDetector, StartManual}, FactStopWanted: {StopDry, StopTimer, StopManual}, FactStarts: {StartDetector, StartManual},
		FactStops: {StopDry, StopTimer, StopManual}, FactSensesSlab: {sensesNo, sensesYes, sensesDearer},
		FactDetectors: {wordOne, wordSeveral}, FactController: {wordChosen, wordNoneFits, wordNotListed}, FactLead: {wordFits, wordJoint},
		FactBase:    {wordGravel, wordOpenAir, wordMembrane, wordAsFound},
		FactCutting: {wordCoring, wordSlot, wordLifting, answerNo},
	}
	for _, fact := range []string{FactIdlingWanted, FactCritical, FactIdles, FactReset, string(PavementDetector), string(AerialDetector), string(SlabSensor)} {
		v[fact] = []string{answer(true), answer(false)}
	}
	return v
}

// Reason is a rule that spoke: a stable code, whose sentence stands in templates, the facts it rested on and what fills the sentence.
type Reason struct {
	Code  string
	Facts []string // names of the facts in the rule's conditions
	Args  []finding.Arg
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
	offered      []offered
	Reasons      []Reason
	Rejected     []Rejected
	Checklist    []string   // codes of siting lines that fit this zone, in order of phase
	Controller   string     // name of the part chosen; empty when none fits or none was listed
	LeadM        float64    // the longest lead to the panel, with allowance [m]; 0 without a device
	Numbers      []Number   // of each device of the kit
	Plan         *Plan      // nil without a rectangle
	Section      *Section   // nil without a device
	Selection    *Selection // from the catalogue; nil without one
	Conflicts    []Conflict // of wishes with what the zone allows
	Screen       []Screened // energy-code screen
	Findings     []finding.Finding
}

// Has says whether a device is in the kit.
func (c Choice) Has(d Device) bool { return has(c.Kit, d) }

// KitName returns the kit as one text.
func (c Choice) KitName() string { return kitName(c.Kit) }

// Tell adds to a set what was chosen, for tables that ask for it.
func (c Choice) Tell(s facts.Set) {
	for _, d := range devices {
		s[string(d)] = answer(has(c.Kit, d))
	}
	s[FactStarts], s[FactStops] = c.Start, c.Stop
	s[FactIdles], s[FactReset] = answer(c.Idling), answer(c.OutdoorReset)
	s[FactDetectors] = wordOne
	if c.number(PavementDetector).Placed > 1 {
		s[FactDetectors] = wordSeveral
	}
	s[FactController], s[FactLead] = c.controllerWord(), c.leadWord()
	s[FactCutting], s[FactBase] = answerNo, c.baseWord()
}

// baseWord says what lies below the housing of a detector.
func (c Choice) baseWord() string {
	if c.Section == nil || !c.Section.Detector {
		return facts.Unknown
	}
	return baseWords[c.Section.Base]
}

func (c Choice) controllerWord() string {
	switch {
	case c.Controller != "":
		return wordChosen
	case c.Selection != nil:
		return wordNoneFits
	}
	return wordNotListed
}

// leadWord says whether factory leads reach, as far as the catalogue tells.
func (c Choice) leadWord() string {
	word := facts.Unknown
	if c.Selection == nil {
		return word
	}
	for _, p := range c.Selection.Pieces {
		if p.Joint {
			return wordJoint
		}
		if p.FactoryM.Known {
			word = wordFits
		}
	}
	return word
}
