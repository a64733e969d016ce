package calc

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// ruled is an engine with every table, a catalogue and unit costs.
func ruled(change ...func(*Inputs)) *Engine {
	return engine(append([]func(*Inputs){func(in *Inputs) {
		in.Numbers, in.Screen, in.Sequence, in.Tests, in.Care = table("numbers"), table("screen"), table("sequence"), table("tests"), table("care")
		in.Parts = catalogue
		in.UnitCosts = []cost.UnitCost{{Item: "Coring", Unit: "piece", Cost: units.Some(600.0)}, {Item: "saw-cut", Unit: "ft", Cost: units.Some(20.0), Example: true},
			{Item: "scanning", Unit: "half day", Cost: units.Some(950.0)}, {Item: "conduit", Unit: "m", Cost: units.Some(40.0)}}
	}}, change...)...)
}

var catalogue = []sensing.Part{
	{Name: "detector", Kind: "in-pavement detector", Senses: "moisture", LeadM: "15; 30", Price: 640.25, Priced: true},
	{Name: "aerial", Kind: "aerial detector", Senses: "falling snow", LeadM: "30", Price: 520, Priced: true},
	{Name: "sensor", Kind: "slab temperature sensor", Senses: "slab temperature", LeadM: "20", Price: 95.5, Priced: true},
	{Name: "timer", Kind: "controller", Inputs: "aerial detector", Outputs: "pump; contactor", Functions: "ends on a timer", Price: 780, Priced: true},
	{Name: "full", Kind: "controller", Inputs: "in-pavement detector; aerial detector; slab temperature sensor", Outputs: "pump; contactor",
		Functions: "ends when dry; ends on a timer; idling; outdoor reset", Price: 2150, Priced: true},
}

// variedZones are zones that between them bring out what sequences say.
var variedZones = map[string]func(*Zone){
	"drive":    func(z *Zone) {},
	"electric": func(z *Zone) { z.Heat.Kind, z.Heat.EnergyID, z.Slab.DepthM = Electric, "power", units.Some(0.06) },
	"critical": func(z *Zone) { z.Extent.Use, z.Sensing.MastAvailable = Helistop, Yes },
	"critical without a mast, locked out": func(z *Zone) {
		z.Extent.Use, z.Sensing.MastAvailable, z.Sensing.LowestMeltC = EmergencyEntrance, No, units.Some(-12.0)
	},
	"existing": func(z *Zone) {
		z.Slab.Stage, z.Sensing.Housing, z.Sensing.SlabSensor, z.Sensing.MastAvailable = ExistingHeated, No, No, Yes
	},
	"existing critical": func(z *Zone) {
		z.Slab.Stage, z.Extent.Use, z.Sensing.Housing, z.Sensing.SlabSensor, z.Sensing.MastAvailable = ExistingHeated, Helistop, No, Yes, Yes
	},
	"by hand":        func(z *Zone) { z.Sensing.Start = "manual" },
	"ends by hand":   func(z *Zone) { z.Sensing.Stop = "manual" },
	"timer":          func(z *Zone) { z.Sensing.Stop = "timer" },
	"nothing":        func(z *Zone) { z.Slab.Stage, z.Sensing.MastAvailable, z.Sensing.Start = ExistingHeated, No, "manual" },
	"design hour":    func(z *Zone) { z.Place.Station = "One Hour" },
	"given, nowhere": func(z *Zone) { z.Service.DesignFluxWM2, z.Place.Station = units.Some(287.0), "" },
	"weak":           func(z *Zone) { z.Heat.InstalledWM2 = units.Some(90.0) },
}

var placeholder = regexp.MustCompile(`\{[^}]*\}`)

// sentences reads a table of texts: the texts of each code, joined.
func sentences(t *testing.T, name string) map[string]string {
	t.Helper()
	data, err := os.ReadFile("../templates/en/" + name + ".tsv")
	require.NoError(t, err)
	out := map[string]string{}
	for line := range strings.Lines(string(data)) {
		code, rest, _ := strings.Cut(strings.TrimSpace(line), "\t")
		out[code] = rest
	}
	return out
}

