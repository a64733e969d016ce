// Package surface is the heat balance of a snow-melting surface: its terms, their frequencies over the snowfall hours, and the design flux.
package surface

import "thawbook/calc/units"

// Method says how a load was found, in the words of results.json.
type Method string

// The methods.
const (
	Hourly     Method = "hourly"
	Synthetic  Method = "synthetic"
	DesignHour Method = "design hour"
	Given      Method = "given"
)

// Percentiles are the printed shares of the snowfall hours, in percent.
var Percentiles = [6]float64{75, 90, 95, 98, 99, 100}

// Ratios are the printed snow-free area ratios.
var Ratios = [3]float64{0, 0.5, 1}

// Input is what a load rests on. Comparable: it is a memo key.
type Input struct {
	Station    string               // digest of the station
	ElevationM float64              // of the area, for its air pressure [m], −430 to 5000
	WindFactor float64              // on the wind as measured, 0.3 to 1.5
	LengthM    float64              // in the wind's direction [m], 0.5 to 100
	SnowFree   float64              // A_r, 0 to 1
	Percentile float64              // 75 to 100
	Margin     float64              // 1 to 1.5
	Stairs     bool                 // × 1.25
	GivenWM2   units.Maybe[float64] // the owner's own design flux; then margin and stairs do not count
}

// Terms are the parts of the balance in one hour. W/m².
type Terms struct {
	Month, Day, Clock   int8
	Year                string
	AirC, DewC          float64
	WindMS              float64 // after the wind factor
	SnowMMH             float64
	PressurePa          float64
	FilmCoefficient     float64 // h_c [W/m²·K]
	Reynolds            float64
	NaturalConvection   bool    // the plate relation lay below natural convection
	MassTransferMS      float64 // h_m [m/s]
	SurfaceHumidity     float64 // W_f [kg/kg]
	AirHumidity         float64 // W_a [kg/kg]
	AirDensity          float64 // ρ_a [kg/m³]
	Sensible            float64 // q_s
	Melt                float64 // q_m
	Convection          float64 // q_h, convective part
	Radiation           float64 // q_h, radiative part
	Evaporation         float64 // q_e
	CondensationFloored bool    // q_e was negative and a design hour takes zero
	Total               float64 // q_o = q_s + q_m + A_r (q_h + q_e)
}

// ConvectionRadiation returns q_h in W/m².
func (t Terms) ConvectionRadiation() float64 { return t.Convection + t.Radiation }

// Frequency is the flux at each of Percentiles for each of Ratios, W/m². [ratio][percentile]
type Frequency [3][6]float64

// Load is the result of the balance for one area. Fluxes in W/m², upward, without back and edge loss.
type Load struct {
	Input           Input
	Method          Method
	SnowHours       float64                // snowfall hours a year (at least 0.1 mm)
	QuarterHours    float64                // hours a year of at least 0.25 mm
	Frequency       units.Maybe[Frequency] // blank for a design hour or a given flux without climate
	Quarter         units.Maybe[Frequency] // over the hours of at least 0.25 mm
	Hour            units.Maybe[Terms]     // the design hour
	PercentileWM2   float64                // the zone's percentile at its own A_r and length
	ToPercentileWM2 float64                // PercentileWM2 − Hour.Total
	MarginWM2       float64                // what the margin adds
	StairsWM2       float64                // what the stairs add
	DesignWM2       float64                // PercentileWM2 + MarginWM2 + StairsWM2, or the given flux
	InfraredWM2     units.Maybe[float64]   // the zone's percentile with the file's infrared
	UnmetHours      units.Maybe[float64]   // snowfall hours a year above DesignWM2
	OneTypicalYear  bool
	OutOfRange      []string // inputs outside the method's range: "wind", "length", "snowfall"
}
