package hourly

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strconv"
	"strings"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// StationsFile is the table of built-in stations among the templates.
const StationsFile = "stations.tsv"

// stationColumns are its headings. Lists of twelve months begin with January; groups are separated by "|", their numbers by spaces.
var stationColumns = []string{"station", "latitude", "longitude", "elevation m", "extreme minimum °C", "snowfall variation", "source",
	"mean °C", "daily range K", "dew point °C", "wind m/s", "cloud share", "snow water mm", "rain mm", "snow days",
	"persistence", "wind spread", "wet hours", "rain hours", "rain hours below 2 °C", "sun W/m²",
	"clear sky below black body W/m²", "overcast sky below black body W/m²", "daily mean quantiles °C", "wet hour air quantiles °C",
	"storms: count, wet hours, span h", "wet hour bins: hours, air °C, wind m/s, mm/h, air less dew point K, cloud share"}

// normalColumns and jointColumns are the monthly values in the order of stationColumns, with the digits they are written with.
var (
	normalColumns = []struct {
		digits int
		at     func(*weather.MonthNormals) *float64
	}{
		{2, func(n *weather.MonthNormals) *float64 { return &n.MeanC }},
		{2, func(n *weather.MonthNormals) *float64 { return &n.DailyRangeK }},
		{2, func(n *weather.MonthNormals) *float64 { return &n.DewC }},
		{2, func(n *weather.MonthNormals) *float64 { return &n.WindMS }},
		{3, func(n *weather.MonthNormals) *float64 { return &n.CloudShare }},
		{2, func(n *weather.MonthNormals) *float64 { return &n.SnowMM }},
		{1, func(n *weather.MonthNormals) *float64 { return &n.RainMM }},
		{1, func(n *weather.MonthNormals) *float64 { return &n.SnowDays }},
	}
	jointColumns = []struct {
		digits int
		at     func(*weather.MonthJoint) *float64
	}{
		{2, func(j *weather.MonthJoint) *float64 { return &j.Persistence }},
		{2, func(j *weather.MonthJoint) *float64 { return &j.WindSpread }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.WetHours }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.RainHours }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.ColdRain }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.SunWM2 }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.SkyClear }},
		{1, func(j *weather.MonthJoint) *float64 { return &j.SkyOvercast }},
	}
)

