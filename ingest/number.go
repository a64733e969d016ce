package ingest

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/ingest/sheet"
)

// reading is how the numbers of a workbook are to be read, by its Settings.
type reading struct {
	system   units.System
	comma    bool // the decimal mark is a comma
	markTold bool // Settings name the decimal mark
	currency string
}

// measure says what a number of a column is.
type measure struct {
	quantity     units.Quantity
	unit         units.Unit // of the heading
	told         bool       // the heading gives a unit
	percentAbove float64
	money        bool
	directions   string // of an angle
}

// figure is a number as it was read.
type figure struct {
	value     float64 // in the base unit
	repaired  bool    // not as a workbook would store it: worth telling
	ambiguous bool    // a comma or a point that may part thousands or decimals
	fraction  bool    // a percentile given as a fraction
}

// number reads a cell as a number. The code says why it can't be.
func (r reading) number(c sheet.Cell, m measure) (figure, finding.Code) {
	switch {
	case c.Is(sheet.Date) && m.quantity == units.Share && strings.Contains(c.Shown, ":"):
		return r.text(c.Shown, m) // a slope 1:12 that became a time of day
	case c.Is(sheet.Date):
		return figure{}, CodeDateInNumber
	case c.Is(sheet.Bool):
		return figure{}, CodeNotNumber
	case c.Is(sheet.Number):
		v, err := strconv.ParseFloat(clean(c.Text), 64)
		if err != nil {
			return figure{}, CodeNotNumber
		}
		if c.Is(sheet.Percent) && (bare(m.quantity) || isPercent(m.quantity)) {
			return r.settled(figure{}, v*100, units.Share.In(units.SI), m)
		}
		return r.bare(figure{}, v, m)
	}
	return r.text(c.Text, m)
}

func isPercent(q units.Quantity) bool { return q == units.Share || q == units.Percent }

var (
	ratio      = regexp.MustCompile(`^(\d+(?:[.,]\d+)?)\s*(?::|/|in)\s*(\d+(?:[.,]\d+)?)$`)
	feetInches = regexp.MustCompile(`^(\d+)\s*(?:'|′|’|ft)\s*-?\s*(?:(\d+(?:\.\d+)?)?\s*-?\s*(\d+/\d+)?)\s*(?:"|″|”|''|in)?$`)
	fraction   = regexp.MustCompile(`^(?:(\d+)[\s-]+)?(\d+)/(\d+)\s*(.*)$`)
	figures    = regexp.MustCompile(`^[-+]?[0-9](?:[0-9.,'’_\s\x{202f}]*[0-9])?[.,]?(?:[eE][-+]?[0-9]{1,3})?|^[-+]?[.,][0-9]+`)
	about      = regexp.MustCompile(`^(?i:~|≈|ca\.?\s|approx\.?\s|about\s)\s*`)
	resistance = regexp.MustCompile(`^(?i:R)[-\s]?([0-9].*)$`)
)

// several is more than one number: 20 x 30, 100 to 200.
var several = regexp.MustCompile(`^[-+]?[0-9][0-9.,]*\s*[^\s0-9]{0,8}\s*(?i:x|×|\*|by|to|and|or|-|\+|&|;|…|,\s)\s*[-+]?[0-9][0-9.,]*\s*[^0-9]*$`)

// text reads a typed number, with the unit that may stand behind it.
func (r reading) text(text string, m measure) (figure, finding.Code) {
	t := straight(text)
	f, code := r.one(t, m)
	if (code == CodeNotNumber || code == CodeUnitUnknown) && several.MatchString(t) {
		code = CodeNotOneNumber
	}
	return f, code
}

// straight brings the signs together that look the same in print.
func straight(text string) string {
	t := strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u00a0", " ", "\u2009", " ", "\u202f", " ").Replace(clean(text))
	return strings.TrimPrefix(t, "'")
}

