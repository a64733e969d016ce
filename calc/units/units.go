// Package units holds the quantities that thawbook reads, computes and prints: for each its SI and I-P unit, the spellings people type, and
// the one place in the program where a conversion factor stands.
package units

import "strings"

// System is the unit system that a reader of results asked for. It never reaches an engineering room.
type System uint8

// The two unit systems.
const (
	SI System = iota
	IP
)

// Unit is one unit of a quantity. A value v in this unit is (v + Offset) · Scale in the base unit, the one in which rooms compute.
type Unit struct {
	Symbol    string   // as printed: "W/m²"
	Suffix    string   // as the end of a name in results.json: "w_m2"
	Scale     float64  // base units per unit
	Offset    float64  // added before scaling; only temperatures have one
	Spellings []string // further ways to write it, matched by Fold
}

// ToBase converts v from this unit to the base unit of its quantity.
func (u Unit) ToBase(v float64) float64 { return (v + u.Offset) * u.Scale }

// FromBase converts v from the base unit of its quantity to this unit.
func (u Unit) FromBase(v float64) float64 { return v/u.Scale - u.Offset }

// Quantity names what a number measures.
type Quantity uint8

// The quantities. The base unit, in which rooms hold the number, stands behind each.
const (
	Text              Quantity = iota // no number at all
	Number                            // a bare number
	Count                             // a whole number of things
	Share                             // a fraction of 1, shown in percent
	Percent                           // 0 to 100, shown in percent: the percentile
	Factor                            // a bare factor: efficiency, margin
	Area                              // m²
	Length                            // m
	Thickness                         // m, shown in mm or in
	Temperature                       // °C
	TemperatureDiff                   // K
	Flux                              // W/m², heat flux or power density
	Conductivity                      // W/(m·K)
	Insulance                         // m²·K/W
	Coefficient                       // W/(m²·K)
	LinearCoefficient                 // W/(m·K), edge loss per length
	SnowRate                          // mm/h of water
	WaterDepth                        // mm of water
	Speed                             // m/s
	Elevation                         // m
	Distance                          // km, over land
	LinearPower                       // W/m
	Power                             // W, shown in kW or Btu/h
	ElectricPower                     // W, shown in kW in both systems
	Energy                            // kWh
	EnergyPerArea                     // kWh/m²
	HeatCapacity                      // J/(m³·K)
	SpecificHeat                      // J/(kg·K)
	Latent                            // J/kg
	Density                           // kg/m³
	Hours                             // h
	Years                             // a
	Months                            // months
	Angle                             // degrees
	Voltage                           // V
	Pressure                          // Pa, shown in kPa or psi
	Flow                              // L/s
	Volume                            // L
	Mass                              // kg
	HumidityRatio                     // kg/kg
	Viscosity                         // m²/s, kinematic, shown in mm²/s
	Emissivity                        // a bare fraction, shown as it is
	FluidSpeed                        // m/s in a pipe, shown in ft/s
	Current                           // A
	Friction                          // a bare number, shown with four decimals
	Delay                             // h, shown in minutes
	quantities
)

const (
	foot      = 0.3048                          // m, exact
	inch      = 0.0254                          // m, exact
	pound     = 0.45359237                      // kg, exact
	btu       = 1055.05585262                   // J, International Table
	gallonUS  = 3.785411784                     // L, exact
	btuHour   = btu / 3600                      // W
	rankine   = 5.0 / 9                         // K
	mph       = 0.44704                         // m/s, exact
	standardG = 9.80665                         // m/s², exact
	psi       = pound * standardG / inch / inch // Pa
	kWhPerBtu = btu / 3.6e6                     // kWh
	fluxIP    = btuHour / foot / foot           // W/m² per Btu/(h·ft²)
)

// pair holds the two units of a quantity and any further ones that are read but never printed.
type pair struct {
	si, ip Unit
	other  []Unit
}

func same(u Unit) pair { return pair{si: u, ip: u} }

