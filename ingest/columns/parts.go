package columns

import (
	"thawbook/calc/sensing"
	"thawbook/calc/units"
)

// Parts returns the columns of Parts. A row is a part of the user's own catalogue.
func Parts() []Column[sensing.Part] {
	kinds := []string{string(sensing.PavementDetector), string(sensing.AerialDetector), string(sensing.SlabSensor), "controller"}
	return sheetOf(SheetParts, []Column[sensing.Part]{
		{Field: "part", Heading: "Part", Aliases: []string{"Part name", "Part no", "Part number"}, Required: true, Help: "As it should stand in the schedule.", At: func(p *sensing.Part) any { return &p.Name }},
		{Field: "part_kind", Heading: "Kind", Aliases: []string{"Type"}, Required: true, Choices: kinds, Help: "What it is.", At: func(p *sensing.Part) any { return &p.Kind }},
		{Field: "part_senses", Heading: "Senses", Choices: []string{"moisture", "falling snow", "slab temperature"}, Help: "Several separated by semicolons.", At: func(p *sensing.Part) any { return (*ChoiceList)(&p.Senses) }},
		{Field: "part_leads", Heading: "Lead lengths", Aliases: []string{"Lead length", "Lead"}, Quantity: units.Length, Min: 0.1, Max: 1000, Help: "As it leaves the factory, several separated by semicolons.", At: func(p *sensing.Part) any { return (*NumberList)(&p.LeadM) }},
		{Field: "part_inputs", Heading: "Inputs", Aliases: []string{"Inputs accepted"}, Choices: kinds[:3], Help: "What a controller accepts, several separated by semicolons.", At: func(p *sensing.Part) any { return (*ChoiceList)(&p.Inputs) }},
		{Field: "part_outputs", Heading: "Outputs", Choices: []string{"pump", "valve", "burner", "contactor"}, Help: "What a controller switches, several separated by semicolons.", At: func(p *sensing.Part) any { return (*ChoiceList)(&p.Outputs) }},
		{Field: "part_functions", Heading: "Functions", Choices: []string{"ends when dry", "ends on a timer", "idling", "outdoor reset"}, Help: "What a controller does, several separated by semicolons.", At: func(p *sensing.Part) any { return (*ChoiceList)(&p.Functions) }},
		{Field: "part_price", Heading: "Price", Aliases: []string{"Unit price"}, Quantity: units.Number, Max: Most, Money: true, Help: "Of one piece.", At: func(p *sensing.Part) any { return Amount{&p.Price, &p.Priced} }},
	})
}
