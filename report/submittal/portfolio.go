package submittal

import (
	"fmt"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/show"
)

// estate is an owner's sites on a paper.
type estate struct {
	sheet
	of report.Portfolio
}

// chapterOf is a part of the owner's document. Name is the code of its heading.
type chapterOf struct {
	name    string
	applies func(estate) bool
	rows    func(estate) []core.Row
}

// chaptersOfEstate is the owner's document behind its first page, in order.
func chaptersOfEstate() []chapterOf {
	return []chapterOf{
		{"portfolio-largest", func(e estate) bool { return len(e.of.Largest()) > 0 }, estate.largest},
		{"portfolio-plan", func(estate) bool { return true }, estate.changes},
		{"portfolio-decided", func(e estate) bool { return len(e.decided()) > 0 }, estate.decisions},
		{"portfolio-open", func(e estate) bool { return len(e.of.Open()) > 0 }, estate.open},
		{"portfolio-terms", func(estate) bool { return true }, estate.terms},
	}
}

// RenderPortfolio writes the document of all sites: what they cost, and which to change first. Of the view, settings, words, program and logo count.
func RenderPortfolio(v report.View, p report.Portfolio) (doc Document, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, err = Document{}, fmt.Errorf("the document of the portfolio could not be made: %v", r)
		}
	}()
	all := p.All()
	v.Site = calc.SiteOutcome{Site: calc.Site{Name: v.Words.Say("pdf-portfolio-title")},
		Summary: calc.Summary{AreaM2: all.AreaM2, TotalW: all.TotalW, Winter: all.Design.Winter, YearlyCost: all.Design.Winter[1], ExamplePrices: all.Example}}
	e := estate{on(v), p}
	rows := e.firstPage()
	number := 0
	for _, c := range chaptersOfEstate() {
		if c.applies(e) {
			number++
			rows = append(rows, e.chapter(&entry{title: fmt.Sprintf("%d  %s", number, e.say(c.name))})...)
			rows = append(rows, c.rows(e)...)
		}
	}
	return e.print(e.say("portfolio-document"), rows)
}

// firstPage is the title, what all sites come to, and what each region costs.
func (e estate) firstPage() []core.Row {
	all := e.of.All()
	name := e.Settings.Project
	if name == "" {
		name = e.say("portfolio-of")
	}
	rows := append(e.emblem(), e.heading(e.say("portfolio-document"), style{size: 8.5, grey: 85, most: 1}, -1, 1, 0)...)
	rows = append(rows, e.heading(name, titleStyle, 0, 1, 0)...)
	rows = append(rows, e.pairs([][2]string{
		{e.say("portfolio-sites"), e.count(all.Sites)}, {e.say("portfolio-zones"), e.count(all.Zones)},
		{e.say("prepared-for"), e.Settings.PreparedFor}, {e.say("prepared-by"), e.Settings.PreparedBy},
		{e.say("revision-label"), e.issue().Name}, {e.say("issue-date"), e.issue().Date},
	})...)
	rows = append(rows, e.figures()...)
	for _, text := range e.of.Lacks(e.Words) {
		rows = append(rows, e.paragraph(text, bodyStyle)...)
	}
	rows = append(rows, e.part(e.say("portfolio-by-region"))...)
	rows = append(rows, e.regions()...)
	rows = append(rows, e.paragraph(e.say("portfolio-columns")+" "+e.Words.Say("portfolio-severe"), noteStyle)...)
	if yearly := e.of.Yearly(e.Words); yearly != "" {
		rows = append(rows, e.paragraph(yearly+" "+e.of.Counted(e.Words), bodyStyle)...)
	}
	return append(rows, e.paragraph(e.of.Planned(e.Words), bodyStyle)...)
}

func (e estate) count(n int) string { return e.number(float64(n), units.Count) }

// regions are what each region costs a year, with a bar beside a typical winter.
func (e estate) regions() []core.Row {
	cols := []column{{title: e.say("region"), width: 21}, {title: e.say("portfolio-sites"), width: 6, right: true}, {title: e.unit("area", units.Area), width: 9, right: true},
		{title: e.priced("portfolio-mild"), width: 11, right: true}, {title: e.priced("portfolio-typical"), width: 11, right: true}, {width: 10, bar: true}, {title: e.priced("portfolio-severe"), width: 11, right: true},
		{title: e.priced("portfolio-now"), width: 10, right: true}, {title: e.priced("portfolio-as-decided"), width: 11, right: true}}
	totals := e.of.Totals()
	most := 0.0
	for _, t := range totals[:len(totals)-1] {
		most = max(most, t.Design.Winter[1].Value.Main(e.Settings.Currency))
	}
	var rows []cells
	for _, t := range totals {
		b := bar{known: t.Design.Winter[1].Known && !t.All, share: t.Design.Winter[1].Value.Main(e.Settings.Currency) / max(most, 1e-9)}
		rows = append(rows, cells{bold: t.All, bars: []bar{b}, texts: []string{report.RegionName(e.Words, t), e.count(t.Sites), e.bare(t.AreaM2, units.Area), e.rounded(t.Design.Winter[0]), e.rounded(t.Design.Winter[1]), "",
			e.rounded(t.Design.Winter[2]), e.rounded(t.Now.Winter[1]), e.rounded(t.Budget.Winter[1])}})
	}
	return e.table(cols, rows)
}

