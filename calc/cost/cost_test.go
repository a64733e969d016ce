package cost

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/season"
	"thawbook/calc/units"
)

func TestFromMain(t *testing.T) {
	for _, tt := range []struct {
		amount   float64
		currency string
		want     Money
		source   string
	}{
		{12.34, "USD", 1234, "definition"},
		{0.125, "CAD", 13, "half away from zero; 0.125 is exact in binary"},
		{-0.125, "CAD", -13, "half away from zero"},
		{0.004, "EUR", 0, "definition"},
		{0.1 + 0.2, "EUR", 30, "definition"},
		{1234.5, "JPY", 1235, "no minor unit"},
		{1e9 + 0.01, "USD", 100000000001, "definition"},
	} {
		require.NotEmpty(t, tt.source)
		assert.Equal(t, tt.want, FromMain(tt.amount, tt.currency), "%g %s: %s", tt.amount, tt.currency, tt.source)
	}
	assert.InDelta(t, 12.34, FromMain(12.34, "USD").Main("USD"), 0)
}

func TestShare(t *testing.T) {
	for _, tt := range []struct {
		name    string
		total   Money
		weights []float64
		want    []Money
		source  string
	}{
		{"even", 900, []float64{1, 1, 1}, []Money{300, 300, 300}, "hand calculation"},
		{"rest to the first on ties", 100, []float64{1, 1, 1}, []Money{34, 33, 33}, "hand calculation"},
		{"rest to the largest remainder", 100, []float64{1, 2, 4}, []Money{14, 29, 57}, "hand calculation: 14.286, 28.571, 57.143"},
		{"no weight, no share", 101, []float64{0, 1, 0}, []Money{0, 101, 0}, "rule"},
		{"none has a weight", 10, []float64{0, 0}, []Money{5, 5}, "rule: then all are equal"},
		{"not numbers", 10, []float64{math.NaN(), 3, -2, math.Inf(1)}, []Money{0, 10, 0, 0}, "rule"},
		{"negative", -100, []float64{1, 1, 1}, []Money{-34, -33, -33}, "mirrored"},
		{"nobody", 100, nil, []Money{}, "rule"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			assert.Equal(t, tt.want, Share(tt.total, tt.weights), tt.source)
		})
	}
}

// Laws of an apportionment by largest remainders: the parts add up, each lies within one unit of its exact share, equal weights differ by at most
// one, and a greater weight never gets less.
func TestShareLaws(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 14))
	for range 3000 {
		weights := make([]float64, 1+draw.IntN(40))
		sum := 0.0
		for i := range weights {
			switch draw.IntN(4) {
			case 0:
				weights[i] = float64(draw.IntN(3))
			case 1:
				weights[i] = draw.ExpFloat64() * 1e6
			default:
				weights[i] = draw.Float64()
			}
			sum += weights[i]
		}
		total := Money(draw.Int64N(1e12))
		parts := Share(total, weights)
		added := Money(0)
		for i, p := range parts {
			added += p
			if sum > 0 {
				require.InDelta(t, float64(total)*weights[i]/sum, float64(p), 1.01)
			}
			for k := range i {
				if weights[i] >= weights[k] {
					require.GreaterOrEqual(t, p, parts[k]-1)
				}
				if weights[i] > weights[k] {
					require.GreaterOrEqual(t, p, parts[k])
				}
			}
		}
		require.Equal(t, total, added)
	}
}

// gas is sold by the therm. Heat and CO2 of a therm: published.md section 10 (100,000 Btu, 29.3071 kWh; 5.306 kg, read); the price is made up.
func gas() Energy {
	return Energy{ID: "gas", Carrier: "gas", Unit: "therm", Price: units.Some(1.25), HeatKWh: 29.3071, Efficiency: 0.85, StandingMonth: units.Some(20.0),
		BillingMonths: 7, CO2KgUnit: units.Some(5.306), Currency: "USD"}
}

