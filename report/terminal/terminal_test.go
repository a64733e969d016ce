package terminal_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/portfolio"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report/internal/sample"
	"thawbook/report/record"
	"thawbook/report/show"
	"thawbook/report/terminal"
	"thawbook/report/words"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write the golden files anew")

func texts(t *testing.T, s show.Style) *words.Words {
	t.Helper()
	w, err := words.Load(templates.FS(), "en", s)
	require.NoError(t, err)
	return w
}

func golden(t *testing.T, name string, write func(io.Writer) error) string {
	t.Helper()
	text := written(t, write)
	file := filepath.Join("testdata", name)
	if *update {
		require.Empty(t, os.Getenv("CI"), "goldens are not written in CI")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), text)
	return text
}

// written returns what is written, which keeps to the width and lacks no sentence.
func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	for line := range strings.SplitSeq(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 110, line)
	}
	assert.NotRegexp(t, `\[[a-z]+-[a-z-]+\]|\{[a-z]+\}`, b.String(), "a sentence or a value is missing")
	return b.String()
}

func found() []finding.Finding {
	var all []finding.Finding
	for _, s := range sample.Sites(8) {
		all = append(all, s.Summary.Findings...)
	}
	note := finding.New(finding.Info, "results-separate", "", finding.Words("why", strings.Repeat("long ", 40)))
	note.Site = "S001"
	return append(all, note)
}

func TestCheck(t *testing.T) {
	w := texts(t, show.Style{Currency: "USD"})
	c := terminal.Counts{Sites: 8, Zones: 15, NotIncluded: 1}
	out := golden(t, "check.golden.txt", func(o io.Writer) error { return terminal.Check(o, w, found(), c) })
	assert.Contains(t, out, "Sites!C9")
	assert.Contains(t, out, "Sites: 8; zones: 15")

	var b bytes.Buffer
	require.NoError(t, terminal.CheckJSON(&b, w, found(), c))
	var got struct {
		Sites    int
		Findings []map[string]any
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Equal(t, 8, got.Sites)
	require.Len(t, got.Findings, 3)
	assert.Equal(t, "error", got.Findings[0]["severity"])
}

func TestExplain(t *testing.T) {
	o := sample.Site(0).Outcomes[0]
	for _, tt := range []struct {
		system units.System
		want   []string
	}{
		{units.SI, []string{"q_m ", "melting flux", "235.5  W/m²", "q_m = ρ_w s h_if", "with s\u00a0=\u00a02.54\u00a0mm/h", "Sources\n"}},
		{units.IP, []string{"235.5  W/m²", "74.653  Btu/h·ft²"}}, // 235.5 ÷ 3.154591
	} {
		w := texts(t, show.Style{Currency: "USD", Units: tt.system})
		out := written(t, func(to io.Writer) error { return terminal.Explain(to, w, o, o.Steps()) })
		for _, want := range tt.want {
			assert.True(t, strings.Contains(out, want), want)
		}
	}
	w := texts(t, show.Style{Currency: "USD"})
	var b bytes.Buffer
	require.NoError(t, terminal.ExplainJSON(&b, w, o, o.Steps()))
	var got struct {
		Steps   []map[string]any
		Sensing record.Sensing
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Len(t, got.Steps, len(o.Steps()))
	assert.Len(t, got.Sensing.Detectors, len(o.Sensing.Numbers))
}

func TestExplainOfAZoneWithoutResults(t *testing.T) {
	w := texts(t, show.Style{Currency: "USD"})
	o := sample.Site(6).Outcomes[1]
	golden(t, "explain-nothing.golden.txt", func(to io.Writer) error { return terminal.Explain(to, w, o, o.Steps()) })
	var b bytes.Buffer
	require.NoError(t, terminal.ExplainJSON(&b, w, o, o.Steps()))
	var got struct {
		Status   string
		Findings []map[string]any
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Equal(t, calc.StatusError, got.Status)
	require.Len(t, got.Findings, 1)
	assert.Equal(t, "C9", got.Findings[0]["cell"])
	o.Findings = nil
	assert.NotContains(t, written(t, func(to io.Writer) error { return terminal.Explain(to, w, o, o.Steps()) }), "What is missing", "nothing stands below it")
}

func station() weather.Station {
	hours := make([]weather.Hour, 100)
	hours[3].SnowMM, hours[4].RainMM = 2.5, 1
	return weather.Station{Name: "Burlington", LatDeg: 44.47, LonDeg: -73.15, ElevationM: 104, Kind: weather.Typical,
		Sources: []weather.Source{{File: "burlington.epw", SHA256: strings.Repeat("0f", 32)}},
		Years:   []weather.Year{{Label: "typical", Hours: hours, Missing: 3, Filled: 2, SnowRule: weather.RuleCodesSnow}}}
}

func TestWeather(t *testing.T) {
	load := sample.Site(0).Outcomes[0].Load
	r := terminal.WeatherReport{Station: station(), Load: *load}
	for _, tt := range []struct {
		name  string
		style show.Style
	}{{"weather-si.golden.txt", show.Style{DecimalMark: ","}}, {"weather-ip.golden.txt", show.Style{Units: units.IP}}} {
		w := texts(t, tt.style)
		golden(t, tt.name, func(o io.Writer) error { return terminal.Weather(o, w, r) })
	}
	var b bytes.Buffer
	require.NoError(t, terminal.WeatherJSON(&b, r))
	var got map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.InDelta(t, 2.5, got["snow_water_mm_a_year"], 1e-9)
	assert.InDelta(t, 335, got["frequency_w_m2"].(map[string]any)["1"].(map[string]any)["98"], 1e-9)
}

func TestReceipt(t *testing.T) {
	w := texts(t, show.Style{Currency: "USD"})
	p := portfolio.New("USD")
	sites := map[string]int{}
	for _, s := range sample.Sites(12) {
		if entry, included := s.Summary.Portfolio(); included {
			p.Add(entry)
		}
		sites[s.Summary.Status]++
	}
	run := terminal.Run{Sites: sites, Total: p.All(), Findings: found(), Files: []string{"out/book.results.xlsx", "out/submittals"}}
	out := golden(t, "receipt.golden.txt", func(o io.Writer) error { return terminal.Receipt(o, w, run) })
	assert.Contains(t, out, "example prices")
	assert.NotContains(t, out, "info", "notes are nothing to fix")

	bare := terminal.Run{Sites: map[string]int{calc.Incomplete: 1, calc.Failed: 1, calc.DoneCheck: 1}, Total: portfolio.Total{Sites: 3, Unwintered: 2, Design: portfolio.Sum{Without: 3}}}
	out = golden(t, "receipt-bare.golden.txt", func(o io.Writer) error { return terminal.Receipt(o, w, bare) })
	assert.Contains(t, out, "since a price is missing: 1")
	assert.Contains(t, out, "could not be calculated through a winter: 2")
	assert.NotContains(t, out, " 0", "what isn't known is blank")
	assert.Equal(t, "No pavement was read, so nothing was calculated.\n", written(t, func(o io.Writer) error { return terminal.Receipt(o, w, terminal.Run{}) }))
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestAFailedWriteIsTold(t *testing.T) {
	w := texts(t, show.Style{})
	assert.ErrorIs(t, terminal.Check(full{}, w, nil, terminal.Counts{}), io.ErrShortWrite)
}
