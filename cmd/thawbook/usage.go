package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"thawbook/calc/finding"
	"thawbook/cmd/thawbook/outdir"
)

// action is what a command does with its arguments, once its flags are read. Without an error it returns the exit status.
type action func(ctx context.Context, args []string) (int, error)

// command is a word behind "thawbook". Its synopsis, its description and its flags have their sentences in templates: usage-<name>,
// usage-<name>-does and usage-flag-<flag>.
type command struct {
	name string
	set  func(*flags) action
}

// commands returns them in the order of the usage page.
func (p *program) commands() []command {
	return []command{
		{"run", p.runCommand}, {"check", p.checkCommand}, {"new", p.newCommand},
		{"explain", p.explainCommand}, {"weather", p.weatherCommand}, {"portfolio", p.portfolioCommand}, {"changes", p.changesCommand},
		{"version", p.versionCommand},
	}
}

// flags are a command's flags, each described by the sentence that has its name.
type flags struct {
	*pflag.FlagSet
	says func(flag string) string
}

func (f *flags) yes(at *bool, name string)              { f.BoolVar(at, name, false, f.says(name)) }
func (f *flags) text(at *string, name string)           { f.StringVar(at, name, "", f.says(name)) }
func (f *flags) texts(at *[]string, name string)        { f.StringArrayVar(at, name, nil, f.says(name)) }
func (f *flags) number(at *int, name string, usual int) { f.IntVar(at, name, usual, f.says(name)) }

// dispatch finds the command and runs it. A workbook in place of a command is run.
func (p *program) dispatch(ctx context.Context, args []string) (int, error) {
	root := pflag.NewFlagSet("thawbook", pflag.ContinueOnError)
	root.SetInterspersed(false)
	root.SetOutput(io.Discard)
	root.Usage = func() {}
	switch err := root.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		p.usage(p.stdout)
		return exitOK, nil
	case err != nil:
		return p.misused("", err.Error())
	case root.NArg() == 0:
		p.usage(p.stderr)
		return exitUnusable, nil
	}
	args = root.Args()
	all := p.commands()
	if args[0] == "help" { // as people try first
		args = append(args[1:], "--help")
		if len(args) == 1 {
			p.usage(p.stdout)
			return exitOK, nil
		}
	}
	if i := slices.IndexFunc(all, func(c command) bool { return c.name == args[0] }); i >= 0 {
		return p.perform(ctx, all[i], args[1:])
	}
	if isWorkbook(args[0]) {
		return p.perform(ctx, all[0], args)
	}
	return p.misused("", p.words.Say("usage-no-command", finding.Words("name", args[0])))
}

// isWorkbook says whether an argument is meant as a file rather than a command.
func isWorkbook(arg string) bool {
	if slices.Contains([]string{".xlsx", ".xlsm", ".xls", ".ods"}, strings.ToLower(filepath.Ext(arg))) {
		return true
	}
	info, err := os.Stat(arg)
	return err == nil && info.Mode().IsRegular()
}

// perform reads a command's flags and does it.
func (p *program) perform(ctx context.Context, c command, args []string) (int, error) {
	f, do := p.flagsOf(c)
	switch err := f.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		p.commandUsage(p.stdout, c)
		return exitOK, nil
	case err != nil:
		return p.misused(c.name, err.Error())
	}
	status, err := do(ctx, f.Args())
	if wrong := misuse(""); errors.As(err, &wrong) {
		return p.misused(c.name, string(wrong))
	}
	if unwritten := (*outdir.Error)(nil); errors.As(err, &unwritten) {
		fmt.Fprintln(p.stderr, p.words.Say("unwritten-"+c.name, finding.Words("cause", unwritten.Error())))
		return exitUnwritable, nil
	}
	return status, err
}

func (p *program) flagsOf(c command) (*flags, action) {
	f := &flags{pflag.NewFlagSet(c.name, pflag.ContinueOnError), func(flag string) string { return p.words.Say("usage-flag-" + flag) }}
	f.SortFlags = false
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	return f, c.set(f)
}

// misuse is wrong usage: the sentence that says so.
type misuse string

func (m misuse) Error() string { return string(m) }

// misuse returns the error with the sentence of a code.
func (p *program) misuse(code string, args ...finding.Arg) error {
	return misuse(p.words.Say(code, args...))
}

// misused tells what was wrong with the arguments and where to read more.
func (p *program) misused(command, what string) (int, error) {
	fmt.Fprintln(p.stderr, "thawbook:", what)
	fmt.Fprintln(p.stderr, p.words.Say("usage-more", finding.Words("command", strings.TrimSpace("thawbook "+command))))
	return exitUnusable, nil
}

// usage prints the page of all commands.
func (p *program) usage(w io.Writer) {
	fmt.Fprintln(w, p.words.Say("usage-about"))
	for _, c := range p.commands() {
		fmt.Fprintf(w, "\n  %s\n      %s\n", p.words.Say("usage-"+c.name), p.words.Say("usage-"+c.name+"-does"))
	}
	fmt.Fprintf(w, "\n%s\n%s\n", p.words.Say("usage-dropped"), p.words.Say("usage-statuses"))
}

// commandUsage prints the page of one command.
func (p *program) commandUsage(w io.Writer, c command) {
	fmt.Fprintf(w, "%s\n    %s\n", p.words.Say("usage-"+c.name), p.words.Say("usage-"+c.name+"-does"))
	f, _ := p.flagsOf(c)
	f.VisitAll(func(flag *pflag.Flag) {
		value, says := pflag.UnquoteUsage(flag)
		fmt.Fprintf(w, "\n  %s\n      %s\n", strings.TrimSpace("--"+flag.Name+" "+value), says)
	})
}
