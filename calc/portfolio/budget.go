package portfolio

import (
	"cmp"
	"math"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// Pick is a site changed to one of its options.
type Pick struct {
	Site   string
	Option string
	First  cost.Money              // first cost of the option
	Net    cost.Money              // net savings over the study
	Ratio  float64                 // net savings for each unit of first cost
	Saved  units.Maybe[cost.Money] // yearly cost now less that of the option, typical winter
}

// Plan is which sites to change within a budget.
type Plan struct {
	Limit     cost.Money
	Committed cost.Money // first costs of what is approved, which come first
	Picks     []Pick     // of open sites, by Ratio
	First     cost.Money // of the picks
	Net       cost.Money // of the picks
	Exact     bool       // no choice within the limit saves more
	Bound     cost.Money // no choice can save more than this; Net where Exact
	Unpriced  int        // open sites that can't be considered: no option has first cost and savings
}

// Ranking returns for every open site the option that saves most for each unit spent, the best first, with none that saves nothing or loses a wanted
// function.
func (p *Portfolio) Ranking() []Pick {
	var list []Pick
	for _, s := range p.sites {
		best, found := Pick{}, false
		for _, o := range s.candidates() {
			if pick := s.pick(o); !found || pick.Ratio > best.Ratio {
				best, found = pick, true
			}
		}
		if found {
			list = append(list, best)
		}
	}
	slices.SortStableFunc(list, byRatio)
	return list
}

func byRatio(a, b Pick) int { return cmp.Or(cmp.Compare(b.Ratio, a.Ratio), cmp.Compare(b.Net, a.Net)) }

// candidates returns the options that an open site may be changed to.
func (s Site) candidates() []Option {
	if s.decision() != Open {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(s.Options), func(o Option) bool {
		return o.Base || o.Lost || !o.FirstCost.Known || !o.NetSavings.Known || o.NetSavings.Value <= 0
	})
}

func (s Site) pick(o Option) Pick {
	k := Pick{Site: s.ID, Option: o.Name, First: o.FirstCost.Value, Net: o.NetSavings.Value}
	if k.Ratio = math.Inf(1); k.First > 0 {
		k.Ratio = float64(k.Net) / float64(k.First)
	}
	if s.Now[1].Known && o.Yearly[1].Known {
		k.Saved = units.Some(s.Now[1].Value - o.Yearly[1].Value)
	}
	return k
}

// mostStates bounds what the exact search looks at; beyond it the plan is the best that was found and says so. A matter of time, not of the answer.
const mostStates = 20_000_000

// Within returns which open sites to change, each to one of its options, so that the net savings are greatest while the first costs stay within what
// the approved ones leave of a limit.
//
//	maximise Σ net savings, at most one option a site, Σ first cost ≤ limit − Σ first cost of the approved
//
// It is exact: site by site it keeps every pair of cost and savings that no other one beats, and drops those whose best possible end, by the
// linear bound of the sites that are left, falls short of a plan already found. Only when it would have to look at more than
// twenty million pairs, which takes hundreds of sites whose savings are as good as proportional to their first costs, it stops: then Exact is false and
// Bound says what no plan can exceed.
//
// Source: dynamic programming over undominated states with Lagrangian bounds, for the multiple-choice knapsack problem.
func (p *Portfolio) Within(limit cost.Money) Plan {
	plan := Plan{Limit: limit}
	var groups []group
	for _, s := range p.sites {
		switch list := s.candidates(); {
		case s.decision() == Approved:
			plan.Committed += s.Spend.Value
		case s.decision() == Open && !s.compared():
			plan.Unpriced++
		case len(list) > 0:
			groups = append(groups, newGroup(s, list))
		}
	}
	chosen, bound, exact := solve(groups, int64(limit-plan.Committed), mostStates)
	plan.Exact = exact
	for i, c := range chosen {
		if c >= 0 {
			k := groups[i].picks[c]
			plan.Picks = append(plan.Picks, k)
			plan.First, plan.Net = plan.First+k.First, plan.Net+k.Net
		}
	}
	slices.SortStableFunc(plan.Picks, byRatio)
	if plan.Bound = plan.Net; !exact {
		plan.Bound = cost.Money(bound)
	}
	return plan
}

// compared says whether an option of the site has what a choice needs.
func (s Site) compared() bool {
	return slices.ContainsFunc(s.Options, func(o Option) bool { return !o.Base && o.FirstCost.Known && o.NetSavings.Known })
}

// group is a site with the options that are worth looking at: each saves more than every cheaper one.
type group struct {
	picks []Pick
}

func newGroup(s Site, list []Option) group {
	var g group
	for _, o := range list {
		g.picks = append(g.picks, s.pick(o))
	}
	slices.SortStableFunc(g.picks, func(a, b Pick) int { return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(b.Net, a.Net)) })
	kept := g.picks[:0]
	for _, k := range g.picks {
		if len(kept) == 0 || k.Net > kept[len(kept)-1].Net {
			kept = append(kept, k)
		}
	}
	g.picks = kept
	return g
}

