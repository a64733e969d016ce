package columns

import (
	"thawbook/calc"
	"thawbook/calc/units"
)

// RatePrefix begins the name of a line that gives an exchange rate: "Rate CAD".
const RatePrefix = "Rate"

// RateField is the field of those lines.
const RateField = "rate"

// Settings returns the lines of Settings.
func Settings() []Column[calc.Settings] {
	return sheetOf(SheetSettings, []Column[calc.Settings]{
		{Field: "units", Heading: "Units", Choices: []string{"SI", "I-P"}, Synonyms: map[string]string{"metric": "SI", "imperial": "I-P", "us": "I-P", "uscustomary": "I-P", "inchpound": "I-P"}, Default: "SI", DefaultSource: "units-si",
			Help: "What a number without a unit means, and how results are shown.", At: func(s *calc.Settings) any { return &s.Units }},
		{Field: "currency", Heading: "Currency", Help: "Three letters: USD, EUR, CAD.", At: func(s *calc.Settings) any { return &s.Currency }},
		{Field: "decimal_mark", Heading: "Decimal mark", Choices: []string{".", ","}, Synonyms: map[string]string{"point": ".", "dot": ".", "period": ".", "comma": ","}, Default: ".", Help: "In numbers that are typed as text, and in results.", At: func(s *calc.Settings) any { return &s.DecimalMark }},
		{Field: "project", Heading: "Project", Aliases: []string{"Project name"}, Help: "Title of the documents.", At: func(s *calc.Settings) any { return &s.Project }},
		{Field: "prepared_for", Heading: "Prepared for", Help: "Printed on every document.", At: func(s *calc.Settings) any { return &s.PreparedFor }},
		{Field: "prepared_by", Heading: "Prepared by", Help: "Printed on every document.", At: func(s *calc.Settings) any { return &s.PreparedBy }},
		{Field: "revision", Heading: "Revision", Help: "Printed on every document.", At: func(s *calc.Settings) any { return &s.Revision }},
		{Field: "issue_date", Heading: "Issue date", Aliases: []string{"Date"}, Help: "Printed on every document. The program never takes today's.", At: func(s *calc.Settings) any { return (*Date)(&s.IssueDate) }},
		{Field: "logo_file", Heading: "Logo file", Aliases: []string{"Logo"}, Help: "PNG or JPEG, counted from the workbook's folder.", At: func(s *calc.Settings) any { return &s.LogoFile }},
		{Field: "file_name", Heading: "File name", Default: "{site}", Help: "Of the documents, made of {project} {site} {name} {revision}.", At: func(s *calc.Settings) any { return (*Pattern)(&s.FileName) }},
		{Field: "analysis_years", Heading: "Analysis years", Quantity: units.Years, Min: 1, Max: 50, Default: "25 years", DefaultSource: "analysis-usual", Help: "Over which alternatives are compared.", At: func(s *calc.Settings) any { return &s.AnalysisYears }},
		{Field: "discount_rate", Heading: "Discount rate", Aliases: []string{"Real discount rate"}, Quantity: units.Share, Max: 0.15, PercentAbove: 1, Default: "3 %", DefaultSource: "discount-usual", Help: "Real: without inflation; nominal where General inflation is given.", At: func(s *calc.Settings) any { return &s.DiscountRate }},
		{Field: "energy_escalation", Heading: "Energy escalation", Aliases: []string{"Energy price escalation"}, Quantity: units.Share, Max: 0.15, PercentAbove: 1, Default: "0 %", DefaultSource: "escalation-none", Help: "Real: above inflation; nominal where General inflation is given.", At: func(s *calc.Settings) any { return &s.EnergyEscalation }},
		{Field: "inflation", Heading: "General inflation", Aliases: []string{"Inflation"}, Quantity: units.Share, Max: 0.15, PercentAbove: 1, Help: "Given: Discount rate and escalations as typed are nominal and hold it. Blank: they are real.", At: func(s *calc.Settings) any { return &s.Inflation }},
		{Field: "default_percentile", Heading: "Default percentile", Quantity: units.Percent, Min: 75, Max: 100, Help: "For zones that give none. Blank: by use.", At: func(s *calc.Settings) any { return &s.DefaultPercentile }},
		{Field: "default_snow_free_ratio", Heading: "Default snow-free area ratio", Quantity: units.Emissivity, Max: 1, Help: "For zones that give none. Blank: by use.", At: func(s *calc.Settings) any { return &s.DefaultSnowFree }},
		{Field: "season_start", Heading: "Season start", Default: "1 October", DefaultSource: "season-usual", Help: "First day: 1 October. Southern sites without it take the mirrored season.", At: func(s *calc.Settings) any { return &s.SeasonStart }},
		{Field: "season_end", Heading: "Season end", Default: "30 April", DefaultSource: "season-usual", Help: "Last day: 30 April.", At: func(s *calc.Settings) any { return &s.SeasonEnd }},
		{Field: "contingency_new", Heading: "Contingency new", Quantity: units.Share, Max: 1, PercentAbove: 1, Default: "10 %", DefaultSource: "contingency-usual", Help: "Added to the first cost of a new pour.", At: func(s *calc.Settings) any { return &s.ContingencyNew }},
		{Field: "contingency_retrofit", Heading: "Contingency retrofit", Quantity: units.Share, Max: 1, PercentAbove: 1, Default: "20 %", DefaultSource: "contingency-usual", Help: "Added to the first cost in an existing slab.", At: func(s *calc.Settings) any { return &s.ContingencyRetrofit }},
		{Field: "budget_limit", Heading: "Budget limit", Aliases: []string{"Budget"}, Quantity: units.Number, Max: Most, Money: true, Help: "What may be spent on first costs. With it the portfolio says which sites to change first.", At: func(s *calc.Settings) any { return &s.BudgetLimit }},
		{Field: "price_date", Heading: "Price date", Help: "Of the prices in this workbook.", At: func(s *calc.Settings) any { return (*Date)(&s.PriceDate) }},
		{Field: "price_valid_until", Heading: "Price valid until", Help: "Printed with every price.", At: func(s *calc.Settings) any { return (*Date)(&s.PriceValidUntil) }},
		{Field: "exclusions", Heading: "Exclusions", Help: "What the prices do not cover.", At: func(s *calc.Settings) any { return &s.Exclusions }},
		{Field: "country", Heading: "Country", Help: "Printed where local codes are deferred to.", At: func(s *calc.Settings) any { return &s.Country }},
		{Field: "rate_date", Heading: "Rate date", Aliases: []string{"Exchange rate date"}, Help: "Of the exchange rates.", At: func(s *calc.Settings) any { return (*Date)(&s.RateDate) }},
		{Field: "language", Heading: "Language", Choices: []string{"en"}, Synonyms: map[string]string{"english": "en"}, Default: "en", Help: "Of the documents: en.", At: func(s *calc.Settings) any { return &s.Language }},
	})
}
