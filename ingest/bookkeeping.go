package ingest

import (
	"slices"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/ingest/columns"
)

// revisions reads the revision table and gives each site its lines.
func (r *reader) revisions() error {
	return readSheet(r, columns.SheetRevisions, columns.Revisions(), func(v calc.Revision, row record) {
		if row.failed || v.Name == "" {
			return
		}
		for i := range r.book.Sites {
			if s := &r.book.Sites[i]; v.SiteID == "" || s.ID == v.SiteID {
				s.Revisions = append(s.Revisions, v)
			}
		}
		if !r.hasSite(v.SiteID) {
			r.tellRow(finding.Warning, CodeRevisionSite, row, "revision_site", finding.Words("typed", v.SiteID))
		}
	})
}

// accepted reads what a person accepted, each with the cell of its code.
func (r *reader) accepted() error {
	return readSheet(r, columns.SheetAccepted, columns.Accepted(), func(a calc.Acceptance, row record) {
		switch {
		case row.failed || a.Code == "" || a.Reason == "":
		case !r.hasSite(a.SiteID):
			r.tellRow(finding.Warning, CodeAcceptedSite, row, "accepted_site", finding.Words("typed", a.SiteID))
		default:
			a.At = row.layout.cell(row.row, "accepted_code")
			r.book.Accepted = append(r.book.Accepted, a)
		}
	})
}

// attachments reads which pictures belong to a site, each with the cell of its file.
func (r *reader) attachments() error {
	return readSheet(r, columns.SheetAttachments, columns.Attachments(), func(a calc.Attachment, row record) {
		if row.failed || a.SiteID == "" || a.File == "" {
			return
		}
		i := slices.IndexFunc(r.book.Sites, func(s calc.Site) bool { return s.ID == a.SiteID })
		if i < 0 {
			r.tellRow(finding.Warning, CodeAttachmentSite, row, "attachment_site", finding.Words("typed", a.SiteID))
			return
		}
		a.At = row.layout.cell(row.row, "attachment_file")
		s := &r.book.Sites[i]
		s.Attachments = append(s.Attachments, a)
	})
}

// hasSite says whether Sites has the site; a blank one stands for all of them.
func (r *reader) hasSite(id string) bool {
	return id == "" || slices.ContainsFunc(r.book.Sites, func(s calc.Site) bool { return s.ID == id })
}
