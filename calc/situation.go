package calc

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// Limits between the words of facts that are numbers.
const (
	flatBelow     = 0.01  // slope: less hardly drains; common practice is 1 to 2 % away from building and route
	steepAbove    = 0.05  // slope: a detector is set parallel to the surface and its lead leaves downhill; common practice
	smallM2       = 200   // m² up to which one place can be the first to get snow and the last to dry; judgement
	shadedMuch    = 0.25  // share shaded at winter noon above which one detector can't speak for all; judgement
	altitudeHighM = 610.0 // m (2,000 ft): gas burners lose output above; gas code annex, second hand
)

// Words of facts that are numbers. A number that is not told is facts.Unknown.
const (
	wordFlat, wordSlope, wordSteep     = "flat", "slope", "steep"
	wordSmall, wordLarge               = "small", "large"
	wordLittle, wordMuch               = "little", "much"
	wordTooNear, wordNear, wordClear   = "too near", "near", "clear"
	wordLow, wordHigh                  = "low", "high"
	wordUsual, wordDeep                = "usual", "deep"
	wordSet, wordNone, wordOther       = "set", "none", "other"
	fluidPropylene, fluidEthylene      = "propylene glycol", "ethylene glycol"
	yes, no                            = string(Yes), string(No)
	aerialDetector, inPavementDetector = string(sensing.AerialDetector), string(sensing.PavementDetector)
)

// Vocabulary returns every fact that a decision table can ask for, with its words. Every fact can be unknown.
func Vocabulary() facts.Vocabulary {
	v := facts.Vocabulary{
		"stage": {NewPour, ExistingHeated, ExistingUnheated, Overlay}, "support": {OnGround, OverAir, OverHeated},
		"surface": {Concrete, Asphalt, Pavers, Stone}, "depth": {wordUsual, wordDeep},
		"use":  {Walk, Stair, Ramp, Drive, Parking, LoadingDock, Plaza, EmergencyEntrance, Helistop},
		"area": {wordSmall, wordLarge}, "slope": {wordFlat, wordSlope, wordSteep}, "altitude": {wordLow, wordHigh},
		"heat": {Hydronic, Electric}, "fluid": {fluidPropylene, fluidEthylene, wordOther, wordNone}, "lowest melting": {wordSet, wordNone},
		"control now": {wordNone, "manual", "timer", aerialDetector, inPavementDetector}, "distance to panel": {"told", "assumed"},
		"traffic": {wordNone, "foot", "wheel", "parked"}, "distance to edge": {wordTooNear, wordNear, wordClear}, "obstacle": {wordNear, wordClear},
		"sun": {"first", "last", "mixed"}, "shaded share": {wordLittle, wordMuch}, "country": countryWords(),
		factCurve: {wordKnown, wordNone}, factHolds: {wordAll, wordPart}, factWarmUp: {wordKnown, wordNone},
		factStop: {wordByCode, wordRaised, wordNotFound}, factOffDelay: {wordFound, wordHeld, wordHabit}, factTimer: {wordFound, wordHeld, wordHabit},
		factOffDelayRun: {wordSame, wordRunOther}, factTimerRun: {wordSame, wordRunOther, wordTilDry},
	}
	for _, fact := range []string{"existing", "post-tensioned", "membrane", "housing", "slab sensor", "mast", "overhang", "drains past", "wind-blown",
		"snow stored", "salt", "exhaust", "unheated downhill", "drain", factBurner} {
		v[fact] = []string{yes, no}
	}
	for fact, words := range sensing.Vocabulary() {
		v[fact] = words
	}
	for fact, words := range v {
		v[fact] = append(slices.Clone(words), facts.Unknown)
	}
	return v
}

// CheckRules judges a decision table of that name before work starts: the facts and words it asks for, effects that are not understood, rows that
// never decide, contrary rows of which none is named as winning. Errors name the table and the line; all of them are reported together.
func CheckRules(name string, t facts.Table) error {
	check := facts.Table.Check
	switch name {
	case "sensing":
		check = sensing.Check
	case "numbers":
		check = sensing.CheckNumbers
	case "screen":
		check = sensing.CheckScreen
	case "sequence":
		check = sensing.CheckSequence
	}
	return errors.Join(Vocabulary().Check(t), check(t))
}

