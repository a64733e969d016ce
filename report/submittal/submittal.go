// Package submittal writes the PDF of a site: what, how much, what it costs, what must be decided, then the calculation behind it.
// The document is a list of sections; each is a file that turns a View into rows.
package submittal

import (
	"errors"
	"fmt"
	"time"

	"github.com/johnfercher/maroto/v2"
	"github.com/johnfercher/maroto/v2/pkg/config"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	"github.com/johnfercher/maroto/v2/pkg/props"
	"github.com/phpdave11/gofpdf"

	"thawbook/report"
)

// Document is a finished PDF.
type Document struct {
	Bytes []byte
	Pages int
}

// Section is a part of the document. Name is the code of its heading.
type Section struct {
	Name    string
	Applies func(report.View) bool
	Rows    func(report.View) []core.Row
}

// sections is the document, in order.
func sections() []Section {
	return []Section{
		{"first", always, firstRows},
		{"basis", always, basisRows},
		{"load", hasOutcome, loadRows},
		{"slab", hasSlab, slabRows},
		{"reset", hasReset, resetRows},
		{"sensing", hasSensing, sensingRows},
		{"sequence", hasOperation, sequenceRows},
		{"screen", hasScreen, screenRows},
		{"checklist", hasChecks, checkRows},
		{"season", hasSeason, seasonRows},
		{"alternatives", hasAlternatives, alternativeRows},
		{"sources", hasSources, sourceRows},
		{"cautions", hasCautions, cautionRows},
		{"findings", hasFindings, findingRows},
		{"attachments", hasAttachments, attachmentRows},
		{"review", always, reviewRows},
	}
}

// fixedDate stands in the file where the issue date is blank or no date: the clock never reaches a document.
var fixedDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func init() {
	gofpdf.SetDefaultCatalogSort(true) // else the order of fonts follows a map
	gofpdf.SetDefaultModificationDate(fixedDate)
}

// Render writes the document of a site. The same view gives the same bytes. A panic below is an error of this document alone.
func Render(v report.View) (doc Document, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, err = Document{}, fmt.Errorf("the document of site %q could not be made: %v", v.Site.Site.ID, r)
		}
	}()
	s := on(v)
	return s.print(s.say("document-title")+": "+s.siteName(), s.rows())
}

// print sets rows on pages, under running heads.
func (s sheet) print(title string, rows []core.Row) (Document, error) {
	m := maroto.New(s.config(title))
	pages := 0
	err := errors.Join(m.RegisterHeader(frame{sheet: s, pages: &pages}.running(headerHeight)),
		m.RegisterFooter(frame{sheet: s, pages: &pages, foot: true}.running(footerHeight)))
	if err != nil {
		return Document{}, err
	}
	pages = flow(m, rows, s.paper.room())
	made, err := m.Generate()
	if err != nil {
		return Document{}, err
	}
	return Document{Bytes: made.GetBytes(), Pages: pages}, nil
}

// rows returns the rows of all sections that apply; each but the first begins with its heading. The contents end the first, and the review never stands alone.
func (s sheet) rows() []core.Row {
	var out []core.Row
	contents := s.entries()
	next := contents
	for i, section := range sections() {
		if !section.Applies(s.View) {
			continue
		}
		if section.Name == "review" {
			follow(out)
		}
		if i > 0 {
			out = append(out, s.chapter(next[0])...)
			next = next[1:]
		}
		out = append(out, section.Rows(s.View)...)
		if i == 0 {
			out = append(out, s.contents(contents)...)
		}
		if section.Name != "attachments" {
			out = append(out, s.pictures(s.attachedTo(section.Name))...)
		}
	}
	return out
}

func (s sheet) config(title string) *entity.Config {
	p := s.paper
	return config.NewBuilder().
		WithDimensions(p.width, p.height).
		WithLeftMargin(p.side).WithRightMargin(p.side).WithTopMargin(p.top).WithBottomMargin(p.bottom).
		WithMaxGridSize(grid).
		WithCustomFonts(customFonts()).
		WithDefaultFont(&props.Font{Family: family, Size: bodyStyle.size}).
		WithCompression(true).
		WithTitle(clean(title), true).
		WithAuthor(clean(s.Settings.PreparedBy), true).
		WithCreator(clean(s.Program), true).
		WithSubject(clean(s.Settings.Project), true).
		WithCreationDate(issued(s.issue().Date)).
		Build()
}

// issued returns the issue date, or the fixed date when it is none.
func issued(text string) time.Time {
	for _, layout := range []string{time.DateOnly, "2 January 2006", "January 2, 2006", "2.1.2006", "1/2/2006"} {
		if t, err := time.Parse(layout, text); err == nil {
			return t
		}
	}
	return fixedDate
}

func always(report.View) bool       { return true }
func hasOutcome(v report.View) bool { return len(v.Site.Outcomes) > 0 }
