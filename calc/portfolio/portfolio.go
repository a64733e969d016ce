// Package portfolio adds up sites: by region, with the severe winter of all together, and says which sites to change first within a budget.
package portfolio

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// Decisions of an owner, in the words of Sites. A blank one is open.
const (
	Open     = "open"
	Approved = "approved"
	Declined = "declined"
	Deferred = "deferred"
)

// Site is what a portfolio needs of a site. All money is in one currency.
type Site struct {
	ID, Name, Region, Owner string
	Zones                   int
	AreaM2                  float64
	TotalW                  units.Maybe[float64]
	Design                  [3]units.Maybe[cost.Money] // yearly cost as in Sites with the chosen strategy, by cost.Winters
	Recorded                Recorded                   // the same winter by winter, where the weather is a record of several
	Now                     [3]units.Maybe[cost.Money] // yearly cost of the base case, clearing and care in it
	Budget                  [3]units.Maybe[cost.Money] // yearly cost by the decision: of what is approved, else Now
	Spend                   units.Maybe[cost.Money]    // first cost of what is approved, 0 where nothing is
	Decision, Chosen        string
	Options                 []Option // the base case among them
	Example                 bool     // an example price is in it
	Proposed                bool     // the program named the options
	Unwintered              bool     // a heated zone has no season, so no price would give Design an amount
}

// Recorded is what a site costs in each winter of a record. Mild and severe lie at two shares of the way from its cheapest winter to its dearest.
type Recorded struct {
	Winters      []Winter
	Mild, Severe float64
}

// Winter is a winter of a record, named by the year that it begins in, and what a site costs in it.
type Winter struct {
	Label string
	Total cost.Money
}

// Option is a way of doing a site.
type Option struct {
	Name         string
	Base         bool
	AsInSites    bool // the site as Sites describes it
	Proposed     bool // by the program
	FirstCost    units.Maybe[cost.Money]
	Yearly       [3]units.Maybe[cost.Money] // by cost.Winters
	PresentValue units.Maybe[cost.Money]
	NetSavings   units.Maybe[cost.Money] // against the base case
	SIR          units.Maybe[float64]
	AIRR         units.Maybe[float64]
	SimpleY      units.Maybe[float64]
	DiscountedY  units.Maybe[float64]
	Lost         bool // it lacks a function that was wanted
	Rank         int  // from 1; 0 without a present value
}

// decision returns the site's decision, open where none was told.
func (s Site) decision() string { return cmp.Or(s.Decision, Open) }

// Total is what the sites of a region, or all of them, come to. Amounts are sums of the rounded amounts of sites, of those that have one. Sites of a
// region that rest on records with winters in common share them: Design's mild and severe winter are those of their sums (Sum.share). Every other site
// ranks its own winters by what they cost, and its severe one is added as if all fell in one year: an upper bound of what they come to together, as
// that of mild winters is a lower one. All adds the regions.
type Total struct {
	Region     string
	All        bool // every region
	Sites      int
	Zones      int
	AreaM2     units.Maybe[float64] // of the sites that have one
	TotalW     units.Maybe[float64]
	Design     Sum
	Now        Sum
	Budget     Sum
	Spend      units.Maybe[cost.Money] // first costs of what is approved
	Decisions  [4]int                  // sites by DecisionList
	Example    bool                    // an example price is in it
	Unwintered int                     // of Design.Without, sites that no price would give an amount
}

// DecisionList is the decisions in order.
var DecisionList = [4]string{Open, Approved, Declined, Deferred}

// Sum is a yearly cost by cost.Winters with what it leaves out.
type Sum struct {
	Winter  [3]units.Maybe[cost.Money]
	Shared  int                  // sites whose winters were ranked together
	Without int                  // sites without an amount
	AreaM2  float64              // of the sites that have one
	PerM2   units.Maybe[float64] // main units a year and m², typical winter, of the sites that have one
}

// Portfolio is a fold over sites.
type Portfolio struct {
	currency string
	sites    []Site
}

// New returns an empty portfolio whose money is in a currency.
func New(currency string) *Portfolio { return &Portfolio{currency: currency} }

// Add takes a site in.
func (p *Portfolio) Add(s Site) { p.sites = append(p.sites, s) }

// Sites returns all sites in the order in which they came.
func (p *Portfolio) Sites() []Site { return p.sites }

// Totals returns a total for each region in the order of names, then that of all.
func (p *Portfolio) Totals() []Total {
	regions, members := map[string]*Total{}, map[string][]Site{}
	all := Total{All: true}
	var names []string
	for _, s := range p.sites {
		name := strings.TrimSpace(s.Region)
		if regions[name] == nil {
			regions[name] = &Total{Region: name}
			names = append(names, name)
		}
		regions[name].add(s, p.currency)
		members[name] = append(members[name], s)
		all.add(s, p.currency)
	}
	slices.Sort(names)
	out := make([]Total, 0, len(names)+1)
	for _, n := range names {
		apart := regions[n].Design.Winter
		regions[n].Design.share(members[n])
		all.Design.Shared += regions[n].Design.Shared
		for w := range apart {
			all.Design.Winter[w].Value += regions[n].Design.Winter[w].Value - apart[w].Value
		}
		out = append(out, *regions[n])
	}
	return append(out, all)
}

