package sensing

import (
	"maps"
	"slices"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
)

// Input is what the choice for a zone rests on. Facts is what was told; Start, Stop, Idling and Critical are settled: a wish that was not
// told has its default here and the word unknown there, so that nothing is called lacking that nobody asked for.
type Input struct {
	Facts       facts.Set
	Start, Stop string // StartDetector or StartManual; StopDry, StopTimer or StopManual; "" is detector, dry
	Idling      bool
	Critical    bool
	PanelM      float64 // from the detector to the panel [m]
	Pavement    Pavement
	Parts       []Part
	Numbers     facts.Table // how many of each device; may be empty: one of each
	Checklist   facts.Table // lines to choose from by the facts and the choice; may be empty
	Screen      facts.Table // of energy codes; may be empty
}

// codeSimplest decides between kits that no rule tells apart.
const codeSimplest = "simplest-kit"

// Choose picks the kit of a zone: row by row of the rules that hold, the kits that a row speaks against fall out while one is left that it
// doesn't; so an earlier row wins over a later one. Rows that reject come first, whatever their place: what can't be built is never chosen.
// The rules are checked by Check; a row with an unknown effect says nothing.
//
// Source: common practice. An in-pavement detector is taken to measure slab temperature only where a part says so; else a slab sensor does.
func Choose(rules facts.Table, in Input) Choice {
	s := in.situation()
	rows := rules.Match(s)
	slices.SortStableFunc(rows, func(a, b facts.Row) int { return weight(a) - weight(b) })
	kit, rejected := eliminate(rows, candidates(s[FactSensesSlab] != sensesNo))
	c := Choice{Kit: kit.devices, Rejected: rejected}
	c.operate(kit, in)
	c.explain(rows, kit)
	c.conflicts(rows, kit, s)
	if in.Critical && c.Start != StartDetector {
		c.Findings = append(c.Findings, finding.New(finding.Warning, CodeCriticalByHand, "critical"))
	}
	c.Tell(s)
	c.place(in, s)
	c.buy(in, s)
	c.Tell(s)
	c.Checklist = in.Checklist.Codes(s)
	c.Answer(in.Screen, s)
	return c
}

// place says how many devices the zone needs, where they go and what leads they take.
func (c *Choice) place(in Input, s facts.Set) {
	if len(c.Kit) == 0 {
		return
	}
	c.numbers(in, s)
	c.Plan, c.Section = c.plan(in, s), c.section(in, s)
	c.LeadM = LeadM(in.PanelM)
	for _, d := range c.Kit {
		c.LeadM = max(c.LeadM, c.longestLead(d))
	}
}

// situation returns the facts with the wishes in them, which may not have been told as facts.
func (in Input) situation() facts.Set {
	s := maps.Clone(in.Facts)
	if s == nil {
		s = facts.Set{}
	}
	wish := func(fact, word string) {
		if _, told := s[fact]; !told && word != "" {
			s[fact] = word
		}
	}
	wish(FactStartWanted, in.Start)
	wish(FactStopWanted, in.Stop)
	wish(FactIdlingWanted, answer(in.Idling))
	s[FactCritical] = answer(in.Critical)
	s[FactSensesSlab] = sensesSlab(in.Parts, in.demand(s, PavementDetector).wanted())
	return s
}

// eliminate returns the kit that is left and, for every other, the row that put it out.
func eliminate(rows []facts.Row, all []candidate) (candidate, []Rejected) {
	out := make(map[int]string, len(all)) // code by place in all
	for _, r := range rows {
		if ranks(r) {
			drop(r, all, out)
		}
	}
	chosen := -1
	var rejected []Rejected
	for i, c := range all {
		code, gone := out[i]
		switch {
		case gone:
			rejected = append(rejected, Rejected{kitName(c.devices), code})
		case chosen < 0:
			chosen = i
		default:
			rejected = append(rejected, Rejected{kitName(c.devices), codeSimplest})
		}
	}
	return all[chosen], rejected
}

// drop marks the kits that a row speaks against, unless it speaks against all that are left.
func drop(r facts.Row, all []candidate, out map[int]string) {
	var losers []int
	left := len(all) - len(out)
	for i, c := range all {
		if _, gone := out[i]; !gone && c.meets(r.Effects[effectKit]) != favours(r) {
			losers = append(losers, i)
		}
	}
	if len(losers) == left {
		return
	}
	for _, i := range losers {
		out[i] = r.Effects[facts.Code]
	}
}

// operate says what begins and ends heat and what limits the slab, with the wishes as far as the kit can follow them.
func (c *Choice) operate(kit candidate, in Input) {
	c.Start, c.Stop = StartManual, StopTimer
	if kit.detectorStart && (in.Start != StartManual || in.Critical) {
		c.Start = StartDetector
	}
	switch {
	case !in.Critical && (in.Stop == StopTimer || in.Stop == StopManual):
		c.Stop = in.Stop
	case kit.dryStop:
		c.Stop = StopDry
	}
	c.OutdoorReset = kit.slabLimits
	c.Idling = kit.slabLimits && in.Idling
	c.Strategy = c.strategy()
	c.tellFunctions()
}

// strategy returns the season strategy in the words of results.json.
func (c *Choice) strategy() string {
	idling := ""
	if c.Idling {
		idling = ", idling"
	}
	pavement, aerial := has(c.Kit, PavementDetector), has(c.Kit, AerialDetector)
	switch {
	case c.Start == StartManual && c.OutdoorReset:
		return "manual + slab sensor"
	case c.Start == StartManual:
		return "manual"
	case pavement && aerial:
		return "in-pavement + aerial detector" + idling
	case pavement:
		return "in-pavement detector" + idling
	case c.OutdoorReset:
		return "aerial detector + slab sensor" + idling
	}
	return "aerial detector"
}

// tellFunctions gives the three answers by code.
func (c *Choice) tellFunctions() {
	for _, f := range functions {
		if c.Start == StartDetector && has(c.Kit, f.device) || c.Start == StartManual && f.device == "" {
			c.Begins = append(c.Begins, f.begins...)
		}
	}
	switch {
	case c.Stop == StopDry && has(c.Kit, AerialDetector):
		c.Ends = []string{"ends-when-both-satisfied"}
	case c.Stop == StopDry:
		c.Ends = []string{"ends-when-dry"}
	case c.Stop == StopTimer:
		c.Ends = []string{"ends-on-timer"}
	default:
		c.Ends = []string{"ends-by-hand"}
	}
	switch {
	case c.Idling:
		c.Limits = []string{"limits-by-reset", "limits-by-idling"}
	case c.OutdoorReset:
		c.Limits = []string{"limits-by-reset"}
	default:
		c.Limits = []string{"limits-nothing"}
	}
}
