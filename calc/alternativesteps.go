package calc

import (
	"fmt"

	"thawbook/calc/cost"
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

const (
	handbook   = "NIST Handbook 135"
	takenOff   = "quantities of the engineering, unit costs of the workbook"
	sumOfRows  = "sum of rounded rows"
	byBillRule = "bill of the site under the alternative's controls"
)

// Steps tells how an alternative's first cost, yearly cost and life cycle came about, read from its fields. Amounts in the main unit of Currency; what
// is blank has no step.
func (a AlternativeOutcome) Steps() []trace.Step {
	list := []trace.Step{{Group: "alternative", Symbol: "alternative", Name: "alternative", Text: a.Name, Source: inputSource}}
	list = append(list, a.firstSteps()...)
	list = append(list, a.yearSteps()...)
	if a.Life.Known {
		list = append(list, a.lifeSteps()...)
	}
	if a.Savings.Known {
		list = append(list, a.savingsSteps()...)
	}
	return list
}

func (a AlternativeOutcome) money(symbol, name string, m cost.Money, equation, source string, from ...string) trace.Step {
	return trace.Step{Symbol: symbol, Name: name + ", " + a.Currency, Value: m.Main(a.Currency), Quantity: units.Number, Equation: equation, Source: source, From: from}
}

// firstSteps tells of each line and of their sum.
func (a AlternativeOutcome) firstSteps() []trace.Step {
	var list []trace.Step
	var from []string
	for i, l := range a.Lines {
		if l.Uncounted != cost.Counted || !l.Amount.Known {
			continue
		}
		symbol, name := fmt.Sprintf("a_%d", i+1), l.Item
		if l.Zone != "" {
			name += ", zone " + l.Zone
		}
		equation := "a = quantity · unit cost · worth of its currency"
		if l.Item == cost.Contingency {
			equation = "a = share · estimated lines of its kind of work"
		}
		list = append(list, a.money(symbol, name, l.Amount.Value, equation, takenOff))
		from = append(from, symbol)
	}
	if a.FirstCost.Known {
		list = append(list, a.money("I", "first cost", a.FirstCost.Value, "I = Σ a", sumOfRows, from...))
	}
	return list
}

// clearingSteps tells what clearing costs: of each zone what it costs now, and how much of it is left.
func (a AlternativeOutcome) clearingSteps() []trace.Step {
	var list []trace.Step
	var from []string
	for _, z := range a.Zones {
		told, id := z.Outcome.Zone.Money.ClearingCost, z.Outcome.Zone.Ref.ZoneID
		if !told.Known {
			continue
		}
		list = append(list, a.money("K_now, "+id, "clearing as now, zone "+id, cost.FromMain(told.Value, a.Currency), "", "Sites sheet"))
		from = append(from, "K_now, "+id)
		if z.ClearingNow {
			continue
		}
		from = append(from, "c, "+id)
		hours := func(symbol, name string, v float64) trace.Step {
			return trace.Step{Symbol: symbol + ", " + id, Name: "hours with snow on the surface, zone " + id + ", " + name, Value: v, Quantity: units.Hours, Source: "typical winter under that control"}
		}
		list = append(list, hours("S_now", "as it is now", z.Clearing.SnowNowH), hours("S", "so", z.Clearing.SnowH),
			trace.Step{Symbol: "c, " + id, Name: "share of its clearing that is left", Value: z.Clearing.Share, Quantity: units.Share, Equation: "c = S / S_now, at most 1", Source: "judgement", From: []string{"S_now, " + id, "S, " + id}})
	}
	if left := a.Years[1].Clearing; left.Known {
		list = append(list, a.money("K_clear", "clearing that is left", left.Value, "K_clear = Σ K_now c, c = 1 where snow is cleared as now", sumOfRows, from...))
	}
	return list
}

// yearSteps tells of the typical winter part by part, of the others in sum.
func (a AlternativeOutcome) yearSteps() []trace.Step {
	list := a.clearingSteps()
	var from []string
	y := a.Years[1]
	for _, part := range []struct {
		symbol, name string
		amount       units.Maybe[cost.Money]
	}{{"K_e", "energy of the site", y.Energy}, {"K_d", "demand of the site", y.Demand}, {"K_s", "standing charge of the site", y.Standing}, {"K_p", "pump energy of the site", y.Pump},
		{"K_care", "care and repairs", y.Care}} {
		if part.amount.Known {
			list = append(list, a.money(part.symbol, part.name, part.amount.Value, "", byBillRule))
			from = append(from, part.symbol)
		}
	}
	if y.Clearing.Known {
		from = append(from, "K_clear")
	}
	if y.Total.Known {
		list = append(list, a.money("K", "cost of a year, typical winter", y.Total.Value, "K = K_e + K_d + K_s + K_p + K_care + K_clear, what is known of them", sumOfRows, from...))
	}
	for _, i := range []int{0, 2} {
		if t := a.Years[i].Total; t.Known {
			winter := string(cost.Winters[i])
			list = append(list, a.money("K_"+winter, "cost of a year, "+winter+" winter", t.Value, "", sumOfRows))
		}
	}
	if y.CO2Kg.Known {
		list = append(list, trace.Step{Symbol: "CO2", Name: "CO2 of a year, typical winter", Value: y.CO2Kg.Value, Quantity: units.Mass, Source: byBillRule})
	}
	return list
}

// lifeSteps tells of the study, of what comes again and of the present values.
func (a AlternativeOutcome) lifeSteps() []trace.Step {
	l, f := a.Life.Value, a.Flows
	list := []trace.Step{
		{Symbol: "N", Name: "years of the study", Value: float64(a.Study.Years), Quantity: units.Years, Source: "Settings sheet"},
	}
	list = append(list, a.rateSteps()...)
	from := []string{"I"}
	var again []string
	for i, e := range f.Replacements {
		symbol := fmt.Sprintf("R_%d(%d)", i+1, e.Year)
		list = append(list, a.money(symbol, fmt.Sprintf("%s replaced in year %d", e.Item, e.Year), e.Amount, "", "life in the Costs sheet"))
		again = append(again, symbol)
	}
	if len(again) > 0 {
		list = append(list, a.money("PV_R", "replacements, present value", l.Replacement, "PV_R = Σ R (1 + d)^−year", handbook, append(again, "d")...))
		from = append(from, "PV_R")
	}
	if f.Residual != 0 {
		list = append(list, a.money("S", "left at the end", f.Residual, "S = Σ a · years left / life", handbook, "N"),
			a.money("PV_S", "left at the end, present value", l.Residual, "PV_S = S (1 + d)^−N", handbook, "S", "d", "N"))
		from = append(from, "PV_S")
	}
	for i, s := range f.Streams {
		n := i + 1
		k, e, u, pv := fmt.Sprintf("K_%d", n), fmt.Sprintf("e_%d", n), fmt.Sprintf("UPV*_%d", n), fmt.Sprintf("PV_%d", n)
		list = append(list, a.money(k, s.Name+", a year", s.Yearly, "", byBillRule),
			trace.Step{Symbol: e, Name: "escalation of " + s.Name + ", real", Value: s.Escalation, Quantity: units.Share, Source: "Energy and Settings sheets"},
			trace.Step{Symbol: u, Name: "present value factor", Value: l.Factors[i], Quantity: units.Number, Equation: "UPV* = (1 + e)/(d − e) [1 − ((1 + e)/(1 + d))^N]", Source: handbook, From: []string{"d", e, "N"}},
			a.money(pv, s.Name+", present value", l.Streams[i], "PV = K UPV*", handbook, k, u))
		from = append(from, pv)
	}
	return append(list, a.money("PV", "present value", l.Total, "PV = I + PV_R − PV_S + Σ PV of yearly costs", handbook, from...))
}

// rateSteps tells of the discount rate, and of the inflation that was taken out of it.
func (a AlternativeOutcome) rateSteps() []trace.Step {
	d := trace.Step{Symbol: "d", Name: "discount rate, real", Value: a.Study.Discount, Quantity: units.Share, Source: "Settings sheet"}
	if n := a.Nominal; n.Known && n.Value.DiscountTold {
		d.Equation, d.Source, d.From = "d = (1 + D)/(1 + I_g) − 1", handbook, []string{"D", "I_g"}
		return []trace.Step{{Symbol: "D", Name: "discount rate, nominal", Value: n.Value.Discount, Quantity: units.Share, Source: "Settings sheet"},
			{Symbol: "I_g", Name: "general inflation", Value: n.Value.Inflation, Quantity: units.Share, Source: "Settings sheet"}, d}
	}
	return []trace.Step{d}
}

// savingsSteps tells how the alternative stands against the base case.
func (a AlternativeOutcome) savingsSteps() []trace.Step {
	s := a.Savings.Value
	list := []trace.Step{
		a.money("ΔI", "invested more than in the base case, present value", s.Invested, "ΔI = [I + PV_R − PV_S] − the same of the base case", handbook, "I"),
		a.money("ΔO", "yearly costs saved, present value", s.Operating, "ΔO = Σ PV of the base case − Σ PV", handbook),
		a.money("NS", "net savings", s.Net, "NS = ΔO − ΔI", handbook, "ΔO", "ΔI"),
	}
	ratio := func(symbol, name string, v units.Maybe[float64], q units.Quantity, equation string, from ...string) {
		if v.Known {
			list = append(list, trace.Step{Symbol: symbol, Name: name, Value: v.Value, Quantity: q, Equation: equation, Source: handbook, From: from})
		}
	}
	ratio("SIR", "savings-to-investment ratio", s.SIR, units.Factor, "SIR = ΔO / ΔI", "ΔO", "ΔI")
	ratio("AIRR", "adjusted internal rate of return", s.AIRR, units.Share, "AIRR = (1 + d) SIR^(1/N) − 1", "d", "SIR", "N")
	ratio("SPB", "simple payback", s.SimpleY, units.Years, "years until Σ savings = extra first cost")
	ratio("DPB", "discounted payback", s.DiscountedY, units.Years, "years until Σ savings (1 + d)^−year = extra first cost", "d")
	if b := a.BreakEven; b.Known {
		list = append(list,
			trace.Step{Symbol: "p", Name: "price of a unit of " + b.Value.EnergyID + ", " + b.Value.Currency, Value: b.Value.Now, Quantity: units.Number, Source: "Energy sheet"},
			trace.Step{Symbol: "U", Name: "units bought a year, " + b.Value.Unit, Value: b.Value.Units, Quantity: units.Number, Source: byBillRule},
			trace.Step{Symbol: "U_b", Name: "units bought a year in the base case", Value: b.Value.UnitsBase, Quantity: units.Number, Source: byBillRule},
			trace.Step{Symbol: "UPV*", Name: "present value factor of this energy", Value: b.Value.Factor, Quantity: units.Number, Source: handbook, From: []string{"d", "N"}},
			trace.Step{Symbol: "p*", Name: "break-even price of a unit", Value: b.Value.Price, Quantity: units.Number, Equation: "p* = p − NS / (w UPV* (U_b − U))", Source: handbook, From: []string{"p", "NS", "UPV*", "U_b", "U"}})
	}
	for i, v := range a.Sensitivity {
		list = append(list, a.money(fmt.Sprintf("NS_%d−", i+1), "net savings, "+v.Moves+" low", v.NetLow, "", handbook), a.money(fmt.Sprintf("NS_%d+", i+1), "net savings, "+v.Moves+" high", v.NetHigh, "", handbook))
	}
	return list
}
