package report

import (
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
)

// Total is what the sites of a region, or all of them, come to. Amounts are sums of the rounded amounts of sites.
type Total struct {
	Region     string
	All        bool // every region
	Sites      int
	Zones      int
	AreaM2     units.Maybe[float64]       // of the sites that have one
	TotalW     units.Maybe[float64]       // of the sites that have one
	Winter     [3]units.Maybe[cost.Money] // by cost.Winters, of the sites that have one
	Unpriced   int                        // sites without a yearly cost for want of a price alone
	Unwintered int                        // sites without a yearly cost because a zone has no season
	Example    bool                       // an example price is in it
}

// Portfolio adds up sites. The zero Portfolio is ready.
type Portfolio struct {
	regions map[string]*Total
	all     Total
}

// Add counts a site, unless nothing of it is included.
func (p *Portfolio) Add(s calc.Summary) {
	if s.Status == calc.NotIncluded {
		return
	}
	if p.regions == nil {
		p.regions = map[string]*Total{}
	}
	name := strings.TrimSpace(s.Region)
	region, found := p.regions[name]
	if !found {
		region = &Total{Region: name}
		p.regions[name] = region
	}
	region.add(s)
	p.all.add(s)
}

// Totals returns a total for each region in the order of names, then the total of all.
func (p *Portfolio) Totals() []Total {
	var out []Total
	for _, r := range p.regions {
		out = append(out, *r)
	}
	slices.SortFunc(out, func(a, b Total) int { return strings.Compare(a.Region, b.Region) })
	return append(out, p.All())
}

// All returns the total of all sites.
func (p *Portfolio) All() Total {
	all := p.all
	all.All = true
	return all
}

// WithoutCost returns how many sites have no yearly cost.
func (t Total) WithoutCost() int { return t.Unpriced + t.Unwintered }

func (t *Total) add(s calc.Summary) {
	t.Sites++
	t.Zones += s.Zones
	t.AreaM2 = plus(t.AreaM2, s.AreaM2)
	t.TotalW = plus(t.TotalW, s.TotalW)
	for i, m := range s.Winter {
		t.Winter[i] = plus(t.Winter[i], m)
	}
	switch {
	case s.YearlyCost.Known:
	case s.Unwintered:
		t.Unwintered++
	default:
		t.Unpriced++
	}
	t.Example = t.Example || s.ExamplePrices
}

func plus[T float64 | cost.Money](sum, add units.Maybe[T]) units.Maybe[T] {
	if !add.Known {
		return sum
	}
	return units.Some(sum.Value + add.Value)
}
