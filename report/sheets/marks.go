package sheets

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// mark colours the cells whose word says how things stand, by conditional formats: they stay right when a person sorts, or writes over a cell.
func (t *table) mark() error {
	t.marks = map[string]bool{}
	for i, c := range t.Columns {
		var rules []excelize.ConditionalFormatOptions
		switch c.Look {
		case Status:
			rules = t.statusRules(t.at[i])
		case Chosen:
			rules = t.chosenRules()
		}
		if len(rules) == 0 {
			continue
		}
		for _, r := range rules {
			t.marks[shape(r.Criteria)] = true
		}
		area := cellName(t.at[i], 2) + ":" + cellName(t.at[i], max(t.rows, 2))
		if err := t.writer.file.SetConditionalFormat(t.name, area, rules); err != nil {
			return err
		}
	}
	return nil
}

// statusRules give each word its colour.
func (t *table) statusRules(col int) []excelize.ConditionalFormatOptions {
	words := map[string][]string{}
	for _, word := range slices.Sorted(maps.Keys(statusFill)) {
		words[statusFill[word]] = append(words[statusFill[word]], fmt.Sprintf(`$%s="%s"`, place{col: col, row: 2}, word))
	}
	var rules []excelize.ConditionalFormatOptions
	for _, fill := range []string{errorFill, checkFill, doneFill, otherFill} {
		if len(words[fill]) > 0 {
			rules = append(rules, t.rule("OR("+strings.Join(words[fill], ",")+")", t.writer.looks.statusMark(fill)))
		}
	}
	return rules
}

// chosenRules make the words of a chosen row bold.
func (t *table) chosenRules() []excelize.ConditionalFormatOptions {
	col := t.column("chosen")
	if col == 0 {
		return nil
	}
	word := t.writer.head.Words.Say("chosen")
	formula := fmt.Sprintf(`$%s="%s"`, place{col: col, row: 2}, strings.ReplaceAll(word, `"`, `""`))
	return []excelize.ConditionalFormatOptions{t.rule(formula, t.writer.looks.chosenMark())}
}

func (t *table) rule(formula string, format int) excelize.ConditionalFormatOptions {
	return excelize.ConditionalFormatOptions{Type: "formula", Criteria: formula, Format: &format}
}
