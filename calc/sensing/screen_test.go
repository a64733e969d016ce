package sensing_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
	"thawbook/calc/sensing"
)

// answers returns the three answers and their codes, in the order of what is asked.
func answers(t *testing.T, c sensing.Choice) (says, codes [3]string) {
	t.Helper()
	require.GreaterOrEqual(t, len(c.Screen), 3)
	for i, what := range []string{sensing.AskedPavement, sensing.AskedOutdoor, sensing.AskedMoisture} {
		require.Equal(t, what, c.Screen[i].Asked)
		says[i], codes[i] = c.Screen[i].Answer, c.Screen[i].Why.Code
	}
	return says, codes
}

func TestScreen(t *testing.T) {
	const meets, not, ask = sensing.Meets, sensing.DoesNot, sensing.AskAuthority
	aerialPanel := sensing.Part{Name: "aerial panel", Kind: "controller", Inputs: "aerial detector", Functions: "ends on a timer"}
	plainPanel := sensing.Part{Name: "plain panel", Kind: "controller", Inputs: "in-pavement detector", Functions: "ends when dry"}
	all := panel("p", 1, "pump")
	for _, tt := range []struct {
		name, zone string
		parts      []sensing.Part
		says       [3]string
		codes      [3]string
		source     string
	}{
		{"pavement and slab, a panel", "stage=new pour", []sensing.Part{all}, [3]string{meets, meets, meets},
			[3]string{"screen-pavement-met", "screen-outdoor-by-reset", "screen-moisture-by-pavement"}, "practice: three inputs"},
		{"pavement and slab, no catalogue", "stage=new pour", nil, [3]string{ask, ask, meets},
			[3]string{"screen-controller-not-known", "screen-outdoor-controller-not-known", "screen-moisture-by-pavement"}, "sensors alone shut nothing off"},
		{"pavement and slab, no panel that fits", "stage=new pour", []sensing.Part{aerialPanel}, [3]string{ask, ask, meets},
			[3]string{"screen-controller-not-known", "screen-outdoor-controller-not-known", "screen-moisture-by-pavement"}, "no controller, no shut-off"},
		{"aerial alone", "stage=existing heated; housing=no; slab sensor=no; mast=yes", []sensing.Part{aerialPanel}, [3]string{not, ask, meets},
			[3]string{"screen-no-slab-temperature", "screen-outdoor-by-aerial", "screen-snow-by-aerial"}, "practice: an aerial-only set without pavement temperature fails it"},
		{"aerial and slab", "stage=existing heated; housing=no; slab sensor=yes; mast=yes", []sensing.Part{all}, [3]string{meets, meets, meets},
			[3]string{"screen-pavement-met", "screen-outdoor-by-reset", "screen-snow-by-aerial"}, "practice: three inputs"},
		{"timer and thermostat", "stage=new pour; start wanted=manual", []sensing.Part{all}, [3]string{not, meets, not},
			[3]string{"screen-slab-without-moisture", "screen-outdoor-by-reset", "screen-no-moisture"}, "practice: a timer-and-thermostat set fails it"},
		{"a person alone", "stage=existing heated; housing=no; slab sensor=no; mast=no", []sensing.Part{all}, [3]string{not, ask, not},
			[3]string{"screen-no-slab-temperature", "screen-outdoor-controller-not-known", "screen-no-moisture"}, "no input at all"},
		{"plain detector alone", "stage=existing heated; housing=yes; slab sensor=no", []sensing.Part{plainPanel}, [3]string{not, ask, meets},
			[3]string{"screen-no-slab-temperature", "screen-outdoor-not-told", "screen-moisture-by-pavement"}, "moisture without pavement temperature"},
		{"both families, start by hand is refused", "stage=new pour; critical=yes; start wanted=manual", []sensing.Part{all}, [3]string{meets, meets, meets},
			[3]string{"screen-pavement-met", "screen-outdoor-by-reset", "screen-moisture-by-pavement"}, "practice: three inputs"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			says, codes := answers(t, placed(t, tt.zone, tt.parts...))
			assert.Equal(t, tt.says, says, tt.source)
			assert.Equal(t, tt.codes, codes, tt.source)
		})
	}
}

