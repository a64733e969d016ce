package ingest

import (
	"regexp"
	"strconv"
	"strings"

	"thawbook/calc/season"
)

var months = [12]string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}

// longest month lengths: a day of any year.
var monthDays = [12]int{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

var (
	dayMonth = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?\.?\s*(?:of\s+)?([a-z]{3,})\.?(?:\s+\d{4})?$`)
	monthDay = regexp.MustCompile(`^([a-z]{3,})\.?\s*(\d{1,2})(?:st|nd|rd|th)?(?:,?\s+\d{4})?$`)
	isoDay   = regexp.MustCompile(`^(?:\d{4}-)?(\d{1,2})-(\d{1,2})$`)
	dotDay   = regexp.MustCompile(`^(\d{1,2})\.(\d{1,2})\.(?:\d{4})?$`)
)

// day reads a day of the year: 1 October, Oct 1, 10-01 (month first) or 1.10. (day first).
func day(text string) (season.Day, bool) {
	t := strings.ToLower(clean(text))
	if g := dayMonth.FindStringSubmatch(t); g != nil {
		return dayOf(month(g[2]), number(g[1]))
	}
	if g := monthDay.FindStringSubmatch(t); g != nil {
		return dayOf(month(g[1]), number(g[2]))
	}
	if g := isoDay.FindStringSubmatch(t); g != nil {
		return dayOf(number(g[1]), number(g[2]))
	}
	if g := dotDay.FindStringSubmatch(t); g != nil {
		return dayOf(number(g[2]), number(g[1]))
	}
	return season.Day{}, false
}

func dayOf(month, day int) (season.Day, bool) {
	if month < 1 || month > 12 || day < 1 || day > monthDays[month-1] {
		return season.Day{}, false
	}
	return season.Day{Month: int8(month), Day: int8(day)}, true
}

var (
	isoDate    = regexp.MustCompile(`^\d{4}-(\d{1,2})-(\d{1,2})$`)
	figureDate = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})[./-](?:\d{4}|\d{2})$`)
	monthYear  = regexp.MustCompile(`^([a-z]{3,})\.?,?\s+\d{4}$`)
)

// isDate says whether a text names a day, or a month, of a year. In figures the day or the month may come first.
func isDate(text string) bool {
	t := strings.ToLower(clean(text))
	if g := isoDate.FindStringSubmatch(t); g != nil {
		_, ok := dayOf(number(g[1]), number(g[2]))
		return ok
	}
	if g := figureDate.FindStringSubmatch(t); g != nil {
		_, dayFirst := dayOf(number(g[3]), number(g[1]))
		_, monthFirst := dayOf(number(g[1]), number(g[3]))
		return dayFirst || monthFirst
	}
	if g := monthYear.FindStringSubmatch(t); g != nil {
		return month(g[1]) > 0
	}
	_, ok := day(t)
	return ok && yearBehind.MatchString(t)
}

// yearBehind is a text that ends in a year.
var yearBehind = regexp.MustCompile(`\d{4}$`)

// month reads a month by number or by the first three letters or more of its name; 0 when it is none.
func month(text string) int {
	t := strings.ToLower(clean(text))
	if n := number(t); n >= 1 && n <= 12 {
		return n
	}
	t = strings.TrimSuffix(t, ".")
	for i, name := range months {
		if len(t) >= 3 && strings.HasPrefix(name, t) || t == "sept" && i == 8 {
			return i + 1
		}
	}
	return 0
}

// number reads a small whole number; 0 when it is none.
func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}
