// Package cost turns a winter's heat into fuel, money and CO2.
package cost

import (
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Money is an amount in whole minor units of its currency (cents). It is rounded once, where it arises; totals are sums of rounded rows.
type Money int64

// Energy is one row of the Energy sheet: a carrier, how it becomes heat and what it costs. Prices in the main unit of Currency.
type Energy struct {
	ID            string
	Carrier       string               // gas, oil, propane, electricity, district heat, other
	Unit          string               // of the carrier, as sold: "m³", "kWh", "therm"
	Price         units.Maybe[float64] // per unit
	TierUnits     units.Maybe[float64] // a month at Price; what is bought beyond them costs TierPrice. Blank: one price
	TierPrice     units.Maybe[float64] // per unit
	HeatKWh       float64              // heat content of a unit, gross [kWh]
	Efficiency    float64              // gross, 0.3 to 6
	StandingMonth units.Maybe[float64]
	DemandKWMonth units.Maybe[float64]
	BillingMonths float64
	CO2KgUnit     units.Maybe[float64]
	Escalation    units.Maybe[float64] // of its price, real; blank: that of Settings
	Currency      string
	Example       bool // the price is an example of the starter or the demo
}

// Tiered says whether the price of a unit changes with how much of it is bought in a month.
func (e Energy) Tiered() bool { return e.TierUnits.Known && e.TierPrice.Known }

// Tariff is a row of Energy and what one unit of its currency is worth in the workbook's.
type Tariff struct {
	Energy
	Worth float64
}

// Winter names a kind of winter, in the words of results.json.
type Winter string

// The winters.
const (
	Mild          Winter = "mild"
	TypicalWinter Winter = "typical"
	Severe        Winter = "severe"
)

// Winters in order.
var Winters = [3]Winter{Mild, TypicalWinter, Severe}

// Year is what one strategy costs a zone in one winter. Amounts are blank without a price.
type Year struct {
	Strategy  string
	Winter    Winter
	Currency  string  // of the amounts
	Worth     float64 // of one unit of the energy's currency in Currency
	Group     Group   // what the zone's demand and standing charge are shared from
	HeatKWh   float64 // into the pavement: up, back and edge
	FuelUnits float64 // of the carrier
	PeakKW    float64 // greatest monthly peak at the plant's output
	Pumps     Pumping
	Energy    units.Maybe[Money]
	Demand    units.Maybe[Money]
	Standing  units.Maybe[Money]
	Pump      units.Maybe[Money]
	Total     units.Maybe[Money] // of the amounts that are known; blank without a price
	CO2Kg     units.Maybe[float64]
}

// Pumping is the electricity of a zone's pumps in one winter; zero without pumps.
type Pumping struct {
	PowerW float64 // at the wire
	Hours  float64 // idling, melting and drying
	KWh    float64
	Units  float64 // of the row of Energy that prices it; 0 without one
	Worth  float64 // of one unit of that row's currency in Year.Currency
}

// Group is what the zones that share a site and an energy row are charged for together in one winter.
type Group struct {
	Zones        int
	AreaM2       float64
	KWMonths     float64 // power bought at each month's coincident peak, summed over the months [kW·month]
	ZoneAreaM2   float64 // this zone's part of AreaM2
	ZoneKWMonths float64 // this zone's part of KWMonths
	Units        float64 // bought of the carrier
	UnitsAbove   float64 // of them beyond the months' first tiers; 0 with one price
	Energy       units.Maybe[Money]
	Demand       units.Maybe[Money]
	Standing     units.Maybe[Money]
}

// UnitCost is one row of the Costs sheet.
type UnitCost struct {
	Item      string
	Unit      string
	Cost      units.Maybe[float64]
	LifeYears units.Maybe[float64] // until it is replaced; blank: it lasts as long as the study
	Currency  string
	Example   bool
	At        finding.Cell // where the cost was typed
}

// Decimals returns how many decimals a currency's minor unit has: 2, but for those without one.
func Decimals(currency string) int {
	switch currency {
	case "JPY", "KRW", "ISK", "CLP", "VND":
		return 0
	}
	return 2
}

// Main returns the amount in the currency's main unit.
func (m Money) Main(currency string) float64 {
	if Decimals(currency) == 0 {
		return float64(m)
	}
	return float64(m) / 100
}

// FromMain returns an amount of a currency's main unit as Money: the one place where money is rounded, half a minor unit away from zero.
func FromMain(amount float64, currency string) Money {
	return Money(math.Round(amount * math.Pow10(Decimals(currency))))
}
