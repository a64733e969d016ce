package submittal

import (
	"encoding/binary"
	"testing"

	"github.com/phpdave11/gofpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A truncated font gives no error when a document is written, only a broken document.
func TestFontsAreWhole(t *testing.T) {
	for name, data := range map[string][]byte{"regular": regularFont, "bold": boldFont} {
		var sum uint32
		require.Zero(t, len(data)%4, name)
		for i := 0; i < len(data); i += 4 {
			sum += binary.BigEndian.Uint32(data[i:])
		}
		assert.Equal(t, uint32(0xB1B0AFBA), sum, "%s: the checksum of a whole TrueType file, as its format defines", name)
	}
}

func TestWidthsAreThoseOfThePDFLibrary(t *testing.T) {
	pdf := gofpdf.New("P", "mm", "A4", "")
	fonts := customFonts()
	pdf.AddUTF8FontFromBytes(family, "", fonts[0].Bytes)
	pdf.AddUTF8FontFromBytes(family, "B", fonts[1].Bytes)
	for _, text := range []string{"q = h_c (t_f − t_a)", "Übergrößenträgerstraße", "Снежная улица", "Ωμέγα ⅔ ≤ 12 °C", "Wind 8.8\u00a0m/s"} {
		pdf.SetFont(family, "", 9)
		assert.InDelta(t, pdf.GetStringWidth(text), face().width(text, 9, false), 1e-9, text)
		pdf.SetFont(family, "B", 9)
		assert.InDelta(t, pdf.GetStringWidth(text), face().width(text, 9, true), 1e-9, text)
	}
}

func TestClean(t *testing.T) {
	for given, want := range map[string]string{
		"Clinic 🏥 North":        "Clinic □ North",
		"a\tb\nc":               "a b c",
		"Cafe\u0301":            "Café",
		"zero\u200bwidth\ufe0f": "zerowidth",
		"道路":                    "□□",
		"  Łódź ":               "Łódź",
		"12\u00a0°C ⌀ ✓ ⅓":      "12\u00a0°C ⌀ ✓ ⅓",
	} {
		assert.Equal(t, want, clean(given))
	}
}
