package words_test

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/templates"
)

// measure is a number with a unit of SI that readers of I-P don't use, and what follows it. Equations are left alone: they hold in SI.
var measure = regexp.MustCompile(`\d[ \x{00a0}](°C|K|mm|cm|m|km|m²|m³|W/m²|W/m|W/m·K|kg|l|L|kPa)([ ,.;:)]|$).{0,40}`)

// twofold are sentences about units, or that give both in words of their own.
var twofold = map[string]bool{"pipe-unknown": true, "insulation-looks-ip": true, "starter-help-units": true}

// TestSentencesGiveBothUnits: a sentence that holds a measure of its own gives it in I-P too, in brackets behind; others are filled in the reader's units.
func TestSentencesGiveBothUnits(t *testing.T) {
	texts := templates.FS()
	files, err := fs.Glob(texts, "en/*.tsv")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		data, err := fs.ReadFile(texts, file)
		require.NoError(t, err)
		for line := range strings.SplitSeq(string(data), "\n") {
			code, text, _ := strings.Cut(line, "\t")
			if twofold[code] {
				continue
			}
			for _, m := range measure.FindAllString(text, -1) {
				_, behind, _ := strings.Cut(m, " (")
				assert.Regexp(t, `^[^)]*(°F|in|ft|mi|ft²|lb|gal|psi|Btu)`, behind, "%s %s: %q", file, code, m)
			}
		}
	}
}
