package sensing_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// codesOfParts are the codes that need a catalogue of their own; TestWhyNot reaches each.
var codesOfParts = map[string]bool{"part-switches-other": true, "part-without-price": true, "part-listed-later": true, "part-lead-short": true, "part-lead-not-told": true,
	"verify-outputs": true, "verify-several-inputs": true, "verify-old-device": true, "missing-fitting": true}

func detector(name string, price float64, leads string) sensing.Part {
	return sensing.Part{Name: name, Kind: "in-pavement detector", Senses: "moisture", LeadM: leads, Price: price, Priced: price > 0}
}

func slabSensor(name string, price float64, leads string) sensing.Part {
	return sensing.Part{Name: name, Kind: "slab temperature sensor", Senses: "slab temperature", LeadM: leads, Price: price, Priced: price > 0}
}

func panel(name string, price float64, outputs string) sensing.Part {
	return sensing.Part{Name: name, Kind: "controller", Inputs: "in-pavement detector; aerial detector; slab temperature sensor", Outputs: outputs,
		Functions: "ends when dry; ends on a timer; idling; outdoor reset", Price: price, Priced: price > 0}
}

func pieceOf(t *testing.T, c sensing.Choice, kind string) sensing.Piece {
	t.Helper()
	require.NotNil(t, c.Selection)
	i := slices.IndexFunc(c.Selection.Pieces, func(p sensing.Piece) bool { return p.Kind == kind })
	require.GreaterOrEqual(t, i, 0, kind)
	return c.Selection.Pieces[i]
}

func why(c sensing.Choice, part string) string {
	for _, u := range c.Selection.Unfit {
		if u.Part == part {
			return u.Why.Code
		}
	}
	return ""
}

func TestLeads(t *testing.T) {
	for _, tt := range []struct {
		leads  string
		length units.Maybe[float64]
		joint  bool
		source string
	}{
		{"15; 30; 60", units.Some(15.0), false, "10 m run + 10 % + 2 m = 13 m; the shortest that reaches"},
		{"60;13;15", units.Some(13.0), false, "a lead of the very length reaches; the order does not matter"},
		{"5; 12.9", units.Some(12.9), true, "none reaches: the longest, with a joint"},
		{"", units.Maybe[float64]{}, false, "not told"},
		{"a; ;30", units.Some(30.0), false, "what is no number was told when the sheet was read"},
	} {
		c := placed(t, "stage=new pour", detector("d", 100, tt.leads), slabSensor("s", 50, "30"), panel("p", 900, "pump"))
		p := pieceOf(t, c, "in-pavement detector")
		assert.InDelta(t, 13, p.NeedM, 1e-9, "common practice: run + 10 % + 2 m")
		assert.Equal(t, tt.length, p.FactoryM, "%q: %s", tt.leads, tt.source)
		assert.Equal(t, tt.joint, p.Joint, "%q: %s", tt.leads, tt.source)
		assert.Equal(t, map[bool]int{true: 1}[tt.joint], c.Selection.Boxes, "a joint is made in a pull box")
		assert.Equal(t, tt.joint, slices.Contains(findingCodes(c), string(sensing.CodeLeadJoint)))
	}
	assert.InDelta(t, 2.0, sensing.LeadM(0), 1e-12)
	assert.InDelta(t, 35.0, sensing.LeadM(30), 1e-9, "30 + 3 + 2 by hand")
}

