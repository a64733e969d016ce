package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/report/record"
)

// ran is what a run left: its exit status, what it said, and its documents.
type ran struct {
	status         int
	stdout, stderr string
	record         record.Results
	summary        map[string]map[string]string // of Results Summary: by Site ID, by heading
	folder         string
}

// runBook runs a workbook of tab-separated sheets, by their names.
func runBook(t *testing.T, sheets map[string]string) ran {
	t.Helper()
	dir := t.TempDir()
	book := filepath.Join(dir, "book.xlsx")
	var names []string
	for name := range sheets {
		names = append(names, name)
	}
	slices.Sort(names)
	require.NoError(t, writeBook(book, names, func(name string) string { return sheets[name] }))
	r := ran{folder: filepath.Join(dir, "out"), summary: map[string]map[string]string{}}
	var out, errs bytes.Buffer
	cmd := exec.Command("thawbook", "run", book, "--quiet", "--out", r.folder)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if ended := (*exec.ExitError)(nil); errors.As(cmd.Run(), &ended) {
		r.status = ended.ExitCode()
	}
	r.stdout, r.stderr = out.String(), errs.String()

	written, err := os.Open(filepath.Join(r.folder, recordName))
	require.NoError(t, err, r.stderr)
	defer written.Close()
	r.record, err = record.Read(written)
	require.NoError(t, err)

	results, err := excelize.OpenFile(filepath.Join(r.folder, "book.results.xlsx"))
	require.NoError(t, err)
	defer results.Close()
	rows, err := results.GetRows("Results Summary")
	require.NoError(t, err)
	for _, row := range rows[1:] {
		site := map[string]string{}
		for i, cell := range row {
			heading, _, _ := strings.Cut(rows[0][i], " [")
			site[heading] = cell
		}
		r.summary[row[0]] = site
	}
	return r
}

// firstPage returns the text of a PDF's first page with single spaces.
func (r ran) firstPage(t *testing.T, site string) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("needs pdftotext")
	}
	i := slices.IndexFunc(r.record.Sites, func(s record.Site) bool { return s.Site == site })
	require.GreaterOrEqual(t, i, 0, site)
	said, err := exec.Command("pdftotext", "-l", "1", "-layout", filepath.Join(r.folder, filepath.FromSlash(*r.record.Sites[i].PDF)), "-").Output()
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(said)), " ")
}

// TestStatusesAgree: whatever tells how a zone ended tells the same: the record, the sheet, the PDF, the receipt and the exit status.
func TestStatusesAgree(t *testing.T) {
	r := runBook(t, map[string]string{"Sites": `Site ID	Site name	Area [m²]	Use	Station	Stage
N-1	Ramp	120	ramp	Burlington, VT	new pour
N-2	Yard	many	plaza	Burlington, VT	new pour
N-3	Dock	80	loading dock		new pour
`})
	assert.Equal(t, exitPartial, r.status)
	assert.Contains(t, r.stderr, "error: Sites!C3: ")

	zones := map[string]record.Zone{}
	for _, z := range r.record.Zones {
		zones[z.Site] = z
	}
	sites := map[string]record.Site{}
	for _, s := range r.record.Sites {
		sites[s.Site] = s
	}
	for _, tt := range []struct {
		site, zone, whole string
		area              string // of Results Summary
	}{
		{"N-1", calc.StatusOK, calc.DoneCheck, "120.0"},
		{"N-2", calc.StatusError, calc.Failed, ""},
		{"N-3", calc.StatusError, calc.Incomplete, "80.0"},
	} {
		assert.Equal(t, tt.zone, zones[tt.site].Status, tt.site)
		assert.Equal(t, tt.zone == calc.StatusOK, zones[tt.site].Load != nil, tt.site)
		assert.Equal(t, tt.whole, sites[tt.site].Status, tt.site)
		assert.Equal(t, tt.whole, r.summary[tt.site]["Status"], tt.site)
		assert.Equal(t, tt.area, r.summary[tt.site]["Area"], tt.site)
		assert.Equal(t, tt.area != "", sites[tt.site].AreaM2.Known, tt.site)
		assert.Contains(t, r.firstPage(t, tt.site), "Status "+tt.whole, tt.site)
	}
	codes := map[string]string{}
	for _, f := range r.record.Findings {
		if f.Severity == "error" {
			codes[*f.Site] = f.Code
		}
	}
	assert.Equal(t, map[string]string{"N-2": "required-number", "N-3": string(calc.CodeMissingInput)}, codes)

	refused := r.firstPage(t, "N-2")
	assert.Contains(t, refused, `"many" is not a number`)
	assert.Contains(t, refused, "Without a result")
	assert.Contains(t, refused, "no winter could be calculated")
	assert.NotContains(t, refused, "0.0 m²")
	assert.NotContains(t, refused, "no price was given")
	assert.Contains(t, r.stdout, "Sites: 3 (1 done, check; 1 incomplete; 1 error)")
	assert.Contains(t, r.stdout, "since a zone could not be calculated through a winter: 2")
	assert.Contains(t, r.stdout, "since a price is missing: 1")
}

// TestReadingCountsInTheStatus: a site of which reading has a warning is one to check, and its PDF says why.
func TestReadingCountsInTheStatus(t *testing.T) {
	r := runBook(t, map[string]string{"Sites": `Site ID	Area [m²]	Use	Station	Stage
N 1	1200	ramp	Burlington, VT	new pour
N-1	1200	ramp	Burlington, VT	new pour
`})
	first, other := r.summary["N 1"], r.summary["N-1"]
	count := func(cell string) int { n, _ := strconv.Atoi(cell); return n }
	assert.Equal(t, count(first["Warnings"])+1, count(other["Warnings"]), "one more, of its spelling")
	assert.Contains(t, r.firstPage(t, "N-1"), "are taken as two sites")
	assert.NotContains(t, r.firstPage(t, "N 1"), "are taken as two sites")
	done := calc.Summary{Status: calc.Done}
	done.Tell(finding.New(finding.Info, "row-note", ""))
	assert.Equal(t, calc.Done, done.Status)
	done.Tell(finding.New(finding.Warning, "site-id-spelling", "site_id"))
	assert.Equal(t, calc.DoneCheck, done.Status)
}

// TestExplainOfARefusedZone prints what reading found of it and ends with 1.
func TestExplainOfARefusedZone(t *testing.T) {
	book := filepath.Join(t.TempDir(), "book.xlsx")
	require.NoError(t, writeBook(book, []string{"Sites"}, func(string) string {
		return "Site ID\tArea [m²]\tStation\tStage\nN-2\tmany\tBurlington, VT\tnew pour\n"
	}))
	for _, more := range [][]string{nil, {"--json"}} {
		said, err := exec.Command("thawbook", append([]string{"explain", book, "N-2"}, more...)...).Output()
		ended := (*exec.ExitError)(nil)
		require.ErrorAs(t, err, &ended)
		assert.Equal(t, exitPartial, ended.ExitCode())
		assert.Contains(t, strings.Join(strings.Fields(string(said)), " "), "is not a number")
		assert.Contains(t, string(said), "B2")
	}
}
