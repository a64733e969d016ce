package calc

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/cost"
	"thawbook/calc/season"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// tracedZones are zones that between them bring out every step there is.
var tracedZones = sync.OnceValue(func() map[string]Outcome {
	e := engine(func(in *Inputs) {
		in.Settings.Rates = []Rate{{"CAD", 0.73}}
		dear := gas
		dear.ID, dear.TierUnits, dear.TierPrice = "gas by tiers", units.Some(150.0), units.Some(0.83)
		in.Energies = append(in.Energies, dear)
	})
	all := map[string]Outcome{}
	for name, change := range map[string]func(*Zone){
		"drive":    func(z *Zone) {},
		"observed": func(z *Zone) { z.Place.Station, z.Heat.EnergyID = "Three Winters", "foreign" },
		"stair and margin": func(z *Zone) {
			z.Extent.Use, z.Service.DesignMargin, z.Extent.PerimeterM = Stair, 1.15, units.Some(49.0)
		},
		"pavers, cable": func(z *Zone) {
			z.Slab.Surface, z.Heat.Kind, z.Heat.EnergyID, z.Slab.DepthM = Pavers, Electric, "power", units.Some(0.1)
		},
		"given":          func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(287.0) },
		"given, nowhere": func(z *Zone) { z.Service.DesignFluxWM2, z.Place.Station = units.Some(287.0), "" },
		"design hour":    func(z *Zone) { z.Place.Station = "One Hour" },
		"light":          func(z *Zone) { z.Service.DesignFluxWM2 = units.Some(60.0) },
		"own output":     func(z *Zone) { z.Heat.InstalledWM2 = units.Some(333.0) },
		"existing":       func(z *Zone) { z.Slab.Stage, z.Heat.EnergyID = ExistingHeated, "no price" },
		"unheated":       func(z *Zone) { z.Slab.Stage = ExistingUnheated },
		"critical": func(z *Zone) {
			z.Extent.Use, z.Sensing.MastAvailable, z.Sensing.LowestMeltC = Helistop, Yes, units.Some(-12.0)
		},
		"tiers":     func(z *Zone) { z.Heat.EnergyID = "gas by tiers" },
		"no energy": func(z *Zone) { z.Heat.EnergyID = "" },
	} {
		all[name] = e.Site(site(zone(change))).Outcomes[0]
	}
	return all
})

// traced returns the traced zones, none of which failed.
func traced(t *testing.T) map[string]Outcome {
	t.Helper()
	for name, o := range tracedZones() {
		require.NoError(t, o.Err, name)
	}
	return tracedZones()
}

// exemption is a number that needs no step of its own: it is not in force, or it stands in a step under another field.
type exemption struct {
	path   string // its beginning
	when   func(Outcome) bool
	reason string
}

func always(Outcome) bool { return true }

