package main

import (
	"context"
	"slices"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/cmd/thawbook/batch"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/report"
)

// CodeNotReached tells of a site that an interrupted run did not come to.
const CodeNotReached finding.Code = "site-not-reached"

// windowPerWorker is how many sites may wait, done or half done, for a slow one before them.
const windowPerWorker = 4

// job is one run: a workbook in, documents out.
type job struct {
	*program
	runOptions
	places
	*reading
	out   *outdir.Dir
	pdfs  []document // of every site: its name, whether it is wanted, what is there from the run before
	basis string     // fingerprint of what all PDFs rest on
}

// perform does the whole job and returns the exit status.
func (j *job) perform(ctx context.Context) (int, error) {
	if err := j.prepare(); err != nil {
		return 0, err
	}
	defer j.out.Close()
	docs, err := j.begin()
	if err != nil {
		return 0, err
	}
	defer docs.close()

	bar := j.newProgress(len(j.book.Sites))
	reached := make([]bool, len(j.book.Sites))
	for i, d := range batch.Ordered(ctx, indices(j.book.Sites), j.jobs, j.jobs*windowPerWorker, j.site) {
		reached[i] = true
		if err := docs.add(d); err != nil {
			return 0, err
		}
		j.logSite(bar, d)
		bar.step()
	}
	bar.clear()
	j.logWork()
	docs.notReached(j.book.Sites, reached)
	if err := docs.finish(); err != nil {
		return 0, err
	}
	status := docs.status()
	if slices.Contains(reached, false) {
		status = exitInterrupted
	}
	return status, docs.receipt()
}

// done is a site on its way from a worker to the documents.
type done struct {
	outcome  calc.SiteOutcome
	pdf      document
	attached []report.Attached
}

// site calculates a site and writes its PDF. A failed PDF is a finding of the site.
func (j *job) site(_ context.Context, i int) done {
	d := done{outcome: j.engine.Site(j.book.Sites[i]), pdf: j.pdfs[i]}
	d.outcome.Summary.Tell(j.found[d.outcome.Site.ID]...)
	var told []finding.Finding
	d.attached, told = j.pictures(d.outcome.Site)
	d.outcome.Summary.Tell(told...)
	for _, o := range d.outcome.Outcomes {
		j.locate(o.Findings)
	}
	j.locate(d.outcome.Summary.Findings) // the PDF names their cells
	d.outcome.Accept(j.book.Accepted)
	if err := j.publish(&d); err != nil {
		d.pdf.forget()
		d.tell(finding.New(finding.Error, CodePDFFailed, "", finding.Words("pdf", d.pdf.path), finding.Words("cause", err.Error())))
		_ = j.out.Remove(d.pdf.path) // an older one would be taken for this one; where it can't be removed, the finding stands
	}
	j.locate(d.outcome.Summary.Findings) // and what was told of the PDF
	d.attached = nil                     // a site may wait long for others
	return d
}

// tell adds a finding about a site's documents.
func (d *done) tell(f finding.Finding) {
	f.Site = d.outcome.Site.ID
	d.outcome.Summary.Tell(f)
}

func indices[T any](list []T) []int {
	out := make([]int, len(list))
	for i := range out {
		out[i] = i
	}
	return out
}