func TestWhyNot(t *testing.T) {
	s, p := slabSensor("s", 50, "30"), panel("p", 900, "pump")
	for _, tt := range []struct {
		name, zone string
		parts      []sensing.Part
		chosen     string // of the kind of the part that is asked about
		part, code string
	}{
		{"factory lead before a splice", "stage=new pour", []sensing.Part{detector("short", 100, "10"), detector("long", 300, "20"), s, p}, "long", "short", "part-lead-short"},
		{"told before not told", "stage=new pour", []sensing.Part{detector("not told", 100, ""), detector("long", 300, "20"), s, p}, "long", "not told", "part-lead-not-told"},
		{"not told before a splice", "stage=new pour", []sensing.Part{detector("short", 100, "10"), detector("not told", 300, ""), s, p}, "not told", "short", "part-lead-short"},
		{"price told before not", "stage=new pour", []sensing.Part{detector("no price", 0, "20"), detector("priced", 300, "20"), s, p}, "priced", "no price", "part-without-price"},
		{"the lower price", "stage=new pour", []sensing.Part{detector("dear", 310, "20"), detector("cheap", 300, "60"), s, p}, "cheap", "dear", "part-costs-more"},
		{"the earlier row", "stage=new pour", []sensing.Part{detector("one", 300, "20"), detector("two", 300, "20"), s, p}, "one", "two", "part-listed-later"},
		{"no moisture", "stage=new pour", []sensing.Part{{Name: "blind", Kind: "in-pavement detector", Senses: "slab temperature", LeadM: "20"}, detector("one", 300, "20"), s, p}, "one", "blind", "part-senses-other"},
		{"no slab temperature", "stage=existing heated; housing=yes; slab sensor=no", []sensing.Part{detector("plain", 100, "20"),
			{Name: "both", Kind: "in-pavement detector", Senses: "moisture; slab temperature", LeadM: "20", Price: 500, Priced: true}, p}, "both", "plain", "part-without-slab-temperature"},
		{"outputs for pipes", "stage=new pour; heat=hydronic", []sensing.Part{detector("one", 300, "20"), s, panel("contactor panel", 100, "contactor"), p}, "p", "contactor panel", "part-switches-other"},
		{"outputs for cables", "stage=new pour; heat=electric", []sensing.Part{detector("one", 300, "20"), s, p, panel("contactor panel", 1000, "contactor; pump")}, "contactor panel", "p", "part-switches-other"},
		{"inputs", "stage=new pour", append([]sensing.Part{detector("one", 300, "20"), s, p}, panels[2]), "p", "cheap panel", "part-does-not-take"},
		{"functions", "stage=new pour", append([]sensing.Part{detector("one", 300, "20"), s, p}, panels[3]), "p", "timer panel", "part-lacks-function"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := placed(t, tt.zone, tt.parts...)
			var names []string
			for _, piece := range c.Selection.Pieces {
				names = append(names, piece.Part)
			}
			assert.Contains(t, names, tt.chosen)
			assert.Equal(t, tt.code, why(c, tt.part))
		})
	}
}

func TestWhatIsMissingAndToVerify(t *testing.T) {
	c := placed(t, "stage=new pour", detector("one", 300, "20"), panel("p", 900, ""))
	assert.Equal(t, []string{"missing-kind"}, codesOf(c.Selection.Missing), "no slab sensor is listed")
	assert.Equal(t, []string{"verify-outputs"}, codesOf(c.Selection.Verify))
	assert.False(t, c.Selection.Total.Known, "a piece is missing")
	assert.Contains(t, findingCodes(c), string(sensing.CodeNoPartListed))

	c = placed(t, "stage=new pour; use=walk; sides=60x31.5", detector("one", 300, "99"), slabSensor("s", 50, "99"), panel("p", 900, "pump"))
	assert.Equal(t, []string{"verify-several-inputs"}, codesOf(c.Selection.Verify))
	assert.Equal(t, units.Some(2*300+50+900.0), c.Selection.Total, "two detectors, a sensor and a panel, by hand")

	c = placed(t, "stage=existing heated; housing=yes; control now=in-pavement detector; slab sensor=yes", detector("one", 300, "99"), slabSensor("s", 50, "99"), panel("p", 900, "pump"))
	assert.Equal(t, []string{"verify-old-device", "verify-old-device"}, codesOf(c.Selection.Verify))
	assert.Equal(t, units.Some(900.0), c.Selection.Total, "what is there is not bought")
	assert.Zero(t, pieceOf(t, c, "in-pavement detector").Buy)
	assert.Equal(t, 1, pieceOf(t, c, "in-pavement detector").There)

	c = placed(t, "stage=new pour", sensing.Part{Name: "blind", Kind: "in-pavement detector", Senses: "slab temperature"}, slabSensor("s", 50, "99"), panel("p", 900, "pump"))
	assert.Equal(t, []string{"missing-fitting"}, codesOf(c.Selection.Missing))
	assert.Contains(t, findingCodes(c), string(sensing.CodeNoPartFits))

	c = placed(t, "stage=new pour; heat=electric", detector("one", 300, "99"), slabSensor("s", 50, "99"), panel("p", 900, "pump"))
	assert.Empty(t, c.Controller)
	i := slices.Index(findingCodes(c), string(sensing.CodeNoControllerFits))
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, "contactor", c.Findings[i].Args[2].Text)

	assert.False(t, placed(t, "stage=new pour", detector("one", 0, "99"), slabSensor("s", 50, "99"), panel("p", 900, "pump")).Selection.Total.Known, "a price is missing")
	assert.Nil(t, placed(t, "stage=new pour").Selection, "no catalogue")
	assert.Nil(t, placed(t, "stage=existing heated; housing=no; slab sensor=no; mast=no", panels...).Selection, "nothing to buy for a person")
}

