package starter

import (
	"flag"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/ingest/columns"
	"thawbook/templates"
)

var update = flag.Bool("update", false, "write ingest/README.md anew")

const referencePage = "../README.md"

func TestReferencePageIsCurrent(t *testing.T) {
	page, err := Reference()
	require.NoError(t, err)
	if *update {
		require.Empty(t, os.Getenv("CI"), "a page is not written anew where it is checked")
		require.NoError(t, os.WriteFile(referencePage, []byte(page), 0o644))
	}
	stored, err := os.ReadFile(referencePage)
	require.NoError(t, err)
	assert.Equal(t, string(stored), page, "run go test ./ingest/starter -update")
}

// Each default that is listed in results has words for its reason.
func TestEveryDefaultHasItsReason(t *testing.T) {
	texts, err := readTexts(templates.FS())
	require.NoError(t, err)
	var codes []string
	for _, list := range sheets() {
		for _, c := range list {
			if c.dfltSource != "" {
				codes = append(codes, c.dfltSource)
			}
		}
	}
	for _, code := range codes {
		assert.NotEmpty(t, texts.reasons[code], "%s has no line in templates/en/defaults.tsv", code)
	}
}

// The columns that stand first are columns of Sites, each required one among them.
func TestStartFields(t *testing.T) {
	found := map[string]bool{}
	for _, c := range plain(columns.Sites()) {
		found[string(c.field)] = true
		if c.required {
			assert.Contains(t, startFields, c.field)
		}
	}
	for _, f := range startFields {
		assert.True(t, found[string(f)], f)
	}
}

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		v    float64
		how  func(float64) float64
		want string
	}{
		{0.075 / 0.001, upward, "75"}, {0.6 / 0.001, downward, "600"}, {5.3819552, upward, "5.39"}, {1076391.04, downward, "1,070,000"},
		{-1410.76, upward, "-1,410"}, {0, math.Round, "0"}, {37.4, math.Round, "37.4"}, {9.144, math.Round, "9.14"}, {100000, downward, "100,000"},
	} {
		assert.Equal(t, c.want, rounded(c.v, c.how))
	}
}
