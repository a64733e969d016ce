package record

import (
	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// Detector is how many of a device the zone needs, and why.
type Detector struct {
	Device  string   `json:"device"`
	Wanted  int      `json:"wanted"`
	Placed  int      `json:"placed"`
	There   int      `json:"in_place_today"`
	Reasons []Reason `json:"reasons"`
}

// Plan is the zone as a rectangle with its devices. By agreement its length falls towards the low end and the sun warms one long side first.
type Plan struct {
	LengthM      Number `json:"length_m"`
	WidthM       Number `json:"width_m"`
	ShapeAssumed bool   `json:"shape_assumed"`
	Slope        Number `json:"slope"`
	Drain        string `json:"drain"`
	Sun          string `json:"sun"`
	ShadedShare  Number `json:"shaded_share"`
	Lanes        int    `json:"lanes"`
	PanelM       Number `json:"panel_m"`
	PanelAssumed bool   `json:"panel_assumed"`
	Marks        []Mark `json:"marks"`
}

// Mark is a device on the plan. Along runs from the high end, across from the side that the sun warms first; outside of 0 to 1 it stands beside the area.
type Mark struct {
	Number    int      `json:"number"`
	Device    string   `json:"device"`
	Along     Number   `json:"along"`
	Across    Number   `json:"across"`
	EdgeM     Number   `json:"to_edge_m"`
	FromLowM  Number   `json:"from_low_end_m"`
	FromSideM Number   `json:"from_sun_side_m"`
	RunM      Number   `json:"run_to_panel_m"`
	HeightM   Number   `json:"height_m"`
	There     bool     `json:"in_place_today"`
	Reasons   []Reason `json:"reasons"`
}

// Parts is what to buy for the kit from the user's list. A total is null when a price or a part is missing.
type Parts struct {
	Pieces    []Piece  `json:"pieces"`
	PullBoxes int      `json:"pull_boxes"`
	Total     Amount   `json:"total"`
	Missing   []Reason `json:"missing"`
	Verify    []Reason `json:"verify"`
	NotTaken  []Unfit  `json:"not_taken"`
}

// Piece is a line of the parts.
type Piece struct {
	Kind     string  `json:"kind"`
	Part     *string `json:"part"`
	Buy      int     `json:"buy"`
	There    int     `json:"in_place_today"`
	NeedM    Number  `json:"lead_needed_m"`
	FactoryM Number  `json:"factory_lead_m"`
	Joint    bool    `json:"joint"`
	Price    Amount  `json:"price"`
}

// Unfit is a part that was not taken, and why.
type Unfit struct {
	Part string `json:"part"`
	Kind string `json:"kind"`
	Code string `json:"code"`
	Text string `json:"text"`
}

// Screened is a line of the energy-code screen. Asked is null for a question. It certifies nothing.
type Screened struct {
	Asked  *string `json:"asked"`
	Answer string  `json:"answer"`
	Code   string  `json:"code"`
	Text   string  `json:"text"`
}

// Operated is a line of the sequence of operation.
type Operated struct {
	State string `json:"state"`
	Code  string `json:"code"`
	Text  string `json:"text"`
}

// SensingOf returns what senses in a zone and how it runs, nil where nothing was chosen. Prices are in the currency named.
func SensingOf(texts *words.Words, currency string, o calc.Outcome) *Sensing {
	if o.Sensing == nil {
		return nil
	}
	m := maker{words: texts, currency: currency}
	out := m.sensing(*o.Sensing)
	m.place(out, o)
	return out
}

// place adds number, place and parts of the devices, the screen, and how the zone runs.
func (m maker) place(out *Sensing, o calc.Outcome) {
	c := o.Sensing
	out.Detectors, out.Screen, out.Sequence = []Detector{}, []Screened{}, []Operated{}
	out.Checklist, out.Tests, out.Care = append([]string{}, c.Checklist...), []string{}, []string{}
	out.Lacks, out.Offers = m.lacks(c.Lacking), m.offers(o)
	out.Checks, out.Tested, out.Cared = m.checks(c.Checklist), []Tested{}, []Check{}
	for _, n := range c.Numbers {
		out.Detectors = append(out.Detectors, Detector{string(n.Device), n.Wanted, n.Placed, n.There, m.reasons(words.Reasons, n.Reasons...)})
	}
	if c.Plan != nil {
		out.Plan = m.plan(*c.Plan)
	}
	if c.Selection != nil {
		out.Parts = m.parts(o)
	}
	for _, s := range c.Screen {
		why := m.reasons(words.Screen, s.Why)[0]
		out.Screen = append(out.Screen, Screened{text(s.Asked), s.Answer, why.Code, why.Text})
	}
	if o.Operation == nil {
		return
	}
	if stop := o.Operation.PavementStop; stop.Known {
		out.PavementStop = NumberOf(stop.Value.StopC)
	}
	for _, l := range o.Operation.Sequence {
		out.Sequence = append(out.Sequence, Operated{l.State, l.Code, m.words.Line(words.Sequence, l.Code, l.Args...)[0]})
	}
	out.Tests, out.Care = append(out.Tests, lineCodes(o.Operation.Tests)...), append(out.Care, lineCodes(o.Operation.Care)...)
	out.Tested, out.Cared = m.tested(o.Operation.Tests), m.phased(words.Care, o.Operation.Care)
}

func lineCodes(lines []sensing.Line) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = l.Code
	}
	return out
}

