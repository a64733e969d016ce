package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

// What is no reference stays as it is, whatever it looks like.
func TestFormulasAreOtherwiseLeftAlone(t *testing.T) {
	for _, f := range []string{
		"", "1+2", `"A1 and ""B2"""&"'"`, "LOG10(5)", "ATAN2(1,2)", "Rate*1E5", "TRUE", "Table1[[#This Row],[A1 [m²]]]", "Results_Cost[Total '[USD'']]", "A:A", "1:5", "#REF!", "{1,2;3,4}", "x1y2", "_A1", "R1C1",
		"ABCD1", "A0", "XFE1", "A1048577", "Übung1", "A1B",
	} {
		assert.Equal(t, f, rewrite(f, func(sheet string, s span) string { return "!!" }), "%q", f)
	}
	for _, f := range []string{"A1", "$A$1:B2", "Sheet1!A1", "'O''Brien & Co'!$A1:B$2", "[1]Prices!A1", "'[b.xlsx]Prices'!A1", "SUM(A1:A9,B1)-IF(C1>D1,\"E1\",F1)", "A1#", "A1 B2", "A1%", "-A1^B2", "@A1", "INDEX(A1:B2,1,1):C3", "雪!A1"} {
		assert.Equal(t, f, rewrite(f, func(_ string, s span) string { return s.String() }), "put back as it was")
	}
}

func TestReferencesAreFound(t *testing.T) {
	for formula, want := range map[string][]string{
		"A1+$B$2":                      {"|A1", "|$B$2"},
		"SUM(A1:B2,'My sheet'!C3:$D4)": {"|A1:B2", "My sheet|C3:$D4"},
		"Mine!A1+B2":                   {"Mine|A1", "|B2"},
		"'O''Brien'!A1":                {"O'Brien|A1"},
		"[1]Prices!A1":                 {"]Prices|A1"},
		"VLOOKUP(A5,Mine!A:B,2,0)":     {"|A5"},
		"T[[#This Row],[x]]*A2":        {"|A2"},
		`"A1"&A2`:                      {"|A2"},
		"A1:Mine!B2":                   {"|A1", "Mine|B2"},
	} {
		var got []string
		rewrite(formula, func(sheet string, s span) string { got = append(got, sheet+"|"+s.String()); return "" })
		assert.Equal(t, want, got, formula)
	}
}

func TestCopiedFormulas(t *testing.T) {
	for _, tt := range []struct {
		formula     string
		down, right int
		want        string
	}{
		{"A1*$B$2+C$3+$D4", 2, 1, "B3*$B$2+D$3+$D6"},
		{"SUM(A1:A9)", 1, 0, "SUM(A2:A10)"},
		{"A1", -1, 0, "#REF!"},
		{"Mine!A1&\"A1\"", 3, 0, "Mine!A4&\"A1\""},
	} {
		assert.Equal(t, tt.want, copied(tt.formula, tt.down, tt.right))
	}
}

// Rows 2 to 5 became 5, 2, gone, 3; a new one is row 4, and below them two more stand.
func TestFormulasFollowTheirRows(t *testing.T) {
	m := moves{to: map[int]int{2: 5, 3: 2, 5: 3}, last: 5, newLast: 5}
	for formula, want := range map[string]string{
		"A2": "A5", "A3*B$3": "A2*B$2", "A4": "#REF!", "A1": "A1", "A6": "A6", "SUM(A2:A5)": "SUM(A2:A5)", "SUM(A1:A5)": "SUM(A1:A5)", "SUM(A2:A6)": "SUM(A2:A6)", "SUM(A3:A4)": "SUM(A2:A2)",
		"Mine!A2": "Mine!A2", "Ours!A2": "Ours!A5", "'Ours'!A2:B2": "'Ours'!A5:B5", "A2:A1048576": "A2:A1048576",
	} {
		assert.Equal(t, want, m.formula(formula, "Ours"), formula)
	}
	m.newLast = 9
	assert.Equal(t, "SUM(A2:A9)+A10", m.formula("SUM(A2:A5)+A6", "Ours"))
	assert.Equal(t, "C2:C9 D5 E:E", m.area("C2:C5 D2 D4 E:E"))
	assert.Empty(t, m.area("D4"))
}

// Whatever can be told has its words.
func TestEveryReasonHasWords(t *testing.T) {
	w, err := words.Load(templates.FS(), "en", show.Style{})
	assert.NoError(t, err)
	codes := []string{"refused-broken", "refused-twice", "refused-large", "refused-strict", "refused-shared", "chart-portfolio", "chart-set-points", "chart-season", "chart-temperature", "same-revision"}
	for _, h := range []hurdle{hurdleHeadings, hurdleKeys, hurdleTables, hurdleParts, hurdleMerged, hurdleArrays, hurdleWritten} {
		codes = append(codes, string(h))
	}
	for _, c := range codes {
		assert.True(t, w.Has(words.Sentences, c), c)
	}
}
