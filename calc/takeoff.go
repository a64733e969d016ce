package calc

import (
	"math"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// Codes of where a quantity comes from; their words stand in templates.
const (
	fromLoops      = "quantity-loops"
	fromVolume     = "quantity-volume"
	fromCables     = "quantity-cables"
	fromCircuits   = "quantity-circuits"
	fromArea       = "quantity-area"
	fromPlantNet   = "quantity-plant"
	fromKit        = "quantity-kit"
	fromSlot       = "quantity-slot"
	fromScan       = "quantity-scan"
	fromPanelRun   = "quantity-panel-run"
	fromPanel      = "quantity-panel"
	fromController = "quantity-controller"
	fromCommission = "quantity-commissioning"
)

const slotUsualM = 1.0 // m from a detector to the edge where it is not told; common practice

// works says what is done to a zone, from what it is now to what it becomes.
type works struct {
	was, now Zone
	o        Outcome
	strategy string // its control before, "" without heat
}

// layHeat says whether pipes or cables are laid.
func (w works) layHeat() bool {
	return w.o.Slab != nil && !w.now.Slab.Existing()
}

// retrofit says whether the work is done in or on a pavement that is there.
func (w works) retrofit() bool { return w.was.Slab.Existing() || w.now.Slab.Stage == Overlay }

// takes lists what the zone needs.
func (w works) takes(parts []sensing.Part) []cost.Take {
	var list []cost.Take
	if w.layHeat() {
		list = append(list, w.ground()...)
		list = append(list, w.heat()...)
	}
	list = append(list, w.sensors(parts)...)
	for i := range list {
		list[i].Zone, list[i].Retrofit = w.now.Ref.ZoneID, w.retrofit()
	}
	return list
}

// ground is the pavement itself. A new pour is poured in any case, heated or not.
func (w works) ground() []cost.Take {
	area := w.now.Extent.AreaM2
	slab := cost.Take{Item: cost.Concrete, Quantity: area, Measure: units.Area, From: fromArea}
	var list []cost.Take
	switch {
	case w.was.Slab.Stage == NewPour:
		slab.Why = cost.InAnyCase
	case w.now.Slab.Stage == NewPour:
		list = append(list, cost.Take{Item: cost.Demolition, Quantity: area, Measure: units.Area, From: fromArea})
	}
	list = append(list, slab)
	if w.now.Slab.InsulationM2KW.Value > 0 {
		list = append(list, cost.Take{Item: cost.Insulation, Quantity: area, Measure: units.Area, From: fromArea})
	}
	return list
}

// heat is what is laid into it.
func (w works) heat() []cost.Take {
	switch {
	case w.o.Piping != nil:
		return []cost.Take{
			{Item: cost.Tube, Quantity: w.o.Piping.Loops.TotalM, Measure: units.Length, From: fromLoops},
			{Item: cost.Fluid, Quantity: w.o.Piping.Volume.TotalL, Measure: units.Volume, From: fromVolume}}
	case w.o.Electric != nil:
		list := []cost.Take{{Item: cost.Cable, Quantity: w.o.Electric.CableM, Measure: units.Length, From: fromCables}}
		if c := w.o.Electric.Circuits; c.Known {
			list = append(list, cost.Take{Item: cost.Circuit, Quantity: float64(c.Value.Count), Measure: units.Count, From: fromCircuits})
		}
		return list
	}
	return nil
}

// newControl says whether the control becomes another one.
func (w works) newControl() bool {
	return w.o.Sensing != nil && (w.layHeat() || w.o.Sensing.Strategy != w.strategy)
}

// sensors is what the kit needs that is not there, how it gets into the pavement and to the panel, and what listens to it.
func (w works) sensors(parts []sensing.Part) []cost.Take {
	if w.now.Slab.Stage == ExistingUnheated || !w.newControl() {
		return nil
	}
	var list []cost.Take
	cut, laid := 0.0, 0.0
	for _, n := range w.o.Sensing.Numbers {
		count := w.missing(n)
		if count == 0 {
			continue
		}
		list = append(list, cost.Take{Item: string(n.Device), Quantity: count, Measure: units.Count, From: fromKit, Price: w.partOf(string(n.Device), parts)})
		if !w.now.Slab.Existing() || n.Device == sensing.AerialDetector {
			laid += count
			continue
		}
		cut += count
		if n.Device == sensing.PavementDetector && w.was.Sensing.Housing != Yes {
			list = append(list, cost.Take{Item: cost.Coring, Quantity: count, Measure: units.Count, From: fromKit})
		}
	}
	slot := slotM(w.now)
	if cut > 0 {
		list = append(list, cost.Take{Item: cost.SawCut, Quantity: cut * slot, Measure: units.Length, From: fromSlot},
			cost.Take{Item: cost.Scanning, Quantity: 1, Measure: units.Count, From: fromScan})
	}
	if run := laid*w.now.Sensing.PanelM.Value + cut*max(0, w.now.Sensing.PanelM.Value-slot); run > 0 {
		list = append(list, cost.Take{Item: cost.Conduit, Quantity: run, Measure: units.Length, From: fromPanelRun})
	}
	if len(w.o.Sensing.Kit) > 0 && w.o.Sensing.Selection != nil {
		list = append(list, cost.Take{Item: cost.Controller, Quantity: 1, Measure: units.Count, From: fromController, Price: w.partOf(cost.Controller, parts)})
	}
	return list
}

// missing returns how many of a device are to be bought: those placed, less one that works in a pavement which stays. An alternative tells what it adds
// as if it were there, so that what is there is asked of the zone as in Sites.
func (w works) missing(n sensing.Number) float64 {
	stays := w.was.Slab.Existing() && w.now.Slab.Existing()
	there := n.Device == sensing.SlabSensor && w.was.Sensing.SlabSensor == Yes || n.Device != sensing.SlabSensor && w.was.Sensing.ControlNow == string(n.Device)
	if stays && there {
		return float64(n.Placed - 1)
	}
	return float64(n.Placed)
}

// partOf returns the price of the part that was chosen for a device; of one that an alternative adds to a pavement, the cheapest of its kind.
func (w works) partOf(kind string, parts []sensing.Part) units.Maybe[cost.UnitCost] {
	if w.o.Sensing.Selection != nil {
		for _, p := range w.o.Sensing.Selection.Pieces {
			if p.Kind == kind && p.Price.Known {
				return units.Some(cost.UnitCost{Item: p.Part, Cost: p.Price, At: priceOf(p.Part, parts)})
			}
		}
	}
	best, least := units.Maybe[cost.UnitCost]{}, math.Inf(1)
	for _, p := range parts {
		if p.Kind == kind && kind != cost.Controller && p.Priced && p.Price < least {
			best, least = units.Some(cost.UnitCost{Item: p.Name, Cost: units.Some(p.Price), At: p.At}), p.Price
		}
	}
	return best
}

// priceOf returns the cell of the price of a part.
func priceOf(name string, parts []sensing.Part) finding.Cell {
	i := slices.IndexFunc(parts, func(p sensing.Part) bool { return p.Name == name })
	if i < 0 {
		return finding.Cell{}
	}
	return parts[i].At
}

// slotM returns the length of a saw-cut slot from a device to the edge of the pavement, in m: as far as the detector is told to be from it, the usual
// distance where it is not told. Source: common practice.
func slotM(z Zone) float64 {
	if z.Siting.EdgeM.Known {
		return max(z.Siting.EdgeM.Value, edgeWarnM)
	}
	return slotUsualM
}

// common lists what the zones of a site need together: a panel and commissioning where control becomes another one, and heat from a new plant.
func (e *Engine) common(list []works) []cost.Take {
	anyWork, retrofit := false, false
	for _, w := range list {
		if w.layHeat() || w.newControl() && w.now.Slab.Stage != ExistingUnheated {
			anyWork, retrofit = true, retrofit || w.retrofit()
		}
	}
	if !anyWork {
		return nil
	}
	out := e.plantTakes(list)
	out = append(out, cost.Take{Item: cost.Panel, Quantity: 1, Measure: units.Count, From: fromPanel},
		cost.Take{Item: cost.Commissioning, Quantity: 1, Measure: units.Count, From: fromCommission})
	for i := range out {
		out[i].Retrofit = retrofit
	}
	return out
}

// plantTakes is the part of each plant that zones need which had none before.
func (e *Engine) plantTakes(list []works) []cost.Take {
	var hydronic []Outcome
	fresh := map[string]bool{}
	for _, w := range list {
		if w.o.Piping == nil {
			continue
		}
		o := w.o
		o.Findings = nil // what a plant tells of the zones as in Sites was told there
		hydronic = append(hydronic, o)
		fresh[o.Zone.Ref.ZoneID] = w.layHeat() && !(w.was.Slab.Stage == ExistingHeated && w.was.Heat.Kind == Hydronic)
	}
	var out []cost.Take
	for _, p := range e.plants(hydronic) {
		part, all := 0.0, 0.0
		for _, n := range p.Needs {
			all += n.HeatW
			if fresh[n.ID] {
				part += n.HeatW
			}
		}
		if part > 0 {
			out = append(out, cost.Take{Item: cost.Plant, Quantity: p.NetW * part / all, Measure: units.ElectricPower, From: fromPlantNet})
		}
	}
	return out
}
