package plant_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/plant"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

func drive() plant.Zone {
	return plant.Zone{ID: "drive", AreaM2: 200, DesignWM2: 333, InstalledWM2: units.Some(340.0), EdgeW: 911, SupplyC: 46, DropK: 11, FullDropK: 11, LimitC: units.Some(55.0), SlabC: 22, StartC: units.Some(-8.0)}
}

func walk() plant.Zone {
	return plant.Zone{ID: "walk", AreaM2: 60, DesignWM2: 251, EdgeW: 417, SupplyC: 41.5, DropK: 8.5, FullDropK: 8.5, SlabC: 19}
}

func size(t *testing.T, in plant.Input) plant.Output {
	t.Helper()
	o, err := plant.Size(in)
	require.NoError(t, err)
	return o
}

func codes(o plant.Output) map[finding.Code]finding.Check {
	m := map[finding.Code]finding.Check{}
	for _, c := range o.Checks {
		m[c.Code] = c
	}
	return m
}

// TestNoDiversity: two zones ask for what each asks for alone, to the watt.
func TestNoDiversity(t *testing.T) {
	both := size(t, plant.Input{Zones: []plant.Zone{drive(), walk()}})
	assert.InDelta(t, 340.0*200+911+251.0*60+417, both.LoadW, 1e-9)
	one, two := size(t, plant.Input{Zones: []plant.Zone{drive()}}), size(t, plant.Input{Zones: []plant.Zone{walk()}})
	assert.InDelta(t, one.NetW+two.NetW, both.NetW, 1e-9)
	assert.InDelta(t, 1.15*both.LoadW, both.NetW, 1e-9)
	assert.InDelta(t, both.LoadW+both.LossW+both.PickUpW, both.NetW, 1e-9)
}

// TestTemperatures: the highest supply; the mixed return carries the heat of all zones that take their own supply.
func TestTemperatures(t *testing.T) {
	o := size(t, plant.Input{Zones: []plant.Zone{walk(), drive()}})
	assert.Equal(t, 46.0, o.SupplyC)
	c1, c2 := (251.0*60+417)/8.5, (340.0*200+911)/11
	assert.InDelta(t, (c1*33+c2*35)/(c1+c2), o.ReturnC, 1e-9)
	assert.Equal(t, units.Some(20.0), o.Needs[1].StartMostC)
	assert.False(t, o.Needs[0].StartMostC.Known)
	alone := size(t, plant.Input{Zones: []plant.Zone{drive()}})
	assert.InDelta(t, 11, alone.DropK, 1e-9)
	heat := 0.0
	for i, n := range o.Needs {
		heat += n.CapacityWK * (o.Input.Zones[i].SupplyC - n.ReturnC)
	}
	assert.InEpsilon(t, o.LoadW, heat, 1e-12, "flows carry the load")
}

// TestDropsOfTwoStates: flow follows what is asked of the plant; the return at the design flux is warmer than that at full output.
func TestDropsOfTwoStates(t *testing.T) {
	zone := drive()
	zone.DropK = 5.5
	o := size(t, plant.Input{Zones: []plant.Zone{zone}})
	assert.InEpsilon(t, (340.0*200+911)/11, o.Needs[0].CapacityWK, 1e-12)
	assert.InDelta(t, 40.5, o.ReturnC, 1e-9)
	assert.InDelta(t, 5.5, o.DropK, 1e-9)
	assert.InDelta(t, 11, o.FullDropK, 1e-9)
}

// TestAltitude: 4 % for each 1,000 ft from the sea, once above 2,000 ft (annex of a US gas code, read).
func TestAltitude(t *testing.T) {
	feet := units.Elevation.In(units.IP)
	for _, tt := range []struct{ ft, derate, fan float64 }{{0, 1, 1}, {2000, 1, 1}, {2500, 0.90, 0.95}, {5000, 0.80, 0.90}, {10000, 0.60, 0.80}} {
		in := plant.Input{Zones: []plant.Zone{drive()}, ElevationM: feet.ToBase(tt.ft), Burner: true}
		o := size(t, in)
		assert.InDelta(t, tt.derate, o.Derate, 1e-9, "%g ft", tt.ft)
		assert.InDelta(t, tt.fan, o.DerateFan, 1e-9, "%g ft", tt.ft)
		assert.InDelta(t, o.NetW/tt.derate, o.RatedW.Value, 1e-6)
		assert.InDelta(t, o.NetW/tt.fan, o.RatedFanW.Value, 1e-6)
		_, told := codes(o)[plant.CodeDerated]
		assert.Equal(t, tt.derate < 1, told)
		in.Burner = false
		o = size(t, in)
		assert.Equal(t, 1.0, o.Derate, "thin air does not weaken what burns nothing")
		assert.False(t, o.RatedW.Known)
	}
	last := 0.0
	for z := -430.0; z <= 5000; z += 10 {
		o := size(t, plant.Input{Zones: []plant.Zone{drive()}, ElevationM: z, Burner: true})
		assert.True(t, o.RatedW.Value >= last && o.Derate > 0)
		last = o.RatedW.Value
	}
}

