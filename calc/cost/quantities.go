package cost

import (
	"cmp"
	"slices"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Items of the Costs sheet that quantities are found for, in the words of the sheet.
const (
	Coring        = "coring"
	SawCut        = "saw-cut"
	Scanning      = "scanning"
	Conduit       = "conduit"
	Tube          = "tube"
	Cable         = "cable"
	Circuit       = "circuit"
	Insulation    = "insulation"
	Concrete      = "concrete"
	Demolition    = "demolition"
	Panel         = "panel"
	Controller    = "controller"
	Plant         = "plant"
	Fluid         = "fluid"
	Commissioning = "commissioning"
	OwnFigure     = "first cost as told"
	Contingency   = "contingency"
)

// piece is the unit of what is counted.
const piece = "piece"

// Where the unit cost of a line comes from.
const (
	FromCosts    = "Costs"
	FromParts    = "Parts"
	FromSites    = "Sites"
	FromSettings = "Settings"
)

// Take is how much of an item some work needs.
type Take struct {
	Zone     string // blank: of the whole site
	Item     string
	Quantity float64 // in the base unit of Measure
	Measure  units.Quantity
	From     string                // code of where the quantity comes from
	Price    units.Maybe[UnitCost] // of Parts, where it is a part of the user's catalogue
	Retrofit bool                  // work in a pavement that is there: the contingency of a retrofit
	Why      Uncounted
}

// Uncounted says why a line that is listed has no part in the sum; blank: it has.
type Uncounted string

// The reasons.
const (
	Counted     Uncounted = ""
	InAnyCase   Uncounted = "in-any-case" // the base case has it too
	OwnInstead  Uncounted = "own-instead" // the user's own first cost of the zone holds it
	noSuchPlace           = -1
)

// Line is one line of a first cost.
type Line struct {
	Zone         string
	Item, Unit   string
	Quantity     float64              // in Unit
	UnitCost     units.Maybe[float64] // of a unit, in the main unit of Currency
	Currency     string
	Worth        float64            // of one unit of Currency in the study's currency
	Amount       units.Maybe[Money] // blank without a unit cost; zero where Uncounted
	QuantityFrom string             // code
	CostFrom     string             // the sheet; blank where none has it
	CostAt       finding.Cell       // the cell; of a first cost in Sites it is found by the row of the zone
	LifeYears    units.Maybe[float64]
	Uncounted    Uncounted
	Retrofit     bool
	Example      bool
}

// Blank says whether the line lacks an amount that it should have.
func (l Line) Blank() bool { return l.Uncounted == Counted && !l.Amount.Known }

// Book is the unit costs of a workbook and what foreign currencies are worth in its own.
type Book struct {
	Costs    []UnitCost
	System   units.System // of the unit of what no row prices
	Currency string
	Worth    func(currency string) (float64, bool)
}

// Price returns what is taken as a line.
//
//	amount = quantity · unit cost · worth
//
// The unit cost is that of Parts where the take brings one, else of the first row of Costs with that item whose unit measures the same thing.
func (b Book) Price(t Take) Line {
	usual := t.Measure.In(b.System)
	l := Line{Zone: t.Zone, Item: t.Item, Unit: cmp.Or(usual.Symbol, piece), Quantity: usual.FromBase(t.Quantity), QuantityFrom: t.From, Retrofit: t.Retrofit,
		Uncounted: t.Why, Currency: b.Currency, Worth: 1}
	row, from := t.Price.Value, FromParts
	if at := b.find(t); !t.Price.Known || !row.Cost.Known {
		if row, from = (UnitCost{}), ""; at != noSuchPlace {
			row, from = b.Costs[at], FromCosts
		}
	} else if at != noSuchPlace {
		row.LifeYears = b.Costs[at].LifeYears
	}
	l.CostAt, l.CostFrom, l.Example, l.LifeYears = row.At, from, row.Example && from != "", row.LifeYears
	if row.Unit != "" {
		l.Unit = row.Unit
	}
	if u, known := t.Measure.Parse(row.Unit); known {
		l.Quantity = u.FromBase(t.Quantity)
	}
	if row.Currency != "" {
		l.Currency = row.Currency
	}
	worth, known := b.Worth(l.Currency)
	l.UnitCost = row.Cost
	switch {
	case l.Uncounted != Counted:
		l.Amount = units.Some(Money(0))
	case l.UnitCost.Known && known:
		l.Amount = units.Some(FromMain(l.Quantity*l.UnitCost.Value*worth, b.Currency))
	}
	if known {
		l.Worth = worth
	}
	return l
}

// find returns the first row of Costs for an item whose unit fits, as its place.
func (b Book) find(t Take) int {
	for i, row := range b.Costs {
		if same(row.Item, t.Item) && fits(t.Measure, row.Unit) {
			return i
		}
	}
	return noSuchPlace
}

// fits says whether a unit as typed measures a quantity: pieces are measured by any word that is no unit of something else.
func fits(q units.Quantity, unit string) bool {
	if q == units.Count {
		for _, other := range []units.Quantity{units.Area, units.Length, units.Volume, units.ElectricPower} {
			if _, known := other.Parse(unit); known {
				return false
			}
		}
		return true
	}
	_, known := q.Parse(unit)
	return known
}

// same compares items as typed: case, spaces and hyphens do not count.
func same(a, b string) bool {
	plain := func(s string) string {
		return strings.Map(func(r rune) rune {
			if strings.ContainsRune(" -_.,", r) {
				return -1
			}
			return r
		}, strings.ToLower(s))
	}
	return plain(a) == plain(b)
}

// Sum adds the amounts of lines; blank once a line lacks its own.
func Sum(lines []Line) units.Maybe[Money] {
	total := Money(0)
	for _, l := range lines {
		if l.Blank() {
			return units.Maybe[Money]{}
		}
		total += l.Amount.Value
	}
	return units.Some(total)
}

// AddContingency returns the lines with those of the contingency behind them: a share of what is estimated, apart for work in a pavement that is
// there and for a new one. A figure that the user gave is an offer and bears none.
func (b Book) AddContingency(lines []Line, fresh, retrofit float64) []Line {
	for _, part := range []struct {
		retrofit bool
		share    float64
	}{{false, fresh}, {true, retrofit}} {
		base, any, blank := Money(0), false, false
		for _, l := range lines {
			if l.Retrofit != part.retrofit || l.CostFrom == FromSites || l.Uncounted != Counted {
				continue
			}
			base, any, blank = base+l.Amount.Value, true, blank || l.Blank()
		}
		if !any || part.share == 0 {
			continue
		}
		l := Line{Item: Contingency, Unit: "%", Quantity: units.Share.In(units.SI).FromBase(part.share), Currency: b.Currency, Worth: 1, QuantityFrom: "quantity-contingency-new", CostFrom: FromSettings,
			Retrofit: part.retrofit}
		if part.retrofit {
			l.QuantityFrom = "quantity-contingency-retrofit"
		}
		if !blank {
			l.Amount = units.Some(rounded(float64(base) * part.share))
		}
		lines = append(lines, l)
	}
	return lines
}

// Own returns the line of a first cost that the user gave for a zone at a cell, in the study's currency.
func (b Book) Own(zone string, amount float64, at finding.Cell) Line {
	return Line{Zone: zone, Item: OwnFigure, Unit: b.Currency, Quantity: 1, UnitCost: units.Some(amount), Currency: b.Currency, Worth: 1,
		Amount: units.Some(FromMain(amount, b.Currency)), QuantityFrom: "quantity-own-figure", CostFrom: FromSites, CostAt: at}
}

// Care is a yearly cost of a heated pavement: a row of Costs whose unit is one of time.
type Care struct {
	Item     string
	Unit     string
	Quantity float64 // in Unit, of the alternative
	UnitCost units.Maybe[float64]
	Currency string
	Worth    float64
	Amount   units.Maybe[Money]
	Example  bool
	At       finding.Cell // where its cost was typed
}

// Words of a unit that make it one of a year.
var yearWords = []string{"year", "years", "yr", "y", "a", "annum"}

// perYear splits a unit of a year into what it counts: "m² year" is m², "year" is nothing, "% a year" is %.
func perYear(unit string) (of string, yearly bool) {
	words := strings.FieldsFunc(unit, func(r rune) bool { return strings.ContainsRune(" /·*-", r) })
	if len(words) == 0 || !slices.Contains(yearWords, strings.ToLower(words[len(words)-1])) {
		return "", false
	}
	for words = words[:len(words)-1]; len(words) > 0; words = words[:len(words)-1] {
		if last := strings.ToLower(words[len(words)-1]); last != "per" && last != "a" {
			break
		}
	}
	return strings.Join(words, " "), true
}

// Size is what yearly costs are counted by.
type Size struct {
	Zones  int
	AreaM2 float64
	First  units.Maybe[Money] // first cost of the alternative
}

// Cares returns the yearly costs that Costs lists, for a pavement of that size: of the site where the unit is a year alone, of each zone, by area, or
// as a share of the first cost (%).
//
//	amount = quantity · unit cost · worth; a share: first cost · unit cost / 100
func (b Book) Cares(s Size) []Care {
	var out []Care
	for _, row := range b.Costs {
		if of, yearly := perYear(row.Unit); yearly {
			out = append(out, b.care(row, of, s))
		}
	}
	return out
}

func (b Book) care(row UnitCost, of string, s Size) Care {
	c := Care{Item: row.Item, Unit: row.Unit, Quantity: 1, UnitCost: row.Cost, Currency: row.Currency, Example: row.Example, Worth: 1, At: row.At}
	if c.Currency == "" {
		c.Currency = b.Currency
	}
	worth, known := b.Worth(c.Currency)
	if known {
		c.Worth = worth
	}
	area, isArea := units.Area.Parse(of)
	one := 1.0 // of a unit cost
	switch {
	case isArea:
		c.Quantity = area.FromBase(s.AreaM2)
	case same(of, "zone"):
		c.Quantity = float64(s.Zones)
	case of == "%":
		c.Quantity, c.Currency, c.Worth, known = s.First.Value.Main(b.Currency), b.Currency, 1, s.First.Known
		one = units.Share.In(units.SI).ToBase(1)
	}
	if row.Cost.Known && known {
		c.Amount = units.Some(FromMain(c.Quantity*row.Cost.Value*one*c.Worth, b.Currency))
	}
	return c
}
