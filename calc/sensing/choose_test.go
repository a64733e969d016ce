package sensing_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/sensing"
)

// functionsOf counts what a choice can do, so that two can be compared.
func functionsOf(c sensing.Choice) map[string]bool {
	return map[string]bool{"starts itself": c.Start == sensing.StartDetector, "stops when dry": c.Stop == sensing.StopDry, "idles": c.Idling, "reset": c.OutdoorReset}
}

// varied calls do with every situation and with each of its facts changed to every other word.
func varied(t *testing.T, do func(s situation, fact, word string, in sensing.Input)) {
	words := calc.Vocabulary()
	for _, s := range situations(t) {
		for _, fact := range slices.Sorted(maps.Keys(words)) {
			if fact == "existing" || fact == "stage" || fact == sensing.FactSensesSlab {
				continue
			}
			for _, word := range words[fact] {
				if fact == sensing.FactCritical && word == facts.Unknown {
					continue
				}
				set := maps.Clone(s.in.Facts)
				set[fact] = word
				in := input(set, s.in.Parts)
				in.Pavement = s.in.Pavement
				do(s, fact, word, in)
			}
		}
	}
}

// TestAddingNeverRemoves holds that a housing, a slab sensor, a mast, or knowing that nothing forbids cutting never costs a function.
func TestAddingNeverRemoves(t *testing.T) {
	rules := table(t, "sensing")
	better := map[string]string{"housing": "yes", "slab sensor": "yes", "mast": "yes", "post-tensioned": "no", "membrane": "no"}
	varied(t, func(s situation, fact, word string, in sensing.Input) {
		before := functionsOf(sensing.Choose(rules, in))
		for added, answer := range better {
			set := maps.Clone(in.Facts)
			set[added] = answer
			more := input(set, in.Parts)
			more.Pavement = in.Pavement
			after := functionsOf(sensing.Choose(rules, more))
			for f, had := range before {
				// Under parked cars an aerial detector takes the place of an in-pavement one: it trades dry stop for a detector that sees.
				if had && f == "stops when dry" && added == "mast" && in.Facts["traffic"] == "parked" && in.Facts["existing"] == "yes" {
					continue
				}
				assert.True(t, !had || after[f], "%s with %s=%s: %s=%s loses %q", s.name, fact, word, added, answer, f)
			}
		}
	})
}

// TestWhatCanNotBeBuilt holds that no rule of safety or wish puts a device where it has no place.
func TestWhatCanNotBeBuilt(t *testing.T) {
	rules := table(t, "sensing")
	varied(t, func(s situation, fact, word string, in sensing.Input) {
		c, f := sensing.Choose(rules, in), in.Facts
		existing := f["existing"] == "yes"
		if existing && f["housing"] != "yes" && f["control now"] != "in-pavement detector" {
			assert.NotContains(t, c.Kit, sensing.PavementDetector, s.name)
		}
		if existing && f["slab sensor"] != "yes" {
			assert.NotContains(t, c.Kit, sensing.SlabSensor, s.name)
		}
		if f["mast"] == "no" {
			assert.NotContains(t, c.Kit, sensing.AerialDetector, s.name)
		}
		if in.Critical && len(c.Kit) > 0 && slices.ContainsFunc(c.Kit, func(d sensing.Device) bool { return d != sensing.SlabSensor }) {
			assert.Equal(t, sensing.StartDetector, c.Start, s.name)
		}
		if !in.Critical && f[sensing.FactStartWanted] == "manual" {
			assert.Equal(t, sensing.StartManual, c.Start, s.name)
		}
	})
}

// TestRejectComesFirst holds that a row that rejects wins whatever its place, so that a user's table can't propose what can't be built.
func TestRejectComesFirst(t *testing.T) {
	rules, err := facts.Parse("own", strings.NewReader("existing\t->kit\t->effect\t->code\n\tin-pavement detector\trequire\twanted\nyes\tin-pavement detector\treject\tno-place\n"))
	require.NoError(t, err)
	assert.NotContains(t, sensing.Choose(rules, sensing.Input{Facts: facts.Set{"existing": "yes"}}).Kit, sensing.PavementDetector)
	assert.Contains(t, sensing.Choose(rules, sensing.Input{Facts: facts.Set{"existing": "no"}}).Kit, sensing.PavementDetector)
}

func TestWithoutRules(t *testing.T) {
	c := sensing.Choose(facts.Table{}, sensing.Input{})
	assert.Equal(t, sensing.NoDevices, c.KitName())
	require.Len(t, c.Rejected, 7)
	assert.Equal(t, "simplest-kit", c.Rejected[0].Code)
	assert.Zero(t, c.LeadM)
}

