// Package record writes and reads results.json, the record of a run for other programs. Zones are streamed, so that its memory does not grow
// with them.
package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"thawbook/calc/units"
	"thawbook/report/show"
)

// Schema names the layout. Keys may be added to it, none is renamed.
const Schema = "thawbook.results/1"

// Results is a whole record.
type Results struct {
	Schema       string           `json:"schema"`
	Program      Program          `json:"program"`
	Currency     string           `json:"currency"`
	Input        Input            `json:"input"`
	Settings     Inputs           `json:"settings"`
	BudgetLimit  Amount           `json:"budget_limit"`
	Prices       []Price          `json:"prices"`
	Zones        []Zone           `json:"zones"`
	NotIncluded  []NotIncluded    `json:"not_included"`
	Sites        []Site           `json:"sites"`
	Alternatives []Alternative    `json:"alternatives"`
	Portfolio    []PortfolioTotal `json:"portfolio"`
	Changes      []Change         `json:"changes"`
	Workbook     *Output          `json:"workbook"`
	Findings     []Finding        `json:"findings"`
}

// Program is what made the record.
type Program struct {
	Name    string `json:"name"`
	Version string `json:"version"`
}

// Input is what was read, with fingerprints.
type Input struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Files  []File `json:"files"`
	Texts  string `json:"texts_sha256"` // of texts and rules
}

// Output is the workbook of results as it was written, so that a later run sees whether a person has worked on it since.
type Output struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
}

// File is a weather file or another file that the input names.
type File struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Price is a row of Energy, Costs or Parts as read, or an exchange rate of Settings.
type Price struct {
	Sheet  string `json:"sheet"`
	Row    string `json:"row"` // what the row is known by
	Values Inputs `json:"values"`
}

// Zone is one zone's inputs and results.
type Zone struct {
	Site     string    `json:"site"`
	Zone     string    `json:"zone"`
	Row      int       `json:"row"`
	Status   string    `json:"status"`
	AreaM2   Number    `json:"area_m2"`
	Inputs   Inputs    `json:"inputs"`
	Defaults []Default `json:"defaults"`
	Weather  Weather   `json:"weather"`
	Load     *Load     `json:"load"`
	Slab     *Slab     `json:"slab"`
	Reset    *Reset    `json:"reset"`
	Sensing  *Sensing  `json:"sensing"`
	Piping   *Piping   `json:"piping"`
	Electric *Electric `json:"electric"`
	Season   []Season  `json:"season"`
	Cost     []Cost    `json:"cost"`
}

// Default is a value that was not told and what was taken; the unit stands at the end of its name.
type Default struct {
	Name   string `json:"name"`
	Value  Value  `json:"value"`
	Source string `json:"source"`
}

// Weather is what the zone's results rest on.
type Weather struct {
	Source *string `json:"source"`
	Years  *int    `json:"years"`
	Kind   *string `json:"kind"`
	Rule   *string `json:"rule"`
	Note   *string `json:"note"`
	Digest string  `json:"digest"` // of all hours or statistics
}

// Load is the heat the surface needs.
type Load struct {
	Method                string      `json:"method"`
	SnowFreeRatio         Number      `json:"snow_free_ratio"`
	Percentile            Number      `json:"percentile"`
	SnowfallHours         Number      `json:"snowfall_hours"`
	DesignHour            *DesignHour `json:"design_hour"`
	SensibleWM2           Number      `json:"sensible_w_m2"`
	MeltWM2               Number      `json:"melt_w_m2"`
	ConvectionRadiationWM Number      `json:"convection_radiation_w_m2"`
	EvaporationWM2        Number      `json:"evaporation_w_m2"`
	DesignFluxWM2         Number      `json:"design_flux_w_m2"`
	Frequency             *Frequency  `json:"frequency"`
	BackLossWM2           Number      `json:"back_loss_w_m2"`
	EdgeLossW             Number      `json:"edge_loss_w"`
	TotalW                Number      `json:"total_w"`
	InstalledWM2          Number      `json:"installed_w_m2"`
	SnowfallHoursUnmet    Number      `json:"snowfall_hours_unmet"`
}

