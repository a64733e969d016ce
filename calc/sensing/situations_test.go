package sensing_test

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/templates"
)

// catalogues are parts that situations name.
var catalogues = map[string][]sensing.Part{
	"": nil,
	"senses": {
		{Name: "detector with slab temperature", Kind: "in-pavement detector", Senses: "moisture; slab temperature"},
	},
	"dear": {
		{Name: "plain detector", Kind: "in-pavement detector", Senses: "moisture", Price: 600, Priced: true},
		{Name: "detector with slab temperature", Kind: "in-pavement detector", Senses: "moisture; slab temperature", Price: 900, Priced: true},
		{Name: "slab sensor", Kind: "slab temperature sensor", Senses: "slab temperature", Price: 100, Priced: true},
	},
	"fair": { // for one the detector that measures both costs less, for two the plain ones and a sensor do
		{Name: "plain detector", Kind: "in-pavement detector", Senses: "moisture", Price: 600, Priced: true},
		{Name: "detector with slab temperature", Kind: "in-pavement detector", Senses: "moisture; slab temperature", Price: 680, Priced: true},
		{Name: "slab sensor", Kind: "slab temperature sensor", Senses: "slab temperature", Price: 100, Priced: true},
	},
	"controllers": panels,
	"timer panel": panels[3:],
	"short leads": {
		{Name: "plain detector", Kind: "in-pavement detector", Senses: "moisture", LeadM: "5; 8", Price: 600, Priced: true},
		{Name: "slab sensor", Kind: "slab temperature sensor", Senses: "slab temperature", LeadM: "20", Price: 100, Priced: true},
		panels[0],
	},
	"no moisture": {
		{Name: "surface thermometer", Kind: "in-pavement detector", Senses: "slab temperature", Price: 200, Priced: true},
		{Name: "slab sensor", Kind: "slab temperature sensor", LeadM: "20", Price: 100, Priced: true},
		panels[0],
	},
}

var panels = []sensing.Part{
	{Name: "large panel", Kind: "controller", Inputs: "in-pavement detector; aerial detector; slab temperature sensor",
		Functions: "ends when dry; ends on a timer; idling; outdoor reset", Price: 3000, Priced: true},
	{Name: "small panel", Kind: "controller", Inputs: "in-pavement detector; slab temperature sensor", Functions: "ends when dry; outdoor reset", Price: 1500, Priced: true},
	{Name: "cheap panel", Kind: "controller", Inputs: "aerial detector", Functions: "ends on a timer", Price: 700, Priced: true},
	{Name: "timer panel", Kind: "controller", Inputs: "in-pavement detector; slab temperature sensor", Functions: "ends on a timer; outdoor reset"},
}

type situation struct {
	name, kit, start, stop, idling, strategy, why string
	reasons, lacking, offers, findings, numbers   []string
	in                                            sensing.Input
}

// tables are the decision tables as they come with the program, read once.
var tables = sync.OnceValue(func() map[string]facts.Table {
	all := map[string]facts.Table{}
	for _, name := range []string{"sensing", "numbers", "checklist", "screen", "sequence", "tests", "care", "cautions", "topics"} {
		in, err := templates.FS().Open("rules/" + name + ".tsv")
		if err != nil {
			panic(err)
		}
		if all[name], err = facts.Parse("rules/"+name+".tsv", in); err != nil {
			panic(err)
		}
		in.Close()
	}
	return all
})

func table(_ testing.TB, name string) facts.Table { return tables()[name] }

// input makes an input of facts; a wish that was not told takes its default.
func input(set facts.Set, parts []sensing.Part) sensing.Input {
	critical := set.Word(sensing.FactCritical) == "yes"
	in := sensing.Input{Facts: set, Start: sensing.StartDetector, Stop: sensing.StopDry, Idling: critical, Critical: critical, PanelM: 10, Parts: parts,
		Numbers: tables()["numbers"], Screen: tables()["screen"]}
	if w := set.Word(sensing.FactStartWanted); w != facts.Unknown {
		in.Start = w
	}
	if w := set.Word(sensing.FactStopWanted); w != facts.Unknown {
		in.Stop = w
	}
	if w := set.Word(sensing.FactIdlingWanted); w != facts.Unknown {
		in.Idling = w == "yes"
	}
	return in
}

// factsOf reads "fact=word; fact=word" over a set in which everything else is unknown.
func factsOf(t testing.TB, text string) facts.Set {
	t.Helper()
	words := calc.Vocabulary()
	set := facts.Set{}
	for fact := range words {
		set[fact] = facts.Unknown
	}
	set[sensing.FactCritical] = "no"
	for pair := range strings.SplitSeq(text, ";") {
		fact, word, found := strings.Cut(strings.TrimSpace(pair), "=")
		require.True(t, found, pair)
		if fact == "sides" || fact == "shaded" { // read by pavementOf
			continue
		}
		require.Contains(t, words[fact], word, fact)
		set[fact] = word
	}
	existing := strings.HasPrefix(set["stage"], "existing")
	set["existing"] = map[bool]string{true: "yes", false: "no"}[existing]
	if w := set.Word(sensing.FactIdlingWanted); w == facts.Unknown {
		set[sensing.FactIdlingWanted] = set[sensing.FactCritical]
	}
	return set
}

