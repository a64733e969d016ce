package cost

import (
	"fmt"
	"math"

	"thawbook/calc/season"
	"thawbook/calc/units"
)

// Electricity is the Energy.Carrier that drives pumps.
const Electricity = "electricity"

// Use is what one strategy takes from the plant for one zone in one winter.
type Use struct {
	Strategy string
	Winter   Winter
	HeatKWh  float64 // into the pavement: up, back and edge
	Months   [12]MonthUse
	AreaM2   float64
	PumpW    float64 // of the pumps at the wire; 0 without
	Hours    float64 // idling, melting and drying: the pumps run
}

// MonthUse is a zone's month.
type MonthUse struct {
	HeatKWh float64
	PeakKW  float64 // heat at the plant's output
}

// NoRateError tells of an energy priced in a currency whose worth is not known.
type NoRateError struct{ Currency string }

// Error names the currency.
func (e *NoRateError) Error() string { return fmt.Sprintf("no exchange rate for %q", e.Currency) }

// Bill returns what one winter under one strategy costs each of the zones that share a site and an energy row, in the order of uses.
//
//	units    = heat / (efficiency · heat content)
//	energy   = units · price; with a tier Σ over months [min(Σ over zones units, tier) · price + what is beyond it · price beyond]
//	demand   = charge · Σ over months with heat (Σ over zones peak) / efficiency
//	standing = charge · billing months
//	pump     = power · hours / its heat content · its price
//	CO2      = units · CO2 per unit, of heat and of pumps
//
//	heat        up, back and edge, HeatKWh                 [kWh]
//	efficiency  gross                                      [–]  above 0
//	peak        of a zone's month, at the plant's output   [kW]
//	power       of the pumps at the wire                   [kW]
//	worth       of one unit of the energy's currency in currency; 1 when they are the same
//
// One storm calls every zone, so the zones' peaks of a month add; the meter sees them over the efficiency. Demand is shared by the zones' parts of
// that sum, the standing charge by area, energy with a tier by their units, each so that the parts add up exactly (Share). A plant pays its standing charge under any control, used or
// not; unheated pavement has no plant and pays nothing. Pumps are paid by the unit at their own row of electricity; without one, or its price, their
// amount is blank. Their demand is left out: a meter that is there anyway hardly sees it. Without a price of heat every amount is blank; a charge that
// was not told is blank and left out of the total.
//
// Errors: NoRateError for a foreign currency with a worth that is not above 0; an efficiency or a heat content that is not above 0; a heat or a peak
// that is not a number.
func Bill(heat, pumps Tariff, currency string, uses []Use) ([]Year, error) {
	heat, pumps = heat.in(currency), pumps.in(currency)
	e, worth := heat.Energy, heat.Worth
	if err := check(e, worth, uses); err != nil {
		return nil, err
	}
	years := make([]Year, len(uses))
	group := groupOf(e, worth, currency, uses)
	byPeak, byArea := make([]float64, len(uses)), make([]float64, len(uses))
	for i, u := range uses {
		byPeak[i], byArea[i] = kWMonths(e, u), u.AreaM2
	}
	demand, standing := Share(group.Demand.Value, byPeak), Share(group.Standing.Value, byArea)
	energy := energies(e, group, worth, currency, uses)
	for i, u := range uses {
		y := &years[i]
		*y = Year{Strategy: u.Strategy, Winter: u.Winter, Currency: currency, Worth: worth, Group: group, HeatKWh: u.HeatKWh, PeakKW: u.peak()}
		y.Group.ZoneAreaM2, y.Group.ZoneKWMonths = byArea[i], byPeak[i]
		y.FuelUnits = e.units(u.HeatKWh)
		if e.CO2KgUnit.Known {
			y.CO2Kg = units.Some(y.FuelUnits * e.CO2KgUnit.Value)
		}
		y.price(e, energy[i], demand[i], standing[i])
		y.pump(pumps, u)
	}
	return years, nil
}

// in returns the tariff with the worth of its currency in another, which is 1 in its own.
func (t Tariff) in(currency string) Tariff {
	if t.Currency == "" || t.Currency == currency {
		t.Worth = 1
	}
	return t
}

// pump adds the pumps of a zone's year: their electricity, and its CO2 and cost where a row of Energy tells them.
func (y *Year) pump(t Tariff, u Use) {
	if u.PumpW == 0 {
		return
	}
	y.Pumps = Pumping{PowerW: u.PumpW, Hours: u.Hours, KWh: u.PumpW * u.Hours / 1000}
	if t.HeatKWh <= 0 {
		return
	}
	y.Pumps.Units, y.Pumps.Worth = y.Pumps.KWh/t.HeatKWh, t.Worth
	if y.CO2Kg.Known && t.CO2KgUnit.Known {
		y.CO2Kg.Value += y.Pumps.Units * t.CO2KgUnit.Value
	}
	if y.Total.Known && t.Price.Known && t.Worth > 0 {
		y.Pump = units.Some(FromMain(y.Pumps.Units*t.Price.Value*t.Worth, y.Currency))
		y.Total.Value += y.Pump.Value
	}
}

