package calc_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/templates"
)

func rulesTable(t *testing.T, name string) facts.Table {
	t.Helper()
	in, err := templates.FS().Open("rules/" + name + ".tsv")
	require.NoError(t, err)
	defer in.Close()
	read, err := facts.Parse(name, in)
	require.NoError(t, err)
	return read
}

// toldZone is a zone of which everything is known.
func toldZone() calc.Zone {
	return calc.Zone{
		Place:  calc.Place{ElevationM: units.Some(700.0)},
		Extent: calc.Extent{AreaM2: 1200, Use: calc.Drive, Critical: units.Some(true), Slope: 0.08, Drain: calc.Yes},
		Slab:   calc.Slab{Stage: calc.ExistingHeated, Support: calc.OverAir, PostTensioned: calc.No, MembraneBelow: calc.Yes, Surface: calc.Asphalt, DepthM: units.Some(0.13)},
		Heat:   calc.Heat{Kind: calc.Hydronic, Fluid: "ethylene glycol"},
		Sensing: calc.Sensing{Housing: calc.Yes, SlabSensor: calc.No, ControlNow: "aerial detector", Start: "detector", Stop: "dry", Idling: units.Some(false),
			LowestMeltC: units.Some(-15.0), PanelM: units.Some(20.0), MastAvailable: calc.No},
		Siting: calc.Siting{Traffic: "parked", EdgeM: units.Some(0.4), ObstacleHeightM: units.Some(3.0), ObstacleM: units.Some(2.0), Overhang: calc.No, DrainsPast: calc.Yes,
			Sun: "mixed", ShadedShare: units.Some(0.3), WindBlown: calc.Yes, SnowStored: calc.No, Salt: calc.Yes, Exhaust: calc.No, UnheatedDownhill: calc.Yes},
	}
}

func TestFactsOfAZone(t *testing.T) {
	got := toldZone().Facts()
	for fact, want := range map[string]string{"existing": "yes", "stage": "existing heated", "area": "large", "slope": "steep", "altitude": "high", "depth": "deep",
		"fluid": "ethylene glycol", "distance to edge": "near", "obstacle": "near", "shaded share": "much", "lowest melting": "set", "distance to panel": "told",
		"membrane": "yes", "slab sensor": "no", "stop wanted": "dry", "critical": "yes", "idling wanted": "no"} {
		assert.Equal(t, want, got[fact], fact)
	}
	for fact, word := range got {
		assert.NotEqual(t, facts.Unknown, word, fact)
	}

	blank := calc.Zone{Extent: calc.Extent{AreaM2: 10}}.Facts()
	for fact, word := range blank {
		switch fact {
		case "existing", "area", "slope", "lowest melting", "distance to panel":
			continue
		}
		assert.Equal(t, facts.Unknown, word, fact)
	}
	assert.Equal(t, "no", blank["existing"])
}

