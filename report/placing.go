package report

import (
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// Said returns the sentences of reasons, filled, in one text. Reasons of the screen have a table of their own.
func Said(w *words.Words, table string, list ...sensing.Reason) string {
	out := make([]string, len(list))
	for i, r := range list {
		out[i] = w.Line(table, r.Code, r.Args...)[0]
	}
	return strings.Join(out, " ")
}

// Pieces names so many of a device.
func Pieces(w *words.Words, n sensing.Number) string {
	return w.Say("pieces", finding.Value("count", float64(n.Placed), units.Count), finding.Words("device", string(n.Device)))
}

// Place tells where a device of the plan goes: its distances and its run to the panel.
func Place(w *words.Words, p sensing.Plan, m sensing.Mark) string {
	code := "place-in"
	switch {
	case m.There:
		code = "place-there"
	case m.EdgeM < 0:
		code = "place-beside"
	}
	end := w.Say("place-low-end")
	if p.Level {
		end = w.Say("place-an-end")
	}
	return w.Say(code, finding.Words("mark", MarkName(w, m)), finding.Words("end", end), finding.Value("low", m.FromLowM, units.Length),
		finding.Value("side", m.FromSideM, units.Length), finding.Value("out", -m.EdgeM, units.Length), finding.Value("height", m.HeightM, units.Length),
		finding.Value("run", m.RunM, units.Length))
}

// MarkName is a device of the plan with its number on the sketch.
func MarkName(w *words.Words, m sensing.Mark) string {
	return w.Say("mark-name", finding.Value("number", float64(m.Number), units.Count), finding.Words("device", string(m.Device)))
}

// Asked names what an energy code asks.
func Asked(w *words.Words, s sensing.Screened) string {
	switch s.Asked {
	case sensing.AskedPavement:
		return w.Say("asked-pavement", finding.Value("pavement", sensing.ScreenPavementC, units.Temperature))
	case sensing.AskedOutdoor:
		return w.Say("asked-outdoor", finding.Value("outdoor", sensing.ScreenOutdoorC, units.Temperature))
	case sensing.AskedMoisture:
		return w.Say("asked-moisture")
	}
	return w.Say("asked-question")
}

// Bought tells a piece to buy with its lead, or that it is in place.
func Bought(w *words.Words, p sensing.Piece) string {
	args := []finding.Arg{finding.Words("kind", p.Kind), finding.Words("part", p.Part), finding.Value("count", float64(p.Buy), units.Count),
		finding.Value("there", float64(p.There), units.Count), finding.Value("need", p.NeedM, units.Length), finding.Value("factory", p.FactoryM.Or(0), units.Length)}
	switch {
	case p.Buy == 0:
		return w.Say("bought-there", args...)
	case p.Part == "":
		return w.Say("bought-none", args...)
	case p.Joint:
		return w.Say("bought-joint", args...)
	case p.FactoryM.Known:
		return w.Say("bought-lead", args...)
	case p.NeedM > 0:
		return w.Say("bought-need", args...)
	}
	return w.Say("bought", args...)
}
