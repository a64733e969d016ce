package portfolio

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

func money(list ...int64) [3]units.Maybe[cost.Money] {
	var out [3]units.Maybe[cost.Money]
	for i, v := range list {
		out[i] = units.Some(cost.Money(v))
	}
	return out
}

func option(name string, first, net int64) Option {
	return Option{Name: name, FirstCost: units.Some(cost.Money(first)), NetSavings: units.Some(cost.Money(net))}
}

func open(id string, options ...Option) Site {
	return Site{ID: id, Options: append([]Option{{Name: "base", Base: true}}, options...)}
}

func TestTotalsAreSumsOfRows(t *testing.T) {
	p := New("USD")
	r := rand.New(rand.NewPCG(1, 2))
	var all [3]cost.Money
	regions := map[string]cost.Money{}
	for i := range 200 {
		s := Site{ID: fmt.Sprint(i), Region: []string{"West", "East ", "", "East"}[i%4], Zones: 1 + i%3, AreaM2: 10 + float64(i)}
		amounts := []int64{r.Int64N(1e6), r.Int64N(1e6), r.Int64N(1e6)}
		if i%7 != 0 {
			s.Design = money(amounts...)
			for w, m := range amounts {
				all[w] += cost.Money(m)
			}
			regions[map[bool]string{true: "East", false: s.Region}[i%4 == 1]] += cost.Money(amounts[2])
		}
		p.Add(s)
	}
	totals := p.Totals()
	require.Len(t, totals, 4)
	assert.Equal(t, []string{"", "East", "West", ""}, []string{totals[0].Region, totals[1].Region, totals[2].Region, totals[3].Region})
	last := totals[3]
	assert.True(t, last.All)
	assert.Equal(t, 200, last.Sites)
	assert.Equal(t, 29, last.Design.Without)
	for w := range all {
		assert.Equal(t, units.Some(all[w]), last.Design.Winter[w], "to the cent")
		sum := cost.Money(0)
		for _, region := range totals[:3] {
			sum += region.Design.Winter[w].Value
		}
		assert.Equal(t, all[w], sum, "regions add up to all")
	}
	for _, region := range totals[:3] {
		assert.Equal(t, regions[region.Region], region.Design.Winter[2].Value, "the severe winter of all sites together")
	}
	assert.InDelta(t, all[1].Main("USD")/last.Design.AreaM2, last.Design.PerM2.Value, 1e-9)
	assert.Equal(t, 200, last.Decisions[0], "a blank decision is open")
}

func TestBlankStaysBlank(t *testing.T) {
	p := New("USD")
	p.Add(Site{ID: "a", AreaM2: 5})
	total := p.Totals()[0]
	assert.False(t, total.Design.Winter[0].Known)
	assert.False(t, total.Design.PerM2.Known)
	assert.Empty(t, p.Largest())
	assert.Empty(t, p.Ranking())
	plan := p.Within(1000)
	assert.Equal(t, 1, plan.Unpriced)
	assert.Empty(t, plan.Picks)
}

func TestLargest(t *testing.T) {
	p := New("USD")
	for i := range 15 {
		p.Add(Site{ID: fmt.Sprint(i), Design: money(1, int64(100*(i%8)), 1)})
	}
	p.Add(Site{ID: "blank"})
	list := p.Largest()
	require.Len(t, list, 10)
	assert.Equal(t, "7", list[0].ID)
	assert.Equal(t, []string{"6", "14"}, []string{list[1].ID, list[2].ID}, "in order where they are alike")
}