// electric is sold by the kWh, with a demand charge. 0.386 kg of CO2: published.md section 10, from memory there; prices are made up.
func electric() Energy {
	return Energy{ID: "el", Carrier: Electricity, Unit: "kWh", Price: units.Some(0.12), HeatKWh: 1, Efficiency: 1, StandingMonth: units.Some(25.0),
		DemandKWMonth: units.Some(14.5), BillingMonths: 12, CO2KgUnit: units.Some(0.386), Currency: "USD"}
}

func zoneUse(area, heat float64, peaks ...float64) Use {
	u := Use{Strategy: string(season.Aerial), Winter: TypicalWinter, HeatKWh: heat, AreaM2: area}
	for i, p := range peaks {
		u.Months[i] = MonthUse{HeatKWh: heat / float64(len(peaks)), PeakKW: p}
	}
	return u
}

func bill(t *testing.T, e Energy, worth float64, currency string, uses ...Use) []Year {
	t.Helper()
	return billWith(t, e, Tariff{}, worth, currency, uses...)
}

func billWith(t *testing.T, e Energy, pumps Tariff, worth float64, currency string, uses ...Use) []Year {
	t.Helper()
	years, err := Bill(Tariff{e, worth}, pumps, currency, uses)
	require.NoError(t, err)
	require.Len(t, years, len(uses))
	return years
}

func TestBillByHand(t *testing.T) {
	const source = "hand calculation"
	t.Run("gas", func(t *testing.T) {
		y := bill(t, gas(), 1, "USD", zoneUse(50, 10000, 22))[0]
		assert.InEpsilon(t, 401.42852, y.FuelUnits, 1e-7, "%s: 10000/0.85/29.3071", source)
		assert.Equal(t, units.Some(Money(50179)), y.Energy, "%s: 401.42852 × 1.25 = 501.786", source)
		assert.Equal(t, units.Some(Money(14000)), y.Standing, "%s: 7 × 20", source)
		assert.False(t, y.Demand.Known, "no demand charge was told")
		assert.False(t, y.Pump.Known, "no piping, no pump energy")
		assert.Equal(t, units.Some(Money(64179)), y.Total, source)
		assert.InEpsilon(t, 2129.9797, y.CO2Kg.Value, 1e-7, "%s: 401.42852 × 5.306", source)
		assert.Equal(t, 22.0, y.PeakKW)
	})
	t.Run("electricity, two zones", func(t *testing.T) {
		years := bill(t, electric(), 1, "USD", zoneUse(30, 4000, 10, 12), zoneUse(10, 1000, 3, 0))
		// Coincident peaks 13 and 12 kW: 25 kW·months × 14.50 = 362.50; 22/25 and 3/25 of it. Standing 300.00 by 30 and 10 m².
		assert.Equal(t, units.Some(Money(36250)), years[0].Group.Demand, source)
		assert.Equal(t, units.Some(Money(31900)), years[0].Demand, source)
		assert.Equal(t, units.Some(Money(4350)), years[1].Demand, source)
		assert.Equal(t, units.Some(Money(22500)), years[0].Standing, source)
		assert.Equal(t, units.Some(Money(7500)), years[1].Standing, source)
		assert.Equal(t, units.Some(Money(48000)), years[0].Energy, source)
		assert.Equal(t, units.Some(Money(48000+31900+22500)), years[0].Total, source)
		assert.Equal(t, 12.0, years[0].PeakKW)
		assert.InDelta(t, 1544, years[0].CO2Kg.Value, 1e-9, source)
	})
	t.Run("heat pump: the meter sees the peak over the efficiency", func(t *testing.T) {
		e := electric()
		e.Efficiency = 2.5
		y := bill(t, e, 1, "USD", zoneUse(30, 5000, 10, 15))[0]
		assert.Equal(t, units.Some(Money(14500)), y.Demand, "%s: 25/2.5 × 14.50", source)
		assert.Equal(t, units.Some(Money(24000)), y.Energy, "%s: 5000/2.5 × 0.12", source)
	})
	t.Run("foreign currency", func(t *testing.T) {
		y := bill(t, gas(), 1.37, "CAD", zoneUse(50, 10000, 22))[0]
		assert.Equal(t, units.Some(Money(68745)), y.Energy, "%s: 401.42852 × 1.25 × 1.37 = 687.446", source)
		assert.Equal(t, units.Some(Money(19180)), y.Standing, "%s: 140 × 1.37", source)
		assert.Equal(t, "CAD", y.Currency)
	})
	t.Run("pumps", func(t *testing.T) {
		u := zoneUse(50, 10000, 22)
		u.PumpW, u.Hours = 400, 250
		y := billWith(t, gas(), Tariff{Energy: electric()}, 1, "USD", u)[0]
		assert.Equal(t, Pumping{PowerW: 400, Hours: 250, KWh: 100, Units: 100, Worth: 1}, y.Pumps, source)
		assert.Equal(t, units.Some(Money(1200)), y.Pump, "%s: 100 kWh at 0.12, no demand or standing charge", source)
		assert.Equal(t, units.Some(Money(64179+1200)), y.Total, source)
		assert.InEpsilon(t, 2129.9797+38.6, y.CO2Kg.Value, 1e-7, "%s: 100 × 0.386 more", source)
		foreign := electric()
		foreign.Currency = "CAD"
		assert.Equal(t, units.Some(Money(900)), billWith(t, gas(), Tariff{foreign, 0.75}, 1, "USD", u)[0].Pump, "%s: 12.00 at 0.75, whatever the other row's currency", source)
	})
	t.Run("pumps without a price", func(t *testing.T) {
		u := zoneUse(50, 10000, 22)
		u.PumpW, u.Hours = 400, 250
		blank := electric()
		blank.Price, blank.CO2KgUnit = units.Maybe[float64]{}, units.Maybe[float64]{}
		for name, pumps := range map[string]Tariff{"no row": {}, "no price": {Energy: blank}, "no rate": {Energy: func() Energy { e := electric(); e.Currency, e.CO2KgUnit = "NOK", units.Maybe[float64]{}; return e }()}} {
			y := billWith(t, gas(), pumps, 1, "USD", u)[0]
			assert.False(t, y.Pump.Known, name)
			assert.Equal(t, units.Some(Money(64179)), y.Total, name)
			assert.Equal(t, 100.0, y.Pumps.KWh, name)
			assert.InEpsilon(t, 2129.9797, y.CO2Kg.Value, 1e-7, name)
		}
	})
}