func TestFactsOfTheCallerStay(t *testing.T) {
	set := facts.Set{"existing": "no"}
	sensing.Choose(table(t, "sensing"), sensing.Input{Facts: set})
	assert.Equal(t, facts.Set{"existing": "no"}, set)
}

func TestController(t *testing.T) {
	rules := table(t, "sensing")
	pour := facts.Set{"existing": "no", "stage": "new pour"}
	critical := maps.Clone(pour)
	critical[sensing.FactCritical] = "yes"
	hand := maps.Clone(pour)
	hand[sensing.FactStartWanted], hand[sensing.FactStopWanted] = "manual", facts.Unknown
	for _, tt := range []struct {
		name    string
		facts   facts.Set
		parts   []sensing.Part
		want    string
		missing string
	}{
		{"none listed", pour, nil, "", ""},
		{"least price that fits", pour, panels, "small panel", ""},
		{"order does not matter", pour, []sensing.Part{panels[1], panels[0]}, "small panel", ""},
		{"critical takes both families and idles", critical, panels, "large panel", ""},
		{"only cheap ones", critical, panels[1:3], "", "aerial detector, idling"},
		{"an unpriced one fits and a priced one does too", hand, []sensing.Part{panels[3], panels[0]}, "large panel", ""},
		{"only an unpriced one fits", hand, panels[1:], "timer panel", ""},
		{"words in any case", pour, []sensing.Part{{Name: "P", Kind: "Controller", Inputs: " In-Pavement Detector ;Slab temperature sensor", Functions: "Ends when dry;OUTDOOR RESET"}}, "P", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := sensing.Choose(rules, input(tt.facts, tt.parts))
			assert.Equal(t, tt.want, c.Controller)
			assert.Equal(t, tt.missing != "", slices.Contains(findingCodes(c), string(sensing.CodeNoControllerFits)))
			for _, f := range c.Findings {
				if f.Code == sensing.CodeNoControllerFits {
					assert.Equal(t, tt.missing, f.Args[2].Text)
				}
			}
		})
	}
}

// TestControllerTakesItsKit holds that a controller that can't take the kit or do what it should is never chosen.
func TestControllerTakesItsKit(t *testing.T) {
	rules := table(t, "sensing")
	chosen := 0
	varied(t, func(s situation, _, _ string, in sensing.Input) {
		in.Parts = slices.Concat(in.Parts, panels)
		c := sensing.Choose(rules, in)
		i := slices.IndexFunc(in.Parts, func(p sensing.Part) bool { return p.Name == c.Controller && p.Kind == "controller" })
		if i < 0 {
			assert.Empty(t, c.Controller)
			return
		}
		chosen++
		p := in.Parts[i]
		for _, d := range c.Kit {
			assert.Contains(t, p.Inputs, string(d), s.name)
		}
		for word, needed := range map[string]bool{"ends when dry": c.Stop == "dry", "ends on a timer": c.Stop == "timer", "idling": c.Idling, "outdoor reset": c.OutdoorReset} {
			assert.True(t, !needed || strings.Contains(p.Functions, word), "%s: %s lacks %s", s.name, p.Name, word)
		}
	})
	assert.NotZero(t, chosen)
}

func TestLead(t *testing.T) {
	c := sensing.Choose(table(t, "sensing"), input(facts.Set{"existing": "no"}, nil))
	assert.InDelta(t, 13.0, c.LeadM, 1e-9, "10 m run + 10 % + 2 m; common practice")
}

