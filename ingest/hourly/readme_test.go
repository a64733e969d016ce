package hourly

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeTellsEveryHeading: the page that strangers read names every heading of the plain hourly CSV.
func TestReadmeTellsEveryHeading(t *testing.T) {
	page, err := os.ReadFile(filepath.Join(moduleRoot(t), "README.md"))
	require.NoError(t, err)
	for _, c := range csvColumns {
		assert.Regexp(t, `(?m)^\|.*\b`+c.heading+`\b.*\|`, string(page))
	}
	for _, heading := range []string{csvTime, csvWeather} {
		assert.Contains(t, string(page), "| "+heading+" |")
	}
}
