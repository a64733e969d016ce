package columns

import "thawbook/calc"

// SheetAttachments is the sheet of pictures that belong into the PDF.
const SheetAttachments = "Attachments"

// Attachments returns the columns of Attachments. A row is a picture.
func Attachments() []Column[calc.Attachment] {
	return sheetOf(SheetAttachments, []Column[calc.Attachment]{
		{Field: "attachment_site", Heading: "Site ID", Aliases: []string{"Site"}, Required: true, Help: "As it stands in Sites.", At: func(a *calc.Attachment) any { return &a.SiteID }},
		{Field: "attachment_zone", Heading: "Zone ID", Aliases: []string{"Zone"}, Help: "Named in the caption. Blank: of the whole site.", At: func(a *calc.Attachment) any { return &a.ZoneID }},
		{Field: "attachment_file", Heading: "File", Aliases: []string{"Picture", "File name"}, Required: true, Help: "PNG or JPEG, counted from the workbook's folder.", At: func(a *calc.Attachment) any { return &a.File }},
		{Field: "attachment_caption", Heading: "Caption", Help: "Printed under the picture.", At: func(a *calc.Attachment) any { return &a.Caption }},
		{Field: "attachment_section", Heading: "Section", Choices: AttachmentSections(), Help: "The chapter that it ends. Blank: a chapter of its own.", At: func(a *calc.Attachment) any { return &a.Section }},
	})
}

// AttachmentSections returns the chapters of the PDF that may end with a picture.
func AttachmentSections() []string {
	return []string{"basis", "load", "slab", "reset", "sensing", "sequence", "season"}
}
