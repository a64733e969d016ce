package submittal

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
	"thawbook/templates"
)

// catalogue is a list of parts with a price missing.
var catalogue = []sensing.Part{
	{Name: "Detector P", Kind: "in-pavement detector", Senses: "moisture", LeadM: "10; 20", Price: 640, Priced: true},
	{Name: "Detector Q", Kind: "in-pavement detector", Senses: "falling snow", LeadM: "20", Price: 600, Priced: true},
	{Name: "Aerial R", Kind: "aerial detector", Senses: "falling snow", LeadM: "15", Price: 520, Priced: true},
	{Name: "Sensor S", Kind: "slab temperature sensor", Senses: "slab temperature", LeadM: "30", Price: 95, Priced: true},
	{Name: "Controller T", Kind: "controller", Inputs: "in-pavement detector; aerial detector; slab temperature sensor", Functions: "ends when dry; ends on a timer; idling; outdoor reset"},
}

func rules(t testing.TB, name string) facts.Table {
	t.Helper()
	f, err := templates.FS().Open(path.Join("rules", name+".tsv"))
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	table, err := facts.Parse(name, f)
	require.NoError(t, err)
	return table
}

// chosen is the choice of the program's own rules for a pavement of 30 m by 9 m.
func chosen(t testing.TB, set facts.Set, parts []sensing.Part) *sensing.Choice {
	t.Helper()
	c := sensing.Choose(rules(t, "sensing"), sensing.Input{Facts: set, Start: "detector", Stop: "dry", Idling: true, Critical: set["critical"] == "yes", PanelM: 12, Parts: parts,
		Pavement: sensing.Pavement{AreaM2: 270, LengthM: 30, WidthM: 9, Slope: 0.03, ShadedShare: units.Some(0.3), SensorDepthM: 0.025},
		Numbers:  rules(t, "numbers"), Checklist: rules(t, "checklist"), Screen: rules(t, "screen")})
	return &c
}

var named = regexp.MustCompile(`\{([a-z-]+)\}`)

// operated says every line that there is of sequence, tests and care, each with a value.
func operated(w *words.Words) *calc.Operation {
	lines := func(table, state string) []sensing.Line {
		var out []sensing.Line
		for _, code := range w.Codes(table) {
			l := sensing.Line{State: state, Code: code}
			for _, m := range named.FindAllStringSubmatch(strings.Join(w.Line(table, code), " "), -1) {
				l.Args = append(l.Args, finding.Value(m[1], 3, units.Temperature))
			}
			out = append(out, l)
		}
		return out
	}
	sequence := lines(words.Sequence, "ready")
	for i := len(sequence) / 2; i < len(sequence); i++ {
		sequence[i].State = "sensor fault"
	}
	return &calc.Operation{Sequence: sequence, Tests: lines(words.Tests, ""), Care: lines(words.Care, "")}
}

// situated is a site whose zones hold what a chapter of sensing can tell.
func situated(t testing.TB, system units.System) report.View {
	v := view{plain: true, system: system}.make(t)
	both := facts.Set{"stage": "new pour", "existing": "no", "critical": "yes", "use": "drive", "mast": "yes", "slope": "slope", "drain": "yes", "heat": "hydronic", "traffic": "wheel"}
	found := facts.Set{"stage": "existing heated", "existing": "yes", "housing": "yes", "slab sensor": "yes", "control now": "in-pavement detector", "drain": "unknown", "heat": "electric"}
	list := v.Site.Outcomes
	list[0].Sensing, list[0].Operation = chosen(t, both, catalogue), operated(v.Words)
	list[1].Sensing, list[1].Operation = chosen(t, found, catalogue[1:4]), operated(v.Words)
	return v
}

func TestChapterOfSensingIsCleanAndWhole(t *testing.T) {
	for name, system := range map[string]units.System{"SI": units.SI, "IP": units.IP} {
		t.Run(name, func(t *testing.T) {
			doc, err := Render(situated(t, system))
			require.NoError(t, err)
			said := text(t, doc)
			assert.Empty(t, placeholder.FindAllString(said, -1), "a placeholder was not filled")
			assert.Empty(t, code.FindAllString(said, -1), "a code has no text")
			pages, p := boxes(t, doc), paperFor(system)
			require.Len(t, pages, doc.Pages)
			for i, page := range pages {
				page.check(t, i+1, p)
			}
		})
	}
}

