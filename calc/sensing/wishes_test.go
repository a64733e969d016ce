package sensing_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

func TestConflicts(t *testing.T) {
	for _, tt := range []struct {
		name, zone string
		want       []sensing.Conflict
		why        string
	}{
		{"dry on a cured slab without a housing", "stage=existing heated; housing=no; slab sensor=yes; mast=yes; post-tensioned=no; membrane=no; surface=concrete; stop wanted=dry",
			[]sensing.Conflict{{Lack: "lacks-dry-stop", Because: []string{"no-housing"}, Takes: []string{"offer-coring"}}}, "coring is what it takes"},
		{"the same over tendons", "stage=existing heated; housing=no; slab sensor=yes; mast=yes; post-tensioned=yes; stop wanted=dry",
			[]sensing.Conflict{{Lack: "lacks-dry-stop", Because: []string{"no-housing"}, Takes: []string{"no-cutting-tendons"}}}, "nothing is cut over tendons"},
		{"the same, nothing known", "stage=existing heated; slab sensor=yes; mast=yes; stop wanted=dry",
			[]sensing.Conflict{{Lack: "lacks-dry-stop", Because: []string{"housing-not-known"}, Takes: []string{"survey-before-cutting"}}}, "a survey comes first"},
		{"idling without a slab sensor", "stage=existing heated; housing=yes; slab sensor=no; post-tensioned=no; membrane=no; idling wanted=yes",
			[]sensing.Conflict{{Lack: "lacks-idling", Because: []string{"no-slab-sensor"}, Takes: []string{"offer-saw-cut"}},
				{Lack: "lacks-slab-temperature", Because: []string{"no-slab-sensor"}, Takes: []string{"offer-saw-cut"}}}, "a slot is what it takes"},
		{"nothing can start it", "stage=existing heated; housing=no; slab sensor=yes; mast=no; post-tensioned=yes",
			[]sensing.Conflict{{Lack: "lacks-detector", Because: []string{"no-place-for-aerial", "no-housing"}, Takes: []string{"no-cutting-tendons", "find-a-mast"}}}, "a mast would do"},
		{"critical with one family", "stage=new pour; critical=yes; mast=no",
			[]sensing.Conflict{{Lack: "lacks-second-family", Because: []string{"no-place-for-aerial"}}}, "no change to the pavement would bring it"},
		{"dry under parked cars", "stage=existing heated; housing=yes; slab sensor=yes; mast=yes; traffic=parked; stop wanted=dry",
			[]sensing.Conflict{{Lack: "lacks-dry-stop", Because: []string{"detector-under-parked-cars"}}}, "the housing lies where it lies"},
		{"all is had", "stage=new pour; stop wanted=dry; idling wanted=yes", nil, "no conflict"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.why)
			assert.Equal(t, tt.want, placed(t, tt.zone).Conflicts, tt.why)
		})
	}
}

// TestEveryLackIsAConflict holds that all that is lacking says why, by rules that put a kit out.
func TestEveryLackIsAConflict(t *testing.T) {
	rules := table(t, "sensing")
	varied(t, func(s situation, fact, word string, in sensing.Input) {
		c := sensing.Choose(rules, in)
		require.Len(t, c.Conflicts, len(c.Lacking), "%s with %s=%s", s.name, fact, word)
		for i, x := range c.Conflicts {
			assert.Equal(t, c.Lacking[i], x.Lack)
			assert.NotEmpty(t, x.Because, "%s with %s=%s: nobody says why %s", s.name, fact, word, x.Lack)
			assert.NotContains(t, x.Because, "")
		}
	})
}

// TestEveryConflictOfRulesHasASituation holds that each pair of rules of which one is named as winning speaks in one situation at once, and that the
// winner has its way there.
func TestEveryConflictOfRulesHasASituation(t *testing.T) {
	rules := table(t, "sensing")
	for _, p := range sensing.Contraries(rules) {
		met := false
		for _, s := range situations(t) {
			told := facts.Set{}
			for k, v := range s.in.Facts {
				told[k] = v
			}
			told[sensing.FactSensesSlab] = sensesSlab(s)
			met = met || p.Earlier.Holds(told) && p.Later.Holds(told)
		}
		assert.True(t, met, "%s (line %d) and %s (line %d) never meet in a situation", p.Earlier.Effects[facts.Code], p.Earlier.Line, p.Later.Effects[facts.Code], p.Later.Line)
	}
}

func optionOf(t *testing.T, zone string, code string, of sensing.Device, parts ...sensing.Part) sensing.Option {
	t.Helper()
	in := zoneOf(t, zone, parts...)
	options := sensing.Choose(table(t, "sensing"), in).Options(table(t, "sensing"), in)
	i := slices.IndexFunc(options, func(o sensing.Option) bool { return o.Code == code && o.For == of })
	require.GreaterOrEqual(t, i, 0, "%s: no %s", zone, code)
	return options[i]
}

