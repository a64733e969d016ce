package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// owner makes a workbook of n sites under a design hour.
func owner(t *testing.T, n int) string {
	t.Helper()
	var sites strings.Builder
	sites.WriteString("Site ID\tSite name\tArea [m²]\tUse\tStation\tStage\n")
	for i := range n {
		fmt.Fprintf(&sites, "S-%04d\tHouse %d\t%d\twalk\tHill\tnew pour\n", i+1, i+1, 40+i)
	}
	book := filepath.Join(t.TempDir(), "owner.xlsx")
	require.NoError(t, writeBook(book, []string{"Sites.tsv", "Climate.tsv"}, func(name string) string {
		return map[string]string{"Sites.tsv": sites.String(), "Climate.tsv": "Station\tLatitude\tLongitude\tElevation\tDesign air temperature\tDesign dew point\tDesign wind\tDesign snowfall rate\nHill\t47\t8\t500\t-5\t-7\t4\t2\n"}[name]
	}))
	return book
}

// results is what these tests read of results.json.
type results struct {
	Zones    []struct{ Site string }
	Sites    []struct{ Site, PDF string }
	Findings []struct{ Code, Site string }
}

func (r results) notReached() map[string]bool {
	sites := map[string]bool{}
	for _, f := range r.Findings {
		if f.Code == string(CodeNotReached) {
			sites[f.Site] = true
		}
	}
	return sites
}

func read(t *testing.T, out string) results {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(out, "results.json"))
	require.NoError(t, err)
	var r results
	require.NoError(t, json.Unmarshal(data, &r))
	return r
}

// partial checks an interrupted run of n sites: each is either whole or named, and nothing is half written.
func partial(t *testing.T, out string, n int) {
	t.Helper()
	r := read(t, out)
	not := r.notReached()
	assert.NotEmpty(t, r.Zones, "finished sites are written")
	assert.NotEmpty(t, not, "sites not reached are named")
	assert.Equal(t, n, len(r.Zones)+len(not))
	for _, s := range r.Sites {
		assert.False(t, not[s.Site], "%s is finished and not reached at once", s.Site)
		assert.FileExists(t, filepath.Join(out, filepath.FromSlash(s.PDF)))
	}
	assert.FileExists(t, filepath.Join(out, "owner.results.xlsx"))
	assert.FileExists(t, filepath.Join(out, "transmittal.csv"))
	whole(t, out)
}

// whole checks that every file in a folder is a finished one.
func whole(t *testing.T, out string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(out, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		assert.NotContains(t, e.Name(), ".part", "half-written file")
		if filepath.Ext(path) == ".pdf" {
			data, err := os.ReadFile(path)
			assert.NoError(t, err)
			assert.True(t, bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")), "%s is cut short", path)
		}
		return nil
	}))
}

// onFirstLine calls a function when the first line is written.
type onFirstLine struct {
	bytes.Buffer
	do func()
}

func (w *onFirstLine) Write(p []byte) (int, error) {
	w.do()
	return w.Buffer.Write(p)
}

func TestInterruptedRunKeepsWhatIsFinished(t *testing.T) {
	for _, jobs := range []string{"1", "16"} {
		t.Run(jobs+" jobs", func(t *testing.T) {
			const n = 200
			book := owner(t, n)
			out := filepath.Join(t.TempDir(), "out")
			ctx, cancel := context.WithCancel(t.Context())
			errs := onFirstLine{do: cancel}
			p, _, _ := quiet(t)
			p.stderr = &errs
			assert.Equal(t, exitInterrupted, p.run(ctx, []string{"run", book, "--out", out, "--log", "--jobs", jobs}), errs.String())
			partial(t, out, n)
		})
	}
}

func TestInterruptedBeforeTheFirstSite(t *testing.T) {
	book := owner(t, 5)
	out := filepath.Join(t.TempDir(), "out")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	p, _, _ := quiet(t)
	assert.Equal(t, exitInterrupted, p.run(ctx, []string{"run", book, "--out", out}))
	r := read(t, out)
	assert.Empty(t, r.Zones)
	assert.Len(t, r.notReached(), 5)
}

// begin starts the program itself on many sites and returns once the first one is done.
func begin(t *testing.T, n int) (*exec.Cmd, string, *bufio.Scanner) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("needs signals between processes")
	}
	out := filepath.Join(t.TempDir(), "out")
	cmd := exec.Command("thawbook", "run", owner(t, n), "--out", out, "--log", "--jobs", "2")
	errs, err := cmd.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	lines := bufio.NewScanner(errs)
	require.True(t, lines.Scan(), "no line of the log")
	return cmd, out, lines
}

func TestOneInterruptOfTheProgram(t *testing.T) {
	const n = 300
	cmd, out, lines := begin(t, n)
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	for lines.Scan() {
	}
	require.Error(t, cmd.Wait())
	assert.Equal(t, exitInterrupted, cmd.ProcessState.ExitCode())
	partial(t, out, n)
}

func TestTwoInterruptsOfTheProgram(t *testing.T) {
	cmd, out, lines := begin(t, 300)
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	for lines.Scan() {
		cmd.Process.Signal(os.Interrupt) // two at the same moment may arrive as one
	}
	require.Error(t, cmd.Wait())
	assert.Equal(t, exitInterrupted, cmd.ProcessState.ExitCode())
	whole(t, out)
}
