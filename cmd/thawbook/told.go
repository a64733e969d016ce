package main

import (
	"fmt"

	"thawbook/calc/season"
	"thawbook/calc/units"
	"thawbook/ingest"
	"thawbook/ingest/columns"
	"thawbook/report/record"
)

// settingsOf returns what Settings tells, as the record holds it.
func settingsOf(b *ingest.Book) record.Inputs { return toldBy(columns.Settings(), &b.Settings) }

// pricesOf returns the rows of Energy, Costs and Parts and the exchange rates, as the record holds them.
func pricesOf(b *ingest.Book) []record.Price {
	var out []record.Price
	for i := range b.Energies {
		out = append(out, record.Price{Sheet: columns.SheetEnergy, Row: b.Energies[i].ID, Values: toldBy(columns.Energy(), &b.Energies[i])})
	}
	for i := range b.Costs {
		out = append(out, record.Price{Sheet: columns.SheetCosts, Row: b.Costs[i].Item, Values: toldBy(columns.Costs(), &b.Costs[i])})
	}
	for i := range b.Parts {
		out = append(out, record.Price{Sheet: columns.SheetParts, Row: b.Parts[i].Name, Values: toldBy(columns.Parts(), &b.Parts[i])})
	}
	for _, r := range b.Settings.Rates {
		out = append(out, record.Price{Sheet: columns.SheetSettings, Row: columns.RatePrefix + " " + r.Currency, Values: record.Inputs{record.Cell(columns.RateField, units.Number, r.Worth, "")}})
	}
	return out
}

// toldBy returns the values of a row under the names of its columns; what is blank is left out.
func toldBy[T any](list []columns.Column[T], row *T) record.Inputs {
	out := record.Inputs{}
	for _, c := range list {
		number, word, told := valueAt(c.At(row), c.Choices)
		if !told {
			continue
		}
		quantity := c.Quantity
		if word != "" {
			quantity = units.Text
		}
		out = append(out, record.Cell(c.Field, quantity, number, word))
	}
	return out
}

// valueAt returns what a place of a column holds: a number in the base unit, or a word. Of two choices the second stands for true.
func valueAt(place any, choices []string) (number float64, word string, told bool) {
	switch at := place.(type) {
	case *string:
		word = *at
	case *columns.Date:
		word = string(*at)
	case *columns.Pattern:
		word = string(*at)
	case *columns.NumberList:
		word = string(*at)
	case *columns.ChoiceList:
		word = string(*at)
	case *units.System:
		word = record.Systems[*at]
	case *bool:
		word = choices[0]
		if *at {
			word = choices[1]
		}
	case *season.Day:
		if *at != (season.Day{}) {
			word = fmt.Sprintf("%02d-%02d", at.Month, at.Day)
		}
	case *float64:
		return *at, "", true
	case *units.Maybe[float64]:
		return at.Value, "", at.Known
	case columns.Amount:
		return *at.Value, "", *at.Known
	}
	return 0, word, word != ""
}