// TestClassLimits holds on which side a number at its limit falls.
func TestClassLimits(t *testing.T) {
	for _, tt := range []struct {
		fact, want, source string
		set                func(*calc.Zone)
	}{
		{"slope", "flat", "common practice: 1 to 2 % drains", func(z *calc.Zone) { z.Extent.Slope = 0.009 }},
		{"slope", "slope", "common practice", func(z *calc.Zone) { z.Extent.Slope = 0.01 }},
		{"slope", "slope", "common practice: above 5 % parallel to the surface", func(z *calc.Zone) { z.Extent.Slope = 0.05 }},
		{"area", "small", "judgement: 200 m²", func(z *calc.Zone) { z.Extent.AreaM2 = 200 }},
		{"area", "large", "judgement: 200 m²", func(z *calc.Zone) { z.Extent.AreaM2 = 200.1 }},
		{"altitude", "low", "gas code annex: above 2,000 ft", func(z *calc.Zone) { z.Place.ElevationM = units.Some(610.0) }},
		{"depth", "usual", "common practice: 125 mm", func(z *calc.Zone) { z.Slab.DepthM = units.Some(0.125) }},
		{"distance to edge", "too near", "common practice: 0.3 m", func(z *calc.Zone) { z.Siting.EdgeM = units.Some(0.29) }},
		{"distance to edge", "clear", "common practice: 0.6 m", func(z *calc.Zone) { z.Siting.EdgeM = units.Some(0.6) }},
		{"obstacle", "clear", "common practice: one height away", func(z *calc.Zone) { z.Siting.ObstacleM = units.Some(3.0) }},
		{"obstacle", "unknown", "not told is never fine", func(z *calc.Zone) { z.Siting.ObstacleM = units.Maybe[float64]{} }},
		{"obstacle", "clear", "no obstacle", func(z *calc.Zone) { z.Siting.ObstacleHeightM = units.Some(0.0) }},
		{"shaded share", "little", "judgement: a quarter", func(z *calc.Zone) { z.Siting.ShadedShare = units.Some(0.25) }},
		{"fluid", "none", "an electric zone has no fluid", func(z *calc.Zone) { z.Heat.Kind = calc.Electric }},
		{"fluid", "other", "a fluid of the user's own", func(z *calc.Zone) { z.Heat.Fluid = "brine" }},
		{"stop wanted", "unknown", "a default is no wish", func(z *calc.Zone) { z.Ref.Defaults = []calc.Default{{Field: "stop_wanted", Word: "dry"}} }},
		{"distance to panel", "assumed", "a default is an assumption", func(z *calc.Zone) { z.Ref.Defaults = []calc.Default{{Field: "panel_distance"}} }},
	} {
		z := toldZone()
		tt.set(&z)
		assert.Equal(t, tt.want, z.Facts()[tt.fact], "%s: %s", tt.fact, tt.source)
	}
}

// TestVocabularyHasEveryFact holds that what a zone, its country and its kit tell are words of the vocabulary, and that every fact of it is told.
func TestVocabularyHasEveryFact(t *testing.T) {
	words := calc.Vocabulary()
	choice := sensing.Choose(rulesTable(t, "sensing"), sensing.Input{Facts: toldZone().Facts(), Critical: true})
	for _, country := range []string{"", "USA", "Canada ", "Österreich", "ie", "Atlantis"} {
		o := calc.Outcome{Zone: toldZone(), Sensing: &choice}
		set := o.Facts(calc.Settings{Country: country})
		for fact, word := range set {
			assert.Contains(t, words[fact], word, fact)
		}
		for fact := range words {
			if fact != sensing.FactSensesSlab { // told by Parts, within sensing
				assert.Contains(t, set, fact)
			}
		}
	}
	assert.Equal(t, "germany", calc.Outcome{}.Facts(calc.Settings{Country: "Österreich"})["country"])
	assert.NotContains(t, calc.Outcome{}.Facts(calc.Settings{}), "starts", "nothing is said of a kit that was not chosen")
}

// A caution about burners is for heat that is burned on site, or may be.
func TestCautionsGoByCarrier(t *testing.T) {
	cautions, topics := rulesTable(t, "cautions"), rulesTable(t, "topics")
	for _, tt := range []struct {
		carrier string
		burns   bool
	}{{"gas", true}, {"district heat", false}, {"electricity", false}, {"other", true}, {"", true}} {
		o := calc.Outcome{Zone: calc.Zone{Heat: calc.Heat{Kind: calc.Hydronic}}, Tariff: cost.Energy{Carrier: tt.carrier}}
		o.Zone.Place.ElevationM = units.Some(2_000.0)
		set := o.Facts(calc.Settings{})
		for _, code := range []string{"combustion-air", "altitude"} {
			assert.Equal(t, tt.burns, slices.Contains(cautions.Codes(set), code), "%s %s", tt.carrier, code)
		}
		for _, code := range []string{"topic-boiler-and-gas", "topic-altitude-rating"} {
			assert.Equal(t, tt.burns, slices.Contains(topics.Codes(set), code), "%s %s", tt.carrier, code)
		}
		assert.Contains(t, cautions.Codes(set), "hydronic-pressure")
	}
}

