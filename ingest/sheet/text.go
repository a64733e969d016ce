package sheet

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
)

// FromText reads tables of text as the sheets of one file: each *.tsv in dir is a sheet under its file's name, its cells parted by tabs.
func FromText(fsys fs.FS, dir string) (*File, error) {
	names, err := fs.Glob(fsys, path.Join(dir, "*.tsv"))
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%w: no tables in %s", ErrMissing, dir)
	}
	f := &File{}
	sum := sha256.New()
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrUnreadable, err)
		}
		sum.Write(data)
		f.Sheets = append(f.Sheets, Text(sheetName(name), string(data)))
	}
	f.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return f, nil
}

// sheetName is the file's name without its end, with a capital letter as in a workbook.
func sheetName(file string) string {
	name := strings.TrimSuffix(path.Base(file), ".tsv")
	return strings.ToUpper(name[:min(1, len(name))]) + name[min(1, len(name)):]
}

// plainNumber is a number as a workbook would store it.
var plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?$`)

// Text returns a table of text as a sheet.
func Text(name, table string) Sheet {
	return Sheet{Name: name, Rows: func(yield func(Row, error) bool) {
		lines := bufio.NewScanner(strings.NewReader(strings.TrimPrefix(table, "\ufeff")))
		lines.Buffer(nil, len(table)+1)
		for number := 1; lines.Scan(); number++ {
			row := Row{Number: number}
			for i, text := range strings.Split(lines.Text(), "\t") {
				if strings.TrimSpace(text) == "" {
					continue
				}
				c := Cell{Row: number, Col: i + 1, Text: text}
				if plainNumber.MatchString(text) {
					c.Mark = Number
				}
				row.Cells = append(row.Cells, c)
			}
			if len(row.Cells) > 0 && !yield(row, nil) {
				return
			}
		}
	}}
}
