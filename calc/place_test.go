package calc

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// northOf returns the place some kilometres north of another, at another height.
func northOf(p weather.Place, km, upM float64) weather.Place {
	return weather.Place{LatDeg: p.LatDeg + km/earthRadiusKM*180/math.Pi, LonDeg: p.LonDeg, ElevationM: p.ElevationM + upM}
}

// builtIn is an engine that has only built-in stations: at 20, 60, 79, 81 and 400 km north of a place in the mountains, the first 500 m above it.
func builtIn() *Engine {
	return engine(func(in *Inputs) {
		in.Climate.Stations = nil
		for _, s := range []struct {
			name    string
			km, upM float64
		}{{"Distant", 400, 0}, {"Summit", 20, 500}, {"Ridge", 60, 301}, {"Reach", 79, -200}, {"Beyond", 81, 0}} {
			in.Climate.BuiltIn = append(in.Climate.BuiltIn, normals(northOf(northHere, s.km, s.upM), s.name))
		}
	})
}

func at(p weather.Place) func(*Zone) {
	return func(z *Zone) {
		z.Place.Station = ""
		z.Place.LatitudeDeg, z.Place.LongitudeDeg, z.Place.ElevationM = units.Some(p.LatDeg), units.Some(p.LonDeg), units.Some(p.ElevationM)
	}
}

func TestNamedStation(t *testing.T) {
	for _, name := range []string{"Northville", "northville", " NORTH-VILLE.", "North ville"} {
		o := outcome(t, engine(), func(z *Zone) { z.Place.Station = name })
		assert.Equal(t, "Northville", o.Weather.Station, name)
		assert.Equal(t, StatusOK, o.Status(), name)
	}
}

// TestOwnFilesComeFirst: a zone's own files, under the text that names them, count before the station it names.
func TestOwnFilesComeFirst(t *testing.T) {
	keyed := engine(func(in *Inputs) { in.Climate.Stations[2].Key = "a.epw; b.epw" })
	o := outcome(t, keyed, func(z *Zone) { z.Place.WeatherFiles = "a.epw; b.epw" })
	assert.Equal(t, stations()[2].Name, o.Weather.Station, "reports name the station, not the files")
	assert.Equal(t, southHere.LatDeg, o.Weather.LatDeg)
	other := outcome(t, keyed, func(z *Zone) { z.Place.Station = stations()[2].Name })
	assert.Len(t, found(other.Findings, CodeStationUnknown), 1, "the files of one zone are no other zone's")
	missing := outcome(t, engine(), func(z *Zone) { z.Place.WeatherFiles = "c.epw" })
	list := found(missing.Findings, CodeStationUnknown)
	require.Len(t, list, 1)
	assert.Equal(t, finding.Field("weather_file"), list[0].Field)
}

// TestRefusedRowIsNotReplacedByBuiltIn: a built-in station never stands in silently for a row of Climate that holds an error.
func TestRefusedRowIsNotReplacedByBuiltIn(t *testing.T) {
	e := engine(func(in *Inputs) {
		in.Climate.BuiltIn, in.Climate.Refused = []weather.Statistics{normals(southHere, "Half")}, []string{"HALF"}
	})
	o := outcome(t, e, func(z *Zone) { z.Place.Station = "Half" })
	assert.Len(t, found(o.Findings, CodeStationRefused), 1)
	assert.Nil(t, o.Load)
}

// TestWorkbookBeforeBuiltIn: a row of Climate takes the place of a built-in station of the same name.
func TestWorkbookBeforeBuiltIn(t *testing.T) {
	e := engine(func(in *Inputs) { in.Climate.BuiltIn = []weather.Statistics{normals(southHere, "Northville")} })
	assert.Equal(t, weather.Typical, outcome(t, e).Weather.Kind)
}

func TestUnknownStationNamesTheClosest(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Place.Station = "Nortvile" })
	list := found(o.Findings, CodeStationUnknown)
	require.Len(t, list, 1)
	assert.Equal(t, finding.Error, list[0].Severity)
	assert.Equal(t, finding.Field("station"), list[0].Field)
	assert.Equal(t, "Nortvile", arg(list[0], "name").Text)
	near := arg(list[0], "near").Text
	assert.Regexp(t, `^Northville; Southville; `, near)
	assert.Equal(t, StatusError, o.Status())
	assert.Nil(t, o.Load)
}

func TestNoStationAtAll(t *testing.T) {
	o := outcome(t, engine(), func(z *Zone) { z.Place.Station = "" })
	list := found(o.Findings, CodeMissingInput)
	require.Len(t, list, 1)
	assert.Equal(t, "Northville; Three Winters; Southville", arg(list[0], "near").Text)
	half := outcome(t, engine(), func(z *Zone) { z.Place.Station, z.Place.LatitudeDeg = "", units.Some(44.0) })
	assert.Len(t, found(half.Findings, CodeMissingInput), 1, "a latitude alone is no place")
	none := outcome(t, engine(func(in *Inputs) { in.Climate = Climate{} }), func(z *Zone) { z.Place.Station = "" })
	assert.Len(t, found(none.Findings, CodeMissingInput), 1)
}