// made returns a catalogue drawn at random.
func made(random *rand.Rand) []sensing.Part {
	some := func(words ...string) string {
		var out []string
		for _, w := range words {
			if random.IntN(3) > 0 {
				out = append(out, w)
			}
		}
		return strings.Join(out, "; ")
	}
	var out []sensing.Part
	for i := range 1 + random.IntN(12) {
		p := sensing.Part{Name: string(rune('a' + i)), LeadM: some("5", "14", "30"), Price: float64(100 * (1 + random.IntN(6))), Priced: random.IntN(5) > 0}
		if !p.Priced {
			p.Price = 0
		}
		switch random.IntN(4) {
		case 0:
			p.Kind, p.Senses = "in-pavement detector", some("moisture", "slab temperature")
		case 1:
			p.Kind, p.Senses = "aerial detector", some("falling snow")
		case 2:
			p.Kind, p.Senses = "slab temperature sensor", some("slab temperature")
		default:
			p.Kind, p.Inputs, p.Outputs = "controller", some("in-pavement detector", "aerial detector", "slab temperature sensor"), some("pump", "contactor")
			p.Functions = some("ends when dry", "ends on a timer", "idling", "outdoor reset")
		}
		out = append(out, p)
	}
	return out
}

// fitsKit says, as a person reading the Parts sheet would, whether a part can serve a kit.
func fitsKit(p sensing.Part, c sensing.Choice, heat string) bool {
	has := func(d sensing.Device) bool { return slices.Contains(c.Kit, d) }
	senses := func(w string) bool { return p.Senses == "" || strings.Contains(p.Senses, w) }
	switch p.Kind {
	case "in-pavement detector":
		return senses("moisture") && (!c.OutdoorReset || has(sensing.SlabSensor) || strings.Contains(p.Senses, "slab temperature"))
	case "aerial detector":
		return senses("falling snow")
	case "slab temperature sensor":
		return senses("slab temperature")
	}
	for _, d := range c.Kit {
		if !strings.Contains(p.Inputs, string(d)) {
			return false
		}
	}
	for word, needed := range map[string]bool{"ends when dry": c.Stop == "dry", "ends on a timer": c.Stop == "timer", "idling": c.Idling, "outdoor reset": c.OutdoorReset} {
		if needed && !strings.Contains(p.Functions, word) {
			return false
		}
	}
	return p.Outputs == "" || strings.Contains(p.Outputs, map[string]string{"hydronic": "pump", "electric": "contactor"}[heat])
}

// reaches ranks a part's leads as the comment on Selection does.
func reaches(p sensing.Part, need float64) int {
	switch {
	case need == 0:
		return 0
	case p.LeadM == "":
		return 1
	case strings.Contains(p.LeadM, "30") && need <= 30, strings.Contains(p.LeadM, "14") && need <= 14, strings.Contains(p.LeadM, "5") && need <= 5:
		return 0
	}
	return 2
}

