package sensing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Codes of findings about parts.
const (
	CodeNoControllerFits finding.Code = "no-controller-fits"
	CodeNoPartFits       finding.Code = "no-part-fits"
	CodeNoPartListed     finding.Code = "no-part-listed"
	CodeLeadJoint        finding.Code = "lead-needs-joint"
)

// Words of the Parts sheet.
const (
	kindController   = "controller"
	sensesSlabWord   = "slab temperature"
	functionDry      = "ends when dry"
	functionTimer    = "ends on a timer"
	functionIdling   = "idling"
	functionReset    = "outdoor reset"
	wordsSeparatedBy = ";"
)

// senseOf is what a kind of part must sense to be of use.
var senseOf = map[Device]string{PavementDetector: "moisture", AerialDetector: "falling snow", SlabSensor: sensesSlabWord}

// outputsOf are the outputs of a controller of which one must be there to switch the heat.
var outputsOf = map[string][]string{"hydronic": {"pump", "valve"}, "electric": {"contactor"}}

// Words of FactSensesSlab.
const (
	sensesNo     = "no"
	sensesYes    = "yes"
	sensesDearer = "dearer"
)

// Allowance of a lead over the run. Source: common practice.
const (
	leadFactor = 1.10 // of the run
	leadEndsM  = 2.0  // [m] to connect both ends
)

// LeadM returns the lead that a run to the panel takes, in m.
//
//	L = 1.10 x + 2 m
//
//	x  run from the device to the panel [m]   0 … 10,000
//
// Source: common practice.
func LeadM(runM float64) float64 { return runM*leadFactor + leadEndsM }

// Part is one row of the Parts sheet: the user's own catalogue.
type Part struct {
	Name      string
	Kind      string // in-pavement detector, aerial detector, slab temperature sensor, controller
	Senses    string // moisture, falling snow, slab temperature; several separated by ";"
	LeadM     string // factory lead lengths in m, separated by ";"
	Inputs    string // a controller accepts: kinds of part, separated by ";"
	Outputs   string // pump, valve, burner, contactor
	Functions string // ends when dry, ends on a timer, idling, outdoor reset
	Price     float64
	Priced    bool
	At        finding.Cell // where the price was typed
}

// Selection is the least-cost set of parts from the catalogue that covers what the kit is to do. Prices in the main unit of the workbook's currency.
//
// Of the parts of a kind that fit, those whose factory lead reaches come before those whose lengths are not told, and these before those that need
// a joint; then those with a price; then the lower price; then the earlier row of Parts. Kinds don't depend on each other, so that the least of
// each is the least set.
type Selection struct {
	Pieces  []Piece              // detectors, slab sensor, controller
	Boxes   int                  // pull boxes above ground for joints of leads
	Total   units.Maybe[float64] // of what is bought; blank when a price or a piece is missing
	Missing []Reason             // what no part of the catalogue covers
	Unfit   []Unfit              // every part that was looked at and not taken
	Verify  []Reason             // what the catalogue does not tell
	Order   Reason               // by what one part comes before another
}

// Piece is a line of the selection.
type Piece struct {
	Kind     string
	Part     string // "" where none fits
	Buy      int
	There    int                  // in place today: to check and use
	NeedM    float64              // the longest lead to the panel, with allowance [m]; 0 for a controller
	FactoryM units.Maybe[float64] // the factory length to order [m]
	Joint    bool                 // no factory length reaches: a joint in a pull box for each lead
	Price    units.Maybe[float64] // of one
}

// Amount returns the price of what is bought, in the main unit of the workbook's currency; blank without a price.
func (p Piece) Amount() units.Maybe[float64] {
	if p.Buy == 0 {
		return units.Some(0.0)
	}
	if !p.Price.Known {
		return p.Price
	}
	return units.Some(p.Price.Value * float64(p.Buy))
}

// Unfit is a part that was not taken, and why.
type Unfit struct {
	Part, Kind string
	Why        Reason
}