// DesignHour is the snowfall hour that the load's terms belong to.
type DesignHour struct {
	Time     *string `json:"time"`
	OutdoorC Number  `json:"outdoor_c"`
	DewC     Number  `json:"dew_point_c"`
	WindMS   Number  `json:"wind_m_s"`
	SnowMMH  Number  `json:"snow_mm_h"`
}

// Frequency is the flux at each percentile for three snow-free area ratios, in W/m².
type Frequency struct {
	None Percentiles `json:"0"`
	Half Percentiles `json:"0.5"`
	Full Percentiles `json:"1"`
}

// Percentiles is the flux not exceeded in a share of the snowfall hours.
type Percentiles struct {
	P75  Number `json:"75"`
	P90  Number `json:"90"`
	P95  Number `json:"95"`
	P98  Number `json:"98"`
	P99  Number `json:"99"`
	P100 Number `json:"100"`
}

// Reset is the outdoor reset of the slab temperature.
type Reset struct {
	SurfaceSetPointC Number  `json:"surface_set_point_c"`
	ResetRatio       Number  `json:"reset_ratio"`
	WindMS           Number  `json:"wind_m_s"`
	Points           []Point `json:"points"`
	Limits           *Limits `json:"limits"`
}

// Limits is how far the plant can follow the reset. Temperatures outdoors unless said; null is nowhere on the curve, or no fluid.
type Limits struct {
	HeatAllowedBelowC       Number `json:"heat_allowed_below_c"`
	KeepsUpDownToC          Number `json:"keeps_up_down_to_c"`
	SupplyLimitC            Number `json:"supply_limit_c"` // of the supply itself
	SupplyLimitPassedBelowC Number `json:"supply_limit_passed_below_c"`
	ColdestC                Number `json:"coldest_c"`
	GreatestSlabC           Number `json:"greatest_slab_c"`   // in the slab
	GreatestSupplyC         Number `json:"greatest_supply_c"` // of the supply
	SupplyLessSlabK         Number `json:"supply_less_slab_k"`
	UsualSupplyLessSlabK    Number `json:"usual_supply_less_slab_k"`
	SupplyAtDesignFluxC     Number `json:"supply_at_design_flux_c"` // of the supply
}

// Point is the reset at one outdoor temperature.
type Point struct {
	OutdoorC       Number `json:"outdoor_c"`
	SlabMeltingC   Number `json:"slab_melting_c"`
	SlabIdlingC    Number `json:"slab_idling_c"`
	SupplyMeltingC Number `json:"supply_melting_c"`
	SupplyIdlingC  Number `json:"supply_idling_c"`
}

// Sensing is the kit chosen and why.
type Sensing struct {
	Kit          []string   `json:"kit"`
	Start        string     `json:"start"`
	Stop         string     `json:"stop"`
	Idling       bool       `json:"idling"`
	OutdoorReset bool       `json:"outdoor_reset"`
	Controller   *string    `json:"controller"`
	Reasons      []Reason   `json:"reasons"`
	Rejected     []Rejected `json:"rejected"`
	Detectors    []Detector `json:"detectors"`
	Plan         *Plan      `json:"plan"`
	Parts        *Parts     `json:"parts"`
	Screen       []Screened `json:"screen"`
	PavementStop Number     `json:"pavement_stop_c"`
	Sequence     []Operated `json:"sequence"`
	Checklist    []string   `json:"checklist"`
	Tests        []string   `json:"tests"`
	Care         []string   `json:"care"`
	Lacks        []Reason   `json:"lacks"`
	Offers       []Offer    `json:"offers"`
	Checks       []Check    `json:"checklist_lines"`
	Tested       []Tested   `json:"test_lines"`
	Cared        []Check    `json:"care_lines"`
}

// Reason is a rule that spoke.
type Reason struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// Rejected is a kit that was not chosen, and the rule that decided it.
type Rejected struct {
	Kit  string `json:"kit"`
	Code string `json:"code"`
	Text string `json:"text"`
}