var (
	metre   = Unit{"m", "m", 1, 0, []string{"metre", "metres", "meter", "meters"}}
	feet    = Unit{"ft", "ft", foot, 0, []string{"foot", "feet", "lf", "'", "′"}}
	milli   = Unit{"mm", "mm", 0.001, 0, []string{"millimetre", "millimetres", "millimeter", "millimeters"}}
	inches  = Unit{"in", "in", inch, 0, []string{"inch", "inches", `"`, "″"}}
	centi   = Unit{"cm", "cm", 0.01, 0, nil}
	bare    = Unit{"", "", 1, 0, nil}
	percent = Unit{"%", "share", 0.01, 0, []string{"percent", "pct"}}
)

var table = [quantities]pair{
	Text:    same(bare),
	Number:  same(bare),
	Count:   same(bare),
	Share:   {si: percent, ip: percent, other: []Unit{{"", "", 1, 0, []string{"fraction"}}}},
	Percent: same(Unit{"%", "percent", 1, 0, []string{"percent", "pct"}}),
	Factor:  {si: bare, ip: bare, other: []Unit{{"%", "", 0.01, 0, []string{"percent"}}}},
	Area: {si: Unit{"m²", "m2", 1, 0, []string{"sq m", "sqm", "m^2", "square metres", "square meters"}},
		ip: Unit{"ft²", "ft2", foot * foot, 0, []string{"sq ft", "sqft", "sf", "ft^2", "square feet"}},
		other: []Unit{{"ha", "ha", 10000, 0, []string{"hectare", "hectares"}}, {"acre", "acre", 43560 * foot * foot, 0, []string{"acres", "ac"}},
			{"yd²", "yd2", 9 * foot * foot, 0, []string{"sq yd", "sqyd", "sy", "square yards"}}}},
	Length:    {metre, feet, []Unit{milli, inches, centi}},
	Thickness: {milli, inches, []Unit{metre, feet, centi}},
	Temperature: {si: Unit{"°C", "c", 1, 0, []string{"C", "degC", "deg C", "celsius"}},
		ip: Unit{"°F", "f", rankine, -32, []string{"F", "degF", "deg F", "fahrenheit"}}},
	TemperatureDiff: {si: Unit{"K", "k", 1, 0, []string{"C", "°C", "degC", "kelvin"}},
		ip: Unit{"°F", "f", rankine, 0, []string{"F", "degF", "deg F", "R", "F°"}}},
	Flux: {si: Unit{"W/m²", "w_m2", 1, 0, []string{"W/sqm", "W/sq m", "W/m^2"}},
		ip:    Unit{"Btu/h·ft²", "btu_h_ft2", fluxIP, 0, []string{"Btu/hr-ft2", "Btu/hr ft2", "Btu/hft2", "Btu/(h ft2)", "Btu/h/ft2", "Btuh/ft2", "Btu/h sq ft", "Btu/hr sf"}},
		other: []Unit{{"W/ft²", "w_ft2", 1 / foot / foot, 0, []string{"W/sq ft", "W/sqft", "W/sf"}}}},
	Conductivity: {si: Unit{"W/m·K", "w_mk", 1, 0, []string{"W/mK", "W/(m K)", "W/m K"}},
		ip:    Unit{"Btu·in/h·ft²·°F", "btu_in_h_ft2_f", btuHour * inch / foot / foot / rankine, 0, []string{"Btu in/h ft2 F", "Btu-in/hr-ft2-F", "Btu in/(h ft2 F)"}},
		other: []Unit{{"Btu/h·ft·°F", "btu_h_ft_f", btuHour / foot / rankine, 0, []string{"Btu/hr-ft-F", "Btu/h ft F"}}}},
	Insulance: {si: Unit{"m²·K/W", "m2k_w", 1, 0, []string{"m2K/W", "m2 K/W", "m²K/W", "RSI"}},
		ip: Unit{"h·ft²·°F/Btu", "h_ft2_f_btu", foot * foot * rankine / btuHour, 0, []string{"hr ft2 F/Btu", "h ft2 F/Btu", "hr-ft2-F/Btu", "ft2 h F/Btu", "ft2 F h/Btu", "F ft2 h/Btu", "R"}}},
	Coefficient: {si: Unit{"W/m²·K", "w_m2k", 1, 0, []string{"W/m2K", "W/m2 K"}},
		ip: Unit{"Btu/h·ft²·°F", "btu_h_ft2_f", fluxIP / rankine, 0, []string{"Btu/hr-ft2-F", "Btu/h ft2 F"}}},
	LinearCoefficient: {si: Unit{"W/m·K", "w_mk", 1, 0, nil}, ip: Unit{"Btu/h·ft·°F", "btu_h_ft_f", btuHour / foot / rankine, 0, nil}},
	SnowRate:          {si: Unit{"mm/h", "mm_h", 1, 0, []string{"mm/hr", "mm per hour"}}, ip: Unit{"in/h", "in_h", 25.4, 0, []string{"in/hr", "inch/h", "inches per hour"}}},
	WaterDepth:        {si: Unit{"mm", "mm", 1, 0, nil}, ip: Unit{"in", "in", 25.4, 0, []string{"inch", "inches"}}, other: []Unit{{"cm", "cm", 10, 0, nil}}},
	Speed: {si: Unit{"m/s", "m_s", 1, 0, []string{"mps", "m s-1"}}, ip: Unit{"mph", "mph", mph, 0, []string{"mi/h", "mile/h", "miles per hour"}},
		other: []Unit{{"km/h", "km_h", 1 / 3.6, 0, []string{"kmh", "kph"}}, {"kn", "kn", 1852.0 / 3600, 0, []string{"kt", "knots"}}}},
	Elevation:     {metre, feet, nil},
	Distance:      {si: Unit{"km", "km", 1, 0, nil}, ip: Unit{"mi", "mi", 1.609344, 0, []string{"mile", "miles"}}},
	LinearPower:   {si: Unit{"W/m", "w_m", 1, 0, nil}, ip: Unit{"W/ft", "w_ft", 1 / foot, 0, []string{"W/lf"}}},
	Power:         {si: Unit{"kW", "kw", 1000, 0, nil}, ip: Unit{"Btu/h", "btu_h", btuHour, 0, []string{"Btu/hr", "Btuh"}}, other: []Unit{{"W", "w", 1, 0, nil}, {"MBH", "mbh", 1000 * btuHour, 0, nil}}},
	ElectricPower: {si: Unit{"kW", "kw", 1000, 0, nil}, ip: Unit{"kW", "kw", 1000, 0, nil}, other: []Unit{{"W", "w", 1, 0, nil}}},
	Energy: {si: Unit{"kWh", "kwh", 1, 0, nil}, ip: Unit{"kWh", "kwh", 1, 0, nil}, other: []Unit{
		{"MWh", "mwh", 1000, 0, nil}, {"GJ", "gj", 1e9 / 3.6e6, 0, nil}, {"MJ", "mj", 1 / 3.6, 0, nil},
		{"Btu", "btu", kWhPerBtu, 0, nil}, {"kBtu", "kbtu", 1e3 * kWhPerBtu, 0, nil}, {"MMBtu", "mmbtu", 1e6 * kWhPerBtu, 0, []string{"million Btu"}}, {"therm", "therm", 1e5 * kWhPerBtu, 0, []string{"therms"}}}},
	EnergyPerArea: {si: Unit{"kWh/m²", "kwh_m2", 1, 0, nil}, ip: Unit{"Btu/ft²", "btu_ft2", kWhPerBtu / foot / foot, 0, nil}, other: []Unit{{"kWh/ft²", "kwh_ft2", 1 / foot / foot, 0, []string{"kWh/sq ft"}}}},
	HeatCapacity:  {si: Unit{"J/m³·K", "j_m3k", 1, 0, nil}, ip: Unit{"Btu/ft³·°F", "btu_ft3_f", btu / foot / foot / foot / rankine, 0, nil}},
	SpecificHeat:  {si: Unit{"J/kg·K", "j_kgk", 1, 0, nil}, ip: Unit{"Btu/lb·°F", "btu_lb_f", btu / pound / rankine, 0, nil}},
	Latent:        {si: Unit{"J/kg", "j_kg", 1, 0, nil}, ip: Unit{"Btu/lb", "btu_lb", btu / pound, 0, nil}},
	Density:       {si: Unit{"kg/m³", "kg_m3", 1, 0, nil}, ip: Unit{"lb/ft³", "lb_ft3", pound / foot / foot / foot, 0, nil}},
	Delay:         same(Unit{"min", "min", 1.0 / 60, 0, []string{"minute", "minutes"}}),
	Hours:         same(Unit{"h", "h", 1, 0, []string{"hours", "hr"}}),
	Years:         same(Unit{"years", "y", 1, 0, []string{"year", "a", "yr"}}),
	Months:        same(Unit{"months", "months", 1, 0, []string{"month"}}),
	Angle:         same(Unit{"°", "deg", 1, 0, []string{"deg", "degrees"}}),
	Voltage:       same(Unit{"V", "v", 1, 0, []string{"volt", "volts"}}),
	Pressure:      {si: Unit{"kPa", "kpa", 1000, 0, nil}, ip: Unit{"psi", "psi", psi, 0, nil}, other: []Unit{{"Pa", "pa", 1, 0, nil}, {"hPa", "hpa", 100, 0, []string{"mbar"}}}},
	Flow:          {si: Unit{"L/s", "l_s", 1, 0, nil}, ip: Unit{"gpm", "gpm", gallonUS / 60, 0, []string{"gal/min"}}},
	Volume:        {si: Unit{"L", "l", 1, 0, []string{"litre", "liter"}}, ip: Unit{"gal", "gal", gallonUS, 0, []string{"gallon", "gallons"}}},
	Mass:          {si: Unit{"kg", "kg", 1, 0, nil}, ip: Unit{"lb", "lb", pound, 0, []string{"lbs"}}},
	HumidityRatio: same(Unit{"kg/kg", "kg_kg", 1, 0, nil}),
	Viscosity:     {si: Unit{"mm²/s", "mm2_s", 1e-6, 0, nil}, ip: Unit{"ft²/h", "ft2_h", foot * foot / 3600, 0, nil}},
	Emissivity:    same(bare),
	FluidSpeed:    {si: Unit{"m/s", "m_s", 1, 0, nil}, ip: Unit{"ft/s", "ft_s", foot, 0, nil}},
	Current:       same(Unit{"A", "a", 1, 0, []string{"amp", "amps", "ampere", "amperes"}}),
	Friction:      same(bare),
}

