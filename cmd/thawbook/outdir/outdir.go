// Package outdir is the only code that writes files. A file appears under its name whole or not at all: it is written beside its place, synced
// and renamed. Nothing is ever written outside the folder that was opened, whatever links stand in it.
package outdir

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
)

// Error says what could not be written.
type Error struct {
	Path string // as a person finds it
	Err  error
}

// Error names the path and the cause.
func (e *Error) Error() string {
	cause := e.Err
	if inner := (*fs.PathError)(nil); errors.As(cause, &inner) {
		cause = inner.Err
	}
	if inner := (*os.LinkError)(nil); errors.As(cause, &inner) {
		cause = inner.Err
	}
	return fmt.Sprintf("%s: %v", e.Path, cause)
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// The names of files that are being written: hidden, and told from every name of ours and of most people.
const (
	partPrefix = ".thawbook-"
	partSuffix = ".part"
)

// Dir is a folder that files are written into. It is safe for several goroutines.
type Dir struct {
	path string
	root *os.Root

	mu    sync.Mutex
	count int
	parts map[string]*os.File // being written
}

// Open opens a folder, makes it when it is not there, and clears what an earlier run that was cut short left in it.
func Open(folder string) (*Dir, error) {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, &Error{folder, err}
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, &Error{folder, err}
	}
	d := &Dir{path: folder, root: root, parts: map[string]*os.File{}}
	if err := d.sweep("."); err != nil {
		root.Close()
		return nil, err
	}
	return d, nil
}

// Path returns where a name of the folder is found.
func (d *Dir) Path(name string) string { return filepath.Join(d.path, filepath.FromSlash(name)) }

// Close lets go of the folder.
func (d *Dir) Close() error { return d.root.Close() }

// Folder makes a folder inside, and clears it of what an earlier run left half written.
func (d *Dir) Folder(name string) error {
	if err := d.root.MkdirAll(name, 0o777); err != nil {
		return d.failed(name, err)
	}
	return d.sweep(name)
}

// ownPrefix begins the names of what this process is writing.
func ownPrefix() string { return fmt.Sprintf("%s%d-", partPrefix, os.Getpid()) }

