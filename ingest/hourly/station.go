package hourly

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
)

// Station reads one or several files of one place, each a year or more, and makes a station of their years. An empty name is taken from the first
// file. Place and time zone are those of the first file.
//
// Errors: *Error with the file: it can't be read, or it holds too little for a winter.
func Station(name string, paths ...string) (weather.Station, error) {
	var years []weather.Year
	var sources []weather.Source
	var place weather.Place
	kind := weather.Observed
	for i, path := range paths {
		r, source, err := Read(path)
		if err != nil {
			return weather.Station{}, err
		}
		more, err := weather.YearsFromRecord(r)
		if err != nil {
			return weather.Station{}, ofFile(err, filepath.Base(path))
		}
		years, sources = append(years, more...), append(sources, source)
		if weather.KindOf(r) == weather.Typical {
			kind = weather.Typical
		}
		if i == 0 {
			place = weather.PlaceOf(r)
			if name == "" {
				name = r.Name
			}
		}
	}
	slices.SortStableFunc(years, func(a, b weather.Year) int { return strings.Compare(a.Label, b.Label) })
	return weather.NewStation(name, place, kind, years, sources), nil
}

// ofFile adds the file to what is missing in a record.
func ofFile(err error, file string) error {
	var u *weather.Unusable
	if !errors.As(err, &u) {
		return err
	}
	return &Error{Code: u.Code, Args: append([]finding.Arg{finding.Words("file", file)}, u.Args...)}
}