// TestStrategiesAgree holds that every strategy a kit can name is one that the winter is run with.
func TestStrategiesAgree(t *testing.T) {
	rules := rulesTable(t, "sensing")
	named := map[season.Strategy]bool{}
	answers := []string{"yes", "no"}
	for _, existing := range answers {
		for _, housing := range answers {
			for _, sensor := range answers {
				for _, mast := range answers {
					for _, critical := range []bool{true, false} {
						for _, start := range []string{"detector", "manual"} {
							for _, idling := range []bool{true, false} {
								c := sensing.Choose(rules, sensing.Input{Start: start, Idling: idling, Critical: critical, Facts: facts.Set{"existing": existing,
									"housing": housing, "slab sensor": sensor, "mast": mast}})
								named[season.Strategy(c.Strategy)] = true
							}
						}
					}
				}
			}
		}
	}
	for s := range named {
		assert.True(t, slices.Contains(season.Strategies[:], s), "%q is no strategy", s)
	}
	assert.Len(t, named, len(season.Strategies)-2, "all but unheated and always on can be named")
}

// TestAlwaysSaid holds that the cautions and topics that fit every site are said for one of which nothing is known.
func TestAlwaysSaid(t *testing.T) {
	nothing := calc.Outcome{}.Facts(calc.Settings{})
	assert.Subset(t, rulesTable(t, "cautions").Codes(nothing), []string{"not-ice-free", "manual-clearing-plan", "defer-to-codes", "calculation-not-sealed"})
	assert.Subset(t, rulesTable(t, "topics").Codes(nothing), []string{"topic-authority", "topic-licensed-practice", "topic-not-a-list-of-rules", "topic-country-not-told"})
}

// TestCautionsFit holds cautions to the choices they are for.
func TestCautionsFit(t *testing.T) {
	cautions := rulesTable(t, "cautions")
	codes := func(change func(*calc.Zone)) []string {
		z := toldZone()
		change(&z)
		return cautions.Codes(calc.Outcome{Zone: z}.Facts(calc.Settings{}))
	}
	for _, tt := range []struct {
		name      string
		change    func(*calc.Zone)
		said, not []string
	}{
		{"hydronic, high, ethylene", func(*calc.Zone) {}, []string{"hydronic-pressure", "air-pressure-test", "altitude", "glycol-handling", "ethylene-poison", "combustion-air",
			"locate-before-cutting", "silica-dust", "membrane-below", "hot-asphalt", "steep-slope", "refreeze-downhill", "lockout-in-storm", "critical-watch", "suspended-slab"},
			[]string{"electric-qualified", "helistop-authority", "tendons-in-slab", "tendons-not-known", "roof-snow"}},
		{"electric", func(z *calc.Zone) { z.Heat.Kind = calc.Electric }, []string{"electric-qualified", "electric-no-cutting"},
			[]string{"hydronic-pressure", "altitude", "glycol-handling", "ethylene-poison"}},
		{"helistop", func(z *calc.Zone) { z.Extent.Use = calc.Helistop }, []string{"helistop-authority", "power-loss-route"}, nil},
		{"tendons", func(z *calc.Zone) { z.Slab.PostTensioned = calc.Yes }, []string{"tendons-in-slab"}, []string{"tendons-not-known"}},
		{"tendons not known", func(z *calc.Zone) { z.Slab.PostTensioned = calc.Unknown }, []string{"tendons-not-known"}, []string{"tendons-in-slab"}},
		{"new pour in the plain", func(z *calc.Zone) {
			z.Slab.Stage, z.Slab.Support, z.Place.ElevationM, z.Siting.UnheatedDownhill = calc.NewPour, calc.OnGround, units.Some(100.0), calc.No
		}, []string{"refreezing-melt-water"}, []string{"locate-before-cutting", "silica-dust", "membrane-below", "altitude", "refreeze-downhill", "suspended-slab"}},
		{"stair under a roof", func(z *calc.Zone) { z.Extent.Use, z.Siting.Overhang = calc.Stair, calc.Answer("") }, []string{"roof-snow", "power-loss-route", "changes-of-level"}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := codes(tt.change)
			assert.Subset(t, got, tt.said)
			for _, code := range tt.not {
				assert.NotContains(t, got, code)
			}
		})
	}
}
