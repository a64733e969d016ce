package columns

import "thawbook/calc"

// SheetAccepted is the sheet of warnings that a person accepted.
const SheetAccepted = "Accepted"

// Accepted returns the columns of Accepted. A row accepts a warning with a reason; errors and warnings of safety can't be accepted.
func Accepted() []Column[calc.Acceptance] {
	return sheetOf(SheetAccepted, []Column[calc.Acceptance]{
		{Field: "accepted_code", Heading: "Code", Aliases: []string{"Finding code", "Finding"}, Required: true, Help: "As Results Findings writes it.", At: func(a *calc.Acceptance) any { return &a.Code }},
		{Field: "accepted_site", Heading: "Site ID", Aliases: []string{"Site"}, Help: "Blank: of every site.", At: func(a *calc.Acceptance) any { return &a.SiteID }},
		{Field: "accepted_zone", Heading: "Zone ID", Aliases: []string{"Zone"}, Help: "Blank: of every zone, and of the site itself.", At: func(a *calc.Acceptance) any { return &a.ZoneID }},
		{Field: "accepted_mark", Heading: "Mark", Help: "As Results Findings writes it. It stands for the inputs that the warning rests on: when they change, the warning opens again. Blank: accepted whatever the inputs.", At: func(a *calc.Acceptance) any { return &a.Mark }},
		{Field: "accepted_reason", Heading: "Reason", Required: true, Help: "Printed beside the warning.", At: func(a *calc.Acceptance) any { return &a.Reason }},
		{Field: "accepted_by", Heading: "By", Aliases: []string{"Accepted by"}, Help: "Who accepted it.", At: func(a *calc.Acceptance) any { return &a.By }},
		{Field: "accepted_date", Heading: "Date", Help: "When.", At: func(a *calc.Acceptance) any { return (*Date)(&a.Date) }},
	})
}
