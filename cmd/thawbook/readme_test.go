package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/ingest/hourly"
	"thawbook/report/record"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write the blocks of output in README.md anew")

// block is a part of the README that the program writes: what it shows stands in the comment that opens it.
var block = regexp.MustCompile(`(?s)<!-- output: ([^\n]*?) -->\n(.*?)<!-- end -->`)

// sourceNumber is what a step carries at the end of its first line.
var sourceNumber = regexp.MustCompile(`(?m) +\[\d+\]$`)

const readme = "../../README.md"

// TestReadmeShowsWhatTheProgramPrints holds every block of output to the program, which is run as a stranger would run it.
func TestReadmeShowsWhatTheProgramPrints(t *testing.T) {
	path, err := filepath.Abs(readme)
	require.NoError(t, err)
	stored, err := os.ReadFile(path)
	require.NoError(t, err)
	root := filepath.Dir(path)
	t.Chdir(t.TempDir())
	demo := printed(t, exitOK, "run", "--demo", "--out", "demo-out")
	printed(t, exitOK, "new", "my-sites.xlsx")

	found := 0
	page := block.ReplaceAllStringFunc(string(stored), func(whole string) string {
		found++
		what := block.FindStringSubmatch(whole)[1]
		return "<!-- output: " + what + " -->\n" + shown(t, what, demo, root) + "<!-- end -->"
	})
	require.Equal(t, strings.Count(string(stored), "<!-- output:"), found, "a block without an end")
	if *update {
		require.Empty(t, os.Getenv("CI"), "a page is not written anew where it is checked")
		require.NoError(t, os.WriteFile(path, []byte(page), 0o644))
		return
	}
	assert.Equal(t, string(stored), page, "run go test ./cmd/thawbook -run TestReadme -update")
}

// printed runs the program and returns its standard output.
func printed(t *testing.T, status int, args ...string) string {
	t.Helper()
	p, out, errs := quiet(t)
	require.Equal(t, status, p.run(context.Background(), args), "%v: %s", args, errs)
	return filepath.ToSlash(out.String())
}

// shown returns what stands in a block.
func shown(t *testing.T, what, demo, root string) string {
	explained := func() string { return printed(t, exitOK, "explain", "demo-out/demo.xlsx", "EV-02") }
	switch what {
	case "thawbook run --demo --out demo-out":
		return fenced("", demo)
	case "thawbook check my-sites.xlsx":
		return fenced("", printed(t, exitPartial, "check", "my-sites.xlsx"))
	case "thawbook --help":
		return fenced("", printed(t, exitOK, "--help"))
	case "thawbook explain demo-out/demo.xlsx EV-02; from q_s to q_o":
		return fenced("", steps(explained(), "q_s", "q_o"))
	case "thawbook explain demo-out/demo.xlsx EV-02; lines slab method, estimate":
		return fenced("", sourceNumber.ReplaceAllString(steps(explained(), "slab method", "slab method")+steps(explained(), "estimate", "estimate"), ""))
	case "demo-out/results.json; zone EV-02/1: site zone status area_m2 weather load":
		return fenced("json", ofZone(t, "EV-02", "1", "site", "zone", "status", "area_m2", "weather", "load"))
	case "stations":
		return fenced("", stationNames(t))
	case "ingest/hourly/ACCURACY.md; In short":
		_, after, found := strings.Cut(pageAt(t, root, "ingest/hourly/ACCURACY.md"), "\n## In short\n\n")
		require.True(t, found)
		table, _, _ := strings.Cut(after, "\n\n")
		return "\n" + table + "\n\n"
	case "report/README.md; result sheets":
		return "\n| result sheet | a row is |\n|---|---|\n" + resultSheets(t, pageAt(t, root, "report/README.md")) + "\n"
	}
	require.Fail(t, "nothing is known of this block", what)
	return ""
}

// pageAt returns another page, which its own test keeps current.
func pageAt(t *testing.T, root, name string) string {
	t.Helper()
	page, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
	require.NoError(t, err)
	return string(page)
}