// reduced returns the greatest net savings less price times first cost of a group, nothing chosen included, and the choice; -1 is nothing.
func (g group) reduced(price float64) (best float64, choice int) {
	choice = -1
	for i, k := range g.picks {
		if v := float64(k.Net) - price*float64(k.First); v > best {
			best, choice = v, i
		}
	}
	return best, choice
}

// state is an undominated pair while the groups are gone through, with the way to it.
type state struct {
	first, net int64
	way        int32 // place in search.ways
}

// way is a choice that differs from the one its group would make for itself at the price.
type way struct {
	before        int32
	group, choice int32
}

// search is the way through the groups, those first whose choice is least clear.
type search struct {
	groups []group
	order  []int // of groups
	limit  int64
	price  float64
	alone  []int  // what each group would choose for itself at the price
	rest   []tail // what the groups from a place on come to, each for itself
	states []state
	ways   []way // of which the first is none
	looked int   // states looked at
	chosen []int // the best plan found, by group
	net    int64 // its savings
}

// tail is the best choices of the groups that are left, each for itself at the price.
type tail struct {
	first, net int64
	reduced    float64
}

// solve returns the choice of each group within a limit, -1 for none; an upper bound of the savings; and whether the choice is the best there is,
// which it is found to be by looking at no more than so many states.
func solve(groups []group, limit int64, most int) (chosen []int, bound float64, exact bool) {
	s := search{groups: groups, limit: limit, chosen: slices.Repeat([]int{-1}, len(groups))}
	if limit < 0 || len(groups) == 0 {
		return s.chosen, 0, true
	}
	s.begin()
	exact = s.sweep(most)
	return s.chosen, s.rest[0].reduced + s.price*float64(limit), exact
}

// begin finds the price of the limit, the order of the groups and a plan to start from.
func (s *search) begin() {
	s.price = priceOf(s.groups, s.limit)
	s.states, s.ways = []state{{}}, []way{{}}
	loss := make([]float64, len(s.groups))
	s.alone = make([]int, len(s.groups))
	for i, g := range s.groups {
		s.order = append(s.order, i)
		loss[i] = g.secondLoss(s.price)
		_, s.alone[i] = g.reduced(s.price)
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return cmp.Compare(loss[a], loss[b]) })
	s.rest = make([]tail, len(s.groups)+1)
	for i := len(s.order) - 1; i >= 0; i-- {
		k, t := s.order[i], s.rest[i+1]
		best, _ := s.groups[k].reduced(s.price)
		first, net := s.groups[k].of(s.alone[k])
		s.rest[i] = tail{t.first + first, t.net + net, t.reduced + best}
	}
	s.chosen = greedy(s.groups, s.limit)
	for i, c := range s.chosen {
		_, net := s.groups[i].of(c)
		s.net += net
	}
}

// of returns first cost and net savings of a choice; -1 is nothing.
func (g group) of(choice int) (first, net int64) {
	if choice < 0 {
		return 0, 0
	}
	return int64(g.picks[choice].First), int64(g.picks[choice].Net)
}

// sweep goes through the groups and keeps the undominated states that can still beat the best plan found; false where there are too many. A state
// that fits with the tail behind it is a plan itself.
func (s *search) sweep(most int) bool {
	for i, k := range s.order {
		s.grow(k, s.rest[i+1])
		s.complete(i + 1)
		t := s.rest[i+1]
		s.states = slices.DeleteFunc(s.states, func(v state) bool { return s.beaten(v.first, v.net, t) })
		if s.looked > most {
			return false
		}
	}
	return true
}

