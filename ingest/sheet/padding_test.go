package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Number formats as a spreadsheet shows 12 with them. Source: ECMA-376 part 1, 18.8.31.
func TestPadding(t *testing.T) {
	for format, want := range map[string]string{"00000": "00012", "000": "012", `"S-"0`: "S-12", `"S"000" b"`: "S012 b", `\N000`: "N012", "000;-000": "012", "00": "12",
		"0": "", "": "", "0.00": "", "#,##0": "", "General": "", "000-000": "", "0%": "", "00/00": "", "yyyy": "", `"S`: ""} {
		p, pads := paddingOf(format)
		got := ""
		if pads {
			got = p.write("12")
		}
		assert.Equal(t, want, got, format)
	}
	five, _ := paddingOf("00000")
	assert.Equal(t, "1234567", five.write("1234567"))
	assert.Equal(t, "00012", five.write("1.2E1"))
	for _, stored := range []string{"12.5", "-3", "", "words", "1e20"} {
		assert.Empty(t, five.write(stored), stored)
	}
}
