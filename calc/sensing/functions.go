package sensing

import (
	"slices"
	"strings"
)

// limits says when a device holds the slab to a temperature.
type limits uint8

const (
	never limits = iota
	whereItSensesSlab
	always
)

// function is what a device does in a kit: what begins heat, what ends it, whether it limits the slab.
type function struct {
	device Device // "" is a person alone
	begins []string
	ends   []string // StopDry, StopTimer, StopManual, best first
	limits limits
}

// functions is the function table; a kit does what any of its devices does. Source: common practice.
//
// A person can start and stop every kit by hand. Where nothing senses the pavement, a run timer that returns by itself ends the heat, so
// that a forgotten switch does not heat into spring.
var functions = [...]function{
	{PavementDetector, []string{"begins-on-moisture"}, []string{StopDry, StopTimer, StopManual}, whereItSensesSlab},
	{AerialDetector, []string{"begins-on-falling-snow"}, []string{StopTimer, StopManual}, never},
	{SlabSensor, nil, []string{StopTimer, StopManual}, always},
	{"", []string{"begins-by-hand"}, []string{StopTimer, StopManual}, never},
}

// devices are those of a kit, in the order of its name.
var devices = [...]Device{PavementDetector, AerialDetector, SlabSensor}

// kits are the candidates, the simplest first.
var kits = [...][]Device{
	nil,
	{SlabSensor},
	{AerialDetector},
	{AerialDetector, SlabSensor},
	{PavementDetector},
	{PavementDetector, SlabSensor},
	{PavementDetector, AerialDetector},
	{PavementDetector, AerialDetector, SlabSensor},
}

// Subjects of rules that are functions of a kit instead of devices in it.
const (
	subjectDetectorStart = "detector start"
	subjectDryStop       = "dry stop"
	subjectSlabLimits    = "slab limits"
)

// candidate is a kit and what it can do.
type candidate struct {
	devices       []Device
	detectorStart bool
	dryStop       bool
	slabLimits    bool
}

// candidates returns every kit with its functions. senses says that an in-pavement detector on hand senses slab temperature too.
func candidates(senses bool) []candidate {
	out := make([]candidate, len(kits))
	for i, k := range kits {
		out[i] = candidate{devices: k}
		for _, f := range functions {
			if !has(k, f.device) {
				continue
			}
			out[i].detectorStart = out[i].detectorStart || f.begins != nil
			out[i].dryStop = out[i].dryStop || slices.Contains(f.ends, StopDry)
			out[i].slabLimits = out[i].slabLimits || f.limits == always || f.limits == whereItSensesSlab && senses
		}
	}
	return out
}

// meets says whether a candidate has the subject of a rule: a function, or all of its devices. A blank subject is met by every kit.
func (c candidate) meets(subject string) bool {
	switch subject {
	case "":
		return true
	case subjectDetectorStart:
		return c.detectorStart
	case subjectDryStop:
		return c.dryStop
	case subjectSlabLimits:
		return c.slabLimits
	}
	for d := range strings.SplitSeq(subject, plus) {
		if !has(c.devices, Device(d)) {
			return false
		}
	}
	return true
}

const plus = " + " // between the devices of a kit's name

func kitName(k []Device) string {
	if len(k) == 0 {
		return NoDevices
	}
	names := make([]string, len(k))
	for i, d := range k {
		names[i] = string(d)
	}
	return strings.Join(names, plus)
}

func has(k []Device, d Device) bool { return slices.Contains(k, d) }

// Words of facts that are a plain yes or no.
const answerYes, answerNo = "yes", "no"

func answer(yes bool) string {
	if yes {
		return answerYes
	}
	return answerNo
}
