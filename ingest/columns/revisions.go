package columns

import "thawbook/calc"

// SheetRevisions is the sheet of revisions.
const SheetRevisions = "Revisions"

// Revisions returns the columns of Revisions. A row is a line of the revision table; the last one of a site is its revision.
func Revisions() []Column[calc.Revision] {
	return sheetOf(SheetRevisions, []Column[calc.Revision]{
		{Field: "revision_site", Heading: "Site ID", Aliases: []string{"Site"}, Help: "Blank: of every site.", At: func(r *calc.Revision) any { return &r.SiteID }},
		{Field: "revision_name", Heading: "Revision", Aliases: []string{"Rev"}, Required: true, Help: "Letter or number.", At: func(r *calc.Revision) any { return &r.Name }},
		{Field: "revision_date", Heading: "Date", Help: "Of its issue.", At: func(r *calc.Revision) any { return (*Date)(&r.Date) }},
		{Field: "revision_text", Heading: "Description", Aliases: []string{"What changed"}, Help: "What changed.", At: func(r *calc.Revision) any { return &r.Description }},
		{Field: "revision_prepared", Heading: "Prepared", Aliases: []string{"Prepared by"}, Help: "Who prepared it.", At: func(r *calc.Revision) any { return &r.Prepared }},
		{Field: "revision_checked", Heading: "Checked", Aliases: []string{"Checked by"}, Help: "Who checked it.", At: func(r *calc.Revision) any { return &r.Checked }},
	})
}
