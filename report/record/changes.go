package record

import (
	"math"
	"slices"
	"strings"

	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report"
)

// Change is a result of a zone that moved since the run before. Before and Now are in the unit that What ends with; null where there was none.
type Change struct {
	Site           string  `json:"site"`
	Zone           string  `json:"zone"`
	What           string  `json:"what"`
	Before         Moved   `json:"before"`
	Now            Moved   `json:"now"`
	RevisionBefore *string `json:"revision_before"`
	Revision       *string `json:"revision"`
}

// Moved is a number, a word or nothing.
type Moved struct{ Value }

// MarshalJSON writes the number, the word or null.
func (m Moved) MarshalJSON() ([]byte, error) {
	if !m.Number.Known && m.Word == "" {
		return []byte("null"), nil
	}
	return m.Value.MarshalJSON()
}

// leastMove is the share of itself by which a number must have moved to be told: far below what is shown, above what is lost in writing it down.
const leastMove = 1e-5

// measure is a result by which runs are compared.
type measure struct {
	key, code string
	quantity  units.Quantity
	money     bool
	number    func(Zone) Number // in the record's unit
	text      func(Zone) string
}

// measures are the results that a reviewer of a revision looks at.
var measures = []measure{
	{key: "status", code: "change-status", text: func(z Zone) string { return z.Status }},
	{key: "area_m2", code: "change-area", quantity: units.Area, number: func(z Zone) Number { return z.AreaM2 }},
	{key: "weather.kind", code: "change-weather", text: func(z Zone) string { return word(z.Weather.Kind) }},
	ofLoad("design_flux_w_m2", "change-design-flux", units.Flux, func(l *Load) Number { return l.DesignFluxWM2 }),
	ofLoad("installed_w_m2", "change-installed", units.Flux, func(l *Load) Number { return l.InstalledWM2 }),
	ofLoad("back_loss_w_m2", "change-back", units.Flux, func(l *Load) Number { return l.BackLossWM2 }),
	ofLoad("edge_loss_w", "change-edge", units.Power, func(l *Load) Number { return l.EdgeLossW }),
	ofLoad("total_w", "change-total", units.Power, func(l *Load) Number { return l.TotalW }),
	ofLoad("snowfall_hours_unmet", "change-unmet", units.Hours, func(l *Load) Number { return l.SnowfallHoursUnmet }),
	ofReset("surface_set_point_c", "change-set-point", units.Temperature, func(r *Reset) Number { return r.SurfaceSetPointC }),
	ofReset("reset_ratio", "change-reset-ratio", units.Number, func(r *Reset) Number { return r.ResetRatio }),
	{key: "sensing.kit", code: "change-kit", text: func(z Zone) string { return kitOf(z) }},
	{key: "season.strategy", code: "change-strategy", text: func(z Zone) string { return chosen(z).Strategy }},
	{key: "season.energy_kwh_m2", code: "change-energy", quantity: units.EnergyPerArea, number: func(z Zone) Number { return chosen(z).EnergyKWhM2 }},
	{key: "season.snow_on_surface_h", code: "change-snow", quantity: units.Hours, number: func(z Zone) Number { return chosen(z).SnowOnSurfaceH }},
	ofPiping("loops", "change-loops", units.Count, func(p *Piping) Number { return NumberOf(float64(p.Loops)) }),
	ofPiping("flow_l_s", "change-flow", units.Flow, func(p *Piping) Number { return p.FlowLS }),
	ofPiping("head_kpa", "change-head", units.Pressure, func(p *Piping) Number { return p.HeadKPa }),
	{key: "electric.connected_kw", code: "change-connected", quantity: units.ElectricPower, number: func(z Zone) Number {
		if z.Electric == nil {
			return Number{}
		}
		return z.Electric.ConnectedKW
	}},
	{key: "cost.total", code: "change-cost", money: true, number: yearlyCost},
}

func ofLoad(key, code string, q units.Quantity, get func(*Load) Number) measure {
	return measure{key: "load." + key, code: code, quantity: q, number: func(z Zone) Number {
		if z.Load == nil {
			return Number{}
		}
		return get(z.Load)
	}}
}

func ofReset(key, code string, q units.Quantity, get func(*Reset) Number) measure {
	return measure{key: "reset." + key, code: code, quantity: q, number: func(z Zone) Number {
		if z.Reset == nil {
			return Number{}
		}
		return get(z.Reset)
	}}
}

func ofPiping(key, code string, q units.Quantity, get func(*Piping) Number) measure {
	return measure{key: "piping." + key, code: code, quantity: q, number: func(z Zone) Number {
		if z.Piping == nil {
			return Number{}
		}
		return get(z.Piping)
	}}
}