func TestOptions(t *testing.T) {
	const bare = "stage=existing heated; housing=no; slab sensor=no; mast=yes; post-tensioned=no; membrane=no; surface=concrete; idling wanted=yes"
	d, s := detector("d", 600, "30"), slabSensor("s", 90, "30")
	small := sensing.Part{Name: "small", Kind: "controller", Inputs: "aerial detector", Functions: "ends on a timer", Price: 700, Priced: true}
	core := optionOf(t, bare, "offer-coring", sensing.PavementDetector, d, s, small, panel("large", 2000, "pump"))
	assert.Equal(t, []sensing.Item{{Item: "scanning", Quantity: 1, Unit: units.Count}, {Item: "coring", Quantity: 1, Unit: units.Count}, {Item: "saw-cut", Quantity: 1, Unit: units.Length},
		{Item: "conduit", Quantity: 9, Unit: units.Length}}, core.Items, "1 m to the edge, 9 m on to the panel")
	assert.Equal(t, "d", core.Part)
	assert.Equal(t, units.Some(600.0), core.Price)
	assert.Equal(t, sensing.Swap{From: "small", To: "large", FromPrice: units.Some(700.0), ToPrice: units.Some(2000.0)}, core.Controller, "the panel of today takes no in-pavement detector")
	assert.Equal(t, sensing.Gives{Kit: "in-pavement detector", Start: "detector", Stop: "dry", Strategy: "in-pavement detector"}, core.Gives)
	assert.Equal(t, []string{"locate-before-cutting", "silica-dust"}, core.Cautions)

	slot := optionOf(t, bare, "offer-saw-cut", sensing.SlabSensor, d, s, small, panel("large", 2000, "pump"))
	assert.Equal(t, []sensing.Item{{Item: "scanning", Quantity: 1, Unit: units.Count}, {Item: "saw-cut", Quantity: 1, Unit: units.Length}, {Item: "conduit", Quantity: 9, Unit: units.Length}}, slot.Items)
	assert.Equal(t, sensing.Gives{Kit: "aerial detector + slab temperature sensor", Start: "detector", Stop: "timer", Idling: true, OutdoorReset: true, Strategy: "aerial detector + slab sensor, idling"}, slot.Gives)
	assert.Equal(t, "s", slot.Part)

	survey := optionOf(t, "stage=existing heated; housing=no; slab sensor=no; mast=yes", "survey-before-cutting", sensing.PavementDetector)
	assert.False(t, survey.Items[0].After, "the scan comes first")
	for _, i := range survey.Items[1:] {
		assert.True(t, i.After, "%s waits for it", i.Item)
	}
	assert.Subset(t, survey.Cautions, []string{"locate-before-cutting", "tendons-not-known", "membrane-below"})
	assert.Empty(t, survey.Part, "no catalogue")

	pavers := optionOf(t, "stage=existing heated; surface=pavers; housing=no; slab sensor=yes; mast=yes", "offer-lifting-pavers", sensing.PavementDetector)
	assert.Equal(t, "lifting pavers", pavers.Items[0].Item)
	assert.NotContains(t, pavers.Cautions, "silica-dust", "nothing is sawn")

	in := zoneOf(t, "stage=existing heated; housing=no; slab sensor=no; mast=no; post-tensioned=yes")
	assert.Empty(t, sensing.Choose(table(t, "sensing"), in).Options(table(t, "sensing"), in), "tendons have no price")
}

// TestOptionsGiveNoLess holds that what an option would bring never has less of a function than what is chosen now, parked cars aside.
func TestOptionsGiveNoLess(t *testing.T) {
	rules := table(t, "sensing")
	options := 0
	for _, s := range situations(t) {
		c := sensing.Choose(rules, s.in)
		for _, o := range c.Options(rules, s.in) {
			options++
			assert.True(t, o.Gives.Start == sensing.StartDetector || c.Start == sensing.StartManual, s.name)
			assert.True(t, o.Gives.Stop == sensing.StopDry || c.Stop != sensing.StopDry, s.name)
			assert.True(t, o.Gives.Idling || !c.Idling, s.name)
			assert.NotEmpty(t, o.Cautions, s.name)
			assert.NotEmpty(t, o.Items, s.name)
			for _, code := range o.Cautions {
				assert.True(t, slices.ContainsFunc(table(t, "cautions").Rows, func(r facts.Row) bool { return r.Effects[facts.Code] == code }), code)
			}
		}
	}
	assert.Greater(t, options, 10)
}

// TestLinesOfAnOptionStandUnderIt holds that the checklist of a choice never names a cut, that an option to cut names all of its lines, one for a slab sensor
// no core, and that lifting pavers cuts nothing.
func TestLinesOfAnOptionStandUnderIt(t *testing.T) {
	lines := table(t, "checklist")
	varied(t, func(s situation, fact, word string, in sensing.Input) {
		in.Checklist = lines
		for _, code := range sensing.Choose(table(t, "sensing"), in).Checklist {
			assert.False(t, strings.HasPrefix(code, "cut-") || strings.HasPrefix(code, "lift-"), "%s, %s=%s: %s", s.name, fact, word, code)
		}
	})
	option := func(zone, offer string, of sensing.Device) []string {
		in := zoneOf(t, zone)
		in.Checklist = lines
		for _, o := range sensing.Choose(table(t, "sensing"), in).Options(table(t, "sensing"), in) {
			if o.Code == offer && o.For == of {
				return o.Checklist
			}
		}
		t.Fatalf("%s: no %s", zone, offer)
		return nil
	}
	const cured = "stage=existing heated; heat=hydronic; housing=no; slab sensor=no; mast=yes"
	core := option(cured+"; post-tensioned=no; membrane=no", "offer-coring", sensing.PavementDetector)
	assert.Subset(t, core, []string{"cut-scan-tendons", "cut-find-pipes", "cut-core", "cut-core-drain", "cut-slot", "cut-seal"})
	slot := option(cured+"; post-tensioned=no; membrane=no", "offer-saw-cut", sensing.SlabSensor)
	assert.Subset(t, slot, []string{"cut-scan-tendons", "cut-find-pipes", "cut-slot", "cut-seal"})
	assert.NotContains(t, slot, "cut-core")
	assert.Contains(t, option(cured, "survey-before-cutting", sensing.PavementDetector), "cut-core", "for once the survey has cleared it")
	assert.Equal(t, []string{"lift-mark", "lift-find-pipes", "lift-relay"}, option(cured+"; surface=pavers", "offer-lifting-pavers", sensing.PavementDetector))
}
