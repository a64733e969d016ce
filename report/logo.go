package report

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
)

// Logo is the picture on the first page of a document. The zero Logo is none.
type Logo struct {
	Bytes         []byte
	Kind          string // "png" or "jpg"
	Width, Height int    // pixels
}

// Box of a logo on paper [mm].
const (
	LogoWidthMM  = 50.0
	LogoHeightMM = 14.0
)

const (
	logoDPI     = 300.0    // of the printed logo; judgement: as sharp as the letters around it
	logoMost    = 50 << 20 // pixels that are unpacked; a picture with more is no logo
	logoQuality = 92       // of 100, of JPEG
	mmPerInch   = 25.4
)

// The reasons why a picture can't be taken.
var (
	ErrLogoKind  = errors.New("neither PNG nor JPEG, or damaged")
	ErrLogoLarge = errors.New("too many pixels")
)

// ReadLogo makes a logo of a PNG or JPEG file: of the pixels that its box can show, without what the PDF library can't read (transparent, interlaced
// and 16-bit pictures, inks).
func ReadLogo(data []byte) (Logo, error) {
	about, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil || kind != "png" && kind != "jpeg":
		return Logo{}, ErrLogoKind
	case about.Width*about.Height > logoMost:
		return Logo{}, ErrLogoLarge
	}
	read, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Logo{}, ErrLogoKind
	}
	flat := flattened(read)
	out := Logo{Kind: "png", Width: flat.Rect.Dx(), Height: flat.Rect.Dy()}
	var b bytes.Buffer
	if kind == "jpeg" {
		out.Kind = "jpg"
		err = jpeg.Encode(&b, flat, &jpeg.Options{Quality: logoQuality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, flat)
	}
	out.Bytes = b.Bytes()
	return out, err
}

// flattened lays a picture on white and makes it as small as its box allows.
func flattened(read image.Image) *image.RGBA {
	size := read.Bounds().Size()
	share := min(1, LogoWidthMM/mmPerInch*logoDPI/float64(size.X), LogoHeightMM/mmPerInch*logoDPI/float64(size.Y))
	flat := image.NewRGBA(image.Rect(0, 0, max(1, int(float64(size.X)*share)), max(1, int(float64(size.Y)*share))))
	draw.Draw(flat, flat.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.CatmullRom.Scale(flat, flat.Rect, read, read.Bounds(), draw.Over, nil)
	return flat
}