// unfilled returns the {names} of a sentence that no value fills.
func unfilled(text string, args []finding.Arg) string {
	for _, a := range args {
		text = strings.ReplaceAll(text, "{"+a.Name+"}", "")
	}
	return strings.Join(placeholder.FindAllString(text, -1), " ")
}

// TestEverySentenceIsFilled holds that no line of sequence, tests, care, screen or reasons names a value that its zone does not have.
func TestEverySentenceIsFilled(t *testing.T) {
	e := ruled()
	said := 0
	for name, change := range variedZones {
		o := outcome(t, e, change)
		require.NotNil(t, o.Sensing, name)
		require.NotNil(t, o.Operation, name)
		for texts, lines := range map[string][]sensing.Line{"sequence": o.Operation.Sequence, "tests": o.Operation.Tests, "care": o.Operation.Care} {
			all := sentences(t, texts)
			require.NotEmpty(t, lines, "%s: %s", name, texts)
			for _, l := range lines {
				said++
				assert.Contains(t, all, l.Code)
				assert.Empty(t, unfilled(all[l.Code], l.Args), "%s: %s", name, l.Code)
			}
		}
		screen, reasons := sentences(t, "screen"), sentences(t, "reasons")
		for _, x := range o.Sensing.Screen {
			assert.Empty(t, unfilled(screen[x.Why.Code], x.Why.Args), "%s: %s", name, x.Why.Code)
		}
		for _, r := range reasonsOf(*o.Sensing) {
			assert.Contains(t, reasons, r.Code)
			assert.Empty(t, unfilled(reasons[r.Code], r.Args), "%s: %s", name, r.Code)
		}
	}
	assert.Greater(t, said, 500)
}

// reasonsOf gathers every reason of a choice.
func reasonsOf(c sensing.Choice) []sensing.Reason {
	all := c.Reasons
	for _, n := range c.Numbers {
		all = append(all, n.Reasons...)
	}
	if c.Plan != nil {
		for _, m := range c.Plan.Marks {
			all = append(all, m.Reasons...)
		}
	}
	if c.Section != nil {
		all = append(all, c.Section.Reasons...)
	}
	if x := c.Selection; x != nil {
		all = append(append(all, x.Missing...), x.Verify...)
		for _, u := range x.Unfit {
			all = append(all, u.Why)
		}
	}
	return all
}

func lineCodes(list []sensing.Line) []string {
	var codes []string
	for _, l := range list {
		codes = append(codes, l.Code)
	}
	return codes
}

// value returns the number of an argument.
func value(t *testing.T, list []sensing.Line, name string) float64 {
	t.Helper()
	require.NotEmpty(t, list)
	for _, a := range list[0].Args {
		if a.Name == name {
			return a.Number
		}
	}
	t.Fatalf("no %s", name)
	return 0
}

