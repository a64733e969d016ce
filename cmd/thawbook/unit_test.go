package main

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/surface"
)

// quiet returns a program that writes into buffers.
func quiet(t *testing.T) (*program, *bytes.Buffer, *bytes.Buffer) {
	t.Helper()
	var out, errs bytes.Buffer
	p, err := newProgram(&out, &errs)
	require.NoError(t, err)
	return p, &out, &errs
}

func TestSitePatterns(t *testing.T) {
	p, _, _ := quiet(t)
	sites := []calc.Site{{ID: "S-01"}, {ID: "S-02"}, {ID: "N-1"}, {ID: "a.b"}, {ID: "two\nlines"}}
	for _, tt := range []struct {
		patterns string
		want     string
	}{
		{"", "11111"}, {"S-01", "10000"}, {"s-0?", "11000"}, {"*", "11111"}, {"S-*,N-*", "11100"}, {"*1", "10100"}, {"S-0", "none"},
		{"a?b", "00010"}, {"axb", "none"}, {"S-01,zzz", "none"}, {"two*", "00001"}, {"[S]*", "none"}, {"?", "none"},
	} {
		var patterns []string
		if tt.patterns != "" {
			patterns = strings.Split(tt.patterns, ",")
		}
		got, err := p.selected(sites, patterns)
		if tt.want == "none" {
			assert.Error(t, err, tt.patterns)
			continue
		}
		require.NoError(t, err, tt.patterns)
		for i, is := range got {
			assert.Equal(t, tt.want[i] == '1', is, "%s: %s", tt.patterns, sites[i].ID)
		}
	}
}

func TestFingerprintTellsValuesApart(t *testing.T) {
	type pair struct{ A, B string }
	one, two := 1.0, 1.0
	assert.Equal(t, fingerprint(&one), fingerprint(&two), "pointers to the same value")
	assert.Equal(t, fingerprint(map[string]int{"a": 1, "b": 2, "c": 3}), fingerprint(map[string]int{"c": 3, "b": 2, "a": 1}))
	assert.Equal(t, fingerprint(math.NaN()), fingerprint(math.NaN()))
	assert.Equal(t, fingerprint(errors.New("x")), fingerprint(errors.New("x")))
	var none *float64
	different := []any{nil, none, 1, 2, 1.0, uint8(1), true, false, "1", "", []int{}, []int{1}, []int{1, 2}, [2]int{1, 2}, []any{1, 2}, pair{"ab", ""}, pair{"a", "b"},
		pair{"", "ab"}, map[string]int{"a": 1}, map[string]int{"a": 2}, map[int]string{1: "a"}, errors.New("x"), []string{"a", "b"}, []string{"ab"}, &one,
		calc.Outcome{}, calc.Outcome{Err: errors.New("x")}, calc.Outcome{Load: &surface.Load{}}}
	seen := map[string]any{}
	for _, v := range different {
		f := fingerprint(v)
		if before, twice := seen[f]; twice {
			t.Errorf("%#v and %#v have the same fingerprint", before, v)
		}
		seen[f] = v
	}
}

func TestProgress(t *testing.T) {
	p, _, _ := quiet(t)
	var out bytes.Buffer
	clock := time.Unix(0, 0)
	tell := &progress{out: &out, say: p.words.Say, total: 4, every: time.Second, last: clock, now: func() time.Time { return clock }}
	for range 4 {
		clock = clock.Add(600 * time.Millisecond)
		tell.step()
	}
	assert.Equal(t, "2 of 4 sites\n4 of 4 sites\n", out.String())

	out.Reset()
	tell.bar, tell.done = true, 1
	tell.show()
	tell.clear()
	assert.Equal(t, "\r["+strings.Repeat("=", 10)+strings.Repeat(" ", 30)+"] 1 of 4 sites\r\x1b[K", out.String())

	var silent *progress
	silent.step()
	silent.clear()
}
