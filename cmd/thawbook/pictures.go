package main

import (
	"os"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/ingest"
	"thawbook/report"
)

// CodeAttachmentNotRead tells of a file of Attachments that is missing or no picture. The document is made without it.
const CodeAttachmentNotRead finding.Code = "attachment-not-read"

// pictures reads the pictures of a site, each of a width of its own, and tells those that can't be read at their cells.
func (r *reading) pictures(site calc.Site) (list []report.Attached, told []finding.Finding) {
	taken := []int{r.logo.Width}
	for _, a := range site.Attachments {
		data, err := os.ReadFile(ingest.Beside(r.book.Path, a.File))
		var p report.Picture
		if err == nil {
			p, err = report.ReadAttachment(data, taken)
		}
		if err != nil {
			f := finding.New(finding.Warning, CodeAttachmentNotRead, "attachment_file", finding.Words("file", a.File))
			f.Site, f.At = site.ID, a.At
			told = append(told, f)
			continue
		}
		taken = append(taken, p.Width)
		list = append(list, report.Attached{Attachment: a, Picture: p})
	}
	return list, told
}
