package show

import (
	"fmt"
	"strconv"

	"thawbook/calc/surface"
)

// Hour tells when an hour of weather was: "2006-01-13 07:00", without the year where it is not one of the calendar. Empty for an hour without a date.
func Hour(t surface.Terms) string {
	if t.Month == 0 {
		return ""
	}
	text := fmt.Sprintf("%02d-%02d %02d:00", t.Month, t.Day, t.Clock)
	if _, err := strconv.Atoi(t.Year); err == nil {
		return t.Year + "-" + text
	}
	return text
}