// one reads a single number.
func (r reading) one(t string, m measure) (figure, finding.Code) {
	var f figure
	if rest := about.ReplaceAllString(t, ""); rest != t {
		t, f.repaired = rest, true
	}
	if m.money {
		t = r.amount(t)
	}
	if m.directions != "" {
		return r.angle(t, m)
	}
	if m.quantity == units.Share {
		if g := ratio.FindStringSubmatch(t); g != nil {
			return r.quotient(g[1], g[2], m)
		}
	}
	if m.quantity == units.Insulance {
		if g := resistance.FindStringSubmatch(t); g != nil {
			f.repaired = true
			return r.typed(f, g[1], m, m.quantity.In(units.IP), true)
		}
	}
	if _, isLength := m.quantity.Parse("ft"); isLength {
		if g := feetInches.FindStringSubmatch(t); g != nil && strings.ContainsAny(t, "'′’\"″”/") {
			if f, ok := feet(g, m); ok {
				return f, ""
			}
		}
		if g := fraction.FindStringSubmatch(t); g != nil {
			return r.inches(g, m)
		}
	}
	return r.typed(f, t, m, m.unit, m.told)
}

// typed reads figures and the unit behind them; without one, the unit given holds.
func (r reading) typed(f figure, t string, m measure, unit units.Unit, told bool) (figure, finding.Code) {
	head := figures.FindString(t)
	if head == "" {
		return f, CodeNotNumber
	}
	v, how := decimal(strings.TrimSpace(head), r.comma)
	if how == notDecimal {
		return f, CodeNotNumber
	}
	f.ambiguous = how == mayBeThousands
	f.repaired = f.repaired || how == repairedMark
	rest := clean(t[len(head):])
	switch {
	case rest == "" && told:
		return r.settled(f, v, unit, m)
	case rest == "":
		return r.bare(f, v, m)
	}
	if marks := map[string]string{`"`: "in", "″": "in", "”": "in", "''": "in", "'": "ft", "′": "ft", "’": "ft"}; marks[rest] != "" {
		rest = marks[rest]
	}
	u, found := unitOf(m.quantity, rest)
	if !found {
		return f, CodeUnitUnknown
	}
	if u.Symbol != "%" && u.Symbol != m.or(r).Symbol {
		f.repaired = true
	}
	return r.settled(f, v, u, m)
}

// or returns the unit of a number that gives none.
func (m measure) or(r reading) units.Unit {
	if m.told {
		return m.unit
	}
	return m.quantity.In(r.system)
}

// bare gives a number without a unit its meaning: the heading's unit, else the workbook's; a share above 1 is percent.
func (r reading) bare(f figure, v float64, m measure) (figure, finding.Code) {
	switch {
	case m.told:
		return r.settled(f, v, m.unit, m)
	case m.percentAbove > 0 && v > m.percentAbove:
		return r.settled(f, v, units.Share.In(units.SI), m)
	case m.quantity == units.Share || bare(m.quantity):
		f.value = v
		return f, finite(v)
	}
	return r.settled(f, v, m.quantity.In(r.system), m)
}

// settled converts to the base unit.
func (r reading) settled(f figure, v float64, u units.Unit, m measure) (figure, finding.Code) {
	f.value = u.ToBase(v)
	if m.quantity == units.Percent {
		f.value = v
		if v >= 0.75 && v <= 1 {
			f.value, f.fraction = v*100, true
		}
	}
	return f, finite(f.value)
}

func finite(v float64) finding.Code {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return CodeNotNumber
	}
	return ""
}

// amount drops a currency sign, or the workbook's own currency, from both ends.
func (r reading) amount(t string) string {
	t = strings.Trim(t, "$€£¥ ")
	if n := len(r.currency); n > 0 && len(t) > n {
		if strings.EqualFold(t[:n], r.currency) {
			t = t[n:]
		} else if strings.EqualFold(t[len(t)-n:], r.currency) {
			t = t[:len(t)-n]
		}
	}
	return strings.TrimSpace(t)
}

func (r reading) quotient(over, under string, m measure) (figure, finding.Code) {
	a, how := decimal(over, r.comma)
	b, how2 := decimal(under, r.comma)
	if how == notDecimal || how2 == notDecimal || b == 0 {
		return figure{}, CodeNotNumber
	}
	return figure{value: a / b}, finite(a / b)
}

// feet reads 2' 6" and the like. A foot has twelve inches: 1'200 is a number with its thousands parted.
func feet(g []string, m measure) (figure, bool) {
	if g[2] == "" && g[3] == "" {
		return figure{}, false // feet alone
	}
	whole, _ := strconv.ParseFloat(g[1], 64)
	inches, _ := strconv.ParseFloat(g[2], 64) // blank is none
	part, ok := parts("0", g[3])
	if !ok || inches+part >= 12 {
		return figure{}, false
	}
	ft, _ := m.quantity.Parse("ft")
	v := ft.ToBase(whole) + units.Thickness.In(units.IP).ToBase(inches+part)
	return figure{value: v, repaired: true}, finite(v) == ""
}