func TestQuestions(t *testing.T) {
	questions := func(zone string) (codes []string) {
		for _, x := range placed(t, zone).Screen[3:] {
			assert.Equal(t, sensing.AskAuthority, x.Answer)
			assert.Empty(t, x.Asked)
			codes = append(codes, x.Why.Code)
		}
		return codes
	}
	assert.Equal(t, []string{"question-edition", "question-elsewhere"}, questions("stage=new pour"))
	assert.Equal(t, []string{"question-edition", "question-hand-start", "question-us"}, questions("stage=new pour; start wanted=manual; country=united states"))
	assert.Equal(t, []string{"question-edition", "question-idling", "question-switzerland"}, questions("stage=new pour; critical=yes; country=switzerland"))
	for country, code := range map[string]string{"canada": "question-canada", "united kingdom": "question-uk", "germany": "question-germany", "nordic": "question-nordic", "japan": "question-japan",
		"other": "question-elsewhere", "unknown": "question-elsewhere"} {
		assert.Contains(t, questions("stage=new pour; country="+country), code)
	}
}

// TestScreenNeverFlatters holds over every situation and change of it that "meets" is said only where a controller was chosen and the set has the
// inputs, whatever else, and that every row speaks somewhere.
func TestScreenNeverFlatters(t *testing.T) {
	rules := table(t, "sensing")
	heard := map[string]bool{}
	check := func(name string, in sensing.Input) {
		c := sensing.Choose(rules, in)
		says, _ := answers(t, c)
		detector := false
		for _, d := range c.Kit {
			detector = detector || d != sensing.SlabSensor
		}
		assert.False(t, says[0] == sensing.Meets && (c.Controller == "" || !c.OutdoorReset || !detector), name)
		assert.False(t, says[1] == sensing.Meets && (c.Controller == "" || !c.OutdoorReset), name)
		assert.Equal(t, detector, says[2] == sensing.Meets, name)
		for _, x := range c.Screen {
			heard[x.Why.Code] = true
		}
	}
	varied(t, func(s situation, _, _ string, in sensing.Input) {
		check(s.name, in)
		in.Parts = append(in.Parts[:len(in.Parts):len(in.Parts)], panels...)
		check(s.name, in)
		in.Parts = append(in.Parts[:len(in.Parts):len(in.Parts)], sensing.Part{Name: "plain panel", Kind: "controller", Inputs: "in-pavement detector", Functions: "ends when dry"})
		check(s.name, in)
	})
	for _, r := range table(t, "screen").Rows {
		assert.True(t, heard[r.Effects[facts.Code]], "line %d (%s) is never heard", r.Line, r.Effects[facts.Code])
	}
}

func TestCheckScreenTellsWhatIsWrong(t *testing.T) {
	const head = "starts\t->asked\t->answer\t->code\n"
	const whole = "\tshut-off by pavement temperature without precipitation\tmeets\ta\n\tshut-off by outdoor temperature\tdoes not\tb\n\tprecipitation or moisture input\task the authority\tc\n"
	for _, tt := range []struct{ name, rows, want string }{
		{"whole", whole, ""},
		{"a question", whole + "manual\tquestion\t\td\n", ""},
		{"asked", whole + "\tnoise\tmeets\td\n", `own: line 5: "noise" is none of shut-off by pavement temperature`},
		{"answer", "manual\tprecipitation or moisture input\tperhaps\td\n" + whole, `own: line 2: "perhaps" is none of the answers meets, does not, ask the authority`},
		{"dead", whole + "manual\tprecipitation or moisture input\tmeets\td\n", "own: line 5: never decides: line 4 holds whenever it does"},
		{"open", "\tshut-off by pavement temperature without precipitation\tmeets\ta\n", `own: "precipitation or moisture input" has no row that answers it for every set`},
		{"code", whole + "\tquestion\t\t\n", "own: line 5: no code"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			read, err := facts.Parse("own", strings.NewReader(head+tt.rows))
			require.NoError(t, err)
			if err = sensing.CheckScreen(read); tt.want == "" {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, tt.want)
			}
		})
	}
}
