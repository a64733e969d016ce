package ingest

import (
	"slices"
	"strconv"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/ingest/columns"
)

// alternativeRows reads Alternatives and lays each of its rows over the rows of Sites that it names, cell by cell.
func (r *reader) alternativeRows(sites *table[calc.Zone], rows []zoneRow) ([]zoneRow, error) {
	s, here := r.sheetNamed(columns.SheetAlternatives)
	if !here {
		return nil, nil
	}
	var typed []zoneRow
	t, err := readTable(r.how, s, columns.Alternatives(), func(z calc.Zone, row record) { typed = append(typed, zoneRow{zone: z, record: row}) })
	if err != nil {
		return nil, err
	}
	r.add(t.findings...)
	if !t.found() {
		if t.filled {
			f := noHeadings(t)
			f.Severity = finding.Warning
			r.add(f)
		}
		return nil, nil
	}
	r.book.layouts[columns.SheetAlternatives] = t.layout
	under := zonesOf(rows)
	had := map[[3]string]bool{}
	var out []zoneRow
	for _, z := range typed {
		for _, place := range r.beneath(z, under, had) {
			base := rows[place.row]
			base.zone.Ref.ZoneID = place.zone
			out = append(out, r.over(sites, t, base, z))
		}
	}
	return out, nil
}

// sitePlace is a row of Sites under the name of its zone.
type sitePlace struct {
	row  int
	zone string
}

// zonesOf lists the rows of each site with the names that their zones will have. A name that stands twice is the first row's.
func zonesOf(rows []zoneRow) map[string][]sitePlace {
	count, out := map[string]int{}, map[string][]sitePlace{}
	for i, z := range rows {
		site := z.zone.Ref.SiteID
		count[site]++
		name := z.zone.Ref.ZoneID
		if name == "" {
			name = strconv.Itoa(count[site])
		}
		if !slices.ContainsFunc(out[site], func(p sitePlace) bool { return p.zone == name }) {
			out[site] = append(out[site], sitePlace{i, name})
		}
	}
	return out
}

// beneath returns the zones that a row of Alternatives is laid over: the one it names, every one of the site where it names none. What it tells of a
// row that can't be laid it adds.
func (r *reader) beneath(z zoneRow, under map[string][]sitePlace, had map[[3]string]bool) []sitePlace {
	ref := z.zone.Ref
	list := under[ref.SiteID]
	switch {
	case ref.SiteID == "" || ref.Alternative == "":
		r.add(z.findings...) // a name can't be read or is missing, which is told
		return nil
	case list == nil:
		r.tellRow(finding.Error, CodeAlternativeSite, z.record, "site_id", finding.Words("typed", ref.SiteID))
		return nil
	case foldAll(ref.Alternative) == foldAll(calc.NameBase) || foldAll(ref.Alternative) == foldAll(calc.NameAsInSites):
		r.tellRow(finding.Error, CodeAlternativeTaken, z.record, "alternative", finding.Words("typed", ref.Alternative))
		return nil
	}
	if ref.ZoneID != "" {
		i := slices.IndexFunc(list, func(p sitePlace) bool { return p.zone == ref.ZoneID })
		if i < 0 {
			r.tellRow(finding.Error, CodeAlternativeZone, z.record, "zone_id", finding.Words("site", ref.SiteID), finding.Words("typed", ref.ZoneID))
			return nil
		}
		list = list[i : i+1]
	}
	return slices.DeleteFunc(slices.Clone(list), func(p sitePlace) bool {
		key := [3]string{ref.SiteID, foldAll(ref.Alternative), p.zone}
		twice := had[key]
		if had[key] = true; twice {
			r.tellRow(finding.Error, CodeRowTwice, z.record, "alternative", finding.Words("typed", ref.Alternative))
		}
		return twice
	})
}

// over lays a row of Alternatives over one of Sites: a cell that is typed there wins, keeps its own heading and its own address; any other is that of
// Sites.
func (r *reader) over(sites, alternatives *table[calc.Zone], base, row zoneRow) zoneRow {
	at := map[finding.Field]int{}
	for i := range alternatives.placed {
		at[alternatives.placed[i].Field] = i
	}
	var list []laid[calc.Zone]
	for i := range sites.placed {
		f := sites.placed[i].Field
		top, beneath := alternatives.laid(row.record, at[f]), sites.laid(base.record, i)
		top.above, beneath.beneath = true, true
		switch {
		case top.cell != nil && f != "site_id" && f != "zone_id":
			list = append(list, top)
		case columns.Inherited(f):
			list = append(list, beneath)
		default:
			list = append(list, laid[calc.Zone]{column: beneath.column, at: beneath.at, beneath: true})
		}
	}
	out := zoneRow{named: row.zone.Ref.Alternative, record: record{row: row.row, layout: row.layout}}
	values(r.how, list, &out.zone, &out.record)
	ref := &out.zone.Ref
	ref.ZoneID, ref.Row, ref.Alternative = base.zone.Ref.ZoneID, base.row, out.named
	// Sites tells what is there, so that a no means it can still be set; typed as an alternative it means that none is.
	typed := alternatives.laid(row.record, at["detector_housing"]).cell != nil
	out.zone.Sensing.NoHousing = typed && out.zone.Sensing.Housing == calc.No && !out.zone.Slab.Existing()
	return out
}

// groupAlternatives gives the sites their alternatives, in the order of rows.
func (r *reader) groupAlternatives(rows []zoneRow) {
	for i := range rows {
		z := &rows[i]
		z.keep()
		ref := z.zone.Ref
		for _, f := range z.findings {
			f.Site, f.Zone = ref.SiteID, ref.ZoneID
			r.add(f)
		}
		k := slices.IndexFunc(r.book.Sites, func(s calc.Site) bool { return s.ID == ref.SiteID })
		list := &r.book.Sites[k].Alternatives
		a := slices.IndexFunc(*list, func(a calc.Alternative) bool { return foldAll(a.Name) == foldAll(z.named) })
		if a < 0 {
			a = len(*list)
			*list = append(*list, calc.Alternative{Name: z.named})
		}
		(*list)[a].Zones = append((*list)[a].Zones, z.zone)
	}
}
