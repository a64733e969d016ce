package main

import (
	"context"
	"fmt"
)

// programName is how documents and results.json name the program.
const programName = "thawbook"

// versionCommand prints the version.
func (p *program) versionCommand(*flags) action {
	return func(_ context.Context, args []string) (int, error) {
		if len(args) > 0 {
			return 0, p.misuse("usage-no-arguments")
		}
		fmt.Fprintln(p.stdout, programName, Version)
		return exitOK, nil
	}
}