// TestSequenceHasThisSitesSetPoints holds that the values of a sequence are those of the zone's own reset, limits and settings.
func TestSequenceHasThisSitesSetPoints(t *testing.T) {
	o := outcome(t, ruled(), func(z *Zone) {
		z.Sensing.SurfaceMeltC, z.Sensing.SurfaceIdleC, z.Sensing.Idling, z.Sensing.LowestMeltC = 4, 1, units.Some(true), units.Some(-14.0)
		z.Heat.InstalledWM2 = units.Some(800.0)
	})
	lines := o.Operation.Sequence
	require.Len(t, o.Operation.SetPoints, 3)
	for i, at := range []struct {
		name string
		c    float64
	}{{"mild", 0}, {"cold", -10}, {"coldest", -20}} {
		assert.Equal(t, at.c, o.Operation.SetPoints[i].OutdoorC)
		assert.Equal(t, at.c, value(t, lines, "outdoor-"+at.name))
		assert.Equal(t, o.Reset.At(at.c, true), value(t, lines, "slab-"+at.name))
		assert.Equal(t, o.Reset.At(at.c, false), value(t, lines, "idle-"+at.name))
	}
	assert.Equal(t, 4.0, value(t, lines, "melt"))
	assert.Equal(t, 1.0, value(t, lines, "idle"))
	assert.Equal(t, -14.0, value(t, lines, "lockout"))
	assert.Equal(t, -12.0, value(t, lines, "restart"), "practice: restart with 2 to 3 K")
	assert.Equal(t, o.Slab.WarmUpHours.Value, value(t, lines, "warm-up"))
	assert.Equal(t, o.Zone.Heat.SupplyLimitC.Value, value(t, lines, "supply-limit"))
	assert.Subset(t, lineCodes(lines), []string{"lockout-below", "lockout-idling", "idling-slab", "melting-slab", "drying-off-delay", "heating-up-time"})
	assert.Subset(t, lineCodes(outcome(t, ruled(), variedZones["weak"]).Operation.Sequence), []string{"melting-beyond-plant"})

	plain := outcome(t, ruled(), variedZones["existing"])
	assert.Empty(t, plain.Operation.SetPoints, "no slab temperature, no set points")
	assert.Contains(t, lineCodes(plain.Operation.Sequence), "melting-full-hydronic")
	nowhere := outcome(t, ruled(), variedZones["given, nowhere"])
	assert.Contains(t, lineCodes(nowhere.Operation.Sequence), "melting-slab-not-found")
	assert.Nil(t, outcome(t, ruled(), func(z *Zone) { z.Slab.Stage = ExistingUnheated }).Operation, "nothing heats")
}

// choice settles a zone and chooses for it, without load, slab and winters.
func choice(e *Engine, change ...func(*Zone)) Outcome {
	o := Outcome{Zone: zone(change...)}
	e.prepare(&o)
	e.choose(&o)
	return o
}

func optionLine(t *testing.T, o Option, item string) OptionLine {
	t.Helper()
	for _, l := range o.Lines {
		if l.Item == item {
			return l
		}
	}
	t.Fatalf("no line %s", item)
	return OptionLine{}
}

func TestOptionsArePriced(t *testing.T) {
	cured := func(z *Zone) {
		variedZones["existing"](z)
		z.Slab.PostTensioned, z.Slab.MembraneBelow, z.Sensing.PanelM, z.Siting.EdgeM, z.Sensing.Stop = No, No, units.Some(10.0), units.Some(3.048), "dry"
	}
	o := choice(ruled(), cured)
	require.Len(t, o.Options, 2)
	core := o.Options[0]
	require.Equal(t, "offer-coring", core.Code)
	assert.Equal(t, units.Some(cost.Money(60000)), optionLine(t, core, "coring").Amount)
	assert.Equal(t, units.Some(cost.Money(20000)), optionLine(t, core, "saw-cut").Amount, "3.048 m are 10 ft at 20")
	assert.Equal(t, units.Some(cost.Money(27808)), optionLine(t, core, "conduit").Amount, "6.952 m at 40")
	assert.Equal(t, units.Some(cost.Money(64025)), optionLine(t, core, "detector").Amount)
	assert.Equal(t, units.Some(cost.Money(215000)), optionLine(t, core, "full").Amount)
	assert.Equal(t, units.Some(cost.Money(-78000)), optionLine(t, core, "timer").Amount, "the timer is not bought then")
	assert.Equal(t, units.Some(cost.Money(95000+60000+20000+27808+64025+215000-78000)), core.Total, "by hand")
	assert.True(t, core.Example, "a price of it is an example")
	assert.False(t, core.Waits)
	assert.False(t, core.After.Known)
	assert.Equal(t, "dry", core.Gives.Stop)

	surveyed := choice(ruled(), variedZones["existing"])
	require.NotEmpty(t, surveyed.Options)
	assert.Equal(t, "survey-before-cutting", surveyed.Options[0].Code)
	assert.Equal(t, units.Some(cost.Money(95000)), surveyed.Options[0].Total, "the scan alone")
	assert.True(t, surveyed.Options[0].After.Known)
	assert.True(t, surveyed.Options[0].Waits)

	for name, change := range map[string]func(*Inputs){
		"no row":       func(in *Inputs) { in.UnitCosts = in.UnitCosts[1:] },
		"no price":     func(in *Inputs) { in.UnitCosts[0].Cost = units.Maybe[float64]{} },
		"another unit": func(in *Inputs) { in.UnitCosts[0].Unit = "m" },
		"no rate":      func(in *Inputs) { in.UnitCosts[0].Currency = "NOK" },
		"no catalogue": func(in *Inputs) { in.Parts = nil },
	} {
		for _, x := range choice(ruled(change), cured).Options {
			if x.Code == "offer-coring" {
				assert.False(t, x.Total.Known, name)
			}
		}
	}
	rated := ruled(func(in *Inputs) { in.UnitCosts[0].Currency, in.Settings.Rates = "CAD", []Rate{{"CAD", 0.5}} })
	assert.Equal(t, units.Some(cost.Money(30000)), optionLine(t, choice(rated, cured).Options[0], "coring").Amount, "half of 600")
}

