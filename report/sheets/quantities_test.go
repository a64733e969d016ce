package sheets_test

import (
	"bytes"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/report/internal/sample"
	"thawbook/report/sheets"
)

// of builds the result sheets of one site.
func of(t *testing.T, system units.System, so calc.SiteOutcome) *excelize.File {
	t.Helper()
	h := head(t, system)
	so.Summary.Revision = "C"
	w, err := sheets.Create("", h)
	require.NoError(t, err)
	defer w.Close()
	require.NoError(t, w.Site(so, ""))
	list, err := w.Complete(sheets.Basis{}, nil, nil)
	require.NoError(t, err)
	require.NoError(t, w.Finish(list))
	var b bytes.Buffer
	_, err = w.WriteTo(&b)
	require.NoError(t, err)
	return open(t, b.Bytes())
}

// priced is a site with one way of doing it: tube at its row of Costs, a coring that no row prices, concrete that is poured in any case, and care.
func priced() calc.SiteOutcome {
	at := func(ref string, row int) finding.Cell {
		return finding.Cell{Sheet: "Unit costs", Ref: ref, Row: row, Col: 3}
	}
	b := cost.Book{Currency: "USD", Worth: func(c string) (float64, bool) { return map[string]float64{"USD": 1, "CAD": 0.5}[c], true }, Costs: []cost.UnitCost{
		{Item: "tube", Unit: "m", Cost: units.Some(3.0), Currency: "CAD", At: at("C4", 4), LifeYears: units.Some(30.0)},
		{Item: "concrete", Unit: "m²", Cost: units.Some(100.0), At: at("C5", 5)},
		{Item: "care", Unit: "zone year", Cost: units.Some(250.0), At: at("C6", 6), Example: true}}}
	a := calc.AlternativeOutcome{Name: "poured anew", Lines: []cost.Line{
		b.Price(cost.Take{Zone: "1", Item: cost.Tube, Quantity: 200, Measure: units.Length, From: "quantity-loops"}),
		b.Price(cost.Take{Zone: "1", Item: cost.Concrete, Quantity: 50, Measure: units.Area, From: "quantity-area", Why: cost.InAnyCase}),
		b.Price(cost.Take{Zone: "1", Item: cost.Coring, Quantity: 2, Measure: units.Count, From: "quantity-kit"}),
		b.Own("2", 900, finding.Cell{})}, Cares: b.Cares(cost.Size{Zones: 2})}
	a.Savings = units.Some(cost.Savings{Net: 5000})
	a.Sensitivity = []calc.Sensitivity{{Moves: calc.MovesPrice, NetLow: 9_000, NetHigh: 1_000}, {Moves: calc.MovesWinter, NetLow: 4_000, NetHigh: 9_500}}
	a.BreakEven = units.Some(calc.BreakEven{EnergyID: "gas", Unit: "m³", Currency: "USD", Price: 1.25, Now: 0.5})
	a.Lost = []calc.Lost{{Zone: "1", Code: "lacks-heat"}}
	so := sample.Site(0)
	so.Alternatives = []calc.AlternativeOutcome{a}
	return so
}

func TestEachLineOfACostTellsWhereItComesFrom(t *testing.T) {
	f := of(t, units.SI, priced())
	const sheet = "Results Quantities"
	for row, want := range []map[string]string{
		{"Zone ID": "1", "Item": "tube", "Paid": "once", "Quantity": "200", "Unit": "m", "Unit cost": "3", "Currency of the unit cost": "CAD", "Amount [USD]": "300", // 200 · 3 · 0.5
			"Not counted": "", "Unit cost from": "Unit costs C4", "Replaced after [years]": "30", "Quantity from": "all loops with their leaders, from the layout of the pipes"},
		{"Item": "concrete", "Amount [USD]": "0", "Not counted": "not counted: the base case has it too", "Unit cost from": "Unit costs C5"},
		{"Item": "coring", "Quantity": "2", "Unit": "piece", "Unit cost": "", "Currency of the unit cost": "", "Amount [USD]": "", "Not counted": "Costs has no unit cost of it: the amount is open", "Unit cost from": ""},
		{"Zone ID": "2", "Item": "first cost as told", "Amount [USD]": "900", "Unit cost from": "Sites"},
		{"Zone ID": "", "Item": "care", "Paid": "a year", "Quantity": "2", "Unit": "zone year", "Amount [USD]": "500", "Unit cost from": "Unit costs C6", "Prices": "example prices"},
	} {
		for heading, text := range want {
			assert.Equal(t, text, cell(t, f, sheet, heading, row+1), "%s of row %d", heading, row+1)
		}
		assert.Equal(t, "poured anew", cell(t, f, sheet, "Alternative", row+1))
	}
}

