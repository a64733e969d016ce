package calc

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Codes of findings about a zone's climate.
const (
	CodeMissingInput     finding.Code = "missing-input"
	CodeStationUnknown   finding.Code = "station-unknown"
	CodeStationNearest   finding.Code = "station-nearest"
	CodeStationFar       finding.Code = "station-far"
	CodeElevationDiffers finding.Code = "elevation-differs"
	CodeStationRefused   finding.Code = "station-refused"
	CodeGivenFluxAlone   finding.Code = "given-flux-without-climate"
)

const (
	nearestKM      = 80     // a station is taken unasked within this distance; safety
	nearestM       = 300    // and within this difference of height; safety
	elevationDiffM = 150    // more is told
	earthRadiusKM  = 6371.0 // mean
)

// candidate is a station that a zone may take, made into hours only when it is.
type candidate struct {
	name       string
	lat, lon   float64
	elevationM float64
	distanceKM float64
	fromBook   bool
	bookIndex  int
	statIndex  int
}

// station finds the weather of a zone: its own files, the station it names, or the nearest one within reach. Nil, with a finding, when there is none.
func (e *Engine) station(z Zone) (*weather.Station, []finding.Finding) {
	p := z.Place
	switch {
	case p.WeatherFiles != "":
		return e.ofFiles(p.WeatherFiles)
	case p.Station != "":
		st, found := e.named(p.Station, "station")
		return st, append(found, farFrom(z, st)...)
	case p.LatitudeDeg.Known && p.LongitudeDeg.Known:
		return e.nearest(z)
	}
	return nil, missingClimate(z, e.someNames())
}

// missingClimate tells that a zone has no climate, and what a given flux still finds.
func missingClimate(z Zone, near string) []finding.Finding {
	out := []finding.Finding{finding.New(finding.Error, CodeMissingInput, "station", finding.Words("near", near))}
	if z.Service.DesignFluxWM2.Known {
		out = append(out, finding.New(finding.Info, CodeGivenFluxAlone, "station", finding.Value("ground", groundNoClimate, units.Temperature)))
	}
	return out
}

// ofFiles returns the station made of a list of weather files that a zone names for itself.
func (e *Engine) ofFiles(list string) (*weather.Station, []finding.Finding) {
	for i := range e.in.Climate.Stations {
		if st := &e.in.Climate.Stations[i]; st.Key == list {
			return st, nil
		}
	}
	return e.named(list, "weather_file")
}

// named returns the station of that name: of the workbook first, then built in. A row of the workbook that was refused never lets a built-in station
// of its name take its place.
func (e *Engine) named(name string, field finding.Field) (*weather.Station, []finding.Finding) {
	want := fold(name)
	for _, refused := range e.in.Climate.Refused {
		if fold(refused) == want {
			return nil, []finding.Finding{finding.New(finding.Error, CodeStationRefused, field, finding.Words("name", name))}
		}
	}
	for _, c := range e.candidates() {
		if fold(c.name) == want {
			return e.hours(c)
		}
	}
	return nil, []finding.Finding{finding.New(finding.Error, CodeStationUnknown, field, finding.Words("name", name), finding.Words("near", e.closestNames(want)))}
}

// nearest takes the nearest station within reach, with a warning that names distance and height.
func (e *Engine) nearest(z Zone) (*weather.Station, []finding.Finding) {
	list := e.byDistance(z.Place)
	for _, c := range list {
		if c.distanceKM > nearestKM {
			break
		}
		height := math.Abs(c.elevationM - z.Place.ElevationM.Or(c.elevationM))
		if height > nearestM {
			continue
		}
		st, found := e.hours(c)
		return st, append(found, finding.New(finding.Warning, CodeStationNearest, "station", finding.Words("name", c.name),
			finding.Value("km", c.distanceKM, units.Distance), finding.Value("height", height, units.Elevation)))
	}
	return nil, missingClimate(z, nearNames(list))
}

// farFrom warns when a named station lies far from where the zone is said to be.
func farFrom(z Zone, st *weather.Station) []finding.Finding {
	if st == nil || !z.Place.LatitudeDeg.Known || !z.Place.LongitudeDeg.Known || (st.LatDeg == 0 && st.LonDeg == 0) {
		return nil
	}
	km := distanceKM(z.Place.LatitudeDeg.Value, z.Place.LongitudeDeg.Value, st.LatDeg, st.LonDeg)
	if km <= nearestKM {
		return nil
	}
	return []finding.Finding{finding.New(finding.Warning, CodeStationFar, "station", finding.Words("name", st.Name), finding.Value("km", km, units.Distance))}
}

