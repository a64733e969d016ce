package sheets

import (
	"archive/zip"
	"bytes"
	"io"
	"io/fs"
	"maps"
	"slices"

	"github.com/klauspost/compress/flate"
	"github.com/xuri/excelize/v2"
)

const (
	typesPart = "[Content_Types].xml"
	deflation = 5
)

// sortedZip keeps the parts of a workbook and writes them in the order of names when it is closed, so that the same workbook has the same bytes.
type sortedZip struct {
	w     io.Writer
	parts map[string]*bytes.Buffer
}

func newSortedZip(w io.Writer) excelize.ZipWriter {
	return &sortedZip{w: w, parts: map[string]*bytes.Buffer{}}
}

func (s *sortedZip) Create(name string) (io.Writer, error) {
	part := &bytes.Buffer{}
	s.parts[name] = part
	return part, nil
}

func (s *sortedZip) AddFS(fs.FS) error { return nil }

// Close writes the content types first, as readers expect, then the parts by name.
func (s *sortedZip) Close() error {
	out := zip.NewWriter(s.w)
	out.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, deflation) })
	names := slices.SortedFunc(maps.Keys(s.parts), func(a, b string) int {
		if (a == typesPart) != (b == typesPart) {
			if a == typesPart {
				return -1
			}
			return 1
		}
		return bytes.Compare([]byte(a), []byte(b))
	})
	for _, name := range names {
		part, err := out.Create(name)
		if err != nil {
			return err
		}
		if _, err := s.parts[name].WriteTo(part); err != nil {
			return err
		}
	}
	return out.Close()
}
