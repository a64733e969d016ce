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

// newCommand writes a workbook to start from. A file that is there is never replaced.
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
		if _, err := os.Lstat(file); !errors.Is(err, fs.ErrNotExist) {
			return 0, p.misuse("usage-new-there", finding.Words("file", file))
		}
		if err := p.writeNew(file, system, demo); err != nil {
			return 0, err
		}
		fmt.Fprintln(p.stdout, p.words.Say("run-new-written", finding.Words("file", file)))
		return exitOK, nil
	}
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