// sensesSlab says whether an in-pavement detector of the catalogue measures slab temperature too, and whether so many of them cost more than as
// many of the cheapest detector and the cheapest slab sensor together. A part without a price is not compared.
func sensesSlab(parts []Part, detectors int) string {
	with, without, sensor := math.Inf(1), math.Inf(1), math.Inf(1)
	senses := sensesNo
	for _, p := range parts {
		least := &without
		switch {
		case is(p.Kind, string(SlabSensor)):
			least = &sensor
		case !is(p.Kind, string(PavementDetector)) || p.Senses != "" && !lists(p.Senses, senseOf[PavementDetector]):
			continue
		case lists(p.Senses, sensesSlabWord):
			senses, least = sensesYes, &with
		}
		if p.Priced {
			*least = min(*least, p.Price)
		}
	}
	if n := float64(detectors); !math.IsInf(with, 1) && n*with > n*without+sensor {
		return sensesDearer
	}
	return senses
}

// buy selects the parts of the kit; nil without a catalogue.
func (c *Choice) buy(in Input, s facts.Set) {
	if len(in.Parts) == 0 || len(c.Kit) == 0 {
		return
	}
	sel := &Selection{Total: units.Some(0.0), Order: Reason{Code: codePartsOrder}}
	for _, d := range c.Kit {
		sel.add(c.device(in.Parts, d))
	}
	sel.add(c.controller(in.Parts, s))
	c.Selection = sel
	c.tellParts()
}

// offer is what the catalogue gives for one kind.
type offer struct {
	piece   Piece
	unfit   []Unfit
	missing []Reason
	verify  []Reason
}

func (sel *Selection) add(o offer) {
	sel.Pieces = append(sel.Pieces, o.piece)
	sel.Unfit, sel.Missing, sel.Verify = append(sel.Unfit, o.unfit...), append(sel.Missing, o.missing...), append(sel.Verify, o.verify...)
	if o.piece.Joint {
		sel.Boxes += o.piece.Buy
	}
	amount := o.piece.Amount()
	if sel.Total.Known && amount.Known && len(o.missing) == 0 {
		sel.Total.Value += amount.Value
	} else {
		sel.Total = units.Maybe[float64]{}
	}
}

// device selects the part for a device of the kit.
func (c *Choice) device(parts []Part, d Device) offer {
	n := c.number(d)
	need := c.longestLead(d)
	out := offer{piece: Piece{Kind: string(d), Buy: n.Placed - n.There, There: n.There, NeedM: need}}
	if n.There > 0 {
		out.verify = append(out.verify, Reason{Code: codeOldDevice, Args: []finding.Arg{finding.Words("device", string(d))}})
	}
	if out.piece.Buy == 0 {
		return out
	}
	best := pick(parts, string(d), &out, func(p Part) (Reason, bool) { return c.unfitDevice(p, d) }, need)
	if best == nil {
		return out
	}
	out.piece.Part, out.piece.Price = best.Name, price(*best)
	lengths := leads(best.LeadM)
	out.piece.FactoryM, out.piece.Joint = factory(lengths, need)
	if len(lengths) == 0 {
		out.verify = append(out.verify, Reason{Code: codeLeadNotTold, Args: []finding.Arg{finding.Words("part", best.Name), finding.Value("need", need, units.Length)}})
	}
	return out
}

// unfitDevice says why a part can't be the device of this kit.
func (c *Choice) unfitDevice(p Part, d Device) (Reason, bool) {
	switch {
	case p.Senses != "" && !lists(p.Senses, senseOf[d]):
		return Reason{Code: codeSensesOther, Args: []finding.Arg{finding.Words("senses", senseOf[d])}}, true
	case d == PavementDetector && c.OutdoorReset && !has(c.Kit, SlabSensor) && !lists(p.Senses, sensesSlabWord):
		return Reason{Code: codeSensesNotSlab}, true
	}
	return Reason{}, false
}

// controller selects the controller.
func (c *Choice) controller(parts []Part, s facts.Set) offer {
	out := offer{piece: Piece{Kind: kindController, Buy: 1}}
	best := pick(parts, kindController, &out, func(p Part) (Reason, bool) { return c.unfitController(p, s) }, 0)
	if best == nil {
		c.noController(parts, s)
		return out
	}
	c.Controller = best.Name
	out.piece.Part, out.piece.Price = best.Name, price(*best)
	if best.Outputs == "" {
		out.verify = append(out.verify, Reason{Code: codeOutputsUntold, Args: []finding.Arg{finding.Words("part", best.Name)}})
	}
	for _, n := range c.Numbers {
		if n.Placed > 1 {
			out.verify = append(out.verify, Reason{Code: codeManyInputs, Args: []finding.Arg{finding.Words("part", best.Name),
				finding.Value("count", float64(n.Placed), units.Count), finding.Words("device", string(n.Device))}})
		}
	}
	return out
}

