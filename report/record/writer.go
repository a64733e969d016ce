package record

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/words"
)

// Head is what a record begins with.
type Head struct {
	Program  Program
	Currency string
	Input    Input
	Settings Inputs
	Limit    units.Maybe[cost.Money] // what may be spent on first costs
	Prices   []Price
	Words    *words.Words
	Before   *Results // the run before, to tell what moved; nil without one
}

// Tail is what a record ends with.
type Tail struct {
	Findings []finding.Finding
	Book     *Output // the workbook of results
}

// Writer writes a record. Zones leave as they come; of a site only its line is kept.
type Writer struct {
	maker
	out       *bufio.Writer
	err       error
	zones     int
	excluded  []NotIncluded
	sites     []Site
	options   []Alternative
	portfolio *portfolio.Portfolio
	compared  *comparison
}

// New begins a record. Errors of w are told by Close.
func New(w io.Writer, head Head) *Writer {
	r := &Writer{maker: maker{words: head.Words, currency: head.Currency}, out: bufio.NewWriterSize(w, 64<<10), portfolio: portfolio.New(head.Currency), compared: compare(head.Before, head.Currency)}
	if head.Input.Files == nil {
		head.Input.Files = []File{}
	}
	r.text("{\n")
	r.key("schema", Schema)
	r.key("program", head.Program)
	r.key("currency", head.Currency)
	r.key("input", head.Input)
	r.key("settings", head.Settings)
	r.key("budget_limit", r.amount(head.Limit))
	list(r, "prices", head.Prices)
	r.text(`"zones": [`)
	return r
}

// Site writes a site's zones and returns what moved since the run before. pdf is its document, relative to the record; empty without one.
func (w *Writer) Site(so calc.SiteOutcome, pdf string) []report.Change {
	var moved []report.Change
	for _, o := range so.Outcomes {
		z := w.zone(o)
		moved = append(moved, w.compared.zone(z, so.Summary.Revision)...)
		w.element(w.zones, z)
		w.zones++
	}
	for _, x := range so.Excluded {
		w.excluded = append(w.excluded, NotIncluded{Site: x.Ref.SiteID, Zone: x.Ref.ZoneID, Why: w.words.Say(x.Why)})
	}
	for _, a := range so.Alternatives {
		w.options = append(w.options, w.alternative(so.Site.ID, a))
	}
	s := so.Summary
	if entry, included := s.Portfolio(); included {
		w.portfolio.Add(entry)
	}
	w.sites = append(w.sites, w.site(s, pdf, so.Plants))
	return moved
}

// Changes returns all that moved since the run before. Sites that this run did not reach did not move.
func (w *Writer) Changes(unreached map[string]bool) []report.Change {
	if w.compared == nil {
		return nil
	}
	w.compared.gone(unreached)
	clear(w.compared.zones)
	return w.compared.found
}

// Close ends the record and returns the first error of all.
func (w *Writer) Close(tail Tail) error {
	w.text("\n],\n")
	list(w, "not_included", w.excluded)
	list(w, "sites", w.sites)
	list(w, "alternatives", w.options)
	list(w, "portfolio", w.totals())
	var changes []Change
	for _, c := range w.Changes(nil) {
		changes = append(changes, changeOf(c))
	}
	list(w, "changes", changes)
	w.key("workbook", tail.Book)
	var found []Finding
	for _, f := range report.Merge(tail.Findings) {
		found = append(found, w.finding(f))
	}
	w.text(`"findings": [`)
	for i, f := range found {
		w.element(i, f)
	}
	w.text("\n]\n}\n")
	if err := w.out.Flush(); w.err == nil {
		w.err = err
	}
	return w.err
}

func (w *Writer) totals() []PortfolioTotal {
	var out []PortfolioTotal
	for _, t := range w.portfolio.Totals() {
		for i, winter := range cost.Winters {
			line := PortfolioTotal{Sites: t.Sites, AreaM2: Number{t.AreaM2}, Winter: string(winter), Total: w.amount(t.Design.Winter[i]), SitesWithoutCost: t.Design.Without}
			if !t.All {
				line.Region = &t.Region
			}
			out = append(out, line)
		}
	}
	return out
}

func list[T any](w *Writer, key string, all []T) {
	w.text(`"` + key + `": [`)
	for i, v := range all {
		w.element(i, v)
	}
	w.text("\n],\n")
}

// element writes the i-th of a list on a line of its own.
func (w *Writer) element(i int, v any) {
	if i > 0 {
		w.text(",")
	}
	w.text("\n")
	w.json(v)
}

func (w *Writer) key(name string, v any) {
	w.text(`"` + name + `": `)
	w.json(v)
	w.text(",\n")
}

func (w *Writer) json(v any) {
	b, err := plainJSON(v)
	if err != nil && w.err == nil {
		w.err = err
	}
	w.text(string(b))
}

func (w *Writer) text(s string) {
	if _, err := w.out.WriteString(s); err != nil && w.err == nil {
		w.err = err
	}
}

// OtherSchema says that a file is a record of another layout.
type OtherSchema struct{ Schema string }

func (e *OtherSchema) Error() string {
	return fmt.Sprintf("schema %q is not %s, which this version of the program reads", e.Schema, Schema)
}

// Read reads a record back. A record of another layout is an *OtherSchema.
func Read(r io.Reader) (Results, error) {
	var out Results
	if err := json.NewDecoder(r).Decode(&out); err != nil {
		return Results{}, fmt.Errorf("not a record of results: %w", err)
	}
	if out.Schema != Schema {
		return Results{}, &OtherSchema{out.Schema}
	}
	return out, nil
}
