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
	CodeRenamed      finding.Code = "compared-with-renamed-workbook"
	CodeOtherRecord  finding.Code = "record-of-another-workbook"
)

// sameZones is the share of the zones of the smaller of two workbooks from which on one is taken for the other under a new name.
const sameZones = 0.5

// lastRun reads the record that an earlier run left in the output folder; nil without one. A workbook with a new name is compared too, as long as it
// has the zones of the old one: people rename their workbooks from version to version. What can't be read is no run before.
func (d *documents) lastRun() *record.Results {
	data, err := d.out.Read(recordName)
	if err != nil {
		return nil
	}
	before, err := record.Read(bytes.NewReader(data))
	if err != nil {
		return nil
	}
	was, is := finding.Words("before", before.Input.File), finding.Words("file", filepath.Base(d.input))
	switch {
	case plainName(before.Input.File) == plainName(d.input):
	case d.hasZonesOf(before):
		d.found = append(d.found, finding.New(finding.Info, CodeRenamed, "", was, is))
	default:
		d.found = append(d.found, finding.New(finding.Warning, CodeOtherRecord, "", was, is))
		return nil
	}
	return &before
}

// hasZonesOf says whether the workbook that was read is most likely the one of a record: at least half of the zones of the smaller one are in both.
func (j *job) hasZonesOf(before record.Results) bool {
	known := map[[2]string]bool{}
	for _, z := range before.Zones {
		known[[2]string{z.Site, z.Zone}] = true
	}
	zones, both := 0, 0
	for _, s := range j.book.Sites {
		for _, z := range s.Zones {
			zones++
			if known[[2]string{z.Ref.SiteID, z.Ref.ZoneID}] {
				both++
			}
		}
	}
	return both > 0 && float64(both) >= sameZones*float64(min(zones, len(before.Zones)))
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
