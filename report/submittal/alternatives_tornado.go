package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/chart"
)

// tornado shows how far net savings rest on the energy price, the winter and the first cost, and at which energy price there are none.
func (s sheet) tornado(a calc.AlternativeOutcome) []core.Row {
	currency := a.Currency
	swings := make([]chart.Swing, len(a.Sensitivity))
	for i, v := range a.Sensitivity {
		swings[i] = chart.Swing{Name: s.say("moves-" + strings.ReplaceAll(v.Moves, " ", "-")), Low: v.NetLow.Main(currency), High: v.NetHigh.Main(currency), LowText: s.end(v, v.Low, "mild", v.NetLow), HighText: s.end(v, v.High, "severe", v.NetHigh)}
	}
	if len(swings) == 0 {
		return nil
	}
	net := a.Savings.Value.Net
	rows := s.part(s.say("sensitivity", finding.Words("alternative", a.Name)))
	rows = append(rows, s.drawing(s.look().Tornado(s.priced("net-savings"), net.Main(currency), swings), 14+9*float64(len(swings)))...)
	text := s.say("sensitivity-see", finding.Words("net", s.round(units.Some(net))))
	if b := a.BreakEven; b.Known {
		text += " " + s.say("break-even", finding.Words("energy", b.Value.EnergyID), finding.Words("price", s.price(b.Value.Price, b.Value)), finding.Words("now", s.price(b.Value.Now, b.Value)))
	}
	rows = append(rows, s.paragraph(text, noteStyle)...)
	return figure(rows)
}

// end is what stands at an end of a swing: by how much the thing was moved, and the net savings then.
func (s sheet) end(v calc.Sensitivity, share float64, winter string, net cost.Money) string {
	moved := s.say("winter-" + winter)
	if v.Moves != calc.MovesWinter {
		moved = s.Words.Show.Typed(share, units.Share)
		if share > 0 {
			moved = "+" + moved
		}
	}
	return moved + ": " + s.rounded(units.Some(net))
}

// price writes the price of a unit of energy.
func (s sheet) price(v float64, b calc.BreakEven) string {
	return s.Words.Show.Digits(v, 3) + "\u00a0" + b.Currency + "/" + b.Unit
}
