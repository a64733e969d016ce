package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// bills prices every strategy and winter: the zones of a site that use the same row of Energy share one bill.
func (e *Engine) bills(list []Outcome) {
	done := map[string]bool{}
	for i := range list {
		id := list[i].Zone.Heat.EnergyID
		if done[fold(id)] {
			continue
		}
		done[fold(id)] = true
		var group []*Outcome
		for j := range list {
			if fold(list[j].Zone.Heat.EnergyID) == fold(id) && list[j].wintered() {
				group = append(group, &list[j])
			}
		}
		e.bill(id, group)
	}
}

// bill prices the zones of one bill, strategy by strategy, and judges them by what they cost.
func (e *Engine) bill(id string, group []*Outcome) {
	if len(group) == 0 {
		return
	}
	tariff, worth, problem := e.tariff(id)
	priced := tariff
	switch problem {
	case CodeEnergyNotTold, CodeEnergyUnknown, CodeEnergyRefused, CodeNoHeatContent:
		return
	case CodeCurrencyWithoutRate: // fuel and CO2 stand, amounts stay blank
		priced.Price = units.Maybe[float64]{}
	}
	pumps := e.pumps(tariff)
	err := e.price(cost.Tariff{Energy: priced, Worth: worth}, pumps, group)
	for _, o := range group {
		if !o.fail(err) {
			o.Costs = nil
			continue
		}
		o.Tariff = tariff
		if o.Piping != nil {
			o.PumpTariff = pumps.Energy
			o.judgePumps(pumps)
		}
		o.compareClearing(e.in.Settings.Currency)
		o.meter()
	}
}

// price fills the costs of the zones of one bill: every strategy in a mild, a typical and a severe winter, by the order in which the zone's winters
// cost under that strategy.
func (e *Engine) price(heat, pumps cost.Tariff, group []*Outcome) error {
	bill := func(uses []cost.Use) ([]cost.Year, error) {
		return cost.Bill(heat, pumps, e.in.Settings.Currency, uses)
	}
	for s, strategy := range season.Strategies {
		under := make([]*season.Result, len(group))
		for i, o := range group {
			under[i] = &o.Seasons[s]
		}
		ladders, err := climb(group, under, bill)
		if err != nil {
			return err
		}
		for w, winter := range cost.Winters {
			uses := make([]cost.Use, len(group))
			for i, o := range group {
				uses[i] = ladders[i].at(o.Snow.shares()[w])
				uses[i].Winter = winter
			}
			years, err := bill(uses)
			if err != nil {
				return err
			}
			for i, o := range group {
				o.Costs = append(o.Costs, years[i])
			}
		}
		for i, o := range group {
			if o.Sensing != nil && o.Sensing.Strategy == string(strategy) {
				o.Winters = ladders[i].winters
			}
		}
	}
	return nil
}

// wintered says whether every strategy ran through the winters; a zone that failed on the way has no bill.
func (o Outcome) wintered() bool { return o.Err == nil && len(o.Seasons) == len(season.Strategies) }

// compareClearing says so when clearing the snow as now costs less than the heat.
func (o *Outcome) compareClearing(currency string) {
	year, found := o.ChosenCost(cost.TypicalWinter)
	if !found || !year.Total.Known || !o.Zone.Money.ClearingCost.Known {
		return
	}
	if now := cost.FromMain(o.Zone.Money.ClearingCost.Value, currency); now < year.Total.Value {
		o.add(finding.Info, CodeClearingCheaper, "clearing_cost", finding.Amount("now", int64(now)), finding.Amount("heat", int64(year.Total.Value)))
	}
}