// units returns how many units of the carrier yield so much heat [kWh].
func (e Energy) units(heatKWh float64) float64 { return heatKWh / e.Efficiency / e.HeatKWh }

// energies returns what each zone pays by the unit.
func energies(e Energy, g Group, worth float64, currency string, uses []Use) []Money {
	byUnits := make([]float64, len(uses))
	for i, u := range uses {
		byUnits[i] = e.units(u.HeatKWh)
	}
	if g.Energy.Known {
		return Share(g.Energy.Value, byUnits)
	}
	out := make([]Money, len(uses))
	for i := range out {
		out[i] = FromMain(byUnits[i]*e.Price.Value*worth, currency)
	}
	return out
}

// above returns the units that zones buy together beyond the first tier of each month.
func above(e Energy, uses []Use) float64 {
	sum := 0.0
	for m := range 12 {
		month := 0.0
		for _, u := range uses {
			month += e.units(u.Months[m].HeatKWh)
		}
		sum += max(0, month-e.TierUnits.Value)
	}
	return sum
}

// price fills the amounts of a zone's year but for pumps.
func (y *Year) price(e Energy, energy, demand, standing Money) {
	if !e.Price.Known {
		return
	}
	y.Energy = units.Some(energy)
	if y.Group.Demand.Known {
		y.Demand = units.Some(demand)
	}
	if y.Group.Standing.Known {
		y.Standing = units.Some(standing)
	}
	y.Total = units.Some(y.Energy.Value + y.Demand.Value + y.Standing.Value)
}

// groupOf returns what the zones are charged for together.
func groupOf(e Energy, worth float64, currency string, uses []Use) Group {
	g := Group{Zones: len(uses)}
	heated := false
	for _, u := range uses {
		g.AreaM2 += u.AreaM2
		g.KWMonths += kWMonths(e, u)
		g.Units += e.units(u.HeatKWh)
		heated = heated || u.Strategy != string(season.Unheated)
	}
	if !e.Price.Known {
		return g
	}
	if e.Tiered() {
		g.UnitsAbove = above(e, uses)
		g.Energy = units.Some(FromMain(((g.Units-g.UnitsAbove)*e.Price.Value+g.UnitsAbove*e.TierPrice.Value)*worth, currency))
	}
	if e.DemandKWMonth.Known {
		g.Demand = units.Some(FromMain(g.KWMonths*e.DemandKWMonth.Value*worth, currency))
	}
	if e.StandingMonth.Known {
		g.Standing = units.Some(Money(0))
		if heated {
			g.Standing = units.Some(FromMain(e.StandingMonth.Value*e.BillingMonths*worth, currency))
		}
	}
	return g
}

// kWMonths returns the power bought at a zone's monthly peaks, summed over the months, in kW·month. The zones' sums add up to the sum of the
// months' coincident peaks.
func kWMonths(e Energy, u Use) float64 {
	sum := 0.0
	for _, m := range u.Months {
		sum += m.PeakKW
	}
	return sum / e.Efficiency
}

// peak returns the greatest monthly peak in kW.
func (u Use) peak() float64 {
	greatest := 0.0
	for _, m := range u.Months {
		greatest = max(greatest, m.PeakKW)
	}
	return greatest
}

// check refuses what would make an amount that is not a number.
func check(e Energy, worth float64, uses []Use) error {
	if !(worth > 0 && !math.IsInf(worth, 0)) {
		return &NoRateError{e.Currency}
	}
	if !(e.Efficiency > 0 && e.HeatKWh > 0) {
		return fmt.Errorf("energy %q: efficiency %g and heat content %g kWh: want both above 0", e.ID, e.Efficiency, e.HeatKWh)
	}
	for _, u := range uses {
		if !finite(u.PumpW * u.Hours) {
			return fmt.Errorf("%s, %s winter: pump %g W for %g h: want numbers", u.Strategy, u.Winter, u.PumpW, u.Hours)
		}
		if !finite(u.HeatKWh) || !finite(u.peak()) || !finite(kWMonths(e, u)) {
			return fmt.Errorf("%s, %s winter: heat %g kWh, peak %g kW: want numbers", u.Strategy, u.Winter, u.HeatKWh, u.peak())
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