func TestRankingAndDecisions(t *testing.T) {
	p := New("USD")
	lost := option("loses", 10, 900)
	lost.Lost = true
	approved := open("approved", option("x", 100, 900))
	approved.Decision, approved.Spend = Approved, units.Some(cost.Money(300))
	declined := open("declined", option("x", 1, 900))
	declined.Decision = Declined
	for _, s := range []Site{open("a", option("dear", 1000, 500), option("cheap", 100, 200), lost), open("b", option("free", 0, 10)), open("c", option("worse", 10, -5)), approved, declined} {
		p.Add(s)
	}
	list := p.Ranking()
	require.Len(t, list, 2)
	assert.Equal(t, "free", list[0].Option, "what costs nothing comes first")
	assert.Equal(t, "cheap", list[1].Option)
	assert.InDelta(t, 2.0, list[1].Ratio, 1e-12)
	plan := p.Within(1350)
	assert.Equal(t, cost.Money(300), plan.Committed)
	assert.Equal(t, cost.Money(510), plan.Net, "1350 less 300 takes the dear option of a and what is free")
	assert.True(t, plan.Exact)
	assert.Equal(t, cost.Money(210), p.Within(1299).Net)
	over := p.Within(200)
	assert.Empty(t, over.Picks, "the approved ones alone pass the limit")
	assert.Zero(t, over.First)
}

// best looks through every choice.
func best(groups []group, limit int64) int64 {
	if len(groups) == 0 {
		return 0
	}
	most := best(groups[1:], limit)
	for _, k := range groups[0].picks {
		if int64(k.First) <= limit {
			most = max(most, int64(k.Net)+best(groups[1:], limit-int64(k.First)))
		}
	}
	return most
}

func TestWithinIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	for range 400 {
		p := New("USD")
		var groups []group
		total := int64(0)
		for i := range 1 + r.IntN(9) {
			s := open(fmt.Sprint(i))
			for range 1 + r.IntN(3) {
				first := r.Int64N(50)
				s.Options = append(s.Options, option("o", first, r.Int64N(60)-5))
				total += first
			}
			p.Add(s)
			if list := s.candidates(); len(list) > 0 {
				groups = append(groups, newGroup(s, list))
			}
		}
		limit := r.Int64N(total + 2)
		plan := p.Within(cost.Money(limit))
		require.True(t, plan.Exact)
		require.LessOrEqual(t, int64(plan.First), limit)
		require.Equal(t, best(groups, limit), int64(plan.Net))
		had := map[string]bool{}
		for _, k := range plan.Picks {
			require.False(t, had[k.Site], "one option a site")
			had[k.Site] = true
		}
	}
}

// TestWithinOfAThousandSites: the sizes that matter are solved to the end, whatever the limit, also where savings follow first costs.
func TestWithinOfAThousandSites(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 21))
	for _, follows := range []bool{false, true} {
		p := New("USD")
		total := int64(0)
		for i := range 1000 {
			s := open(fmt.Sprint(i))
			for range 4 {
				first := 500_00 + r.Int64N(80_000_00)
				net := r.Int64N(90_000_00)
				if follows {
					net = first/2 + r.Int64N(first)
				}
				s.Options = append(s.Options, option("o", first, net))
			}
			total += 40_000_00
			p.Add(s)
		}
		for _, share := range []int64{20, 5, 2, 1} {
			limit := cost.Money(total / share)
			plan := p.Within(limit)
			assert.True(t, plan.Exact, "1/%d", share)
			assert.LessOrEqual(t, plan.First, limit)
			more := p.Within(limit + limit/10)
			assert.GreaterOrEqual(t, more.Net, plan.Net, "more money never saves less")
		}
	}
}

// TestTooManyStatesAreSaid: where the search stops, the plan is within the limit, says that it may not be the best, and bounds what it missed.
func TestTooManyStatesAreSaid(t *testing.T) {
	groups := make([]group, 60)
	limit := int64(0)
	r := rand.New(rand.NewPCG(2, 9))
	for i := range groups {
		v := cost.Money(1_000_000_000 + r.Int64N(1_000_000_000))
		groups[i].picks = []Pick{{First: v, Net: v}}
		limit += int64(v) / 2
	}
	chosen, bound, exact := solve(groups, limit, 10_000)
	require.False(t, exact)
	sum := int64(0)
	for i, c := range chosen {
		if c >= 0 {
			sum += int64(groups[i].picks[c].Net)
		}
	}
	assert.LessOrEqual(t, sum, limit)
	assert.GreaterOrEqual(t, bound, float64(sum))
}
