package cost

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// calculated has a spreadsheet program calculate formulas, one a row.
func calculated(t *testing.T, formulas []string) []string {
	t.Helper()
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("needs soffice (LibreOffice) on the path: financial functions of a spreadsheet are the reference here")
	}
	folder := t.TempDir()
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?><office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" ` +
		`xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" ` +
		`xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">` +
		`<office:body><office:spreadsheet><table:table table:name="a">`)
	for _, f := range formulas {
		fmt.Fprintf(&b, `<table:table-row><table:table-cell table:formula="of:=%s"/></table:table-row>`, f)
	}
	b.WriteString(`</table:table></office:spreadsheet></office:body></office:document>`)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "a.fods"), []byte(b.String()), 0o600))
	cmd := exec.CommandContext(t.Context(), office, "-env:UserInstallation=file://"+filepath.Join(folder, "profile"), "--headless", "--convert-to", "csv", "--outdir", folder,
		filepath.Join(folder, "a.fods"))
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	f, err := os.Open(filepath.Join(folder, "a.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(formulas))
	list := make([]string, len(rows))
	for i, row := range rows {
		list[i] = row[0]
	}
	return list
}

// TestAgainstASpreadsheet holds present values, uniform factors and net savings of random cash flows to NPV, PV and IRR of a spreadsheet program.
func TestAgainstASpreadsheet(t *testing.T) {
	const cases = 40
	r := rand.New(rand.NewPCG(3, 5))
	type kase struct {
		s           Study
		base, other Flows
	}
	var list []kase
	var formulas []string
	for range cases {
		k := kase{s: Study{Years: 2 + r.IntN(38), Discount: 0.001 + 0.12*r.Float64()}}
		k.base, k.other = randomFlows(r, k.s), randomFlows(r, k.s)
		k.base.First, k.base.Replacements, k.base.Residual = 0, nil, 0
		k.other.Replacements, k.other.Residual = nil, 0 // one change of sign: one rate of return
		k.other.Streams = []Stream{{Yearly: k.base.Streams[0].Yearly / 3, Escalation: k.base.Streams[0].Escalation}}
		k.base.Streams = k.base.Streams[:1]
		mixed := randomFlows(r, k.s)
		list = append(list, k, kase{s: k.s, base: mixed})
		rate := fmt.Sprintf("%.17g", k.s.Discount)
		formulas = append(formulas,
			fmt.Sprintf("PV(%s;%d;-1)*1000000", rate, k.s.Years),
			fmt.Sprintf("%d+NPV(%s;%s)", mixed.First, rate, paid(mixed, k.s)),
			fmt.Sprintf("NPV(%s;%s)-NPV(%s;%s)-%d", rate, paid(k.base, k.s), rate, paid(k.other, k.s), k.other.First),
			fmt.Sprintf("IRR({-%d;%s};0.1)*1000000", k.other.First, saved(k.base, k.other, k.s)))
	}
	answers := calculated(t, formulas)
	rates := 0
	for i := range cases {
		k, mixed := list[2*i], list[2*i+1].base
		assert.InDelta(t, num(t, answers[4*i]), 1e6*UPV(k.s.Discount, k.s.Years), 0.02, "uniform factor")
		life, err := Value(k.s, mixed)
		require.NoError(t, err)
		assert.InDelta(t, num(t, answers[4*i+1]), float64(life.Total), 4, "present value: each part is rounded to a minor unit")
		c, err := Compare(k.s, k.base, k.other)
		require.NoError(t, err)
		assert.InDelta(t, num(t, answers[4*i+2]), float64(c.Net), 3, "net savings")
		rate := answers[4*i+3]
		if strings.HasPrefix(rate, "Err") || strings.HasPrefix(rate, "#") || num(t, rate) < -5e5 || num(t, rate) > 5e6 {
			continue // no rate within what the program looks through
		}
		rates++
		d := num(t, rate) / 1e6
		at, err := Compare(Study{Years: k.s.Years, Discount: d}, k.base, k.other)
		require.NoError(t, err)
		if d > 0 {
			assert.InDelta(t, 0, float64(at.Net), 3+1e-4*float64(k.other.First), "nothing is saved at the internal rate of return")
			assert.InDelta(t, 1, at.SIR.Value, 1e-3)
			assert.InDelta(t, d, at.AIRR.Value, 1e-4, "and the adjusted one is the same there")
		}
	}
	assert.Greater(t, rates, cases/2)
}

// paid lists what is paid in each year, the residual value coming off the last.
func paid(f Flows, s Study) string {
	list := make([]string, s.Years)
	for y := 1; y <= s.Years; y++ {
		amount := 0.0
		for _, e := range f.Replacements {
			if e.Year == y {
				amount += float64(e.Amount)
			}
		}
		for _, stream := range f.Streams {
			amount += float64(stream.Yearly) * math.Pow(1+stream.Escalation, float64(y))
		}
		if y == s.Years {
			amount -= float64(f.Residual)
		}
		list[y-1] = fmt.Sprintf("%.17g", amount)
	}
	return strings.Join(list, ";")
}

// saved lists what an alternative saves in each year.
func saved(base, other Flows, s Study) string {
	list := make([]string, s.Years)
	for y := 1; y <= s.Years; y++ {
		amount := 0.0
		for _, stream := range base.Streams {
			amount += float64(stream.Yearly) * math.Pow(1+stream.Escalation, float64(y))
		}
		for _, stream := range other.Streams {
			amount -= float64(stream.Yearly) * math.Pow(1+stream.Escalation, float64(y))
		}
		list[y-1] = fmt.Sprintf("%.17g", amount)
	}
	return strings.Join(list, ";")
}
