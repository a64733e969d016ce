package words_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/show"
	"thawbook/report/words"
)

const ours = "code\twhat\tdo\na\t{area} is wrong\tleave it\nb\tsecond\tthing\n"

// own is a user's folder with one file.
func own(file, tsv string) fstest.MapFS { return fstest.MapFS{file: {Data: []byte(tsv)}} }

func TestAUsersLinesStandInPlaceOfOurs(t *testing.T) {
	w, err := load(t, ours)
	require.NoError(t, err)
	require.NoError(t, w.Lay(own("en/findings.tsv", "code\twhat\tdo\nfirm\tours alone\task {who}\na\tnot right: {area}\task us\n"), "en"))
	what, do := w.Finding(finding.Finding{Code: "a", Args: []finding.Arg{finding.Value("area", 0, units.Area)}})
	assert.Equal(t, "not right: 0\u00a0ft²", what)
	assert.Equal(t, "ask us", do)
	what, _ = w.Finding(finding.Finding{Code: "b"})
	assert.Equal(t, "second", what, "a line that is not theirs stays")
	assert.Equal(t, []string{"a", "b", "firm"}, w.Codes(words.Findings), "in our order, theirs behind")
}

func TestABrokenLineOfAUserNamesItsFileAndChangesNothing(t *testing.T) {
	for _, tt := range []struct{ name, file, tsv, want string }{
		{"nothing to fill", "en/findings.tsv", "code\twhat\tdo\nb\tother\tthing\na\t{size} is wrong\tx\n", `en/findings.tsv: line 3: "a" has nothing for {size}; there is: {area}`},
		{"no end", "en/findings.tsv", "code\twhat\tdo\nb\tother {area\tx\n", `en/findings.tsv: line 2: "b" has a { or } without the other`},
		{"no such table", "en/finding.tsv", "code\twhat\tdo\n", "en/finding.tsv: no table of ours"},
		{"a column short", "en/findings.tsv", "code\twhat\nb\tother\n", "en/findings.tsv: line 1: 2 columns, 3 wanted"},
		{"twice", "en/findings.tsv", "code\twhat\tdo\nb\tother\tx\nb\tother\tx\n", `en/findings.tsv: line 3: "b" stands twice`},
		{"too long", "en/findings.tsv", "code\twhat\tdo\nb\t" + strings.Repeat("long ", 2_000) + "\tx\n", "en/findings.tsv: line 2: a text of 10000 bytes"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w, err := load(t, ours)
			require.NoError(t, err)
			require.ErrorContains(t, w.Lay(own(tt.file, tt.tsv), "en"), tt.want)
			what, _ := w.Finding(finding.Finding{Code: "b"})
			assert.Equal(t, "second", what)
		})
	}
}

func TestAFilledTextHasAnEnd(t *testing.T) {
	w, err := load(t, "code\twhat\tdo\na\t"+strings.Repeat("{area}", 1_000)+"\tx\n")
	require.NoError(t, err)
	what, _ := w.Finding(finding.Finding{Code: "a", Args: []finding.Arg{finding.Words("area", strings.Repeat("Übergröße ", 1_000))}})
	assert.Less(t, len(what), 33_000)
	assert.True(t, strings.HasSuffix(what, "…"))
}

func TestASentenceThatNothingSaysIsRefused(t *testing.T) {
	w, err := words.Load(fstest.MapFS{"en/sentences.tsv": {Data: []byte("code\ttext\nyes\tYes.\n")}}, "en", show.Style{})
	require.NoError(t, err)
	require.NoError(t, w.Lay(fstest.MapFS{"en/sentences.tsv": {Data: []byte("code\ttext\nyes\tIndeed.\n")}}, "en"))
	assert.Equal(t, "Indeed.", w.Say("yes"))
	require.ErrorContains(t, w.Lay(fstest.MapFS{"en/sentences.tsv": {Data: []byte("code\ttext\nno-such-code\tx\n")}}, "en"), `en/sentences.tsv: line 2: "no-such-code" is the code of no sentence of ours`)
}
