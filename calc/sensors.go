package calc

import (
	"cmp"
	"slices"

	"thawbook/calc/cost"
	"thawbook/calc/facts"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/units"
)

// Facts of results, which sequences and tests ask for, and their words.
const (
	factCurve  = "set points" // known, none: slab set points by outdoor temperature
	factHolds  = "plant holds"
	factWarmUp = "warm-up" // known, none
	factBurner = "burner"  // the heat is burned on site

	wordKnown         = "known"
	wordAll, wordPart = "all", "part" // of the outdoor temperatures of the set points
)

// Set points of the sequence that no column tells. Source: common practice.
const (
	startBelowC    = 2.0 // °C, slab or air: detectors start only below it
	restartK       = 2.0 // K above the lockout before it lets go
	fallbackBelowC = 2.0 // °C outdoors: a critical slab whose detector failed is held below it
	plantFreezeC   = 5.0 // °C in the plant room or a header: freeze protection
)

// outdoorsC are the outdoor temperatures at which a sequence tells the slab set points, mild first. °C.
var outdoorsC = [...]struct {
	name string
	c    float64
}{{"mild", 0}, {"cold", -10}, {"coldest", -20}}

// Operation is how a zone runs, how that is proved and how it is kept.
type Operation struct {
	SetPoints    []SetPoint                // of the slab sensor; none without a slab temperature
	PavementStop units.Maybe[PavementStop] // by the slab sensor; blank without one or without set points
	OffDelay     Delay                     // after dry
	Timer        Delay                     // after the last snow seen
	Sequence     []sensing.Line
	Tests        []sensing.Line
	Care         []sensing.Line
}

// SetPoint is what the slab is held to at an outdoor temperature. °C.
type SetPoint struct {
	OutdoorC                 float64
	SurfaceMeltC, CoreMeltC  float64
	SurfaceIdleC, CoreIdleC  float64
	SupplyMeltC, SupplyIdleC units.Maybe[float64]
}

// sensingInput is what the choice of a zone rests on.
func (e *Engine) sensingInput(z Zone) sensing.Input {
	set := z.Facts()
	set["country"] = e.in.Settings.countryFact()
	return sensing.Input{Facts: set, Start: z.Sensing.Start, Stop: z.Sensing.Stop, Idling: z.Sensing.Idling.Value, Critical: z.Extent.Critical.Value,
		PanelM: z.Sensing.PanelM.Value, Pavement: pavementOf(z), Parts: e.in.Parts, Numbers: e.in.Numbers, Checklist: e.in.Checklist, Screen: e.in.Screen}
}

// pavementOf is the zone as the rectangle with its area and perimeter.
func pavementOf(z Zone) sensing.Pavement {
	x := z.Extent
	width := shorterSide(x.AreaM2, x.PerimeterM.Value)
	return sensing.Pavement{AreaM2: x.AreaM2, LengthM: x.AreaM2 / width, WidthM: width, ShapeAssumed: z.defaulted("perimeter"), Slope: x.Slope,
		ShadedShare: z.Siting.ShadedShare, EdgeM: z.Siting.EdgeM, SensorDepthM: z.Slab.sensorDepthM(), SpacingM: z.Heat.SpacingM}
}

// choose picks the sensing kit, its parts and places, and prices what its offers take.
func (e *Engine) choose(o *Outcome) {
	in := e.sensingInput(o.Zone)
	choice := sensing.Choose(e.in.Rules, in)
	o.Sensing = &choice
	o.Findings = append(o.Findings, choice.Findings...)
	for _, option := range choice.Options(e.in.Rules, in) {
		o.Options = append(o.Options, e.priced(option))
	}
}

// Option is what an offer takes, priced from Costs and Parts, and what it would give. Amounts in the workbook's currency.
type Option struct {
	sensing.Option
	Lines   []OptionLine
	Total   units.Maybe[cost.Money] // of the lines that don't wait for a survey; blank when one has no price
	After   units.Maybe[cost.Money] // of the lines that do; blank too when there are none
	Waits   bool                    // some lines wait for a survey
	Example bool                    // a price is an example of the starter or the demo
}

