package sheets

import (
	"bytes"
	"strings"

	"thawbook/calc/finding"
)

// CodeSheetAstray tells of a sheet of ours that another program renamed without its mark.
const CodeSheetAstray finding.Code = "result-sheet-renamed"

// mostOfColumns is the share of our headings from which on a sheet is taken for one of ours.
const mostOfColumns = 0.75

// tellAstray tells of the sheet that a mark no longer leads to, where there is one like it. A sheet that was deleted has none.
func (w *Writer) tellAstray(t *table) error {
	was, left := w.source.astray[t.Key]
	if !left {
		return nil
	}
	now, err := w.source.like(t.sheet)
	if err != nil || now == "" {
		return err
	}
	f := finding.New(finding.Warning, CodeSheetAstray, "", finding.Words("sheet", was), finding.Words("now", now), finding.Words("ours", t.name))
	f.At = finding.Cell{Sheet: now}
	w.found = append(w.found, f)
	return nil
}

// like returns the name of the first sheet without a mark that bears the headings of ours; empty without one.
func (s *source) like(ours sheet) (string, error) {
	marked := map[string]bool{}
	for _, m := range s.marked {
		marked[m.sheet.Name] = true
	}
	shared, err := s.book.Strings()
	if err != nil {
		return "", err
	}
	for _, name := range s.names {
		if marked[name.Name] || !s.book.Has(name.Part) {
			continue
		}
		text, err := s.book.Part(name.Part)
		if err != nil {
			return "", err
		}
		if headed(text, shared, ours) {
			return name.Name, nil
		}
	}
	return "", nil
}

// headed says whether the first row of a sheet holds most of our headings.
func headed(text []byte, shared []string, ours sheet) bool {
	_, rows, _, _ := cutRows(text)
	first, _, _ := bytes.Cut(rows, []byte("</row>"))
	there := map[string]bool{}
	eachRow(string(first)+"</row>", func(row int, _, inner string) {
		eachCell(row, inner, func(c rawCell) {
			there[bare(strings.TrimSpace(c.text(shared)))] = row == 1
		})
	})
	n := 0
	for _, c := range ours.Columns {
		if there[c.Heading] {
			n++
		}
	}
	return float64(n) >= mostOfColumns*float64(len(ours.Columns))
}
