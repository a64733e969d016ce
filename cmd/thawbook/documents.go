package main

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/ingest/columns"
	"thawbook/report"
	"thawbook/report/record"
	"thawbook/report/sheets"
	"thawbook/report/terminal"
)

// documents are what a run writes beside the PDFs. They are filled as sites leave in order; of a site only what is listed here is kept.
type documents struct {
	*job
	home       *outdir.Dir // where the workbook goes
	sheets     *sheets.Writer
	recordFile *outdir.File
	record     *record.Writer
	portfolio  *portfolio.Portfolio
	statuses   map[string]int
	listed     []document
	estate     document // the PDF of all sites
	found      []finding.Finding
	partial    bool // a zone has errors or is incomplete
	before     *record.Results
	unreached  map[string]bool // sites that an interrupted run did not come to
	keep       bool            // a person has worked on the workbook of results that is there
}

// begin opens the documents. On an error it leaves nothing open.
func (j *job) begin() (d *documents, err error) {
	d = &documents{job: j, home: j.out, portfolio: portfolio.New(j.book.Settings.Currency), statuses: map[string]int{}, found: j.book.Findings}
	defer func() {
		if err != nil {
			d.close()
		}
	}()
	d.before = d.lastRun()
	if err := d.openBook(); err != nil {
		return d, err
	}
	if d.recordFile, err = j.out.Create(recordName); err != nil {
		return d, err
	}
	d.record = record.New(d.recordFile, record.Head{Program: record.Program{Name: programName, Version: Version},
		Currency: j.book.Settings.Currency, Input: j.inputFiles(), Settings: settingsOf(j.book), Limit: report.TermsOf(j.book.Settings).Limit, Prices: pricesOf(j.book), Words: j.texts, Before: d.before})
	return d, nil
}

// openBook opens the workbook of results. The one that was read is never replaced by one that lacks its sheets.
func (d *documents) openBook() (err error) {
	source := d.input
	if d.separate {
		source = ""
	}
	if d.sheets, err = sheets.Create(source, sheets.Head{Settings: d.book.Settings, Headings: columns.Headings(), Words: d.texts, Program: programName + " " + Version}); err != nil {
		return d.unwritten(err)
	}
	told := d.sheets.Findings()
	alone := slices.IndexFunc(told, func(f finding.Finding) bool { return f.Code == sheets.CodeResultsSeparate })
	switch {
	case d.inPlace && alone >= 0:
		return d.misuse("usage-in-place-impossible", append(told[alone].Args, finding.Words("file", d.input))...)
	case d.separate || alone >= 0:
		d.results = strings.TrimSuffix(d.results, filepath.Ext(d.results)) + workbookEnding // it holds no macros
	}
	if !d.inPlace {
		if d.out.Is(d.results, d.input) {
			return d.misuse("usage-own-input", finding.Words("file", d.input))
		}
		d.keepWork()
		return nil
	}
	if d.home, err = outdir.Open(filepath.Dir(d.input)); err != nil {
		return err
	}
	d.halts.add(d.home.Halt)
	return nil
}

// inputFiles names what was read.
func (j *job) inputFiles() record.Input {
	in := record.Input{File: filepath.Base(j.input), SHA256: j.book.SHA256, Texts: fingerprint(j.files)}
	for _, f := range j.book.Files {
		in.Files = append(in.Files, record.File{Name: f.File, SHA256: f.SHA256})
	}
	return in
}

// close lets go of what is open, and leaves nothing half written.
func (d *documents) close() {
	if d.recordFile != nil {
		d.recordFile.Discard()
	}
	if d.sheets != nil {
		d.sheets.Close()
	}
	if d.home != nil && d.home != d.out {
		d.home.Close()
	}
}

// add takes a site in.
func (d *documents) add(site done) error {
	s := site.outcome.Summary
	d.judgeRevision(site.outcome.Site.ID, d.record.Site(site.outcome, site.pdf.link()))
	if entry, included := s.Portfolio(); included {
		d.portfolio.Add(entry)
	}
	d.statuses[s.Status]++
	d.found = append(d.found, s.Findings...)
	d.listed = append(d.listed, site.pdf)
	d.partial = d.partial || s.Errors > 0 || s.Incomplete > 0
	return d.unwritten(d.sheets.Site(site.outcome, d.fromBook(site.pdf.link())))
}