// noController tells what the controller that misses least does not have.
func (c *Choice) noController(parts []Part, s facts.Set) {
	var closest *Part
	var misses []string
	for i := range parts {
		if p := &parts[i]; is(p.Kind, kindController) {
			if missing := slices.Concat(c.inputsMissing(*p), c.functionsMissing(*p), outputsMissing(*p, s)); closest == nil || len(missing) < len(misses) {
				closest, misses = p, missing
			}
		}
	}
	if closest == nil {
		return
	}
	c.Findings = append(c.Findings, finding.New(finding.Warning, CodeNoControllerFits, "",
		finding.Words("kit", c.KitName()), finding.Words("part", closest.Name), finding.Words("missing", strings.Join(misses, ", "))))
}

// unfitController says why a controller can't serve this kit.
func (c *Choice) unfitController(p Part, s facts.Set) (Reason, bool) {
	if missing := c.inputsMissing(p); len(missing) > 0 {
		return Reason{Code: codeTakesNot, Args: []finding.Arg{finding.Words("missing", strings.Join(missing, ", "))}}, true
	}
	if missing := c.functionsMissing(p); len(missing) > 0 {
		return Reason{Code: codeCanNot, Args: []finding.Arg{finding.Words("missing", strings.Join(missing, ", "))}}, true
	}
	if missing := outputsMissing(p, s); len(missing) > 0 {
		return Reason{Code: codeSwitchesNot, Args: []finding.Arg{finding.Words("heat", s.Word(factHeat)), finding.Words("missing", strings.Join(missing, ", "))}}, true
	}
	return Reason{}, false
}

// outputsMissing returns the outputs that switch this heat when a controller tells its outputs and has none of them.
func outputsMissing(p Part, s facts.Set) []string {
	wanted := outputsOf[s.Word(factHeat)]
	if p.Outputs == "" || slices.ContainsFunc(wanted, func(w string) bool { return lists(p.Outputs, w) }) {
		return nil
	}
	return wanted
}

// inputsMissing returns the devices of the kit that a controller does not take.
func (c *Choice) inputsMissing(p Part) []string {
	var out []string
	for _, d := range c.Kit {
		if !lists(p.Inputs, string(d)) {
			out = append(out, string(d))
		}
	}
	return out
}

// functionsMissing returns what a controller can't do of what the kit is to do, in the words of the Parts sheet.
func (c *Choice) functionsMissing(p Part) []string {
	var out []string
	for _, f := range []struct {
		needed bool
		word   string
	}{{c.Stop == StopDry, functionDry}, {c.Stop == StopTimer, functionTimer}, {c.Idling, functionIdling}, {c.OutdoorReset, functionReset}} {
		if f.needed && !lists(p.Functions, f.word) {
			out = append(out, f.word)
		}
	}
	return out
}

// pick returns the best part of a kind, nil without one, and fills in why the others were not taken.
func pick(parts []Part, kind string, out *offer, unfit func(Part) (Reason, bool), need float64) *Part {
	listed := false
	var fits []*Part
	for i := range parts {
		p := &parts[i]
		if !is(p.Kind, kind) {
			continue
		}
		listed = true
		if why, not := unfit(*p); not {
			out.unfit = append(out.unfit, Unfit{p.Name, kind, why})
			continue
		}
		fits = append(fits, p)
	}
	if len(fits) == 0 {
		code := codeNoneListed
		if listed {
			code = codeNoneFits
		}
		out.missing = append(out.missing, Reason{Code: code, Args: []finding.Arg{finding.Words("kind", kind)}})
		return nil
	}
	slices.SortStableFunc(fits, func(a, b *Part) int { return compare(*a, *b, need) })
	for _, p := range fits[1:] {
		out.unfit = append(out.unfit, Unfit{p.Name, kind, loses(*p, *fits[0], need)})
	}
	return fits[0]
}

// compare orders parts that fit, the better first: lead, price told, price; the order of rows is kept on ties.
func compare(a, b Part, need float64) int {
	return cmp.Or(cmp.Compare(leadRank(a, need), leadRank(b, need)), cmp.Compare(priceRank(a), priceRank(b)), cmp.Compare(a.Price, b.Price))
}

