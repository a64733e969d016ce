package sheets

import (
	"archive/zip"
	"bytes"
	"cmp"
	"hash/crc32"
	"io"
	"io/fs"
	"slices"

	"github.com/klauspost/compress/flate"
	"github.com/xuri/excelize/v2"
)

const (
	typesPart = "[Content_Types].xml"
	deflation = 5
	zipFormat = 20 // version 2.0 of the format: deflate
)

// sortedZip packs the parts of a workbook as they come and writes them in the order of names when it is closed, so that the same workbook has
// the same bytes. Only packed parts are kept.
type sortedZip struct {
	w     io.Writer
	parts []*part
	pack  *flate.Writer // of the last part; used again for the next
	err   error
}

// part is one file of the zip, packed.
type part struct {
	name   string
	packed bytes.Buffer
	pack   *flate.Writer
	size   uint64
	sum    uint32
}

// Write packs b.
func (p *part) Write(b []byte) (int, error) {
	p.sum = crc32.Update(p.sum, crc32.IEEETable, b)
	p.size += uint64(len(b))
	return p.pack.Write(b)
}

func newSortedZip(w io.Writer) excelize.ZipWriter { return &sortedZip{w: w} }

// Create begins a part. It ends when the next begins.
func (s *sortedZip) Create(name string) (io.Writer, error) {
	s.end()
	p := &part{name: name}
	if s.pack == nil {
		pack, err := flate.NewWriter(&p.packed, deflation)
		if err != nil {
			return nil, err
		}
		s.pack = pack
	} else {
		s.pack.Reset(&p.packed)
	}
	p.pack = s.pack
	s.parts = append(s.parts, p)
	return p, s.err
}

func (s *sortedZip) end() {
	if s.pack == nil {
		return
	}
	if err := s.pack.Close(); err != nil && s.err == nil {
		s.err = err
	}
}

// AddFS adds nothing: a workbook's parts come one by one.
func (s *sortedZip) AddFS(fs.FS) error { return nil }

// Close writes the content types first, as readers expect, then the parts by name.
func (s *sortedZip) Close() error {
	s.end()
	if s.err != nil {
		return s.err
	}
	slices.SortFunc(s.parts, func(a, b *part) int {
		if (a.name == typesPart) != (b.name == typesPart) {
			if a.name == typesPart {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.name, b.name)
	})
	out := zip.NewWriter(s.w)
	for _, p := range s.parts {
		w, err := out.CreateRaw(&zip.FileHeader{Name: p.name, Method: zip.Deflate, CRC32: p.sum, UncompressedSize64: p.size,
			CompressedSize64: uint64(p.packed.Len()), CreatorVersion: zipFormat, ReaderVersion: zipFormat})
		if err != nil {
			return err
		}
		if _, err := p.packed.WriteTo(w); err != nil {
			return err
		}
	}
	return out.Close()
}
