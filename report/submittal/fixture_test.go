package submittal

import (
	"testing"

	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/internal/sample"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// view is the torture site: three zones, one failed, long names in several scripts, an emoji, and what else the options ask.
type view struct {
	system  units.System
	noPrice bool
	plain   bool // a site without oddities
	zones   int  // further copies of the first zone
}

func (o view) make(t testing.TB) report.View {
	t.Helper()
	w, err := words.Load(templates.FS(), "en", show.Style{Units: o.system, Currency: "CAD", DecimalMark: "."})
	require.NoError(t, err)
	v := report.View{Words: w, Program: "thawbook 0.1.0", Site: sample.Site(0)}
	v.Settings = calc.Settings{Units: o.system, Currency: "CAD", Project: "Winter access 2026", PreparedFor: "Harbour Trust", PreparedBy: "Design office", Revision: "B", IssueDate: "2026-03-04", Country: "Canada"}
	v.Site.Site.Name = "Clinic North"
	out := v.Site.Outcomes
	if !o.plain {
		v.Site.Site.Name = "Clínica Ąžuolynė «Ωμέγα» – Снежная улица 🏥 Übergrößenträgerstraße"
		v.Settings.Exclusions = "Structure, drains, waterproofing and the power supply are by others. 道路"
		out[0].Zone.Ref.Address = "12 Łąkowa\tStreet, Kraków 漢字 ﬁ"
		out[0].Zone.Ref.ZoneName = "Donaudampfschifffahrtsgesellschaftskapitänswitwenrentenauszahlungsstelle_walk_in_front_of_the_entrance"
		out[1].Zone.Ref.ZoneName = "Въезд для скорой помощи, верхняя площадка и пандус вдоль здания №\u00a04"
	}
	enrich(&out[0])
	enrich(&out[1])
	failed := sample.Bare(out[0].Zone)
	failed.Zone.Ref.ZoneID, failed.Zone.Ref.ZoneName = "3", "Loading dock"
	failed.Findings = []finding.Finding{finding.New(finding.Error, "missing-input", "station", finding.Words("near", "Burlington (12 km)"))}
	failed.Findings[0].Zone, failed.Findings[0].At = "3", finding.Cell{Sheet: "Sites", Ref: "F12", Row: 12, Col: 6}
	out = append(out, failed)
	for range o.zones {
		out = append(out, out[0])
	}
	if o.noPrice {
		for i := range out {
			out[i].Costs = nil
		}
		v.Site.Summary.YearlyCost, v.Site.Summary.Winter, v.Site.Summary.ExamplePrices = units.Maybe[cost.Money]{}, [3]units.Maybe[cost.Money]{}, false
	}
	v.Site.Outcomes = out
	v.Site.Summary.Findings = nil
	for i := range out {
		v.Site.Summary.Findings = append(v.Site.Summary.Findings, out[i].Findings...)
	}
	v.Tables = tables(w)
	return v
}

// enrich gives an outcome reasons, rejected kits and a checklist from the texts, and a warning.
func enrich(o *calc.Outcome) {
	o.Sensing = &sensing.Choice{Kit: []sensing.Device{sensing.AerialDetector, sensing.SlabSensor}, Start: sensing.StartDetector, Stop: sensing.StopTimer, OutdoorReset: true,
		Strategy: string(season.AerialSlab), LeadM: 18.5, Controller: "Controller A",
		Reasons: []sensing.Reason{{Code: "simplest-kit", Facts: []string{"stage", "housing"}}}, Rejected: []sensing.Rejected{{Kit: "in-pavement detector", Code: "simplest-kit"}}}
	snowed(o)
	warning := finding.New(finding.Warning, "survey-first", "slab_thickness")
	warning.Zone, warning.At = o.Zone.Ref.ZoneID, finding.Cell{Sheet: "Sites", Ref: "AB8", Row: 8, Col: 28}
	o.Findings = append([]finding.Finding{finding.New(finding.Warning, "one-typical-year", "station", finding.Words("name", "Burlington"))}, warning)
	o.Zone.Place.WindFactor, o.Zone.Service.DesignMargin = 1, 1.1
	o.Zone.Service.SnowFree, o.Zone.Service.Percentile = units.Some(0.5), units.Some(95.0)
}

// tables match every caution and topic that has a text, so that all of them are set once.
func tables(w *words.Words) report.Tables {
	table := func(name string) facts.Table {
		var t facts.Table
		for _, code := range w.Codes(name) {
			t.Rows = append(t.Rows, facts.Row{Effects: map[string]string{facts.Code: code}})
		}
		return t
	}
	return report.Tables{Cautions: table(words.Cautions), Topics: table(words.Topics)}
}