// beaten says whether a state can't end better than the best plan found: what is left of the limit is worth its price at most.
func (s *search) beaten(first, net int64, t tail) bool {
	const hair = 0.01 // minor units lost to floating point
	return first > s.limit || float64(net)+s.price*float64(s.limit-first)+t.reduced < float64(s.net)+1-hair
}

// grow puts every choice of a group behind each state, as far as it can still win.
func (s *search) grow(k int, t tail) {
	g, alone := s.groups[k], s.alone[k]
	all := make([]state, 0, 2*len(s.states))
	for choice := -1; choice < len(g.picks); choice++ {
		first, net := g.of(choice)
		for _, v := range s.states {
			to := state{v.first + first, v.net + net, v.way}
			if s.beaten(to.first, to.net, t) {
				continue
			}
			if choice != alone {
				to.way = int32(len(s.ways))
				s.ways = append(s.ways, way{v.way, int32(k), int32(choice)})
			}
			all = append(all, to)
		}
	}
	s.looked += len(all)
	s.states = undominated(all)
}

// complete takes the best plan that the states make with the tail behind them, where it beats the one that was found.
func (s *search) complete(level int) {
	t, at := s.rest[level], -1
	for i, v := range s.states {
		if v.first+t.first <= s.limit && v.net+t.net > s.net {
			s.net, at = v.net+t.net, i
		}
	}
	if at < 0 {
		return
	}
	copy(s.chosen, s.alone)
	for w := s.states[at].way; w > 0; w = s.ways[w].before {
		s.chosen[s.ways[w].group] = int(s.ways[w].choice)
	}
}

// undominated keeps the states that save more than every cheaper one.
func undominated(all []state) []state {
	slices.SortStableFunc(all, func(a, b state) int { return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(b.net, a.net)) })
	kept := all[:0]
	for _, s := range all {
		if len(kept) == 0 || s.net > kept[len(kept)-1].net {
			kept = append(kept, s)
		}
	}
	return slices.Clip(kept)
}

// secondLoss returns how much the second best choice of a group gives up at a price.
func (g group) secondLoss(price float64) float64 {
	best, choice := g.reduced(price)
	second := math.Inf(-1)
	if choice >= 0 {
		second = 0
	}
	for i, k := range g.picks {
		if i != choice {
			second = max(second, float64(k.Net)-price*float64(k.First))
		}
	}
	return best - second
}

// priceOf returns the net savings that a unit of the limit is worth: the price at which the sites, each for itself, would spend just the limit.
func priceOf(groups []group, limit int64) float64 {
	spent := func(price float64) float64 {
		sum := 0.0
		for _, g := range groups {
			if _, c := g.reduced(price); c >= 0 {
				sum += float64(g.picks[c].First)
			}
		}
		return sum
	}
	if spent(0) <= float64(limit) {
		return 0
	}
	lo, hi := 0.0, 1.0
	for spent(hi) > float64(limit) {
		hi *= 2
		if math.IsInf(hi, 1) {
			return 0
		}
	}
	for range 100 {
		if mid := (lo + hi) / 2; spent(mid) > float64(limit) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// step is a change of one site's option for a dearer one.
type step struct {
	group, to  int
	first, net int64
}

// greedy changes sites step by step, those first that save most for each unit spent, while the limit lasts: a plan to start from.
func greedy(groups []group, limit int64) []int {
	var steps []step
	for i, g := range groups {
		first, net := int64(0), int64(0)
		for c, k := range g.picks {
			steps = append(steps, step{i, c, int64(k.First) - first, int64(k.Net) - net})
			first, net = int64(k.First), int64(k.Net)
		}
	}
	slices.SortStableFunc(steps, func(a, b step) int {
		return cmp.Compare(float64(b.net)*float64(a.first), float64(a.net)*float64(b.first))
	})
	chosen := slices.Repeat([]int{-1}, len(groups))
	for _, s := range steps {
		had := int64(0)
		if c := chosen[s.group]; c >= 0 {
			had = int64(groups[s.group].picks[c].First)
		}
		extra := int64(groups[s.group].picks[s.to].First) - had
		if s.to > chosen[s.group] && extra <= limit {
			chosen[s.group], limit = s.to, limit-extra
		}
	}
	return chosen
}