// share takes the mild and the severe winter of sites together that rest on records with winters in common: the sites' costs are added winter by
// winter, and the sums are ranked.
//
//	K_severe = Σ K_severe of the other sites + the sum at the severe share of the way through the ranked sums, linear between two
//
// With fewer than two such sites, or two common winters, nothing changes. Source: engineering method, section 7.
func (s *Sum) share(sites []Site) {
	sites = slices.DeleteFunc(slices.Clone(sites), func(s Site) bool {
		return len(s.Recorded.Winters) == 0 || !s.Design[0].Known || !s.Design[1].Known || !s.Design[2].Known
	})
	sums := inCommon(sites)
	if len(sites) < 2 || len(sums) < 2 {
		return
	}
	slices.Sort(sums)
	first := sites[0].Recorded
	for w, share := range map[int]float64{0: first.Mild, 2: first.Severe} {
		for _, site := range sites {
			s.Winter[w].Value -= site.Design[w].Value
		}
		s.Winter[w].Value += between(sums, share)
	}
	s.Shared = len(sites)
}

// inCommon adds the sites' costs in each winter that all of them have.
func inCommon(sites []Site) []cost.Money {
	count, sum := map[string]int{}, map[string]cost.Money{}
	for _, s := range sites {
		for _, w := range s.Recorded.Winters {
			count[w.Label]++
			sum[w.Label] += w.Total
		}
	}
	var out []cost.Money
	for label, n := range count {
		if n == len(sites) {
			out = append(out, sum[label])
		}
	}
	return out
}

// between returns the amount at a share of the way through a ranked list, rounded to a minor unit.
func between(ranked []cost.Money, share float64) cost.Money {
	at := share * float64(len(ranked)-1)
	low := int(at)
	high := min(low+1, len(ranked)-1)
	return ranked[low] + cost.Money(math.Round((at-float64(low))*float64(ranked[high]-ranked[low])))
}

func (t *Total) add(s Site, currency string) {
	t.Sites++
	t.Zones += s.Zones
	if s.AreaM2 > 0 {
		t.AreaM2 = plus(t.AreaM2, units.Some(s.AreaM2))
	}
	t.TotalW = plus(t.TotalW, s.TotalW)
	t.Design.add(s.Design, s.AreaM2, currency)
	t.Now.add(s.Now, s.AreaM2, currency)
	t.Budget.add(s.Budget, s.AreaM2, currency)
	t.Spend = plus(t.Spend, s.Spend)
	if i := slices.Index(DecisionList[:], s.decision()); i >= 0 {
		t.Decisions[i]++
	}
	t.Example = t.Example || s.Example
	if s.Unwintered && !s.Design[1].Known {
		t.Unwintered++
	}
}

// add takes in a site's winters; without all three it is left out.
func (s *Sum) add(winters [3]units.Maybe[cost.Money], area float64, currency string) {
	for _, m := range winters {
		if !m.Known {
			s.Without++
			return
		}
	}
	for i, m := range winters {
		s.Winter[i] = plus(s.Winter[i], m)
	}
	if s.AreaM2 += area; s.AreaM2 > 0 {
		s.PerM2 = units.Some(s.Winter[1].Value.Main(currency) / s.AreaM2)
	}
}

func plus[T float64 | cost.Money](sum, add units.Maybe[T]) units.Maybe[T] {
	if !add.Known {
		return sum
	}
	return units.Some(sum.Value + add.Value)
}

// All returns the total of all sites.
func (p *Portfolio) All() Total {
	totals := p.Totals()
	return totals[len(totals)-1]
}

// Alone returns what a site comes to by itself.
func (p *Portfolio) Alone(s Site) Total {
	t := Total{Region: strings.TrimSpace(s.Region)}
	t.add(s, p.currency)
	return t
}

// Site returns the site of an ID; an empty one where there is none.
func (p *Portfolio) Site(id string) Site {
	if i := slices.IndexFunc(p.sites, func(s Site) bool { return s.ID == id }); i >= 0 {
		return p.sites[i]
	}
	return Site{}
}

// Open returns the sites that wait for a decision; they count as they are now.
func (p *Portfolio) Open() []Site {
	return slices.DeleteFunc(slices.Clone(p.sites), func(s Site) bool { return s.decision() != Open })
}

// largest is how many sites are listed as the largest.
const largest = 10

// Largest returns the ten sites with the greatest yearly cost as in Sites in a typical winter, the greatest first.
func (p *Portfolio) Largest() []Site {
	list := slices.DeleteFunc(slices.Clone(p.sites), func(s Site) bool { return !s.Design[1].Known })
	slices.SortStableFunc(list, func(a, b Site) int { return cmp.Compare(b.Design[1].Value, a.Design[1].Value) })
	return list[:min(largest, len(list))]
}
