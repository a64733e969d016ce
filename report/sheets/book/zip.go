package book

import (
	"archive/zip"
	"bytes"
	"hash/crc32"
	"io"

	"github.com/klauspost/compress/flate"
)

const (
	deflation = 5
	zipFormat = 20 // version 2.0 of the format: deflate
)

// Packer packs parts of a workbook, one after the other. The zero Packer is ready.
type Packer struct {
	flate *flate.Writer // used again for each
}

// packed is a part as it stands in the zip.
type packed struct {
	bytes.Buffer
	size uint64
	sum  uint32
	pack *flate.Writer
}

// Write packs b.
func (p *packed) write(b []byte) error {
	p.sum = crc32.Update(p.sum, crc32.IEEETable, b)
	p.size += uint64(len(b))
	_, err := p.pack.Write(b)
	return err
}

// pack packs the pieces of a part.
func (k *Packer) pack(pieces ...[]byte) (*packed, error) {
	p := &packed{}
	if k.flate == nil {
		w, err := flate.NewWriter(&p.Buffer, deflation)
		if err != nil {
			return nil, err
		}
		k.flate = w
	} else {
		k.flate.Reset(&p.Buffer)
	}
	p.pack = k.flate
	for _, b := range pieces {
		if err := p.write(b); err != nil {
			return nil, err
		}
	}
	return p, k.flate.Close()
}

// put writes a packed part. Parts bear no date, so that the same workbook has the same bytes.
func (p *packed) put(out *zip.Writer, name string) error {
	w, err := out.CreateRaw(&zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: p.sum, UncompressedSize64: p.size,
		CompressedSize64: uint64(p.Len()), CreatorVersion: zipFormat, ReaderVersion: zipFormat})
	if err != nil {
		return err
	}
	_, err = p.WriteTo(w)
	return err
}

// copyRaw writes a part as it is packed in another zip.
func copyRaw(out *zip.Writer, f *zip.File) error {
	in, err := f.OpenRaw()
	if err != nil {
		return err
	}
	w, err := out.CreateRaw(&zip.FileHeader{Name: f.Name, Method: f.Method, CRC32: f.CRC32, UncompressedSize64: f.UncompressedSize64,
		CompressedSize64: f.CompressedSize64, CreatorVersion: zipFormat, ReaderVersion: zipFormat})
	if err != nil {
		return err
	}
	_, err = io.Copy(w, in)
	return err
}
