package words

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Lay lays a user's texts over ours, line by line: a file of theirs holds the lines that they change, and lines of codes of their own. Errors name the file and
// the line; nothing is laid over where one is broken.
func (w *Words) Lay(own fs.FS, language string) error {
	files, err := fs.Glob(own, path.Join(language, "*.tsv"))
	if err != nil {
		return err
	}
	laid := map[string][]row{}
	for _, file := range files {
		table := tableOf(file)
		ours, found := w.tables[table]
		if !found {
			return fmt.Errorf("%s: no table of ours has this name", file)
		}
		rows, err := read(own, file, w.columns(table))
		if err != nil {
			return err
		}
		for _, r := range rows {
			if err := fits(r, ours[r.code], table == Sentences); err != nil {
				return fmt.Errorf("%s: line %d: %w", file, r.line, err)
			}
		}
		laid[table] = rows
	}
	for table, rows := range laid {
		for _, r := range rows {
			w.put(table, r)
		}
	}
	return nil
}

// columns returns how many columns our table has, its code among them.
func (w *Words) columns(table string) int {
	for _, texts := range w.tables[table] {
		return len(texts) + 1
	}
	return 0
}

var name = regexp.MustCompile(`\{[^{}]*\}`)

// fits says whether a line asks for nothing but what is filled into ours: {flux} where ours says {flux}. A code that is not ours is filled by the user's rules;
// of the program's own sentences there is none.
func fits(r row, ours []string, fixed bool) error {
	if text := strings.Join(r.texts, " "); strings.Count(text, "{") != strings.Count(text, "}") {
		return fmt.Errorf("%q has a { or } without the other", r.code)
	}
	if ours == nil && fixed {
		return fmt.Errorf("%q is the code of no sentence of ours", r.code)
	}
	if ours == nil {
		return nil
	}
	known := name.FindAllString(strings.Join(ours, " "), -1)
	for _, n := range name.FindAllString(strings.Join(r.texts, " "), -1) {
		if !slices.Contains(known, n) {
			return fmt.Errorf("%q has nothing for %s; there is: %s", r.code, n, strings.Join(known, " "))
		}
	}
	return nil
}
