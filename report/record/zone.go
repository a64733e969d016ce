package record

import (
	"strings"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
	"thawbook/report/show"
	"thawbook/report/words"
)

// maker turns outcomes into the record's objects.
type maker struct {
	words    *words.Words
	currency string
}

func (m maker) zone(o calc.Outcome) Zone {
	ref := o.Zone.Ref
	z := Zone{Site: ref.SiteID, Zone: ref.ZoneID, Row: ref.Row, Status: o.Status(), AreaM2: positive(o.Zone.Extent.AreaM2),
		Inputs: inputs(ref.Entries), Defaults: m.defaults(ref.Defaults), Weather: m.weather(o.Weather),
		Season: []Season{}, Cost: []Cost{}}
	if o.Load != nil {
		z.Load = loadOf(*o.Load, o.Design)
	}
	if o.Slab != nil {
		z.Slab = slabOf(o)
	}
	if o.Piping != nil {
		z.Piping = pipingOf(*o.Piping)
	}
	if o.Electric != nil {
		z.Electric = electricOf(*o.Electric)
	}
	if o.Reset != nil {
		z.Reset = resetOf(*o.Reset, o.Limits)
	}
	z.Sensing = SensingOf(m.words, m.currency, o)
	for _, s := range o.Seasons {
		z.Season = append(z.Season, Season{Strategy: string(s.Strategy), HoursOff: NumberOf(s.HoursOff), HoursIdling: NumberOf(s.HoursIdling),
			HoursMelting: NumberOf(s.HoursMelting), HoursDrying: NumberOf(s.HoursDrying), EnergyKWhM2: NumberOf(s.EnergyKWhM2), BackKWhM2: NumberOf(s.BackKWhM2),
			EdgeKWhM2: Number{o.EdgeKWhM2(s)}, SnowOnSurfaceH: Number{s.SnowOnSurfaceH}, RefreezeEvents: Number{s.RefreezeEvents},
			Chosen: o.Sensing != nil && o.Sensing.Strategy == string(s.Strategy)})
		z.Season[len(z.Season)-1].tell(&s)
	}
	for _, c := range o.Costs {
		z.Cost = append(z.Cost, Cost{Strategy: c.Strategy, Winter: string(c.Winter), Energy: m.amount(c.Energy), Demand: m.amount(c.Demand),
			Standing: m.amount(c.Standing), Pump: m.amount(c.Pump), PumpKWh: pumpKWh(c), Total: m.amount(c.Total), CO2Kg: Number{c.CO2Kg}})
	}
	return z
}

func pumpKWh(y cost.Year) Number {
	return Number{units.Maybe[float64]{Value: y.Pumps.KWh, Known: y.Pumps.PowerW > 0}}
}

// name returns a field's name in the record: snake case, the unit at the end.
func name(field finding.Field, q units.Quantity) string {
	n := strings.NewReplacer("-", "_", " ", "_").Replace(string(field))
	suffix := q.In(units.SI).Suffix
	if q == units.Text || suffix == "" || strings.HasSuffix(n, "_"+suffix) || n == suffix {
		return n
	}
	return n + "_" + suffix
}

// siValue returns a value in the SI unit that its name ends with. A share stays a fraction of one, as its name says.
func siValue(v float64, q units.Quantity, word string) Value {
	switch q {
	case units.Text:
		return Value{Word: word}
	case units.Share:
		return Value{Number: NumberOf(v)}
	}
	return Value{Number: NumberOf(q.In(units.SI).FromBase(v))}
}

func inputs(entries []calc.Entry) Inputs {
	in := make(Inputs, 0, len(entries))
	seen := make(map[string]bool, len(entries))
	for _, e := range entries {
		n := name(e.Field, e.Quantity)
		if seen[n] {
			continue
		}
		seen[n] = true
		in = append(in, Named{n, siValue(e.Number, e.Quantity, e.Word)})
	}
	return in
}

func (m maker) defaults(list []calc.Default) []Default {
	out := make([]Default, len(list))
	for i, d := range list {
		out[i] = Default{Name: name(d.Field, d.Quantity), Value: siValue(d.Number, d.Quantity, d.Word), Source: m.words.Line(words.Defaults, d.Source)[0]}
	}
	return out
}

func (m maker) weather(w calc.WeatherUsed) Weather {
	if w.Kind == "" {
		return Weather{}
	}
	out := Weather{Source: text(w.Station), Years: &w.Years, Kind: text(string(w.Kind)), Rule: text(string(w.Rule)), Digest: w.Digest}
	switch {
	case w.Coarse:
		out.Note = text(m.words.Say("weather-note-coarse"))
	case w.Kind == weather.Synthetic:
		out.Note = text(m.words.Say("weather-note-synthetic"))
	case w.Kind == weather.Typical && w.Years == 1:
		out.Note = text(m.words.Say("weather-note-typical"))
	}
	return out
}