func TestPartsTotal(t *testing.T) {
	o := choice(ruled(), func(z *Zone) {})
	assert.Equal(t, units.Some(cost.Money(64025+9550+215000)), o.PartsTotal("USD"), "by hand")
	assert.False(t, choice(ruled(func(in *Inputs) { in.Parts = nil })).PartsTotal("USD").Known)
	assert.False(t, Outcome{}.PartsTotal("USD").Known)
	assert.False(t, choice(ruled(func(in *Inputs) { in.Parts = in.Parts[1:] })).PartsTotal("USD").Known, "a part is missing")
}

func TestPlanOfAZone(t *testing.T) {
	o := choice(ruled(), func(z *Zone) { z.Extent.AreaM2, z.Extent.PerimeterM = 60, units.Some(32.0) })
	assert.InDelta(t, 10, o.Sensing.Plan.LengthM, 1e-9, "60 m² within 32 m are 10 by 6")
	assert.InDelta(t, 6, o.Sensing.Plan.WidthM, 1e-9)
	assert.False(t, o.Sensing.Plan.ShapeAssumed)
	square := choice(ruled()).Sensing.Plan
	assert.InDelta(t, square.LengthM, square.WidthM, 1e-6)
	assert.True(t, square.ShapeAssumed)
	assert.True(t, square.PanelAssumed)
}

func TestSharedStart(t *testing.T) {
	aerial := func(id string, more func(*Zone)) Zone {
		return zone(func(z *Zone) { z.Ref.ZoneID = id; variedZones["existing"](z) }, more)
	}
	plain := func(*Zone) {}
	so := ruled().Site(site(aerial("1", plain), aerial("2", plain), aerial("3", func(z *Zone) { z.Extent.Use = Helistop }), aerial("4", func(z *Zone) { z.Siting.Overhang = Yes }),
		zone(func(z *Zone) { z.Ref.ZoneID = "5" })))
	assert.Equal(t, []string{"1", "2"}, so.SharedStart, "not the critical one, not the sheltered one, not the one without an aerial detector")
	assert.Nil(t, ruled().Site(site(aerial("1", plain))).SharedStart, "one zone shares with nobody")
}

// TestRulesAreJudged holds that every table that comes with the program is sound, and that each kind of table is judged by its own rules.
func TestRulesAreJudged(t *testing.T) {
	for _, name := range []string{"sensing", "numbers", "screen", "sequence", "tests", "care", "checklist", "cautions", "topics"} {
		assert.NoError(t, CheckRules(name, table(name)), name)
	}
	for name, want := range map[string]string{"sensing": "is none of the effects", "numbers": "is no device", "screen": "is none of", "sequence": "is none of the states", "care": "there is no fact"} {
		bad, err := facts.Parse(name, strings.NewReader("slop\t->effect\t->code\n\tx\ta\n"))
		require.NoError(t, err)
		assert.ErrorContains(t, CheckRules(name, bad), want)
		assert.ErrorContains(t, CheckRules(name, bad), name+`: line 1: there is no fact "slop"`)
	}
}
