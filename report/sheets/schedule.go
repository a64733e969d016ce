package sheets

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// placedPiece is a piece to buy or to place: a device with its place, or a quantity that is laid.
type placedPiece struct {
	mark        string // number on the sketch of the zone
	piece, part string
	quantity    float64
	measure     units.Quantity
	there       bool
	runM        float64 // of its lead to the panel; 0: it has none
	factoryM    units.Maybe[float64]
	joint       bool
	where       string
}

// schedule is a row for each piece to buy or to place, zone by zone, then what the zones of the site share.
func schedule() sheet {
	return sheet{Key: "schedule", Name: "Results Schedule", Frozen: 4, Columns: append(siteColumns(),
		SheetColumn{Key: "zone", Heading: "Zone ID", Width: 9, Get: func(r Row) any {
			if r.Zone == nil {
				return nil
			}
			return r.Zone.Zone.Ref.ZoneID
		}},
		ofPiece("mark", "Mark", 6, func(_ Row, p placedPiece) any { return p.mark }),
		ofPiece("item", "Piece", 24, func(_ Row, p placedPiece) any { return p.piece }),
		ofPiece("part", "Part", 30, func(_ Row, p placedPiece) any { return p.part }),
		SheetColumn{Key: "quantity", Heading: "Quantity", Quantity: units.Number, Get: func(r Row) any { return r.Placed.measure.In(r.Words.Show.Units).FromBase(r.Placed.quantity) }},
		ofPiece("unit", "Unit", 8, func(r Row, p placedPiece) any { return unitOf(r, p) }),
		ofPiece("status", "In place or to buy", 12, func(r Row, p placedPiece) any { return r.Words.Say(pieceWord[p.there]) }),
		SheetColumn{Key: "run", Heading: "Run to the panel", Quantity: units.Length, Get: func(r Row) any { return positive(r.Placed.runM) }},
		SheetColumn{Key: "factory-lead", Heading: "Factory lead to order", Quantity: units.Length, Get: func(r Row) any { return r.Placed.factoryM }},
		ofPiece("joint", "Joint in a pull box", 12, func(r Row, p placedPiece) any { return joint(r, p) }),
		SheetColumn{Key: "where", Heading: "Where it goes", Width: 60, Look: Wrapped, Get: func(r Row) any { return r.Placed.where }},
		SheetColumn{Key: "revision", Heading: "Revision", Width: 9, Get: func(r Row) any { return r.Site.Summary.Revision }},
	), Rows: eachPiece}
}

func ofPiece(key, heading string, width float64, get func(Row, placedPiece) any) SheetColumn {
	return SheetColumn{Key: key, Heading: heading, Width: width, Get: func(r Row) any { return get(r, r.Placed) }}
}

// pieceWord is the code of whether a piece is there.
var pieceWord = map[bool]string{false: "piece-to-buy", true: "piece-there"}

func unitOf(r Row, p placedPiece) any {
	if symbol := r.Words.Show.Unit(p.measure); symbol != "" {
		return symbol
	}
	return r.Words.Say("piece-unit")
}

func joint(r Row, p placedPiece) any {
	if !p.joint {
		return nil
	}
	return r.Words.Say("piece-joint")
}

func eachPiece(r Row, system units.System, put func(Row)) {
	hand := func(r Row, list []placedPiece) {
		for _, p := range list {
			r.Placed = p
			put(r)
		}
	}
	eachZone(r, system, func(r Row) {
		if c := r.Zone.Sensing; c != nil {
			hand(r, devices(r, c))
		}
		hand(r, laid(r))
	})
	for _, p := range r.Site.Plants {
		hand(r, []placedPiece{{piece: cost.Plant, quantity: p.NetW, measure: units.ElectricPower, there: plantThere(r.Site, p), where: r.Words.Say("piece-plant", finding.Words("zones", zonesOf(p)))}})
	}
}

