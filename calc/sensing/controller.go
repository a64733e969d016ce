package sensing

import (
	"cmp"
	"math"
	"strings"

	"thawbook/calc/finding"
)

// Words of the Parts sheet.
const (
	kindController   = "controller"
	sensesSlabWord   = "slab temperature"
	functionDry      = "ends when dry"
	functionTimer    = "ends on a timer"
	functionIdling   = "idling"
	functionReset    = "outdoor reset"
	wordsSeparatedBy = ";"
)

// Words of FactSensesSlab.
const (
	sensesNo     = "no"
	sensesYes    = "yes"
	sensesDearer = "dearer"
)

// sensesSlab says whether an in-pavement detector of the catalogue measures slab temperature too, and whether it costs more than the
// cheapest detector and the cheapest slab sensor together. A part without a price is not compared.
func sensesSlab(parts []Part) string {
	with, without, sensor := math.Inf(1), math.Inf(1), math.Inf(1)
	senses := sensesNo
	for _, p := range parts {
		least := &without
		switch {
		case is(p.Kind, string(PavementDetector)) && lists(p.Senses, sensesSlabWord):
			senses, least = sensesYes, &with
		case is(p.Kind, string(SlabSensor)):
			least = &sensor
		case !is(p.Kind, string(PavementDetector)):
			continue
		}
		if p.Priced {
			*least = min(*least, p.Price)
		}
	}
	if !math.IsInf(with, 1) && with > without+sensor {
		return sensesDearer
	}
	return senses
}

// control chooses the least-priced controller whose inputs take the kit and whose functions cover what the kit is to do; a part without a
// price comes after all that have one. Where controllers are listed and none fits, a finding names what the closest one misses.
func (c *Choice) control(parts []Part) {
	var best, closest *Part
	var misses []string
	for i := range parts {
		p := &parts[i]
		if !is(p.Kind, kindController) {
			continue
		}
		missing := c.missing(*p)
		if len(missing) == 0 && (best == nil || cheaper(*p, *best)) {
			best = p
		}
		if closest == nil || len(missing) < len(misses) {
			closest, misses = p, missing
		}
	}
	switch {
	case best != nil:
		c.Controller = best.Name
	case closest != nil:
		c.Findings = append(c.Findings, finding.New(finding.Warning, CodeNoControllerFits, "",
			finding.Words("kit", c.KitName()), finding.Words("part", closest.Name), finding.Words("missing", strings.Join(misses, ", "))))
	}
}

// missing returns what a controller does not take or can't do, in the words of the Parts sheet.
func (c *Choice) missing(p Part) []string {
	var out []string
	for _, d := range c.Kit {
		if !lists(p.Inputs, string(d)) {
			out = append(out, string(d))
		}
	}
	for _, f := range []struct {
		needed bool
		word   string
	}{{c.Stop == StopDry, functionDry}, {c.Stop == StopTimer, functionTimer}, {c.Idling, functionIdling}, {c.OutdoorReset, functionReset}} {
		if f.needed && !lists(p.Functions, f.word) {
			out = append(out, f.word)
		}
	}
	return out
}

func cheaper(a, b Part) bool {
	if a.Priced != b.Priced {
		return a.Priced
	}
	return cmp.Less(a.Price, b.Price)
}

// lists says whether a cell of several words has one of them.
func lists(cell, word string) bool {
	for w := range strings.SplitSeq(cell, wordsSeparatedBy) {
		if is(w, word) {
			return true
		}
	}
	return false
}

func is(typed, word string) bool { return strings.EqualFold(strings.TrimSpace(typed), word) }
