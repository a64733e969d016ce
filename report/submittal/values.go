package submittal

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// number writes a value without its unit, for tables whose heading names it.
func (s sheet) number(v float64, q units.Quantity) string { return s.Words.Show.Number(v, q) }

func (s sheet) with(v float64, q units.Quantity) string { return s.Words.Show.With(v, q) }

func (s sheet) maybe(v units.Maybe[float64], q units.Quantity) string {
	return s.Words.Show.Maybe(v, q)
}

// bare writes a value that may be blank, without its unit.
func (s sheet) bare(v units.Maybe[float64], q units.Quantity) string {
	if !v.Known {
		return show.NotAvailable
	}
	return s.number(v.Value, q)
}

// positive writes a value that is 0 only where it was not read, without its unit.
func (s sheet) positive(v float64, q units.Quantity) string {
	return s.bare(units.Maybe[float64]{Value: v, Known: v > 0}, q)
}

// exact writes a value with its unit and at least three significant digits, as a worked calculation shows it.
func (s sheet) exact(v float64, q units.Quantity) string {
	text := s.digits(v, q)
	if text == show.NotAvailable {
		return text
	}
	return strings.TrimRight(text+"\u00a0"+s.Words.Show.Unit(q), "\u00a0")
}

// digits writes a value as exact does, without its unit.
func (s sheet) digits(v float64, q units.Quantity) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return show.NotAvailable
	}
	shown, decimals := q.In(s.Words.Show.Units).FromBase(v), s.Words.Show.Decimals(q)
	if size := math.Abs(shown); size >= 1000 && decimals > 0 {
		decimals = 0
	} else if size > 0 && size < 100 && q != units.Count && !(q == units.Hours && shown == math.Round(shown)) {
		decimals = min(decimals+3, max(decimals, 2-int(math.Floor(math.Log10(size)))))
	}
	if q == units.Temperature || q == units.TemperatureDiff {
		decimals = s.Words.Show.Decimals(q)
	}
	return s.Words.Show.Plain(shown, decimals)
}

// amount writes an amount without its currency, for tables whose heading names it.
func (s sheet) amount(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return show.NotAvailable
	}
	currency := s.Settings.Currency
	return s.Words.Show.Plain(m.Value.Main(currency), cost.Decimals(currency))
}

// rounded writes an amount without its currency and without its cents.
func (s sheet) rounded(m units.Maybe[cost.Money]) string {
	if !m.Known {
		return show.NotAvailable
	}
	return s.Words.Show.Whole(m.Value)
}

// round writes an amount with its currency and without its cents, for the first glance.
func (s sheet) round(m units.Maybe[cost.Money]) string {
	return s.Words.Show.Round(m)
}

// short writes a plain number without trailing zeros.
func (s sheet) short(v float64) string {
	text := s.Words.Show.Plain(v, 2)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".,")
}

// or returns a text, or "not available" for an empty one.
func or(text string) string {
	if strings.TrimSpace(text) == "" {
		return show.NotAvailable
	}
	return text
}

// capital begins a text with a capital letter.
func capital(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[n:]
}

// sentence ends a text with a full stop.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?:") {
		return text
	}
	return text + "."
}