var exemptions = []exemption{
	{"Load.Input.", func(o Outcome) bool { return !o.Load.Hour.Known }, "without an hour a given flux is all there is; nothing rests on these"},
	{"Load.Input.Percentile", func(o Outcome) bool { return !o.Load.Frequency.Known }, "one hour has no percentile"},
	{"Load.Input.Margin", func(o Outcome) bool { return o.Load.Input.GivenWM2.Known }, "a margin does not count on a given flux"},
	{"Load.Hour.Month", undated, "a given hour has no date"},
	{"Load.Hour.Day", undated, "a given hour has no date"},
	{"Load.Hour.Clock", undated, "a given hour has no date"},
	{"Load.ToPercentileWM2", func(o Outcome) bool { return !o.Load.Frequency.Known }, "one hour has no percentile"},
	{"Load.PercentileWM2", func(o Outcome) bool { return !o.Load.Frequency.Known }, "one hour has no percentile: it is the hour's total, or zero without an hour"},
	{"Load.MarginWM2", func(o Outcome) bool { return o.Load.Input.GivenWM2.Known }, "nothing is added to a given flux"},
	{"Load.StairsWM2", func(o Outcome) bool { return o.Load.Input.GivenWM2.Known }, "nothing is added to a given flux"},
	{"Load.SnowHours", func(o Outcome) bool { return !o.Load.Frequency.Known }, "no record, no count"},
	{"Load.QuarterHours", func(o Outcome) bool { return !o.Load.Frequency.Known }, "no record, no count"},
	{"Slab.Section.SurfaceWMK", func(o Outcome) bool { return o.Slab.Section.SurfaceM == 0 }, "there is no surface course"},
	{"Slab.Section.SurfaceM", func(o Outcome) bool { return o.Slab.Section.SurfaceM == 0 }, "there is no surface course"},
	{"Slab.Section.BeddingWMK", func(o Outcome) bool { return o.Slab.Section.BeddingM == 0 }, "there is no bedding"},
	{"Slab.Section.BeddingM", func(o Outcome) bool { return o.Slab.Section.BeddingM == 0 }, "there is no bedding"},
	{"Slab.Section.Wall", func(o Outcome) bool { return o.Slab.Section.WallM == 0 }, "a cable has no wall"},
	{"Slab.Section.OutdoorC", always, "the same as Slab.BelowC over open air; nothing rests on it over ground"},
	{"Slab.Section.FluidFilmWM2K", func(o Outcome) bool { return o.Slab.Section.FluidFilmWM2K == 0 }, "not known: the film that is taken has a step"},
	{"Slab.Unit.Geometry", always, "the same as Slab.Section"},
	{"Slab.Unit.Nodes", always, "how finely it was solved, no part of the answer"},
	{"Slab.Unit.Closure", always, "how well it was solved, no part of the answer"},
	{"Slab.WallResistance", func(o Outcome) bool { return o.Slab.Section.WallM == 0 }, "a cable has no wall"},
	{"Slab.SurfaceMeanC", always, "the film's temperature, which is constant and has a step"},
	{"Slab.Section.SlabHeatCapacityJM3", func(o Outcome) bool { return !o.Slab.WarmUpHours.Known }, "nothing steady rests on it"},
	{"Slab.Section.GroundC", always, "the same as Slab.BelowC over ground; a flat share of back loss does not rest on it"},
	{"Slab.EdgeW", always, "the same as Design.EdgeW"},
	{"Design.BackWM2", always, "the same as Slab.BackWM2"},
	{"Reset.Input.", func(o Outcome) bool { return !o.Reset.Points[0].SupplyMeltC.Known }, "without a supply temperature nothing rests on drop, back share and pipe"},
	{"Limits.Plant.InstalledWM2", always, "the same as Design.InstalledWM2"},
	{"Limits.Plant.ShutOffC", always, "the same as Limits.StartC"},
	{"Season.Input.Column.Layers[0]", func(o Outcome) bool { return o.Seasons[0].Input.Column.Layers[0].ThickM == 0 }, "there is no surface course"},
	{"Season.Input.LessSnow", always, "the same as Snow.MildFactor; of several winters none has it"},
	{"Season.Input.MoreSnow", always, "the same as Snow.SevereFactor; of several winters none has it"},
	{"Season.Input.Window", always, "no storm was asked for: a representative one is told"},
	{"Season.Input.Start", always, "a date"},
	{"Season.Input.End", always, "a date"},
	{"Season.Months", always, "a series: its sums and its greatest peak have steps, and it adds up to them"},
	{"Season.Years", always, "a series: the season is their average"},
	{"Season.Storm", always, "a series of hours: a drawing"},
	{"Snow.Variation", func(o Outcome) bool { return o.Snow.Rule != RuleSnowFactors }, "several winters need none"},
	{"Snow.MildFactor", func(o Outcome) bool { return o.Snow.Rule != RuleSnowFactors }, "several winters need none"},
	{"Snow.SevereFactor", func(o Outcome) bool { return o.Snow.Rule != RuleSnowFactors }, "several winters need none"},
	{"Cost.Worth", func(o Outcome) bool { return !o.Costs[0].Total.Known }, "without amounts nothing is changed into another currency"},
	{"Cost.Pumps.", func(o Outcome) bool { return o.Piping == nil }, "there is no pump"},
	{"Cost.Pumps.Worth", func(o Outcome) bool { return !o.Costs[0].Total.Known }, "without amounts nothing is changed into another currency"},
	{"Cost.Group.", func(o Outcome) bool { return !shares(o) }, "without a charge nothing is shared"},
	{"Cost.Group.Units", func(o Outcome) bool { return !o.Tariff.Tiered() }, "with one price nothing is beyond a tier"},
	{"Cost.Group.KWMonths", func(o Outcome) bool { return !o.Tariff.DemandKWMonth.Known }, "without a demand charge no peak is shared"},
	{"Cost.Group.ZoneKWMonths", func(o Outcome) bool { return !o.Tariff.DemandKWMonth.Known }, "without a demand charge no peak is shared"},
	{"Cost.Group.AreaM2", func(o Outcome) bool { return !o.Tariff.StandingMonth.Known }, "without a standing charge no area shares it"},
	{"Cost.Group.ZoneAreaM2", func(o Outcome) bool { return !o.Tariff.StandingMonth.Known }, "without a standing charge no area shares it"},
}

