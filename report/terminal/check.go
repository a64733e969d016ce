package terminal

import (
	"encoding/json"
	"io"
	"strings"

	"thawbook/calc/finding"
	"thawbook/report"
	"thawbook/report/words"
)

// Counts is how much of a workbook was read.
type Counts struct {
	Sites       int `json:"sites"`
	Zones       int `json:"zones"`
	NotIncluded int `json:"not_included"`
}

// Check lists what is wrong with a workbook, heaviest first, and ends with a line of counts.
func Check(w io.Writer, texts *words.Words, list []finding.Finding, c Counts) error {
	p := &page{w: w}
	merged := report.Merge(list)
	var counts [finding.Accepted + 1]int
	for _, f := range merged {
		counts[f.Severity]++
	}
	for _, same := range alike(texts, merged) {
		p.finding(texts, same[0])
		p.also(texts, same[1:])
	}
	if len(merged) > 0 {
		p.line("")
	}
	p.text(0, texts.Say("check-read", number(texts, "sites", c.Sites), number(texts, "zones", c.Zones), number(texts, "excluded", c.NotIncluded)))
	p.text(0, texts.Say("check-counts", number(texts, "errors", counts[finding.Error]), number(texts, "warnings", counts[finding.Warning]),
		number(texts, "notes", counts[finding.Info]), number(texts, "accepted", counts[finding.Accepted])))
	return p.err
}

// severityWidth is the width of the column that says how much a finding weighs.
const severityWidth = 9

// finding writes one finding: where and what, then what to do.
func (p *page) finding(texts *words.Words, f finding.Finding) {
	what, do := texts.Finding(f)
	const place = 26
	rest := lineWidth - severityWidth - place - 4
	if f.Count > 1 {
		what += " " + texts.Say("zones-touched", number(texts, "count", f.Count))
	}
	p.row(0, column{width: severityWidth, text: f.Severity.String()}, column{width: place, text: where(f)}, column{width: rest, text: what})
	if do != "" {
		zone := zoneOf(f)
		if zone == where(f) {
			zone = ""
		}
		p.row(severityWidth+2, column{width: place, text: zone}, column{width: rest, text: "→ " + do})
	}
}

// alike puts findings with the same words together, in the order of the first of each.
func alike(texts *words.Words, list []finding.Finding) [][]finding.Finding {
	type told struct {
		severity finding.Severity
		code     finding.Code
		what     string
	}
	var out [][]finding.Finding
	at := map[told]int{}
	for _, f := range list {
		what, _ := texts.Finding(f)
		key := told{f.Severity, f.Code, what}
		i, found := at[key]
		if !found {
			i = len(out)
			at[key], out = i, append(out, nil)
		}
		out[i] = append(out[i], f)
	}
	return out
}

// mostPlaces is how many further places of the same words are named.
const mostPlaces = 12

// also names the further places of a finding that was just told.
func (p *page) also(texts *words.Words, rest []finding.Finding) {
	if len(rest) == 0 {
		return
	}
	var places []string
	for _, f := range rest[:min(len(rest), mostPlaces)] {
		places = append(places, where(f))
	}
	text := texts.Say("check-also", finding.Words("places", strings.Join(places, ", ")))
	if more := len(rest) - mostPlaces; more > 0 {
		text += " " + texts.Say("check-more", number(texts, "more", more))
	}
	p.text(severityWidth+2, text)
}

// where is the cell of a finding, as people write it, or its zone where it has none.
func where(f finding.Finding) string {
	switch {
	case f.At.Sheet != "" && f.At.Ref != "":
		return f.At.Sheet + "!" + f.At.Ref
	case f.At.Sheet != "":
		return f.At.Sheet
	}
	return zoneOf(f)
}

func zoneOf(f finding.Finding) string {
	if f.Zone == "" {
		return f.Site
	}
	return f.Site + "/" + f.Zone
}

// entry is a finding for other programs.
type entry struct {
	Severity string `json:"severity"`
	Code     string `json:"code"`
	Sheet    string `json:"sheet"`
	Cell     string `json:"cell"`
	Site     string `json:"site"`
	Zone     string `json:"zone"`
	Message  string `json:"message"`
	Fix      string `json:"fix"`
	Count    int    `json:"count"`
}

func entries(texts *words.Words, list []finding.Finding) []entry {
	out := []entry{}
	for _, f := range report.Merge(list) {
		what, do := texts.Finding(f)
		out = append(out, entry{f.Severity.String(), string(f.Code), f.At.Sheet, f.At.Ref, f.Site, f.Zone, what, do, f.Count})
	}
	return out
}

// CheckJSON writes the same for other programs.
func CheckJSON(w io.Writer, texts *words.Words, list []finding.Finding, c Counts) error {
	return writeJSON(w, struct {
		Counts
		Findings []entry `json:"findings"`
	}{c, entries(texts, list)})
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// number returns an Arg that is a count.
func number(texts *words.Words, name string, n int) finding.Arg {
	return finding.Words(name, texts.Show.Plain(float64(n), 0))
}
