package season

import (
	"errors"
	"fmt"

	"thawbook/calc/weather"
)

const (
	spinUpHours = 92 * 24
	spinUpMean  = 10 * 24 // hours whose mean air temperature a column starts at
)

// ErrNoHours tells of a station without a single hour of the season.
var ErrNoHours = errors.New("the station has no hours of the season")

// Run returns the season of every strategy at a station, averaged over its winters, in the order of Strategies; of a pavement that nothing heats the
// unheated one alone, and with Only that strategy behind the unheated one, the same to the bit and without recommended delays. See the package comment for the model.
//
// A station with one winter has that winter again with every hour's snow times LessSnow and MoreSnow: in Years alone, and the snow before the season
// as it is.
//
// Source:  engineering method, sections 1 to 4.
// Errors:  ErrNoHours; ErrColumn; an input of Input outside what the rooms above take.
func Run(in Input, st weather.Station) ([]Result, error) { return run(in, st, asUsed) }

func run(in Input, st weather.Station, cut resolution) ([]Result, error) {
	c, err := newCourse(&in, &st, cut)
	if err != nil {
		return nil, err
	}
	winters, err := in.winters(&st)
	if err != nil {
		return nil, err
	}
	window, err := in.window(winters)
	if err != nil {
		return nil, err
	}
	used := in.controls()
	ledgers := make([]ledger, len(used))
	for i, runs := range winters {
		w := c.begin(&st, runs)
		if i == window.Winter {
			w.window = window
		}
		for _, factor := range in.factors(len(winters)) {
			w.snows(factor)
			for k := range used {
				ledgers[k].keep(c, &used[k], &w, factor)
			}
		}
		for k := len(used) - 1; k >= 0; k-- {
			ledgers[k].last().lessUnheated(ledgers[0].last())
		}
	}
	results := make([]Result, len(used))
	for k := range used {
		results[k] = average(in, used[k].strategy, ledgers[k].winters)
		results[k].Years, results[k].Storm = ledgers[k].years, ledgers[k].storm
	}
	recommend(results, skyApart(&in, &st))
	return results, nil
}

// controls lists the strategies that run, unheated pavement first.
func (in *Input) controls() []control {
	if in.InstalledWM2 == 0 {
		return controls[:1]
	}
	for i := range controls {
		if controls[i].strategy == in.Only && i > 0 {
			return []control{controls[0], controls[i]}
		}
	}
	return controls[:]
}

// factors lists the snow of the runs of a winter: as it is, of a station's only winter also less and more.
func (in *Input) factors(winters int) []float64 {
	list := []float64{1}
	if winters == 1 && in.LessSnow != 1 {
		list = []float64{in.LessSnow, 1}
	}
	if winters == 1 && in.MoreSnow != 1 {
		list = append(list, in.MoreSnow)
	}
	return list
}

// ledger keeps a strategy's winters.
type ledger struct {
	winters []tally // with the snow as it is
	years   []YearTotal
	storm   Storm
}

func (l *ledger) last() *tally { return &l.winters[len(l.winters)-1] }

// keep runs a strategy through a winter. With another snow only its bill counts, and unheated pavement has none.
func (l *ledger) keep(c *course, by *control, w *winter, factor float64) {
	var t tally
	switch {
	case factor == 1 && w.window.Hours > 0:
		l.storm = Storm{Label: w.label, Hours: make([]StormHour, 0, w.window.Hours)}
		c.run(by, w, &t, &l.storm)
	case factor == 1 || by.by != 0:
		c.run(by, w, &t, nil)
	}
	l.years = append(l.years, t.total(w.label, factor))
	if factor == 1 {
		l.winters = append(l.winters, t)
	}
}

// resolution is how finely a winter is cut: 1 in use, more in tests that show that this is fine enough.
type resolution struct{ cells, steps int }

var asUsed = resolution{1, 1}

// course is what all strategies and winters of a call share.
type course struct {
	in           *Input
	core         *targets
	net          net
	fine, coarse factors
	subSteps     int
	vapour       *vapour
	lewis        float64
}

// check returns what the weather's side of the method can't take; the column and the reset check their own.
func (in *Input) check() error {
	switch {
	case !(in.InstalledWM2 >= 0 && in.InstalledWM2 <= 1e5):
		return fmt.Errorf("installed output %g W/m²: not a heat flux", in.InstalledWM2)
	case !(in.LengthM > 0 && in.LengthM <= 1e5) || !(in.WindFactor >= 0 && in.WindFactor <= 10):
		return fmt.Errorf("length %g m in the wind's direction, wind factor %g", in.LengthM, in.WindFactor)
	case !(in.LessSnow >= 0 && in.LessSnow <= 1) || !(in.MoreSnow >= 1 && in.MoreSnow <= 100):
		return fmt.Errorf("factors %g and %g on the snow: want one up to 1 and one from 1", in.LessSnow, in.MoreSnow)
	}
	return nil
}

