package outdir

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

func TestNames(t *testing.T) {
	parts := func(sites ...string) []NameParts {
		var list []NameParts
		for _, s := range sites {
			list = append(list, NameParts{Project: "Harbour / phase 2", Site: s, Name: "North: ramp", Revision: "B"})
		}
		return list
	}
	long := strings.Repeat("é", 80)
	for _, tt := range []struct {
		name, pattern string
		sites, want   []string
	}{
		{"plain", "{site}", []string{"S-01", "S-02"}, []string{"S-01", "S-02"}},
		{"every part", "{project} {site} {name} {revision}", []string{"1"}, []string{"Harbour - phase 2 1 North- ramp B"}},
		{"unknown part stays", "{site} {house}", []string{"1"}, []string{"1 {house}"}},
		{"separators", "{site}", []string{`a/b\c:d`, "../../etc/passwd"}, []string{"a-b-c-d", "etc-passwd"}},
		{"folder in the pattern", "{project}/{site}", []string{"1"}, []string{"Harbour - phase 2-1"}},
		{"dots and spaces at the ends", "{site}", []string{" .hidden. ", "x...", "--force"}, []string{"hidden", "x", "force"}},
		{"nothing left", "{site}", []string{"..."}, []string{"site"}},
		{"devices", "{site}", []string{"CON", "nul.pdf", "com1", "lpt³", "COM10", "console", "Aux .x"}, []string{"_CON", "_nul.pdf", "_com1", "_lpt³", "COM10", "console", "_Aux .x"}},
		{"control characters and directions", "{site}", []string{"a\x00b\nc\u202ed"}, []string{"ab cd"}},
		{"broken text", "{site}", []string{"a\xff\xfeb"}, []string{"a-b"}},
		{"long, cut between characters", "{site}", []string{long}, []string{strings.Repeat("é", 50)}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Names(tt.pattern, parts(tt.sites...))
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestCollisionsAreToldApartTheSameWayInAnyOrder(t *testing.T) {
	items := []NameParts{{Site: "yard"}, {Site: "Yard"}, {Site: "YARD"}, {Site: "Cafe\u0301"}, {Site: "Café"}, {Site: "a/b"}, {Site: "a:b"}, {Site: "Straße"}, {Site: "STRASSE"}}
	first := Names("{site}", items)
	assert.Equal(t, "YARD", first[2], "the lowest ID has the plain name")
	turned := slices.Clone(items)
	slices.Reverse(turned)
	second := Names("{site}", turned)
	slices.Reverse(second)
	assert.Equal(t, first, second)
	distinct(t, first)
}

func TestASuffixThatSomeoneElseHasAsName(t *testing.T) {
	usual := Names("{site}", []NameParts{{Site: "A"}, {Site: "a"}})
	names := Names("{site}", []NameParts{{Site: "A"}, {Site: "a"}, {Site: usual[1]}})
	assert.Equal(t, usual[1], names[2])
	distinct(t, names)
}

func TestTheSameIDTwice(t *testing.T) {
	distinct(t, Names("{name}", []NameParts{{Site: "1"}, {Site: "1"}, {Site: "1"}}))
}

func distinct(t *testing.T, names []string) {
	t.Helper()
	seen := map[string]bool{}
	for _, n := range names {
		if seen[folded(n)] {
			t.Errorf("%q stands twice in %q", n, names)
		}
		seen[folded(n)] = true
	}
}

func FuzzNames(f *testing.F) {
	f.Add("{site}", "S-01", "s-01", "North", "B")
	f.Add("{project} {name}", "../x", "CON", "nul.", "\u202e")
	f.Add("../{site}/{revision}", "a\x00", "", "e\u0301", strings.Repeat("ab́c", 60))
	f.Add("{name}", strings.Repeat("\u0301", 300), "LPT1 .a", " . ", "-")
	f.Fuzz(func(t *testing.T, pattern, one, two, name, revision string) {
		items := []NameParts{{name, one, name, revision}, {name, two, name, revision}, {name, one, name, ""}}
		names := Names(pattern, items)
		distinct(t, names)
		for _, n := range names {
			if n == "" || len(n) > longest || !utf8.ValidString(n) {
				t.Errorf("%q is empty, too long or broken", n)
			}
			if strings.ContainsAny(n, `/\:*?"<>|`) || strings.ContainsFunc(n, unicode.IsControl) {
				t.Errorf("%q holds a separator", n)
			}
			if strings.Trim(n, dangling) != n || reserved(n) {
				t.Errorf("%q can't be written everywhere", n)
			}
		}
		if again := Names(pattern, items); !slices.Equal(names, again) {
			t.Errorf("%q, then %q", names, again)
		}
	})
}
