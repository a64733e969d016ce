package ingest

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest/columns"
)

// settleEnergy fills what a row of Energy leaves to its unit and its carrier, and says whether it yields heat.
func (r *reader) settleEnergy(e *cost.Energy, row record) bool {
	e.Currency = strings.ToUpper(e.Currency)
	if e.Currency != "" && !isCurrency(e.Currency) {
		r.tellRow(finding.Error, CodeCurrencyName, row, "energy_currency", finding.Words("typed", e.Currency))
		return false
	}
	if e.HeatKWh == 0 {
		u, known := units.Energy.Parse(e.Unit)
		if !known {
			r.tellRow(finding.Error, CodeHeatContent, row, "energy_heat_content", finding.Words("name", e.ID), finding.Words("unit", e.Unit))
			return false
		}
		e.HeatKWh = u.ToBase(1)
	}
	if e.Efficiency == 0 {
		usual, known := columns.EfficiencyDefaults[e.Carrier]
		if !known {
			r.tellRow(finding.Error, CodeEfficiency, row, "energy_efficiency", finding.Words("name", e.ID), finding.Words("carrier", e.Carrier))
			return false
		}
		e.Efficiency = usual
		r.tellRow(finding.Info, CodeEnergyDefault, row, "energy_efficiency", finding.Words("name", e.ID), finding.Words("heading", "Plant efficiency"),
			finding.Typed("value", usual, units.Factor))
	}
	if e.TierUnits.Known != e.TierPrice.Known {
		r.tellRow(finding.Warning, CodeTierHalf, row, "energy_tier", finding.Words("name", e.ID))
	}
	for _, d := range row.defaults {
		if d.Field == "energy_billing_months" && e.StandingMonth.Known {
			r.tellRow(finding.Info, CodeEnergyDefault, row, d.Field, finding.Words("name", e.ID), finding.Words("heading", "Billing months"), finding.Typed("value", d.Number, d.Quantity))
		}
	}
	return true
}

// rate tells a foreign currency that has no rate, at its first cell. It costs only the money that hangs on it.
func (r *reader) rate(currency string, row record, f finding.Field) {
	set := r.book.Settings
	if currency == "" || currency == set.Currency || !isCurrency(currency) || r.rated[currency] {
		return
	}
	r.rated[currency] = true
	if !slices.ContainsFunc(set.Rates, func(rate calc.Rate) bool { return rate.Currency == currency }) {
		r.tellRow(finding.Error, CodeRateMissing, row, f, finding.Words("currency", currency))
	}
}
