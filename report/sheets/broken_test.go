package sheets_test

import (
	"archive/zip"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc/units"
	"thawbook/report/internal/sample"
)

// damaged changes a text in a few places, as a bad program or a bad disk may.
func damaged(r *rand.Rand, text string) string {
	for range 1 + r.IntN(3) {
		a := r.IntN(len(text))
		b := min(len(text), a+r.IntN(40))
		switch r.IntN(4) {
		case 0:
			text = text[:a] + text[b:]
		case 1:
			text = text[:b] + text[a:]
		case 2:
			text = text[:a] + string(`<>"'/=&: A1$`[r.IntN(12)]) + text[b:]
		default:
			digits := []byte(text)
			for i := a; i < b; i++ {
				if digits[i] >= '0' && digits[i] <= '9' {
					digits[i] = byte('0' + r.IntN(10))
				}
			}
			text = string(digits)
		}
	}
	return text
}

// Whatever is wrong with a workbook of results that is run again, the run comes to its end, and what can't be taken over is told.
func TestBrokenPartsNeverStopARun(t *testing.T) {
	data, _ := run(t, user(t, "book.xlsx", nil), units.SI, sample.Sites(2))
	path := worked(t, data, func(f *excelize.File) {
		const sheet = "Results Summary"
		note := firstFree(t, f, sheet)
		set(t, f, sheet, note+"1", "Note")
		require.NoError(t, f.SetCellFormula(sheet, note+"2", "D2*2"))
		require.NoError(t, f.AddComment(sheet, excelize.Comment{Cell: "C2", Author: "Ann", Text: "why"}))
		require.NoError(t, f.SetCellHyperLink(sheet, note+"2", "https://example.org", "External"))
	})
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	all := parts(t, whole)
	var names []string
	for name := range all {
		for _, kind := range []string{"xl/worksheets/sheet3.xml", "sheet3.xml.rels", "comments", "table1.xml", "drawing", "xl/workbook.xml", "styles.xml"} {
			if strings.Contains(name, kind) {
				names = append(names, name)
				break
			}
		}
	}
	slices.Sort(names)
	require.GreaterOrEqual(t, len(names), 8)
	r := rand.New(rand.NewPCG(1, 2))
	broken := filepath.Join(t.TempDir(), "book.results.xlsx")
	for range 60 {
		name := names[r.IntN(len(names))]
		was := all[name]
		all[name] = damaged(r, was)
		require.NoError(t, os.WriteFile(broken, zipped(all, zip.Deflate), 0o600))
		out, _ := run(t, broken, units.SI, sample.Sites(1))
		assert.NotEmpty(t, out, name)
		all[name] = was
	}
}