func priceRank(p Part) int {
	if p.Priced {
		return 0
	}
	return 1
}

// loses says why a part that fits comes after another.
func loses(p, winner Part, need float64) Reason {
	switch {
	case leadRank(p, need) != leadRank(winner, need) && leadRank(p, need) == leadJoint:
		return Reason{Code: codeLeadShort, Args: []finding.Arg{finding.Value("need", need, units.Length)}}
	case leadRank(p, need) != leadRank(winner, need):
		return Reason{Code: codeLeadNotTold, Args: []finding.Arg{finding.Words("part", p.Name), finding.Value("need", need, units.Length)}}
	case p.Priced != winner.Priced:
		return Reason{Code: codeNoPrice}
	case p.Price > winner.Price:
		return Reason{Code: codeDearer, Args: []finding.Arg{finding.Words("part", winner.Name)}}
	}
	return Reason{Code: codeLaterRow, Args: []finding.Arg{finding.Words("part", winner.Name)}}
}

// Ranks of a part's factory leads.
const (
	leadReaches = iota
	leadUntold
	leadJoint
)

func leadRank(p Part, need float64) int {
	lengths := leads(p.LeadM)
	if need == 0 {
		return leadReaches
	}
	if len(lengths) == 0 {
		return leadUntold
	}
	if _, joint := factory(lengths, need); joint {
		return leadJoint
	}
	return leadReaches
}

// factory returns the shortest factory length that reaches; else the longest, with a joint. Blank where no length is told.
func factory(lengths []float64, need float64) (length units.Maybe[float64], joint bool) {
	for _, l := range lengths {
		if l >= need && (!length.Known || l < length.Value) {
			length = units.Some(l)
		}
	}
	if length.Known || len(lengths) == 0 {
		return length, false
	}
	return units.Some(slices.Max(lengths)), true
}

// leads reads the factory lengths of a part, in m. What is no number was told as a finding when the sheet was read.
func leads(cell string) []float64 {
	var out []float64
	for w := range strings.SplitSeq(cell, wordsSeparatedBy) {
		if l, err := strconv.ParseFloat(strings.TrimSpace(w), 64); err == nil && l > 0 {
			out = append(out, l)
		}
	}
	return out
}

// longestLead returns the longest lead that a device of the plan takes, in m.
func (c *Choice) longestLead(d Device) float64 {
	if c.Plan == nil {
		return c.LeadM
	}
	return LeadM(c.longestRunM(d))
}

// longestRunM returns the longest run from a device of the plan to the panel, in m.
func (c *Choice) longestRunM(d Device) float64 {
	run := 0.0
	for _, m := range c.Plan.Marks {
		if m.Device == d {
			run = max(run, m.RunM)
		}
	}
	return run
}

// tellParts turns what the catalogue does not cover into findings; a controller has its own.
func (c *Choice) tellParts() {
	sel := c.Selection
	var notListed []string
	for _, m := range sel.Missing {
		kind := m.Args[0]
		switch {
		case m.Code == codeNoneListed:
			notListed = append(notListed, kind.Text)
		case kind.Text != kindController:
			c.Findings = append(c.Findings, finding.New(finding.Warning, CodeNoPartFits, "", kind))
		}
	}
	if notListed != nil {
		c.Findings = append(c.Findings, finding.New(finding.Info, CodeNoPartListed, "", finding.Words("kind", strings.Join(notListed, ", "))))
	}
	for _, p := range sel.Pieces {
		if p.Joint {
			c.Findings = append(c.Findings, finding.New(finding.Info, CodeLeadJoint, "panel_distance", finding.Words("part", p.Part),
				finding.Value("longest", p.FactoryM.Value, units.Length), finding.Value("need", p.NeedM, units.Length)))
		}
	}
}

func price(p Part) units.Maybe[float64] {
	if !p.Priced {
		return units.Maybe[float64]{}
	}
	return units.Some(p.Price)
}

// lists says whether a cell of several words has one of them.
func lists(cell, word string) bool {
	for w := range strings.SplitSeq(cell, wordsSeparatedBy) {
		if is(w, word) {
			return true
		}
	}
	return false
}

func is(typed, word string) bool { return strings.EqualFold(strings.TrimSpace(typed), word) }