// resultSheets returns a line for each result sheet that the page of results tells of.
func resultSheets(t *testing.T, page string) string {
	t.Helper()
	var b strings.Builder
	list := regexp.MustCompile(`(?m)^### (Results .*)\n\nA row is (.*)\.$`).FindAllStringSubmatch(page, -1)
	require.NotEmpty(t, list)
	for _, s := range list {
		fmt.Fprintf(&b, "| %s | %s |\n", s[1], s[2])
	}
	return b.String()
}

func fenced(language, text string) string {
	return "```" + language + "\n" + strings.TrimRight(text, "\n") + "\n```\n"
}

// steps returns the lines of an explanation from one symbol's to the end of another's.
func steps(text, from, to string) string {
	var out []string
	inside, last := false, false
	for line := range strings.SplitSeq(text, "\n") {
		begins := !strings.HasPrefix(line, " ") && line != ""
		if last && (begins || line == "") {
			break
		}
		inside = inside || strings.HasPrefix(line, from+" ")
		last = last || inside && strings.HasPrefix(line, to+" ")
		if inside {
			out = append(out, line)
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// ofZone returns some keys of a zone in results.json, objects a key a line.
func ofZone(t *testing.T, site, zone string, keys ...string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("demo-out", "results.json"))
	require.NoError(t, err)
	_, err = record.Read(bytes.NewReader(data))
	require.NoError(t, err)
	var whole struct{ Zones []map[string]json.RawMessage }
	require.NoError(t, json.Unmarshal(data, &whole))
	for _, z := range whole.Zones {
		if string(z["site"]) != `"`+site+`"` || string(z["zone"]) != `"`+zone+`"` {
			continue
		}
		lines := make([]string, len(keys))
		for i, key := range keys {
			require.Contains(t, z, key)
			lines[i] = fmt.Sprintf("  %q: %s", key, inLines(t, z[key]))
		}
		return "{\n" + strings.Join(lines, ",\n") + "\n}"
	}
	require.Fail(t, "no such zone", "%s/%s", site, zone)
	return ""
}

// inLines writes an object a key a line, anything else as it is.
func inLines(t *testing.T, raw json.RawMessage) string {
	t.Helper()
	if !bytes.HasPrefix(raw, []byte("{")) {
		return string(raw)
	}
	d := json.NewDecoder(bytes.NewReader(raw))
	_, err := d.Token()
	require.NoError(t, err)
	var lines []string
	for d.More() {
		key, err := d.Token()
		require.NoError(t, err)
		var v json.RawMessage
		require.NoError(t, d.Decode(&v))
		lines = append(lines, fmt.Sprintf("    %q: %s", key, v))
	}
	return "{\n" + strings.Join(lines, ",\n") + "\n  }"
}

// stationNames lists the built-in stations in lines of a readable width.
func stationNames(t *testing.T) string {
	t.Helper()
	const width = 110
	list, err := hourly.ReadStations(templates.FS())
	require.NoError(t, err)
	var b strings.Builder
	at := 0
	for i, s := range list {
		name := s.Name
		if i+1 < len(list) {
			name += ";"
		}
		switch {
		case at == 0:
		case at+1+len(name) > width:
			b.WriteByte('\n')
			at = 0
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(name)
		at += len(name)
	}
	return b.String()
}

// TestReadmeBuildsForThreeSystems: the command that builds a ready program is one line, for the three common desktop systems, into a folder that git
// leaves alone. .ci/run runs it.
func TestReadmeBuildsForThreeSystems(t *testing.T) {
	page, err := os.ReadFile(readme)
	require.NoError(t, err)
	command := regexp.MustCompile(`(?m)^for system in (.*); do .* go build .* -o "dist/.* ./cmd/thawbook; done$`).FindStringSubmatch(string(page))
	require.NotNil(t, command)
	for _, system := range []string{"windows/", "darwin/", "linux/"} {
		assert.Contains(t, command[1], system)
	}
	ignored, err := os.ReadFile("../../.gitignore")
	require.NoError(t, err)
	assert.Contains(t, string(ignored), "\n/dist/\n")
}
