package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// electric is a zone's cable, with who set its spacing, and its circuits.
func (s sheet) electric(l electric.Layout, spacingBy string) []core.Row {
	rows := append(s.part(s.say("electric")), s.pairs([][2]string{
		{s.say("density"), s.say("density-need", finding.Value("density", l.DensityWM2, units.Flux), finding.Value("need", l.Input.NeedWM2, units.Flux))},
		{s.say("density-range"), s.say("density-range-of", finding.Value("low", l.LowWM2, units.Flux), finding.Value("high", l.HighWM2, units.Flux))},
		{s.say("cable"), s.setBy(spacingBy, s.say("cable-at", finding.Value("output", l.Input.CableWM, units.LinearPower), finding.Value("spacing", l.SpacingM, units.Thickness)))},
		{s.say("cable-in-all"), s.with(l.CableM, units.Length)},
		{s.say("connected"), s.say("connected-of", finding.Value("connected", l.ConnectedW, units.ElectricPower), finding.Value("demand", l.DemandW, units.ElectricPower))},
	})...)
	if !l.Circuits.Known {
		return append(rows, s.paragraph(s.say("no-circuits"), bodyStyle)...)
	}
	c := l.Circuits.Value
	rows = append(rows, s.part(s.say("circuits-at", finding.Value("voltage", l.Input.VoltageV.Value, units.Voltage), finding.Value("phases", l.Input.Phases.Value, units.Count)))...)
	rows = append(rows, s.circuits(c)...)
	return append(rows, s.paragraph(s.say("circuits-note", finding.Words("sizes", c.Family), finding.Value("trip", c.TripMA, units.Count)), noteStyle)...)
}

func (s sheet) circuits(c electric.Circuits) []core.Row {
	var cols []column
	row := cells{}
	put := func(title, text string, width int) {
		cols = append(cols, column{title: title, width: width, right: true})
		row.texts = append(row.texts, text)
	}
	put(s.say("circuits"), s.number(float64(c.Count), units.Count), 9)
	put(s.unit("circuit-load", units.ElectricPower), s.number(c.LoadW, units.ElectricPower), 13)
	put(s.unit("circuit-current", units.Current), s.number(c.Amps, units.Current), 13)
	put(s.unit("circuit-needed", units.Current), s.number(c.NeededA, units.Current), 15)
	put(s.unit("circuit-protection", units.Current), s.Words.Show.Plain(c.ProtectionA, 0), 14)
	put(s.say("circuit-cables"), s.number(float64(c.Cables), units.Count), 10)
	put(s.unit("circuit-cable", units.Length), s.number(c.CableM, units.Length), 13)
	put(s.unit("supply-current", units.Current), s.number(c.SupplyA, units.Current), 13)
	return s.table(cols, []cells{row})
}