// OptionLine is one quantity of an option: of Costs, or a part. A part that another takes the place of has quantity −1.
type OptionLine struct {
	Item     string
	Quantity float64
	Unit     units.Quantity // Length [m], or Count
	After    bool           // only when the survey clears it
	Amount   units.Maybe[cost.Money]
}

// priced prices an option.
func (e *Engine) priced(o sensing.Option) Option {
	out := Option{Option: o}
	for _, i := range o.Items {
		l := e.book().Price(cost.Take{Item: i.Item, Quantity: i.Quantity, Measure: i.Unit})
		out.Example, out.Waits = out.Example || l.Example && l.Amount.Known, out.Waits || i.After
		out.Lines = append(out.Lines, OptionLine{Item: i.Item, Quantity: i.Quantity, Unit: i.Unit, After: i.After, Amount: l.Amount})
	}
	out.part(cmp.Or(o.Part, string(o.For)), 1, o.Price, e.in.Settings.Currency)
	out.part(o.Controller.To, 1, o.Controller.ToPrice, e.in.Settings.Currency)
	out.part(o.Controller.From, -1, o.Controller.FromPrice, e.in.Settings.Currency)
	out.Total = sumOf(out.Lines, false)
	if out.Waits {
		out.After = sumOf(out.Lines, true)
	}
	return out
}

// part adds a part that an option buys, or saves; where there is a survey it waits for that.
func (o *Option) part(name string, quantity float64, price units.Maybe[float64], currency string) {
	if name == "" {
		return
	}
	line := OptionLine{Item: name, Quantity: quantity, Unit: units.Count, After: o.Waits}
	if price.Known {
		line.Amount = units.Some(cost.FromMain(quantity*price.Value, currency))
	}
	o.Lines = append(o.Lines, line)
}

// sumOf adds up the lines that wait for a survey, or those that don't; blank when one has no price.
func sumOf(lines []OptionLine, after bool) units.Maybe[cost.Money] {
	sum := units.Some(cost.Money(0))
	for _, l := range lines {
		if l.After != after {
			continue
		}
		if !l.Amount.Known {
			return units.Maybe[cost.Money]{}
		}
		sum.Value += l.Amount.Value
	}
	return sum
}

// PartsTotal returns what the selected parts cost, each line rounded, in the workbook's currency; blank when a price or a part is missing.
func (o Outcome) PartsTotal(currency string) units.Maybe[cost.Money] {
	if o.Sensing == nil || o.Sensing.Selection == nil || !o.Sensing.Selection.Total.Known {
		return units.Maybe[cost.Money]{}
	}
	sum := cost.Money(0)
	for _, p := range o.Sensing.Selection.Pieces {
		sum += cost.FromMain(p.Amount().Value, currency)
	}
	return units.Some(sum)
}

// sharedStart returns the IDs of the zones that one aerial detector may start together: at least two, open to the sky and none of them critical,
// so that one failed device can't leave a critical area cold. Each zone keeps a stop of its own. Source: judgement.
func sharedStart(list []Outcome) []string {
	var ids []string
	for _, o := range list {
		if o.Sensing == nil || o.Sensing.Start != sensing.StartDetector || o.Zone.Extent.Critical.Value || o.Zone.Siting.Overhang == Yes {
			continue
		}
		for _, d := range o.Sensing.Kit {
			if d == sensing.AerialDetector {
				ids = append(ids, o.Zone.Ref.ZoneID)
			}
		}
	}
	if len(ids) < 2 {
		return nil
	}
	return ids
}

// operation writes down how the zone runs, with its own set points and delays.
func (e *Engine) operation(o *Outcome) {
	if o.Sensing == nil {
		return
	}
	op := &Operation{OffDelay: Delay{SetH: dryHoldH, RunH: dryHoldH}, Timer: Delay{SetH: aerialHoldH, RunH: aerialHoldH}}
	if chosen, found := o.Chosen(); found {
		op.delays(chosen.Ground)
	}
	op.SetPoints, op.PavementStop = o.setPoints(), o.pavementStop()
	o.Operation = op
	o.judgeDelays()
	set, values := o.Facts(e.in.Settings), o.values()
	o.Sensing.Answer(e.in.Screen, set, o.stopValues()...)
	op.Sequence = sensing.Lines(e.in.Sequence, set, values)
	op.Tests = sensing.Lines(e.in.Tests, set, values)
	op.Care = sensing.Lines(e.in.Care, set, values)
}

