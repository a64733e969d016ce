package report_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/report"
)

// drawn is a picture with its left half clear and its right half blue.
func drawn(width, height int) *image.NRGBA64 {
	p := image.NewNRGBA64(image.Rect(0, 0, width, height))
	for y := range height {
		for x := width / 2; x < width; x++ {
			p.Set(x, y, color.NRGBA{B: 200, A: 255})
		}
	}
	return p
}

func encoded(t *testing.T, p image.Image, encode func(*bytes.Buffer, image.Image) error) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, encode(&b, p))
	return b.Bytes()
}

func asPNG(b *bytes.Buffer, p image.Image) error  { return png.Encode(b, p) }
func asJPEG(b *bytes.Buffer, p image.Image) error { return jpeg.Encode(b, p, nil) }
func asGIF(b *bytes.Buffer, p image.Image) error  { return gif.Encode(b, p, nil) }

func TestReadLogo(t *testing.T) {
	for _, tt := range []struct {
		name          string
		data          []byte
		kind          string
		width, height int
	}{
		{"16 bit and clear", encoded(t, drawn(40, 20), asPNG), "png", 40, 20},
		{"grey", encoded(t, image.NewGray16(image.Rect(0, 0, 30, 30)), asPNG), "png", 30, 30},
		{"few colours", encoded(t, image.NewPaletted(image.Rect(0, 0, 8, 8), color.Palette{color.Black, color.Transparent}), asPNG), "png", 8, 8},
		{"JPEG", encoded(t, drawn(64, 32), asJPEG), "jpg", 64, 32},
		{"too wide for print", encoded(t, drawn(4000, 100), asPNG), "png", 590, 14},
		{"too high for print", encoded(t, drawn(10, 2000), asPNG), "png", 1, 165},
	} {
		t.Run(tt.name, func(t *testing.T) {
			logo, err := report.ReadLogo(tt.data)
			require.NoError(t, err)
			assert.Equal(t, []any{tt.kind, tt.width, tt.height}, []any{logo.Kind, logo.Width, logo.Height})
			again, err := report.ReadLogo(tt.data)
			require.NoError(t, err)
			assert.Equal(t, logo, again, "the same file, the same bytes")
			read, kind, err := image.Decode(bytes.NewReader(logo.Bytes))
			require.NoError(t, err)
			assert.Contains(t, "png jpeg", kind)
			for _, corner := range []int{0, tt.width - 1} {
				_, _, _, alpha := read.At(corner, 0).RGBA()
				assert.EqualValues(t, 0xffff, alpha, "nothing is clear")
			}
		})
	}
	clear, err := report.ReadLogo(encoded(t, drawn(40, 20), asPNG))
	require.NoError(t, err)
	read, err := png.Decode(bytes.NewReader(clear.Bytes))
	require.NoError(t, err)
	assert.Equal(t, color.RGBA{255, 255, 255, 255}, color.RGBAModel.Convert(read.At(0, 0)), "what is clear lies on white")
	assert.Equal(t, color.RGBA{0, 0, 200, 255}, color.RGBAModel.Convert(read.At(39, 0)))
}

func TestNoLogo(t *testing.T) {
	whole := encoded(t, drawn(300, 200), asPNG)
	for name, data := range map[string][]byte{
		"nothing": nil, "text": []byte("no picture"), "GIF": encoded(t, drawn(8, 8), asGIF), "cut short": whole[:len(whole)/2],
		"JPEG cut short": encoded(t, drawn(300, 200), asJPEG)[:100],
	} {
		_, err := report.ReadLogo(data)
		assert.ErrorIs(t, err, report.ErrPictureKind, name)
	}
	huge := bytes.Clone(whole)
	copy(huge[16:], []byte{0, 1, 0, 0, 0, 1, 0, 0}) // the size of the picture in its first chunk
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29]))
	_, err := report.ReadLogo(huge)
	assert.ErrorIs(t, err, report.ErrPictureLarge)
}

// TestAttachmentsHaveWidthsOfTheirOwn: scaled to 200 dpi of the text's width, never enlarged, no two alike.
func TestAttachmentsHaveWidthsOfTheirOwn(t *testing.T) {
	data := encoded(t, drawn(2000, 200), asPNG)
	taken := []int{1353}
	for _, want := range []int{1354, 1352, 1351} {
		p, err := report.ReadAttachment(data, taken)
		require.NoError(t, err)
		assert.Equal(t, want, p.Width, "172 mm at 200 dpi are 1354 pixels")
		taken = append(taken, p.Width)
	}
	small, err := report.ReadAttachment(encoded(t, drawn(1, 1), asPNG), []int{1, 2})
	require.NoError(t, err)
	assert.Equal(t, 3, small.Width, "where nothing smaller is left, the next larger width")
	_, err = report.ReadAttachment([]byte("no picture"), nil)
	assert.ErrorIs(t, err, report.ErrPictureKind)
}
