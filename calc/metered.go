package calc

import (
	"math"
	"strings"
	"unicode"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// CodeMeteredApart tells of a metered energy far from the calculated one.
const CodeMeteredApart finding.Code = "metered-apart"

// meteredApart is the share of the calculated energy from which a difference is a warning. Source: engineering method; nothing is tuned to it.
const meteredApart = 0.40

// Metered is the energy that an existing system used beside what is calculated for the way it is controlled now: in the winter that is named where the
// station's record holds it, else in a typical one.
type Metered struct {
	Strategy      season.Strategy // of the control now
	Winter        string          // that the user names
	Recorded      string          // the same as the record has it; blank: it does not, and a typical winter was taken
	UsedKWh       float64         // bought, as metered
	CalculatedKWh float64         // bought: heat over efficiency
	Difference    float64         // used over calculated less 1
}

// strategyNow returns the strategy that the control of today names; that of the proposed kit where it was not told.
func (o Outcome) strategyNow() season.Strategy {
	n := o.Zone.Sensing
	slab := n.SlabSensor == Yes
	switch n.ControlNow {
	case "none":
		return season.AlwaysOn
	case "manual", "timer":
		if slab {
			return season.ManualSlab
		}
		return season.Manual
	case "aerial detector":
		if slab {
			return season.AerialSlab
		}
		return season.Aerial
	case "in-pavement detector":
		return season.Pavement
	}
	if o.Sensing == nil {
		return season.Unheated
	}
	return season.Strategy(o.Sensing.Strategy)
}

// meter compares the metered energy with the calculated one, where both are known.
func (o *Outcome) meter() {
	used := o.Zone.Money.EnergyUsedKWh
	if !used.Known || o.Zone.Slab.Stage != ExistingHeated {
		return
	}
	m := Metered{Strategy: o.strategyNow(), Winter: o.Zone.Money.EnergyUsedWinter, UsedKWh: used.Value}
	for _, y := range o.Costs {
		if y.Strategy == string(m.Strategy) && y.Winter == cost.TypicalWinter {
			m.CalculatedKWh = y.FuelUnits * o.Tariff.HeatKWh
		}
	}
	if y, found := o.recorded(m.Strategy, m.Winter); found {
		m.Recorded, m.CalculatedKWh = y.Label, use(*o, m.Strategy, y).HeatKWh/o.Tariff.Efficiency
	}
	if m.CalculatedKWh <= 0 {
		return
	}
	m.Difference = m.UsedKWh/m.CalculatedKWh - 1
	o.Metered = &m
	if math.Abs(m.Difference) > meteredApart {
		o.add(finding.Warning, CodeMeteredApart, "energy_used", finding.Value("used", m.UsedKWh, units.Energy), finding.Value("calculated", m.CalculatedKWh, units.Energy),
			finding.Value("difference", m.Difference, units.Share), finding.Words("strategy", string(m.Strategy)))
	}
}

// recorded returns the winter of a record of several that begins with the year in a text: "2024/25", "winter of 2024".
func (o Outcome) recorded(strategy season.Strategy, typed string) (season.YearTotal, bool) {
	for _, r := range o.Seasons {
		if r.Strategy != strategy || o.Weather.Kind != weather.Observed {
			continue
		}
		for _, y := range r.Years {
			if y.SnowFactor == 1 && y.Label != "" && y.Label == yearIn(typed) {
				return y, true
			}
		}
	}
	return season.YearTotal{}, false
}

// yearIn returns the first year of four digits in a text; "" where there is none.
func yearIn(text string) string {
	for _, number := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsDigit(r) }) {
		if len(number) == 4 && (strings.HasPrefix(number, "19") || strings.HasPrefix(number, "20")) {
			return number
		}
	}
	return ""
}

// bought names the winter that the calculation is of.
func (m Metered) bought() string {
	if m.Recorded != "" {
		return "energy bought in the winter of " + m.Recorded + " of the record under this control"
	}
	return "energy bought in a typical winter under this control"
}

// Steps tells the comparison.
func (m Metered) Steps() []trace.Step {
	return []trace.Step{
		{Group: "metered", Symbol: "control now", Name: "way of control now", Text: string(m.Strategy), Source: inputSource},
		{Symbol: "E_used", Name: "energy used a year now", Value: m.UsedKWh, Quantity: units.Energy, Source: inputSource},
		{Symbol: "E_bought", Name: m.bought(), Value: m.CalculatedKWh, Quantity: units.Energy, Equation: "E_bought = heat / efficiency", Source: "season and bill of that strategy"},
		{Symbol: "δ", Name: "metered over calculated, less 1", Value: m.Difference, Quantity: units.Share, Equation: "δ = E_used / E_bought − 1", Source: "nothing is tuned to it", From: []string{"E_used", "E_bought"}},
	}
}