// sweep removes what other processes left half written.
func (d *Dir) sweep(folder string) error {
	list, err := fs.ReadDir(d.root.FS(), folder)
	if err != nil {
		return d.failed(folder, err)
	}
	for _, f := range list {
		ours := strings.HasPrefix(f.Name(), partPrefix) && strings.HasSuffix(f.Name(), partSuffix) && f.Type().IsRegular()
		if ours && !strings.HasPrefix(f.Name(), ownPrefix()) {
			if err := d.Remove(path.Join(folder, f.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// Remove removes a file. One that is not there is no error.
func (d *Dir) Remove(name string) error {
	if err := d.root.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return d.failed(name, err)
	}
	return nil
}

// Read returns a file of the folder, such as the record of the run before.
func (d *Dir) Read(name string) ([]byte, error) { return d.root.ReadFile(name) }

// Is says whether a file of the folder is the one at a path, under whatever name.
func (d *Dir) Is(name, other string) bool {
	mine, err := d.root.Stat(name)
	if err != nil {
		return false
	}
	theirs, err := os.Stat(other)
	return err == nil && os.SameFile(mine, theirs)
}

// Write writes a whole file, or none when fill fails.
func (d *Dir) Write(name string, fill func(io.Writer) error) (Receipt, error) {
	f, err := d.Create(name)
	if err != nil {
		return Receipt{}, err
	}
	defer f.Discard()
	if err := fill(f); err != nil {
		return Receipt{}, d.failed(name, err)
	}
	return f.Commit()
}

// Keep copies a file of the folder, so that it survives being replaced. Of the names for a first, a second and a further copy it takes the first that
// is free: a copy that was kept before is never replaced. One with the same bytes serves.
func (d *Dir) Keep(name string, copyName func(n int) string) error {
	data, err := d.root.ReadFile(name)
	if err != nil {
		return d.failed(name, err)
	}
	for n := 1; ; n++ {
		kept, err := d.root.ReadFile(copyName(n))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			_, err := d.Write(copyName(n), func(w io.Writer) error { _, err := w.Write(data); return err })
			return err
		case err == nil && bytes.Equal(kept, data):
			return nil
		}
	}
}

// Halt removes what is half written and lets nothing be written or renamed any more. It is for a process that is about to end: whoever writes waits.
func (d *Dir) Halt() {
	d.mu.Lock() // and never unlocked
	for part, f := range d.parts {
		f.Close()
		d.root.Remove(part)
	}
}

func (d *Dir) failed(name string, err error) error {
	if known := (*Error)(nil); errors.As(err, &known) {
		return err
	}
	return &Error{d.Path(name), err}
}

// Receipt is what was written.
type Receipt struct {
	Size   int64
	SHA256 string
}

// Digest returns the SHA-256 of some bytes, as a Receipt has it.
func Digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// File is a file that is being written beside its place.
type File struct {
	dir  *Dir
	name string
	part string
	out  *os.File
	sum  hash.Hash
	size int64
	err  error
}

// Create begins a file. It appears under its name at Commit; Discard, which does nothing after Commit, leaves no trace of it.
func (d *Dir) Create(name string) (*File, error) {
	mode, err := d.modeOf(name)
	if err != nil {
		return nil, d.failed(name, err)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for {
		d.count++
		part := path.Join(path.Dir(name), fmt.Sprintf("%s%d%s", ownPrefix(), d.count, partSuffix))
		out, err := d.root.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if errors.Is(err, fs.ErrExist) { // the same folder may be open twice
			continue
		}
		if err != nil {
			return nil, d.failed(name, err)
		}
		d.parts[part] = out
		return &File{dir: d, name: name, part: part, out: out, sum: sha256.New()}, nil
	}
}

// modeOf returns the permissions a file will have, those of the file it replaces. What is no plain file inside the folder is refused: a link that
// leads out of it, a folder, a device; and so is a file that someone protected.
func (d *Dir) modeOf(name string) (fs.FileMode, error) {
	if !fs.ValidPath(name) {
		return 0, &fs.PathError{Op: "create", Path: name, Err: fs.ErrInvalid}
	}
	switch info, err := d.root.Stat(name); {
	case errors.Is(err, fs.ErrNotExist):
		return 0o666, nil
	case err != nil:
		return 0, err
	case !info.Mode().IsRegular():
		return 0, errors.New("is not a plain file")
	case info.Mode().Perm()&0o200 == 0:
		return 0, errors.New("is protected against writing")
	default:
		return info.Mode().Perm(), nil
	}
}

// Write adds to the file.
func (f *File) Write(p []byte) (int, error) {
	n, err := f.out.Write(p)
	f.sum.Write(p[:n])
	f.size += int64(n)
	f.err = cmp.Or(f.err, err)
	return n, err
}

// Commit puts the finished file in its place. A file of which any write failed is not put there.
func (f *File) Commit() (Receipt, error) {
	defer f.Discard()
	if f.err != nil {
		return Receipt{}, f.dir.failed(f.name, f.err)
	}
	if err := f.out.Sync(); err != nil {
		return Receipt{}, f.dir.failed(f.name, err)
	}
	if err := f.out.Close(); err != nil {
		return Receipt{}, f.dir.failed(f.name, err)
	}
	f.dir.mu.Lock()
	defer f.dir.mu.Unlock()
	if err := f.dir.root.Rename(f.part, f.name); err != nil {
		return Receipt{}, f.dir.failed(f.name, err)
	}
	delete(f.dir.parts, f.part)
	return Receipt{f.size, hex.EncodeToString(f.sum.Sum(nil))}, nil
}

// Discard removes the file unless it was committed.
func (f *File) Discard() {
	f.dir.mu.Lock()
	defer f.dir.mu.Unlock()
	if _, open := f.dir.parts[f.part]; !open {
		return
	}
	delete(f.dir.parts, f.part)
	f.out.Close()
	f.dir.root.Remove(f.part)
}
