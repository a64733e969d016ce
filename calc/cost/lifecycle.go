package cost

import (
	"errors"
	"fmt"
	"math"

	"thawbook/calc/units"
)

// ErrStudy tells of a study, or of flows in it, that can't be valued.
var ErrStudy = errors.New("life cycle")

// Study is over which years and at which rate costs are compared: constant prices of today and a real rate, so that inflation stands in neither.
// Amounts of a year come at its end, the first cost at the beginning of the first.
type Study struct {
	Years    int
	Discount float64 // real
}

// Stream is an amount that comes back every year.
type Stream struct {
	Name       string // of the energy, CareStream or ClearingStream
	Yearly     Money  // at prices of today
	Escalation float64
}

// Names of streams that are no energy.
const (
	CareStream     = "care"
	ClearingStream = "clearing"
)

// Event is an amount that comes once.
type Event struct {
	Year   int
	Item   string
	Zone   string
	Amount Money
}

// Flows is all that one way of doing a site costs over a study.
type Flows struct {
	First        Money
	Replacements []Event
	Residual     Money // what is left of it at the end
	Streams      []Stream
}

// Life is the present value of Flows, part by part: each rounded once, the total their sum.
type Life struct {
	First       Money
	Replacement Money
	Residual    Money // comes off
	Streams     []Money
	Factors     []float64 // of the streams: UPV*
	Total       Money
}

// Savings is one way of doing a site held against the base case.
type Savings struct {
	Operating   Money                // present value of yearly costs of the base less those of the alternative
	Invested    Money                // present value of first cost and replacements less residual, of the alternative less those of the base
	Net         Money                // Operating less Invested
	SIR         units.Maybe[float64] // savings-to-investment ratio; blank where nothing more is invested
	AIRR        units.Maybe[float64] // adjusted internal rate of return; blank where SIR is, or is not above 0
	SimpleY     units.Maybe[float64] // years to pay back, undiscounted; blank where it is not paid back within the study
	DiscountedY units.Maybe[float64] // the same, discounted
}

// SPV returns the single present value factor: what 1 at the end of a year is worth today.
//
//	SPV = (1 + d)^−n
//
//	d  real discount rate  [–]  above −1
//	n  year                [–]  0 or more
//
// Source: NIST Handbook 135.
func SPV(d float64, n int) float64 { return math.Pow(1+d, -float64(n)) }

// UPV returns the uniform present value factor: what 1 at the end of each of some years is worth today.
//
//	UPV = [(1 + d)^N − 1] / [d (1 + d)^N]; N where d = 0
//
//	d  real discount rate  [–]  above −1
//	N  years               [–]  0 or more
//
// Source: NIST Handbook 135.
func UPV(d float64, years int) float64 { return UPVStar(d, 0, years) }

// UPVStar returns the modified uniform present value factor: what an amount of 1 at prices of today is worth that comes at the end of each year and
// grows every year.
//
//	UPV* = (1 + e)/(d − e) [1 − ((1 + e)/(1 + d))^N]; N where d = e
//
//	d  real discount rate  [–]  above −1
//	e  real escalation     [–]  above −1
//	N  years               [–]  0 or more
//
// Source: NIST Handbook 135.
func UPVStar(d, e float64, years int) float64 {
	n := float64(years)
	if math.Abs(d-e) < 1e-12 { // the difference of two numbers as good as equal has no digits left
		return n
	}
	return (1 + e) / (d - e) * -math.Expm1(n*(math.Log1p(e)-math.Log1p(d)))
}

// Real returns the real rate in a nominal one: what is left of it above inflation.
//
//	d = (1 + D)/(1 + I) − 1
//
//	D  nominal rate       [–]  above −1
//	I  general inflation  [–]  above −1
//
// Source: NIST Handbook 135.
func Real(nominal, inflation float64) float64 { return (1+nominal)/(1+inflation) - 1 }

// Value returns the present value of some flows.
//
//	PV = first + Σ replacement SPV − residual SPV(N) + Σ stream UPV*
//
// Source: NIST Handbook 135. Errors: ErrStudy for a study without a year, a rate of −1 or less, or a replacement outside of the years.
func Value(s Study, f Flows) (Life, error) {
	if err := s.check(f); err != nil {
		return Life{}, err
	}
	l := Life{First: f.First, Residual: rounded(float64(f.Residual) * SPV(s.Discount, s.Years))}
	l.Replacement = rounded(sum(f.Replacements, func(e Event) float64 { return float64(e.Amount) * SPV(s.Discount, e.Year) }))
	l.Total = l.First + l.Replacement - l.Residual
	for _, stream := range f.Streams {
		factor := UPVStar(s.Discount, stream.Escalation, s.Years)
		l.Factors = append(l.Factors, factor)
		l.Streams = append(l.Streams, rounded(float64(stream.Yearly)*factor))
		l.Total += l.Streams[len(l.Streams)-1]
	}
	return l, nil
}

