package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/cmd/thawbook/outdir"
	"thawbook/ingest/starter"
)

// newCommand writes a workbook to start from. A file that is there is never replaced, and no folder is made.
func (p *program) newCommand(f *flags) action {
	var in string
	var demo bool
	f.text(&in, "units")
	f.yes(&demo, "demo")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) != 1 {
			return 0, p.misuse("usage-one-workbook")
		}
		system, known := map[string]units.System{"": units.SI, "si": units.SI, "ip": units.IP, "i-p": units.IP}[strings.ToLower(in)]
		if !known {
			return 0, p.misuse("usage-units", finding.Words("units", in))
		}
		file := args[0]
		if !strings.EqualFold(filepath.Ext(file), workbookEnding) {
			return 0, p.misuse("usage-new-ending", finding.Words("file", file))
		}
		if folder := filepath.Dir(file); missing(folder) {
			return 0, p.misuse("usage-no-folder", finding.Words("folder", folder))
		}
		if !missing(file) {
			return 0, p.misuse("usage-new-there", finding.Words("file", file))
		}
		if err := p.writeNew(file, system, demo); err != nil {
			return 0, err
		}
		fmt.Fprintln(p.stdout, p.words.Say("run-new-written", finding.Words("file", file)))
		return exitOK, nil
	}
}

// missing says whether there is nothing at a path.
func missing(path string) bool {
	_, err := os.Lstat(path)
	return errors.Is(err, fs.ErrNotExist)
}

func (p *program) writeNew(file string, system units.System, demo bool) error {
	d, err := outdir.Open(filepath.Dir(file))
	if err != nil {
		return err
	}
	defer d.Close()
	p.halts.add(d.Halt)
	_, err = d.Write(filepath.Base(file), func(w io.Writer) error { return starter.Write(w, system, demo) })
	return err
}
