package terminal

import (
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/report/record"
	"thawbook/report/words"
)

const leastShare = 1e-6 // below it a share is told as less than that

const workedDigits = 5 // significant digits of a worked calculation

// Explain writes the worked calculation of a zone, step by step: symbol, name, result and source, the equation and the numbers put into it.
// Equations hold in SI; a reader of I-P gets each result in both.
func Explain(w io.Writer, texts *words.Words, o calc.Outcome, steps []trace.Step) error {
	p := &page{w: w}
	ref := o.Zone.Ref
	p.text(0, texts.Say("explain-zone", finding.Words("site", strings.TrimSpace(ref.SiteID+" "+ref.SiteName)), finding.Words("zone", strings.TrimSpace(ref.ZoneID+" "+ref.ZoneName))))
	switch {
	case len(steps) > 0:
	case len(o.Findings) == 0:
		p.text(0, texts.Say("explain-nothing-told"))
	default:
		p.text(0, texts.Say("explain-nothing"))
	}
	p.steps(texts, steps)
	p.devices(texts, o)
	p.findings(texts, o.Findings)
	return p.err
}

// ExplainAlternative writes how the costs of one way of doing a site came about, step by step.
func ExplainAlternative(w io.Writer, texts *words.Words, site calc.Site, a calc.AlternativeOutcome) error {
	p := &page{w: w}
	p.text(0, texts.Say("explain-alternative", finding.Words("site", strings.TrimSpace(site.ID+" "+site.Name)), finding.Words("alternative", a.Name)))
	p.steps(texts, a.Steps())
	return p.err
}

// steps writes steps and the sources that they name.
func (p *page) steps(texts *words.Words, steps []trace.Step) {
	known := map[string]trace.Step{}
	var from sources
	for _, s := range steps {
		if s.Group != "" {
			p.group(texts, s.Group)
		}
		p.step(texts, s, known, from.mark(s.Source))
		known[s.Symbol] = s
	}
	p.sources(texts, from)
}

// sources are numbered as they come.
type sources []string

// mark returns the number of a source in brackets: [3].
func (s *sources) mark(source string) string {
	if source == "" {
		return ""
	}
	i := slices.Index(*s, source)
	if i < 0 {
		i = len(*s)
		*s = append(*s, source)
	}
	return "[" + strconv.Itoa(i+1) + "]"
}

func (p *page) sources(texts *words.Words, list sources) {
	if len(list) == 0 {
		return
	}
	p.heading(texts.Say("explain-sources"))
	for i, s := range list {
		p.row(0, column{width: 5, text: "[" + strconv.Itoa(i+1) + "]", right: true}, column{width: lineWidth - 7, text: s})
	}
}

func (p *page) group(texts *words.Words, group string) {
	p.heading(texts.Say("group-" + group))
}

func (p *page) heading(title string) {
	p.line("")
	p.line(title)
	p.line(strings.Repeat("─", len([]rune(title))))
}

// step writes a step: one row, then the equation and what was put into it.
func (p *page) step(texts *words.Words, s trace.Step, known map[string]trace.Step, source string) {
	const symbol, name, value, mark = 20, 44, 14, 5
	unit := lineWidth - symbol - name - value - mark - 8
	under := func(text string) {
		p.row(symbol+2, column{width: lineWidth - symbol - 2, text: text})
	}
	result, its := resultOf(texts, s, units.SI)
	if s.Quantity == units.Text {
		p.row(0, column{width: symbol, text: s.Symbol}, column{width: name, text: s.Name}, column{width: value + 2 + unit, text: result},
			column{width: mark, text: source, right: true})
	} else {
		p.row(0, column{width: symbol, text: s.Symbol}, column{width: name, text: s.Name}, column{width: value, text: result, right: true},
			column{width: unit, text: its}, column{width: mark, text: source, right: true})
	}
	if other, its := resultOf(texts, s, units.IP); inIP(texts, s) {
		p.row(symbol+2+name+2, column{width: value, text: other, right: true}, column{width: unit, text: its})
	}
	if s.Equation != "" {
		under(s.Equation)
	}
	if in := numbersIn(texts, s, known); in != "" {
		under(texts.Say("explain-with", finding.Words("numbers", in)))
	}
}