func TestShock(t *testing.T) {
	zone := drive()
	zone.SlabC = 18 // 46 − 18 = 28: at the limit
	assert.Empty(t, size(t, plant.Input{Zones: []plant.Zone{zone}}).Checks)
	zone.SlabC = 17.9
	o := size(t, plant.Input{Zones: []plant.Zone{zone}})
	c := codes(o)[plant.CodeShockSlab]
	assert.Equal(t, "drive", c.Zone)
	assert.Equal(t, 28.0, c.Limit)
	list := o.Checks.Findings()
	require.Len(t, list, 1)
	assert.Equal(t, "drive", list[0].Zone)
	assert.Equal(t, finding.Info, list[0].Severity)

	zone = drive()
	zone.FullDropK = 14.5
	assert.Equal(t, 14.0, codes(size(t, plant.Input{Zones: []plant.Zone{zone}}))[plant.CodeShockReturn].Limit)

	own := drive()
	own.SupplyC = 57 // more than it bears
	o = size(t, plant.Input{Zones: []plant.Zone{own}})
	assert.Equal(t, 55.0, o.SupplyC, "what a zone needs beyond its limit it does not get")
	assert.NotContains(t, codes(o), plant.CodeNeedsMixing, "a valve mends nothing where the zone itself asks for the heat")

	yard := walk()
	yard.ID, yard.SupplyC, yard.LimitC, yard.SlabC = "yard", 40, units.Some(45.0), 20
	o = size(t, plant.Input{Zones: []plant.Zone{drive(), yard}})
	assert.Equal(t, "yard", codes(o)[plant.CodeNeedsMixing].Zone)
	assert.True(t, o.Needs[1].NeedsMixing)
	assert.False(t, o.Needs[0].NeedsMixing)
}

// TestEveryNumberIsAStep: bit for bit; symbols are told once and rest on symbols told before.
func TestEveryNumberIsAStep(t *testing.T) {
	yard := walk()
	yard.ID, yard.LimitC = "yard", units.Some(45.0)
	for _, in := range []plant.Input{
		{Zones: []plant.Zone{drive()}},
		{Zones: []plant.Zone{drive(), walk(), yard}, ElevationM: 2143, Burner: true},
	} {
		o := size(t, in)
		o.Checks = nil
		steps := o.Steps()
		assert.Equal(t, "plant", steps[0].Group)
		held(t, "plant", reflect.ValueOf(o), steps)
		told := map[string]bool{}
		for _, s := range steps {
			assert.NotEmpty(t, s.Name)
			assert.NotEmpty(t, s.Source, s.Symbol)
			assert.False(t, told[s.Symbol], "%s is told twice", s.Symbol)
			for _, from := range s.From {
				assert.True(t, told[from], "%s rests on %s, which is not told before", s.Symbol, from)
			}
			told[s.Symbol] = true
		}
	}
}

// held asserts that every number of a value is the value of a step.
func held(t *testing.T, path string, v reflect.Value, steps []trace.Step) {
	t.Helper()
	has := func(x float64) {
		for _, s := range steps {
			if math.Float64bits(s.Value) == math.Float64bits(x) {
				return
			}
		}
		assert.Fail(t, "no step", "%s: %v", path, x)
	}
	switch {
	case v.Type() == reflect.TypeFor[units.Maybe[float64]]():
		if m := v.Interface().(units.Maybe[float64]); m.Known {
			has(m.Value)
		}
	case v.Kind() == reflect.Float64:
		has(v.Float())
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			held(t, path, v.Index(i), steps)
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			held(t, path+"."+v.Type().Field(i).Name, v.Field(i), steps)
		}
	}
}

func TestRefusals(t *testing.T) {
	_, err := plant.Size(plant.Input{})
	assert.ErrorIs(t, err, plant.ErrInput)
	for name, spoil := range map[string]func(*plant.Input){
		"no area":         func(in *plant.Input) { in.Zones[0].AreaM2 = 0 },
		"heat unknown":    func(in *plant.Input) { in.Zones[0].EdgeW = math.NaN() },
		"no heat":         func(in *plant.Input) { in.Zones[0].InstalledWM2, in.Zones[0].EdgeW = units.Some(0.0), 0 },
		"no drop":         func(in *plant.Input) { in.Zones[0].DropK = 0 },
		"supply unknown":  func(in *plant.Input) { in.Zones[0].SupplyC = math.NaN() },
		"height unknown":  func(in *plant.Input) { in.ElevationM = math.NaN() },
		"above the range": func(in *plant.Input) { in.ElevationM = 7000 },
	} {
		in := plant.Input{Zones: []plant.Zone{drive()}}
		spoil(&in)
		_, err := plant.Size(in)
		assert.ErrorIs(t, err, plant.ErrInput, name)
	}
}