// pavementOf reads "sides=60x40" in m and "shaded=0.4"; a zone without sides is one of 12 m by 10 m. It tells the fact that goes with its area.
func pavementOf(t testing.TB, text string, set facts.Set) sensing.Pavement {
	t.Helper()
	p := sensing.Pavement{LengthM: 12, WidthM: 10, Slope: 0.02, SensorDepthM: 0.025}
	for pair := range strings.SplitSeq(text, ";") {
		fact, word, _ := strings.Cut(strings.TrimSpace(pair), "=")
		switch fact {
		case "sides":
			_, err := fmt.Sscanf(word, "%fx%f", &p.LengthM, &p.WidthM)
			require.NoError(t, err, pair)
		case "shaded":
			share, err := strconv.ParseFloat(word, 64)
			require.NoError(t, err, pair)
			p.ShadedShare = units.Some(share)
			set["shaded share"] = map[bool]string{true: "much", false: "little"}[share > 0.25]
		}
	}
	switch set["slope"] {
	case "flat":
		p.Slope = 0
	case "steep":
		p.Slope = 0.08
	}
	p.AreaM2 = p.LengthM * p.WidthM
	set["area"] = map[bool]string{true: "large", false: "small"}[p.AreaM2 > 200]
	return p
}

func situations(t testing.TB) []situation {
	t.Helper()
	text, err := os.ReadFile("testdata/situations.tsv")
	require.NoError(t, err)
	var out []situation
	for line := range strings.Lines(string(text)) {
		cell := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if strings.HasPrefix(line, "#") || cell[0] == "name" {
			continue
		}
		require.Len(t, cell, 14, line)
		named, known := catalogues[cell[2]]
		require.True(t, known, cell[2])
		in := input(factsOf(t, cell[1]), named)
		in.Pavement = pavementOf(t, cell[1], in.Facts)
		out = append(out, situation{name: cell[0], kit: cell[3], start: cell[4], stop: cell[5], idling: cell[6], strategy: cell[7], reasons: facts.Split(cell[8]),
			lacking: facts.Split(cell[9]), offers: facts.Split(cell[10]), findings: facts.Split(cell[11]), numbers: facts.Split(cell[12]), why: cell[13], in: in})
	}
	return out
}

func reasonCodes(c sensing.Choice) []string {
	var codes []string
	for _, r := range c.Reasons {
		codes = append(codes, r.Code)
	}
	return codes
}

func findingCodes(c sensing.Choice) []string {
	var codes []string
	for _, f := range c.Findings {
		codes = append(codes, string(f.Code))
	}
	return codes
}

// numbersOf returns "2 in-pavement detector", and where fewer have a place "1 of 2 in-pavement detector".
func numbersOf(c sensing.Choice) []string {
	var out []string
	for _, n := range c.Numbers {
		text := fmt.Sprintf("%d %s", n.Placed, n.Device)
		if n.Placed < n.Wanted {
			text = fmt.Sprintf("%d of %d %s", n.Placed, n.Wanted, n.Device)
		}
		out = append(out, text)
	}
	return out
}

// spoken returns every code that a choice gives.
func spoken(c sensing.Choice) []string {
	codes := slices.Concat(reasonCodes(c), findingCodes(c), c.Lacking, c.Offers, c.Begins, c.Ends, c.Limits)
	for _, r := range c.Rejected {
		codes = append(codes, r.Code)
	}
	return codes
}

func TestSituations(t *testing.T) {
	rules := table(t, "sensing")
	all := situations(t)
	require.GreaterOrEqual(t, len(all), 75)
	for _, s := range all {
		t.Run(s.name, func(t *testing.T) {
			require.NotEmpty(t, s.why)
			c := sensing.Choose(rules, s.in)
			assert.Equal(t, s.kit, c.KitName(), s.why)
			assert.Equal(t, s.start, c.Start, "start")
			assert.Equal(t, s.stop, c.Stop, "stop")
			assert.Equal(t, s.idling == "yes", c.Idling, "idling")
			assert.Equal(t, s.strategy, c.Strategy, "strategy")
			assert.Subset(t, reasonCodes(c), s.reasons)
			assert.ElementsMatch(t, s.lacking, c.Lacking, "lacking")
			assert.ElementsMatch(t, s.offers, c.Offers, "offers")
			assert.ElementsMatch(t, s.findings, findingCodes(c), "findings")
			if s.numbers != nil {
				assert.Equal(t, s.numbers, numbersOf(c), "numbers")
			}
			assert.Len(t, c.Rejected, 7, "every kit not chosen has its reason")
			for _, r := range c.Rejected {
				assert.NotEqual(t, "simplest-kit", r.Code, "the rules decide between all kits")
				assert.NotEqual(t, c.KitName(), r.Kit)
			}
		})
	}
}

