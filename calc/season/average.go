package season

import "math"

const wattHours = 1000 // in a kWh

// average returns a strategy's season from its winters. Months are averaged, peaks too, and the totals are the sums of the months.
func average(in Input, strategy Strategy, estimate string, winters []tally) Result {
	r := Result{Input: in, Strategy: strategy, Estimate: estimate, Years: make([]YearTotal, len(winters))}
	var hours [modes]float64
	n := float64(len(winters))
	for i := range winters {
		t := &winters[i]
		r.Years[i] = t.total()
		for m, h := range t.hours {
			hours[m] += h
		}
		r.UnmetHours += float64(t.unmet) / n
		r.LockedOutHours += float64(t.locked) / n
		r.IdlingKWhM2 += t.idle / wattHours / n
		for m, month := range r.Years[i].Months {
			r.Months[m].add(month, 1/n)
		}
	}
	r.SeasonHours = even((hours[off] + hours[idling] + hours[melting] + hours[drying]) / n)
	r.HoursIdling, r.HoursMelting, r.HoursDrying = even(hours[idling]/n), even(hours[melting]/n), even(hours[drying]/n)
	r.HoursOff = r.SeasonHours - r.HoursIdling - r.HoursMelting - r.HoursDrying
	sum := sumMonths(&r.Months)
	r.EnergyKWhM2, r.BackKWhM2, r.EdgeDegreeHours = sum.EnergyKWhM2, sum.BackKWhM2, sum.EdgeDegreeHours
	return r
}

// even rounds hours of an average to 1/1024 h, so that the hours by state add up to the season's in floating point without a remainder.
func even(hours float64) float64 { return math.Round(hours*1024) / 1024 }

// total returns a winter in kWh/m².
func (t *tally) total() YearTotal {
	var y YearTotal
	for m, month := range t.months {
		month.EnergyKWhM2 /= wattHours
		month.BackKWhM2 /= wattHours
		y.Months[m] = month
	}
	sum := sumMonths(&y.Months)
	y.EnergyKWhM2, y.BackKWhM2, y.EdgeDegreeHours = sum.EnergyKWhM2, sum.BackKWhM2, sum.EdgeDegreeHours
	return y
}

// add adds a share of another month.
func (m *Month) add(o Month, share float64) {
	m.EnergyKWhM2 += o.EnergyKWhM2 * share
	m.BackKWhM2 += o.BackKWhM2 * share
	m.PeakWM2 += o.PeakWM2 * share
	m.EdgeDegreeHours += o.EdgeDegreeHours * share
	m.HoursIdling += o.HoursIdling * share
	m.HoursMelting += o.HoursMelting * share
	m.HoursDrying += o.HoursDrying * share
	m.SnowOnSurfaceH += o.SnowOnSurfaceH * share
}

// sumMonths adds the months from January on; the peak is not a sum and stays 0.
func sumMonths(months *[12]Month) Month {
	var sum Month
	for _, m := range months {
		sum.EnergyKWhM2 += m.EnergyKWhM2
		sum.BackKWhM2 += m.BackKWhM2
		sum.EdgeDegreeHours += m.EdgeDegreeHours
	}
	return sum
}
