package calc

import (
	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/slab"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

const (
	defaultVariation = 0.35 // of seasonal snow totals; judgement, practice 7.4
	tenthPercentile  = 1.28 // standard deviations from the mean to the 10th and 90th percentile of a normal distribution
)

// winters runs every strategy through the winter as it is, and through a mild and a severe one.
func (e *Engine) winters(o *Outcome, st *weather.Station) {
	if st == nil || len(st.Years) == 0 {
		return
	}
	o.Snow = spread(*st)
	in := e.seasonInput(*o, st)
	for _, w := range []struct {
		factor float64
		into   *[]season.Result
	}{{1, &o.Seasons}, {o.Snow.MildFactor, &o.Mild}, {o.Snow.SevereFactor, &o.Severe}} {
		in.SnowFactor = w.factor
		results, err := e.seasons.Get(in, func(in season.Input) ([]season.Result, error) { return season.Run(in, *st) })
		if !o.fail(err) {
			return
		}
		*w.into = results
		if o.Zone.Slab.Stage == ExistingUnheated {
			*w.into = results[:1]
		}
	}
	o.Weather.SeasonHours = o.Seasons[0].SeasonHours
}

// spread returns the snow of a mild and a severe winter: the mean times 1 ∓ 1.28 CV, not below 0.
func spread(st weather.Station) SnowSpread {
	s := SnowSpread{Variation: st.SnowVariation.Or(defaultVariation), Assumed: !st.SnowVariation.Known}
	s.MildFactor = max(0, 1-tenthPercentile*s.Variation)
	s.SevereFactor = 1 + tenthPercentile*s.Variation
	return s
}

// seasonInput is what the zone's winter rests on.
func (e *Engine) seasonInput(o Outcome, st *weather.Station) season.Input {
	z := o.Zone
	start, end := e.in.Settings.season(st.LatDeg)
	in := season.Input{Station: st.Digest, SnowFactor: 1, Start: start, End: end,
		ElevationM: z.Place.ElevationM.Value, WindFactor: z.Place.WindFactor, LengthM: z.Extent.WindLengthM.Value, SnowFree: z.Service.SnowFree.Value,
		MeltC: z.Sensing.SurfaceMeltC, IdleC: z.Sensing.SurfaceIdleC, IdleBelowC: idleBelowC, ShutOffC: shutOffC, LowestMeltC: z.Sensing.LowestMeltC,
		AerialHoldH: aerialHoldH, ManualHoldH: manualHoldH, DryHoldH: dryHoldH}
	if o.Slab != nil {
		in.InstalledWM2, in.CoreResistance = o.Design.InstalledWM2.Value, o.Slab.CoreResistance
		in.BackShare = max(0, o.Slab.BackShare)
	}
	return in
}

// season returns the season's first and last day at a latitude: as Settings tell it, else the usual one of that hemisphere.
func (s Settings) season(latDeg float64) (start, end season.Day) {
	from, to := weather.DefaultSeason(latDeg)
	start, end = s.SeasonStart, s.SeasonEnd
	if s.defaulted("season_start") {
		start = from
	}
	if s.defaulted("season_end") {
		end = to
	}
	return start, end
}

// defaulted says whether a line of Settings was filled by its default.
func (s Settings) defaulted(f finding.Field) bool {
	for _, d := range s.Defaults {
		if d.Field == f {
			return true
		}
	}
	return false
}

// edgeKWh returns the heat that leaves through the heated edge over some core-minus-outdoor degree hours.
func edgeKWh(z Zone, degreeHours float64) float64 {
	return slab.EdgeLoss(z.Extent.PerimeterM.Value, z.Slab.EdgeInsulation, degreeHours, 0) / 1000
}

// use is what a zone takes from its site's plant under a strategy in a winter.
func use(o Outcome, r season.Result, w cost.Winter) cost.Use {
	area := o.Zone.Extent.AreaM2
	u := cost.Use{Strategy: string(r.Strategy), Winter: w, AreaM2: area}
	for i, m := range r.Months {
		heat := m.EnergyKWhM2*area + edgeKWh(o.Zone, m.EdgeDegreeHours)
		peak := m.PeakWM2 * area
		if peak > 0 {
			peak += o.Design.EdgeW.Or(0)
		}
		u.Months[i] = cost.MonthUse{HeatKWh: heat, PeakKW: peak / 1000}
		u.HeatKWh += heat
	}
	return u
}

// bills prices every strategy and winter: the zones of a site that use the same row of Energy share one bill.
func (e *Engine) bills(list []Outcome) {
	done := map[string]bool{}
	for i := range list {
		id := list[i].Zone.Heat.EnergyID
		if done[fold(id)] {
			continue
		}
		done[fold(id)] = true
		var group []*Outcome
		for j := range list {
			if fold(list[j].Zone.Heat.EnergyID) == fold(id) && list[j].wintered() {
				group = append(group, &list[j])
			}
		}
		e.bill(id, group)
	}
}

// bill prices the zones of one bill, strategy by strategy, and judges them by what they cost.
func (e *Engine) bill(id string, group []*Outcome) {
	if len(group) == 0 {
		return
	}
	tariff, worth, problem := e.tariff(id)
	priced := tariff
	switch problem {
	case CodeEnergyNotTold, CodeEnergyUnknown, CodeEnergyRefused, CodeNoHeatContent:
		return
	case CodeCurrencyWithoutRate: // fuel and CO2 stand, amounts stay blank
		priced.Price = units.Maybe[float64]{}
	}
	err := e.price(priced, worth, group)
	for _, o := range group {
		if !o.fail(err) {
			o.Costs = nil
			continue
		}
		o.Tariff = tariff
		o.compareClearing(e.in.Settings.Currency)
		o.meter()
	}
}

// price fills the costs of the zones of one bill: every strategy in every winter.
func (e *Engine) price(tariff cost.Energy, worth float64, group []*Outcome) error {
	for s := range season.Strategies {
		for w, winter := range cost.Winters {
			uses := make([]cost.Use, len(group))
			for i, o := range group {
				uses[i] = use(*o, o.byWinter(w)[s], winter)
			}
			years, err := cost.Bill(tariff, worth, e.in.Settings.Currency, uses)
			if err != nil {
				return err
			}
			for i, o := range group {
				o.Costs = append(o.Costs, years[i])
			}
		}
	}
	return nil
}

// wintered says whether every strategy ran through every winter; a zone that failed on the way has no bill.
func (o Outcome) wintered() bool {
	for w := range cost.Winters {
		if len(o.byWinter(w)) != len(season.Strategies) {
			return false
		}
	}
	return o.Err == nil
}

// byWinter returns the seasons of a winter, by its place in cost.Winters.
func (o Outcome) byWinter(w int) []season.Result {
	return [3][]season.Result{o.Mild, o.Seasons, o.Severe}[w]
}

// compareClearing says so when clearing the snow as now costs less than the heat.
func (o *Outcome) compareClearing(currency string) {
	year, found := o.ChosenCost(cost.TypicalWinter)
	if !found || !year.Total.Known || !o.Zone.Money.ClearingCost.Known {
		return
	}
	if now := cost.FromMain(o.Zone.Money.ClearingCost.Value, currency); now < year.Total.Value {
		o.add(finding.Info, CodeClearingCheaper, "clearing_cost", finding.Amount("now", int64(now)), finding.Amount("heat", int64(year.Total.Value)))
	}
}
