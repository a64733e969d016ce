package record

import (
	"thawbook/calc"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/words"
)

// Offer is what it would take to get more than the chosen kit can do, or why nothing is offered; never the choice. Without a device there is nothing to price.
type Offer struct {
	Code        string      `json:"code"`
	Text        string      `json:"text"`
	Device      *string     `json:"device"`
	Takes       []OfferLine `json:"takes"`
	Price       Amount      `json:"price"`
	AfterSurvey Amount      `json:"price_after_survey"`
	Example     bool        `json:"example_price"`
	Kit         *string     `json:"kit"`
	Strategy    *string     `json:"strategy"`
	Checklist   []Check     `json:"checklist"`
}

// OfferLine is one quantity of an offer. Unit is m, or null for pieces.
type OfferLine struct {
	Item        string  `json:"item"`
	Quantity    Number  `json:"quantity"`
	Unit        *string `json:"unit"`
	AfterSurvey bool    `json:"after_survey"`
	Amount      Amount  `json:"amount"`
}

// Check is a line to tick on site.
type Check struct {
	Code     string `json:"code"`
	Phase    string `json:"phase"`
	Text     string `json:"text"`
	Prevents string `json:"prevents"`
}

// Tested is a test of commissioning with its pass value.
type Tested struct {
	Code     string `json:"code"`
	Text     string `json:"text"`
	Pass     string `json:"pass"`
	Prevents string `json:"prevents"`
}

// offers tells every offer of a choice, with what it takes where it can be priced.
func (m maker) offers(o calc.Outcome) []Offer {
	out := []Offer{}
	for _, code := range o.Sensing.Offers {
		said := Offer{Code: code, Text: m.words.Line(words.Reasons, code)[0], Takes: []OfferLine{}, Checklist: []Check{}}
		priced := false
		for _, option := range o.Options {
			if option.Code == code {
				out, priced = append(out, m.option(said, option)), true
			}
		}
		if !priced {
			out = append(out, said)
		}
	}
	return out
}

func (m maker) option(out Offer, o calc.Option) Offer {
	out.Device, out.Price, out.AfterSurvey, out.Example = text(string(o.For)), m.amount(o.Total), m.amount(o.After), o.Example
	out.Kit, out.Strategy, out.Checklist = text(o.Gives.Kit), text(o.Gives.Strategy), m.checks(o.Checklist)
	out.Takes = make([]OfferLine, len(o.Lines))
	for i, l := range o.Lines {
		out.Takes[i] = OfferLine{Item: l.Item, Quantity: NumberOf(l.Quantity), AfterSurvey: l.After, Amount: m.amount(l.Amount)}
		if l.Unit == units.Length {
			out.Takes[i].Unit = text("m")
		}
	}
	return out
}

func (m maker) checks(codes []string) []Check {
	lines := make([]sensing.Line, len(codes))
	for i, code := range codes {
		lines[i].Code = code
	}
	return m.phased(words.Checklist, lines)
}

// phased are lines with a phase; that of care is when it is due.
func (m maker) phased(table string, lines []sensing.Line) []Check {
	out := make([]Check, len(lines))
	for i, l := range lines {
		line := m.words.Line(table, l.Code, l.Args...)
		out[i] = Check{l.Code, line[0], line[1], line[2]}
	}
	return out
}

func (m maker) tested(lines []sensing.Line) []Tested {
	out := make([]Tested, len(lines))
	for i, l := range lines {
		line := m.words.Line(words.Tests, l.Code, l.Args...)
		out[i] = Tested{l.Code, line[0], line[1], line[2]}
	}
	return out
}

// lacks are what was wanted and the kit can't do.
func (m maker) lacks(codes []string) []Reason {
	out := make([]Reason, len(codes))
	for i, code := range codes {
		out[i] = Reason{code, m.words.Line(words.Reasons, code)[0]}
	}
	return out
}
