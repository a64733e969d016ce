package sensing

import (
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

// Option is what an offer takes.
type Option struct {
	Code     string // of the offer
	For      Device // that would get its place
	Items    []Item
	Part     string               // from the catalogue; "" where none fits
	Price    units.Maybe[float64] // of the part, in the main unit of the workbook's currency
	Cautions []string             // codes: what can hurt someone
}

// Item is a quantity of a line of the Costs sheet.
type Item struct {
	Item     string
	Quantity float64
	Unit     units.Quantity // Length [m], or Count
	After    bool           // only when the survey clears it
}

// Items of the Costs sheet that offers name. Scanning counts half days.
const itemCoring, itemScanning, itemSawCut, itemConduit = "coring", "scanning", "saw-cut", "conduit"

// Options returns what each offer to cut, lift or survey the pavement takes: a scan before any tool, a core for a housing, a slot from it to the
// nearest edge, as long as the detector lies from that, and conduit from there to the panel. Source: common practice.
func (c Choice) Options(in Input) []Option {
	var out []Option
	edge := edgeBetterM
	if in.Pavement.EdgeM.Known {
		edge = max(in.Pavement.EdgeM.Value, edgeLeastM)
	}
	slot := Item{Item: itemSawCut, Unit: units.Length, Quantity: edge}
	conduit := Item{Item: itemConduit, Unit: units.Length, Quantity: max(0, in.PanelM-edge)}
	scan := Item{Item: itemScanning, Unit: units.Count, Quantity: 1}
	core := Item{Item: itemCoring, Unit: units.Count, Quantity: 1}
	cut := []string{"locate-before-cutting", "silica-dust"}
	for _, code := range c.Offers {
		o := Option{Code: code, Cautions: cut}
		switch code {
		case offerCoring:
			o.For, o.Items = PavementDetector, []Item{scan, core, slot, conduit}
		case offerSawCut:
			o.For, o.Items = SlabSensor, []Item{scan, slot, conduit}
		case offerSurvey:
			o.For, o.Items = c.surveyed(scan, core, slot, conduit)
			o.Cautions = append(slices.Clone(cut), "tendons-not-known", "membrane-below")
		case offerLifting:
			o.For, o.Cautions = PavementDetector, []string{"locate-before-cutting"}
			o.Items = []Item{conduit}
			if has(c.Kit, PavementDetector) {
				o.For = SlabSensor
			}
		default:
			continue
		}
		need := LeadM(in.PanelM)
		if best := pick(in.Parts, string(o.For), &offer{}, func(p Part) (Reason, bool) { return c.unfitDevice(p, o.For) }, need); best != nil {
			o.Part, o.Price = best.Name, price(*best)
		}
		out = append(out, o)
	}
	return out
}

// surveyed returns what a scan costs first and what cutting costs once it clears the slab.
func (c Choice) surveyed(scan Item, cuts ...Item) (Device, []Item) {
	device := PavementDetector
	if has(c.Kit, PavementDetector) {
		device, cuts = SlabSensor, cuts[1:]
	}
	items := []Item{scan}
	for _, i := range cuts {
		i.After = true
		items = append(items, i)
	}
	return device, items
}
