package report

import (
	"strconv"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
	"thawbook/report/words"
)

// Day writes a day of any year: "1 October".
func Day(w *words.Words, d weather.Day) string {
	months := strings.Split(w.Say("months"), ", ")
	return w.Say("day-of-month", finding.Words("day", strconv.Itoa(int(d.Day))), finding.Words("month", months[(int(d.Month)+11)%12]))
}