func TestBlankPriceIsBlankMoney(t *testing.T) {
	e := electric()
	e.Price = units.Maybe[float64]{}
	y := bill(t, e, 1, "USD", zoneUse(30, 4000, 10))[0]
	for name, m := range map[string]units.Maybe[Money]{"energy": y.Energy, "demand": y.Demand, "standing": y.Standing, "pump": y.Pump, "total": y.Total} {
		assert.False(t, m.Known, name)
	}
	assert.Equal(t, 4000.0, y.FuelUnits)
	assert.Equal(t, 10.0, y.PeakKW)
	assert.True(t, y.CO2Kg.Known)
	e.CO2KgUnit = units.Maybe[float64]{}
	assert.False(t, bill(t, e, 1, "USD", zoneUse(30, 4000, 10))[0].CO2Kg.Known)
}

func TestStandingChargeIsThePlants(t *testing.T) {
	idle := zoneUse(30, 0)
	assert.Equal(t, units.Some(Money(30000)), bill(t, electric(), 1, "USD", idle)[0].Total, "a plant that is not used is still connected")
	idle.Strategy = string(season.Unheated)
	y := bill(t, electric(), 1, "USD", idle)[0]
	assert.Equal(t, units.Some(Money(0)), y.Total, "no plant, no charge")
	assert.Equal(t, units.Some(Money(0)), y.Standing)
}

