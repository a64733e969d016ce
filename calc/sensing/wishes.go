package sensing

import (
	"maps"
	"slices"

	"thawbook/calc/facts"
	"thawbook/calc/units"
)

// Offers that have quantities. The rules name them by these codes.
const (
	offerCoring  = "offer-coring"
	offerSawCut  = "offer-saw-cut"
	offerLifting = "offer-lifting-pavers"
	offerSurvey  = "survey-before-cutting"
)

// Conflict is a wish, or something that safety asks, that the zone as it is can't have.
type Conflict struct {
	Lack    string   // code of what is lacking
	Because []string // codes of the rules that put out every kit that would have it
	Takes   []string // codes of the offers that would bring it, or say why none does; empty: no change to this pavement would
}

// conflicts finds, for everything that is lacking, why no kit that has it could be taken and which offers would bring it.
func (c *Choice) conflicts(rows []facts.Row, kit candidate, s facts.Set) {
	all := candidates(s[FactSensesSlab] != sensesNo)
	for _, r := range rows {
		lack, subject := r.Effects[effectLack], r.Effects[effectKit]
		if !favours(r) || kit.meets(subject) || lack == "" || slices.ContainsFunc(c.Conflicts, func(x Conflict) bool { return x.Lack == lack }) {
			continue
		}
		out := Conflict{Lack: lack}
		for _, k := range all {
			if k.meets(subject) {
				out.Because = addOnce(out.Because, c.rejection(k))
			}
		}
		for _, o := range rows {
			if o.Effects[effectSays] == "offer" && !kit.meets(o.Effects[effectKit]) && c.brings(o.Effects[effectKit], subject, all) {
				out.Takes = addOnce(out.Takes, o.Effects[facts.Code])
			}
		}
		c.Conflicts = append(c.Conflicts, out)
	}
}

// rejection returns the code of the rule that put a kit out.
func (c *Choice) rejection(k candidate) string {
	for _, r := range c.Rejected {
		if r.Kit == kitName(k.devices) {
			return r.Code
		}
	}
	return ""
}

// brings says whether the kit with what an offer gives a place would have a subject that the kit lacks.
func (c *Choice) brings(offered, subject string, all []candidate) bool {
	for _, k := range all {
		gains := func(d Device) bool {
			return has(c.Kit, d) || string(d) == offered || offered == subjectDetectorStart && d == AerialDetector
		}
		if k.meets(subject) && !slices.ContainsFunc(k.devices, func(d Device) bool { return !gains(d) }) {
			return true
		}
	}
	return false
}

// offered is an offer and the device that would get its place.
type offered struct {
	code string
	of   Device
}

// Option is what an offer takes and what it would give.
type Option struct {
	Code       string // of the offer
	For        Device // that would get its place
	Items      []Item
	Part       string               // from the catalogue; "" where none fits
	Price      units.Maybe[float64] // of the part, in the main unit of the workbook's currency
	Controller Swap                 // of the controller, where the kit it would make needs another one
	Gives      Gives
	Cautions   []string // codes: what can hurt someone
	Checklist  []string // codes of the lines that it adds, only when it is ordered
}

// Gives is what a zone could do with the kit that an option makes.
type Gives struct {
	Kit, Start, Stop     string
	Idling, OutdoorReset bool
	Strategy             string // the season strategy, whose cost can be compared
}

// Swap is a part that takes the place of another. The zero Swap changes nothing.
type Swap struct {
	From, To           string
	FromPrice, ToPrice units.Maybe[float64]
}

// Item is a quantity of a line of the Costs sheet.
type Item struct {
	Item     string
	Quantity float64
	Unit     units.Quantity // Length [m], or Count
	After    bool           // only when the survey clears it
}

// Items of the Costs sheet that offers name. Scanning counts half days.
const itemCoring, itemScanning, itemSawCut, itemConduit, itemLifting = "coring", "scanning", "saw-cut", "conduit", "lifting pavers"