// Facts returns what is known of a settled zone as words. A wish that was not told is unknown, even where settling took a default for it.
func (z Zone) Facts() facts.Set {
	x, b, n, t := z.Extent, z.Slab, z.Sensing, z.Siting
	set := facts.Set{
		"stage": told(b.Stage), "existing": word(b.Existing()), "support": told(b.Support), "post-tensioned": b.PostTensioned.fact(),
		"membrane": b.MembraneBelow.fact(), "surface": told(b.Surface), "depth": above(b.DepthM, deepM, wordUsual, wordDeep),
		"heat": told(z.Heat.Kind), "fluid": z.Heat.fluidFact(), "use": told(x.Use), "drain": x.Drain.fact(), "slope": x.slopeFact(), "area": above(units.Some(x.AreaM2), smallM2, wordSmall, wordLarge),
		"altitude": above(z.Place.ElevationM, altitudeHighM, wordLow, wordHigh), "lowest melting": isSet(n.LowestMeltC),
		"housing": n.Housing.fact(), "slab sensor": n.SlabSensor.fact(), "mast": n.MastAvailable.fact(), "control now": told(n.ControlNow),
		sensing.FactCritical: maybe(x.Critical), sensing.FactIdlingWanted: maybe(n.Idling),
		sensing.FactStartWanted: z.wish("start_wanted", n.Start), sensing.FactStopWanted: z.wish("stop_wanted", n.Stop),
		"distance to panel": z.panelFact(), "traffic": told(t.Traffic), "distance to edge": edgeFact(t.EdgeM),
		"obstacle": t.obstacleFact(), "overhang": t.Overhang.fact(), "drains past": t.DrainsPast.fact(), "sun": told(t.Sun),
		"shaded share": above(t.ShadedShare, shadedMuch, wordLittle, wordMuch), "wind-blown": t.WindBlown.fact(), "snow stored": t.SnowStored.fact(),
		"salt": t.Salt.fact(), "exhaust": t.Exhaust.fact(), "unheated downhill": t.UnheatedDownhill.fact(),
	}
	if n.NoHousing && !b.Existing() { // the kit of the slab once it is poured: a slab sensor can still be set
		set["existing"], set["housing"], set["slab sensor"] = yes, no, yes
	}
	return set
}

// Facts returns the facts of the zone with those of its country and of the kit that was chosen: what cautions, topics and checklist lines ask.
func (o Outcome) Facts(s Settings) facts.Set {
	set := o.Zone.Facts()
	set["country"] = s.countryFact()
	if o.Sensing != nil {
		o.Sensing.Tell(set)
	}
	o.tellResults(set)
	return set
}

func told(typed string) string {
	if typed == "" {
		return facts.Unknown
	}
	return typed
}

func (a Answer) fact() string { return told(string(a)) }

func word(b bool) string {
	if b {
		return yes
	}
	return no
}

func maybe(m units.Maybe[bool]) string {
	if !m.Known {
		return facts.Unknown
	}
	return word(m.Value)
}

// above returns one of two words by a limit that still belongs to the lower one.
func above(m units.Maybe[float64], limit float64, low, high string) string {
	switch {
	case !m.Known:
		return facts.Unknown
	case m.Value > limit:
		return high
	}
	return low
}

func isSet(m units.Maybe[float64]) string {
	if m.Known {
		return wordSet
	}
	return wordNone
}

func (z Zone) wish(field finding.Field, settled string) string {
	if z.defaulted(field) {
		return facts.Unknown
	}
	return told(settled)
}

func (z Zone) panelFact() string {
	if !z.Sensing.PanelM.Known || z.defaulted("panel_distance") {
		return "assumed"
	}
	return "told"
}

func (x Extent) slopeFact() string {
	switch {
	case x.Slope < flatBelow:
		return wordFlat
	case x.Slope > steepAbove:
		return wordSteep
	}
	return wordSlope
}

func edgeFact(m units.Maybe[float64]) string {
	if m.Known && m.Value < edgeErrorM {
		return wordTooNear
	}
	if m.Known && m.Value < edgeWarnM {
		return wordNear
	}
	if !m.Known {
		return facts.Unknown
	}
	return wordClear
}

// obstacleFact says whether the detector stands nearer to an obstacle than the obstacle is high.
func (t Siting) obstacleFact() string {
	switch {
	case t.ObstacleHeightM.Known && t.ObstacleHeightM.Value == 0:
		return wordClear
	case !t.ObstacleHeightM.Known || !t.ObstacleM.Known:
		return facts.Unknown
	case t.ObstacleM.Value < t.ObstacleHeightM.Value:
		return wordNear
	}
	return wordClear
}

func (h Heat) fluidFact() string {
	switch {
	case h.Kind == Electric:
		return wordNone
	case h.Fluid == "":
		return facts.Unknown
	case h.Fluid == fluidPropylene || h.Fluid == fluidEthylene:
		return h.Fluid
	}
	return wordOther
}

// countries are the names people write in Settings, by the family whose codes are deferred to.
var countries = map[string][]string{
	"united states":  {"us", "usa", "u.s.", "u.s.a.", "united states", "united states of america", "america"},
	"canada":         {"ca", "canada"},
	"united kingdom": {"uk", "u.k.", "gb", "united kingdom", "great britain", "england", "scotland", "wales", "northern ireland", "ireland", "ie"},
	"germany":        {"de", "germany", "deutschland", "at", "austria", "österreich"},
	"switzerland":    {"ch", "switzerland", "schweiz", "suisse", "svizzera"},
	"nordic":         {"no", "norway", "norge", "se", "sweden", "sverige", "fi", "finland", "suomi", "dk", "denmark", "danmark", "is", "iceland"},
	"japan":          {"jp", "japan", "kr", "korea", "south korea", "republic of korea"},
}

func countryWords() []string {
	return append(slices.Sorted(maps.Keys(countries)), wordOther)
}

// countryFact returns the family of the country in Settings.
func (s Settings) countryFact() string {
	typed := strings.ToLower(strings.TrimSpace(s.Country))
	if typed == "" {
		return facts.Unknown
	}
	for family, names := range countries {
		if slices.Contains(names, typed) {
			return family
		}
	}
	return wordOther
}
