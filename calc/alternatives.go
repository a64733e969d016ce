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
	Clearing    ClearingLeft
	Tariff      cost.Energy
	PumpTariff  cost.Energy  // of its pumps; without an ID where it has none
	Years       [3]cost.Year // by cost.Winters; without amounts where there is no heat or no price
	Billed      bool
}

// Lost is a function that was wanted in a zone and that an alternative does not have there.
type Lost struct{ Zone, Code string }

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
	for i := range a.Zones {
		a.Zones[i].leaveClearing(was, i)
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