// fromBook returns the path of a PDF as the workbook links to it.
func (d *documents) fromBook(link string) string {
	if link == "" || !d.inPlace {
		return link
	}
	target := d.out.Path(link)
	from, errFrom := filepath.Abs(filepath.Dir(d.input))
	to, errTo := filepath.Abs(target)
	if errFrom == nil && errTo == nil {
		if short, err := filepath.Rel(from, to); err == nil {
			target = short
		}
	}
	return filepath.ToSlash(target)
}

// notReached names the sites that an interrupted run did not come to.
func (d *documents) notReached(sites []calc.Site, reached []bool) {
	d.unreached = map[string]bool{}
	for i, s := range sites {
		if !reached[i] {
			d.unreached[s.ID] = true
			f := finding.New(finding.Error, CodeNotReached, "", finding.Words("site", s.ID))
			f.Site, f.At = s.ID, d.book.Locate(s.ID, "", "")
			d.found = append(d.found, f)
		}
	}
}

// finish puts the documents in place: the workbook, the transmittal, and the record last, which is the receipt of all.
func (d *documents) finish() error {
	err := d.publishPortfolio()
	if err != nil {
		return err
	}
	if d.found, err = d.sheets.Complete(sheets.Basis{Files: d.fingerprints()}, d.record.Changes(d.unreached), d.found); err != nil {
		return d.unwritten(err)
	}
	if err := d.sheets.Finish(d.found); err != nil {
		return d.unwritten(err)
	}
	book, err := d.writeBook()
	if err != nil {
		return err
	}
	if _, err := d.out.Write(transmittal, func(w io.Writer) error { return writeTransmittal(w, append(d.listed, d.estate)) }); err != nil {
		return err
	}
	if err := d.record.Close(record.Tail{Findings: d.found, Book: &record.Output{File: filepath.Base(d.bookPath()), SHA256: book.SHA256}}); err != nil {
		return &outdir.Error{Path: d.out.Path(recordName), Err: err}
	}
	_, err = d.recordFile.Commit()
	return err
}

// fingerprints are the lines that tell on which values the results rest. The file's own digest is not among them: a workbook that holds it would
// have another one.
func (d *documents) fingerprints() []sheets.Line {
	b := d.book
	topic := d.texts.Say("topic-input")
	lines := []sheets.Line{
		{Topic: topic, Name: d.texts.Say("run-values-sites"), Text: fingerprint(b.Sites)},
		{Topic: topic, Name: d.texts.Say("run-values-settings"), Text: fingerprint(b.Settings)},
		{Topic: topic, Name: d.texts.Say("run-values-climate"), Text: fingerprint(b.Stations)},
		{Topic: topic, Name: d.texts.Say("run-values-money"), Text: fingerprint(b.Energies, b.Costs, b.Parts)},
		{Topic: topic, Name: d.texts.Say("run-values-texts"), Text: fingerprint(d.files)},
	}
	for _, f := range b.Files {
		lines = append(lines, sheets.Line{Topic: topic, Name: f.File, Text: f.SHA256})
	}
	return lines
}

// writeBook writes the result sheets: into a copy of the workbook, or into the workbook itself with the old one kept beside it.
func (d *documents) writeBook() (outdir.Receipt, error) {
	name := d.results
	if d.inPlace {
		name = filepath.Base(d.input)
	}
	if d.inPlace || d.keep {
		if err := d.home.Keep(name, keptNames(name)); err != nil {
			return outdir.Receipt{}, err
		}
	}
	return d.home.Write(name, func(w io.Writer) error {
		_, err := d.sheets.WriteTo(w)
		return err
	})
}

// bookPath returns where the workbook goes.
func (j *job) bookPath() string {
	if j.inPlace {
		return j.input
	}
	return j.out.Path(j.results)
}

// unwritten says that the workbook can't be written.
func (j *job) unwritten(err error) error {
	if err == nil {
		return nil
	}
	return &outdir.Error{Path: j.bookPath(), Err: err}
}

// status returns the exit status of a run that came to its end.
func (d *documents) status() int {
	if d.partial || finding.Worst(d.found) == finding.Error {
		return exitPartial
	}
	return exitOK
}

// receipt tells how the run ended: errors to standard error, the last lines to standard output.
func (d *documents) receipt() error {
	d.tellErrors(d.texts, d.found)
	files := []string{d.bookPath()}
	if slices.ContainsFunc(d.listed, document.there) {
		files = append(files, d.out.Path(submittals))
	}
	if d.estate.there() {
		files = append(files, d.out.Path(d.estate.path))
	}
	return terminal.Receipt(d.stdout, d.texts, terminal.Run{Sites: d.statuses, Total: d.portfolio.All(), Findings: d.found, Files: append(files, d.out.Path(recordName))})
}