// Compare holds an alternative against the base case.
//
//	operating = Σ streams(base) − Σ streams(alternative)
//	invested  = [first + replacements − residual](alternative) − [the same](base)
//	net savings = PV(base) − PV(alternative) = operating − invested
//	SIR  = operating / invested
//	AIRR = (1 + d) SIR^(1/N) − 1
//	payback: the first moment at which the savings so far, replacements counted, reach the extra first cost; within a year in proportion
//
// Source: NIST Handbook 135. Errors: as Value.
func Compare(s Study, base, alternative Flows) (Savings, error) {
	b, err := Value(s, base)
	if err != nil {
		return Savings{}, err
	}
	a, err := Value(s, alternative)
	if err != nil {
		return Savings{}, err
	}
	out := Savings{Invested: a.invested() - b.invested(), Net: b.Total - a.Total}
	out.Operating = out.Net + out.Invested
	if out.Invested > 0 {
		out.SIR = units.Some(float64(out.Operating) / float64(out.Invested))
		if out.SIR.Value > 0 {
			out.AIRR = units.Some((1+s.Discount)*math.Pow(out.SIR.Value, 1/float64(s.Years)) - 1)
		}
	}
	extra := float64(alternative.First - base.First)
	saved := func(year int) float64 { return base.in(year) - alternative.in(year) }
	out.SimpleY = payback(extra, s.Years, saved)
	out.DiscountedY = payback(extra, s.Years, func(year int) float64 { return saved(year) * SPV(s.Discount, year) })
	return out, nil
}

// payback returns after how many years what was saved reaches what was spent more at the beginning; blank where it does not, or where nothing more
// was spent and nothing is saved.
func payback(extra float64, years int, saved func(year int) float64) units.Maybe[float64] {
	if extra <= 0 {
		if saved(1) > 0 || saved(1) == 0 && extra < 0 {
			return units.Some(0.0)
		}
		return units.Maybe[float64]{}
	}
	sofar := 0.0
	for year := 1; year <= years; year++ {
		s := saved(year)
		if sofar+s >= extra {
			return units.Some(float64(year-1) + (extra-sofar)/s)
		}
		sofar += s
	}
	return units.Maybe[float64]{}
}

// in returns what is paid in a year, in minor units; the residual value is no part of it.
func (f Flows) in(year int) float64 {
	paid := sum(f.Replacements, func(e Event) float64 {
		if e.Year != year {
			return 0
		}
		return float64(e.Amount)
	})
	return paid + sum(f.Streams, func(s Stream) float64 { return float64(s.Yearly) * math.Pow(1+s.Escalation, float64(year)) })
}

// invested returns the present value of what is built.
func (l Life) invested() Money { return l.First + l.Replacement - l.Residual }

// BreakEven returns the price of a unit of energy at which an alternative costs as much over its life as the base case, in the currency of the
// price; blank where both buy as much of it, or where no price above 0 does it.
//
//	p* = p − NS / (w UPV* (U_base − U_alternative))
//
//	p    price of a unit now               [–]
//	NS   net savings at that price, in the main unit of the study's currency
//	w    what the price's currency is worth in the study's
//	U    units bought a year
//
// Only what is charged by the unit follows the price; demand and standing charges stay. Source: NIST Handbook 135, break-even analysis.
func BreakEven(price, net, worth, factor, unitsBase, unitsAlternative float64) units.Maybe[float64] {
	slope := worth * factor * (unitsBase - unitsAlternative)
	if slope == 0 {
		return units.Maybe[float64]{}
	}
	if p := price - net/slope; p > 0 && finite(p) {
		return units.Some(p)
	}
	return units.Maybe[float64]{}
}

// Renew returns the replacements of something that lasts some years and what is left of it at the end of a study.
//
//	replaced at the end of years L, 2 L, … below N; residual = amount × years left of the last one / L
//
//	L  life, in whole years  [–]  1 or more
//
// Source: NIST Handbook 135; straight-line residual value.
func Renew(s Study, life int, bought Event) (again []Event, residual Money) {
	last := 0
	for year := life; year < s.Years; year += life {
		again = append(again, Event{Year: year, Item: bought.Item, Zone: bought.Zone, Amount: bought.Amount})
		last = year
	}
	return again, rounded(float64(bought.Amount) * float64(last+life-s.Years) / float64(life))
}

func (s Study) check(f Flows) error {
	if !(s.Years >= 1 && s.Discount > -1 && finite(s.Discount)) {
		return fmt.Errorf("%w: %d years at %g: want a year at least and a rate above -1", ErrStudy, s.Years, s.Discount)
	}
	for _, e := range f.Replacements {
		if e.Year < 1 || e.Year > s.Years {
			return fmt.Errorf("%w: %s replaced in year %d of %d", ErrStudy, e.Item, e.Year, s.Years)
		}
	}
	for _, stream := range f.Streams {
		if !(stream.Escalation > -1 && finite(stream.Escalation)) {
			return fmt.Errorf("%w: %s grows by %g: want more than -1", ErrStudy, stream.Name, stream.Escalation)
		}
	}
	return nil
}

// rounded returns minor units as Money, half a unit away from zero.
func rounded(minor float64) Money { return Money(math.Round(minor)) }

func sum[T any](list []T, of func(T) float64) float64 {
	total := 0.0
	for _, v := range list {
		total += of(v)
	}
	return total
}