// setPoints reads the reset curve at the outdoor temperatures of the sequence; none where the kit knows no slab temperature.
func (o Outcome) setPoints() []SetPoint {
	if o.Reset == nil || !o.Sensing.OutdoorReset {
		return nil
	}
	var out []SetPoint
	for _, at := range outdoorsC {
		p := o.Reset.PointAt(at.c)
		out = append(out, SetPoint{OutdoorC: at.c, SurfaceMeltC: o.Reset.Input.MeltC, CoreMeltC: p.CoreMeltC, SurfaceIdleC: o.Reset.Input.IdleC, CoreIdleC: p.CoreIdleC,
			SupplyMeltC: p.SupplyMeltC, SupplyIdleC: p.SupplyIdleC})
	}
	return out
}

// tellResults adds to a set what is known of the results: a sentence that names a value asks for it.
func (o Outcome) tellResults(set facts.Set) {
	set[factCurve], set[factHolds], set[factWarmUp], set[factStop] = wordNone, facts.Unknown, wordNone, facts.Unknown
	set[factOffDelay], set[factTimer], set[factOffDelayRun], set[factTimerRun] = facts.Unknown, facts.Unknown, facts.Unknown, facts.Unknown
	set[factBurner] = o.burnerFact()
	if o.Slab != nil && o.Slab.WarmUpHours.Known {
		set[factWarmUp] = wordKnown
	}
	if o.Operation == nil {
		return
	}
	o.tellStop(set)
	o.tellDelays(set)
	if len(o.Operation.SetPoints) > 0 {
		set[factCurve] = wordKnown
	}
	if o.Limits != nil {
		set[factHolds] = wordAll
		if o.Limits.ColdestC > outdoorsC[len(outdoorsC)-1].c {
			set[factHolds] = wordPart
		}
	}
}

// burnerFact says whether the zone's heat is burned where it stands.
func (o Outcome) burnerFact() string {
	if o.Tariff.Carrier == "" || o.Tariff.Carrier == wordOther {
		return facts.Unknown
	}
	return word(slices.Contains(burners, o.Tariff.Carrier))
}

// values are the numbers of this zone that sequences, tests and care name. What is not known is left out.
func (o Outcome) values() []finding.Arg {
	n, op := o.Zone.Sensing, o.Operation
	degrees := func(name string, c float64) finding.Arg { return finding.Value(name, c, units.Temperature) }
	out := []finding.Arg{
		degrees("melt", n.SurfaceMeltC), degrees("idle", n.SurfaceIdleC), degrees("start-below", startBelowC), degrees("idle-below", idleBelowC), degrees("shut-off", shutOffC),
		degrees("fallback-below", fallbackBelowC), degrees("plant-freeze", plantFreezeC),
		finding.Value("run-timer", manualHoldH, units.Hours),
		finding.Value("shock", setpoint.GreatestSupplyLessCoreK, units.TemperatureDiff), finding.Words("controller", o.Sensing.Controller),
	}
	add := func(name string, m units.Maybe[float64], q units.Quantity) {
		if m.Known {
			out = append(out, finding.Value(name, m.Value, q))
		}
	}
	add("lockout", n.LowestMeltC, units.Temperature)
	if n.LowestMeltC.Known {
		out = append(out, degrees("restart", n.LowestMeltC.Value+restartK))
	}
	add("supply-limit", o.Zone.Heat.SupplyLimitC, units.Temperature)
	if o.Slab != nil {
		add("warm-up", o.Slab.WarmUpHours, units.Hours)
	}
	if o.Limits != nil {
		out = append(out, degrees("coldest", o.Limits.ColdestC))
	}
	out = append(append(out, o.stopValues()...), op.delayValues()...)
	for i, p := range op.SetPoints {
		name := "-" + outdoorsC[i].name
		out = append(out, degrees("outdoor"+name, p.OutdoorC), degrees("slab"+name, p.CoreMeltC), degrees("idle"+name, p.CoreIdleC))
		add("supply"+name, p.SupplyMeltC, units.Temperature)
	}
	return out
}
