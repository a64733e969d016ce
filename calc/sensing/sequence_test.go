package sensing_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
)

func TestLines(t *testing.T) {
	read, err := facts.Parse("own", strings.NewReader("heat\t->state\t->code\nhydronic\tready\ta\nelectric\tready\tb\n\tmelting\tc\n"))
	require.NoError(t, err)
	values := []finding.Arg{finding.Words("x", "y")}
	assert.Equal(t, []sensing.Line{{State: "ready", Code: "a", Args: values, Facts: []string{"heat"}}, {State: "melting", Code: "c", Args: values, Facts: []string{}}},
		sensing.Lines(read, facts.Set{"heat": "hydronic"}, values))
	assert.Empty(t, sensing.Lines(facts.Table{}, nil, nil))
}

func TestCheckSequenceTellsWhatIsWrong(t *testing.T) {
	const head = "heat\t->state\t->code\n"
	for _, tt := range []struct{ name, rows, want string }{
		{"sound", "\tready\ta\n\tready\tb\n\tmelting\tc\n", ""},
		{"state", "\twaiting\ta\n", `own: line 2: "waiting" is none of the states off season, ready,`},
		{"order", "\tmelting\ta\n\tready\tb\n", `own: line 3: "ready" stands behind "melting"`},
		{"never heard", "\tready\ta\nelectric\tready\ta\n", `own: line 3: never heard`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			read, err := facts.Parse("own", strings.NewReader(head+tt.rows))
			require.NoError(t, err)
			if err = sensing.CheckSequence(read); tt.want == "" {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, tt.want)
			}
		})
	}
}

// told returns what a choice and its results tell, for every mix of results.
func told(in sensing.Input, c sensing.Choice) (all []facts.Set) {
	for _, curve := range []string{"known", "none"} {
		for _, holds := range []string{"all", "part"} {
			for _, delay := range []string{"found", "held", "habit"} {
				for _, stop := range map[string][]string{"known": {"code", "raised"}, "none": {"not found"}}[curve] {
					set := maps.Clone(in.Facts)
					set["critical"] = map[bool]string{true: "yes", false: "no"}[in.Critical]
					set["set points"], set["plant holds"], set["warm-up"], set["pavement stop"] = curve, holds, curve, stop
					set["off-delay"], set["timer"] = delay, delay
					set["off-delay run"] = map[string]string{"found": "same", "held": "other"}[delay]
					set["timer run"] = map[string]string{"found": "other", "held": "until dry", "habit": "same"}[delay]
					c.Tell(set)
					all = append(all, set)
				}
			}
		}
	}
	return all
}

// always are the states that every zone has a line of.
var always = []string{"off season", "ready", "heating up", "melting", "drying", "run by hand", "warm-weather shut-off", "low-ambient lockout", "high limit", "sensor fault", "power return"}

