package outdir

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// NameParts is what a file name is made of.
type NameParts struct {
	Project, Site, Name, Revision string
}

// longest is how many bytes of a name we use: every file system takes it, with an ending behind, inside the paths of an ordinary folder.
const longest = 100

// blankName stands for a name of which nothing is left.
const blankName = "site"

// Names returns one file name for each item, without an ending, from a pattern of {project}, {site}, {name} and {revision}. Every system can
// write them: no separators, no reserved words, bounded. No two are alike where case and accents are not told apart: the lowest Site ID has the
// plain name, each other one a suffix made from its own ID, so that sorting the workbook changes no name.
func Names(pattern string, items []NameParts) []string {
	names := make([]string, len(items))
	taken := map[string]bool{}
	var again []int
	for _, i := range bySite(items) {
		names[i] = safe(fill(pattern, items[i]))
		if key := folded(names[i]); taken[key] {
			again = append(again, i)
		} else {
			taken[key] = true
		}
	}
	for _, i := range again {
		plain := names[i]
		for round := 0; taken[folded(names[i])]; round++ {
			names[i] = withSuffix(plain, items[i].Site, round)
		}
		taken[folded(names[i])] = true
	}
	return names
}

// bySite returns the indices in the order of Site IDs, whatever the order of rows.
func bySite(items []NameParts) []int {
	order := make([]int, len(items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(items[a].Site, items[b].Site) })
	return order
}

func fill(pattern string, p NameParts) string {
	return strings.NewReplacer("{project}", p.Project, "{site}", p.Site, "{name}", p.Name, "{revision}", p.Revision).Replace(pattern)
}

// folded is what a file system that knows no case may take a name for.
func folded(name string) string { return cases.Fold().String(norm.NFKD.String(name)) }

func withSuffix(name, site string, round int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s/%d", site, round))
	suffix := "-" + hex.EncodeToString(sum[:3])
	return strings.TrimRight(shortened(name, longest-len(suffix)), dangling) + suffix
}

// dangling is what a name neither begins nor ends with: hidden files, options of commands, and what some systems drop in silence.
const dangling = " .-"

// safe returns a name that every system can write.
func safe(name string) string {
	name = strings.Map(allowed, norm.NFC.String(strings.ToValidUTF8(name, "-")))
	name = strings.Trim(strings.Join(strings.Fields(name), " "), dangling)
	name = strings.TrimRight(shortened(name, longest), dangling)
	if name == "" {
		return blankName
	}
	if reserved(name) {
		return "_" + shortened(name, longest-1)
	}
	return name
}

// allowed maps what separates folders or steers a shell to a hyphen, every kind of space to a space, and drops what can't be seen.
func allowed(r rune) rune {
	switch {
	case strings.ContainsRune(`/\:*?"<>|`, r):
		return '-'
	case unicode.IsSpace(r):
		return ' '
	case !unicode.IsGraphic(r):
		return -1
	}
	return r
}

// reserved says whether a name, up to its first dot, is that of a device on some system.
func reserved(name string) bool {
	stem, _, _ := strings.Cut(strings.ToUpper(name), ".")
	stem = strings.TrimRight(stem, " ")
	switch stem {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$", "CLOCK$":
		return true
	}
	port, isPort := strings.CutPrefix(stem, "COM")
	if !isPort {
		port, isPort = strings.CutPrefix(stem, "LPT")
	}
	return isPort && utf8.RuneCountInString(port) == 1 && strings.Contains("0123456789¹²³", port)
}

// shortened cuts a name to so many bytes, between whole characters with their accents.
func shortened(name string, most int) string {
	if len(name) <= most {
		return name
	}
	cut := 0
	for next := 0; next <= most; {
		cut = next
		step := norm.NFC.NextBoundaryInString(name[next:], true)
		if step <= 0 {
			break
		}
		next += step
	}
	return name[:cut]
}
