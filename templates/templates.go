// Package templates holds every text, rule and table that people may read or change, embedded in the program.
package templates

import (
	"embed"
	"io/fs"
	"os"
)

//go:embed demo en rules starter stations.tsv
var embedded embed.FS

// FS returns the tables that come with the program.
func FS() fs.FS { return embedded }

// Layered returns the tables with the user's files in dir laid over them, one by one. An empty dir changes nothing.
func Layered(dir string) fs.FS {
	if dir == "" {
		return embedded
	}
	return layers{os.DirFS(dir), embedded}
}

// layers opens a file of the first layer that has it.
type layers struct{ over, under fs.FS }

// Open opens name in the upper layer, else in the lower one. Folders are read from the lower one, which names every table.
func (l layers) Open(name string) (fs.File, error) {
	if f, err := l.over.Open(name); err == nil {
		if info, err := f.Stat(); err == nil && !info.IsDir() {
			return f, nil
		}
		f.Close()
	}
	return l.under.Open(name)
}
