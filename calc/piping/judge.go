package piping

import (
	"math"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

const (
	dropMostK  = 14.0 // K, supply less return; common practice
	unevenMost = 0.10 // share by which loops may differ; model mechanical code
	shareLeast = 0.30 // by volume; below it the mixture spoils; common practice
	shareMost  = 0.55 // by volume; above it the mixture gets thick and gains little; common practice
	speedLeast = 0.3  // m/s, below which air stays in the loop; judgement
	speedMost  = 1.2  // m/s; judgement
	// coldLeastShare is the share of the design flow under which a cold start is told of; judgement.
	coldLeastShare = 0.05
	hairM          = 1e-9 // m: a length typed at its limit meets it
)

// judge lists what stands outside the usual.
func (l *Layout) judge() {
	l.judgeLoops()
	l.judgeFlow()
	l.judgeFluid()
}

func (l *Layout) flag(weight finding.Severity, code finding.Code, field finding.Field, found, limit float64, q units.Quantity) {
	l.Checks = append(l.Checks, finding.Check{Code: code, Severity: weight, Field: field, Found: found, Limit: limit, Quantity: q})
}

func (l *Layout) judgeLoops() {
	p, given := l.Loops, l.Input.LoopLengthM
	if p.LengthM > p.LongestM+hairM {
		l.flag(finding.Warning, CodeLoopLong, "loop_length", p.LengthM, p.LongestM, units.Length)
	}
	if given.Known && math.Abs(p.LengthM-given.Value) > unevenMost*given.Value+hairM {
		l.flag(finding.Warning, CodeLoopsUneven, "loop_length", p.LengthM, given.Value, units.Length)
	}
	if l.Head.LoopPa > loopMostPa {
		l.flag(finding.Warning, CodeLoopHead, "loop_length", l.Head.LoopPa, loopMostPa, units.Pressure)
	}
}

// judgeFlow: laminar and slow flow are told, not warned of, since the temperatures and the head already hold them.
func (l *Layout) judgeFlow() {
	f := l.Flow
	if l.Input.DropK > dropMostK {
		l.flag(finding.Warning, CodeDropLarge, "temperature_drop", l.Input.DropK, dropMostK, units.TemperatureDiff)
	}
	if f.Reynolds < laminarBelow {
		l.flag(finding.Info, CodeLaminar, "temperature_drop", f.Reynolds, laminarBelow, units.Count)
	}
	if f.SpeedMS < speedLeast {
		l.flag(finding.Info, CodeFlowSlow, "temperature_drop", f.SpeedMS, speedLeast, units.FluidSpeed)
	}
	if f.SpeedMS > speedMost {
		l.flag(finding.Warning, CodeFlowFast, "loop_length", f.SpeedMS, speedMost, units.FluidSpeed)
	}
	if l.Volume.HotC > hottestFitC {
		l.flag(finding.Warning, CodeFluidHot, "spacing", l.Volume.HotC, hottestFitC, units.Temperature)
	}
}

func (l *Layout) judgeFluid() {
	const field = "fluid_concentration"
	c := l.Fluid
	switch {
	case !c.NeedC.Known:
		l.flag(finding.Warning, CodeMinimumNeeded, field, c.FreezeC, c.FreezeC, units.Temperature)
	case c.FreezeC > c.NeedC.Value && c.Proposed:
		l.flag(finding.Warning, CodeShareShort, field, c.FreezeC, c.NeedC.Value, units.Temperature)
	case c.FreezeC > c.NeedC.Value:
		l.flag(finding.Warning, CodeFreezes, field, c.FreezeC, c.NeedC.Value, units.Temperature)
	}
	if cold := l.Head.ColdShare; cold.Known && cold.Value < coldLeastShare {
		l.flag(finding.Info, CodeColdStart, field, cold.Value, coldLeastShare, units.Share)
	}
	if c.Share < shareLeast {
		l.flag(finding.Warning, CodeShareUnusual, field, c.Share, shareLeast, units.Share)
	}
	if c.Share > shareMost {
		l.flag(finding.Warning, CodeShareUnusual, field, c.Share, shareMost, units.Share)
	}
}
