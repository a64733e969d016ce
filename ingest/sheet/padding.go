package sheet

import (
	"strconv"
	"strings"
)

// padding is a number format that writes a whole number with a fixed number of digits, and words before or behind: 00012, S-012.
type padding struct {
	before, behind string
	digits         int // 0: the format pads nothing
}

// paddingOf reads the first section of a number format. Formats that do anything but pad, such as decimals or groups, are none.
func paddingOf(code string) (padding, bool) {
	var p padding
	words := &p.before
	for i := 0; i < len(code) && code[i] != ';'; i++ {
		switch c := code[i]; c {
		case '0':
			if p.behind != "" {
				return padding{}, false
			}
			p.digits++
			words = &p.behind
		case '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return padding{}, false
			}
			*words += code[i+1 : i+1+end]
			i += 1 + end
		case '\\':
			if i++; i < len(code) {
				*words += code[i : i+1]
			}
		case '-', ' ':
			*words += string(c)
		default:
			return padding{}, false
		}
	}
	return p, p.digits > 1 || p.digits == 1 && p.before != ""
}

// write returns a stored number as the format shows it; empty when the format pads nothing, or the number is not a whole one from 0.
func (p padding) write(stored string) string {
	v, err := strconv.ParseFloat(stored, 64)
	if p.digits == 0 || err != nil || v < 0 || v >= 1e15 || v != float64(int64(v)) {
		return ""
	}
	digits := strconv.FormatInt(int64(v), 10)
	return p.before + strings.Repeat("0", max(0, p.digits-len(digits))) + digits + p.behind
}
