package sheets_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/units"
	"thawbook/report/internal/sample"
)

// A cell holds 7 significant digits.
const inCell = 1e-6

func TestHeatSheetsHoldTheOutcome(t *testing.T) {
	site := sample.Site(0)
	l, e, s, plant := site.Outcomes[0].Piping, site.Outcomes[1].Electric, site.Outcomes[1].Slab, site.Plants[0]
	si, _ := build(t, "", units.SI, 1)
	ip, _ := build(t, "", units.IP, 1)
	for _, tt := range []struct {
		system         units.System
		sheet, heading string
		row            int
		want           float64
	}{
		{units.SI, "Results Piping", "Loops", 1, float64(l.Loops.Count)},
		{units.SI, "Results Piping", "Loop length, with leaders [m]", 1, l.Loops.LengthM},
		{units.SI, "Results Piping", "Flow, all loops [L/s]", 1, l.Flow.TotalLS},
		{units.SI, "Results Piping", "Head of the pump [kPa]", 1, l.Head.TotalPa / 1000},
		{units.SI, "Results Piping", "Reynolds number", 1, l.Flow.Reynolds},
		{units.SI, "Results Piping", "Freezing point [°C]", 1, l.Fluid.FreezeC},
		{units.SI, "Results Piping", "Concentration by volume [%]", 1, 100 * l.Fluid.Share},
		{units.SI, "Results Piping", "Fluid in all [L]", 1, l.Volume.TotalL},
		{units.IP, "Results Piping", "Flow, all loops [gpm]", 1, l.Flow.TotalLS * 60 / 3.785411784},
		{units.IP, "Results Piping", "Spacing [in]", 1, l.Input.SpacingM / 0.0254},
		{units.SI, "Results Electric", "Power density [W/m²]", 1, e.DensityWM2},
		{units.SI, "Results Electric", "Cable spacing [mm]", 1, e.SpacingM * 1000},
		{units.SI, "Results Electric", "Circuits", 1, float64(e.Circuits.Value.Count)},
		{units.SI, "Results Electric", "Protection of a circuit [A]", 1, e.Circuits.Value.ProtectionA},
		{units.IP, "Results Electric", "Cable in all [ft]", 1, e.CableM / 0.3048},
		{units.SI, "Results Slab", "Surface over a pipe [°C]", 2, s.SurfaceMaxC.Value},
		{units.SI, "Results Slab", "At the slab sensor [°C]", 2, s.SensorC.Value},
		{units.SI, "Results Summary", "Plant, net [kW]", 1, plant.NetW / 1000},
		{units.SI, "Results Summary", "Plant supply [°C]", 1, plant.SupplyC},
	} {
		data := si
		if tt.system == units.IP {
			data = ip
		}
		text := cell(t, open(t, data), tt.sheet, tt.heading, tt.row)
		got, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, "%s, %s", tt.sheet, tt.heading)
		assert.InEpsilon(t, tt.want, got, inCell, "%s, %s", tt.sheet, tt.heading)
	}
}

// A sheet of piping has no row for cable, nor the other way round.
func TestHeatSheetsHoldTheirZonesOnly(t *testing.T) {
	data, _ := build(t, "", units.SI, 1)
	f := open(t, data)
	assert.Equal(t, "1", cell(t, f, "Results Piping", "Zone ID", 1))
	assert.Equal(t, "2", cell(t, f, "Results Electric", "Zone ID", 1))
	for _, sheet := range []string{"Results Piping", "Results Electric"} {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		assert.Len(t, rows, 2, sheet)
	}
	assert.Equal(t, "proposed", cell(t, f, "Results Piping", "Concentration set by", 1))
	assert.Equal(t, "proposed", cell(t, f, "Results Electric", "Spacing set by", 1))
}