// ReadStations reads the built-in stations, or those of a user's own table laid over it.
//
// Errors: *Error naming the line and the column.
func ReadStations(fsys fs.FS) ([]weather.Statistics, error) {
	f, err := fsys.Open(StationsFile)
	if err != nil {
		e := fail(CodeUnreadable, "file", StationsFile)
		e.Err = err
		return nil, e
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.Comma, in.Comment, in.LazyQuotes, in.ReuseRecord = '\t', '#', true, true
	var list []weather.Statistics
	for heading := true; ; heading = false {
		row, err := in.Read()
		if err == io.EOF {
			return list, nil
		}
		line, _ := in.FieldPos(0)
		if err != nil {
			return nil, badLine(StationsFile, line, "columns", err.Error())
		}
		if heading {
			continue
		}
		s, err := stationOf(row, line)
		if err != nil {
			return nil, err
		}
		list = append(list, s)
	}
}

// stationRow reads the cells of one station in turn and keeps the first error.
type stationRow struct {
	cells []string
	next  int
	line  int
	err   error
}

func (r *stationRow) text() string {
	r.next++
	return r.cells[r.next-1]
}

func (r *stationRow) bad(typed string) {
	if r.err == nil {
		r.err = badLine(StationsFile, r.line, stationColumns[r.next-1], typed)
	}
}

func (r *stationRow) number() float64 {
	t := r.text()
	v := number([]byte(t))
	if math.IsNaN(v) {
		r.bad(t)
	}
	return v
}

func (r *stationRow) maybe() units.Maybe[float64] {
	if r.cells[r.next] == "" {
		r.next++
		return units.Maybe[float64]{}
	}
	return units.Some(r.number())
}

// group reads so many numbers of a text.
func (r *stationRow) group(text string, want int) []float64 {
	words := strings.Fields(text)
	if len(words) != want {
		r.bad(text)
		return make([]float64, want)
	}
	list := make([]float64, want)
	for i, t := range words {
		if list[i] = number([]byte(t)); math.IsNaN(list[i]) {
			r.bad(t)
		}
	}
	return list
}

// groups cuts a cell at its bars.
func (r *stationRow) groups() []string {
	t := r.text()
	if t == "" {
		return nil
	}
	return strings.Split(t, "|")
}

func stationOf(cells []string, line int) (weather.Statistics, error) {
	if len(cells) != len(stationColumns) {
		return weather.Statistics{}, badLine(StationsFile, line, "columns", fmt.Sprint(len(cells)))
	}
	r := &stationRow{cells: cells, line: line}
	s := weather.Statistics{Name: strings.Clone(r.text()), LatDeg: r.number(), LonDeg: r.number(), ElevationM: r.number(),
		ExtremeMinC: r.maybe(), SnowVariation: r.maybe(), Source: strings.Clone(r.text())}
	for _, c := range normalColumns {
		for m, v := range r.group(r.text(), 12) {
			*c.at(&s.Normals[m]) = v
		}
	}
	for _, c := range jointColumns {
		for m, v := range r.group(r.text(), 12) {
			*c.at(&s.Joint.Months[m]) = v
		}
	}
	r.quantiles(func(m int) []float64 { return s.Joint.Months[m].DailyC[:] })
	r.quantiles(func(m int) []float64 { return s.Joint.Months[m].WetAirC[:] })
	for _, g := range r.groups() {
		v := r.group(g, 3)
		s.Joint.Storms = append(s.Joint.Storms, weather.StormBin{Storms: v[0], Wet: v[1], Span: v[2]})
	}
	for _, g := range r.groups() {
		v := r.group(g, 6)
		s.Joint.Cells = append(s.Joint.Cells, weather.SnowCell{Hours: v[0], AirC: v[1], WindMS: v[2], RateMM: v[3], DewK: v[4], Cloud: v[5]})
	}
	return s, r.err
}

func (r *stationRow) quantiles(at func(month int) []float64) {
	groups := r.groups()
	if len(groups) != 12 {
		r.bad(strconv.Itoa(len(groups)))
		return
	}
	for m, g := range groups {
		copy(at(m), r.group(g, len(at(m))))
	}
}

// WriteStations writes the table that ReadStations reads, below the lines of comment given.
func WriteStations(w io.Writer, comment []string, list []weather.Statistics) error {
	b := bufio.NewWriter(w)
	for _, c := range comment {
		fmt.Fprintf(b, "# %s\n", c)
	}
	fmt.Fprintln(b, strings.Join(stationColumns, "\t"))
	for i := range list {
		fmt.Fprintln(b, strings.Join(stationCells(&list[i]), "\t"))
	}
	return b.Flush()
}

func stationCells(s *weather.Statistics) []string {
	cells := []string{s.Name, plain(s.LatDeg, 3), plain(s.LonDeg, 3), plain(s.ElevationM, 0), maybe(s.ExtremeMinC, 1), maybe(s.SnowVariation, 2), s.Source}
	for _, c := range normalColumns {
		cells = append(cells, months(func(m int) string { return plain(*c.at(&s.Normals[m]), c.digits) }, " "))
	}
	for _, c := range jointColumns {
		cells = append(cells, months(func(m int) string { return plain(*c.at(&s.Joint.Months[m]), c.digits) }, " "))
	}
	cells = append(cells, months(func(m int) string { return group(s.Joint.Months[m].DailyC[:], 1) }, "|"),
		months(func(m int) string { return group(s.Joint.Months[m].WetAirC[:], 1) }, "|"))
	var storms, bins []string
	for _, b := range s.Joint.Storms {
		storms = append(storms, group([]float64{b.Storms, b.Wet, b.Span}, 2))
	}
	for _, c := range s.Joint.Cells {
		bins = append(bins, strings.Join([]string{plain(c.Hours, 2), plain(c.AirC, 1), plain(c.WindMS, 1), strconv.FormatFloat(c.RateMM, 'g', 4, 64),
			plain(c.DewK, 1), plain(c.Cloud, 2)}, " "))
	}
	return append(cells, strings.Join(storms, "|"), strings.Join(bins, "|"))
}

func months(write func(m int) string, between string) string {
	list := make([]string, 12)
	for m := range list {
		list[m] = write(m)
	}
	return strings.Join(list, between)
}

func group(values []float64, digits int) string {
	list := make([]string, len(values))
	for i, v := range values {
		list[i] = plain(v, digits)
	}
	return strings.Join(list, " ")
}

// plain writes a number with at most so many decimals, none of them needless.
func plain(v float64, digits int) string {
	t := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	if t == "-0" {
		return "0"
	}
	return t
}

func maybe(m units.Maybe[float64], digits int) string {
	if !m.Known {
		return ""
	}
	return plain(m.Value, digits)
}
