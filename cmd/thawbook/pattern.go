package main

import (
	"regexp"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
)

// matcher makes a pattern for Site IDs: * stands for any text, ? for one character, and case does not matter.
func matcher(pattern string) *regexp.Regexp {
	quoted := regexp.QuoteMeta(pattern)
	quoted = strings.NewReplacer(`\*`, `.*`, `\?`, `.`).Replace(quoted)
	return regexp.MustCompile(`(?is)^` + quoted + `$`)
}

// selected says for each site whether a pattern matches it; without patterns all are. A pattern that matches none is wrong usage.
func (p *program) selected(sites []calc.Site, patterns []string) ([]bool, error) {
	wanted := make([]bool, len(sites))
	for i := range wanted {
		wanted[i] = len(patterns) == 0
	}
	for _, pattern := range patterns {
		m, found := matcher(pattern), false
		for i, s := range sites {
			if m.MatchString(s.ID) {
				wanted[i], found = true, true
			}
		}
		if !found {
			return nil, p.misuse("usage-no-site", finding.Words("pattern", pattern))
		}
	}
	return wanted, nil
}
