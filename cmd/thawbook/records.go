package main

import (
	"errors"
	"os"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/report/record"
	"thawbook/report/show"
)

// readRecord reads a results.json that was named.
func (p *program) readRecord(file string) (record.Results, error) {
	in, err := os.Open(file)
	if err != nil {
		return record.Results{}, p.misuse("record-unread", finding.Words("file", file), finding.Words("cause", reason(err)))
	}
	defer in.Close()
	r, err := record.Read(in)
	if err == nil {
		return r, nil
	}
	cause := p.words.Say("record-not-one")
	if other := (*record.OtherSchema)(nil); errors.As(err, &other) && other.Schema != "" {
		cause = p.words.Say("record-other-schema", finding.Words("schema", other.Schema), finding.Words("wanted", record.Schema))
	}
	return record.Results{}, p.misuse("record-unread", finding.Words("file", file), finding.Words("cause", cause))
}

// reason returns what is wrong with a file without its name, which is told already.
func reason(err error) string {
	if path := (*os.PathError)(nil); errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// styleOf returns how a workbook wants values written.
func styleOf(s calc.Settings) show.Style {
	return show.Style{Units: s.Units, DecimalMark: s.DecimalMark, Currency: s.Currency}
}
