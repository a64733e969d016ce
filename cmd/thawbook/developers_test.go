package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDependenciesHaveReasons: DEVELOPERS.md gives a reason for each module that go.mod requires directly, and for no other.
func TestDependenciesHaveReasons(t *testing.T) {
	page, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	_, table, found := strings.Cut(string(page), "\n## Dependencies\n")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n## ")
	var told []string
	for _, row := range regexp.MustCompile(`(?m)^\| (\S+\.\S+/\S+) \| (.*\S) \|$`).FindAllStringSubmatch(table, -1) {
		told = append(told, row[1])
	}
	module, err := os.ReadFile("../../go.mod")
	require.NoError(t, err)
	var required []string
	for _, line := range regexp.MustCompile(`(?m)^(?:require )?\s*(\S+\.\S+/\S+) v\S+( // indirect)?$`).FindAllStringSubmatch(string(module), -1) {
		if line[2] == "" {
			required = append(required, line[1])
		}
	}
	require.NotEmpty(t, required)
	assert.ElementsMatch(t, required, told)
}