// Season is a strategy's winter.
type Season struct {
	Strategy       string `json:"strategy"`
	HoursOff       Number `json:"hours_off"`
	HoursIdling    Number `json:"hours_idling"`
	HoursMelting   Number `json:"hours_melting"`
	HoursDrying    Number `json:"hours_drying"`
	EnergyKWhM2    Number `json:"energy_kwh_m2"`
	BackKWhM2      Number `json:"back_kwh_m2"`
	EdgeKWhM2      Number `json:"edge_kwh_m2"`
	SnowOnSurfaceH Number `json:"snow_on_surface_h"`
	RefreezeEvents Number `json:"refreeze_events"`
	Chosen         bool   `json:"chosen"`

	IdlingKWhM2    Number  `json:"idling_kwh_m2"`
	BareShare      Number  `json:"bare_share"`
	LockedOutH     Number  `json:"locked_out_h"`
	EnergyResidual Number  `json:"energy_residual"`
	WaterResidual  Number  `json:"water_residual"`
	Delays         *Delays `json:"delays"`
	Months         []Month `json:"months"` // of the chosen strategy, from January; else null
	Storm          *Storm  `json:"storm"`  // of the chosen strategy; else null
}

// Cost is what a strategy costs in a winter, in the currency's main unit.
type Cost struct {
	Strategy string `json:"strategy"`
	Winter   string `json:"winter"`
	Energy   Amount `json:"energy"`
	Demand   Amount `json:"demand"`
	Standing Amount `json:"standing"`
	Pump     Amount `json:"pump"`
	PumpKWh  Number `json:"pump_kwh"` // null without a pump
	Total    Amount `json:"total"`
	CO2Kg    Number `json:"co2_kg"`
}

// NotIncluded is a zone that was told not to be calculated.
type NotIncluded struct {
	Site string `json:"site"`
	Zone string `json:"zone"`
	Why  string `json:"why"`
}

// Site is a site's totals. YearlyCost is the chosen strategy's in a typical winter.
type Site struct {
	Site       string  `json:"site"`
	SiteName   string  `json:"site_name"`
	Region     string  `json:"region"`
	Owner      string  `json:"owner"`
	Zones      int     `json:"zones"`
	AreaM2     Number  `json:"area_m2"`
	TotalW     Number  `json:"total_w"`
	YearlyCost Amount  `json:"yearly_cost"`
	Status     string  `json:"status"`
	Revision   string  `json:"revision"`
	Chosen     *string `json:"chosen"`
	PDF        *string `json:"pdf"`
	Plants     []Plant `json:"plants"`

	AsInSites           Winters   `json:"yearly_cost_as_in_sites"`
	Recorded            *Recorded `json:"recorded_winters"`
	Now                 Winters   `json:"yearly_cost_now"`
	Decided             Winters   `json:"yearly_cost_as_decided"`
	FirstCostApproved   Amount    `json:"first_cost_approved"`
	Decision            string    `json:"decision"`
	ExamplePrices       bool      `json:"example_prices"`
	AlternativesByRules bool      `json:"alternatives_proposed"`
	WithoutSeason       bool      `json:"without_season"` // a heated zone has no season, so no price would give it a cost
}

// Recorded is the yearly cost as in Sites in each winter of a record of several. Mild and severe lie at these shares of the way through their costs.
type Recorded struct {
	Mild    Number           `json:"mild_share"`
	Severe  Number           `json:"severe_share"`
	Winters []RecordedWinter `json:"winters"`
}

// RecordedWinter is a winter, named by the year that it begins in.
type RecordedWinter struct {
	Winter string `json:"winter"`
	Total  Amount `json:"total"`
}

// Winters is a yearly cost in three winters.
type Winters struct {
	Mild    Amount `json:"mild"`
	Typical Amount `json:"typical"`
	Severe  Amount `json:"severe"`
}

// PortfolioTotal is the cost of a region, or of all where Region is null, in a winter. Total adds the sites that have a cost;
// SitesWithoutCost says how many have none.
type PortfolioTotal struct {
	Region           *string `json:"region"`
	Sites            int     `json:"sites"`
	AreaM2           Number  `json:"area_m2"`
	Winter           string  `json:"winter"`
	Total            Amount  `json:"total"`
	SitesWithoutCost int     `json:"sites_without_cost"`
}