func undated(o Outcome) bool { return o.Load.Hour.Value.Month == 0 }

func shares(o Outcome) bool {
	return o.Costs[0].Total.Known && (o.Tariff.DemandKWMonth.Known || o.Tariff.StandingMonth.Known)
}

// needed are the fields of Reset.Input that count without a supply temperature too.
var needed = []string{"Reset.Input.MeltC", "Reset.Input.IdleC", "Reset.Input.LengthM", "Reset.Input.WindMS", "Reset.Input.ElevationM", "Reset.Input.CoreResistance"}

func exempt(o Outcome, path string) bool {
	for _, x := range exemptions {
		if strings.HasPrefix(path, x.path) && !(x.path == "Reset.Input." && slices.Contains(needed, path)) && x.when(o) {
			return true
		}
	}
	return false
}

// clone returns an outcome whose parts can be changed without harm.
func clone(o Outcome) *Outcome {
	v := reflect.ValueOf(&o).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Pointer && !f.IsNil() {
			fresh := reflect.New(f.Type().Elem())
			fresh.Elem().Set(f.Elem())
			f.Set(fresh)
		}
	}
	o.Seasons, o.Costs = slices.Clone(o.Seasons), slices.Clone(o.Costs)
	return &o
}

// parts returns the parts of an outcome whose numbers have steps.
func tracedParts(o *Outcome) map[string]reflect.Value {
	roots := map[string]reflect.Value{}
	v := reflect.ValueOf(o).Elem()
	for _, name := range []string{"Load", "Slab", "Design", "Reset", "Limits", "Snow"} {
		if f := v.FieldByName(name); f.IsValid() {
			roots[name] = f
		}
	}
	if len(o.Seasons) == 0 {
		delete(roots, "Snow")
	}
	if o.Slab == nil {
		delete(roots, "Design")
	}
	if chosen, found := o.Chosen(); found {
		i := slices.IndexFunc(o.Seasons, func(r season.Result) bool { return r.Strategy == chosen.Strategy })
		roots["Season"] = reflect.ValueOf(&o.Seasons[i]).Elem()
	}
	if year, found := o.ChosenCost(cost.TypicalWinter); found {
		i := slices.IndexFunc(o.Costs, func(y cost.Year) bool { return y.Strategy == year.Strategy && y.Winter == year.Winter })
		roots["Cost"] = reflect.ValueOf(&o.Costs[i]).Elem()
	}
	return roots
}

// walk visits every number: of a blank none, of a series of structs those of its first and last member. Unsigned numbers stand for words.
func walk(v reflect.Value, path string, visit func(path string, leaf reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), path, visit)
		}
	case reflect.Struct:
		if strings.HasPrefix(v.Type().Name(), "Maybe[") {
			if v.FieldByName("Known").Bool() {
				walk(v.FieldByName("Value"), path, visit)
			}
			return
		}
		for i := range v.NumField() {
			walk(v.Field(i), path+"."+v.Type().Field(i).Name, visit)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			if v.Type().Elem().Kind() != reflect.Struct || i == 0 || i == v.Len()-1 {
				walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
			}
		}
	case reflect.Float64, reflect.Int, reflect.Int8, reflect.Int32, reflect.Int64:
		visit(path, v)
	}
}

// shown returns the value that a step must have for a number: money in the main unit, power of a bill in watts, anything else as it is.
func shown(path string, leaf reflect.Value) float64 {
	if m, isMoney := leaf.Interface().(cost.Money); isMoney {
		return m.Main("USD")
	}
	if leaf.Kind() != reflect.Float64 {
		return float64(leaf.Int())
	}
	if path == "Cost.PeakKW" {
		return units.ElectricPower.In(units.SI).ToBase(leaf.Float())
	}
	return leaf.Float()
}

func stands(steps []trace.Step, v float64) bool {
	return slices.ContainsFunc(steps, func(s trace.Step) bool { return s.Text == "" && math.Float64bits(s.Value) == math.Float64bits(v) })
}