func zonesOf(p calc.Plant) string {
	ids := make([]string, len(p.Needs))
	for i, n := range p.Needs {
		ids[i] = n.ID
	}
	return strings.Join(ids, ", ")
}

// plantThere says whether all zones that a plant feeds are heated already.
func plantThere(so *calc.SiteOutcome, p calc.Plant) bool {
	for _, n := range p.Needs {
		for _, o := range so.Outcomes {
			if o.Zone.Ref.ZoneID == n.ID && o.Zone.Slab.Stage != calc.ExistingHeated {
				return false
			}
		}
	}
	return true
}

// devices are those on the sketch one by one, then what stands at the panel.
func devices(r Row, c *sensing.Choice) []placedPiece {
	var list []placedPiece
	var pieces []sensing.Piece
	if c.Selection != nil {
		pieces = c.Selection.Pieces
	}
	placed := map[string]bool{}
	if c.Plan != nil {
		for _, m := range c.Plan.Marks {
			kind := string(m.Device)
			placed[kind] = true
			p := placedPiece{mark: r.Words.Show.Number(float64(m.Number), units.Count), piece: kind, quantity: 1, measure: units.Count, there: m.There, runM: m.RunM,
				where: strings.TrimSpace(report.Place(r.Words, *c.Plan, m) + " " + report.Said(r.Words, words.Reasons, m.Reasons...))}
			for _, s := range pieces {
				if s.Kind == kind && !m.There {
					p.part, p.factoryM, p.joint = s.Part, s.FactoryM, s.Joint
				}
			}
			list = append(list, p)
		}
	}
	for _, s := range pieces {
		if placed[s.Kind] {
			continue
		}
		p := placedPiece{piece: s.Kind, part: s.Part, quantity: float64(s.Buy), measure: units.Count, runM: s.NeedM, factoryM: s.FactoryM, joint: s.Joint}
		if s.Buy == 0 {
			p.quantity, p.there, p.part = float64(s.There), true, ""
		}
		if s.NeedM == 0 {
			p.where = r.Words.Say("piece-at-panel")
		}
		list = append(list, p)
	}
	if c.Selection != nil && c.Selection.Boxes > 0 {
		list = append(list, placedPiece{piece: r.Words.Say("piece-pull-box"), quantity: float64(c.Selection.Boxes), measure: units.Count, where: r.Words.Say("piece-pull-box-where")})
	}
	return list
}

// laid are pipes with their fluid, or cables with their circuits.
func laid(r Row) []placedPiece {
	there := r.Zone.Zone.Slab.Existing()
	switch {
	case r.Zone.Piping != nil:
		return pipesLaid(r, *r.Zone.Piping, there)
	case r.Zone.Electric != nil:
		l := r.Zone.Electric
		list := []placedPiece{{piece: cost.Cable, quantity: l.CableM, measure: units.Length, there: there, where: r.Words.Say("piece-cable", finding.Value("spacing", l.SpacingM, units.Thickness))}}
		if c := l.Circuits; c.Known {
			list = append(list, placedPiece{piece: cost.Circuit, quantity: float64(c.Value.Count), measure: units.Count, there: there,
				where: r.Words.Say("piece-circuit", finding.Value("protection", c.Value.ProtectionA, units.Current), finding.Value("load", c.Value.LoadW, units.ElectricPower))})
		}
		return list
	}
	return nil
}

func pipesLaid(r Row, l piping.Layout, there bool) []placedPiece {
	loops := r.Words.Say("piece-tube", finding.Value("loops", float64(l.Loops.Count), units.Count), finding.Value("length", l.Loops.LengthM, units.Length), finding.Value("spacing", l.Input.SpacingM, units.Thickness))
	return []placedPiece{{piece: cost.Tube, part: r.Zone.Zone.Heat.Pipe.Typed, quantity: l.Loops.TotalM, measure: units.Length, there: there, where: loops},
		{piece: cost.Fluid, quantity: l.Volume.TotalL, measure: units.Volume, there: there, where: r.Words.Say("piece-fluid")}}
}
