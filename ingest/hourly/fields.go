package hourly

import (
	"bytes"
	"math"
	"strconv"
)

// lines walks over the lines of a file without copying them.
type lines struct {
	rest []byte
	n    int // of the line that next returned last
}

func (l *lines) next() ([]byte, bool) {
	if len(l.rest) == 0 {
		return nil, false
	}
	l.n++
	line := l.rest
	if i := bytes.IndexByte(l.rest, '\n'); i >= 0 {
		line, l.rest = l.rest[:i], l.rest[i+1:]
	} else {
		l.rest = nil
	}
	return bytes.TrimSuffix(line, []byte{'\r'}), true
}

// split cuts a line at its commas into the fields given, which hold no quoted commas, and returns how many there are.
func split(line []byte, fields [][]byte) int {
	n := 0
	for n < len(fields)-1 {
		i := bytes.IndexByte(line, ',')
		if i < 0 {
			break
		}
		fields[n] = line[:i]
		line = line[i+1:]
		n++
	}
	fields[n] = line
	return n + 1
}

// number reads a decimal number; NaN when it is none. Plain decimals, nearly all there are, take a short way: up to 15 digits are exact.
func number(b []byte) float64 {
	b = bytes.TrimSpace(b)
	i, negative := 0, false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		negative = b[i] == '-'
		i++
	}
	var value uint64
	scale, count, dot := 0, 0, false
	for ; i < len(b); i++ {
		switch c := b[i]; {
		case c >= '0' && c <= '9' && count < 15:
			value = value*10 + uint64(c-'0')
			count++
			if dot {
				scale++
			}
		case c == '.' && !dot:
			dot = true
		default:
			return slowNumber(b)
		}
	}
	if count == 0 {
		return math.NaN()
	}
	v := float64(value) / powers[scale]
	if negative {
		return -v
	}
	return v
}

var powers = [16]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

func slowNumber(b []byte) float64 {
	v, err := strconv.ParseFloat(string(b), 64)
	if err != nil || math.IsInf(v, 0) {
		return math.NaN()
	}
	return v
}

// within returns the number, or NaN where it is outside of what a format allows: each marks missing values by one that is too large.
func within(b []byte, least, most float64) float64 {
	v := number(b)
	if !(v >= least && v <= most) {
		return math.NaN()
	}
	return v
}

// whole reads a whole number of the range; false when it is none.
func whole(b []byte, least, most int) (int, bool) {
	v := number(b)
	if !(v >= float64(least) && v <= float64(most)) || v != math.Trunc(v) {
		return 0, false
	}
	return int(v), true
}
