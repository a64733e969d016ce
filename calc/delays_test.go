package calc

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// TestDelays holds that a delay is what the zone's winters recommend, rounded up and held within what is usual, and says where it comes from.
func TestDelays(t *testing.T) {
	for _, tt := range []struct {
		name               string
		off, timer         units.Maybe[float64]
		wantOff, wantTimer float64
		offFrom, timerFrom string
		source             string
	}{
		{"none recommended", units.Maybe[float64]{}, units.Maybe[float64]{}, 1, 4, "habit", "habit", "defaults: 1 h after dry, 4 h after the last snow"},
		{"rounded up", units.Some(0.37), units.Some(2.2), 5.0 / 12, 3, "found", "found", "22.2 min to 25 min, 2.2 h to 3 h"},
		{"on the step", units.Some(0.5), units.Some(2.0), 0.5, 2, "found", "found", "on the step stays"},
		{"held within", units.Some(3.0), units.Some(30.0), 2, 12, "held", "held", "practice: 0 to 2 h, 1 to 12 h"},
		{"held within below", units.Some(0.0), units.Some(0.1), 1.0 / 12, 1, "found", "found", "practice; longer than storms ask"},
		{"one of them", units.Maybe[float64]{}, units.Some(2.0), 1, 2, "habit", "found", "each for itself"},
	} {
		op := &Operation{OffDelay: Delay{SetH: dryHoldH, RunH: dryHoldH}, Timer: Delay{SetH: aerialHoldH, RunH: aerialHoldH}}
		op.delays(season.Ground{OffDelayH: tt.off, TimerH: tt.timer})
		assert.InDelta(t, tt.wantOff, op.OffDelay.SetH, 1e-12, "%s: %s", tt.name, tt.source)
		assert.InDelta(t, tt.wantTimer, op.Timer.SetH, 1e-12, "%s: %s", tt.name, tt.source)
		assert.Equal(t, [2]string{tt.offFrom, tt.timerFrom}, [2]string{op.OffDelay.word(), op.Timer.word()}, tt.name)
	}
}

// TestCostSaysWhichDelayItIsFor holds that a finding and a sentence tell where the winter ran an hour or more apart from what the sequence sets, for the delays
// that are part of the stop and for no other.
func TestCostSaysWhichDelayItIsFor(t *testing.T) {
	const pavement, aerial = sensing.PavementDetector, sensing.AerialDetector
	for _, tt := range []struct {
		name, start, stop string
		kit               []sensing.Device
		strategy          season.Strategy
		off, timer        float64
		want              []finding.Code
	}{
		{"as it ran", "detector", "dry", []sensing.Device{pavement}, season.Pavement, 1, 9, nil},
		{"half an hour apart", "detector", "dry", []sensing.Device{pavement}, season.Pavement, 0.5, 9, nil},
		{"two hours after dry", "detector", "dry", []sensing.Device{pavement}, season.Pavement, 2, 9, []finding.Code{CodeOffDelayNotRun}},
		{"seven hours after snow", "detector", "timer", []sensing.Device{aerial}, season.Aerial, 2, 7, []finding.Code{CodeTimerNotRun}},
		{"three hours after snow", "detector", "timer", []sensing.Device{aerial}, season.Aerial, 2, 3, []finding.Code{CodeTimerNotRun}},
		{"four hours after snow", "detector", "timer", []sensing.Device{aerial}, season.Aerial, 2, 4, nil},
		{"both families", "detector", "dry", []sensing.Device{pavement, aerial}, season.BothDetectors, 2, 9, []finding.Code{CodeOffDelayNotRun, CodeTimerNotRun}},
		{"a timer under a detector that sees dry", "detector", "timer", []sensing.Device{pavement}, season.Pavement, 1, 4, []finding.Code{CodeRunUntilDry}},
		{"by hand", "manual", "timer", nil, season.Manual, 2, 9, nil},
	} {
		o := Outcome{Sensing: &sensing.Choice{Start: tt.start, Stop: tt.stop, Kit: tt.kit, Strategy: string(tt.strategy)}, Seasons: []season.Result{{Strategy: tt.strategy}},
			Operation: &Operation{OffDelay: Delay{SetH: tt.off, RunH: 1}, Timer: Delay{SetH: tt.timer, RunH: 4}}}
		o.judgeDelays()
		var got []finding.Code
		for _, f := range o.Findings {
			got = append(got, f.Code)
			assert.Equal(t, finding.Info, f.Severity)
		}
		assert.Equal(t, tt.want, got, tt.name)
		set := o.Facts(Settings{})
		o.Sensing.Tell(set)
		said := map[string]bool{}
		for _, l := range sensing.Lines(table("sequence"), set, nil) {
			said[l.Code] = true
		}
		for _, code := range []finding.Code{CodeOffDelayNotRun, CodeTimerNotRun, CodeRunUntilDry} {
			assert.Equal(t, len(found(o.Findings, code)) > 0, said[string(code)], "%s: %s", tt.name, code)
		}
	}
}