func newCourse(in *Input, st *weather.Station, cut resolution) (*course, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	core, err := targetsOf(in, st)
	if err != nil {
		return nil, err
	}
	c := &course{in: in, core: core, vapour: newVapour(), lewis: lewisRatio()}
	if c.net, err = netOf(&in.Column, in.CoreResistance, cut.cells); err != nil {
		return nil, err
	}
	c.subSteps = fineSteps * cut.steps
	c.fine, c.coarse = c.net.factor(fineS/float64(cut.steps)), c.net.factor(coarseS/float64(cut.steps))
	return c, nil
}

// winter is what a winter does to a pavement, and the pavement at its beginning.
type winter struct {
	label string // of the year of its first hours
	pavement
	hours  []exposure
	window Window // of the hours to tell; none without hours
}

// snows sets every hour's snow to that of the record times a factor.
func (w *winter) snows(factor float64) {
	for i := range w.hours {
		w.hours[i].snows(factor)
	}
}

// winters returns the station's winters as the runs that each is made of.
func (in *Input) winters(st *weather.Station) ([][]weather.Slice, error) {
	runs := st.Season(in.Start, in.End)
	if len(runs) == 0 {
		return nil, fmt.Errorf("%s: %w", st.Name, ErrNoHours)
	}
	var list [][]weather.Slice
	for from, i := 0, 1; i <= len(runs); i++ {
		if i == len(runs) || runs[i].Winter != runs[from].Winter {
			list = append(list, runs[from:i])
			from = i
		}
	}
	return list, nil
}

// begin returns a winter with a pavement that the hours before it spun up without heat.
func (c *course) begin(st *weather.Station, runs []weather.Slice) winter {
	label, early := before(st, &runs[0].Hours[0])
	hours := make([]exposure, 0, len(early)+hoursOf(runs))
	for i := range early {
		hours = append(hours, c.exposure(&early[i]))
	}
	for _, r := range runs {
		for i := range r.Hours {
			hours = append(hours, c.exposure(&r.Hours[i]))
		}
	}
	w := winter{label: label, pavement: c.start(hours), hours: hours[:len(early)]}
	var idle tally
	spun := c.way(&controls[0], &w, &idle)
	for i := range w.hours {
		spun.hour(&w.hours[i])
	}
	w.pavement, w.hours = spun.pavement, hours[len(early):]
	return w
}

// before returns the label of the year that a run begins in, and the hours of that year before it, at most spinUpHours.
func before(st *weather.Station, first *weather.Hour) (label string, hours []weather.Hour) {
	for i := range st.Years {
		y := &st.Years[i]
		for k := range y.Hours {
			if &y.Hours[k] == first {
				return y.Label, y.Hours[max(0, k-spinUpHours):k]
			}
		}
	}
	return "", nil
}

// start returns a dry column at the mean air temperature of the first days, its ground on a line to the foot.
func (c *course) start(hours []exposure) pavement {
	p := pavement{net: &c.net, vapour: c.vapour, lewis: c.lewis}
	mean, n := 0.0, min(len(hours), spinUpMean)
	for i := range n {
		mean += hours[i].airC / float64(n)
	}
	n = c.net.n
	total := 0.0
	for i := range n {
		total += 1 / c.net.link[i]
	}
	foot, above := c.net.footC(mean), 0.0
	for i := range n {
		p.t[i] = mean + (foot-mean)*above/total
		above += 1 / c.net.link[i]
	}
	return p
}

// run runs a strategy through a winter, and tells the hours of the winter's window where there is a storm to tell them in.
func (c *course) run(by *control, w *winter, t *tally, storm *Storm) {
	y := c.way(by, w, t)
	at := y.opened()
	told, after := len(w.hours), len(w.hours)
	if storm != nil {
		told, after = w.window.First, w.window.First+w.window.Hours
	}
	for i := range w.hours[:told] {
		y.hour(&w.hours[i])
	}
	for i := told; i < after; i++ {
		y.hour(&w.hours[i])
		storm.Hours = append(storm.Hours, y.told(&w.hours[i]))
	}
	for i := after; i < len(w.hours); i++ {
		y.hour(&w.hours[i])
	}
	t.books = y.closed(at)
}

// way returns a strategy at the beginning of a winter.
func (c *course) way(by *control, w *winter, t *tally) way {
	return way{machine: machine{c: by, sinceS: -1, filmS: -1}, pavement: w.pavement, in: c.in, fine: &c.fine, coarse: &c.coarse, subSteps: c.subSteps, tally: t}
}
