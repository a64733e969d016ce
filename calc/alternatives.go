package calc

import (
	"cmp"
	"math"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// Names of the alternatives that every site has.
const (
	NameBase      = "base case"
	NameAsInSites = "as in Sites"
)

// Codes of findings about alternatives.
const (
	CodeAlternativeUnknown finding.Code = "chosen-alternative-unknown"
	CodeChoicesDiffer      finding.Code = "chosen-alternatives-differ"
	CodeClearingNotTold    finding.Code = "clearing-not-told"
	CodeControlNotTold     finding.Code = "control-now-not-told"
	CodeNoUnitCost         finding.Code = "no-unit-cost"
)

// Functions that can be lost besides those that sensing says its kit lacks.
const (
	lacksHeat      = "lacks-heat"
	lacksDetector  = "lacks-detector"
	lacksDryStop   = "lacks-dry-stop"
	lacksIdling    = "lacks-idling"
	notWantedAlone = "lacks-slab-temperature" // what a good kit has and nobody asked for
)

// Shares by which the sensitivity moves a price and a first cost. Source: judgement.
const (
	priceShare = 0.20
	firstShare = 0.20
)

// AlternativeOutcome is what one way of doing a site takes and costs, over its life too.
type AlternativeOutcome struct {
	Name        string
	Base        bool // the base case: control, clearing and pavement as they are now
	AsInSites   bool // the site as Sites describes it
	Proposed    bool // by the engine
	Currency    string
	Zones       []AlternativeZone
	Lines       []cost.Line // of the first cost, contingency last
	FirstCost   units.Maybe[cost.Money]
	Cares       []cost.Care // care and repairs of a year
	Years       [3]YearCost // by cost.Winters
	Study       cost.Study
	Escalation  float64                   // of energy prices, real, where a row of Energy tells none
	Nominal     units.Maybe[Nominal]      // blank where rates are told as real ones
	Flows       cost.Flows                // in a typical winter; meaningful where Life is known
	Life        units.Maybe[cost.Life]    // blank without first cost or yearly cost
	Savings     units.Maybe[cost.Savings] // against the base case; blank in it
	BreakEven   units.Maybe[BreakEven]
	Sensitivity []Sensitivity // the widest first; none without savings
	Lost        []Lost        // functions that were wanted and are not there
	Rank        int           // by present value, those that lose a function last; 0 without a present value
	Err         error         // of a zone that could not be calculated; then there is no money
}

// Nominal is the inflation in rates that were told, and the discount rate as it was typed.
type Nominal struct {
	Discount     float64
	DiscountTold bool // else the usual real one was taken
	Inflation    float64
}

// AlternativeZone is a zone in an alternative.
type AlternativeZone struct {
	Outcome     Outcome
	Strategy    string // of its control; "unheated" without heat
	Heated      bool
	ClearingNow bool // its snow is cleared as now
	Tariff      cost.Energy
	PumpTariff  cost.Energy  // of its pumps; without an ID where it has none
	Years       [3]cost.Year // by cost.Winters; without amounts where there is no heat or no price
	Billed      bool
}

// YearCost is what a site costs in one winter. Amounts are sums of the zones' rounded ones; a charge that no zone has is blank.
type YearCost struct {
	Winter                         cost.Winter
	HeatKWh                        float64 // into the pavement
	Energy, Demand, Standing, Pump units.Maybe[cost.Money]
	Care, Clearing                 units.Maybe[cost.Money]
	Total                          units.Maybe[cost.Money] // blank where an amount is missing that belongs to it
	CO2Kg                          units.Maybe[float64]
	bills                          []charged
}

// charged is what a row of Energy takes in a winter.
type charged struct {
	tariff  cost.Energy
	units   float64
	byUnits cost.Money // energy and pumps: what follows the price of a unit
	total   cost.Money
	worth   float64
}

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

// Lost is a function that was wanted in a zone and that an alternative does not have there.
type Lost struct{ Zone, Code string }

// scenario is what the life cycle is valued under.
type scenario struct {
	winter       int
	price, first float64 // factors
}

var asPlanned = scenario{winter: 1, price: 1, first: 1}

// alternatives calculates the base case, the site as in Sites and what is named or proposed beside them. Without all zones there is nothing to
// compare.
func (e *Engine) alternatives(so *SiteOutcome) []AlternativeOutcome {
	if len(so.Outcomes) == 0 || slices.ContainsFunc(so.Outcomes, func(o Outcome) bool { return o.Status() == StatusError || len(o.Seasons) == 0 }) {
		return nil
	}
	list := []AlternativeOutcome{e.baseCase(so), e.asInSites(so)}
	named := so.Site.Alternatives
	if len(named) == 0 {
		named = e.propose(so)
	}
	for _, a := range named {
		list = add(list, e.alternative(so, a))
	}
	if same(list[0], list[1]) && len(list[1].Lines) == 0 { // nothing is done to any zone
		list = slices.Delete(list, 1, 2)
	}
	for i := range list {
		list[i].against(list[0])
	}
	rank(list)
	return list
}

// add takes in an alternative, but for a proposal that comes to what is listed already.
func add(list []AlternativeOutcome, a AlternativeOutcome) []AlternativeOutcome {
	if a.Proposed && a.Err == nil && slices.ContainsFunc(list, func(b AlternativeOutcome) bool { return same(a, b) && slices.Equal(a.Lines, b.Lines) }) {
		return list
	}
	return append(list, a)
}

// same says whether two alternatives heat the same zones under the same controls.
func same(a, b AlternativeOutcome) bool {
	return slices.EqualFunc(a.Zones, b.Zones, func(a, b AlternativeZone) bool { return a.Heated == b.Heated && a.Strategy == b.Strategy })
}

// baseCase is the site as it is: an existing slab under its control of today, a new pour without heat, and snow cleared as now.
func (e *Engine) baseCase(so *SiteOutcome) AlternativeOutcome {
	a := AlternativeOutcome{Name: NameBase, Base: true}
	for _, o := range so.Outcomes {
		a.Zones = append(a.Zones, asItIs(o))
	}
	return e.finish(a, nil)
}

// asItIs returns a zone as it is now.
func asItIs(o Outcome) AlternativeZone {
	z := AlternativeZone{Outcome: o, Strategy: string(season.Unheated), ClearingNow: true}
	if o.Zone.Slab.Stage == ExistingHeated {
		z.Strategy, z.Heated = string(o.strategyNow()), true
	}
	return z
}

// asDesigned returns a zone with its kit in control.
func asDesigned(o Outcome) AlternativeZone {
	if o.Zone.Slab.Stage == ExistingUnheated {
		return asItIs(o)
	}
	return AlternativeZone{Outcome: o, Strategy: o.Sensing.Strategy, Heated: true}
}

// asInSites is the site as Sites describes it, with the kits that were chosen.
func (e *Engine) asInSites(so *SiteOutcome) AlternativeOutcome {
	a := AlternativeOutcome{Name: NameAsInSites, AsInSites: true}
	for _, o := range so.Outcomes {
		a.Zones = append(a.Zones, asDesigned(o))
	}
	return e.finish(a, so.Outcomes)
}

// alternative calculates the zones that it names through the whole engineering. Of the others an existing slab stays under its control of today, and
// a pour is as in Sites.
func (e *Engine) alternative(so *SiteOutcome, named Alternative) AlternativeOutcome {
	a := AlternativeOutcome{Name: named.Name, Proposed: named.Proposed}
	for _, was := range so.Outcomes {
		i := slices.IndexFunc(named.Zones, func(z Zone) bool { return z.Ref.ZoneID == was.Zone.Ref.ZoneID })
		switch {
		case i >= 0:
			o := e.guardedBeside(named.Zones[i], &was.Seasons[0].Input)
			if o.Status() == StatusError || len(o.Seasons) == 0 || o.Sensing == nil {
				a.Err = cmp.Or(a.Err, o.Err, errNotCalculated)
				a.Zones = append(a.Zones, AlternativeZone{Outcome: o})
				continue
			}
			a.Zones = append(a.Zones, asDesigned(o))
		case was.Zone.Slab.Existing():
			a.Zones = append(a.Zones, asItIs(was))
		default:
			a.Zones = append(a.Zones, asDesigned(was))
		}
	}
	return e.finish(a, so.Outcomes)
}

// finish finds quantities, first cost, yearly cost and present value. was is the zones as in Sites; nil in the base case, where nothing is done.
func (e *Engine) finish(a AlternativeOutcome, was []Outcome) AlternativeOutcome {
	s := e.in.Settings
	a.Currency, a.Escalation = s.Currency, s.real("energy_escalation", s.EnergyEscalation)
	a.Study = cost.Study{Years: int(math.Round(s.AnalysisYears)), Discount: s.real("discount_rate", s.DiscountRate)}
	if s.Inflation.Known {
		a.Nominal = units.Some(Nominal{Discount: s.DiscountRate, DiscountTold: !s.defaulted("discount_rate"), Inflation: s.Inflation.Value})
	}
	if a.Err != nil {
		return a
	}
	a.Lost = lost(a.Zones)
	a.Lines = e.lines(a.Zones, was)
	a.FirstCost = cost.Sum(a.Lines)
	a.Cares = e.cares(a)
	e.charge(&a)
	if a.FirstCost.Known && a.Years[1].Total.Known {
		a.Flows = a.flows(asPlanned)
		if life, err := cost.Value(a.Study, a.Flows); err == nil {
			a.Life = units.Some(life)
		} else {
			a.Err = err
		}
	}
	return a
}

// book is the unit costs with the rates of Settings.
func (e *Engine) book() cost.Book {
	return cost.Book{Costs: e.in.UnitCosts, System: e.in.Settings.Units, Currency: e.in.Settings.Currency, Worth: e.in.Settings.worth}
}

// lines prices what the zones need. A zone's own first cost takes the place of its lines, which stay as quantities.
func (e *Engine) lines(zones []AlternativeZone, was []Outcome) []cost.Line {
	if was == nil {
		return nil
	}
	b := e.book()
	var list []cost.Line
	var all []works
	estimated := false
	for i, z := range zones {
		w := works{was: was[i].Zone, now: z.Outcome.Zone, o: z.Outcome, strategy: asItIs(was[i]).Strategy}
		if z.ClearingNow {
			w.o.Sensing, w.o.Slab = nil, nil // it stays as it is: nothing is done
		}
		takes := w.takes(e.in.Parts)
		own := w.now.Money.FirstCost
		if len(takes) > 0 || own.Known && !z.ClearingNow {
			all = append(all, w)
			estimated = estimated || !own.Known
		}
		for _, t := range takes {
			if own.Known && t.Why == cost.Counted {
				t.Why = cost.OwnInstead
			}
			list = append(list, b.Price(t))
		}
		if own.Known && !z.ClearingNow {
			list = append(list, b.Own(w.now.Ref.ZoneID, own.Value, w.now.typedAt("first_cost")))
		}
	}
	for _, t := range e.common(all) {
		if !estimated {
			t.Why = cost.OwnInstead
		}
		list = append(list, b.Price(t))
	}
	return b.AddContingency(list, e.in.Settings.ContingencyNew, e.in.Settings.ContingencyRetrofit)
}

// cares lists the yearly care of the zones with heat.
func (e *Engine) cares(a AlternativeOutcome) []cost.Care {
	size := cost.Size{First: a.FirstCost}
	for _, z := range a.Zones {
		if z.Heated {
			size.Zones++
			size.AreaM2 += z.Outcome.Zone.Extent.AreaM2
		}
	}
	if size.Zones == 0 {
		return nil
	}
	return e.book().Cares(size)
}

// charge bills the zones under their controls and adds care and clearing.
func (e *Engine) charge(a *AlternativeOutcome) {
	done := map[string]bool{}
	for i := range a.Zones {
		id := fold(a.Zones[i].Outcome.Zone.Heat.EnergyID)
		if !a.Zones[i].Heated || done[id] {
			continue
		}
		done[id] = true
		var group []*AlternativeZone
		for k := range a.Zones {
			if z := &a.Zones[k]; z.Heated && fold(z.Outcome.Zone.Heat.EnergyID) == id {
				group = append(group, z)
			}
		}
		if err := e.chargeGroup(a.Zones[i].Outcome.Zone.Heat.EnergyID, group); err != nil {
			a.Err = cmp.Or(a.Err, err)
		}
	}
	for w := range cost.Winters {
		a.Years[w] = a.year(w)
	}
}

// chargeGroup bills zones that use the same row of Energy, each under its own control, in the winters that cost it as little, as usual and as much.
func (e *Engine) chargeGroup(id string, group []*AlternativeZone) error {
	tariff, worth, problem := e.tariff(id)
	switch problem {
	case CodeEnergyNotTold, CodeEnergyUnknown, CodeEnergyRefused, CodeNoHeatContent:
		return nil // what is missing was told of the zones as in Sites
	case CodeCurrencyWithoutRate:
		tariff.Price = units.Maybe[float64]{}
	}
	pumps := e.pumps(tariff)
	bill := func(uses []cost.Use) ([]cost.Year, error) {
		return cost.Bill(cost.Tariff{Energy: tariff, Worth: worth}, pumps, e.in.Settings.Currency, uses)
	}
	outcomes, under := make([]*Outcome, len(group)), make([]*season.Result, len(group))
	for i, z := range group {
		outcomes[i], under[i] = &z.Outcome, z.season()
		if under[i] == nil {
			return errNotCalculated
		}
	}
	ladders, err := climb(outcomes, under, bill)
	if err != nil {
		return err
	}
	for w, winter := range cost.Winters {
		uses := make([]cost.Use, len(group))
		for i, o := range outcomes {
			uses[i] = ladders[i].at(o.Snow.shares()[w])
			uses[i].Winter = winter
		}
		years, err := bill(uses)
		if err != nil {
			return err
		}
		for i, z := range group {
			z.Years[w], z.Tariff, z.Billed = years[i], tariff, true
			if years[i].Pumps.PowerW > 0 {
				z.PumpTariff = pumps.Energy
			}
		}
	}
	return nil
}

// Season returns the zone's winters under its control: hours with snow on the surface stand beside the money.
func (z AlternativeZone) Season() (season.Result, bool) {
	if r := z.season(); r != nil {
		return *r, true
	}
	return season.Result{}, false
}

func (z *AlternativeZone) season() *season.Result {
	for i := range z.Outcome.Seasons {
		if r := &z.Outcome.Seasons[i]; string(r.Strategy) == z.Strategy {
			return r
		}
	}
	return nil
}

// year adds up a winter.
func (a *AlternativeOutcome) year(w int) YearCost {
	y := YearCost{Winter: cost.Winters[w], CO2Kg: units.Some(0.0), Care: units.Some(cost.Money(0)), Clearing: units.Some(cost.Money(0))}
	whole := true
	for _, z := range a.Zones {
		if z.ClearingNow {
			y.clear(z, a.Currency)
		}
		if !z.Heated {
			continue
		}
		c := z.Years[w]
		whole = whole && c.Total.Known
		if z.Billed {
			y.add(c, z.Tariff, z.PumpTariff)
		}
	}
	for _, c := range a.Cares {
		y.Care = units.Maybe[cost.Money]{Value: y.Care.Value + c.Amount.Value, Known: y.Care.Known && c.Amount.Known}
	}
	if whole && y.Care.Known && y.Clearing.Known {
		y.Total = units.Some(y.Energy.Value + y.Demand.Value + y.Standing.Value + y.Pump.Value + y.Care.Value + y.Clearing.Value)
	}
	return y
}

// clear adds what clearing a zone's snow costs now. Of a heated slab that tells none nothing is taken off by any alternative either.
func (y *YearCost) clear(z AlternativeZone, currency string) {
	told := z.Outcome.Zone.Money.ClearingCost
	if told.Known {
		y.Clearing.Value += cost.FromMain(told.Value, currency)
	}
	y.Clearing.Known = y.Clearing.Known && (told.Known || z.Heated)
}

// add takes a zone's bill in.
func (y *YearCost) add(c cost.Year, heat, pumps cost.Energy) {
	y.HeatKWh += c.HeatKWh
	y.Energy, y.Demand, y.Standing, y.Pump = more(y.Energy, c.Energy), more(y.Demand, c.Demand), more(y.Standing, c.Standing), more(y.Pump, c.Pump)
	y.CO2Kg = units.Maybe[float64]{Value: y.CO2Kg.Value + c.CO2Kg.Value, Known: y.CO2Kg.Known && c.CO2Kg.Known}
	y.charge(charged{tariff: heat, worth: c.Worth, units: c.FuelUnits, byUnits: c.Energy.Value, total: c.Total.Value - c.Pump.Value})
	if c.Pump.Known {
		y.charge(charged{tariff: pumps, worth: c.Pumps.Worth, units: c.Pumps.Units, byUnits: c.Pump.Value, total: c.Pump.Value})
	}
}

// charge adds to what its row of Energy takes.
func (y *YearCost) charge(c charged) {
	i := slices.IndexFunc(y.bills, func(b charged) bool { return b.tariff.ID == c.tariff.ID })
	if i < 0 {
		y.bills = append(y.bills, c)
		return
	}
	b := &y.bills[i]
	b.units += c.units
	b.byUnits += c.byUnits
	b.total += c.total
}

// more adds an amount to a sum; a blank one leaves it.
func more(sum, add units.Maybe[cost.Money]) units.Maybe[cost.Money] {
	if !add.Known {
		return sum
	}
	return units.Some(sum.Value + add.Value)
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
