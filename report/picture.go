package report

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"slices"

	"golang.org/x/image/draw"

	"thawbook/calc"
)

// Picture is a picture of pixels in a document. The zero Picture is none.
type Picture struct {
	Bytes         []byte
	Kind          string // "png" or "jpg"
	Width, Height int    // pixels
}

// Logo is the picture on the first page of a document.
type Logo = Picture

// Attached is a picture with its row of Attachments.
type Attached struct {
	calc.Attachment
	Picture
}

const (
	pictureMost    = 50 << 20 // pixels that are unpacked; a file with more is no picture for a page
	pictureQuality = 85       // of 100, of JPEG
	mmPerInch      = 25.4
)

// The reasons why a picture can't be taken.
var (
	ErrPictureKind  = errors.New("neither PNG nor JPEG, or damaged")
	ErrPictureLarge = errors.New("too many pixels")
)

// Box of a logo on paper [mm], and its pixels; judgement: as sharp as the letters around it.
const (
	LogoWidthMM  = 50.0
	LogoHeightMM = 14.0
	logoDPI      = 300.0
)

// Box of an attachment on paper [mm]: the width of the text, and with its caption less than half a page; and its pixels.
const (
	AttachmentWidthMM  = 172.0
	AttachmentHeightMM = 105.0
	attachmentDPI      = 200.0
)

// ReadLogo makes a logo of a PNG or JPEG file.
func ReadLogo(data []byte) (Logo, error) {
	return readPicture(data, box{LogoWidthMM, LogoHeightMM, logoDPI}, nil)
}

// ReadAttachment makes an attachment of a PNG or JPEG file. Its width is none of those taken, the widths of the other pictures of the document [px]:
// the PDF library orders pictures by their width, and two of one width by chance.
func ReadAttachment(data []byte, taken []int) (Picture, error) {
	return readPicture(data, box{AttachmentWidthMM, AttachmentHeightMM, attachmentDPI}, taken)
}

// readPicture makes a picture of the pixels that its box can show, without what the PDF library can't read (transparent, interlaced and 16-bit
// pictures, inks).
func readPicture(data []byte, in box, taken []int) (Picture, error) {
	about, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil || kind != "png" && kind != "jpeg":
		return Picture{}, ErrPictureKind
	case about.Width*about.Height > pictureMost:
		return Picture{}, ErrPictureLarge
	}
	read, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Picture{}, ErrPictureKind
	}
	flat := flattened(read, in.fit(float64(about.Width), float64(about.Height), taken))
	out := Picture{Kind: "png", Width: flat.Rect.Dx(), Height: flat.Rect.Dy()}
	var b bytes.Buffer
	if kind == "jpeg" {
		out.Kind = "jpg"
		err = jpeg.Encode(&b, flat, &jpeg.Options{Quality: pictureQuality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, flat)
	}
	out.Bytes = b.Bytes()
	return out, err
}

// box is room on paper [mm] and the pixels to an inch of it.
type box struct{ width, height, dpi float64 }

// fit returns the size of a picture in the box: never enlarged, and of a width that is not taken, the next smaller one where there is one.
func (b box) fit(width, height float64, taken []int) image.Rectangle {
	share := min(1, b.width/mmPerInch*b.dpi/width, b.height/mmPerInch*b.dpi/height)
	out := image.Pt(max(1, int(width*share)), max(1, int(height*share)))
	step := -1
	for slices.Contains(taken, out.X) {
		if out.X == 1 {
			step = 1
		}
		out.X += step
	}
	return image.Rectangle{Max: out}
}

// flattened lays a picture on white at a size.
func flattened(read image.Image, size image.Rectangle) *image.RGBA {
	flat := image.NewRGBA(size)
	draw.Draw(flat, flat.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.CatmullRom.Scale(flat, flat.Rect, read, read.Bounds(), draw.Over, nil)
	return flat
}