// candidates lists every station a zone can name, those of the workbook first. Weather files that a zone names are that zone's alone.
func (e *Engine) candidates() []candidate {
	out := make([]candidate, 0, len(e.in.Climate.Stations)+len(e.in.Climate.BuiltIn))
	for i, s := range e.in.Climate.Stations {
		if s.Key != "" {
			continue
		}
		out = append(out, candidate{name: s.Name, lat: s.LatDeg, lon: s.LonDeg, elevationM: s.ElevationM, fromBook: true, bookIndex: i})
	}
	for i, s := range e.in.Climate.BuiltIn {
		out = append(out, candidate{name: s.Name, lat: s.LatDeg, lon: s.LonDeg, elevationM: s.ElevationM, statIndex: i})
	}
	return out
}

// hours makes a candidate a station; a built-in one is made into hours once, whoever asks.
func (e *Engine) hours(c candidate) (*weather.Station, []finding.Finding) {
	if c.fromBook {
		return &e.in.Climate.Stations[c.bookIndex], nil
	}
	st, err := e.synthetic.Get(c.statIndex, func(i int) (*weather.Station, error) {
		made, err := e.in.Climate.BuiltIn[i].Station()
		return &made, err
	})
	if err != nil {
		return nil, []finding.Finding{finding.New(finding.Error, CodeMissingInput, "station", finding.Words("near", err.Error()))}
	}
	return st, nil
}

func (e *Engine) byDistance(p Place) []candidate {
	list := slices.DeleteFunc(e.candidates(), func(c candidate) bool { return c.lat == 0 && c.lon == 0 })
	for i := range list {
		list[i].distanceKM = distanceKM(p.LatitudeDeg.Value, p.LongitudeDeg.Value, list[i].lat, list[i].lon)
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(a.distanceKM, b.distanceKM) })
	return list
}

// nearNames names the three nearest stations, the nearest first.
func nearNames(list []candidate) string { return names(list[:min(3, len(list))]) }

// closestNames names the three stations whose names are written most alike: those that begin with the name, then those that hold it, then by letters
// that differ.
func (e *Engine) closestNames(want string) string {
	list := e.candidates()
	rank := func(c candidate) int {
		have := fold(c.name)
		switch {
		case strings.HasPrefix(have, want):
			return -2
		case strings.Contains(have, want):
			return -1
		}
		return unlike([]rune(want), []rune(have))
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(rank(a), rank(b)) })
	return names(list[:min(3, len(list))])
}

// someNames names a few stations, so that a reader sees what a name looks like.
func (e *Engine) someNames() string {
	list := e.candidates()
	return names(list[:min(3, len(list))])
}

func names(list []candidate) string {
	var out []string
	for _, c := range list {
		out = append(out, c.name)
	}
	return strings.Join(out, "; ")
}

// fold brings names together that differ in case, accents, spaces, brackets and punctuation only.
func fold(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, norm.NFD.String(strings.ToLower(name)))
}

// unlike returns the edit distance of two folded names: letters added, dropped or changed.
func unlike(a, b []rune) int {
	previous := make([]int, len(b)+1)
	for j := range previous {
		previous[j] = j
	}
	for i := range len(a) {
		diagonal := previous[0]
		previous[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diagonal, previous[j+1] = previous[j+1], min(previous[j+1]+1, previous[j]+1, diagonal+cost)
		}
	}
	return previous[len(b)]
}

// distanceKM returns the great-circle distance in km. Source: haversine formula.
func distanceKM(lat1, lon1, lat2, lon2 float64) float64 {
	const rad = math.Pi / 180
	sinLat, sinLon := math.Sin((lat2-lat1)*rad/2), math.Sin((lon2-lon1)*rad/2)
	h := sinLat*sinLat + math.Cos(lat1*rad)*math.Cos(lat2*rad)*sinLon*sinLon
	return 2 * earthRadiusKM * math.Asin(min(1, math.Sqrt(h)))
}