// In returns the unit in which a quantity is shown in a system, and which a number without a unit is taken to have.
func (q Quantity) In(s System) Unit {
	if s == IP {
		return table[q].ip
	}
	return table[q].si
}

// Units returns every unit of q that is read: those of the two systems first.
func (q Quantity) Units() []Unit { return append([]Unit{table[q].si, table[q].ip}, table[q].other...) }

// Parse finds the unit of q that a person wrote, in any of its spellings; false when it is none of them.
func (q Quantity) Parse(text string) (Unit, bool) {
	want := Fold(text)
	if want == "" {
		return Unit{}, false
	}
	for _, u := range q.Units() {
		if Fold(u.Symbol) == want {
			return u, true
		}
		for _, s := range u.Spellings {
			if Fold(s) == want {
				return u, true
			}
		}
	}
	return Unit{}, false
}

// Fold brings the spellings of a unit together: case, spaces, dots, middle dots, hyphens, brackets, degree signs and raised digits do not tell
// units apart.
func Fold(text string) string {
	return strings.ToLower(strings.NewReplacer(" ", "", "\u00a0", "", ".", "", "·", "", "⋅", "", "*", "", "-", "", "(", "", ")", "", "[", "", "]", "",
		"^", "", "²", "2", "³", "3", "°", "", "º", "", "℃", "c", "℉", "f",
		"⁻", "", "¹", "1", "hr", "h", "Hr", "h", "HR", "h").Replace(text))
}