// TestSequencesAreWhole holds over every situation, heat and lockout that each state has its lines, in order, that exactly one line says how each
// state that must be told is left, and that every row of sequence, tests and care is reached.
func TestSequencesAreWhole(t *testing.T) {
	rules := table(t, "sensing")
	reached := map[string]bool{}
	one := func(lines []sensing.Line, what string, codes ...string) {
		n := 0
		for _, l := range lines {
			if slices.Contains(codes, l.Code) {
				n++
			}
		}
		assert.Equal(t, 1, n, what)
	}
	for _, s := range situations(t) {
		for _, heat := range []string{"hydronic", "electric"} {
			for _, lockout := range []string{"set", "none"} {
				in := s.in
				in.Facts = facts.Set{}
				for k, v := range s.in.Facts {
					in.Facts[k] = v
				}
				in.Facts["heat"], in.Facts["lowest melting"] = heat, lockout
				c := sensing.Choose(rules, in)
				for _, set := range told(in, c) {
					lines := sensing.Lines(table(t, "sequence"), set, nil)
					last, states := 0, map[string]bool{}
					for _, l := range lines {
						reached[l.Code] = true
						at := slices.Index(sensing.States[:], l.State)
						assert.GreaterOrEqual(t, at, last, "%s: %s stands in order", s.name, l.Code)
						last, states[l.State] = at, true
					}
					for _, state := range always {
						assert.True(t, states[state], "%s, %s: nothing is said of %s", s.name, heat, state)
					}
					assert.Equal(t, c.Idling, states["idling"], s.name)
					assert.Equal(t, heat == "hydronic", states["freeze protection"], s.name)
					one(lines, s.name+": how melting ends", "melting-until-dry", "melting-until-both", "melting-until-no-snow", "melting-until-calm", "melting-until-timer", "melting-until-person")
					one(lines, s.name+": how long it dries", "drying-off-delay", "drying-both", "drying-timer", "drying-run-timer", "drying-person")
					one(lines, s.name+": what heat is held to", "melting-slab", "melting-slab-not-found", "melting-full-hydronic", "melting-full-electric")
					where := func(delay string) []string { return []string{delay + "-found", delay + "-held", delay + "-habit"} }
					if c.Stop == "dry" {
						one(lines, s.name+": where the off-delay comes from", where("off-delay")...)
					}
					if c.Start == "detector" && c.Stop == "timer" || c.Stop == "dry" && slices.Contains(c.Kit, sensing.AerialDetector) {
						one(lines, s.name+": where the timer comes from", where("timer")...)
					}
					if c.OutdoorReset {
						one(lines, s.name+": where the pavement shuts off", "shut-off-pavement", "shut-off-pavement-raised", "shut-off-pavement-not-found")
					}
					can := false
					for _, l := range lines {
						can = can || l.Code == "shut-off-by-thermostat"
					}
					assert.Equal(t, !c.OutdoorReset, can, "%s: a shut-off that nothing is known to do is verified or given a thermostat", s.name)
					one(lines, s.name+": all lost", append([]string{"fault-all-critical", "fault-all"}, map[bool][]string{true: {"ready-person"}}[c.Start == "manual" && !in.Critical]...)...)
					if slices.Contains(c.Kit, sensing.PavementDetector) {
						one(lines, s.name+": in-pavement detector lost", "fault-pavement-critical", "fault-pavement-to-aerial", "fault-pavement-held", "fault-pavement-watch", "fault-pavement-hand")
					}
					if slices.Contains(c.Kit, sensing.AerialDetector) {
						one(lines, s.name+": aerial detector lost", "fault-aerial-to-pavement", "fault-aerial-held", "fault-aerial-watch", "fault-aerial-hand")
					}
					if slices.Contains(c.Kit, sensing.SlabSensor) {
						one(lines, s.name+": slab sensor lost", "fault-slab-spare", "fault-slab-hydronic", "fault-slab-electric")
					}
					for _, name := range []string{"tests", "care"} {
						for _, l := range sensing.Lines(table(t, name), set, nil) {
							reached[l.Code] = true
						}
					}
				}
			}
		}
	}
	for _, name := range []string{"sequence", "tests", "care"} {
		for _, r := range table(t, name).Rows {
			assert.True(t, reached[r.Effects[facts.Code]], "%s: line %d (%s) is never reached", name, r.Line, r.Effects[facts.Code])
		}
	}
}

// TestTestsFit holds tests and care to the kits they are for.
func TestTestsFit(t *testing.T) {
	for _, tt := range []struct {
		zone      string
		said, not []string
	}{
		{"stage=new pour; heat=hydronic", []string{"test-start-wet", "test-dry-stop", "test-slab-set-point", "test-supply-limit", "test-run-timer", "care-face", "care-fluid", "care-off-delay"},
			[]string{"test-start-sky", "test-both-stop", "test-hold-timer", "test-residual-current", "test-idling", "care-mast", "care-insulation", "care-rehearse"}},
		{"stage=new pour; heat=electric; critical=yes", []string{"test-both-stop", "test-start-sky", "test-start-wet", "test-residual-current", "test-idling", "test-fault-critical", "care-mast", "care-rehearse"},
			[]string{"test-dry-stop", "test-supply-limit", "test-supply-steps", "test-fault", "care-fluid"}},
		{"stage=existing heated; heat=hydronic; housing=no; slab sensor=no; mast=yes", []string{"test-hold-timer", "test-start-sky", "care-hold-timer", "test-shut-off-thermostat"},
			[]string{"test-shut-off", "test-start-wet", "test-no-start-dry", "test-pavement-stop", "test-slab-set-point", "care-face", "care-slab-sensor"}},
		{"stage=new pour; heat=hydronic; start wanted=manual", []string{"test-run-timer", "test-shut-off"}, []string{"test-start-wet", "test-hold-timer", "test-fault", "care-test-ice"}},
	} {
		in := zoneOf(t, tt.zone)
		c := sensing.Choose(table(t, "sensing"), in)
		var codes []string
		set := told(in, c)[0]
		for _, name := range []string{"tests", "care"} {
			codes = append(codes, table(t, name).Codes(set)...)
		}
		assert.Subset(t, codes, tt.said, tt.zone)
		for _, code := range tt.not {
			assert.NotContains(t, codes, code, tt.zone)
		}
	}
}