func (m maker) reasons(table string, list ...sensing.Reason) []Reason {
	out := make([]Reason, len(list))
	for i, r := range list {
		out[i] = Reason{r.Code, m.words.Line(table, r.Code, r.Args...)[0]}
	}
	return out
}

func (m maker) plan(p sensing.Plan) *Plan {
	out := &Plan{LengthM: NumberOf(p.LengthM), WidthM: NumberOf(p.WidthM), ShapeAssumed: p.ShapeAssumed, Slope: NumberOf(p.Slope), Drain: p.Drain, Sun: p.Sun,
		ShadedShare: Number{p.ShadedShare}, Lanes: p.Lanes, PanelM: NumberOf(p.PanelM), PanelAssumed: p.PanelAssumed, Marks: []Mark{}}
	for _, k := range p.Marks {
		out.Marks = append(out.Marks, Mark{Number: k.Number, Device: string(k.Device), Along: NumberOf(k.Along), Across: NumberOf(k.Across), EdgeM: NumberOf(k.EdgeM),
			FromLowM: NumberOf(k.FromLowM), FromSideM: NumberOf(k.FromSideM), RunM: NumberOf(k.RunM), HeightM: NumberOf(k.HeightM), There: k.There,
			Reasons: m.reasons(words.Reasons, k.Reasons...)})
	}
	return out
}

func (m maker) parts(o calc.Outcome) *Parts {
	s := o.Sensing.Selection
	out := &Parts{Pieces: []Piece{}, PullBoxes: s.Boxes, Total: m.amount(o.PartsTotal(m.currency)), Missing: m.reasons(words.Reasons, s.Missing...),
		Verify: m.reasons(words.Reasons, s.Verify...), NotTaken: []Unfit{}}
	for _, p := range s.Pieces {
		out.Pieces = append(out.Pieces, Piece{Kind: p.Kind, Part: text(p.Part), Buy: p.Buy, There: p.There, NeedM: positive(p.NeedM), FactoryM: Number{p.FactoryM},
			Joint: p.Joint, Price: m.price(p.Price)})
	}
	for _, u := range s.Unfit {
		why := m.reasons(words.Reasons, u.Why)[0]
		out.NotTaken = append(out.NotTaken, Unfit{u.Part, u.Kind, why.Code, why.Text})
	}
	return out
}

// price is that of one piece.
func (m maker) price(p units.Maybe[float64]) Amount {
	if !p.Known {
		return Amount{}
	}
	return m.amount(units.Some(cost.FromMain(p.Value, m.currency)))
}
