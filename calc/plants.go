package calc

import (
	"slices"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/plant"
	"thawbook/calc/units"
)

// Codes of findings about what feeds the slab and can't be laid out.
const (
	CodeNoPiping    finding.Code = "no-piping"
	CodeNoElectric  finding.Code = "no-cables"
	CodePlantFailed finding.Code = "plant-failed"
)

// burners are the carriers that a plant burns.
var burners = []string{"gas", "oil", "propane"}

// cables lays out the cables of an electric zone.
func (e *Engine) cables(o *Outcome) {
	z := o.Zone
	if z.Heat.Kind != Electric {
		return
	}
	layout, err := electric.Design(electric.Input{AreaM2: z.Extent.AreaM2, NeedWM2: o.Load.DesignWM2 + max(0, o.Slab.BackWM2), EdgeW: o.Slab.EdgeW.Or(0), Laid: z.Slab.Existing(), InstalledWM2: o.Design.InstalledWM2.Value,
		CableWM: z.Heat.CableWM, Path: electric.Path{
			SurfaceC: z.Sensing.SurfaceMeltC, ResistanceM2KW: o.Slab.PipeResistance, BackShare: max(0, o.Slab.BackShare), LimitC: warmestC(z.Slab.Surface)}, SpacingM: z.Heat.SpacingM, VoltageV: z.Heat.VoltageV, Phases: z.Heat.Phases})
	if err != nil {
		o.add(finding.Warning, CodeNoElectric, "cable_output", finding.Words("why", err.Error()))
		return
	}
	o.Electric = &layout
	o.Findings = append(o.Findings, layout.Checks.Findings()...)
}

// plants sizes the heat source of the hydronic zones of a site, one for each row of Energy, and gives each zone what was found about it.
func (e *Engine) plants(list []Outcome) []Plant {
	var ids []string
	groups := map[string][]*Outcome{}
	for i := range list {
		o := &list[i]
		if o.Piping == nil || o.Err != nil {
			continue
		}
		id := fold(o.Zone.Heat.EnergyID)
		if groups[id] == nil {
			ids = append(ids, id)
		}
		groups[id] = append(groups[id], o)
	}
	var out []Plant
	for _, id := range ids {
		group := groups[id]
		size, err := plant.Size(e.plantInput(group))
		if err != nil {
			group[0].add(finding.Warning, CodePlantFailed, "energy_id", finding.Words("why", err.Error()))
			continue
		}
		out = append(out, Plant{EnergyID: group[0].Zone.Heat.EnergyID, Output: size})
		tellZones(group, size.Checks.Findings())
	}
	return out
}

// tellZones hands a plant's findings to the zones they name, those of no zone to the first.
func tellZones(group []*Outcome, list []finding.Finding) {
	for _, f := range list {
		at := slices.IndexFunc(group, func(o *Outcome) bool { return o.Zone.Ref.ZoneID == f.Zone })
		o := group[max(0, at)]
		o.Findings = append(o.Findings, f)
	}
}

func (e *Engine) plantInput(group []*Outcome) plant.Input {
	first := group[0].Zone
	in := plant.Input{ElevationM: first.Place.ElevationM.Value}
	if row, _, problem := e.tariff(first.Heat.EnergyID); problem == "" || problem == CodeNoPrice {
		in.Burner = slices.Contains(burners, row.Carrier)
	}
	for _, o := range group {
		in.ElevationM = max(in.ElevationM, o.Zone.Place.ElevationM.Value)
		in.Zones = append(in.Zones, plantZone(*o))
	}
	return in
}

// fullDropK is supply less return of a zone's loops while they carry what the zone asks of its plant, which may be less than they could.
func (o Outcome) fullDropK() float64 {
	asked := o.Design.InstalledWM2.Or(o.Load.DesignWM2+o.Slab.BackWM2)*o.Zone.Extent.AreaM2 + o.Slab.EdgeW.Or(0)
	return o.Piping.Input.DropK * asked / o.Piping.Flow.HeatW
}

// plantZone is what a zone asks of its plant.
func plantZone(o Outcome) plant.Zone {
	z := plant.Zone{ID: o.Zone.Ref.ZoneID, AreaM2: o.Zone.Extent.AreaM2, DesignWM2: o.Load.DesignWM2 + o.Slab.BackWM2, InstalledWM2: o.Design.InstalledWM2,
		EdgeW: o.Slab.EdgeW.Or(0), SupplyC: o.Piping.Flow.SupplyC, DropK: o.Piping.Flow.DesignDropK, FullDropK: o.fullDropK(), LimitC: o.Zone.Heat.SupplyLimitC, SlabC: o.Slab.SensorC.Value}
	if o.Load.Hour.Known {
		z.StartC = units.Some(o.Load.Hour.Value.AirC)
	}
	return z
}
