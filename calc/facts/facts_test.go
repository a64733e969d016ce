package facts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
)

func parse(t *testing.T, text string) facts.Table {
	t.Helper()
	read, err := facts.Parse("t.tsv", strings.NewReader(text))
	require.NoError(t, err)
	return read
}

func TestParse(t *testing.T) {
	got := parse(t, "\ufeff# a note\r\nstage\t slope\t->code\t->kit\r\n\r\n new | old \t\ta\tx y\r\n# between\r\n\tsteep\tb\r\n")
	assert.Equal(t, facts.Table{Name: "t.tsv", Line: 2, Facts: []string{"stage", "slope"}, Effects: []string{"code", "kit"}, Rows: []facts.Row{
		{Line: 4, Conditions: map[string][]string{"stage": {"new", "old"}}, Effects: map[string]string{"code": "a", "kit": "x y"}},
		{Line: 6, Conditions: map[string][]string{"slope": {"steep"}}, Effects: map[string]string{"code": "b"}},
	}}, got)
}

func TestParseErrors(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"empty", "", "t.tsv: no heading row"},
		{"only notes", "# a\n\n", "t.tsv: no heading row"},
		{"no effect", "stage\tslope\n", `t.tsv: line 1: no column is marked "->"`},
		{"fact behind effect", "->code\tstage\n", `t.tsv: line 1: the fact "stage" stands behind an effect`},
		{"twice", "stage\tstage\t->code\n", `t.tsv: line 1: the heading "stage" stands twice`},
		{"effect twice", "->code\t->code\n", `t.tsv: line 1: the heading "->code" stands twice`},
		{"blank heading", "stage\t\t->code\n", "t.tsv: line 1: a column has no heading"},
		{"too many cells", "stage\t->code\nnew\ta\tb\n", "t.tsv: line 2: 3 cells under 2 headings"},
		{"says nothing", "stage\t->code\nnew\n", "t.tsv: line 2: the row says nothing"},
		{"both told", "stage\t->code\nnew\nnew\ta\tb\n", "t.tsv: line 3: 3 cells"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := facts.Parse("t.tsv", strings.NewReader(tt.text))
			assert.ErrorContains(t, err, tt.want)
		})
	}
}

func TestMatch(t *testing.T) {
	table := parse(t, "stage\tslope\t->code\nnew\tsteep\ta\nnew|old\t\tb\n\tunknown\tc\n\t\tb\n")
	codes := func(s facts.Set) (out []string) {
		for _, r := range table.Match(s) {
			out = append(out, r.Effects[facts.Code])
		}
		return out
	}
	assert.Equal(t, []string{"a", "b", "b"}, codes(facts.Set{"stage": "new", "slope": "steep"}))
	assert.Equal(t, []string{"b", "c", "b"}, codes(facts.Set{"stage": "old"}), "a fact that is not told is unknown")
	assert.Equal(t, []string{"b"}, codes(facts.Set{"stage": "other", "slope": "flat"}))
	assert.Equal(t, []string{"b", "c"}, table.Codes(facts.Set{"stage": "old"}), "each code once")

	first, found := table.First(facts.Set{"slope": "unknown"})
	assert.True(t, found)
	assert.Equal(t, 4, first.Line)
	assert.Empty(t, first.Conditions["stage"])
	assert.Equal(t, []string{"slope"}, first.Asks())
	_, found = facts.Table{}.First(nil)
	assert.False(t, found)
}

func TestOverlapsAndDead(t *testing.T) {
	table := parse(t, "stage\tslope\t->kit\t->effect\n"+
		"new\t\tx\tyes\n"+ // 2
		"old\t\tx\tno\n"+ // 3: excluded by 2
		"\tsteep\tx\tno\n"+ // 4: overlaps 2; agrees with 3
		"new\tsteep|flat\tx\tno\n"+ // 5: dead under 2
		"new\t\ty\tno\n"+ // 6: another subject
		"new|old\t\tx\tyes\n") // 7: wider than 2, overlaps 3, 4, 5
	lines := func(pairs []facts.Pair) (out [][2]int) {
		for _, p := range pairs {
			out = append(out, [2]int{p.Earlier.Line, p.Later.Line})
		}
		return out
	}
	assert.Equal(t, [][2]int{{2, 4}, {2, 5}, {3, 7}, {4, 7}, {5, 7}}, lines(table.Overlaps("kit", "effect")))
	assert.Equal(t, [][2]int{{2, 5}}, lines(table.Dead("kit")))
	assert.Equal(t, [][2]int{{2, 5}, {2, 6}}, lines(table.Dead("")), "all rows about one thing")
}

func TestVocabulary(t *testing.T) {
	table := parse(t, "stage\tslop\t->code\nnew\t\ta\nnw|old\tsteep\tb\n")
	err := facts.Vocabulary{"stage": {"new", "old"}, "slope": {"steep"}}.Check(table)
	require.Error(t, err)
	assert.Equal(t, "t.tsv: line 1: there is no fact \"slop\"\nt.tsv: line 3: \"nw\" is no word of the fact \"stage\"", err.Error())
	assert.NoError(t, facts.Vocabulary{"stage": {"new", "old", "nw"}, "slop": {"steep"}}.Check(table))
}

func TestCheck(t *testing.T) {
	table := parse(t, "stage\t->kit\t->code\nnew\tx\n\t\ta\nnew\t\ta\nold\t\tb\n")
	err := table.Check()
	require.Error(t, err)
	assert.Equal(t, "t.tsv: line 2: no code\nt.tsv: line 4: never heard: line 3 says \"a\" whenever it would", err.Error())
	assert.NoError(t, parse(t, "stage\t->code\nnew\ta\n\ta\n\tb\n").Check(), "the narrower row first is heard")
}

func FuzzParse(f *testing.F) {
	f.Add("stage\t->code\nnew|old\ta\n")
	f.Add("# x\n->a\n\t\n|\n")
	f.Fuzz(func(t *testing.T, text string) {
		read, err := facts.Parse("t", strings.NewReader(text))
		if err != nil {
			return
		}
		for _, r := range read.Rows {
			if len(r.Effects) == 0 || r.Line < 1 {
				t.Fatal("a row without an effect or a line")
			}
			for _, words := range r.Conditions {
				for _, w := range words {
					if strings.TrimSpace(w) == "" {
						t.Fatal("a blank word")
					}
				}
			}
		}
	})
}