// TestNearestStation: within 80 km and 300 m of height, with a warning that gives both; nearer ones too high above are passed over.
func TestNearestStation(t *testing.T) {
	o := outcome(t, builtIn(), at(northHere))
	assert.Equal(t, "Reach", o.Weather.Station)
	list := found(o.Findings, CodeStationNearest)
	require.Len(t, list, 1)
	assert.Equal(t, finding.Warning, list[0].Severity)
	assert.Equal(t, "Reach", arg(list[0], "name").Text)
	assert.InDelta(t, 79, arg(list[0], "km").Number, 0.5)
	assert.InDelta(t, 200, arg(list[0], "height").Number, 1e-9)
	assert.Equal(t, units.Elevation, arg(list[0], "height").Quantity)
	assert.InDelta(t, 79, o.Weather.DistanceKM.Value, 1e-6)
	require.NotNil(t, o.Load)
	assert.Equal(t, surface.Synthetic, o.Load.Method)
}

func TestNearestStationsLimits(t *testing.T) {
	for _, tt := range []struct {
		km, up float64
		taken  bool
	}{{79.999, 0, true}, {80.001, 0, false}, {10, 300, true}, {10, 300.001, false}, {10, -300, true}, {10, -300.001, false}} {
		e := engine(func(in *Inputs) {
			in.Climate = Climate{BuiltIn: []weather.Statistics{normals(northOf(northHere, tt.km, tt.up), "One")}}
		})
		assert.Equal(t, tt.taken, outcome(t, e, at(northHere)).Weather.Station == "One", "%v", tt)
	}
	e := engine(func(in *Inputs) {
		in.Climate = Climate{BuiltIn: []weather.Statistics{normals(northOf(northHere, 10, 2000), "One")}}
	})
	unknown := func(z *Zone) { at(northHere)(z); z.Place.ElevationM = units.Maybe[float64]{} }
	assert.Equal(t, "One", outcome(t, e, unknown).Weather.Station, "a height that was not told can't differ")
}

func TestNothingWithinReachNamesThree(t *testing.T) {
	o := outcome(t, builtIn(), at(northOf(northHere, -100, 0)))
	list := found(o.Findings, CodeMissingInput)
	require.Len(t, list, 1)
	assert.Equal(t, "Summit; Ridge; Reach", arg(list[0], "near").Text)
	assert.Equal(t, StatusError, o.Status())
}

func TestNamedStationFarAway(t *testing.T) {
	place := func(km float64) func(*Zone) {
		return func(z *Zone) { at(northOf(northHere, km, 0))(z); z.Place.Station = "Northville" }
	}
	assert.Empty(t, found(outcome(t, engine(), place(79)).Findings, CodeStationFar))
	list := found(outcome(t, engine(), place(123)).Findings, CodeStationFar)
	require.Len(t, list, 1)
	assert.InDelta(t, 123, arg(list[0], "km").Number, 0.5)
	hour := func(z *Zone) { place(123)(z); z.Place.Station = "One Hour" }
	assert.Empty(t, found(outcome(t, engine(), hour).Findings, CodeStationFar), "a station without a place is not far")
}

// TestUnusableBuiltIn: a station whose statistics make no winter is told, and the zone stands without climate.
func TestUnusableBuiltIn(t *testing.T) {
	e := engine(func(in *Inputs) {
		bad := normals(northHere, "Bare")
		bad.Normals[3].MeanC = math.NaN()
		in.Climate = Climate{BuiltIn: []weather.Statistics{bad}}
	})
	o := outcome(t, e, func(z *Zone) { z.Place.Station = "Bare" })
	assert.Len(t, found(o.Findings, CodeMissingInput), 1)
	assert.Nil(t, o.Load)
}

// TestDistance: a quarter of a great circle, and one degree of latitude. Source: the earth's mean radius of 6,371 km.
func TestDistance(t *testing.T) {
	assert.InDelta(t, 6371*math.Pi/2, distanceKM(0, 0, 0, 90), 1e-6)
	assert.InDelta(t, 6371*math.Pi/180, distanceKM(44, -73, 45, -73), 1e-6)
	assert.InDelta(t, 6371*math.Pi, distanceKM(90, 0, -90, 0), 1e-3)
	assert.Zero(t, distanceKM(44, -73, 44, -73))
	assert.InDelta(t, distanceKM(10, 179, 10, -179), distanceKM(10, -1, 10, 1), 1e-9, "over the date line")
}

// TestUnlike is the edit distance. Source: the definition; kitten to sitting takes three steps.
func TestUnlike(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"a", "", 1}, {"", "abc", 3}, {"kitten", "sitting", 3}, {"flaw", "lawn", 2}, {"same", "same", 0}} {
		assert.Equal(t, tt.want, unlike([]rune(tt.a), []rune(tt.b)), fmt.Sprint(tt))
		assert.Equal(t, tt.want, unlike([]rune(tt.b), []rune(tt.a)), "the same both ways")
	}
}
