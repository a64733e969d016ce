package calc

import (
	"math"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// Codes of findings about delays that the sequence sets and the winter did not run with.
const (
	CodeOffDelayNotRun finding.Code = "off-delay-not-run"
	CodeTimerNotRun    finding.Code = "timer-not-run"
	CodeRunUntilDry    finding.Code = "timer-run-until-dry"
)

// Facts of the two delays and their words: where each comes from, and whether the winter ran with it.
const (
	factOffDelay, factTimer       = "off-delay", "timer"         // found, held, habit
	factOffDelayRun, factTimerRun = "off-delay run", "timer run" // same, other, until dry

	wordFound, wordHeld, wordHabit     = "found", "held", "habit" // as storms ask; storms ask for more than is usual; a usual value
	wordSame, wordRunOther, wordTilDry = "same", "other", "until dry"
)

const (
	offDelayStepH = 1.0 / 12 // a recommended off-delay is rounded up to five minutes
	offDelayMostH = 2.0
	timerLeastH   = 1.0
	timerMostH    = 12.0
	delayApartH   = 1.0 // h between what is set and what the winter ran with from which a finding tells of it; judgement
)

// Delay is a time for which heat goes on, after dry or after the last snow seen. [h]
type Delay struct {
	SetH  float64
	AsksH units.Maybe[float64] // what nine in ten storms ask for; blank where none was found
	RunH  float64              // what the winter ran with, whose energy and cost are told
}

// word says where what is set comes from.
func (d Delay) word() string {
	switch {
	case !d.AsksH.Known:
		return wordHabit
	case d.AsksH.Value > d.SetH:
		return wordHeld
	}
	return wordFound
}

// apart says whether the winter ran with clearly another delay than is set.
func (d Delay) apart() bool { return math.Abs(d.SetH-d.RunH) >= delayApartH }

func (d Delay) runWord() string {
	if d.apart() {
		return wordRunOther
	}
	return wordSame
}

// delays takes what the zone's own winters ask for, rounded up so that it can be set and held within what is usual: the off-delay to five minutes
// and two hours, the timer to whole hours from 1 to 12.
func (op *Operation) delays(g season.Ground) {
	if op.OffDelay.AsksH = g.OffDelayH; g.OffDelayH.Known {
		op.OffDelay.SetH = min(max(math.Ceil(g.OffDelayH.Value/offDelayStepH)*offDelayStepH, offDelayStepH), offDelayMostH)
	}
	if op.Timer.AsksH = g.TimerH; g.TimerH.Known {
		op.Timer.SetH = min(max(math.Ceil(g.TimerH.Value), timerLeastH), timerMostH)
	}
}

// endsAfterDry says whether an off-delay after dry is part of this zone's stop.
func (o Outcome) endsAfterDry() bool { return o.Sensing.Stop == sensing.StopDry }

// endsAfterSnow says whether a timer after the last snow, or the last call, is part of this zone's stop.
func (o Outcome) endsAfterSnow() bool {
	return o.Sensing.Start == sensing.StartDetector && o.Sensing.Stop == sensing.StopTimer || o.Sensing.Stop == sensing.StopDry && o.Sensing.Has(sensing.AerialDetector)
}

// runsUntilDry says whether the winter ended its heat after dry while a timer is set here.
func (o Outcome) runsUntilDry() bool {
	chosen, found := o.Chosen()
	return found && o.endsAfterSnow() && !o.endsAfterDry() && chosen.Strategy.SensesMoisture()
}

// tellDelays adds to a set where the delays come from, and whether the winter ran with them.
func (o Outcome) tellDelays(set facts.Set) {
	op := o.Operation
	set[factOffDelay], set[factTimer] = op.OffDelay.word(), op.Timer.word()
	set[factOffDelayRun], set[factTimerRun] = facts.Unknown, facts.Unknown
	if _, found := o.Chosen(); !found {
		return
	}
	set[factOffDelayRun], set[factTimerRun] = op.OffDelay.runWord(), op.Timer.runWord()
	if o.runsUntilDry() {
		set[factTimerRun] = wordTilDry
	}
}

// judgeDelays says where energy and cost are those of clearly another delay than the sequence sets: all zones run with the same usual delays, so that their
// ways of control can be compared.
func (o *Outcome) judgeDelays() {
	if _, found := o.Chosen(); !found {
		return
	}
	tell := func(code finding.Code, set, run finding.Arg) { o.add(finding.Info, code, "stop_wanted", set, run) }
	minutes := func(name string, h float64) finding.Arg { return finding.Value(name, h, units.Delay) }
	hours := func(name string, h float64) finding.Arg { return finding.Value(name, h, units.Hours) }
	op := o.Operation
	if o.endsAfterDry() && op.OffDelay.apart() {
		tell(CodeOffDelayNotRun, minutes("set", op.OffDelay.SetH), minutes("run", op.OffDelay.RunH))
	}
	switch {
	case o.runsUntilDry():
		tell(CodeRunUntilDry, hours("set", op.Timer.SetH), minutes("run", op.OffDelay.RunH))
	case o.endsAfterSnow() && op.Timer.apart():
		tell(CodeTimerNotRun, hours("set", op.Timer.SetH), hours("run", op.Timer.RunH))
	}
}

// delayValues are the delays that sentences name. What is not known is left out.
func (op *Operation) delayValues() []finding.Arg {
	out := []finding.Arg{finding.Value("off-delay", op.OffDelay.SetH, units.Delay), finding.Value("timer", op.Timer.SetH, units.Hours),
		finding.Value("off-delay-run", op.OffDelay.RunH, units.Delay), finding.Value("timer-run", op.Timer.RunH, units.Hours)}
	if asks := op.OffDelay.AsksH; asks.Known {
		out = append(out, finding.Value("off-delay-asks", asks.Value, units.Delay))
	}
	if asks := op.Timer.AsksH; asks.Known {
		out = append(out, finding.Value("timer-asks", asks.Value, units.Hours))
	}
	return out
}