// TestChecklist holds that every line is reached by a situation or one with a fact changed, that a fact of the place that was not told is a line to verify,
// and that the lines of the file stand in order of phase.
func TestChecklist(t *testing.T) {
	rules, lines := table(t, "sensing"), table(t, "checklist")
	reached := map[string]bool{}
	varied(t, func(_ situation, _, _ string, in sensing.Input) {
		in.Checklist = lines
		c := sensing.Choose(rules, in)
		for _, code := range c.Checklist {
			reached[code] = true
		}
		for _, o := range c.Options(rules, in) {
			for _, code := range o.Checklist {
				reached[code] = true
			}
		}
	})
	var order []string
	for _, r := range lines.Rows {
		code := r.Effects[facts.Code]
		assert.True(t, reached[code], "%s is never reached", code)
		order = append(order, code)
	}
	in := input(factsOf(t, "stage=new pour"), nil)
	in.Checklist = lines
	got := sensing.Choose(rules, in).Checklist
	assert.IsIncreasing(t, places(order, got))
	assert.Subset(t, got, []string{"verify-traffic", "verify-edge", "verify-obstacle", "verify-overhang", "verify-drains-past", "verify-sun", "verify-shade",
		"verify-wind-blown", "verify-snow-pile", "verify-salt", "verify-exhaust", "verify-downhill", "verify-drain", "housing-fixed"})
	assert.NotContains(t, got, "verify-tendons")

	in = input(factsOf(t, "stage=existing heated; housing=no; slab sensor=no; mast=yes; overhang=no; exhaust=no"), nil)
	in.Checklist = lines
	got = sensing.Choose(rules, in).Checklist
	assert.Subset(t, got, []string{"aerial-open-sky", "verify-tendons", "verify-membrane", "hold-timer-set"})
	for _, code := range []string{"housing-fixed", "verify-overhang", "verify-exhaust", "verify-mast", "verify-housing", "verify-salt", "no-heat-while-green"} {
		assert.NotContains(t, got, code)
	}
}

func places(order, list []string) []int {
	var out []int
	for _, code := range list {
		out = append(out, slices.Index(order, code))
	}
	return out
}

func TestCheckTellsWhatIsWrong(t *testing.T) {
	const head = "existing\t->kit\t->effect\t->code\t->wins over\n"
	for _, tt := range []struct{ name, rows, want string }{
		{"effect", "\taerial detector\tforbid\ta\n", `own: line 2: "forbid" is none of the effects`},
		{"code", "\taerial detector\treject\n", "own: line 2: no code"},
		{"no subject", "\t\treject\ta\n", "own: line 2: no kit, device or function to reject"},
		{"device", "\tmast\treject\ta\n", `own: line 2: "mast" is no device or function`},
		{"dead", "\taerial detector\treject\ta\nyes\taerial detector\tavoid\tb\n", "own: line 3: never decides: line 2 holds whenever it does"},
		{"contrary", "yes\taerial detector\treject\ta\n\taerial detector\tprefer\tb\n", `own: line 2: "a" and "b" (line 3) say the contrary`},
		{"contrary inside a kit", "yes\taerial detector\treject\ta\n\tin-pavement detector + aerial detector\trequire\tb\n", `"a" and "b" (line 3) say the contrary`},
		{"named", "yes\taerial detector\treject\ta\tb\n\taerial detector\tprefer\tb\n", ""},
		{"apart", "yes\taerial detector\treject\ta\nno\taerial detector\tprefer\tb\n", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			rules, err := facts.Parse("own", strings.NewReader(head+tt.rows))
			require.NoError(t, err)
			err = sensing.Check(rules)
			if tt.want == "" {
				assert.NoError(t, err)
				return
			}
			assert.ErrorContains(t, err, tt.want)
		})
	}
}

// TestNothingIsDrivenIntoWhatMustStayWhole holds that a housing over a membrane, a used room, open air or an old slab is neither staked nor drained through it
// unless that is agreed, and that one on gravel is.
func TestNothingIsDrivenIntoWhatMustStayWhole(t *testing.T) {
	for zone, want := range map[string][]string{
		"stage=new pour": {"housing-fixed", "housing-drained"},
		"stage=new pour; support=on ground; membrane=no":    {"housing-fixed", "housing-drained"},
		"stage=new pour; membrane=yes":                      {"housing-over-membrane", "housing-fixed-above", "housing-drained-above"},
		"stage=overlay; membrane=yes":                       {"housing-over-membrane", "housing-fixed-above", "housing-drained-above"},
		"stage=new pour; support=over heated space":         {"housing-over-membrane", "housing-fixed-above", "housing-drained-above"},
		"stage=new pour; support=over open air":             {"housing-fixed-above", "housing-drained-through"},
		"stage=overlay; support=on ground":                  {"housing-fixed-above", "housing-drained-overlay"},
		"stage=existing heated; housing=yes; membrane=yes":  nil,
		"stage=existing heated; housing=no; slab sensor=no": nil,
	} {
		in := input(factsOf(t, zone), nil)
		in.Checklist, in.Pavement = table(t, "checklist"), sensing.Pavement{LengthM: 12, WidthM: 10}
		var got []string
		for _, code := range sensing.Choose(table(t, "sensing"), in).Checklist {
			if strings.HasPrefix(code, "housing-fixed") || strings.HasPrefix(code, "housing-drained") || code == "housing-over-membrane" {
				got = append(got, code)
			}
		}
		assert.Equal(t, want, got, zone)
	}
}
