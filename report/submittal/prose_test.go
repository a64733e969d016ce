package submittal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func lines(p *prose) []string {
	var out []string
	for _, l := range p.lines {
		var b strings.Builder
		for i, r := range l {
			if i > 0 && r.x > l[i-1].x+l[i-1].width+0.1 {
				b.WriteString(" ")
			}
			b.WriteString(map[int8]string{-1: "<", 0: "", 1: ">"}[r.level] + r.text)
		}
		out = append(out, b.String())
	}
	return out
}

func TestLettersAreRaisedAndLowered(t *testing.T) {
	st := style{size: 8, formula: true}
	for given, want := range map[string]string{
		"q_m = ρ_w s h_if":          "q<m = ρ<w s h<if",
		"h_c = 0.037 Re^0.8 Pr^⅓":   "h<c = 0.037 Re>0.8 Pr>⅓",
		"ε σ (T_f⁴ − T_a⁴)":         "ε σ (T<f⁴ − T<a⁴)",
		"(k/L)^(1/3) x":             "(k/L)>1/3 x",
		"t_core,melt(0 °C), t_a, b": "t<core,melt(0 °C), t<a, b",
		"n_¼":                       "n<¼",
	} {
		assert.Equal(t, []string{want}, lines(st.set(given, 500)))
	}
	assert.Equal(t, []string{"file_name^2"}, lines(style{size: 8}.set("file_name^2", 500)), "names of users stay as they are")
}

func TestLongWordsBreakAndLinesFit(t *testing.T) {
	st := style{size: 8}
	for _, width := range []float64{3, 12, 40} {
		p := st.set(strings.Repeat("Donaudampfschifffahrt", 5)+" a/b/c-d-e "+strings.Repeat("w", 80), width)
		for _, l := range p.lines {
			last := l[len(l)-1]
			assert.LessOrEqual(t, last.x+last.width, width+1e-9)
		}
	}
}

func TestCutTextEndsWithDots(t *testing.T) {
	p := style{size: 8, most: 2}.set(strings.Repeat("word ", 100), 30)
	got := lines(p)
	assert.Len(t, got, 2)
	assert.True(t, strings.HasSuffix(got[1], "…"))
}

func TestAsidesRunOnInGrey(t *testing.T) {
	st := style{size: 8}
	p := st.setWith("Seal the slot", "Water freezes in it.", 500)
	assert.Equal(t, []string{"Seal the slot Water freezes in it."}, lines(p))
	assert.Equal(t, []bool{false, true}, []bool{p.lines[0][0].aside, p.lines[0][1].aside})
	broken := st.setWith("Seal the slot", "Water freezes in it.", st.width("Seal the slot Water", 0)+0.5)
	assert.Equal(t, []string{"Seal the slot Water", "freezes in it."}, lines(broken))
	assert.True(t, broken.lines[1][0].aside)
}
