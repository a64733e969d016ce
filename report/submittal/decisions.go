package submittal

import (
	"slices"
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// decisions is how many of them the first page shows; the rest stand in the chapter of findings.
const decisions = 8

// costTable is the cost of a year, in whole units of the currency; that of a site with one zone stands among the figures above.
func (s sheet) costTable() []core.Row {
	rows, without := s.part(s.say("costs")), s.costless()
	sum := s.Site.Summary
	if !slices.ContainsFunc(s.Site.Outcomes, priced) {
		if len(without) == 0 { // nothing is heated
			return nil
		}
		return append(rows, without...)
	}
	if len(s.Site.Outcomes) == 1 {
		return append(s.pays(), s.examplePrices()...)
	}
	cols := []column{{title: s.say("zone"), width: 26}, {title: s.say("controlled-by"), width: 35}}
	for _, w := range cost.Winters {
		cols = append(cols, column{title: s.priced("winter-" + string(w)), width: 13, right: true})
	}
	var list []cells
	for _, o := range s.Site.Outcomes {
		texts := []string{zoneName(o.Zone), show.NotAvailable}
		if o.Sensing != nil {
			texts[1] = or(o.Sensing.Strategy)
		}
		for _, w := range cost.Winters {
			year, _ := o.ChosenCost(w)
			texts = append(texts, s.rounded(year.Total))
		}
		list = append(list, cells{texts: texts})
	}
	if len(list) > 1 {
		list = append(list, cells{bold: true, texts: []string{s.say("site-total"), "", s.rounded(sum.Winter[0]), s.rounded(sum.Winter[1]), s.rounded(sum.Winter[2])}})
	}
	rows = append(rows, s.table(cols, list)...)
	rows = append(append(rows, s.pays()...), s.examplePrices()...)
	return append(rows, without...)
}

// pays says what the site as in Sites costs first, and whether it pays for itself.
func (s sheet) pays() []core.Row {
	for _, a := range s.Site.Alternatives {
		if !a.AsInSites || !a.Savings.Known || a.FirstCost.Value == 0 {
			continue
		}
		code := "pays"
		if a.Savings.Value.Net < 0 {
			code = "pays-not"
		}
		return s.paragraph(s.say(code, finding.Words("first", s.round(a.FirstCost)), finding.Value("years", float64(a.Study.Years), units.Years), finding.Words("net", s.round(units.Some(a.Savings.Value.Net)))), bodyStyle)
	}
	return nil
}

// examplePrices warns where an amount rests on prices of the starter workbook.
func (s sheet) examplePrices() []core.Row {
	if !s.Site.Summary.ExamplePrices {
		return nil
	}
	return s.paragraph(s.say("example-prices"), bodyStyle)
}

// costless says which heated zones have no cost: for want of a winter, or of a price alone.
func (s sheet) costless() []core.Row {
	var rows []core.Row
	said, zones := groups(s.Site.Outcomes, func(o calc.Outcome) (string, bool) {
		switch {
		case priced(o) || o.Zone.Slab.Stage == calc.ExistingUnheated:
			return "", false
		case len(o.Seasons) == 0:
			return "no-winter", true
		}
		return "no-price", true
	})
	for _, why := range said {
		rows = append(rows, s.paragraph(s.say(why, finding.Words("zones", s.names(zones[why]))), bodyStyle)...)
	}
	return rows
}

// decide lists what a person must decide before anything is built, and what was decided.
func (s sheet) decide() []core.Row {
	rows := s.part(s.say("decide"))
	shown, more := 0, 0
	for _, f := range s.findings() {
		switch {
		case !f.decide:
		case shown == decisions:
			more++
		default:
			shown++
			rows = append(rows, s.bullet(s.whose(f)+f.what+" "+f.do)...)
		}
	}
	if shown == 0 {
		rows = append(rows, s.paragraph(s.say("nothing-open"), bodyStyle)...)
	}
	if more > 0 {
		rows = append(rows, s.paragraph(s.say("more-findings", finding.Value("count", float64(more), units.Count), finding.Value("chapter", float64(s.chapterOf("findings")), units.Count)), bodyStyle)...)
	}
	said, zones := groups(s.Site.Outcomes, func(o calc.Outcome) (string, bool) { return o.Zone.Money.Decision, o.Zone.Money.Decision != "" })
	for _, d := range said {
		rows = append(rows, s.bullet(s.say("decided", finding.Words("zones", s.names(zones[d])), finding.Words("decision", d)))...)
	}
	return rows
}

// whose names the zones of a finding where the site has others.
func (s sheet) whose(f told) string {
	if len(f.zones) == 0 || len(s.Site.Outcomes) == 1 {
		return ""
	}
	return s.zonesTitle(len(f.zones), strings.Join(f.zones, ", ")) + ": "
}
