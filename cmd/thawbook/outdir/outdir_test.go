package outdir

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func open(t *testing.T) (*Dir, string) {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "some", "out")
	d, err := Open(folder)
	require.NoError(t, err)
	t.Cleanup(func() { d.Close() })
	return d, folder
}

// files lists everything in a folder, hidden files too.
func files(t *testing.T, folder string) []string {
	t.Helper()
	var list []string
	require.NoError(t, filepath.WalkDir(folder, func(p string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			name, _ := filepath.Rel(folder, p)
			list = append(list, filepath.ToSlash(name))
		}
		return err
	}))
	return list
}

func content(t *testing.T, folder, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder, name))
	require.NoError(t, err)
	return string(b)
}

func TestWriteWholeFiles(t *testing.T) {
	d, folder := open(t)
	require.NoError(t, d.Folder("submittals"))
	r, err := d.Write("submittals/a.pdf", text("abc"))
	require.NoError(t, err)
	assert.Equal(t, Receipt{3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}, r, "FIPS 180-2, appendix B.1")
	_, err = d.Write("submittals/a.pdf", text("again"))
	require.NoError(t, err)
	assert.Equal(t, []string{"submittals/a.pdf"}, files(t, folder))
	assert.Equal(t, "again", content(t, folder, "submittals/a.pdf"))
}

func TestAFailingWriterLeavesWhatWasThere(t *testing.T) {
	d, folder := open(t)
	_, err := d.Write("record", text("old"))
	require.NoError(t, err)
	_, err = d.Write("record", func(w io.Writer) error { io.WriteString(w, "half"); return io.ErrUnexpectedEOF })
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
	assert.Equal(t, []string{"record"}, files(t, folder))
	assert.Equal(t, "old", content(t, folder, "record"))
}

func TestAPanickingWriterLeavesNothing(t *testing.T) {
	d, folder := open(t)
	assert.Panics(t, func() { d.Write("record", func(io.Writer) error { panic("no") }) })
	assert.Empty(t, files(t, folder))
}

func TestASwallowedWriteErrorIsNotCommitted(t *testing.T) {
	d, folder := open(t)
	f, err := d.Create("record")
	require.NoError(t, err)
	f.out.Close() // as a full disk would
	io.WriteString(f, "lost")
	_, err = f.Commit()
	var failed *Error
	require.ErrorAs(t, err, &failed)
	assert.Equal(t, filepath.Join(folder, "record"), failed.Path)
	assert.Empty(t, files(t, folder))
}

func TestNothingIsThereBeforeCommit(t *testing.T) {
	d, folder := open(t)
	f, err := d.Create("record")
	require.NoError(t, err)
	io.WriteString(f, "so far")
	assert.NoFileExists(t, filepath.Join(folder, "record"))
	_, err = f.Commit()
	require.NoError(t, err)
	f.Discard()
	assert.Equal(t, "so far", content(t, folder, "record"))
	_, err = f.Commit()
	assert.Error(t, err, "a file is committed once")
	assert.Equal(t, []string{"record"}, files(t, folder))
}

func TestNothingIsWrittenOutside(t *testing.T) {
	d, folder := open(t)
	outside := filepath.Join(filepath.Dir(folder), "outside")
	require.NoError(t, os.Mkdir(outside, 0o777))
	require.NoError(t, os.WriteFile(filepath.Join(outside, "secret"), []byte("kept"), 0o666))
	if err := os.Symlink(outside, filepath.Join(folder, "away")); err != nil {
		t.Skip("needs links: ", err)
	}
	require.NoError(t, os.Symlink(filepath.Join(outside, "secret"), filepath.Join(folder, "link")))
	require.NoError(t, os.Symlink("../outside/new", filepath.Join(folder, "dangling")))
	require.NoError(t, os.Mkdir(filepath.Join(folder, "folder"), 0o777))
	for _, name := range []string{"../x", "/x", "away/x", "away/secret", "link", "dangling", "folder", "a/../../x", "", ".", "no-such-folder/x"} {
		_, err := d.Write(name, text("bad"))
		var failed *Error
		require.ErrorAs(t, err, &failed, name)
	}
	assert.Error(t, d.Folder("away"))
	assert.Error(t, d.Folder("../beside"))
	assert.Error(t, d.Remove("away/secret"))
	assert.Error(t, d.Remove("../outside/secret"))
	assert.Equal(t, []string{"secret"}, files(t, outside))
	assert.Equal(t, "kept", content(t, outside, "secret"))
}

func TestUnwritable(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o666))
	var failed *Error
	_, err := Open(file)
	require.ErrorAs(t, err, &failed)
	_, err = Open(filepath.Join(file, "out"))
	require.ErrorAs(t, err, &failed)
	assert.ErrorContains(t, err, filepath.Join(file, "out")+": ")

	d, folder := open(t)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "kept"), []byte("kept"), 0o444))
	_, err = d.Write("kept", text("new"))
	require.ErrorAs(t, err, &failed)
	assert.Equal(t, "kept", content(t, folder, "kept"))
}

func TestPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("needs permission bits")
	}
	d, folder := open(t)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "private"), nil, 0o600))
	_, err := d.Write("private", text("x"))
	require.NoError(t, err)
	info, err := os.Stat(filepath.Join(folder, "private"))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
}

func TestLeftoversAreRemoved(t *testing.T) {
	d, folder := open(t)
	require.NoError(t, d.Folder("submittals"))
	for _, name := range []string{".thawbook-0-3.part", "submittals/.thawbook-0-4.part", ".hidden", "submittals/mine.part"} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), nil, 0o666))
	}
	again, err := Open(folder)
	require.NoError(t, err)
	defer again.Close()
	require.NoError(t, again.Folder("submittals"))
	assert.Equal(t, []string{".hidden", "submittals/mine.part"}, files(t, folder))
	require.NoError(t, again.Remove(".hidden"))
	require.NoError(t, again.Remove(".hidden"), "what is not there need not be removed")
}

func TestTheSameFolderTwice(t *testing.T) {
	one, folder := open(t)
	first, err := one.Create("a")
	require.NoError(t, err)
	two, err := Open(folder)
	require.NoError(t, err)
	defer two.Close()
	second, err := two.Create("b")
	require.NoError(t, err)
	for _, f := range []*File{first, second} {
		_, err := f.Commit()
		require.NoError(t, err)
	}
	assert.Equal(t, []string{"a", "b"}, files(t, folder))
}

func TestKeep(t *testing.T) {
	d, folder := open(t)
	_, err := d.Write("book.xlsx", text("old"))
	require.NoError(t, err)
	names := func(n int) string { return fmt.Sprintf("book (before %d).xlsx", n) }
	require.NoError(t, d.Keep("book.xlsx", names))
	_, err = d.Write("book.xlsx", text("new"))
	require.NoError(t, err)
	assert.Equal(t, "old", content(t, folder, "book (before 1).xlsx"))
	assert.Equal(t, "new", content(t, folder, "book.xlsx"))

	require.NoError(t, d.Keep("book.xlsx", names))
	require.NoError(t, d.Keep("book.xlsx", names))
	assert.Equal(t, "old", content(t, folder, "book (before 1).xlsx"), "what was kept is never replaced")
	assert.Equal(t, "new", content(t, folder, "book (before 2).xlsx"))
	assert.Equal(t, []string{"book (before 1).xlsx", "book (before 2).xlsx", "book.xlsx"}, files(t, folder), "the same bytes are kept once")

	require.NoError(t, os.Mkdir(filepath.Join(folder, "taken"), 0o777))
	require.NoError(t, d.Keep("book.xlsx", func(n int) string { return []string{"", "taken", "free"}[n] }))
	assert.Equal(t, "new", content(t, folder, "free"))
	assert.Error(t, d.Keep("no such file", names))
}

func TestIs(t *testing.T) {
	d, folder := open(t)
	_, err := d.Write("a", text(""))
	require.NoError(t, err)
	assert.True(t, d.Is("a", filepath.Join(folder, "..", "out", "a")))
	assert.False(t, d.Is("b", filepath.Join(folder, "a")))
	assert.False(t, d.Is("a", filepath.Join(folder, "b")))
}

func TestHaltLeavesWholeFilesOnly(t *testing.T) {
	d, folder := open(t)
	_, err := d.Write("done", text("whole"))
	require.NoError(t, err)
	f, err := d.Create("half")
	require.NoError(t, err)
	io.WriteString(f, "ha")
	d.Halt()
	assert.Equal(t, []string{"done"}, files(t, folder))
	began := make(chan error)
	go func() { _, err := f.Commit(); began <- err }()
	select {
	case err := <-began:
		if err == nil {
			t.Error("something was put in place after Halt")
		}
	case <-time.After(20 * time.Millisecond):
	}
	assert.Equal(t, []string{"done"}, files(t, folder))
}

func TestManyWriters(t *testing.T) {
	d, folder := open(t)
	var all sync.WaitGroup
	for i := range 16 {
		all.Go(func() {
			for range 20 {
				_, err := d.Write(string(rune('a'+i%8)), text("whole"))
				assert.NoError(t, err)
			}
		})
	}
	all.Wait()
	assert.Len(t, files(t, folder), 8)
	assert.Equal(t, "whole", content(t, folder, "a"))
}

func TestErrorIsShort(t *testing.T) {
	err := &Error{"out/a.pdf", &fs.PathError{Op: "openat", Path: "a.pdf", Err: fs.ErrPermission}}
	assert.Equal(t, "out/a.pdf: permission denied", err.Error())
	assert.True(t, errors.Is(err, fs.ErrPermission))
}
