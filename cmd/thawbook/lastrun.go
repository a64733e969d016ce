package main

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"

	"thawbook/calc/finding"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/report"
	"thawbook/report/record"
)

// The codes of what can be told about the run before.
const (
	CodeSameRevision finding.Code = "result-changed-same-revision"
	CodeBookKept     finding.Code = "results-workbook-kept"
)

// lastRun reads the record that an earlier run of this workbook left in the output folder; nil without one. What can't be read, or is of another
// workbook, is no run before.
func (j *job) lastRun() *record.Results {
	data, err := j.out.Read(recordName)
	if err != nil {
		return nil
	}
	before, err := record.Read(bytes.NewReader(data))
	if err != nil || plainName(before.Input.File) != plainName(j.input) {
		return nil
	}
	return &before
}

// plainName returns a workbook's name without its ending and without what we add to it: the results of a workbook are run again like itself.
func plainName(file string) string {
	name := filepath.Base(file)
	return strings.ToLower(withoutInfix(strings.TrimSuffix(name, filepath.Ext(name))))
}

// keepWork sees to it that a workbook of results on which a person has worked since it was written is not lost.
func (d *documents) keepWork() {
	data, err := d.out.Read(d.results)
	if err != nil {
		return // none is there
	}
	if d.before != nil && d.before.Workbook != nil && d.before.Workbook.SHA256 == outdir.Digest(data) {
		return
	}
	d.keep = true
	d.found = append(d.found, finding.New(finding.Info, CodeBookKept, "", finding.Words("file", d.results), finding.Words("kept", keptNames(d.results)(1))))
}

// judgeRevision warns of a site whose results moved under the revision that they were issued with.
func (d *documents) judgeRevision(site string, moved []report.Change) {
	i := slices.IndexFunc(moved, report.Change.SameRevision)
	if i < 0 {
		return
	}
	f := finding.New(finding.Warning, CodeSameRevision, "", finding.Words("site", site), finding.Words("revision", moved[i].Revision))
	f.Site, f.At = site, d.book.Locate(site, "", "")
	d.found = append(d.found, f)
}
