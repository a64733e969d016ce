package calc

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// dice draws a zone's values, each within the range of its column. Ranges: the page on defaults and limits.
type dice struct{ *rand.Rand }

func (d dice) within(least, most float64) float64 {
	switch d.IntN(6) { // the ends are where things break
	case 0:
		return least
	case 1:
		return most
	}
	return least + (most-least)*d.Float64()
}

// maybe leaves a value blank now and then.
func (d dice) maybe(least, most float64) (m units.Maybe[float64]) {
	if d.IntN(2) == 0 {
		return m
	}
	return units.Some(d.within(least, most))
}

func (d dice) one(words ...string) string { return words[d.IntN(len(words))] }

func (d dice) answer() Answer { return Answer(d.one("", "yes", "no", "unknown")) }

func (d dice) flag() (m units.Maybe[bool]) {
	if d.IntN(2) == 0 {
		return m
	}
	return units.Some(d.IntN(2) == 0)
}

func (d dice) zone(station string) Zone {
	z := zone()
	z.Place = Place{Station: station, LatitudeDeg: d.maybe(-90, 90), LongitudeDeg: d.maybe(-180, 180), ElevationM: d.maybe(-430, 5000), WindFactor: d.within(0.3, 1.5)}
	z.Extent = Extent{AreaM2: d.within(0.5, 100000), PerimeterM: d.maybe(2.5, 100000), WindLengthM: d.maybe(0.5, 100),
		Use: d.one("", Walk, Stair, Ramp, Drive, Parking, LoadingDock, Plaza, EmergencyEntrance, Helistop), Critical: d.flag(), Slope: d.within(0, 0.25), Drain: d.answer(), RisersIncluded: d.IntN(2) == 0}
	z.Service = Service{SnowFree: d.maybe(0, 1), Percentile: d.maybe(75, 100), DesignFluxWM2: d.maybe(10, 2000), DesignMargin: d.within(1, 1.5)}
	z.Slab = Slab{Stage: d.one(NewPour, ExistingHeated, ExistingUnheated, Overlay), Support: d.one(OnGround, OverAir, OverHeated), PostTensioned: d.answer(), MembraneBelow: d.answer(),
		Surface: d.one(Concrete, Asphalt, Pavers, Stone), ThicknessM: d.maybe(0.075, 0.6), ConductivityWMK: d.maybe(0.3, 4), SurfaceThicknessM: d.maybe(0.01, 0.3), BeddingThicknessM: d.maybe(0, 0.2),
		DepthM: d.maybe(0.02, 0.6), InsulationM2KW: d.maybe(0, 5), EdgeInsulation: d.IntN(2) == 0, GroundC: d.maybe(-10, 25)}
	outer := d.within(0.012, 0.032)
	z.Heat = Heat{Kind: d.one(Hydronic, Electric), EnergyID: d.one("", "gas", "power", "foreign", "no price", "no heat", "coal"), Pipe: Pipe{OuterM: outer, WallM: outer * d.within(0.05, 0.2)},
		SpacingM: d.maybe(0.025, 0.4), LoopLengthM: d.maybe(5, 400), Fluid: d.one("propylene glycol", "ethylene glycol"), FluidShare: d.maybe(0.3, 0.55), DropK: d.within(5, 17),
		SupplyLimitC: d.maybe(35, 65), CableWM: d.within(10, 50), VoltageV: d.maybe(100, 600), Phases: d.maybe(1, 3), InstalledWM2: d.maybe(50, 1300)}
	z.Sensing = Sensing{Housing: d.answer(), SlabSensor: d.answer(), ControlNow: d.one("", "none", "manual", "timer", "aerial detector", "in-pavement detector"), Start: d.one("", "detector", "manual"),
		Stop: d.one("", "dry", "timer", "manual"), Idling: d.flag(), SurfaceMeltC: d.within(1, 7), SurfaceIdleC: d.within(-5, 3), LowestMeltC: d.maybe(-25, -8), PanelM: d.maybe(1, 300), MastAvailable: d.answer()}
	z.Siting = Siting{Traffic: d.one("", "none", "foot", "wheel", "parked"), EdgeM: d.maybe(0.3, 100), ObstacleHeightM: d.maybe(0, 1000), ObstacleM: d.maybe(0, 10000), Overhang: d.answer(),
		DrainsPast: d.answer(), Sun: d.one("", "first", "last", "mixed"), ShadedShare: d.maybe(0, 1), WindBlown: d.answer(), SnowStored: d.answer(), Salt: d.answer(), Exhaust: d.answer(), UnheatedDownhill: d.answer()}
	z.Money.ClearingCost = d.maybe(0, 1e6)
	return z
}

// noNumber returns the place of a number that is none; "" when every number is one. A blank counts as no number at all.
func noNumber(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			return fmt.Sprintf("%s = %v", path, v.Float())
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return noNumber(v.Elem(), path)
		}
	case reflect.Struct:
		if strings.HasPrefix(v.Type().Name(), "Maybe[") && !v.FieldByName("Known").Bool() {
			return ""
		}
		for i := range v.NumField() {
			if bad := noNumber(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			if bad := noNumber(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); bad != "" {
				return bad
			}
		}
	}
	return ""
}

// FuzzEvaluate: whatever a workbook may say within the ranges of its columns, a zone never panics, never fails with an error of a room, and no number
// of its outcome is none. What is wrong across its cells is a finding.
func FuzzEvaluate(f *testing.F) {
	for seed := range uint64(60) {
		f.Add(seed, uint8(seed))
	}
	in := inputs()
	in.Climate.BuiltIn = []weather.Statistics{normals(northHere, "Built In")}
	names := []string{"Northville", "Three Winters", "Southville", "One Hour", "Far North", "Built In", ""}
	f.Fuzz(func(t *testing.T, seed uint64, station uint8) {
		e := NewEngine(in) // a fresh one: what it remembers would grow without end
		d := dice{rand.New(rand.NewPCG(seed, uint64(station)))}
		z := d.zone(names[int(station)%len(names)])
		so := e.Site(site(z))
		require.Len(t, so.Outcomes, 1)
		o := so.Outcomes[0]
		require.NoError(t, o.Err, "%+v", z)
		require.Empty(t, noNumber(reflect.ValueOf(o), "outcome"))
		require.Empty(t, noNumber(reflect.ValueOf(so.Summary), "summary"))
		for _, s := range o.Steps() {
			require.False(t, math.IsNaN(s.Value) || math.IsInf(s.Value, 0), s.Symbol)
		}
		if o.Status() == StatusOK {
			require.NotNil(t, o.Load)
			require.GreaterOrEqual(t, o.Load.DesignWM2, 0.0)
		}
	})
}
