package ingest

import (
	"cmp"
	"errors"
	"path"
	"runtime"
	"strings"
	"sync"

	"thawbook/calc/finding"
	"thawbook/calc/weather"
	"thawbook/ingest/hourly"
)

// openFile reads a weather file by the name that the workbook gives it.
type openFile func(named string) (weather.Record, weather.Source, error)

// files are the weather files of a workbook, each read once however many rows name it.
type files struct {
	open openFile
	read map[string]*weatherFile
}

// weatherFile is what one file gave.
type weatherFile struct {
	name   string // of its place, for reports
	place  weather.Place
	kind   weather.Kind
	years  []weather.Year
	source weather.Source
	err    error
}

func newFiles(open openFile) *files { return &files{open: open, read: map[string]*weatherFile{}} }

// fetch reads the files that these lists name and that were not read yet, several at a time.
func (f *files) fetch(lists ...string) {
	var names []string
	for _, list := range lists {
		for _, name := range split(list) {
			if f.read[name] == nil {
				f.read[name] = &weatherFile{}
				names = append(names, name)
			}
		}
	}
	var wait sync.WaitGroup
	next := make(chan string)
	for range min(len(names), runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for name := range next {
				*f.read[name] = f.one(name) // a place of its own: no lock
			}
		})
	}
	for _, name := range names {
		next <- name
	}
	close(next)
	wait.Wait()
}

func (f *files) one(name string) weatherFile {
	record, source, err := f.open(name)
	w := weatherFile{source: source, err: err}
	if err != nil {
		return w
	}
	w.name, w.place, w.kind = record.Name, weather.PlaceOf(record), weather.KindOf(record)
	if w.name == "" {
		w.name = base(name)
	}
	w.years, w.err = weather.YearsFromRecord(record)
	return w
}

// base is the last part of a file's name, whichever way its folders are parted.
func base(name string) string { return path.Base(strings.ReplaceAll(name, `\`, "/")) }

// station makes one station of the files in a list; without a name, it has that of the first file's place. The finding says which file can't be
// used, and why.
func (f *files) station(name, list string) (weather.Station, *finding.Finding) {
	var years []weather.Year
	var sources []weather.Source
	var first *weatherFile
	had := map[string]bool{}
	for _, file := range split(list) {
		w := f.read[file]
		if w.err != nil {
			return weather.Station{}, fileFinding(file, w.err)
		}
		if had[file] {
			continue
		}
		had[file] = true
		if first == nil {
			first = w
		}
		if w.kind != first.kind {
			bad := finding.New(finding.Error, CodeStationKinds, "", finding.Words("file", base(file)))
			return weather.Station{}, &bad
		}
		years, sources = append(years, w.years...), append(sources, w.source)
	}
	if first == nil {
		bad := finding.New(finding.Error, CodeStationNothing, "", finding.Words("name", name))
		return weather.Station{}, &bad
	}
	return weather.NewStation(cmp.Or(name, first.name), first.place, first.kind, years, sources), nil
}

// fileFinding turns what the weather readers say of a file into a finding that names it.
func fileFinding(file string, err error) *finding.Finding {
	bad := finding.New(finding.Error, hourly.CodeUnreadable, "")
	var read *hourly.Error
	var hours *weather.Unusable
	switch {
	case errors.As(err, &read):
		bad.Code, bad.Args = read.Code, read.Args
	case errors.As(err, &hours):
		bad.Code, bad.Args = hours.Code, hours.Args
	}
	for _, a := range bad.Args {
		if a.Name == "file" {
			return &bad
		}
	}
	bad.Args = append([]finding.Arg{finding.Words("file", base(file))}, bad.Args...)
	return &bad
}
