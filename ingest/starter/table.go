package starter

import (
	"errors"
	"io/fs"
	"path"
	"strings"
)

// hiddenMark stands alone in the line before a row that is to be hidden.
const hiddenMark = "#hidden"

// table is a sheet to be filled in as told: titles, headings and rows, each cell as a person typed it.
type table struct {
	titles   []string
	headings []string
	rows     [][]string
	hidden   map[int]bool // by place in rows
}

// readTable reads a sheet's table from a folder. The first line with more than one cell is the heading row. Nil when there is none.
func readTable(fsys fs.FS, folder, sheet string) (*table, error) {
	rows, err := readRows(fsys, path.Join(folder, strings.ToLower(sheet)+".tsv"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	t := &table{hidden: map[int]bool{}}
	for _, r := range rows {
		switch {
		case t.headings == nil && len(r) == 1:
			t.titles = append(t.titles, r[0])
		case t.headings == nil:
			t.headings = r
		case len(r) == 1 && r[0] == hiddenMark:
			t.hidden[len(t.rows)] = true
		default:
			t.rows = append(t.rows, r)
		}
	}
	return t, nil
}
