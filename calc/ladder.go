package calc

import (
	"cmp"
	"math"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/season"
)

// WinterCost is one winter of a zone's station under the chosen strategy.
type WinterCost struct {
	Label      string    // of the year that it begins in
	SnowFactor float64   // on every hour's snow of the record
	Place      int       // in the order of cost, 1 for the cheapest
	Cost       cost.Year // its Winter is blank
}

// ladder is a zone's winters under one strategy, the cheapest first.
type ladder struct {
	winters []WinterCost
	uses    []cost.Use
}

// climb bills every winter of the zones of a bill, each under a strategy, and ranks each zone's by what they cost it; by the units bought where there is no
// price. The zones' winters are billed side by side in time order, a zone with fewer with its last: a zone's own amounts don't hang on another's heat.
func climb(group []*Outcome, under []*season.Result, bill func([]cost.Use) ([]cost.Year, error)) ([]ladder, error) {
	most := 0
	for _, r := range under {
		most = max(most, len(r.Years))
	}
	ladders, uses := make([]ladder, len(group)), make([]cost.Use, len(group))
	for w := range most {
		for i, o := range group {
			r := under[i]
			uses[i] = use(*o, r.Strategy, r.Years[min(w, len(r.Years)-1)])
		}
		years, err := bill(uses)
		if err != nil {
			return nil, err
		}
		for i := range group {
			if own := under[i].Years; w < len(own) {
				ladders[i].winters = append(ladders[i].winters, WinterCost{Label: own[w].Label, SnowFactor: own[w].SnowFactor, Cost: years[i]})
				ladders[i].uses = append(ladders[i].uses, uses[i])
			}
		}
	}
	for i := range ladders {
		ladders[i].rank()
	}
	return ladders, nil
}

// rank puts the places in order of cost, and the uses in the order of the places.
func (l *ladder) rank() {
	order := make([]int, len(l.winters))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &l.winters[a].Cost, &l.winters[b].Cost
		return cmp.Or(cmp.Compare(x.Total.Value, y.Total.Value), cmp.Compare(x.FuelUnits, y.FuelUnits))
	})
	sorted := make([]cost.Use, len(order))
	for place, i := range order {
		l.winters[i].Place = place + 1
		sorted[place] = l.uses[i]
	}
	l.uses = sorted
}

// at returns the use at a share of the way from the cheapest winter to the dearest, linear between the two next to it. A bill is linear in heat, hours and
// peaks, so that its cost is that percentile of the winters' costs; with a tier it bends, and the percentile is that of the use.
func (l *ladder) at(share float64) cost.Use {
	low, high, part := between(len(l.uses), share)
	return blend(l.uses[low], l.uses[high], part)
}

// between returns the two places, from 0, next to a share of the way through n of them, and the part of the way from the first to the second.
func between(n int, share float64) (low, high int, part float64) {
	at := share * float64(n-1)
	low = int(at)
	return low, min(low+1, n-1), at - math.Floor(at)
}

// blend returns a use on the way from one to another.
func blend(a, b cost.Use, part float64) cost.Use {
	a.HeatKWh += part * (b.HeatKWh - a.HeatKWh)
	a.Hours += part * (b.Hours - a.Hours)
	for m := range a.Months {
		a.Months[m].HeatKWh += part * (b.Months[m].HeatKWh - a.Months[m].HeatKWh)
		a.Months[m].PeakKW += part * (b.Months[m].PeakKW - a.Months[m].PeakKW)
	}
	return a
}

// use is what a zone takes from its site's plant under a strategy in a winter.
func use(o Outcome, strategy season.Strategy, y season.YearTotal) cost.Use {
	area := o.Zone.Extent.AreaM2
	u := cost.Use{Strategy: string(strategy), AreaM2: area, Hours: y.HeatedHours}
	if o.Piping != nil {
		u.PumpW = o.Piping.Head.PumpW
	}
	for i, m := range y.Months {
		heat := m.EnergyKWhM2*area + edgeKWh(o.Zone, m.EdgeDegreeHours)
		peak := m.PeakWM2 * area
		if peak > 0 {
			peak += o.Design.EdgeW.Or(0)
		}
		u.Months[i] = cost.MonthUse{HeatKWh: heat, PeakKW: peak / 1000}
		u.HeatKWh += heat
	}
	return u
}
