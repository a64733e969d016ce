package calc

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// errNotCalculated tells of an alternative one of whose zones has no winter.
var errNotCalculated = errors.New("a zone of this alternative could not be calculated")

// BreakEven is the price of energy at which an alternative and the base case cost the same over the study.
type BreakEven struct {
	EnergyID, Unit, Currency string
	Price, Now               float64
	Factor                   float64 // UPV* of that energy
	UnitsBase, Units         float64 // bought a year in the base case and in the alternative
}

// What a sensitivity moves.
const (
	MovesPrice     = "energy price"
	MovesWinter    = "winter"
	MovesFirstCost = "first cost"
)

// Sensitivity is what the life cycle comes to when one thing is moved and the others stay: a row of a tornado chart.
type Sensitivity struct {
	Moves                   string
	Low, High               float64 // share by which it is moved; of the winter 0: mild and severe in every year
	PresentLow, PresentHigh cost.Money
	NetLow, NetHigh         cost.Money // net savings
}

// Span returns how far apart the net savings lie.
func (s Sensitivity) Span() cost.Money { return max(s.NetLow, s.NetHigh) - min(s.NetLow, s.NetHigh) }

// scenario is what the life cycle is valued under.
type scenario struct {
	winter       int
	price, first float64 // factors
}

var asPlanned = scenario{winter: 1, price: 1, first: 1}

// against holds an alternative against the base case.
func (a *AlternativeOutcome) against(base AlternativeOutcome) {
	if a.Base || !a.Life.Known || !base.Life.Known {
		return
	}
	savings, err := cost.Compare(a.Study, base.Flows, a.Flows)
	if err != nil {
		a.Err = err
		return
	}
	a.Savings = units.Some(savings)
	a.BreakEven = a.breakEven(base)
	a.sensitivities(base)
}

// breakEven returns the price at which the energy that the alternative pays most for, or the base case where it buys none, makes both cost the same.
func (a *AlternativeOutcome) breakEven(base AlternativeOutcome) units.Maybe[BreakEven] {
	b, found := greatest(a.Years[1].bills)
	if !found {
		if b, found = greatest(base.Years[1].bills); !found {
			return units.Maybe[BreakEven]{}
		}
	}
	if b.tariff.Tiered() { // no one price of a unit to break even at
		return units.Maybe[BreakEven]{}
	}
	out := BreakEven{EnergyID: b.tariff.ID, Unit: b.tariff.Unit, Currency: cmp.Or(b.tariff.Currency, a.Currency), Now: b.tariff.Price.Value,
		Factor: cost.UPVStar(a.Study.Discount, a.escalation(b.tariff), a.Study.Years),
		Units:  unitsOf(a.Years[1].bills, b.tariff.ID), UnitsBase: unitsOf(base.Years[1].bills, b.tariff.ID)}
	price := cost.BreakEven(out.Now, a.Savings.Value.Net.Main(a.Currency), b.worth, out.Factor, out.UnitsBase, out.Units)
	out.Price = price.Value
	return units.Maybe[BreakEven]{Value: out, Known: price.Known}
}

// greatest returns the bill with the greatest amount.
func greatest(bills []charged) (charged, bool) {
	if len(bills) == 0 {
		return charged{}, false
	}
	return slices.MaxFunc(bills, func(a, b charged) int { return cmp.Compare(a.total, b.total) }), true
}

// unitsOf returns what is bought of an energy.
func unitsOf(bills []charged, id string) float64 {
	for _, b := range bills {
		if b.tariff.ID == id {
			return b.units
		}
	}
	return 0
}

// sensitivities values the life cycle with one thing moved at a time: the energy price, the winter, the first cost.
func (a *AlternativeOutcome) sensitivities(base AlternativeOutcome) {
	for _, row := range []struct {
		moves          string
		share          float64
		known          bool
		lower, greater scenario
	}{
		{MovesPrice, priceShare, len(a.Years[1].bills)+len(base.Years[1].bills) > 0, scenario{1, 1 - priceShare, 1}, scenario{1, 1 + priceShare, 1}},
		{MovesWinter, 0, wintersKnown(*a) && wintersKnown(base), scenario{0, 1, 1}, scenario{2, 1, 1}},
		{MovesFirstCost, firstShare, a.FirstCost.Value > 0, scenario{1, 1, 1 - firstShare}, scenario{1, 1, 1 + firstShare}},
	} {
		if !row.known {
			continue
		}
		s := Sensitivity{Moves: row.moves, Low: -row.share, High: row.share}
		s.PresentLow, s.NetLow = a.valued(base, row.lower)
		s.PresentHigh, s.NetHigh = a.valued(base, row.greater)
		a.Sensitivity = append(a.Sensitivity, s)
	}
	slices.SortStableFunc(a.Sensitivity, func(x, y Sensitivity) int { return cmp.Compare(y.Span(), x.Span()) })
}

