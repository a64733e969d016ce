package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"path"
	"slices"
	"strconv"

	"thawbook/calc/finding"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/ingest/columns"
	"thawbook/report"
	"thawbook/report/submittal"
)

// The codes of what can be told about a site's PDF.
const (
	CodePDFFailed finding.Code = "pdf-failed"
	CodePDFBefore finding.Code = "pdf-from-before"
)

// document is a site's PDF: where it belongs, and what is there.
type document struct {
	site, path string // path relative to the output folder
	wanted     bool   // by --site and --no-pdf
	revision   string // of the file that is there, as all below
	pages      int
	receipt    outdir.Receipt
	print      string // fingerprint of what it was made from
}

// there says whether a file is in place.
func (d document) there() bool { return d.receipt.SHA256 != "" }

// link returns the path of the file that is in place, empty without one.
func (d document) link() string {
	if !d.there() {
		return ""
	}
	return d.path
}

// forget says that no file is in place.
func (d *document) forget() { *d = document{site: d.site, path: d.path, wanted: d.wanted} }

// plan names the PDFs of all sites, and finds those of the run before that may stay.
func (j *job) plan(wanted []bool) {
	sites := j.book.Sites
	parts := make([]outdir.NameParts, len(sites))
	for i, s := range sites {
		parts[i] = outdir.NameParts{Project: j.book.Settings.Project, Site: s.ID, Name: s.Name, Revision: s.Issue(j.book.Settings).Name}
	}
	before := j.before()
	j.pdfs = make([]document, len(sites))
	for i, name := range outdir.Names(j.book.Settings.FileName, parts) {
		d := document{site: sites[i].ID, path: path.Join(submittals, name+".pdf"), wanted: wanted[i] && !j.noPDF}
		if old, listed := before[d.path]; listed && (j.onlyChanged || !d.wanted) && old.site == d.site && j.unchanged(old) {
			old.wanted = d.wanted
			d = old
		}
		j.pdfs[i] = d
	}
}

// unchanged says whether the file of the run before is still what was written.
func (j *job) unchanged(d document) bool {
	data, err := j.out.Read(d.path)
	return err == nil && outdir.Digest(data) == d.receipt.SHA256
}

// publish writes the PDF of a site, unless the one in place may stay.
func (j *job) publish(d *done) error {
	pdf := &d.pdf
	if len(d.outcome.Outcomes) == 0 {
		pdf.forget()
		return nil
	}
	if !pdf.wanted && !pdf.there() {
		return nil
	}
	print := fingerprint(j.basis, d.outcome, d.attached)
	switch {
	case pdf.there() && pdf.print == print:
		return nil
	case !pdf.wanted:
		d.tell(finding.New(finding.Warning, CodePDFBefore, "", finding.Words("pdf", pdf.path)))
		return nil
	}
	made, err := submittal.Render(report.View{Settings: j.book.Settings, Headings: columns.Headings(), Site: d.outcome, Words: j.texts, Tables: j.tables, Program: programName + " " + Version, Logo: j.logo, Attached: d.attached})
	if err != nil {
		return err
	}
	receipt, err := j.out.Write(pdf.path, func(w io.Writer) error {
		_, err := w.Write(made.Bytes)
		return err
	})
	pdf.revision, pdf.pages, pdf.receipt, pdf.print = d.outcome.Summary.Revision, made.Pages, receipt, print
	return err
}

// publishPortfolio writes the PDF of all sites. One that is not written must not stand there from a run before: it would be taken for this one. A failed
// one is a finding.
func (d *documents) publishPortfolio() error {
	d.estate = document{path: portfolioName}
	if d.noPDF || len(d.unreached) > 0 || d.portfolio.All().Sites == 0 {
		_ = d.out.Remove(portfolioName) // where it can't be removed, the transmittal does not list it
		return nil
	}
	settings := d.book.Settings
	made, err := submittal.RenderPortfolio(report.View{Settings: settings, Words: d.texts, Program: programName + " " + Version, Logo: d.logo},
		report.Portfolio{Portfolio: d.portfolio, Terms: report.TermsOf(settings)})
	if err != nil {
		_ = d.out.Remove(portfolioName)
		d.found = append(d.found, finding.New(finding.Error, CodePDFFailed, "", finding.Words("pdf", portfolioName), finding.Words("cause", err.Error())))
		return nil
	}
	d.estate.revision, d.estate.pages = settings.Revision, made.Pages
	d.estate.receipt, err = d.out.Write(portfolioName, func(w io.Writer) error {
		_, err := w.Write(made.Bytes)
		return err
	})
	return err
}

// transmittalHead is the heading row of transmittal.csv. The last column lets a later run see whether the content of a PDF has changed.
var transmittalHead = []string{"site", "pdf", "revision", "pages", "size", "sha256", "content"}

// writeTransmittal lists the PDFs in place.
func writeTransmittal(w io.Writer, list []document) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true // as the format's description asks, and spreadsheets expect
	rows := [][]string{transmittalHead}
	for _, d := range list {
		if d.there() {
			rows = append(rows, []string{d.site, d.path, d.revision, fmt.Sprint(d.pages), fmt.Sprint(d.receipt.Size), d.receipt.SHA256, d.print})
		}
	}
	return out.WriteAll(rows)
}

// before returns the PDFs that the transmittal of the run before lists, by path. One that is missing or damaged lists none: then all are written.
func (j *job) before() map[string]document {
	data, err := j.out.Read(transmittal)
	if err != nil {
		return nil
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(rows) == 0 || !slices.Equal(rows[0], transmittalHead) {
		return nil
	}
	list := map[string]document{}
	for _, r := range rows[1:] {
		pages, errPages := strconv.Atoi(r[3])
		size, errSize := strconv.ParseInt(r[4], 10, 64)
		if errPages == nil && errSize == nil {
			list[r[1]] = document{site: r[0], path: r[1], revision: r[2], pages: pages, receipt: outdir.Receipt{Size: size, SHA256: r[5]}, print: r[6]}
		}
	}
	return list
}
