// Package hourly reads hourly weather files as they stand: EPW in its flavours, TMY3 CSV and thawbook's own hourly CSV for observed records. It
// decides nothing about snow; package weather does.
package hourly

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"unicode/utf8"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
)

// The codes of what can be wrong with a file before its weather is looked at.
const (
	CodeUnreadable    finding.Code = "weather-file-unreadable"
	CodeUnknownFormat finding.Code = "weather-file-unknown"
	CodeBadLine       finding.Code = "weather-file-line"
	CodeNoColumn      finding.Code = "weather-file-column"
	CodeUnknownUnit   finding.Code = "weather-file-unit"
	CodeTooLarge      finding.Code = "weather-file-too-large"
)

// mostBytes is the largest weather file that is read: thirty years of hours in the widest format stay below.
const mostBytes = 128 << 20

// Error is a file that can't be used: a code, with the file and what is wrong in it. Its sentence stands in templates, by the code.
type Error struct {
	Code finding.Code
	Args []finding.Arg
	Err  error // the cause, where another package gave one
}

// Error names the code and what it was about.
func (e *Error) Error() string {
	text := string(e.Code)
	for _, a := range e.Args {
		text += " " + a.Name + "=" + a.Text
	}
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	return text
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

func fail(code finding.Code, args ...string) *Error {
	e := &Error{Code: code}
	for i := 0; i+1 < len(args); i += 2 {
		e.Args = append(e.Args, finding.Words(args[i], args[i+1]))
	}
	return e
}

// Read reads the file at path.
//
// Errors: *Error.
func Read(path string) (weather.Record, weather.Source, error) {
	f, err := os.Open(path)
	if err != nil {
		e := fail(CodeUnreadable, "file", filepath.Base(path))
		e.Err = err
		return weather.Record{}, weather.Source{}, e
	}
	defer f.Close()
	return ReadFrom(f, filepath.Base(path))
}

// ReadFrom reads a file's bytes; name is the file's, for messages. The format is told by the content, not by the name.
//
// Errors: *Error.
func ReadFrom(r io.Reader, name string) (weather.Record, weather.Source, error) {
	source := weather.Source{File: name}
	data, err := all(r)
	if err != nil {
		e := fail(CodeUnreadable, "file", name)
		e.Err = err
		return weather.Record{}, source, e
	}
	if len(data) > mostBytes {
		return weather.Record{}, source, fail(CodeTooLarge, "file", name)
	}
	sum := sha256.Sum256(data)
	source.SHA256 = hex.EncodeToString(sum[:])
	record, err := parse(bytes.TrimPrefix(data, []byte("\ufeff")), name)
	return record, source, err
}

// all reads everything, in one piece where the size is known beforehand.
func all(r io.Reader) ([]byte, error) {
	var b bytes.Buffer
	if f, ok := r.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Size() <= mostBytes {
			b.Grow(int(info.Size()) + bytes.MinRead)
		}
	}
	_, err := b.ReadFrom(io.LimitReader(r, mostBytes+1))
	return b.Bytes(), err
}

func parse(data []byte, name string) (weather.Record, error) {
	switch {
	case bytes.HasPrefix(data, []byte("LOCATION,")):
		return parseEPW(data, name)
	case looksLikeTMY3(data):
		return parseTMY3(data, name)
	case utf8.Valid(data) && bytes.IndexByte(data, 0) < 0:
		return parseCSV(data, name)
	}
	return weather.Record{}, fail(CodeUnknownFormat, "file", name)
}

func badLine(name string, line int, what, typed string) error {
	return fail(CodeBadLine, "file", name, "line", fmt.Sprint(line), "what", what, "typed", typed)
}
