package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/finding"
)

// Codes of findings about the row of Energy that a zone names.
const (
	CodeEnergyNotTold       finding.Code = "energy-not-told"
	CodeEnergyUnknown       finding.Code = "energy-unknown"
	CodeEnergyRefused       finding.Code = "energy-refused"
	CodeNoPrice             finding.Code = "no-price"
	CodeNoHeatContent       finding.Code = "no-heat-content"
	CodeCurrencyWithoutRate finding.Code = "currency-without-rate"
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
