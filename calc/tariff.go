package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Codes of findings about the row of Energy that a zone names.
const (
	CodeEnergyNotTold       finding.Code = "energy-not-told"
	CodeEnergyUnknown       finding.Code = "energy-unknown"
	CodeEnergyRefused       finding.Code = "energy-refused"
	CodeNoPrice             finding.Code = "no-price"
	CodeNoHeatContent       finding.Code = "no-heat-content"
	CodeCurrencyWithoutRate finding.Code = "currency-without-rate"
	CodePumpsNotPriced      finding.Code = "pumps-not-priced"
)

// judgeTariff tells what a heated zone's row of Energy lacks.
func (e *Engine) judgeTariff(o *Outcome) {
	if o.unheated() {
		return
	}
	id := o.Zone.Heat.EnergyID
	if row, _, problem := e.tariff(id); problem != "" {
		o.add(finding.Warning, problem, "energy_id", finding.Words("id", id), finding.Words("currency", row.Currency))
	}
}

// tariff returns the Energy row of that name and what its currency is worth in the workbook's, with the code of what is missing.
func (e *Engine) tariff(id string) (cost.Energy, float64, finding.Code) {
	if id == "" {
		return cost.Energy{}, 0, CodeEnergyNotTold
	}
	want := fold(id)
	for _, row := range e.in.Energies {
		if fold(row.ID) != want {
			continue
		}
		worth, known := e.in.Settings.worth(row.Currency)
		switch {
		case row.HeatKWh <= 0 || row.Efficiency <= 0:
			return row, 1, CodeNoHeatContent
		case !known:
			return row, 1, CodeCurrencyWithoutRate
		case !row.Price.Known:
			return row, worth, CodeNoPrice
		}
		return row, worth, ""
	}
	for _, refused := range e.in.EnergyRefused {
		if fold(refused) == want {
			return cost.Energy{}, 0, CodeEnergyRefused
		}
	}
	return cost.Energy{}, 0, CodeEnergyUnknown
}

// pumps returns the row of Energy that the electricity of pumps is bought by: that of the heat where it is electricity, else the first row of it. Without
// one its ID is blank.
func (e *Engine) pumps(heat cost.Energy) cost.Tariff {
	for _, row := range append([]cost.Energy{heat}, e.in.Energies...) {
		if row.Carrier == cost.Electricity && row.HeatKWh > 0 {
			worth, _ := e.in.Settings.worth(row.Currency) // 0 without a rate: then it has no price
			return cost.Tariff{Energy: row, Worth: worth}
		}
	}
	return cost.Tariff{}
}

// judgePumps says so where the heat has a price and the pumps have none.
func (o *Outcome) judgePumps(pumps cost.Tariff) {
	if year, found := o.ChosenCost(cost.TypicalWinter); found && year.Total.Known && year.Pumps.PowerW > 0 && !year.Pump.Known {
		o.add(finding.Info, CodePumpsNotPriced, "energy_id", finding.Value("electricity", units.Energy.In(units.SI).ToBase(year.Pumps.KWh), units.Energy), finding.Words("id", pumps.ID))
	}
}

// worth returns what one unit of a currency is worth in the workbook's currency.
func (s Settings) worth(currency string) (float64, bool) {
	if currency == "" || currency == s.Currency {
		return 1, true
	}
	for _, r := range s.Rates {
		if r.Currency == currency && r.Worth > 0 {
			return r.Worth, true
		}
	}
	return 0, false
}