// largest are the sites that cost most, drawn as bars.
func (e estate) largest() []core.Row {
	list := e.of.Largest()
	cols := []column{{title: e.say("portfolio-site"), width: 46}, {title: e.say("region"), width: 20}, {title: e.priced("yearly-cost"), width: 12, right: true}, {width: 22, bar: true}}
	most, sum := float64(list[0].Design[1].Value), cost.Money(0)
	var rows []cells
	for _, s := range list {
		v := s.Design[1].Value
		sum += v
		rows = append(rows, cells{bars: []bar{{known: true, share: float64(v) / max(most, 1)}}, texts: []string{nameOf(s), or(s.Region), e.rounded(s.Design[1]), ""}})
	}
	out := e.table(cols, rows)
	whole(out)
	share := float64(sum) / max(float64(e.of.All().Design.Winter[1].Value), 1)
	return append(out, e.paragraph(e.say("portfolio-largest-note", finding.Value("share", share, units.Share)), noteStyle)...)
}

// nameOf names a site by its ID and its name.
func nameOf(s portfolio.Site) string {
	if s.Name == "" || s.Name == s.ID {
		return s.ID
	}
	return s.ID + "  " + s.Name
}

// changes are the plan within the budget limit and the ranking.
func (e estate) changes() []core.Row {
	var rows []core.Row
	if plan, made := e.of.Plan(); made && len(plan.Picks) > 0 {
		rows = append(rows, e.part(e.say("portfolio-within"))...)
		rows = append(rows, e.picks(plan.Picks)...)
	}
	ranking := e.of.Ranking()
	if len(ranking) == 0 {
		return append(rows, e.paragraph(e.say("portfolio-nothing"), bodyStyle)...)
	}
	rows = append(rows, e.part(e.say("portfolio-ranking"))...)
	rows = append(rows, e.lead(e.say("portfolio-ranking-note"), noteStyle)...)
	return append(rows, e.picks(ranking)...)
}

// mostListed is how many sites a list tells; the sheet Results Portfolio tells all.
const mostListed = 40

// picks are sites with what they would be changed to.
func (e estate) picks(list []portfolio.Pick) []core.Row {
	cols := []column{{title: e.say("portfolio-site"), width: 30}, {title: e.say("portfolio-change"), width: 26}, {title: e.priced("first-cost"), width: 12, right: true},
		{title: e.priced("portfolio-net"), width: 12, right: true}, {title: e.say("portfolio-ratio"), width: 8, right: true}, {title: e.priced("portfolio-saved"), width: 12, right: true}}
	var rows []cells
	for _, k := range list[:min(len(list), mostListed)] {
		ratio := show.NotAvailable
		if k.First > 0 {
			ratio = e.number(k.Ratio, units.Factor)
		}
		rows = append(rows, cells{texts: []string{nameOf(e.of.Site(k.Site)), k.Option, e.rounded(units.Some(k.First)), e.rounded(units.Some(k.Net)), ratio, e.rounded(k.Saved)}})
	}
	return append(e.table(cols, rows), e.more(len(list))...)
}

// more says how many sites a list leaves to the sheet.
func (e estate) more(of int) []core.Row {
	if of <= mostListed {
		return nil
	}
	return e.paragraph(e.say("portfolio-more", finding.Words("count", e.count(of-mostListed))), noteStyle)
}

// decided are the sites whose owner decided.
func (e estate) decided() []portfolio.Site {
	var out []portfolio.Site
	for _, s := range e.of.Sites() {
		if s.Decision != "" && s.Decision != portfolio.Open {
			out = append(out, s)
		}
	}
	return out
}

func (e estate) decisions() []core.Row {
	cols := []column{{title: e.say("portfolio-site"), width: 34}, {title: e.say("portfolio-decision"), width: 14}, {title: e.say("portfolio-change"), width: 26}, {title: e.priced("first-cost"), width: 13, right: true},
		{title: e.priced("portfolio-as-decided"), width: 13, right: true}}
	list := e.decided()
	var rows []cells
	for _, s := range list[:min(len(list), mostListed)] {
		rows = append(rows, cells{texts: []string{nameOf(s), s.Decision, s.Chosen, e.rounded(s.Spend), e.rounded(s.Budget[1])}})
	}
	return append(e.table(cols, rows), e.more(len(list))...)
}

// open are the sites that wait for a decision, with what they cost as they are.
func (e estate) open() []core.Row {
	cols := []column{{title: e.say("portfolio-site"), width: 46}, {title: e.say("region"), width: 26}, {title: e.priced("portfolio-now"), width: 14, right: true}, {title: e.priced("portfolio-typical"), width: 14, right: true}}
	list := e.of.Open()
	var rows []cells
	for _, s := range list[:min(len(list), mostListed)] {
		rows = append(rows, cells{texts: []string{nameOf(s), or(s.Region), e.rounded(s.Now[1]), e.rounded(s.Design[1])}})
	}
	out := append(e.dense(cols, rows), e.more(len(list))...)
	return append(out, e.paragraph(e.of.Counted(e.Words)+" "+e.say("portfolio-columns"), noteStyle)...)
}

// terms are what the amounts rest on, and what they are not.
func (e estate) terms() []core.Row {
	var rows []core.Row
	for _, text := range e.of.Terms.Sentences(e.Words) {
		rows = append(rows, e.bullet(text)...)
	}
	return append(rows, e.bullet(e.say("portfolio-review"))...)
}
