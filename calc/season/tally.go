package season

import "math"

const wattHours = 1000 // in a kWh

// tally is one strategy's winter. Energies in Wh/m², also those of its months, until it is a YearTotal or a Result.
type tally struct {
	hours                [modes]float64
	locked               int
	idle                 float64
	months               [12]Month
	snowing, bare        float64 // hours of snowfall, and of these with no solid to speak of
	refrozen             int
	fluidLimited         float64 // hours
	books                closure
	afterSnow, filmDries durations
}

// spend adds hours in a mode.
func (m *Month) spend(in mode, hours float64) {
	switch in {
	case idling:
		m.HoursIdling += hours
	case melting:
		m.HoursMelting += hours
	case drying:
		m.HoursDrying += hours
	}
}

// surface adds what lies on the pavement.
func (t *tally) surface(d *deck, e *exposure, month *Month, hours float64) {
	snowed := d.solid() > onSurfaceMM
	if snowed {
		month.SnowOnSurfaceH += hours
	}
	if e.seen {
		t.snowing += hours
		if !snowed {
			t.bare += hours
		}
	}
}

// average returns a strategy's season from its winters. Months are averaged, peaks too, and the totals are the sums of the months.
func average(in Input, strategy Strategy, winters []tally) Result {
	r := Result{Input: in, Strategy: strategy, Estimate: Transient}
	var hours [modes]float64
	n := float64(len(winters))
	for i := range winters {
		t := &winters[i]
		for m, h := range t.hours {
			hours[m] += h
		}
		r.LockedOutHours += float64(t.locked) / n
		r.IdlingKWhM2 += t.idle / wattHours / n
		for m := range t.months {
			r.Months[m].add(&t.months[m], 1/n)
		}
	}
	r.SeasonHours = even((hours[off] + hours[idling] + hours[melting] + hours[drying]) / n)
	r.HoursIdling, r.HoursMelting, r.HoursDrying = even(hours[idling]/n), even(hours[melting]/n), even(hours[drying]/n)
	r.HoursOff = r.SeasonHours - r.HoursIdling - r.HoursMelting - r.HoursDrying
	for _, m := range r.Months {
		r.EnergyKWhM2 += m.EnergyKWhM2
		r.BackKWhM2 += m.BackKWhM2
		r.EdgeDegreeHours += m.EdgeDegreeHours
	}
	r.ground(winters)
	return r
}

// even rounds hours of an average to 1/1024 h, so that the hours by state add up to the season's in floating point without a remainder.
func even(hours float64) float64 { return math.Round(hours*1024) / 1024 }

// add adds a share of a winter's month.
func (m *Month) add(o *Month, share float64) {
	m.EnergyKWhM2 += o.EnergyKWhM2 / wattHours * share
	m.BackKWhM2 += o.BackKWhM2 / wattHours * share
	m.PeakWM2 += o.PeakWM2 * share
	m.EdgeDegreeHours += o.EdgeDegreeHours * share
	m.HoursIdling += o.HoursIdling * share
	m.HoursMelting += o.HoursMelting * share
	m.HoursDrying += o.HoursDrying * share
	m.SnowOnSurfaceH += o.SnowOnSurfaceH * share
}

// total returns what a winter's bill rests on, in kWh/m².
func (t *tally) total(label string, snowFactor float64) YearTotal {
	y := YearTotal{Label: label, SnowFactor: snowFactor}
	for m := range t.months {
		from := &t.months[m]
		y.Months[m] = YearMonth{EnergyKWhM2: from.EnergyKWhM2 / wattHours, PeakWM2: from.PeakWM2, EdgeDegreeHours: from.EdgeDegreeHours}
		y.EnergyKWhM2 += y.Months[m].EnergyKWhM2
		y.EdgeDegreeHours += y.Months[m].EdgeDegreeHours
		y.HeatedHours += from.HoursIdling + from.HoursMelting + from.HoursDrying
	}
	return y
}