func TestAlternativesTellHowFarSavingsMoveAndWhatIsLacking(t *testing.T) {
	f := of(t, units.SI, priced())
	for heading, want := range map[string]string{"Net savings [USD]": "50", "Net savings, least of price, winter and first cost moved [USD]": "10", "Net savings, greatest of them [USD]": "95",
		"Break-even price of energy": "1.25", "Energy, unit and price now": "gas, USD/m³: 0.5 now", "What it lacks": "1: It has no heat: snow is cleared by people and machines as now."} {
		assert.Equal(t, want, cell(t, f, "Results Alternatives", heading, 1), heading)
	}
}

// scheduled is a site with one zone: two marks on its sketch, one in place, a controller to buy and a joint.
func scheduled() calc.SiteOutcome {
	so := sample.Site(0)
	so.Plants = nil
	so.Outcomes = so.Outcomes[:1]
	so.Outcomes[0].Piping = nil
	so.Outcomes[0].Sensing = &sensing.Choice{
		Plan: &sensing.Plan{Marks: []sensing.Mark{{Number: 1, Device: sensing.PavementDetector, FromLowM: 1.5, FromSideM: 3, RunM: 12, There: true}, {Number: 2, Device: sensing.SlabSensor, FromLowM: 2, FromSideM: 3, RunM: 30.48}}},
		Selection: &sensing.Selection{Boxes: 1, Pieces: []sensing.Piece{{Kind: string(sensing.PavementDetector), There: 1, NeedM: 13},
			{Kind: string(sensing.SlabSensor), Part: "Sensor S", Buy: 1, NeedM: 33, FactoryM: units.Some(15.24), Joint: true}, {Kind: cost.Controller, Part: "Controller T", Buy: 1}}}}
	return so
}

func TestScheduleHasEachPieceWithItsPlace(t *testing.T) {
	f := of(t, units.IP, scheduled())
	const sheet = "Results Schedule"
	for row, want := range []map[string]string{
		{"Mark": "1", "Piece": "in-pavement detector", "Part": "", "Quantity": "1", "Unit": "piece", "In place or to buy": "in place", "Factory lead to order [ft]": "", "Joint in a pull box": ""},
		{"Mark": "2", "Piece": "slab temperature sensor", "Part": "Sensor S", "In place or to buy": "to buy", "Run to the panel [ft]": "100", "Factory lead to order [ft]": "50", "Joint in a pull box": "needed"},
		{"Mark": "", "Piece": "controller", "Part": "Controller T", "Quantity": "1", "In place or to buy": "to buy", "Run to the panel [ft]": "", "Where it goes": "at the panel"},
		{"Piece": "pull box", "Quantity": "1"},
	} {
		for heading, text := range want {
			got := cell(t, f, sheet, heading, row+1)
			if v, err := strconv.ParseFloat(got, 64); err == nil {
				got = strconv.FormatFloat(v, 'g', 6, 64)
			}
			assert.Equal(t, text, got, "%s of row %d", heading, row+1)
		}
		assert.Equal(t, "C", cell(t, f, sheet, "Revision", row+1))
	}
	assert.Contains(t, cell(t, f, sheet, "Where it goes", 2), "to the panel")
}
