package submittal

import (
	"bytes"
	_ "embed"
	"math"
	"strings"
	"sync"
	"unicode"

	"github.com/johnfercher/maroto/v2/pkg/consts/fontstyle"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
	"gonum.org/v1/plot/font"
)

// The fonts are DejaVu Sans Condensed, cut to the runes of Latin, Greek, Cyrillic and the signs of engineering; see fonts/README.md.
var (
	//go:embed fonts/DejaVuSansCondensed.ttf
	regularFont []byte
	//go:embed fonts/DejaVuSansCondensed-Bold.ttf
	boldFont []byte
)

const (
	family     = "dejavu"
	lastRune   = 0x2800 // the fonts hold nothing above
	notCovered = '□'    // stands for a rune that the fonts lack
)

// typeface is what is read from the fonts once: advances of each rune in thousandths of the size, and the faces for charts.
type typeface struct {
	advance [2][lastRune]uint16 // regular, bold; 0 is not covered
	faces   *font.Cache
}

// face returns the typeface, read on first use.
var face = sync.OnceValue(func() *typeface {
	t := &typeface{}
	parsed := [2]*sfnt.Font{}
	for i, data := range [2][]byte{regularFont, boldFont} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic(err) // a test holds that the embedded fonts are whole
		}
		parsed[i] = f
		t.measure(i, f)
	}
	t.faces = font.NewCache(font.Collection{{Font: font.Font{Typeface: family}, Face: parsed[0]},
		{Font: font.Font{Typeface: family, Weight: xfont.WeightBold}, Face: parsed[1]}})
	return t
})

func (t *typeface) measure(weight int, f *sfnt.Font) {
	var buf sfnt.Buffer
	units := f.UnitsPerEm()
	for r := rune(' '); r < lastRune; r++ {
		glyph, err := f.GlyphIndex(&buf, r)
		if err != nil || glyph == 0 {
			continue
		}
		wide, err := f.GlyphAdvance(&buf, glyph, fixed.Int26_6(units), xfont.HintingNone)
		if err == nil {
			t.advance[weight][r] = uint16(math.Round(float64(wide) * 1000 / float64(units)))
		}
	}
}

// covers says whether a text can be set with this rune.
func (t *typeface) covers(r rune) bool { return r < lastRune && t.advance[0][r] > 0 }

// width returns the width of a text of this size in points, in mm.
func (t *typeface) width(text string, size float64, bold bool) float64 {
	table, sum := &t.advance[0], 0
	if bold {
		table = &t.advance[1]
	}
	for _, r := range text {
		if r < lastRune {
			sum += int(table[r])
		}
	}
	return float64(sum) / 1000 * size * mmPerPoint
}

// clean prepares a text for the fonts: composed accents, plain spaces, nothing invisible, and a box for each rune that the fonts lack.
// A rune above U+FFFF would make the PDF library panic.
func clean(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029':
			return ' '
		case r != '\u00a0' && (unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r)):
			return -1
		case face().covers(r):
			return r
		}
		return notCovered
	}, norm.NFC.String(text)))
}

// customFonts returns the fonts for one document. The PDF library writes into the bytes, so each document has its own.
func customFonts() []*entity.CustomFont {
	return []*entity.CustomFont{
		{Family: family, Style: fontstyle.Normal, Bytes: bytes.Clone(regularFont)},
		{Family: family, Style: fontstyle.Bold, Bytes: bytes.Clone(boldFont)},
	}
}
