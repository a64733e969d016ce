package setpoint

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// Plant is what the limits of a reset curve rest on beside the curve.
type Plant struct {
	InstalledWM2 float64              // into the slab, back loss included
	SupplyLimitC units.Maybe[float64] // of the surface's material; blank for electric heat
	ShutOffC     float64              // warm-weather shut-off, outdoors
	DesignSupply units.Maybe[float64] // supply temperature at the design flux, while it snows [°C]; sizes the equipment
}

// Limits is how far a reset curve can be followed. °C outdoors unless said.
type Limits struct {
	Plant          Plant
	StartC         float64              // where heat is first allowed: the warm-weather shut-off
	KeepsUpC       units.Maybe[float64] // below it the installed output can't hold the melting set point; blank: not down to coldestC
	SupplyLimitAtC units.Maybe[float64] // below it the supply would pass its limit; blank: not down to coldestC, or electric
	ColdestC       float64              // the coldest outdoor temperature at which the curve can be followed, at least −30 °C
	GreatestCoreC  float64              // core at ColdestC
	GreatestSupply units.Maybe[float64] // supply at ColdestC [°C]
	SupplyLessCore units.Maybe[float64] // greatest supply less core, at ColdestC [K]
}

// GreatestSupplyLessCoreK is the greatest usual difference between supply and slab, in K; more may shock the slab. Common practice.
const GreatestSupplyLessCoreK = 28

// coldestC is the coldest outdoor temperature that is looked at.
const coldestC = -60.0

// Limits returns how far the curve can be followed with this plant.
//
//	q_loss(t_o) + q_back(t_o) = q_installed     gives KeepsUpC
//	t_supply(t_o) = supply limit          gives SupplyLimitAtC
//
// Source: engineering method, section 3. Both sides are monotone in t_o, so that halving finds the root to 1e-6 K.
func (c Curve) Limits(p Plant) Limits {
	in := c.Input
	l := Limits{Plant: p, StartC: p.ShutOffC}
	l.KeepsUpC = c.outdoorWhere(func(outdoorC float64) bool {
		loss := in.loss(in.MeltC, outdoorC)
		return loss+in.back(in.MeltC, loss) <= p.InstalledWM2
	})
	if p.SupplyLimitC.Known && !in.Electric && in.PipeResistance > 0 {
		l.SupplyLimitAtC = c.outdoorWhere(func(outdoorC float64) bool { return c.point(outdoorC).SupplyMeltC.Value <= p.SupplyLimitC.Value })
	}
	l.ColdestC = max(coldC, l.KeepsUpC.Or(coldC), l.SupplyLimitAtC.Or(coldC))
	end := c.point(l.ColdestC)
	l.GreatestCoreC, l.GreatestSupply = end.CoreMeltC, end.SupplyMeltC
	if end.SupplyMeltC.Known {
		l.SupplyLessCore = units.Some(end.SupplyMeltC.Value - end.CoreMeltC)
	}
	return l
}

// outdoorWhere returns the outdoor temperature below which holds is no longer true; blank when it holds down to coldestC.
func (c Curve) outdoorWhere(holds func(outdoorC float64) bool) units.Maybe[float64] {
	cold, mild := coldestC, c.Input.MeltC
	if holds(cold) {
		return units.Maybe[float64]{}
	}
	if !holds(mild) {
		return units.Some(mild)
	}
	for mild-cold > 1e-6 {
		if middle := (cold + mild) / 2; holds(middle) {
			mild = middle
		} else {
			cold = middle
		}
	}
	return units.Some(mild)
}

// Steps tells how far the curve can be followed.
func (l Limits) Steps() []trace.Step {
	steps := []trace.Step{{Group: "limits", Symbol: "t_start", Name: "heat is allowed below this outdoor temperature", Value: l.StartC, Quantity: units.Temperature, Source: sourceInput}}
	add := func(m units.Maybe[float64], s trace.Step) {
		if m.Known {
			s.Value = m.Value
			if s.Source == "" {
				s.Source = sourceReset
			}
			steps = append(steps, s)
		}
	}
	add(l.Plant.SupplyLimitC, trace.Step{Symbol: "t_supply limit", Name: "limit of the supply", Quantity: units.Temperature, Source: sourceInput})
	add(l.Plant.DesignSupply, trace.Step{Symbol: "t_supply,design", Name: "supply at the design flux, while it snows", Quantity: units.Temperature, Equation: "t_supply,design = t_fluid + Δt / 2", From: []string{"Δt"}})
	add(l.KeepsUpC, trace.Step{Symbol: "t_keep", Name: "below this outdoor temperature the output can't hold the set point", Quantity: units.Temperature, Equation: "q_loss(t_keep) + q_back(t_keep) = q_inst"})
	add(l.SupplyLimitAtC, trace.Step{Symbol: "t_limit", Name: "below this outdoor temperature the supply would pass its limit", Quantity: units.Temperature, Equation: "t_supply(t_limit) = t_supply limit", From: []string{"t_supply limit"}})
	add(units.Some(l.ColdestC), trace.Step{Symbol: "t_cold", Name: "coldest outdoor temperature at which the curve can be followed", Quantity: units.Temperature, Equation: "t_cold = max(−30 °C, t_keep, t_limit)"})
	add(units.Some(l.GreatestCoreC), trace.Step{Symbol: "t_core,max", Name: "greatest core temperature", Quantity: units.Temperature, Equation: "t_core,max = t_core(t_cold)", From: []string{"t_cold"}})
	add(l.GreatestSupply, trace.Step{Symbol: "t_supply,max", Name: "greatest supply temperature", Quantity: units.Temperature, Equation: "t_supply,max = t_supply(t_cold)", From: []string{"t_cold"}})
	add(l.SupplyLessCore, trace.Step{Symbol: "Δt_shock", Name: "greatest supply less core", Quantity: units.TemperatureDiff, Equation: "Δt_shock = t_supply,max − t_core,max", From: []string{"t_supply,max", "t_core,max"}})
	return steps
}
