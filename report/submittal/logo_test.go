package submittal

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/report"
)

// pictureOf returns a logo of these pixels.
func pictureOf(t *testing.T, width, height int, kind string) report.Logo {
	t.Helper()
	p := image.NewNRGBA(image.Rect(0, 0, width, height))
	for i := range width * height {
		p.Set(i%width, i/width, color.NRGBA{R: 200, B: uint8(i), A: 255})
	}
	var b bytes.Buffer
	if kind == "jpg" {
		require.NoError(t, jpeg.Encode(&b, p, nil))
	} else {
		require.NoError(t, png.Encode(&b, p))
	}
	logo, err := report.ReadLogo(b.Bytes())
	require.NoError(t, err)
	return logo
}

func TestLogoStandsOnTheFirstPage(t *testing.T) {
	for _, kind := range []string{"png", "jpg"} {
		v := view{plain: true}.make(t)
		bare, err := Render(v)
		require.NoError(t, err)
		v.Logo = pictureOf(t, 400, 100, kind)
		doc, err := Render(v)
		require.NoError(t, err)
		for range 5 {
			again, err := Render(v)
			require.NoError(t, err)
			require.True(t, bytes.Equal(doc.Bytes, again.Bytes), "the same bytes every time")
		}
		assert.Empty(t, pictures(t, bare))
		assert.Equal(t, []string{"1 400 100"}, pictures(t, doc), "page and pixels")
		first, _, _ := strings.Cut(text(t, doc), "\f")
		assert.Contains(t, first, "Heated pavement: load, sensing and yearly cost")
	}
}

// TestLogoFitsItsBox whatever its shape, and a small one is not blown up.
func TestLogoFitsItsBox(t *testing.T) {
	for _, size := range [][2]int{{590, 20}, {20, 160}, {300, 165}, {16, 16}, {1, 1}} {
		e := fitted(report.Logo{Width: size[0], Height: size[1]}, report.LogoWidthMM, report.LogoHeightMM)
		assert.LessOrEqual(t, e.width, report.LogoWidthMM+1e-9)
		assert.LessOrEqual(t, e.height, report.LogoHeightMM+1e-9)
		assert.InDelta(t, float64(size[0])/float64(size[1]), e.width/e.height, 1e-9)
		assert.LessOrEqual(t, e.width/float64(size[0]), mmPerInch/leastDPI+1e-9)
	}
	assert.Empty(t, on(view{plain: true}.make(t)).emblem())
}

// pictures lists the pictures of a document: page, width and height in pixels.
func pictures(t *testing.T, doc Document) []string {
	t.Helper()
	out, err := exec.Command("pdfimages", "-list", saved(t, doc, "pdfimages")).Output()
	require.NoError(t, err)
	var list []string
	for _, row := range regexp.MustCompile(`(?m)^ +(\d+) +\d+ +image +(\d+) +(\d+)`).FindAllStringSubmatch(string(out), -1) {
		list = append(list, strings.Join(row[1:], " "))
	}
	return list
}
