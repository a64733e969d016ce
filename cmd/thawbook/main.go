// Command thawbook finds, for every heated pavement in a workbook of sites, its heat load, sensing kit, slab set points and season cost, and
// writes them down as result sheets, a PDF per site and results.json.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"

	"thawbook/calc/finding"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// Version of the program, in documents and results.json.
const Version = "0.1.0"

// The exit statuses.
const (
	exitOK          = 0
	exitPartial     = 1   // done, but some zones have errors or are incomplete; for check: errors found
	exitUnusable    = 2   // wrong usage, or an input that can't be read at all
	exitUnwritable  = 3   // the output can't be written
	exitInterrupted = 130 // stopped; what was finished is in place
)

// language is the one the program speaks on a terminal.
const language = "en"

func main() {
	spendMemory()
	p, err := newProgram(os.Stdout, os.Stderr)
	if err != nil {
		fmt.Fprintln(os.Stderr, programName+":", err)
		os.Exit(exitUnusable)
	}
	os.Exit(p.run(p.interrupts(), os.Args[1:]))
}

// spendMemory lets garbage wait longer: documents make a lot of it in short-lived pieces, and two workers gain 1.8 instead of 1.2 times one. Near
// the limit it is collected as usual. Who sets GOGC knows better.
func spendMemory() {
	const limit = 640 << 20
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(limit)
	}
}

// program is where the commands write, and the words they use.
type program struct {
	stdout, stderr io.Writer
	words          *words.Words
	halts          halts
}

// newProgram returns the program with the words that come with it.
func newProgram(stdout, stderr io.Writer) (*program, error) {
	said, err := words.Load(templates.FS(), language, show.Style{})
	return &program{stdout: stdout, stderr: stderr, words: said}, err
}

// run does what the arguments ask for and returns the exit status.
func (p *program) run(ctx context.Context, args []string) int {
	status, err := p.dispatch(ctx, args)
	if err == nil {
		return status
	}
	fmt.Fprintln(p.stderr, p.words.Say("run-failed", finding.Words("cause", p.cause(err))))
	return exitUnusable
}

// interrupts returns a context that the first interrupt cancels: what has begun is finished. The second one ends the process.
func (p *program) interrupts() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	signals := make(chan os.Signal, 2)
	signal.Notify(signals, os.Interrupt)
	go func() {
		<-signals
		cancel()
		fmt.Fprintln(p.stderr, p.words.Say("run-interrupted"))
		<-signals
		p.halts.run()
		os.Exit(exitInterrupted)
	}()
	return ctx
}
