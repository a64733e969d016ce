package cost

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
)

// published reads testdata/published/lifecycle.tsv.
func published(t *testing.T) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/lifecycle.tsv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		rows = append(rows, row)
	}
	require.NotEmpty(t, rows)
	return rows
}

func num(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func TestPrintedFactors(t *testing.T) {
	seen := 0
	for _, row := range published(t) {
		years := int(num(t, row["years"]))
		switch row["term"] {
		case "SPV":
			assert.InDelta(t, num(t, row["value"]), SPV(0.03, years), num(t, row["tolerance"]), "%v", row)
		case "UPV":
			assert.InDelta(t, num(t, row["value"]), UPV(0.03, years), num(t, row["tolerance"]), "%v", row)
		default:
			continue
		}
		seen++
	}
	assert.Equal(t, 16, seen)
}

// TestModifiedFactor holds UPV* to the sum it stands for, at rates that differ, are alike and are nearly alike.
func TestModifiedFactor(t *testing.T) {
	for _, d := range []float64{0, 1e-9, 0.01, 0.03, 0.15} {
		for _, e := range []float64{-0.02, 0, 1e-9, 0.03, 0.03 + 1e-8, 0.15} {
			for _, years := range []int{1, 2, 25, 50} {
				sum := 0.0
				for y := 1; y <= years; y++ {
					sum += math.Pow((1+e)/(1+d), float64(y))
				}
				assert.InEpsilon(t, sum, UPVStar(d, e, years), 1e-7, "d %g, e %g, %d years", d, e, years)
			}
		}
	}
}

// escalationOf returns the escalation at which UPV* has a value, by halving.
func escalationOf(factor, d float64, years int) float64 {
	lo, hi := -0.05, 0.05
	for range 80 {
		mid := (lo + hi) / 2
		if UPVStar(d, mid, years) < factor {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// TestHandbookComparison is the worked comparison of the handbook. Its energy factor of 15.13 comes from a printed table of price indices; here it is
// an even escalation with that factor.
func TestHandbookComparison(t *testing.T) {
	s := Study{Years: 20, Discount: 0.03}
	e := escalationOf(15.13, s.Discount, s.Years)
	dollars := func(v float64) Money { return FromMain(v, "USD") }
	flows := func(first, again, left, energy, care float64) Flows {
		return Flows{First: dollars(first), Replacements: []Event{{Year: 12, Amount: dollars(again)}}, Residual: dollars(left),
			Streams: []Stream{{Name: "electricity", Yearly: dollars(energy), Escalation: e}, {Name: CareStream, Yearly: dollars(care)}}}
	}
	base, other := flows(103000, 12000, 3500, 20000, 7000), flows(110000, 12500, 3700, 13000, 8000)
	ours := map[string]map[string]float64{"comparison": {}}
	for name, f := range map[string]Flows{"base": base, "alternative": other} {
		l, err := Value(s, f)
		require.NoError(t, err)
		ours[name] = map[string]float64{"first": l.First.Main("USD"), "replacement": l.Replacement.Main("USD"), "residual": l.Residual.Main("USD"),
			"energy": l.Streams[0].Main("USD"), "care": l.Streams[1].Main("USD"), "total": l.Total.Main("USD")}
		assert.Equal(t, l.Total, l.First+l.Replacement-l.Residual+l.Streams[0]+l.Streams[1], "the total is the sum of its rounded parts")
	}
	c, err := Compare(s, base, other)
	require.NoError(t, err)
	ours["comparison"] = map[string]float64{"net savings": c.Net.Main("USD"), "savings-to-investment ratio": c.SIR.Value, "adjusted internal rate": c.AIRR.Value,
		"simple payback": c.SimpleY.Value}
	seen := 0
	for _, row := range published(t) {
		if mine, here := ours[row["case"]][row["term"]]; here {
			assert.InDelta(t, num(t, row["value"]), mine, num(t, row["tolerance"]), "%v", row)
			seen++
		}
	}
	assert.Equal(t, 16, seen)
	assert.Equal(t, c.Net, c.Operating-c.Invested)
	assert.Greater(t, c.DiscountedY.Value, c.SimpleY.Value)
}

func TestPayback(t *testing.T) {
	s := Study{Years: 10, Discount: 0}
	for _, tt := range []struct {
		name        string
		base, other Flows
		want        units.Maybe[float64]
		source      string
	}{
		{"even savings", yearly(0, 300), yearly(1000, 100), units.Some(5.0), "1000/200"},
		{"within a year", yearly(0, 300), yearly(700, 100), units.Some(3.5), "700/200"},
		{"never", yearly(0, 300), yearly(5000, 100), units.Maybe[float64]{}, "5000/200 is beyond 10 years"},
		{"dearer to run", yearly(0, 100), yearly(1000, 300), units.Maybe[float64]{}, "nothing is saved"},
		{"cheaper to build and to run", yearly(1000, 300), yearly(800, 100), units.Some(0.0), "paid back at once"},
		{"cheaper to build, dearer to run", yearly(1000, 100), yearly(800, 300), units.Maybe[float64]{}, "no payback is meant"},
		{"cheaper to build, alike to run", yearly(1000, 100), yearly(800, 100), units.Some(0.0), "paid back at once"},
		{"alike", yearly(1000, 100), yearly(1000, 100), units.Maybe[float64]{}, "nothing to pay back"},
		{"a replacement in between", yearly(0, 300), with(yearly(1000, 100), 3, 400), units.Some(7.0), "200 a year, less 400 in year 3"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			c, err := Compare(s, tt.base, tt.other)
			require.NoError(t, err)
			assert.Equal(t, tt.want, c.SimpleY, tt.source)
			assert.Equal(t, tt.want, c.DiscountedY, "at a rate of 0 both are the same")
		})
	}
}

func yearly(first, amount Money) Flows {
	return Flows{First: first, Streams: []Stream{{Name: "x", Yearly: amount}}}
}

func with(f Flows, year int, amount Money) Flows {
	f.Replacements = append(f.Replacements, Event{Year: year, Amount: amount})
	return f
}

func TestRenew(t *testing.T) {
	for _, tt := range []struct {
		life, years int
		again       []int
		residual    Money
		source      string
	}{
		{10, 25, []int{10, 20}, 500, "bought in 0, 10, 20; 5 of 10 years left of 1000"},
		{25, 25, nil, 0, "it ends with the study"},
		{40, 25, nil, 375, "15 of 40 years left"},
		{5, 20, []int{5, 10, 15}, 0, "the last one ends with the study"},
		{1, 3, []int{1, 2}, 0, "a new one each year"},
	} {
		require.NotEmpty(t, tt.source)
		again, residual := Renew(Study{Years: tt.years}, tt.life, Event{Item: "x", Zone: "1", Amount: 1000})
		var years []int
		for _, e := range again {
			years = append(years, e.Year)
			assert.Equal(t, Event{Year: e.Year, Item: "x", Zone: "1", Amount: 1000}, e)
		}
		assert.Equal(t, tt.again, years, tt.source)
		assert.Equal(t, tt.residual, residual, tt.source)
	}
}

func TestBreakEven(t *testing.T) {
	// Ten years at no interest: the base buys 100 units a year, the alternative 40, at 2 a unit; the alternative costs 900 more to build.
	// It saves 60 · 2 · 10 = 1200 less 900 = 300. At 1.5 a unit it saves 900 less 900: nothing. By hand.
	assert.Equal(t, units.Some(1.5), BreakEven(2, 300, 1, 10, 100, 40))
	assert.Equal(t, units.Some(1.0), BreakEven(2, 300, 0.5, 10, 100, 40), "a currency worth half")
	assert.False(t, BreakEven(2, 300, 1, 10, 70, 70).Known, "both buy as much")
	assert.False(t, BreakEven(2, 3000, 1, 10, 100, 40).Known, "it saves at any price")
}

func TestRefusedStudies(t *testing.T) {
	for _, tt := range []struct {
		s Study
		f Flows
	}{
		{Study{0, 0.03}, Flows{}}, {Study{25, -1}, Flows{}}, {Study{25, math.NaN()}, Flows{}}, {Study{25, math.Inf(1)}, Flows{}},
		{Study{25, 0.03}, with(Flows{}, 0, 1)}, {Study{25, 0.03}, with(Flows{}, 26, 1)},
		{Study{25, 0.03}, Flows{Streams: []Stream{{Escalation: -1}}}}, {Study{25, 0.03}, Flows{Streams: []Stream{{Escalation: math.NaN()}}}},
	} {
		_, err := Value(tt.s, tt.f)
		require.ErrorIs(t, err, ErrStudy, "%v", tt)
		_, err = Compare(tt.s, Flows{}, tt.f)
		require.ErrorIs(t, err, ErrStudy, "%v", tt)
		_, err = Compare(tt.s, tt.f, Flows{})
		require.ErrorIs(t, err, ErrStudy, "%v", tt)
	}
}

// TestLaws: parts add up, a base held against itself saves nothing, net savings turn around when the two are swapped.
func TestLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 300 {
		s := Study{Years: 1 + r.IntN(50), Discount: 0.15 * r.Float64()}
		a, b := randomFlows(r, s), randomFlows(r, s)
		there, err := Compare(s, a, b)
		require.NoError(t, err)
		back, err := Compare(s, b, a)
		require.NoError(t, err)
		assert.Equal(t, there.Net, -back.Net)
		assert.Equal(t, there.Operating-there.Invested, there.Net)
		alike, err := Compare(s, a, a)
		require.NoError(t, err)
		assert.Zero(t, alike.Net)
		assert.False(t, alike.SIR.Known)
		if there.SIR.Known {
			assert.Equal(t, there.SIR.Value > 1, there.Net > 0, "a ratio above 1 and net savings go together")
		}
		if there.SIR.Known && there.SIR.Value > 0 {
			assert.Equal(t, there.SIR.Value > 1, there.AIRR.Value > s.Discount, "and so does a rate above the discount rate")
		}
		if there.SimpleY.Known && there.DiscountedY.Known {
			assert.GreaterOrEqual(t, there.DiscountedY.Value, there.SimpleY.Value)
		}
	}
}

func randomFlows(r *rand.Rand, s Study) Flows {
	f := Flows{First: Money(r.IntN(5e6)), Residual: Money(r.IntN(1e5))}
	for range r.IntN(4) {
		f.Replacements = append(f.Replacements, Event{Year: 1 + r.IntN(s.Years), Amount: Money(r.IntN(4e5))})
	}
	for range 1 + r.IntN(3) {
		f.Streams = append(f.Streams, Stream{Yearly: Money(r.IntN(6e5)), Escalation: 0.06*r.Float64() - 0.02})
	}
	return f
}