// TestEveryRuleSpeaks holds that each row of the rules is heard in a situation, and each part of the function table in a choice.
func TestEveryRuleSpeaks(t *testing.T) {
	rules := table(t, "sensing")
	heard := map[int]bool{}
	begins, ends, limits := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, s := range situations(t) {
		c := sensing.Choose(rules, s.in)
		told := maps.Clone(s.in.Facts)
		told[sensing.FactSensesSlab] = sensesSlab(s)
		for _, r := range rules.Match(told) {
			codes := spoken(c)
			heard[r.Line] = heard[r.Line] || slices.Contains(codes, r.Effects[facts.Code]) || r.Effects["lack"] != "" && slices.Contains(codes, r.Effects["lack"])
		}
		for _, x := range c.Begins {
			begins[x] = true
		}
		for _, x := range c.Ends {
			ends[x] = true
		}
		for _, x := range c.Limits {
			limits[x] = true
		}
	}
	for _, r := range rules.Rows {
		assert.True(t, heard[r.Line], "line %d (%s) is never heard", r.Line, r.Effects[facts.Code])
	}
	assert.Len(t, begins, 3)
	assert.Len(t, ends, 4)
	assert.Len(t, limits, 3)
}

// sensesSlab is the fact by the name of the situation's catalogue and the number of detectors, as a person would say it.
func sensesSlab(s situation) string {
	named := func(name string) bool { return len(s.in.Parts) > 0 && &s.in.Parts[0] == &catalogues[name][0] }
	switch {
	case named("dear"), named("fair") && s.in.Pavement.AreaM2 > 1000:
		return "dearer"
	case named("senses"), named("fair"):
		return "yes"
	}
	return "no"
}

func TestRulesAreSound(t *testing.T) {
	assert.NoError(t, sensing.Check(table(t, "sensing")))
	assert.NoError(t, sensing.CheckNumbers(table(t, "numbers")))
	assert.NoError(t, sensing.CheckScreen(table(t, "screen")))
	assert.NoError(t, sensing.CheckSequence(table(t, "sequence")))
	for name, read := range tables() {
		assert.NoError(t, calc.Vocabulary().Check(read), name)
		if name != "sensing" {
			assert.NoError(t, read.Check(), name)
		}
	}
	for _, name := range []string{"cautions", "topics", "checklist", "sequence", "tests", "care"} {
		assert.Empty(t, table(t, name).Overlaps(facts.Code, facts.Code), name)
	}
}

// TestWinsOverIsTrue holds that every win that is named is one: the later row exists and says the contrary in one situation.
func TestWinsOverIsTrue(t *testing.T) {
	rules := table(t, "sensing")
	named := map[string]bool{}
	for _, r := range rules.Rows {
		for _, later := range facts.Split(r.Effects["wins over"]) {
			named[r.Effects[facts.Code]+" > "+later] = true
		}
	}
	found := map[string]bool{}
	for _, p := range sensing.Contraries(rules) {
		found[p.Earlier.Effects[facts.Code]+" > "+p.Later.Effects[facts.Code]] = true
	}
	assert.Equal(t, found, named)
}

func TestCodesHaveTexts(t *testing.T) {
	codesOf := func(language string) []string {
		text, err := os.ReadFile("../../templates/en/" + language + ".tsv")
		require.NoError(t, err)
		var codes []string
		for line := range strings.Lines(string(text)) {
			code, rest, _ := strings.Cut(strings.TrimSpace(line), "\t")
			if code != "code" {
				assert.NotEmpty(t, rest, code)
				codes = append(codes, code)
			}
		}
		return codes
	}
	for _, name := range []string{"cautions", "topics", "checklist", "screen", "sequence", "tests", "care"} {
		var codes []string
		for _, r := range table(t, name).Rows {
			if code := r.Effects[facts.Code]; !slices.Contains(codes, code) {
				codes = append(codes, code)
			}
		}
		assert.Equal(t, codes, codesOf(name), "%s: texts stand in the order of the rows", name)
	}
	reasons := map[string]bool{"simplest-kit": true, "begins-on-moisture": true, "begins-on-falling-snow": true, "begins-by-hand": true, "ends-when-dry": true,
		"ends-when-both-satisfied": true, "ends-on-timer": true, "ends-by-hand": true, "limits-by-reset": true, "limits-by-idling": true, "limits-nothing": true}
	for _, code := range sensing.Codes() {
		reasons[code] = true
	}
	for _, r := range table(t, "numbers").Rows {
		reasons[r.Effects[facts.Code]] = true
	}
	for _, r := range table(t, "sensing").Rows {
		code := r.Effects[facts.Code]
		if r.Effects["effect"] == "warn" {
			assert.Contains(t, codesOf("findings"), code)
			assert.NotEmpty(t, r.Effects["field"], code)
			continue
		}
		reasons[code] = true
		if lack := r.Effects["lack"]; lack != "" {
			reasons[lack] = true
		}
	}
	assert.ElementsMatch(t, codesOf("reasons"), slices.Collect(maps.Keys(reasons)))
	for _, code := range []finding.Code{sensing.CodeNoControllerFits, sensing.CodeCriticalByHand, sensing.CodeNoPartFits, sensing.CodeNoPartListed, sensing.CodeLeadJoint} {
		assert.Contains(t, codesOf("findings"), string(code))
	}
}