func loadOf(l surface.Load, d calc.Design) *Load {
	out := &Load{Method: string(l.Method), DesignFluxWM2: NumberOf(l.DesignWM2), BackLossWM2: Number{d.BackWM2}, EdgeLossW: Number{d.EdgeW}, TotalW: Number{d.TotalW},
		InstalledWM2: Number{d.InstalledWM2}, SnowfallHoursUnmet: Number{d.UnmetHours}}
	if l.Method != surface.Given {
		out.SnowFreeRatio = NumberOf(l.Input.SnowFree)
	}
	if l.Method == surface.Hourly || l.Method == surface.Synthetic {
		out.Percentile = NumberOf(l.Input.Percentile)
	}
	if l.Frequency.Known {
		out.SnowfallHours = NumberOf(l.SnowHours)
		out.Frequency = FrequencyOf(l.Frequency)
	}
	if l.Hour.Known {
		t := l.Hour.Value
		out.DesignHour = &DesignHour{Time: text(show.Hour(t)), OutdoorC: NumberOf(t.AirC), DewC: NumberOf(t.DewC), WindMS: NumberOf(t.WindMS), SnowMMH: NumberOf(t.SnowMMH)}
		out.SensibleWM2, out.MeltWM2 = NumberOf(t.Sensible), NumberOf(t.Melt)
		out.ConvectionRadiationWM, out.EvaporationWM2 = NumberOf(t.ConvectionRadiation()), NumberOf(t.Evaporation)
	}
	return out
}

func percentiles(f [6]float64) Percentiles {
	return Percentiles{NumberOf(f[0]), NumberOf(f[1]), NumberOf(f[2]), NumberOf(f[3]), NumberOf(f[4]), NumberOf(f[5])}
}

func resetOf(c setpoint.Curve, l *setpoint.Limits) *Reset {
	out := &Reset{SurfaceSetPointC: NumberOf(c.Input.MeltC), ResetRatio: NumberOf(c.Ratio), WindMS: NumberOf(c.Input.WindMS)}
	for _, p := range c.Points {
		out.Points = append(out.Points, Point{NumberOf(p.OutdoorC), NumberOf(p.CoreMeltC), NumberOf(p.CoreIdleC), Number{p.SupplyMeltC}, Number{p.SupplyIdleC}})
	}
	if l != nil {
		out.Limits = limitsOf(*l)
	}
	return out
}

func limitsOf(l setpoint.Limits) *Limits {
	out := &Limits{HeatAllowedBelowC: NumberOf(l.StartC), KeepsUpDownToC: Number{l.KeepsUpC}, SupplyLimitC: Number{l.Plant.SupplyLimitC},
		SupplyLimitPassedBelowC: Number{l.SupplyLimitAtC}, ColdestC: NumberOf(l.ColdestC), GreatestSlabC: NumberOf(l.GreatestCoreC),
		GreatestSupplyC: Number{l.GreatestSupply}, SupplyLessSlabK: Number{l.SupplyLessCore}, SupplyAtDesignFluxC: Number{l.Plant.DesignSupply}}
	if l.SupplyLessCore.Known {
		out.UsualSupplyLessSlabK = NumberOf(setpoint.GreatestSupplyLessCoreK)
	}
	return out
}

func (m maker) sensing(c sensing.Choice) *Sensing {
	out := &Sensing{Kit: []string{}, Start: c.Start, Stop: c.Stop, Idling: c.Idling, OutdoorReset: c.OutdoorReset, Controller: text(c.Controller),
		Reasons: []Reason{}, Rejected: []Rejected{}}
	for _, d := range c.Kit {
		out.Kit = append(out.Kit, string(d))
	}
	for _, r := range c.Reasons {
		out.Reasons = append(out.Reasons, Reason{r.Code, m.words.Line(words.Reasons, r.Code)[0]})
	}
	for _, r := range c.Rejected {
		out.Rejected = append(out.Rejected, Rejected{r.Kit, r.Code, m.words.Line(words.Reasons, r.Code)[0]})
	}
	return out
}

func (m maker) amount(a units.Maybe[cost.Money]) Amount {
	if !a.Known {
		return Amount{}
	}
	return Amount{units.Some(a.Value.Main(m.currency)), cost.Decimals(m.currency)}
}

func (m maker) finding(f finding.Finding) Finding {
	what, fix := m.words.Finding(f)
	return Finding{Severity: f.Severity.String(), Code: string(f.Code), Sheet: text(f.At.Sheet), Cell: text(f.At.Ref), Site: text(f.Site), Zone: text(f.Zone),
		Message: what, Fix: fix, Count: max(f.Count, 1), Mark: text(f.Mark), Reason: text(f.Because.Reason), By: text(f.Because.By), Date: text(f.Because.Date)}
}

// NumberOf returns a number that is known.
func NumberOf(v float64) Number { return Number{units.Some(v)} }

func positive(v float64) Number {
	if v <= 0 {
		return Number{}
	}
	return NumberOf(v)
}

// text returns nil for an empty text: null.
func text(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// FrequencyOf returns the table of a frequency; nil where it is blank.
func FrequencyOf(f units.Maybe[surface.Frequency]) *Frequency {
	if !f.Known {
		return nil
	}
	return &Frequency{percentiles(f.Value[0]), percentiles(f.Value[1]), percentiles(f.Value[2])}
}
