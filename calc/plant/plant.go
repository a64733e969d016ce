// Package plant sizes the heat source of a site: what the zones that melt together need at once, what the pipes lose, what warming up takes, how warm the
// fluid must be and how thin the air is.
package plant

import (
	"errors"
	"fmt"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// ErrInput says that a plant can't be sized as it is asked for.
var ErrInput = errors.New("plant")

const (
	lossShare   = 0.05 // of the load, lost by mains; judgement for insulated mains
	pickUpShare = 0.10 // of the load, to warm slab and fluid while it snows; judgement

	// Input of a burner falls by these shares per thousand feet above the sea once the site lies above derateAboveFt. Source: annex of a US gas code, read;
	// the rating plate wins. fanSharePerKft is what units with a fan are often rated for: field practice.
	derateAboveFt     = 2000.0
	sharePerKft       = 0.04
	fanSharePerKft    = 0.02
	mostSupplySlabK   = 28.0 // K, supply less slab: thermal shock; common practice
	mostSupplyReturnK = 14.0 // K, supply less return; common practice
	roundK            = 1e-9 // K, what sums of differences are off by
)

// Zone is what one heated pavement asks of the plant.
type Zone struct {
	ID           string
	AreaM2       float64
	DesignWM2    float64              // design flux up and back loss
	InstalledWM2 units.Maybe[float64] // with back loss; in place of the design where it is known
	EdgeW        float64              // heat through the edge
	SupplyC      float64              // supply that the zone needs at the design flux
	DropK        float64              // its supply less return at the design flux
	FullDropK    float64              // its supply less return at what it asks of the plant
	LimitC       units.Maybe[float64] // the hottest supply that the zone bears
	SlabC        float64              // slab at the sensor at its design
	StartC       units.Maybe[float64] // slab before a start
}

// Input is a site and the zones of it that melt together. A zone with electric heat is not one of them.
type Input struct {
	Zones      []Zone
	ElevationM float64
	Burner     bool // the plant burns a fuel
}

// Need is what a zone adds to the plant.
type Need struct {
	ID          string
	WM2         float64 // of its area
	HeatW       float64
	CapacityWK  float64              // flow times heat capacity: heat per kelvin of drop
	SupplyC     float64              // supply that the zone is given: what it needs, as far as it bears it
	ReturnC     float64              // that less its drop
	SlabDiffK   float64              // supply less slab at the design
	StartMostC  units.Maybe[float64] // the hottest supply at a cold start: slab before it plus 28 K
	NeedsMixing bool                 // the plant's supply, for another zone, is hotter than this one bears
}

// Output is the plant. Powers are heat out of the plant, before its efficiency.
type Output struct {
	Input     Input
	Needs     []Need
	LoadW     float64              // all zones at once
	LossW     float64              // of the mains
	PickUpW   float64              // warming up
	NetW      float64              // what the plant must give; the next standard size is the engineer's choice
	Derate    float64              // share of its rating at sea level that a burner gives here; 1 without a burner
	DerateFan float64              // the same for units with a fan
	RatedW    units.Maybe[float64] // rating at sea level for the net figure; a burner only
	RatedFanW units.Maybe[float64] // the same for units with a fan
	SupplyC   float64              // the highest that a zone is given at the design flux
	ReturnC   float64              // what the zones send back, mixed
	DropK     float64              // supply less return
	FullDropK float64              // the same at the load
	Checks    finding.Checks       // what stands outside the usual; Zone is set where it is of one zone
}

// Codes of findings about a plant.
const (
	CodeShockSlab   finding.Code = "supply-shocks-slab"
	CodeShockReturn finding.Code = "supply-return-apart"
	CodeNeedsMixing finding.Code = "zone-needs-mixing"
	CodeDerated     finding.Code = "plant-derated"
)

// Size returns the plant of a site.
//
//	Q_load = Σ [q A + Q_edge], q the installed output, else design flux and back loss: no diversity, one storm calls all zones
//	Q_net  = Q_load (1 + 0.05 + 0.10)
//	Q_rated = Q_net / (1 − 0.04 z/1000 ft) for a burner above 2,000 ft, else Q_net
//	t_supply: the highest of the zones; t_return = Σ C_i (t_supply,i − ΔT_i) / Σ C_i, C_i = Q_i / ΔT_full,i
//
//	q   [W/m²]  0 … 5000    A  [m²]  above 0    z  elevation, −430 … 5,000 m
//
// Source: common practice; loss and pick-up: judgement; altitude: annex of a US gas code. Thermal shock: supply less slab at most 28 K, supply less return
// at most 14 K, common practice.
// Errors: ErrInput without a zone or where a value makes no sense.
func Size(in Input) (Output, error) {
	if err := in.check(); err != nil {
		return Output{}, err
	}
	o := Output{Input: in}
	o.add()
	o.LossW, o.PickUpW = lossShare*o.LoadW, pickUpShare*o.LoadW
	o.NetW = o.LoadW + o.LossW + o.PickUpW
	o.derate()
	o.judge()
	return o, nil
}

func (in Input) check() error {
	if len(in.Zones) == 0 {
		return fmt.Errorf("%w: no zone", ErrInput)
	}
	if !(in.ElevationM >= -500 && in.ElevationM <= 6000) {
		return fmt.Errorf("%w: elevation %g m", ErrInput, in.ElevationM)
	}
	for _, z := range in.Zones {
		heat := z.InstalledWM2.Or(z.DesignWM2)*z.AreaM2 + z.EdgeW
		switch {
		case !(z.AreaM2 > 0 && heat > 0 && heat <= 1e10):
			return fmt.Errorf("%w: zone %q of %g m² with %g W", ErrInput, z.ID, z.AreaM2, heat)
		case !(z.DropK > 0 && z.DropK <= 40 && z.FullDropK >= 1 && z.FullDropK <= 40):
			return fmt.Errorf("%w: zone %q with drops of %g and %g K", ErrInput, z.ID, z.DropK, z.FullDropK)
		case !(z.SupplyC >= -40 && z.SupplyC <= 300):
			return fmt.Errorf("%w: zone %q with a supply of %g °C", ErrInput, z.ID, z.SupplyC)
		}
	}
	return nil
}

// add sums the zones and mixes what they send back.
func (o *Output) add() {
	var capacity, back, fullBack float64
	o.SupplyC = o.Input.Zones[0].given()
	for _, z := range o.Input.Zones {
		n := Need{ID: z.ID, WM2: z.InstalledWM2.Or(z.DesignWM2), SupplyC: z.given(), SlabDiffK: z.SupplyC - z.SlabC}
		n.ReturnC = n.SupplyC - z.DropK
		n.HeatW = n.WM2*z.AreaM2 + z.EdgeW
		n.CapacityWK = n.HeatW / z.FullDropK
		if z.StartC.Known {
			n.StartMostC = units.Some(z.StartC.Value + mostSupplySlabK)
		}
		o.Needs = append(o.Needs, n)
		o.LoadW += n.HeatW
		capacity += n.CapacityWK
		back += n.CapacityWK * n.ReturnC
		fullBack += n.CapacityWK * (n.SupplyC - z.FullDropK)
		o.SupplyC = max(o.SupplyC, n.SupplyC)
	}
	o.ReturnC = back / capacity
	o.DropK, o.FullDropK = o.SupplyC-o.ReturnC, o.SupplyC-fullBack/capacity
	for i, z := range o.Input.Zones {
		o.Needs[i].NeedsMixing = z.LimitC.Known && o.SupplyC > z.LimitC.Value
	}
}

// given returns the supply that the zone is given. What it needs beyond its limit it does not get.
func (z Zone) given() float64 { return min(z.SupplyC, z.LimitC.Or(z.SupplyC)) }

// derate finds what a burner gives in thin air.
func (o *Output) derate() {
	o.Derate, o.DerateFan = 1, 1
	if !o.Input.Burner {
		return
	}
	feet := units.Elevation.In(units.IP).FromBase(o.Input.ElevationM)
	if feet > derateAboveFt {
		o.Derate = 1 - sharePerKft*feet/1000
		o.DerateFan = 1 - fanSharePerKft*feet/1000
	}
	o.RatedW, o.RatedFanW = units.Some(o.NetW/o.Derate), units.Some(o.NetW/o.DerateFan)
}

// judge lists what stands outside the usual.
func (o *Output) judge() {
	flag := func(c finding.Check) { o.Checks = append(o.Checks, c) }
	for i, z := range o.Input.Zones {
		n := o.Needs[i]
		if n.SlabDiffK > mostSupplySlabK {
			// At rest it is no fault: what shocks a slab is this difference at once, which a start in steps avoids.
			flag(finding.Check{Code: CodeShockSlab, Severity: finding.Info, Zone: z.ID, Field: "supply_limit", Found: n.SlabDiffK, Limit: mostSupplySlabK, Quantity: units.TemperatureDiff})
		}
		if n.NeedsMixing {
			flag(finding.Check{Code: CodeNeedsMixing, Severity: finding.Warning, Zone: z.ID, Field: "supply_limit", Found: o.SupplyC, Limit: z.LimitC.Value, Quantity: units.Temperature})
		}
	}
	if o.FullDropK > mostSupplyReturnK+roundK {
		flag(finding.Check{Code: CodeShockReturn, Severity: finding.Warning, Field: "temperature_drop", Found: o.FullDropK, Limit: mostSupplyReturnK, Quantity: units.TemperatureDiff})
	}
	if o.Derate < 1 {
		flag(finding.Check{Code: CodeDerated, Severity: finding.Info, Field: "elevation", Found: o.Derate, Limit: o.DerateFan, Quantity: units.Share})
	}
}