// inches reads 7 1/2 in and the like.
func (r reading) inches(g []string, m measure) (figure, finding.Code) {
	v, ok := parts(g[1], g[2]+"/"+g[3])
	if !ok {
		return figure{}, CodeNotNumber
	}
	rest := strings.NewReplacer(`"`, "in", "″", "in", "”", "in", "''", "in").Replace(g[4])
	u := m.or(r)
	if rest != "" {
		found := false
		if u, found = unitOf(m.quantity, rest); !found {
			return figure{}, CodeUnitUnknown
		}
	}
	return figure{value: u.ToBase(v), repaired: true}, finite(u.ToBase(v))
}

// parts adds a whole number and a fraction such as 1/2; both may be blank.
func parts(whole, part string) (float64, bool) {
	v := 0.0
	if whole != "" {
		v, _ = strconv.ParseFloat(whole, 64)
	}
	if part == "" {
		return v, true
	}
	over, under, _ := strings.Cut(part, "/")
	a, err := strconv.ParseFloat(over, 64)
	b, err2 := strconv.ParseFloat(under, 64)
	if err != nil || err2 != nil || b == 0 {
		return 0, false
	}
	return v + a/b, true
}

// How a number's marks were understood.
type marked uint8

const (
	plainDecimal   marked = iota
	repairedMark          // thousands parted, or another decimal mark than the workbook's
	mayBeThousands        // a single mark before three digits
	notDecimal
)

// decimal reads figures with their decimal mark and groups of thousands. A mark that stands twice, or before the last of two kinds, parts
// thousands; a single one before exactly three digits is read as the workbook's decimal mark says.
func decimal(text string, comma bool) (float64, marked) {
	exponent := ""
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		text, exponent = text[:i], text[i:]
	}
	how := plainDecimal
	for _, s := range []string{" ", "'", "’", "_"} {
		if strings.Contains(text, s) {
			if !grouped(strings.TrimLeft(text, "-+"), s) {
				return 0, notDecimal
			}
			text, how = strings.ReplaceAll(text, s, ""), repairedMark
		}
	}
	text = strings.TrimRight(text, ".,")
	own, other := ".", ","
	if comma {
		own, other = ",", "."
	}
	mark := own // the decimal mark of this number
	owns, others := strings.Count(text, own), strings.Count(text, other)
	switch {
	case owns > 0 && others > 0:
		if strings.LastIndex(text, other) > strings.LastIndex(text, own) {
			mark = other
		}
		how = repairedMark
	case others == 1:
		mark = own
		if !threes(text, other) {
			mark = other
		} else {
			how = max(how, mayBeThousands)
		}
		how = max(how, repairedMark)
	case owns == 1 && exponent == "" && threes(text, own):
		how = max(how, mayBeThousands)
	case others > 1 || owns > 1:
		how = repairedMark
		mark = own
		if owns > 1 {
			mark = other
		}
	}
	thousands := other
	if mark == other {
		thousands = own
	}
	whole, part, _ := strings.Cut(text, mark)
	if strings.Contains(part, thousands) || strings.Contains(part, mark) || (strings.Contains(whole, thousands) && !grouped(strings.TrimLeft(whole, "-+"), thousands)) {
		return 0, notDecimal
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(whole, thousands, "")+"."+part+exponent, 64)
	if err != nil || strings.Trim(whole+part, "-+") == "" {
		return 0, notDecimal
	}
	return v, how
}

// threes says whether a single mark may part thousands: one to three digits before it, not 0 alone, and exactly three behind.
func threes(text, mark string) bool {
	whole, part, _ := strings.Cut(strings.TrimLeft(text, "-+"), mark)
	return len(part) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0'
}

// grouped says whether the whole part of a number is parted into threes by a mark.
func grouped(text, mark string) bool {
	groups := strings.Split(text, mark)
	for i, g := range groups {
		if j := strings.IndexAny(g, ".,"); j >= 0 && i == len(groups)-1 && mark != "." && mark != "," {
			g = g[:j]
		}
		if (i > 0 && len(g) != 3) || len(g) == 0 || len(g) > 3 {
			return false
		}
	}
	return true
}
