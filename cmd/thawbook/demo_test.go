package main

import (
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	unfilled = regexp.MustCompile(`\{[a-z-]+\}`)
	wordless = regexp.MustCompile(`\[[a-z]+(-[a-z]+)+\]`)
)

// TestDemoDocuments holds that no document of the demo has a gap: no placeholder, no code without words, no number that is none.
func TestDemoDocuments(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("needs pdftotext")
	}
	out := t.TempDir()
	cmd := exec.Command("thawbook", "run", "--demo", "--quiet", "--out", out)
	require.NoError(t, cmd.Run())
	documents, err := filepath.Glob(filepath.Join(out, submittals, "*.pdf"))
	require.NoError(t, err)
	require.NotEmpty(t, documents)
	for _, d := range documents {
		said, err := exec.Command("pdftotext", "-layout", d, "-").Output()
		require.NoError(t, err)
		name, text := filepath.Base(d), string(said)
		assert.Empty(t, unfilled.FindAllString(text, -1), name)
		assert.Empty(t, wordless.FindAllString(text, -1), name)
		assert.Regexp(t, `Sites [A-Z]+\d+`, text, "%s: findings name their cells", name)
		for _, never := range []string{"NaN", "Inf", "□ □"} {
			assert.NotContains(t, text, never, name)
		}
		for _, always := range []string{"What is proposed", "What must be decided", "Design basis", "Load calculation", "Season and cost", "Cautions", "not a sealed design"} {
			assert.Contains(t, strings.Join(strings.Fields(text), " "), always, name)
		}
	}
}
