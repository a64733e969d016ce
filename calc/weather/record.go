package weather

import (
	"thawbook/calc/finding"
)

// Format says what kind of file a record was read from.
type Format string

// The formats that are read.
const (
	FormatEPW       Format = "EPW"
	FormatTMY3      Format = "TMY3 CSV"
	FormatHourlyCSV Format = "hourly CSV"
)

// Record is what an hourly file holds as it stands: nothing filled, nothing decided about snow. A NaN is missing.
type Record struct {
	Name           string
	LatDeg, LonDeg float64
	ElevationM     float64
	ZoneHours      float64 // local standard time less UTC [h]
	Format         Format
	HourEnds       bool // the file names an hour by its end, 1 to 24; Clock is already its beginning
	Typical        bool // a typical year: its months come from different years
	Observations   []Observation
}

// Observation is one hour of a record. A NaN is missing.
type Observation struct {
	Year              int16 // of the record's own calendar, which differs from month to month in a typical year
	Month, Day, Clock int8  // Clock 0 to 23: the hour that begins then, local standard time
	AirC, DewC        float64
	HumidityShare     float64 // relative humidity, 0 to 1
	PressurePa        float64
	WindMS            float64
	CloudShare        float64 // 0 to 1
	InfraredWM2       float64 // horizontal, from the sky
	SunWM2            float64 // global horizontal
	WaterMM           float64 // depth of rain and melted snow in the WaterHours that end with this hour [mm]
	WaterHours        float64 // hours that WaterMM stands for; 0 and NaN are read as 1
	SnowMM, RainMM    float64 // snow (water equivalent) and rain as measured apart [mm]
	DepthMM           float64 // snow lying on the ground [mm]
	Weather           Phenomena
}

// Intensity of what falls.
type Intensity uint8

// The intensities. The zero Intensity is none at all.
const (
	None Intensity = iota
	Light
	Moderate
	Heavy
)

// Phenomena is the present weather that an observer or an instrument reported.
type Phenomena struct {
	Reported            bool // a report stands here, be it of no weather
	Any                 bool // some weather is reported, fog and smoke included
	Snow, Rain, Drizzle Intensity
	Freezing            bool // the rain or drizzle freezes
	IceCrystals         bool // seen, and no snowfall to melt
}

// The codes of what can be wrong with an hourly file or with normals.
const (
	CodeNoSnowData     finding.Code = "weather-no-snow-data"
	CodeNoValues       finding.Code = "weather-no-values"
	CodeFewHours       finding.Code = "weather-few-hours"
	CodeSeveralYears   finding.Code = "weather-several-years"
	CodeMissingNormals finding.Code = "normals-missing"
)

// Unusable is the error of a record or of normals that yield no year: a code with what is missing.
type Unusable struct {
	Code finding.Code
	Args []finding.Arg
}

// Error names the code and what it was about. The sentence for users stands in templates, by the code.
func (u *Unusable) Error() string {
	text := string(u.Code)
	for _, a := range u.Args {
		text += " " + a.Name + "=" + a.Text
	}
	return text
}

// unusable returns the error with one word for what is missing.
func unusable(code finding.Code, name, what string) error {
	return &Unusable{Code: code, Args: []finding.Arg{finding.Words(name, what)}}
}
