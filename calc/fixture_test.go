package calc

import (
	"math"
	"os"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// table reads a table of templates/rules as it comes with the program.
func table(name string) facts.Table {
	f, err := os.Open("../templates/rules/" + name + ".tsv")
	if err != nil {
		panic(err)
	}
	defer f.Close()
	t, err := facts.Parse(name, f)
	if err != nil {
		panic(err)
	}
	return t
}

var tables = sync.OnceValue(func() [2]facts.Table { return [2]facts.Table{table("sensing"), table("checklist")} })

var daysOfMonth = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// madeYear returns a year made for tests: a yearly wave of temperature around meanC that is coldest after the turn of the year (half a year later
// for the south), a daily wave, a storm of half a day every fourth day from autumn to spring, rain where it is mild, infrared and some sun.
func madeYear(label string, meanC float64, south bool) weather.Year {
	y := weather.Year{Label: label, SnowRule: weather.RuleDepth, HasInfrared: true}
	shift := 15.0
	if south {
		shift += 182
	}
	day := 0
	for month, n := range daysOfMonth {
		for d := 1; d <= n; d++ {
			for clock := range 24 {
				y.Hours = append(y.Hours, madeHour(month, d, clock, day, meanC, shift))
			}
			day++
		}
	}
	return y
}

func madeHour(month, d, clock, day int, meanC, shift float64) weather.Hour {
	h := weather.Hour{Month: int8(month + 1), Day: int8(d), Clock: int8(clock), PressurePa: 100300, WindMS: 4.3 + 2*math.Sin(float64(day)) + float64(clock%5)/7, CloudShare: 0.4}
	h.AirC = meanC - 14*math.Cos(2*math.Pi*(float64(day)-shift)/365) + 3*math.Cos(2*math.Pi*float64(clock-15)/24) + 4*math.Sin(float64(day)/2.3)
	h.DewC = h.AirC - 4
	if clock > 8 && clock < 16 {
		h.SunWM2 = 150
	}
	if day%4 == 0 && clock >= 6 && clock < 18 {
		h.DewC, h.CloudShare, h.SunWM2 = h.AirC-1, 1, 0
		share := weather.SnowShare(h.AirC)
		water := 0.3 + 0.13*float64((clock+day)%9)
		h.SnowMM, h.RainMM = share*water, (1-share)*water
	}
	kelvin := h.AirC + 273.15
	h.InfraredWM2 = 5.67e-8 * kelvin * kelvin * kelvin * kelvin * (0.75 + 0.23*h.CloudShare)
	return h
}

var (
	northHere = weather.Place{LatDeg: 44.46, LonDeg: -73.15, ElevationM: 104}
	southHere = weather.Place{LatDeg: -45.02, LonDeg: 168.74, ElevationM: 350}
)

// stations are made once: "Northville" is one typical year, "Three Winters" is three observed ones, "Southville" lies in the south, "One Hour" is a
// design hour without a place, "Far North" lies where no zone is.
var stations = sync.OnceValue(func() []weather.Station {
	typical := weather.NewStation("Northville", northHere, weather.Typical, []weather.Year{madeYear("typical", 7.1, false)}, nil)
	observed := weather.NewStation("Three Winters", northHere, weather.Observed,
		[]weather.Year{madeYear("2001", 7.1, false), madeYear("2004", 6.2, false), madeYear("2009", 5.4, false)}, nil)
	south := weather.NewStation("Southville", southHere, weather.Typical, []weather.Year{madeYear("typical", 6.3, true)}, nil)
	hour := weather.NewStation("One Hour", weather.Place{ElevationM: 210}, weather.DesignOnly, nil, nil)
	hour.DesignHour = units.Some(weather.DesignHour{AirC: -8.3, DewC: -10, WindMS: 8.81, SnowMMH: 2.54})
	far := weather.NewStation("Far North", weather.Place{LatDeg: 66, LonDeg: 25, ElevationM: 180}, weather.Typical, []weather.Year{madeYear("typical", 2, false)}, nil)
	return []weather.Station{typical, observed, south, hour, far}
})

// normals are those of a snowy place. Made for tests.
func normals(place weather.Place, name string) weather.Statistics {
	s := weather.Statistics{Name: name, LatDeg: place.LatDeg, LonDeg: place.LonDeg, ElevationM: place.ElevationM}
	for m := range s.Normals {
		mean := 7 - 14*math.Cos(2*math.Pi*(float64(m)-0.5)/12)
		s.Normals[m] = weather.MonthNormals{MeanC: mean, DailyRangeK: 9, DewC: mean - 5, WindMS: 4, CloudShare: 0.6, RainMM: 60, SnowMM: math.Max(0, 40-8*math.Max(mean, -2)), SnowDays: math.NaN()}
	}
	return s
}

var (
	gas = cost.Energy{ID: "gas", Carrier: "gas", Unit: "m³", Price: units.Some(0.61), HeatKWh: 10.55, Efficiency: 0.87, StandingMonth: units.Some(23.77),
		DemandKWMonth: units.Some(1.13), BillingMonths: 12, CO2KgUnit: units.Some(1.93), Currency: "USD"}
	power   = cost.Energy{ID: "power", Carrier: cost.Electricity, Unit: "kWh", Price: units.Some(0.17), HeatKWh: 1, Efficiency: 1, BillingMonths: 7, Currency: "USD"}
	foreign = cost.Energy{ID: "foreign", Carrier: "oil", Unit: "L", Price: units.Some(1.21), HeatKWh: 10.1, Efficiency: 0.83, BillingMonths: 12, CO2KgUnit: units.Some(2.7), Currency: "CAD"}
	noPrice = cost.Energy{ID: "no price", Carrier: "gas", Unit: "m³", HeatKWh: 10.55, Efficiency: 0.87, BillingMonths: 12, CO2KgUnit: units.Some(1.93), Currency: "USD"}
	noHeat  = cost.Energy{ID: "no heat", Carrier: "other", Unit: "bag", Price: units.Some(4.0), Efficiency: 0.8, BillingMonths: 12, Currency: "USD"}
)

// inputs is a workbook in SI with the stations and energies above.
func inputs() Inputs {
	return Inputs{
		Settings: Settings{Currency: "USD", DecimalMark: ".", Revision: "B", AnalysisYears: 25, DiscountRate: 0.03, SeasonStart: season.Day{Month: 10, Day: 1}, SeasonEnd: season.Day{Month: 4, Day: 30},
			Defaults: []Default{{Field: "season_start"}, {Field: "season_end"}}},
		Climate:   Climate{Stations: slices.Clone(stations())},
		Parts:     parts,
		Energies:  []cost.Energy{gas, power, foreign, noPrice, noHeat},
		Rules:     tables()[0],
		Checklist: tables()[1],
	}
}

func engine(change ...func(*Inputs)) *Engine {
	in := inputs()
	for _, c := range change {
		c(&in)
	}
	return NewEngine(in)
}

// zone is what the reader makes of a row with an area, a station and an energy: what its columns default stands, the rest is blank.
func zone(change ...func(*Zone)) Zone {
	z := Zone{
		Ref:     Ref{SiteID: "S", ZoneID: "1", Include: "yes", Row: 2},
		Place:   Place{Station: "Northville", WindFactor: 1},
		Extent:  Extent{AreaM2: 137.5, Use: Drive, Slope: 0.02},
		Service: Service{DesignMargin: 1},
		Slab:    Slab{Stage: NewPour, Support: OnGround, PostTensioned: Unknown, MembraneBelow: Unknown, Surface: Concrete},
		Heat:    Heat{Kind: Hydronic, EnergyID: "gas", Pipe: Pipe{Typed: "20 mm", OuterM: 0.020, WallM: 0.0019}, Fluid: "propylene glycol", DropK: 11, CableWM: 30},
		Sensing: Sensing{SurfaceMeltC: 3, SurfaceIdleC: 0.5},
	}
	for _, c := range change {
		c(&z)
	}
	return z
}

func site(zones ...Zone) Site { return Site{ID: "S", Name: "Site", Zones: zones} }

// outcome calculates one zone alone.
func outcome(t testing.TB, e *Engine, change ...func(*Zone)) Outcome {
	t.Helper()
	so := e.Site(site(zone(change...)))
	require.Len(t, so.Outcomes, 1)
	return so.Outcomes[0]
}

// found returns the findings of a code.
func found(list []finding.Finding, code finding.Code) []finding.Finding {
	var out []finding.Finding
	for _, f := range list {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

// arg returns an argument of a finding by its name.
func arg(f finding.Finding, name string) finding.Arg {
	for _, a := range f.Args {
		if a.Name == name {
			return a
		}
	}
	return finding.Arg{}
}

// bySensing finds a strategy in a winter.
func bySensing(list []season.Result, s season.Strategy) season.Result {
	for _, r := range list {
		if r.Strategy == s {
			return r
		}
	}
	return season.Result{}
}

// parts are a controller and detectors without a maker. Made for tests.
var parts = []sensing.Part{
	{Name: "detector", Kind: "in-pavement detector", Senses: "moisture;slab temperature", LeadM: "10;20", Price: 400, Priced: true},
	{Name: "controller", Kind: "controller", Inputs: "in-pavement detector;aerial detector;slab temperature sensor", Outputs: "pump", Functions: "ends when dry;ends on a timer;idling;outdoor reset", Price: 900, Priced: true},
}
