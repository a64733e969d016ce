package portfolio

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// under is a site of a region with a record of winters, whose own mild, typical and severe are the least, the middle and the greatest.
func under(id, region string, own [3]int64, winters ...Winter) Site {
	s := Site{ID: id, Region: region, Recorded: Recorded{Winters: winters, Severe: 1}}
	for i, m := range own {
		s.Design[i] = units.Some(cost.Money(m))
	}
	return s
}

func designOf(t Total) [3]int64 {
	var out [3]int64
	for i, m := range t.Design.Winter {
		out[i] = int64(m.Value)
	}
	return out
}

// TestSitesOfARegionShareTheirWinters, by hand: A and B have their worst in different winters, so that together none is as bad as both at their worst.
func TestSitesOfARegionShareTheirWinters(t *testing.T) {
	a := under("A", "north", [3]int64{100, 200, 300}, Winter{"2001", 100}, Winter{"2002", 300}, Winter{"2003", 200})
	b := under("B", "north", [3]int64{50, 60, 90}, Winter{"2001", 90}, Winter{"2002", 50}, Winter{"2003", 60})
	c := under("C", "north", [3]int64{10, 20, 40}) // one typical year: as it is
	d := under("D", "south", [3]int64{1, 2, 3}, Winter{"2001", 3}, Winter{"2002", 1})
	p := New("EUR")
	for _, s := range []Site{a, b, c, d} {
		p.Add(s)
	}
	list := p.Totals()
	// sums of A and B: 2001 190, 2002 350, 2003 260
	assert.Equal(t, [3]int64{190 + 10, 260 + 20, 350 + 40}, designOf(list[0]))
	assert.Equal(t, 2, list[0].Design.Shared)
	assert.Equal(t, [3]int64{1, 2, 3}, designOf(list[1]), "one site shares with nobody")
	assert.Equal(t, [3]int64{201, 282, 393}, designOf(list[2]), "all regions are their sum")
	for i := range list {
		assert.GreaterOrEqual(t, list[i].Design.Winter[0].Value, cost.Money([]int64{160, 1, 161}[i]), "together no milder than each at its mildest")
		assert.LessOrEqual(t, list[i].Design.Winter[2].Value, cost.Money([]int64{430, 3, 433}[i]), "nor worse than each at its worst")
	}
}

func TestOnlyWintersInCommonAreShared(t *testing.T) {
	a := under("A", "", [3]int64{100, 150, 200}, Winter{"2001", 100}, Winter{"2002", 200})
	b := under("B", "", [3]int64{10, 15, 20}, Winter{"2002", 10}, Winter{"2003", 20})
	p := New("EUR")
	p.Add(a)
	p.Add(b)
	assert.Equal(t, [3]int64{110, 165, 220}, designOf(p.All()), "one winter in common ranks nothing")
	assert.Zero(t, p.All().Design.Shared)
}

func TestPercentileOfSharedWinters(t *testing.T) {
	assert.Equal(t, cost.Money(127), between([]cost.Money{100, 130, 170}, 0.45)) // 100 + 0.9 · 30
	assert.Equal(t, cost.Money(170), between([]cost.Money{100, 130, 170}, 1))
	assert.Equal(t, cost.Money(100), between([]cost.Money{100, 130, 170}, 0))
}
