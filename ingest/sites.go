package ingest

import (
	"fmt"
	"strconv"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/weather"
	"thawbook/ingest/columns"
)

// zoneRow is a row of Sites as it was read.
type zoneRow struct {
	zone calc.Zone
	record
	named string // the alternative that the row makes of a zone; blank: a row of Sites
}

// climateAndSites reads the two sheets that name weather files, then the files, then makes stations and sites of them.
func (r *reader) climateAndSites() error {
	climate, err := r.climate()
	if err != nil {
		return err
	}
	sites, rows, err := r.zoneRows()
	if err != nil {
		return err
	}
	count := len(rows)
	others, err := r.alternativeRows(sites, rows)
	if err != nil {
		return err
	}
	rows = append(rows, others...)
	var lists []string
	for _, c := range climate {
		lists = append(lists, c.own.WeatherFiles)
	}
	for _, z := range rows {
		lists = append(lists, z.zone.Place.WeatherFiles)
	}
	r.files.fetch(lists...)
	r.stations(climate)
	r.zoneStations(rows)
	r.group(rows[:count])
	r.groupAlternatives(rows[count:])
	r.listFiles(lists)
	return nil
}

// zoneRows reads the rows of Sites.
func (r *reader) zoneRows() (*table[calc.Zone], []zoneRow, error) {
	s, here := r.sheetNamed(columns.SheetSites)
	if !here {
		var names []string
		for _, s := range r.file.Sheets {
			names = append(names, s.Name)
		}
		return nil, nil, &Unusable{Finding: finding.New(finding.Error, CodeSitesMissing, "", finding.Words("sheets", strings.Join(names, ", ")))}
	}
	var rows []zoneRow
	nameless := 0
	t, err := readTable(r.how, s, columns.Sites(), func(z calc.Zone, row record) {
		if z.Ref.SiteID == "" {
			r.add(row.findings...) // no site to report it under
			nameless++
			return
		}
		rows = append(rows, zoneRow{zone: z, record: row})
	})
	if err != nil {
		return nil, nil, err
	}
	if !t.found() {
		return nil, nil, &Unusable{Finding: noHeadings(t)}
	}
	r.book.layouts[columns.SheetSites] = t.layout
	r.add(t.findings...)
	if len(rows)+nameless == 0 {
		f := finding.New(finding.Error, CodeNoZones, "site_id")
		f.At = t.layout.cell(t.layout.head, "site_id")
		r.add(f)
	}
	return t, rows, nil
}

// zoneStations makes a station of each list of weather files that Sites names. Its zones find it by the list; its name is that of the first file's
// place.
func (r *reader) zoneStations(rows []zoneRow) {
	made := map[string]*finding.Finding{}
	for i := range rows {
		z := &rows[i]
		list := z.zone.Place.WeatherFiles
		if list == "" {
			continue
		}
		bad, known := made[list]
		if !known {
			var station weather.Station
			if station, bad = r.files.station("", list); bad == nil {
				station.Key = list
				r.book.Stations = append(r.book.Stations, station)
			}
			made[list] = bad
		}
		if bad != nil {
			f := *bad
			f.Field, f.At = "weather_file", z.layout.cell(z.row, "weather_file")
			z.findings, z.failed = append(z.findings, f), true
		}
	}
}

// listFiles lists the files read, in the order in which the workbook names them.
func (r *reader) listFiles(lists []string) {
	had := map[string]bool{}
	for _, list := range lists {
		for _, name := range split(list) {
			if f := r.files.read[name]; !had[name] && f.source.SHA256 != "" {
				had[name] = true
				r.book.Files = append(r.book.Files, f.source)
			}
		}
	}
}

// group joins rows to sites and names their zones.
func (r *reader) group(rows []zoneRow) {
	at := map[string]int{}
	spelling := map[string]string{}
	for i := range rows {
		z := &rows[i]
		id := z.zone.Ref.SiteID
		k, known := at[id]
		if !known {
			k = len(r.book.Sites)
			at[id] = k
			r.book.Sites = append(r.book.Sites, calc.Site{ID: id})
			r.book.sites[id] = z.row
			r.spelling(spelling, z)
		}
		site := &r.book.Sites[k]
		if site.Name == "" {
			site.Name = z.zone.Ref.SiteName
		}
		r.settleZone(z, len(site.Zones)+1)
		site.Zones = append(site.Zones, z.zone)
	}
}

// spelling warns of a Site ID that differs from an earlier one in case, spaces or punctuation alone.
func (r *reader) spelling(seen map[string]string, z *zoneRow) {
	id := z.zone.Ref.SiteID
	other, known := seen[foldAll(id)]
	if !known {
		seen[foldAll(id)] = id
		return
	}
	f := finding.New(finding.Warning, CodeSiteSpelling, "site_id", finding.Words("typed", id), finding.Words("other", other))
	f.At = z.layout.cell(z.row, "site_id")
	z.findings = append(z.findings, f)
}

// settleZone names a zone by its place in the site where the row names none, and gives it what was found in its row.
func (r *reader) settleZone(z *zoneRow, place int) {
	ref := &z.zone.Ref
	ref.Row = z.row
	if ref.ZoneID == "" {
		ref.ZoneID = strconv.Itoa(place)
	}
	if first := r.book.zones[zoneName{ref.SiteID, ref.ZoneID}]; first.row != 0 {
		f := finding.New(finding.Error, CodeZoneTwice, "zone_id", finding.Words("site", ref.SiteID), finding.Words("zone", ref.ZoneID), finding.Words("row", strconv.Itoa(first.row)))
		f.At = z.layout.cell(z.row, "zone_id")
		z.findings, z.failed = append(z.findings, f), true
		ref.ZoneID = fmt.Sprintf("%s (row %d)", ref.ZoneID, z.row) // names stay unique in all results
	}
	r.book.zones[zoneName{ref.SiteID, ref.ZoneID}] = zonePlace{row: z.row, energy: foldAll(z.zone.Heat.EnergyID), station: foldAll(z.zone.Place.Station)}
	z.keep()
	included := ref.Include != "later" && ref.Include != "no"
	for _, f := range z.findings {
		f.Site, f.Zone = ref.SiteID, ref.ZoneID
		if f.Severity == finding.Error && !included {
			f.Severity = finding.Warning // nothing is calculated of it
		}
		r.add(f)
	}
}

// keep gives a zone what was read in its row.
func (z *zoneRow) keep() {
	ref := &z.zone.Ref
	ref.Refused, ref.Entries = z.failed, z.entries
	for _, d := range z.defaults {
		if only := onlyFor[d.Field]; only == "" || only == z.zone.Heat.Kind {
			ref.Defaults = append(ref.Defaults, d)
		}
	}
}

// onlyFor is the kind of heat that a column is about, where it is about one.
var onlyFor = func() map[finding.Field]string {
	m := map[finding.Field]string{}
	for _, c := range columns.Sites() {
		if c.OnlyFor != "" {
			m[c.Field] = c.OnlyFor
		}
	}
	return m
}()