// Options returns what each offer to cut, lift or survey the pavement takes, and the kit that the rules would choose then: a scan before any tool,
// a core for a housing, a slot from it to the nearest edge, as long as the detector lies from that, and conduit from there to the panel.
// Source: common practice.
func (c Choice) Options(rules facts.Table, in Input) []Option {
	var out []Option
	for _, of := range c.offered {
		if of.of != PavementDetector && of.of != SlabSensor {
			continue
		}
		o := Option{Code: of.code, For: of.of, Cautions: []string{"locate-before-cutting", "silica-dust"}}
		if !o.take(in) {
			continue
		}
		o.Checklist = c.optionLines(in, o)
		then := Choose(rules, with(in, of.of))
		o.Gives = Gives{Kit: then.KitName(), Start: then.Start, Stop: then.Stop, Idling: then.Idling, OutdoorReset: then.OutdoorReset, Strategy: then.Strategy}
		if best := pick(in.Parts, string(o.For), &offer{}, func(p Part) (Reason, bool) { return then.unfitDevice(p, o.For) }, LeadM(in.PanelM)); best != nil {
			o.Part, o.Price = best.Name, price(*best)
		}
		if then.Controller != c.Controller && then.Controller != "" {
			o.Controller = Swap{c.Controller, then.Controller, priceOf(in.Parts, c.Controller), priceOf(in.Parts, then.Controller)}
		}
		out = append(out, o)
	}
	return out
}

// optionLines returns the lines of the checklist that an option adds to those of the choice.
func (c Choice) optionLines(in Input, o Option) []string {
	s := in.situation()
	c.Tell(s)
	s[FactCutting] = o.cutting()
	return slices.DeleteFunc(in.Checklist.Codes(s), func(code string) bool { return slices.Contains(c.Checklist, code) })
}

// cutting says how an option reaches into the pavement.
func (o Option) cutting() string {
	switch {
	case o.Code == offerLifting:
		return wordLifting
	case o.For == PavementDetector:
		return wordCoring
	}
	return wordSlot
}

// take fills what the offer takes; false for one that says why nothing is offered.
func (o *Option) take(in Input) bool {
	edge := inset(in.Pavement)
	scan := Item{Item: itemScanning, Unit: units.Count, Quantity: 1}
	conduit := Item{Item: itemConduit, Unit: units.Length, Quantity: max(0, in.PanelM-edge)}
	cuts := []Item{{Item: itemSawCut, Unit: units.Length, Quantity: edge}, conduit}
	if o.For == PavementDetector {
		cuts = append([]Item{{Item: itemCoring, Unit: units.Count, Quantity: 1}}, cuts...)
	}
	switch o.Code {
	case offerCoring, offerSawCut:
	case offerSurvey:
		o.Cautions = append(o.Cautions, "tendons-not-known", "membrane-below")
		for i := range cuts {
			cuts[i].After = true
		}
	case offerLifting:
		o.Items, o.Cautions = []Item{{Item: itemLifting, Unit: units.Count, Quantity: 1}, conduit}, []string{"locate-before-cutting"}
		return true
	default:
		return false
	}
	o.Items = append([]Item{scan}, cuts...)
	return true
}

// with returns the input as it would be with a place for a device.
func with(in Input, d Device) Input {
	in.Facts = maps.Clone(in.Facts)
	if in.Facts == nil {
		in.Facts = facts.Set{}
	}
	if d == PavementDetector {
		in.Facts[factHousing] = answerYes
	} else {
		in.Facts[factSlabSensor] = answerYes
	}
	in.Checklist, in.Screen = facts.Table{}, facts.Table{}
	return in
}

// priceOf returns the price of a part by its name.
func priceOf(parts []Part, name string) units.Maybe[float64] {
	for _, p := range parts {
		if p.Name == name && is(p.Kind, kindController) {
			return price(p)
		}
	}
	return units.Maybe[float64]{}
}
