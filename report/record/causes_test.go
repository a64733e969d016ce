package record_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/calc/units"
	"thawbook/report/record"
)

// twoZones is a record with two zones of a site on gas and one of another site on oil, each with its cost.
func twoZones() record.Results {
	zone := func(site, id, energy string, cost float64) record.Zone {
		n := func(v float64) record.Number { return record.NumberOf(v) }
		z := record.Zone{Site: site, Zone: id, Status: "ok", AreaM2: n(100), Inputs: record.Inputs{record.Cell("area", units.Area, 100, ""), record.Cell("energy_id", units.Text, 0, energy)},
			Load: &record.Load{DesignFluxWM2: n(300)}, Season: []record.Season{{Strategy: "manual", Chosen: true, EnergyKWhM2: n(200)}}}
		c := record.Cost{Strategy: "manual", Winter: "typical"}
		c.Total.Maybe = units.Some(cost)
		z.Cost = []record.Cost{c}
		return z
	}
	price := func(row string, v float64) record.Price {
		return record.Price{Sheet: "Energy", Row: row, Values: record.Inputs{record.Cell("energy_price", units.Number, v, "")}}
	}
	return record.Results{Currency: "USD", Program: record.Program{Version: "1"}, Zones: []record.Zone{zone("A", "1", "gas", 50), zone("A", "2", "gas", 60), zone("B", "1", "oil", 70)},
		Prices: []record.Price{price("GAS", 0.4), price("oil", 1.2)}, Settings: record.Inputs{record.Cell("project", units.Text, 0, "x"), record.Cell("season_start", units.Text, 0, "10-01")}}
}

// traced tells each result that moved with the kinds of its causes.
func traced(before, now record.Results) (out []string) {
	c := record.Compare(before, now, [2]string{"old", "new"})
	for _, m := range c.Changes {
		var kinds []string
		for _, at := range m.Causes {
			kinds = append(kinds, c.Causes[at].Kind+" "+c.Causes[at].Name)
		}
		out = append(out, m.Site+"/"+m.Zone+" "+m.What+": "+strings.Join(kinds, "; "))
	}
	return out
}

func costs(r *record.Results, zone int, v float64) { r.Zones[zone].Cost[0].Total.Value = v }

func TestAPriceMovesTheCostOfWhoBuysByIt(t *testing.T) {
	now := twoZones()
	now.Prices[0].Values[0].Value.Number = record.NumberOf(0.5)
	costs(&now, 0, 55)
	costs(&now, 2, 71)
	assert.Equal(t, []string{"A/1 cost.total: cause-price energy_price", "B/1 cost.total: "}, traced(twoZones(), now), "gas moves nothing that burns oil")
}

func TestAnInputMovesItsZoneAndTheBillOfItsSite(t *testing.T) {
	now := twoZones()
	now.Zones[0].Inputs[0].Value.Number = record.NumberOf(120)
	now.Zones[0].AreaM2 = record.NumberOf(120)
	now.Zones[0].Defaults = []record.Default{{Name: "perimeter_m", Value: record.Value{Number: record.NumberOf(44)}}}
	costs(&now, 1, 59)
	now.Zones[1].Load.DesignFluxWM2 = record.NumberOf(310)
	now.Settings[0].Value.Word = "y"
	assert.Equal(t, []string{"A/1 area_m2: cause-input area_m2", "A/2 load.design_flux_w_m2: ", "A/2 cost.total: cause-input area_m2"}, traced(twoZones(), now),
		"the default follows from the area; a title moves nothing; the flux of the other zone rests on nothing of this one")
}

func TestVersionSettingAndWeatherMoveResults(t *testing.T) {
	for kind, change := range map[string]func(*record.Results){
		"cause-program version":      func(r *record.Results) { r.Program.Version = "2" },
		"cause-texts texts_sha256":   func(r *record.Results) { r.Input.Texts = "ab" },
		"cause-setting season_start": func(r *record.Results) { r.Settings[1].Value.Word = "11-01" },
		"cause-weather digest":       func(r *record.Results) { r.Zones[2].Weather.Digest = "other hours" },
		"cause-default percentile": func(r *record.Results) {
			r.Zones[2].Defaults = []record.Default{{Name: "percentile", Value: record.Value{Number: record.NumberOf(98)}}}
		},
	} {
		now := twoZones()
		change(&now)
		now.Zones[2].Load.DesignFluxWM2 = record.NumberOf(310)
		assert.Equal(t, []string{"B/1 load.design_flux_w_m2: " + kind}, traced(twoZones(), now))
	}
}

func TestWhatCameAndWentIsToldOnce(t *testing.T) {
	now := twoZones()
	now.Zones = slices.Delete(now.Zones, 1, 2)
	now.Prices = now.Prices[:1]
	assert.Equal(t, []string{"A/2 status: cause-zone zone"}, traced(twoZones(), now))
	kinds := []string{}
	for _, c := range record.Differing(twoZones(), now) {
		kinds = append(kinds, c.Kind)
	}
	assert.Equal(t, []string{record.CausePrice, record.CauseZone}, kinds)
	assert.Empty(t, record.Differing(now, now))
}