func TestChapterOfSensingTells(t *testing.T) {
	v := situated(t, units.SI)
	require.Equal(t, "in-pavement detector + aerial detector + slab temperature sensor", v.Site.Outcomes[0].Sensing.KitName())
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, want := range []string{"1 × in-pavement detector", "2 × slab temperature sensor", "panel 12.0 m", "wheel tracks", "drain at the low end", "in shade at noon", "How each is set",
		"Detector P", "Aerial R", "15.0 + joint", "pull box above ground", "Senses does not name moisture", "It is in place today", "on site", "Ask the authority having jurisdiction", "This screen certifies nothing",
		"Sensor fault", "Siting", "Commissioning", "Yearly care", "Initials", "Midwinter"} {
		assert.Contains(t, said, want)
	}
	assert.NotContains(t, said, "With the temperature input below the start value", "a test stands once: among the tests")
	assert.Equal(t, 1, strings.Count(said, "Run a hose at the high end"), "what is asked of both zones stands once")
}

func TestTotalOfPartsIsBlankWithoutAPrice(t *testing.T) {
	v := situated(t, units.SI)
	s, o := on(v), v.Site.Outcomes[0]
	assert.False(t, o.PartsTotal("USD").Known, "the controller has no price")
	assert.Empty(t, s.sum(o.PartsTotal("USD")))
	var bare strings.Builder
	for _, p := range o.Sensing.Selection.Pieces {
		bare.WriteString(s.bought(p) + ";" + s.sum(s.amountOf(p)) + "\n")
	}
	assert.Equal(t, "Detector P;640.00\nAerial R;520.00\nSensor S;190.00\nController T;\n", bare.String())
}

func TestLinesOfSeveralZonesKeepTheirOrder(t *testing.T) {
	v := situated(t, units.SI)
	all := v.Site.Outcomes[1].Operation.Care
	v.Site.Outcomes[0].Operation.Care = append([]sensing.Line{all[0]}, all[4:]...)
	var said []string
	for _, l := range on(v).spoken(words.Care, func(o calc.Operation) []sensing.Line { return o.Care }) {
		said = append(said, l.texts[1])
	}
	var want []string
	for _, l := range all {
		want = append(want, v.Words.Line(words.Care, l.Code, l.Args...)[1])
	}
	assert.Equal(t, want, said)
}

func TestOffersTellWhatTheyTakeBeforeAndAfterASurvey(t *testing.T) {
	v := situated(t, units.SI)
	o := &v.Site.Outcomes[1]
	o.Sensing.Offers = []string{"survey-before-cutting"}
	o.Options = []calc.Option{{Option: sensing.Option{For: sensing.SlabSensor, Checklist: []string{"cut-slot"}, Gives: sensing.Gives{Kit: "slab temperature sensor", Strategy: "manual + slab sensor"}}, Waits: true, Example: true,
		Total: units.Some(cost.FromMain(980, "CAD")), Lines: []calc.OptionLine{{Item: "scanning", Quantity: 1, Unit: units.Count, Amount: units.Some(cost.FromMain(980, "CAD"))},
			{Item: "saw-cut", Quantity: 1, Unit: units.Length, After: true}}}}
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, want := range []string{"1 × scanning (980.00)", "once the survey clears it 1.0 m saw-cut", "slab temperature sensor; way of control: manual + slab sensor", "rest on example prices",
		"Only if an option that reaches into the pavement is ordered: none of these is part of the choice □ Saw the slot for the lead"} {
		assert.Contains(t, said, want)
	}
}

// TestSketchOfAStairSaysWhatItStandsFor holds that a stair is not shown as a ramp.
func TestSketchOfAStairSaysWhatItStandsFor(t *testing.T) {
	v := situated(t, units.SI)
	c := chosen(t, facts.Set{"stage": "new pour", "existing": "no", "use": "stair"}, nil)
	s := on(v)
	assert.Equal(t, "the stairs go down to the low end", s.sketch(*c.Plan).Words.Slope)
	v.Site.Outcomes[0].Sensing = c
	v.Site.Outcomes[0].Zone.Extent.Use = calc.Stair
	doc, err := Render(v)
	require.NoError(t, err)
	said := strings.Join(strings.Fields(text(t, doc)), " ")
	for _, want := range []string{"The rectangle stands for the run of stairs", "The slab sensor lies in a tread", "In a tread, midway between two pipes or cables"} {
		assert.Contains(t, said, want)
	}
}