// TestLeastCost holds over catalogues drawn at random: every part that is selected fits, and of those that fit none with a lead as good is priced
// where the selected is not, or costs less; what fits is never called missing.
func TestLeastCost(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 2))
	zones := []string{"stage=new pour; heat=hydronic", "stage=new pour; heat=electric; critical=yes", "stage=existing heated; heat=hydronic; housing=no; slab sensor=yes; mast=yes",
		"stage=existing heated; heat=hydronic; housing=yes; slab sensor=no", "stage=new pour; heat=hydronic; use=walk; sides=60x60", "stage=new pour; heat=hydronic; start wanted=manual"}
	selected := 0
	for range 1500 {
		zone, parts := zones[random.IntN(len(zones))], made(random)
		c := placed(t, zone, parts...)
		heat := map[bool]string{true: "electric", false: "hydronic"}[strings.Contains(zone, "electric")]
		total, whole := 0.0, true
		for _, piece := range c.Selection.Pieces {
			fitting := slices.DeleteFunc(slices.Clone(parts), func(p sensing.Part) bool { return p.Kind != piece.Kind || !fitsKit(p, c, heat) })
			if piece.Buy == 0 {
				continue
			}
			if piece.Part == "" {
				assert.Empty(t, fitting, "%s: %s is called missing", zone, piece.Kind)
				whole = false
				continue
			}
			selected++
			i := slices.IndexFunc(fitting, func(p sensing.Part) bool { return p.Name == piece.Part })
			require.GreaterOrEqual(t, i, 0, "%s: %s does not fit", zone, piece.Part)
			for _, p := range fitting {
				worse := reaches(p, piece.NeedM) - reaches(fitting[i], piece.NeedM)
				assert.GreaterOrEqual(t, worse, 0, "a better lead was left")
				if worse == 0 && p.Priced {
					assert.True(t, fitting[i].Priced && fitting[i].Price <= p.Price, "%s: %s is cheaper than %s", zone, p.Name, piece.Part)
				}
			}
			total, whole = total+float64(piece.Buy)*fitting[i].Price, whole && fitting[i].Priced
		}
		assert.Equal(t, whole, c.Selection.Total.Known)
		if whole {
			assert.InDelta(t, total, c.Selection.Total.Value, 1e-9)
		}
		for _, p := range parts {
			taken := slices.ContainsFunc(c.Selection.Pieces, func(x sensing.Piece) bool { return x.Part == p.Name && x.Kind == p.Kind })
			looked := slices.ContainsFunc(c.Selection.Pieces, func(x sensing.Piece) bool { return x.Kind == p.Kind && x.Buy > 0 })
			assert.True(t, taken || !looked || why(c, p.Name) != "", "%s was looked at and nobody says why not", p.Name)
		}
	}
	assert.Greater(t, selected, 800)
}

// TestAddingAPartNeverRemoves holds that a further row of Parts never costs a function, a piece or the controller.
func TestAddingAPartNeverRemoves(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	zones := []string{"stage=new pour; heat=hydronic; idling wanted=yes", "stage=existing heated; heat=hydronic; housing=yes; slab sensor=no; post-tensioned=yes", "stage=overlay; heat=electric"}
	for range 1500 {
		zone, parts := zones[random.IntN(len(zones))], made(random)
		before := functionsOf(placed(t, zone, parts[:len(parts)-1]...))
		after := functionsOf(placed(t, zone, parts...))
		for f, had := range before {
			assert.True(t, !had || after[f], "%s: %+v loses %q", zone, parts[len(parts)-1], f)
		}
	}
}

// TestLeastSetIsTheLeastOfAll compares with every combination of parts that fits, where every lead reaches and every price is told.
func TestLeastSetIsTheLeastOfAll(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	for range 300 {
		var parts []sensing.Part
		price := func() float64 { return float64(50 * (1 + random.IntN(20))) }
		for range 3 {
			parts = append(parts, detector("d"+string(rune('0'+len(parts))), price(), "99"), slabSensor("s"+string(rune('0'+len(parts))), price(), "99"),
				panel("p"+string(rune('0'+len(parts))), price(), "pump"))
			both := detector("b"+string(rune('0'+len(parts))), price(), "99")
			both.Senses = "moisture; slab temperature"
			parts = append(parts, both)
		}
		for _, zone := range []string{"stage=new pour; heat=hydronic", "stage=new pour; heat=hydronic; use=walk; sides=60x31.5"} {
			c := placed(t, zone, parts...)
			n := float64(numberOf(c, sensing.PavementDetector).Wanted)
			least := math.Inf(1)
			for _, d := range parts {
				for _, p := range parts {
					if d.Kind != "in-pavement detector" || p.Kind != "controller" {
						continue
					}
					if strings.Contains(d.Senses, "slab") {
						least = min(least, n*d.Price+p.Price)
					}
					for _, s := range parts {
						if s.Kind == "slab temperature sensor" {
							least = min(least, n*d.Price+s.Price+p.Price)
						}
					}
				}
			}
			require.True(t, c.Selection.Total.Known)
			assert.InDelta(t, least, c.Selection.Total.Value, 1e-9, "%s of %v", zone, parts)
		}
	}
}

