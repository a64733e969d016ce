// Package templates holds every text, rule and table that people may read or change, embedded in the program.
package templates

import (
	"embed"
	"errors"
	"fmt"
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
	return layers{Own(dir), embedded}
}

// Own returns the user's files in dir.
func Own(dir string) fs.FS { return small{os.DirFS(dir)} }

// mostBytes is the largest file of a user's that is read: many times our largest.
const mostBytes = 4 << 20

// small opens no file that is too large to be a table.
type small struct{ files fs.FS }

// Open opens a file or a folder.
func (s small) Open(name string) (fs.File, error) {
	f, err := s.files.Open(name)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.IsDir() && info.Size() > mostBytes {
		err = &fs.PathError{Op: "open", Path: name, Err: fmt.Errorf("%d bytes, at most %d are read of a table", info.Size(), mostBytes)}
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// layers opens a file of the first layer that has it.
type layers struct{ over, under fs.FS }

// Open opens name in the upper layer, else in the lower one. Folders are read from the lower one, which names every table.
func (l layers) Open(name string) (fs.File, error) {
	f, err := l.over.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return l.under.Open(name)
	}
	if err != nil {
		return nil, err
	}
	if info, err := f.Stat(); err == nil && !info.IsDir() {
		return f, nil
	}
	f.Close()
	return l.under.Open(name)
}
