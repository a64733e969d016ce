package calc

import (
	"cmp"

	"thawbook/calc/cost"
	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/plant"
	"thawbook/calc/portfolio"
	"thawbook/calc/season"
	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Site is what one submittal covers: its zones share a plant and a bill.
type Site struct {
	ID, Name     string
	Zones        []Zone
	Alternatives []Alternative // as named by the user; none: the engine proposes
	Revisions    []Revision    // in their order; the last one is the site's
	Attachments  []Attachment
}

// Alternative is another way of doing a site: whole zones in place of those of the same name; those it doesn't name stay as they are.
type Alternative struct {
	Name     string
	Proposed bool // by the engine
	Zones    []Zone
}

// Revision is a line of the revision table.
type Revision struct {
	SiteID                               string // blank: of every site
	Name                                 string
	Date, Description, Prepared, Checked string
}

// Issue returns the revision under which a site's documents go out: its last row of Revisions, else what Settings says. A date that the row leaves blank is that
// of Settings.
func (s Site) Issue(set Settings) Revision {
	issue := Revision{Name: set.Revision, Date: set.IssueDate, Prepared: set.PreparedBy}
	if n := len(s.Revisions); n > 0 {
		issue = s.Revisions[n-1]
		issue.Date = cmp.Or(issue.Date, set.IssueDate)
	}
	return issue
}

// Attachment is a picture that belongs into the document of a site.
type Attachment struct {
	SiteID, ZoneID string // zone blank: of the whole site
	File           string // counted from the workbook's folder
	Caption        string
	Section        string       // that it ends; blank: one of its own
	At             finding.Cell // of its file
}

// Settings is the Settings sheet. What only documents use stands here too, so that report needs nothing of ingest.
type Settings struct {
	Units                               units.System
	Currency                            string
	DecimalMark                         string // "." or ","
	Project, PreparedFor, PreparedBy    string
	Revision, IssueDate                 string
	LogoFile, FileName                  string
	AnalysisYears                       float64
	DiscountRate, EnergyEscalation      float64
	Inflation                           units.Maybe[float64] // given: rates as told are nominal
	DefaultPercentile, DefaultSnowFree  units.Maybe[float64]
	SeasonStart, SeasonEnd              season.Day
	ContingencyNew, ContingencyRetrofit float64
	PriceDate, PriceValidUntil          string
	Exclusions, Country, Language       string
	BudgetLimit                         units.Maybe[float64] // what may be spent on first costs
	RateDate                            string
	Rates                               []Rate
	Defaults                            []Default
}

// Rate is what one unit of a foreign currency is worth in the workbook's currency.
type Rate struct {
	Currency string
	Worth    float64
}

// Outcome is what was found for a zone. A nil part does not apply or could not be calculated; Findings say why.
type Outcome struct {
	Zone       Zone // settled: every default filled
	Weather    WeatherUsed
	Load       *surface.Load
	Slab       *slab.Solution
	Reset      *setpoint.Curve
	Limits     *setpoint.Limits // of the reset curve
	Sensing    *sensing.Choice
	Options    []Option   // what each offer of Sensing takes
	Operation  *Operation // nil without heat
	Design     Design
	Piping     *piping.Layout
	pipingErr  error         // why there is none
	beside     *season.Input // of an alternative: the winters of the same zone as in Sites
	Electric   *electric.Layout
	Seasons    []season.Result // by season.Strategies
	Snow       SnowSpread
	Costs      []cost.Year
	Winters    []WinterCost // of the station under the chosen strategy, in time order; of its only winter with less snow, as it is and with more
	Metered    *Metered     // where the zone's energy is metered
	Tariff     cost.Energy  // the row of Energy that Costs rest on
	PumpTariff cost.Energy  // the row by which the electricity of its pumps is bought; without an ID where there is none
	Findings   []finding.Finding
	Err        error
}

// WeatherUsed says which weather a zone's results rest on.
type WeatherUsed struct {
	Station     string
	Digest      string // of the station
	LatDeg      float64
	LonDeg      float64
	ElevationM  float64
	DistanceKM  units.Maybe[float64] // from the zone, when its place is told
	Years       int
	Kind        weather.Kind // "" without climate
	Rule        weather.SnowRule
	Sources     []weather.Source
	Coarse      bool
	InfraredAll bool
	SeasonHours float64
}

// Design is the sizing that follows from load and slab.
type Design struct {
	BackWM2         units.Maybe[float64]
	EdgeW           units.Maybe[float64]
	TotalW          units.Maybe[float64] // (design flux + back loss) × area + edge loss, what is known of it
	InstalledWM2    units.Maybe[float64]
	FloorWM2        float64              // the trade's least installed output
	FloorRules      bool                 // the floor, not the load, set the installed output
	SpacingProposed bool                 // the spacing was left to design
	RestFluidC      units.Maybe[float64] // mean fluid that holds the surface without a flux up
	LimitedWM2      units.Maybe[float64] // flux up that the loops give at the supply limit; blank without one
	UnmetHours      units.Maybe[float64] // snowfall hours above the installed output less back loss, or above LimitedWM2
}

// SnowSpread is how the mild, the typical and the severe winter are found: by the rank of what a strategy costs in each of the station's winters. Of
// a station with one, that winter is run again with every hour's snow times a factor.
type SnowSpread struct {
	Rule                     string  // see the Rule constants
	Winters                  int     // of the station
	Variation                float64 // coefficient of variation of seasonal snow totals; it and the factors of RuleSnowFactors alone
	Assumed                  bool    // it is the default, not the station's
	MildFactor, SevereFactor float64
}

// Status of a zone in results.json.
const (
	StatusOK    = "ok"
	StatusError = "error"
)

// Status returns ok or error: an error is a zone with a cell that was refused, or with a finding that yields no number.
func (o Outcome) Status() string {
	if o.Zone.Ref.Refused || o.Err != nil || finding.Worst(o.Findings) == finding.Error {
		return StatusError
	}
	return StatusOK
}

// Chosen returns the season of the strategy that the kit and the idling wish name; of a pavement without heat, the unheated one.
func (o Outcome) Chosen() (season.Result, bool) {
	if o.Zone.Slab.Stage == ExistingUnheated && len(o.Seasons) > 0 {
		return o.Seasons[0], true
	}
	if o.Sensing == nil {
		return season.Result{}, false
	}
	for _, s := range o.Seasons {
		if string(s.Strategy) == o.Sensing.Strategy {
			return s, true
		}
	}
	return season.Result{}, false
}

// ChosenCost returns the cost of the chosen strategy in a winter.
func (o Outcome) ChosenCost(w cost.Winter) (cost.Year, bool) {
	if o.Sensing == nil {
		return cost.Year{}, false
	}
	for _, c := range o.Costs {
		if c.Strategy == o.Sensing.Strategy && c.Winter == w {
			return c, true
		}
	}
	return cost.Year{}, false
}

// SiteOutcome is what was found for a site.
type SiteOutcome struct {
	Site         Site
	Outcomes     []Outcome            // one a zone that is calculated, in the order of rows
	Plants       []Plant              // of the hydronic zones that use the same row of Energy
	SharedStart  []string             // IDs of zones that one aerial detector may start together; each keeps its own stop
	Alternatives []AlternativeOutcome // the base case first, the site as in Sites second; none where a zone has an error
	Summary      Summary
	Excluded     []Excluded
}

// Plant is the heat source of the zones of a site that use the same row of Energy; they melt together.
type Plant struct {
	EnergyID string
	plant.Output
}

// Excluded is a zone that was told not to be calculated.
type Excluded struct {
	Ref Ref
	Why string // code: "include-later", "include-no"
}

// Summary is all that is kept of a site once its documents are written.
type Summary struct {
	SiteID, SiteName, Region, Owner string
	Zones                           int
	AreaM2                          units.Maybe[float64] // blank where that of a zone is
	TotalW                          units.Maybe[float64]
	YearlyCost                      units.Maybe[cost.Money]    // chosen strategy, typical winter
	Winter                          [3]units.Maybe[cost.Money] // by cost.Winters
	Recorded                        portfolio.Recorded         // the same in each winter of a record of several
	Unwintered                      bool                       // a heated zone has no season, so no price would give it a cost
	Errors, Incomplete              int                        // zones
	Warnings                        int                        // findings
	Kits                            string
	ExamplePrices                   bool
	Chosen                          string                     // alternative that the owner chose, by its own name
	Decision                        string                     // open, approved, declined, deferred; blank is open
	Proposed                        bool                       // the engine named the alternatives
	Alternatives                    []portfolio.Option         // as SiteOutcome's
	Now                             [3]units.Maybe[cost.Money] // of the base case, by cost.Winters
	Budget                          [3]units.Maybe[cost.Money] // by the decision: of what is approved, else of the base case
	Spend                           units.Maybe[cost.Money]    // first cost of what is approved; 0 where nothing is
	Revision                        string
	Status                          string // done; done, check; incomplete; error; not included
	Findings                        []finding.Finding
}