// TestEveryNumberHasAStep: each number of load, slab, set points, season and cost is the value of a step, bit for bit. A step that shows another
// field of the same value would not do: each number is changed to one that stands nowhere else, and a step must follow.
func TestEveryNumberHasAStep(t *testing.T) {
	for name, whole := range traced(t) {
		o := clone(whole)
		count := 0
		for root, part := range tracedParts(o) {
			walk(part, root, func(path string, leaf reflect.Value) {
				if exempt(whole, path) {
					return
				}
				assert.True(t, stands(o.Steps(), shown(path, leaf)), "%s: %s = %v is the value of no step", name, path, leaf)
				was := reflect.ValueOf(leaf.Interface())
				count++
				switch leaf.Kind() {
				case reflect.Float64:
					leaf.SetFloat(7234.5678 + float64(count)/1024)
				case reflect.Int8:
					leaf.SetInt(71)
				default:
					leaf.SetInt(87654321 + int64(count))
				}
				assert.True(t, stands(o.Steps(), shown(path, leaf)), "%s: no step shows %s", name, path)
				leaf.Set(was)
			})
		}
		assert.Equal(t, whole.Steps(), o.Steps(), "%s: all is as it was", name)
		assert.Greater(t, count, 3, name)
	}
}

// TestExemptedNumbersAreTheSame: a number without a step of its own has the very value of the one that has.
func TestExemptedNumbersAreTheSame(t *testing.T) {
	for name, o := range traced(t) {
		if o.Slab == nil {
			continue
		}
		assert.Equal(t, o.Slab.BackWM2, o.Design.BackWM2.Value, name)
		assert.Equal(t, o.Slab.EdgeW, o.Design.EdgeW, name)
		if o.Limits != nil {
			assert.Equal(t, [2]float64{o.Design.InstalledWM2.Value, o.Limits.StartC}, [2]float64{o.Limits.Plant.InstalledWM2, o.Limits.Plant.ShutOffC}, name)
		}
		chosen, found := o.Chosen()
		if !found {
			continue
		}
		if o.Snow.Rule == RuleSnowFactors {
			assert.Equal(t, [2]float64{o.Snow.MildFactor, o.Snow.SevereFactor}, [2]float64{chosen.Input.LessSnow, chosen.Input.MoreSnow}, name)
		}
		assert.Zero(t, chosen.Input.Window, name)
		sum := season.Month{}
		for _, m := range chosen.Months {
			sum.EnergyKWhM2, sum.BackKWhM2, sum.EdgeDegreeHours = sum.EnergyKWhM2+m.EnergyKWhM2, sum.BackKWhM2+m.BackKWhM2, sum.EdgeDegreeHours+m.EdgeDegreeHours
		}
		assert.Equal(t, [3]float64{chosen.EnergyKWhM2, chosen.BackKWhM2, chosen.EdgeDegreeHours}, [3]float64{sum.EnergyKWhM2, sum.BackKWhM2, sum.EdgeDegreeHours}, name)
	}
}

// TestStepsRestOnEarlierSteps: a step names only symbols that stand before it, and a symbol stands twice only in groups of their own.
func TestStepsRestOnEarlierSteps(t *testing.T) {
	for name, o := range traced(t) {
		steps := o.Steps()
		require.NotEmpty(t, steps, name)
		require.NotEmpty(t, steps[0].Group, name)
		before, inGroup, group := map[string]bool{}, map[[2]string]bool{}, ""
		for _, s := range steps {
			if s.Group != "" {
				group = s.Group
			}
			assert.NotEmpty(t, s.Symbol, "%s: %s", name, s.Name)
			assert.NotEmpty(t, s.Name, "%s: %s", name, s.Symbol)
			assert.NotEmpty(t, s.Source, "%s: %s", name, s.Symbol)
			assert.Equal(t, s.Quantity == units.Text, s.Text != "", "%s: %s is a word or a number", name, s.Symbol)
			assert.False(t, math.IsNaN(s.Value) || math.IsInf(s.Value, 0), "%s: %s", name, s.Symbol)
			for _, from := range s.From {
				assert.True(t, before[from], "%s: %s rests on %s, which does not stand before it", name, s.Symbol, from)
			}
			key := [2]string{group, s.Symbol}
			assert.False(t, inGroup[key], "%s: %s stands twice in %s", name, s.Symbol, group)
			before[s.Symbol], inGroup[key] = true, true
		}
	}
}

// TestSameSymbolSameQuantity: what stands in several groups under one symbol is the same kind of thing there.
func TestSameSymbolSameQuantity(t *testing.T) {
	for name, o := range traced(t) {
		quantity := map[string]units.Quantity{}
		for _, s := range o.Steps() {
			if q, known := quantity[s.Symbol]; known {
				assert.Equal(t, q, s.Quantity, "%s: %s", name, s.Symbol)
			}
			quantity[s.Symbol] = s.Quantity
		}
	}
}
