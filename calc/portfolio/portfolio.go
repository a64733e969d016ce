// Package portfolio adds up sites: by region, with the severe winter of all together, and says which sites to change first within a budget.
package portfolio

import (
	"cmp"
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
	Now                     [3]units.Maybe[cost.Money] // yearly cost of the base case, clearing and care in it
	Budget                  [3]units.Maybe[cost.Money] // yearly cost by the decision: of what is approved, else Now
	Spend                   units.Maybe[cost.Money]    // first cost of what is approved, 0 where nothing is
	Decision, Chosen        string
	Options                 []Option // the base case among them
	Example                 bool     // an example price is in it
	Proposed                bool     // the program named the options
	Unwintered              bool     // a heated zone has no season, so no price would give Design an amount
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

// Total is what the sites of a region, or all of them, come to. Amounts are sums of the rounded amounts of sites, of those that have one. Each site
// ranks its own winters by what they cost, and the severe ones are added as if they fell in one year: sites under one station nearly share their
// winters; for regions far apart the sum is an upper bound of what they come to together, and that of mild winters a lower one.
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
	regions := map[string]*Total{}
	all := Total{All: true}
	var names []string
	for _, s := range p.sites {
		name := strings.TrimSpace(s.Region)
		if regions[name] == nil {
			regions[name] = &Total{Region: name}
			names = append(names, name)
		}
		regions[name].add(s, p.currency)
		all.add(s, p.currency)
	}
	slices.Sort(names)
	out := make([]Total, 0, len(names)+1)
	for _, n := range names {
		out = append(out, *regions[n])
	}
	return append(out, all)
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
