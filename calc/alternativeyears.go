package calc

import (
	"cmp"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

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

// ClearingLeft is how much of the clearing of now an alternative leaves to do in a zone.
type ClearingLeft struct {
	SnowH, SnowNowH float64 // hours of a typical winter with snow on the surface: in the alternative, and as the zone is now
	Share           float64 // of the clearing cost
}

// leaveClearing finds what of a zone's clearing is left. Heat that leaves snow on the surface leaves it to be cleared.
//
//	share = S / S_now, at most 1
//
//	S  hours with snow on the surface in a typical winter under the control of the alternative [h], S_now under that of now
//
// Source: judgement; clearing is called by the hours in which there is something to clear. Where the hours are not known nothing is left.
func (z *AlternativeZone) leaveClearing(was []Outcome, i int) {
	if z.ClearingNow || was == nil {
		z.Clearing.Share = 1
		return
	}
	now := asItIs(was[i])
	mine, theirs := z.season(), now.season()
	if mine == nil || theirs == nil || !mine.SnowOnSurfaceH.Known || theirs.SnowOnSurfaceH.Value <= 0 {
		return
	}
	c := ClearingLeft{SnowH: mine.SnowOnSurfaceH.Value, SnowNowH: theirs.SnowOnSurfaceH.Value}
	c.Share = min(1, c.SnowH/c.SnowNowH)
	z.Clearing = c
}

// charged is what a row of Energy takes in a winter.
type charged struct {
	tariff  cost.Energy
	units   float64
	byUnits cost.Money // energy and pumps: what follows the price of a unit
	total   cost.Money
	worth   float64
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
		y.clear(z, a.Currency)
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

// clear adds what is left of clearing a zone's snow. Of a heated slab that tells no cost of it nothing is taken off by any alternative either.
func (y *YearCost) clear(z AlternativeZone, currency string) {
	told := z.Outcome.Zone.Money.ClearingCost
	if told.Known {
		y.Clearing.Value += cost.FromMain(told.Value*z.Clearing.Share, currency)
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
