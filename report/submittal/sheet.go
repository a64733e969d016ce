package submittal

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/chart"
	"thawbook/report/show"
)

// sheet is a view on a paper: what sections write with.
type sheet struct {
	report.View
	paper paper
}

func on(v report.View) sheet { return sheet{v, paperFor(v.Settings.Units)} }

// say returns one of the document's sentences.
func (s sheet) say(code string, args ...finding.Arg) string {
	return s.Words.Say("pdf-"+code, args...)
}

// look is how the document's charts are written.
func (s sheet) look() chart.Look {
	return chart.Look{Fonts: face().faces, Number: s.Words.Show.Plain}
}

// number writes a value without its unit, for tables whose heading names it.
func (s sheet) number(v float64, q units.Quantity) string { return s.Words.Show.Number(v, q) }

func (s sheet) with(v float64, q units.Quantity) string { return s.Words.Show.With(v, q) }

func (s sheet) maybe(v units.Maybe[float64], q units.Quantity) string {
	return s.Words.Show.Maybe(v, q)
}

// bare writes a value that may be blank, without its unit.
func (s sheet) bare(v units.Maybe[float64], q units.Quantity) string {
	if !v.Known {
		return show.NotAvailable
	}
	return s.number(v.Value, q)
}

// exact writes a value with its unit and at least three significant digits, as a worked calculation shows it.
func (s sheet) exact(v float64, q units.Quantity) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return show.NotAvailable
	}
	shown, decimals := q.In(s.Words.Show.Units).FromBase(v), s.Words.Show.Decimals(q)
	if size := math.Abs(shown); size >= 1000 && decimals > 0 {
		decimals = 0
	} else if size > 0 && size < 100 && q != units.Count && q != units.Hours {
		decimals = min(decimals+3, max(decimals, 2-int(math.Floor(math.Log10(size)))))
	}
	if q == units.Temperature || q == units.TemperatureDiff {
		decimals = s.Words.Show.Decimals(q)
	}
	return strings.TrimRight(s.Words.Show.Plain(shown, decimals)+"\u00a0"+s.Words.Show.Unit(q), "\u00a0")
}

// amount writes an amount without its currency, for tables whose heading names it.
func (s sheet) amount(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return show.NotAvailable
	}
	currency := s.Settings.Currency
	return s.Words.Show.Plain(m.Value.Main(currency), cost.Decimals(currency))
}

// round writes an amount with its currency and without its cents, for the first glance.
func (s sheet) round(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return show.NotAvailable
	}
	return strings.TrimSpace(s.Settings.Currency + "\u00a0" + s.Words.Show.Plain(m.Value.Main(s.Settings.Currency), 0))
}

// priced returns "name [currency]".
func (s sheet) priced(code string) string {
	if s.Settings.Currency == "" {
		return s.say(code)
	}
	return s.say(code) + " [" + s.Settings.Currency + "]"
}

// short writes a plain number without trailing zeros.
func (s sheet) short(v float64) string {
	text := s.Words.Show.Plain(v, 2)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".,")
}

// unit returns "name [unit]".
func (s sheet) unit(code string, q units.Quantity) string {
	return s.say(code) + " [" + s.Words.Show.Unit(q) + "]"
}

// or returns a text, or "not available" for an empty one.
func or(text string) string {
	if strings.TrimSpace(text) == "" {
		return show.NotAvailable
	}
	return text
}

func (s sheet) siteName() string {
	if name := strings.TrimSpace(s.Site.Site.Name); name != "" {
		return name
	}
	return s.Site.Site.ID
}

// zoneName names a zone as people do, its ID behind where the name does not hold it.
func zoneName(z calc.Zone) string {
	name := strings.TrimSpace(z.Ref.ZoneName)
	switch {
	case name == "":
		return z.Ref.ZoneID
	case z.Ref.ZoneID == "" || strings.Contains(name, z.Ref.ZoneID):
		return name
	}
	return z.Ref.ZoneID + " " + name
}