// TestOrderOfPartsDecidesTiesOnly holds that turning the rows around changes no total.
func TestOrderOfPartsDecidesTiesOnly(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	for range 500 {
		parts := made(random)
		there := placed(t, "stage=new pour; heat=hydronic", parts...).Selection
		slices.Reverse(parts)
		back := placed(t, "stage=new pour; heat=hydronic", parts...).Selection
		assert.Equal(t, there.Total, back.Total)
		assert.Equal(t, there.Boxes, back.Boxes)
	}
}

// TestFactsOfParts holds what a choice tells of its parts, for tables that ask.
func TestFactsOfParts(t *testing.T) {
	tell := func(zone string, parts ...sensing.Part) facts.Set {
		set := facts.Set{}
		placed(t, zone, parts...).Tell(set)
		return set
	}
	d, s, p := detector("d", 1, "30"), slabSensor("s", 1, "30"), panel("p", 1, "pump")
	assert.Equal(t, "not listed", tell("stage=new pour")["controller"])
	assert.Equal(t, "unknown", tell("stage=new pour")["lead"])
	assert.Equal(t, "chosen", tell("stage=new pour", d, s, p)["controller"])
	assert.Equal(t, "fits", tell("stage=new pour", d, s, p)["lead"])
	assert.Equal(t, "none fits", tell("stage=new pour", d, s)["controller"])
	assert.Equal(t, "joint", tell("stage=new pour", detector("d", 1, "3"), s, p)["lead"])
	assert.Equal(t, "several", tell("stage=new pour; use=walk; sides=60x31.5")["detectors"])
	assert.Equal(t, "one", tell("stage=new pour")["detectors"])
	assert.Equal(t, "no", tell("stage=existing heated; housing=no; slab sensor=no; mast=yes; post-tensioned=no; membrane=no")["cutting"], "an option is not the choice")
}

// TestLeadSteps: 30 m to the panel take 1.10 · 30 + 2 = 35 m, by hand; every device of a kit tells its number, its run and its lead.
func TestLeadSteps(t *testing.T) {
	assert.InDelta(t, 35, sensing.LeadM(30), 1e-12)
	plan := &sensing.Plan{Marks: []sensing.Mark{{Device: sensing.PavementDetector, RunM: 12}, {Device: sensing.PavementDetector, RunM: 30}, {Device: sensing.SlabSensor, RunM: 20}}}
	c := sensing.Choice{Kit: []sensing.Device{sensing.PavementDetector, sensing.SlabSensor}, Plan: plan, Numbers: []sensing.Number{
		{Device: sensing.PavementDetector, Wanted: 2, Placed: 1, Reasons: []sensing.Reason{{Code: "number-area"}}}, {Device: sensing.SlabSensor, Wanted: 1, Placed: 1}}}
	values, equations := map[string]float64{}, map[string]string{}
	for _, s := range c.Steps() {
		values[s.Symbol], equations[s.Symbol] = s.Value, s.Equation
	}
	assert.InDeltaMapValues(t, map[string]float64{"n_pavement": 2, "n_pavement,placed": 1, "x_pavement": 30, "L_pavement": 35,
		"n_slab": 1, "n_slab,placed": 1, "x_slab": 20, "L_slab": 24}, values, 1e-12)
	assert.Equal(t, "number-area", equations["n_pavement"])
	assert.Equal(t, "one", equations["n_slab"])
	assert.Empty(t, sensing.Choice{}.Steps())
}