// Finding is what is wrong, where, and what to do about it.
type Finding struct {
	Severity string  `json:"severity"`
	Code     string  `json:"code"`
	Sheet    *string `json:"sheet"`
	Cell     *string `json:"cell"`
	Site     *string `json:"site"`
	Zone     *string `json:"zone"`
	Message  string  `json:"message"`
	Fix      string  `json:"fix"`
	Count    int     `json:"count"`
	Mark     *string `json:"mark"`   // of a warning that may be accepted
	Reason   *string `json:"reason"` // of one that was, as by and date
	By       *string `json:"by"`
	Date     *string `json:"date"`
}

const digits = 7 // significant digits of a number in the record

// Number is a number that may be blank: null. It is written with 7 significant digits; what is not a number or infinite is null.
type Number struct{ units.Maybe[float64] }

// MarshalJSON writes the number or null.
func (n Number) MarshalJSON() ([]byte, error) {
	if !n.Known || math.IsNaN(n.Value) || math.IsInf(n.Value, 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, show.Significant(n.Value, digits)+0, 'f', -1, 64), nil
}

// UnmarshalJSON reads a number or null.
func (n *Number) UnmarshalJSON(b []byte) error {
	*n = Number{}
	if string(b) == "null" {
		return nil
	}
	n.Known = true
	return json.Unmarshal(b, &n.Value)
}

// Amount is money in the currency's main unit, written with its usual decimals; blank is null.
type Amount struct {
	units.Maybe[float64]
	decimals int
}

// MarshalJSON writes the amount or null.
func (a Amount) MarshalJSON() ([]byte, error) {
	if !a.Known {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, a.Value, 'f', a.decimals, 64), nil
}

// UnmarshalJSON reads an amount or null, with the decimals it was written with.
func (a *Amount) UnmarshalJSON(b []byte) error {
	*a = Amount{}
	if string(b) == "null" {
		return nil
	}
	a.Known = true
	if _, fraction, found := bytes.Cut(b, []byte(".")); found {
		a.decimals = len(fraction)
	}
	return json.Unmarshal(b, &a.Value)
}

// Value is a number or a word.
type Value struct {
	Number Number
	Word   string
}

// MarshalJSON writes the number, or the word where there is none.
func (v Value) MarshalJSON() ([]byte, error) {
	if v.Number.Known {
		return v.Number.MarshalJSON()
	}
	return plainJSON(v.Word)
}

// UnmarshalJSON reads a number or a word.
func (v *Value) UnmarshalJSON(b []byte) error {
	*v = Value{}
	if len(b) > 0 && b[0] == '"' {
		return json.Unmarshal(b, &v.Word)
	}
	return v.Number.UnmarshalJSON(b)
}

// Inputs are the cells of a row as read, in the order of the columns.
type Inputs []Named

// Named is a value under a name that ends with its unit.
type Named struct {
	Name  string
	Value Value
}

// Get returns the value of that name.
func (in Inputs) Get(name string) (Value, bool) {
	for _, n := range in {
		if n.Name == name {
			return n.Value, true
		}
	}
	return Value{}, false
}

// MarshalJSON writes one object, its keys in order.
func (in Inputs) MarshalJSON() ([]byte, error) {
	b := []byte{'{'}
	for i, n := range in {
		if i > 0 {
			b = append(b, ',')
		}
		name, err := plainJSON(n.Name)
		if err != nil {
			return nil, err
		}
		value, err := n.Value.MarshalJSON()
		if err != nil {
			return nil, err
		}
		b = append(append(append(b, name...), ':'), value...)
	}
	return append(b, '}'), nil
}

// UnmarshalJSON reads one object and keeps the order of its keys.
func (in *Inputs) UnmarshalJSON(b []byte) error {
	*in = nil
	if string(b) == "null" {
		return nil
	}
	d := json.NewDecoder(bytes.NewReader(b))
	if _, err := d.Token(); err != nil {
		return err
	}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return err
		}
		name, is := key.(string)
		if !is {
			return fmt.Errorf("inputs: %v is not a name", key)
		}
		var v Value
		if err := d.Decode(&v); err != nil {
			return err
		}
		*in = append(*in, Named{name, v})
	}
	return nil
}

// plainJSON marshals without escaping <, > and &.
func plainJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}
