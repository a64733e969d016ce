package sensing

import (
	"strings"

	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	sourceRules    = "rules on the zone's facts: common practice"
	sourceGeometry = "geometry of the plan"
	sourceLead     = "common practice"
)

// symbolOf is what a device's numbers carry below the line.
var symbolOf = map[Device]string{PavementDetector: "pavement", AerialDetector: "aerial", SlabSensor: "slab"}

// Steps tells how many of each device there are, how far each is from the panel and what lead that takes.
func (c Choice) Steps() []trace.Step {
	var list []trace.Step
	for _, n := range c.Numbers {
		s, name := symbolOf[n.Device], string(n.Device)
		list = append(list,
			trace.Step{Symbol: "n_" + s, Name: name + ", number wanted", Value: float64(n.Wanted), Quantity: units.Count, Equation: n.rules(), Source: sourceRules},
			trace.Step{Symbol: "n_" + s + ",placed", Name: name + ", number that has a place", Value: float64(n.Placed), Quantity: units.Count, Source: sourceRules, From: []string{"n_" + s}})
		if c.Plan == nil {
			continue
		}
		list = append(list,
			trace.Step{Symbol: "x_" + s, Name: name + ", longest run to the panel", Value: c.longestRunM(n.Device), Quantity: units.Length, Source: sourceGeometry},
			trace.Step{Symbol: "L_" + s, Name: name + ", lead with allowance", Value: LeadM(c.longestRunM(n.Device)), Quantity: units.Length, Equation: "L_" + s + " = 1.10 x_" + s + " + 2 m", Source: sourceLead, From: []string{"x_" + s}})
	}
	if len(list) > 0 {
		list[0].Group = "sensing"
	}
	return list
}

// rules names the rules that asked for more than one.
func (n Number) rules() string {
	var codes []string
	for _, r := range n.Reasons {
		codes = append(codes, r.Code)
	}
	if len(codes) == 0 {
		return "one"
	}
	return strings.Join(codes, ", ")
}
