// Package calc is the engineering of heated pavements: from a zone's inputs to its outcome. It reads no files, no clock and no globals, and
// formats nothing. The rooms below it each do one part; evaluate calls them in order.
package calc

import (
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// Zone is one piece of heated pavement that starts and stops together: a row of Sites, converted to base units, each value with its place kept
// in Ref.Entries. A Maybe is blank where the row left it to a default that depends on other cells, or to design.
type Zone struct {
	Ref     Ref
	Place   Place
	Extent  Extent
	Service Service
	Slab    Slab
	Heat    Heat
	Sensing Sensing
	Siting  Siting
	Money   Money
}

// Ref says which zone this is and what was read for it.
type Ref struct {
	SiteID, SiteName, ZoneID, ZoneName string
	Address, Region, Owner, Notes      string
	Include                            string // yes, later, no
	IssuedFor                          string
	Alternative                        string
	Row                                int  // of the Sites sheet
	Refused                            bool // a cell of its row has an error: the zone is listed, not calculated
	Entries                            []Entry
	Defaults                           []Default
}

// Entry is a cell as read, in the order of the columns.
type Entry struct {
	Field    finding.Field
	At       finding.Cell // of a cell of Alternatives; those of Sites are found by their row
	Heading  string       // as the user wrote it
	Typed    string
	Number   float64        // in the base unit of Quantity
	Quantity units.Quantity // Text: the value is Word
	Word     string
}

// Default is a value that was not told and what was taken instead.
type Default struct {
	Field    finding.Field
	Number   float64
	Quantity units.Quantity // Text: the value is Word
	Word     string
	Source   string // code of the reason; its words stand in templates
}

// Place says where a zone is and which weather is its.
type Place struct {
	Station      string
	LatitudeDeg  units.Maybe[float64]
	LongitudeDeg units.Maybe[float64]
	ElevationM   units.Maybe[float64]
	WeatherFiles string // as typed, several separated by ";"
	WindFactor   float64
}

// Extent is the pavement as seen from above.
type Extent struct {
	AreaM2         float64
	PerimeterM     units.Maybe[float64]
	WindLengthM    units.Maybe[float64]
	Use            string // see Uses; "" is not told
	Critical       units.Maybe[bool]
	Slope          float64 // fraction
	Drain          Answer
	Treads         units.Maybe[float64]
	TreadDepthM    units.Maybe[float64]
	RiserHeightM   units.Maybe[float64]
	RisersIncluded bool
}

// Service is how well the pavement should be kept.
type Service struct {
	SnowFree      units.Maybe[float64] // A_r
	Percentile    units.Maybe[float64] // 75 to 100
	DesignFluxWM2 units.Maybe[float64] // the owner's own
	DesignMargin  float64
}

// Slab is what the pavement is made of.
type Slab struct {
	Stage             string // see the Stage constants
	Support           string // on ground, over open air, over heated space
	PostTensioned     Answer
	MembraneBelow     Answer
	Surface           string // concrete, asphalt, pavers, stone
	ThicknessM        units.Maybe[float64]
	ConductivityWMK   units.Maybe[float64]
	SurfaceThicknessM units.Maybe[float64]
	BeddingThicknessM units.Maybe[float64]
	DepthM            units.Maybe[float64]
	InsulationM2KW    units.Maybe[float64]
	EdgeInsulation    bool
	GroundC           units.Maybe[float64]
}

// Heat is what heats the pavement.
type Heat struct {
	Kind         string // hydronic, electric
	EnergyID     string
	Pipe         Pipe
	SpacingM     units.Maybe[float64]
	LoopLengthM  units.Maybe[float64]
	Fluid        string
	FluidShare   units.Maybe[float64] // by volume
	DropK        float64
	SupplyLimitC units.Maybe[float64]
	CableWM      float64
	VoltageV     units.Maybe[float64]
	Phases       units.Maybe[float64]
	InstalledWM2 units.Maybe[float64]
}

// Pipe is a size as typed and the dimensions it stands for.
type Pipe struct {
	Typed  string
	OuterM float64
	WallM  float64
}

// Sensing is what is there now and what is wished.
type Sensing struct {
	Housing       Answer // a detector housing is cast in
	NoHousing     bool   // none is to be set in the pour either: the kit is that of the slab once it is poured
	SlabSensor    Answer // a slab sensor is there now
	ControlNow    string
	Start, Stop   string // "" is not told
	Idling        units.Maybe[bool]
	SurfaceMeltC  float64
	SurfaceIdleC  float64
	LowestMeltC   units.Maybe[float64]
	PanelM        units.Maybe[float64]
	MastAvailable Answer
}

// Siting is what is known of the places where detectors may stand. "" and Unknown are "not told": a line to verify on site.
type Siting struct {
	Traffic          string // none, foot, wheel, parked
	EdgeM            units.Maybe[float64]
	ObstacleHeightM  units.Maybe[float64]
	ObstacleM        units.Maybe[float64]
	Overhang         Answer
	DrainsPast       Answer
	Sun              string // first, last, mixed
	ShadedShare      units.Maybe[float64]
	WindBlown        Answer
	SnowStored       Answer
	Salt             Answer
	Exhaust          Answer
	UnheatedDownhill Answer
}

// Money is what the owner pays and decided. Amounts in the main unit of the workbook's currency.
type Money struct {
	ClearingCost      units.Maybe[float64]
	EnergyUsedKWh     units.Maybe[float64]
	EnergyUsedWinter  string
	FirstCost         units.Maybe[float64]
	ChosenAlternative string
	Decision          string
}

// Answer is yes, no, or not known.
type Answer string

// The answers. The zero Answer is a blank cell.
const (
	Yes     Answer = "yes"
	No      Answer = "no"
	Unknown Answer = "unknown"
)

// Told says whether the answer is a plain yes or no.
func (a Answer) Told() bool { return a == Yes || a == No }

// Stages of a slab.
const (
	NewPour          = "new pour"
	ExistingHeated   = "existing heated"
	ExistingUnheated = "existing unheated"
	Overlay          = "overlay"
)

// Kinds of heat.
const (
	Hydronic = "hydronic"
	Electric = "electric"
)

// Supports of a slab.
const (
	OnGround   = "on ground"
	OverAir    = "over open air"
	OverHeated = "over heated space"
)

// Surfaces of a slab.
const (
	Concrete = "concrete"
	Asphalt  = "asphalt"
	Pavers   = "pavers"
	Stone    = "stone"
)

// Uses of a pavement, in the order of the drop-down.
const (
	Walk              = "walk"
	Stair             = "stair"
	Ramp              = "ramp"
	Drive             = "drive"
	Parking           = "parking"
	LoadingDock       = "loading dock"
	Plaza             = "plaza"
	EmergencyEntrance = "emergency entrance"
	Helistop          = "helistop"
)

// Existing says whether the slab is already poured.
func (s Slab) Existing() bool { return s.Stage == ExistingHeated || s.Stage == ExistingUnheated }
