package submittal

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// pieces returns a word as runs, cut into several where it is wider than the line.
func (s style) pieces(word string, width float64) [][]run {
	if s.formula && strings.ContainsAny(word, "_^") {
		return [][]run{s.levels(word)}
	}
	var out [][]run
	for word != "" {
		part, wide := word, s.width(word, 0)
		if wide > width {
			part = s.fitting(word, width)
			wide = s.width(part, 0)
		}
		out = append(out, []run{{text: part, width: wide}})
		word = word[len(part):]
	}
	return out
}

// fitting returns the longest start of a word that fits, cut behind a mark where one is near the end, and at least one rune.
func (s style) fitting(word string, width float64) string {
	cut, mark, end := 0, 0, 0.0
	for i, r := range word {
		if end += s.width(string(r), 0); end > width && i > 0 {
			break
		}
		cut = i + utf8.RuneLen(r)
		if strings.ContainsRune("-/_.,;:·", r) {
			mark = cut
		}
	}
	if mark > cut/2 {
		return word[:mark]
	}
	return word[:cut]
}

// levels splits "q_m" and "Re^0.8" into runs: behind _ letters and digits are lowered, behind ^ a number, name or bracket is raised.
func (s style) levels(word string) []run {
	var out []run
	x := 0.0
	add := func(text string, level int8) {
		if text != "" {
			out = append(out, run{text: text, x: x, level: level, width: s.width(text, level)})
			x += out[len(out)-1].width
		}
	}
	for word != "" {
		i := strings.IndexAny(word, "_^")
		if i < 0 {
			break
		}
		add(word[:i], 0)
		level := int8(-1)
		if word[i] == '^' {
			level = 1
		}
		script, rest := scripted(word[i+1:], level)
		add(script, level)
		word = rest
	}
	add(word, 0)
	return out
}

// scripted cuts what is raised or lowered off the start of a text.
func scripted(text string, level int8) (script, rest string) {
	if level > 0 && strings.HasPrefix(text, "(") {
		if i := strings.Index(text, ")"); i > 0 {
			return text[1:i], text[i+1:]
		}
	}
	n := 0
	for i, r := range text {
		joins := level > 0 && strings.ContainsRune(".−-", r) || level < 0 && r == ',' && i < len(text)-1
		if !unicode.IsLetter(r) && !unicode.IsNumber(r) && !joins || strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", r) {
			break
		}
		n = i + utf8.RuneLen(r)
	}
	return text[:n], text[n:]
}
