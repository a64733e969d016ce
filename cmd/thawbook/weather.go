package main

import (
	"context"
	"errors"
	"fmt"

	"thawbook/calc/surface"
	"thawbook/calc/weather"
	"thawbook/ingest/hourly"
	"thawbook/report/terminal"
)

// bare is the surface whose load is told of a weather file: kept free of snow, of the usual length, at the station's own height.
func bare(st weather.Station) surface.Input {
	const length, percentile = 6.1, 98 // m (20 ft); %: what published tables of load frequencies are for
	return surface.Input{Station: st.Digest, ElevationM: st.ElevationM, WindFactor: 1, LengthM: length, SnowFree: 1, Percentile: percentile, Margin: 1}
}

// weatherCommand tells what hourly files hold, each by itself.
func (p *program) weatherCommand(f *flags) action {
	var asJSON bool
	f.yes(&asJSON, "json")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) == 0 {
			return 0, p.misuse("usage-weather-files")
		}
		for i, file := range args {
			if i > 0 && !asJSON {
				fmt.Fprintln(p.stdout)
			}
			if err := p.tellWeather(file, asJSON); err != nil {
				return 0, err
			}
		}
		return exitOK, nil
	}
}

func (p *program) tellWeather(file string, asJSON bool) error {
	st, err := hourly.Station("", file)
	if err != nil {
		return err
	}
	load, err := surface.Analyse(bare(st), st)
	if err != nil && !errors.Is(err, surface.ErrNoSnow) { // a place without snow has its temperatures all the same
		return fmt.Errorf("%s: %w", file, err)
	}
	report := terminal.WeatherReport{Station: st, Load: load}
	if asJSON {
		return terminal.WeatherJSON(p.stdout, report)
	}
	return terminal.Weather(p.stdout, p.words, report)
}
