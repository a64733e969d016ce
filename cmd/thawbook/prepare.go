package main

import (
	"bytes"
	"io"
	"path/filepath"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/ingest/starter"
)

// prepare reads everything, opens the output folder and decides which PDFs are written. An input that can't be read leaves no folder behind.
func (j *job) prepare() error {
	if j.demo {
		if err := j.writeDemo(); err != nil {
			return err
		}
	}
	all, err := j.readAll(j.input, j.templates)
	if err != nil {
		return err
	}
	j.reading = all
	if ending := strings.ToLower(filepath.Ext(j.input)); ending != workbookEnding && ending != macrosEnding {
		return j.misuse("usage-workbook-ending", finding.Words("file", j.input)) // what is written would bear it too, and no program would open it
	}
	wanted, err := j.selected(j.book.Sites, j.sites)
	if err != nil {
		return err
	}
	if err := j.open(); err != nil {
		return err
	}
	if err := j.out.Folder(submittals); err != nil {
		return err
	}
	j.basis = fingerprint(Version, j.book.Settings, j.files, j.logo)
	j.plan(wanted)
	return nil
}

// open opens the output folder.
func (j *job) open() (err error) {
	if j.out != nil {
		return nil
	}
	if j.out, err = outdir.Open(j.places.out); err != nil {
		return err
	}
	j.halts.add(j.out.Halt)
	return nil
}

// writeDemo writes the demo workbook into the output folder, where it is read from.
func (j *job) writeDemo() error {
	if err := j.open(); err != nil {
		return err
	}
	var book bytes.Buffer
	if err := starter.Write(&book, units.SI, true); err != nil {
		return err
	}
	_, err := j.out.Write(filepath.Base(j.input), func(w io.Writer) error { _, err := book.WriteTo(w); return err })
	return err
}