func wintersKnown(a AlternativeOutcome) bool { return a.Years[0].Total.Known && a.Years[2].Total.Known }

// valued returns present value and net savings under a scenario, under which both were valued without an error before.
func (a *AlternativeOutcome) valued(base AlternativeOutcome, s scenario) (present, net cost.Money) {
	mine, _ := cost.Value(a.Study, a.flows(s))
	theirs, _ := cost.Value(base.Study, base.flows(s))
	return mine.Total, theirs.Total - mine.Total
}

// rank numbers the alternatives by present value, those that lose a wanted function after those that don't. Equal ones share a rank.
func rank(list []AlternativeOutcome) {
	var order []int
	for i, a := range list {
		if a.Life.Known {
			order = append(order, i)
		}
	}
	compare := func(i, j int) int {
		a, b := list[i], list[j]
		return cmp.Or(cmp.Compare(min(1, len(a.Lost)), min(1, len(b.Lost))), cmp.Compare(a.Life.Value.Total, b.Life.Value.Total))
	}
	slices.SortStableFunc(order, compare)
	for n, i := range order {
		list[i].Rank = n + 1
		if n > 0 && compare(order[n-1], i) == 0 {
			list[i].Rank = list[order[n-1]].Rank
		}
	}
}

// lost lists the functions that were wanted and are not there.
func lost(zones []AlternativeZone) []Lost {
	var list []Lost
	for _, z := range zones {
		for _, code := range z.lost() {
			list = append(list, Lost{z.Outcome.Zone.Ref.ZoneID, code})
		}
	}
	return list
}

// lost lists what a zone lacks: of the kit what sensing says, of the control now what its words can't do, and without heat all of it.
func (z AlternativeZone) lost() []string {
	switch {
	case !z.Heated:
		return []string{lacksHeat}
	case z.ClearingNow:
		return z.Outcome.Zone.lostNow()
	}
	return slices.DeleteFunc(slices.Clone(z.Outcome.Sensing.Lacking), func(code string) bool { return code == notWantedAlone })
}

// lostNow lists what the control of today can't do of what is wanted. A wish that was not told is none but the start by a detector.
func (z Zone) lostNow() []string {
	n := z.Sensing
	var list []string
	detector := n.ControlNow == aerialDetector || n.ControlNow == inPavementDetector
	if n.ControlNow != "" && n.Start != "manual" && !detector {
		list = append(list, lacksDetector)
	}
	if n.ControlNow != "" && n.Stop == "dry" && !z.defaulted("stop_wanted") && n.ControlNow != inPavementDetector {
		list = append(list, lacksDryStop)
	}
	if n.Idling.Value && n.SlabSensor != Yes {
		list = append(list, lacksIdling)
	}
	return list
}

// real returns a rate of Settings without inflation. One that was not told is real anyway.
func (s Settings) real(f finding.Field, rate float64) float64 {
	if !s.Inflation.Known || s.defaulted(f) {
		return rate
	}
	return cost.Real(rate, s.Inflation.Value)
}

// escalation returns how the price of an energy grows, real.
func (a AlternativeOutcome) escalation(t cost.Energy) float64 {
	switch {
	case !t.Escalation.Known:
		return a.Escalation
	case a.Nominal.Known:
		return cost.Real(t.Escalation.Value, a.Nominal.Value.Inflation)
	}
	return t.Escalation.Value
}

// flows returns what the alternative costs over the study under a scenario.
func (a AlternativeOutcome) flows(s scenario) cost.Flows {
	f := cost.Flows{First: cost.Money(math.Round(float64(a.FirstCost.Value) * s.first))}
	for _, l := range a.Lines {
		if life := int(math.Round(l.LifeYears.Value)); life >= 1 && l.Amount.Value > 0 {
			again, residual := cost.Renew(a.Study, life, cost.Event{Item: l.Item, Zone: l.Zone, Amount: l.Amount.Value})
			f.Replacements, f.Residual = append(f.Replacements, again...), f.Residual+residual
		}
	}
	y := a.Years[s.winter]
	for _, b := range y.bills {
		moved := b.total - b.byUnits + cost.Money(math.Round(float64(b.byUnits)*s.price))
		f.Streams = append(f.Streams, cost.Stream{Name: b.tariff.ID, Yearly: moved, Escalation: a.escalation(b.tariff)})
	}
	if len(a.Cares) > 0 {
		f.Streams = append(f.Streams, cost.Stream{Name: cost.CareStream, Yearly: y.Care.Value})
	}
	if y.Clearing.Value > 0 {
		f.Streams = append(f.Streams, cost.Stream{Name: cost.ClearingStream, Yearly: y.Clearing.Value})
	}
	return f
}