func TestRefused(t *testing.T) {
	for _, worth := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := Bill(Tariff{gas(), worth}, Tariff{}, "CAD", []Use{zoneUse(1, 1, 1)})
		var rate *NoRateError
		require.True(t, errors.As(err, &rate), "%g", worth)
		assert.Equal(t, "USD", rate.Currency)
	}
	assert.Equal(t, 1.0, bill(t, gas(), 0, "USD", zoneUse(1, 1, 1))[0].Worth, "the workbook's own currency needs no rate")
	for name, change := range map[string]func(*Energy){"efficiency": func(e *Energy) { e.Efficiency = 0 }, "heat": func(e *Energy) { e.HeatKWh = math.NaN() }} {
		e := gas()
		change(&e)
		_, err := Bill(Tariff{Energy: e}, Tariff{}, "USD", []Use{zoneUse(1, 1, 1)})
		assert.Error(t, err, name)
	}
	endless := zoneUse(1, 1, 1)
	endless.PumpW, endless.Hours = 1, math.Inf(1)
	for _, u := range []Use{zoneUse(1, math.NaN(), 1), zoneUse(1, 1, math.NaN()), endless} {
		_, err := Bill(Tariff{Energy: gas()}, Tariff{}, "USD", []Use{u})
		require.Error(t, err)
	}
}

// Whatever the zones, the parts add up to the site's charges, to the cent.
func TestZonesAddUpToTheSite(t *testing.T) {
	draw := rand.New(rand.NewPCG(2, 71))
	for range 300 {
		uses := make([]Use, 1+draw.IntN(12))
		for i := range uses {
			uses[i] = zoneUse(draw.Float64()*500, draw.Float64()*1e5, draw.Float64()*200, draw.Float64()*200, draw.Float64()*200)
		}
		years := bill(t, electric(), 0.91, "EUR", uses...)
		demand, standing := Money(0), Money(0)
		for _, y := range years {
			demand, standing = demand+y.Demand.Value, standing+y.Standing.Value
			require.Equal(t, y.Total.Value, y.Energy.Value+y.Demand.Value+y.Standing.Value)
		}
		require.Equal(t, years[0].Group.Demand.Value, demand)
		require.Equal(t, years[0].Group.Standing.Value, standing)
	}
}

func TestEveryNumberIsAStep(t *testing.T) {
	u := zoneUse(30, 4000, 10, 12)
	u.PumpW, u.Hours = 110, 777
	e, pumps := electric(), electric()
	pumps.ID, pumps.Price, pumps.HeatKWh, pumps.CO2KgUnit = "pumps", units.Some(0.17), 1.5, units.Some(0.41)
	y := billWith(t, e, Tariff{pumps, 0.92}, 0.91, "EUR", u, zoneUse(11, 1234, 3))[0]
	seen, values := map[string]bool{}, map[float64]bool{}
	for _, s := range y.Steps(e, pumps) {
		assert.False(t, seen[s.Symbol], "%s stands twice", s.Symbol)
		for _, from := range s.From {
			assert.True(t, seen[from], "%s rests on %s, which is no earlier step", s.Symbol, from)
		}
		assert.NotEmpty(t, s.Source, s.Symbol)
		seen[s.Symbol], values[s.Value] = true, true
	}
	for name, v := range map[string]float64{"heat": y.HeatKWh, "fuel": y.FuelUnits, "peak": y.PeakKW * 1000, "co2": y.CO2Kg.Value, "energy": y.Energy.Value.Main("EUR"),
		"demand": y.Demand.Value.Main("EUR"), "standing": y.Standing.Value.Main("EUR"), "pump": y.Pump.Value.Main("EUR"), "pump power": y.Pumps.PowerW, "pump hours": y.Pumps.Hours, "pump electricity": y.Pumps.KWh, "pump units": y.Pumps.Units, "pump worth": y.Pumps.Worth, "total": y.Total.Value.Main("EUR")} {
		assert.True(t, values[v], "%s %g has no step", name, v)
	}
	e.Price = units.Maybe[float64]{}
	for _, s := range bill(t, e, 0.91, "EUR", u)[0].Steps(e, pumps) {
		assert.NotContains(t, s.Symbol, "K", "no money without a price")
	}
}
