package main

import (
	"errors"
	"fmt"
	"strings"

	"thawbook/calc/finding"
	"thawbook/ingest"
	"thawbook/ingest/hourly"
	"thawbook/report/words"
)

// mostErrors is how many errors are listed on standard error; all of them stand in Results Findings and results.json.
const mostErrors = 20

// tellErrors lists the errors among some findings.
func (p *program) tellErrors(texts *words.Words, list []finding.Finding) {
	left := 0
	for i, f := range list {
		switch {
		case f.Severity != finding.Error:
		case i < mostErrors:
			what, todo := texts.Finding(f)
			fmt.Fprintln(p.stderr, p.words.Say("run-error-line", finding.Words("place", placeOf(f)), finding.Words("what", joined(what, todo))))
		default:
			left++
		}
	}
	if left > 0 {
		fmt.Fprintln(p.stderr, p.words.Say("run-error-more", finding.Words("count", fmt.Sprint(left))))
	}
}

// placeOf returns the cell of a finding, else its site.
func placeOf(f finding.Finding) string {
	switch {
	case f.At.Ref != "":
		return f.At.Sheet + "!" + f.At.Ref
	case f.At.Sheet != "":
		return f.At.Sheet
	case f.Site != "":
		return f.Site
	}
	return string(f.Code)
}

// cause returns the words of an error: the sentence of its code where it has one.
func (p *program) cause(err error) string {
	var code finding.Code
	var args []finding.Arg
	if book := (*ingest.Unusable)(nil); errors.As(err, &book) {
		code, args = book.Finding.Code, book.Finding.Args
	} else if file := (*hourly.Error)(nil); errors.As(err, &file) {
		code, args = file.Code, file.Args
	} else {
		return err.Error()
	}
	what, todo := p.words.Finding(finding.Finding{Code: code, Args: args})
	return joined(what, todo)
}

// joined makes one text of what is wrong and what to do.
func joined(what, todo string) string {
	if what != "" && !strings.ContainsAny(what[len(what)-1:], ".!?") {
		what += "."
	}
	return strings.TrimSpace(what + " " + todo)
}