// zoneTitle is the heading of a zone.
func (s sheet) zoneTitle(z calc.Zone) string {
	return s.say("zone-title", finding.Words("zone", zoneName(z)))
}

// first returns the first zone that was read for the site; every site has one.
func (s sheet) first() calc.Zone {
	for _, o := range s.Site.Outcomes {
		return o.Zone
	}
	for _, z := range s.Site.Site.Zones {
		return z
	}
	return calc.Zone{}
}

func (s sheet) revision() string {
	return s.say("revision", finding.Words("revision", or(s.Settings.Revision)))
}

func (s sheet) header() [3]string {
	return [3]string{s.Settings.Project, s.siteName(), s.revision()}
}

func (s sheet) footer(page, pages int) [3]string {
	return [3]string{s.Program, s.Settings.IssueDate, s.say("page", finding.Words("page", fmt.Sprint(page)), finding.Words("pages", fmt.Sprint(pages)))}
}

// merged returns the findings of the site, heaviest first.
func (s sheet) merged() []finding.Finding {
	all := slices.Clone(s.Site.Summary.Findings)
	if len(all) == 0 {
		for _, o := range s.Site.Outcomes {
			all = append(all, o.Findings...)
		}
	}
	return report.Merge(all)
}

// trouble returns the errors of a zone, in words.
func (s sheet) trouble(o calc.Outcome) []string {
	var out []string
	for _, f := range o.Findings {
		if f.Severity == finding.Error {
			what, do := s.Words.Finding(f)
			out = append(out, sentence(what)+" "+sentence(do))
		}
	}
	if len(out) == 0 && o.Err != nil {
		out = []string{sentence(o.Err.Error())}
	}
	if len(out) == 0 {
		out = []string{s.say("no-reason")}
	}
	return out
}

// sentence ends a text with a full stop.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?:") {
		return text
	}
	return text + "."
}

// groups collects zones of which the same is to be said, in order of the first.
func groups[K comparable](outcomes []calc.Outcome, key func(calc.Outcome) (K, bool)) (keys []K, zones map[K][]calc.Outcome) {
	zones = map[K][]calc.Outcome{}
	for _, o := range outcomes {
		k, ok := key(o)
		if !ok {
			continue
		}
		if zones[k] == nil {
			keys = append(keys, k)
		}
		zones[k] = append(zones[k], o)
	}
	return keys, zones
}

// ids lists zones by their IDs, for narrow columns.
func (s sheet) ids(list []calc.Outcome) string {
	if len(list) == len(s.Site.Outcomes) && len(list) > 1 {
		return s.say("all")
	}
	out := make([]string, len(list))
	for i, o := range list {
		out[i] = o.Zone.Ref.ZoneID
	}
	return strings.Join(out, ", ")
}

// told is what findings of the same words say, and of which zones and cells.
type told struct {
	severity finding.Severity
	zones    []string
	cells    []string
	what, do string
}

// findings returns what there is to tell of the site, heaviest first. What is said of several zones in the same words stands once.
func (s sheet) findings() []told {
	var out []told
	at := map[[2]string]int{}
	for _, f := range s.merged() {
		what, do := s.Words.Finding(f)
		i, found := at[[2]string{what, do}]
		if !found {
			i = len(out)
			at[[2]string{what, do}] = i
			out = append(out, told{severity: f.Severity, what: sentence(what), do: sentence(do)})
		}
		t := &out[i]
		if f.Zone != "" && !slices.Contains(t.zones, f.Zone) {
			t.zones = append(t.zones, f.Zone)
		}
		if cell := strings.TrimSpace(f.At.Sheet + " " + f.At.Ref); cell != "" && !slices.Contains(t.cells, cell) {
			t.cells = append(t.cells, cell)
		}
	}
	return out
}

// names lists zones, or says that all are meant.
func (s sheet) names(list []calc.Outcome) string {
	if len(list) == len(s.Site.Outcomes) && len(list) > 1 {
		return s.say("all-zones")
	}
	out := make([]string, len(list))
	for i, o := range list {
		out[i] = zoneName(o.Zone)
	}
	return strings.Join(out, ", ")
}