// inIP says whether a reader wants a step's result in I-P as well.
func inIP(texts *words.Words, s trace.Step) bool {
	return texts.Show.Units == units.IP && s.Quantity.In(units.IP).Symbol != s.Quantity.In(units.SI).Symbol
}

// resultOf returns a step's result and its unit.
func resultOf(texts *words.Words, s trace.Step, system units.System) (result, unit string) {
	if s.Quantity == units.Text {
		return s.Text, ""
	}
	in := s.Quantity.In(system)
	if s.Quantity == units.Share && s.Value != 0 && math.Abs(s.Value) < leastShare {
		return "< " + texts.Show.Plain(in.FromBase(leastShare), 4), in.Symbol // the noise of floating point tells a reader nothing
	}
	return texts.Show.Digits(in.FromBase(s.Value), workedDigits), in.Symbol
}

// numbersIn lists the results of earlier steps that a step rests on.
func numbersIn(texts *words.Words, s trace.Step, known map[string]trace.Step) string {
	var parts []string
	for _, symbol := range s.From {
		from, found := known[symbol]
		if !found {
			continue
		}
		result, unit := resultOf(texts, from, units.SI)
		parts = append(parts, strings.TrimSpace(symbol+"\u00a0=\u00a0"+result+"\u00a0"+unit))
	}
	return strings.Join(parts, "; ")
}

func (p *page) findings(texts *words.Words, list []finding.Finding) {
	if len(list) == 0 {
		return
	}
	p.line("")
	for _, f := range list {
		p.finding(texts, f)
	}
}

// step is a step as other programs read it; its value is in the SI unit that stands beside it.
type step struct {
	Group    string        `json:"group"`
	Symbol   string        `json:"symbol"`
	Name     string        `json:"name"`
	Value    record.Number `json:"value"`
	Text     *string       `json:"text"`
	Unit     string        `json:"unit"`
	Equation string        `json:"equation"`
	Source   string        `json:"source"`
	From     []string      `json:"from"`
}

func stepsOf(worked []trace.Step) []step {
	steps := []step{}
	group := ""
	for _, s := range worked {
		if s.Group != "" {
			group = s.Group
		}
		out := step{Group: group, Symbol: s.Symbol, Name: s.Name, Equation: s.Equation, Source: s.Source, From: s.From}
		if out.From == nil {
			out.From = []string{}
		}
		if s.Quantity == units.Text {
			out.Text = &s.Text
		} else {
			in := s.Quantity.In(units.SI)
			out.Unit, out.Value = in.Symbol, record.NumberOf(in.FromBase(s.Value))
		}
		steps = append(steps, out)
	}
	return steps
}

// ExplainAlternativeJSON writes the same as ExplainAlternative for other programs.
func ExplainAlternativeJSON(w io.Writer, _ *words.Words, site calc.Site, a calc.AlternativeOutcome) error {
	return writeJSON(w, struct {
		Site        string `json:"site"`
		Alternative string `json:"alternative"`
		Currency    string `json:"currency"`
		Steps       []step `json:"steps"`
	}{site.ID, a.Name, a.Currency, stepsOf(a.Steps())})
}

// ExplainJSON writes the same as Explain for other programs.
func ExplainJSON(w io.Writer, texts *words.Words, o calc.Outcome, worked []trace.Step) error {
	return writeJSON(w, struct {
		Site     string          `json:"site"`
		Zone     string          `json:"zone"`
		Status   string          `json:"status"`
		Steps    []step          `json:"steps"`
		Sensing  *record.Sensing `json:"sensing"`
		Findings []entry         `json:"findings"`
	}{o.Zone.Ref.SiteID, o.Zone.Ref.ZoneID, o.Status(), stepsOf(worked), record.SensingOf(texts, texts.Show.Currency, o), entries(texts, o.Findings)})
}
