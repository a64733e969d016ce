package main

import (
	"context"
	"path/filepath"

	"thawbook/calc/units"
	"thawbook/ingest/columns"
	"thawbook/report/record"
	"thawbook/report/terminal"
)

// changesCommand tells what moved between two runs and what moved it.
func (p *program) changesCommand(f *flags) action {
	var asJSON bool
	f.yes(&asJSON, "json")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) != 2 {
			return 0, p.misuse("changes-two")
		}
		before, err := p.readRecord(args[0])
		if err != nil {
			return 0, err
		}
		now, err := p.readRecord(args[1])
		if err != nil {
			return 0, err
		}
		compared := record.Compare(before, now, [2]string{filepath.ToSlash(args[0]), filepath.ToSlash(args[1])})
		if asJSON {
			return exitOK, terminal.ChangesJSON(p.stdout, compared)
		}
		texts := *p.words
		texts.Show = styleOf(now.Head())
		return exitOK, terminal.Changes(p.stdout, &texts, compared, inputFields())
	}
}

// inputFields are the headings of input columns by their names in the record.
func inputFields() terminal.Fields {
	all := terminal.Fields{columns.RateField: {Heading: columns.RatePrefix, Quantity: units.Number}}
	nameFields(all, columns.Sites())
	nameFields(all, columns.Energy())
	nameFields(all, columns.Costs())
	nameFields(all, columns.Parts())
	nameFields(all, columns.Settings())
	return all
}

func nameFields[T any](all terminal.Fields, list []columns.Column[T]) {
	for _, c := range list {
		all[record.Cell(c.Field, c.Quantity, 0, "").Name] = terminal.Field{Heading: c.Heading, Quantity: c.Quantity}
		all[record.Cell(c.Field, units.Text, 0, "").Name] = terminal.Field{Heading: c.Heading, Quantity: c.Quantity}
	}
}