func word(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

func kitOf(z Zone) string {
	if z.Sensing == nil {
		return ""
	}
	return strings.Join(z.Sensing.Kit, " + ")
}

// chosen returns the winter of the strategy that the kit names.
func chosen(z Zone) Season {
	if i := slices.IndexFunc(z.Season, func(s Season) bool { return s.Chosen }); i >= 0 {
		return z.Season[i]
	}
	return Season{}
}

// yearlyCost returns the total of the chosen strategy in a typical winter.
func yearlyCost(z Zone) Number {
	strategy := chosen(z).Strategy
	for _, c := range z.Cost {
		if c.Strategy == strategy && c.Winter == string(cost.Winters[1]) {
			return Number{c.Total.Maybe}
		}
	}
	return Number{}
}

// comparison compares zones, as they come, with a run before.
type comparison struct {
	zones     map[[2]string]Zone // of the run before that have not come yet
	revisions map[string]string
	sites     map[string]bool // of this run
	money     bool            // both are in the same currency
	found     []report.Change
}

// compare begins a comparison. Without a run before, nothing moved.
func compare(before *Results, currency string) *comparison {
	if before == nil {
		return nil
	}
	c := &comparison{zones: map[[2]string]Zone{}, revisions: map[string]string{}, sites: map[string]bool{}, money: before.Currency == currency}
	for _, z := range before.Zones {
		c.zones[[2]string{z.Site, z.Zone}] = z
	}
	for _, s := range before.Sites {
		c.revisions[s.Site] = s.Revision
	}
	return c
}

// zone compares one zone and returns what moved.
func (c *comparison) zone(now Zone, revision string) []report.Change {
	if c == nil {
		return nil
	}
	key := [2]string{now.Site, now.Zone}
	c.sites[now.Site] = true
	before, known := c.zones[key]
	delete(c.zones, key)
	from := len(c.found)
	if !known {
		c.add(measures[0], Zone{Site: now.Site, Zone: now.Zone}, now, revision)
		return c.found[from:]
	}
	for _, m := range measures {
		if c.money || !m.money {
			c.add(m, before, now, revision)
		}
	}
	return c.found[from:]
}

// gone tells the zones of the run before that did not come, but for sites that this run did not reach.
func (c *comparison) gone(unreached map[string]bool) {
	if c == nil {
		return
	}
	var left []Zone
	for _, z := range c.zones {
		if !unreached[z.Site] {
			left = append(left, z)
		}
	}
	slices.SortFunc(left, func(a, b Zone) int { return strings.Compare(a.Site+"\x00"+a.Zone, b.Site+"\x00"+b.Zone) })
	for _, z := range left {
		c.add(measures[0], z, Zone{Site: z.Site, Zone: z.Zone}, "")
	}
}

// add adds a result if it moved.
func (c *comparison) add(m measure, before, now Zone, revision string) {
	change := report.Change{Site: now.Site, Zone: now.Zone, What: m.code, Key: m.key, Quantity: m.quantity, Money: m.money, Revision: revision, Then: c.revisions[now.Site]}
	if m.text != nil {
		if change.BeforeText, change.NowText = m.text(before), m.text(now); change.BeforeText != change.NowText {
			c.found = append(c.found, change)
		}
		return
	}
	was, is := m.number(before), written(m.number(now))
	if was.Known == is.Known && math.Abs(was.Value-is.Value) <= leastMove*math.Max(math.Abs(was.Value), math.Abs(is.Value)) {
		return
	}
	change.Before, change.Now = m.base(was), m.base(is)
	c.found = append(c.found, change)
}

// written returns a number as it is read back from a record: one that is none is blank.
func written(n Number) Number {
	if math.IsNaN(n.Value) || math.IsInf(n.Value, 0) {
		return Number{}
	}
	return n
}

// inKilo are the quantities that the record holds in thousands of the base unit.
var inKilo = map[units.Quantity]bool{units.Pressure: true, units.ElectricPower: true}

// base returns a number of the record in the base unit.
func (m measure) base(n Number) units.Maybe[float64] {
	if n.Known && inKilo[m.quantity] {
		n.Value = m.quantity.In(units.SI).ToBase(n.Value)
	}
	return n.Maybe
}

// changeOf returns a change as the record has it.
func changeOf(c report.Change) Change {
	out := Change{Site: c.Site, Zone: c.Zone, What: c.Key, RevisionBefore: text(c.Then), Revision: text(c.Revision)}
	if c.Quantity == units.Text && !c.Money {
		out.Before.Word, out.Now.Word = c.BeforeText, c.NowText
		return out
	}
	value := func(v units.Maybe[float64]) Number {
		if v.Known && inKilo[c.Quantity] {
			v.Value = c.Quantity.In(units.SI).FromBase(v.Value)
		}
		return Number{v}
	}
	out.Before.Number, out.Now.Number = value(c.Before), value(c.Now)
	return out
}
