package main

import (
	"context"
	"slices"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/trace"
	"thawbook/report/terminal"
)

// explainCommand prints the worked calculation of one zone, or of what one way of doing a site costs.
func (p *program) explainCommand(f *flags) action {
	var zone, alternative string
	var asJSON bool
	f.text(&zone, "zone")
	f.text(&alternative, "alternative")
	f.yes(&asJSON, "json")
	return func(_ context.Context, args []string) (int, error) {
		if len(args) != 2 {
			return 0, p.misuse("usage-one-zone")
		}
		r, err := p.readAll(args[0], "")
		if err != nil {
			return 0, err
		}
		if alternative != "" {
			return exitOK, p.explainAlternative(r, args[1], alternative, asJSON)
		}
		o, steps, err := p.zoneOf(r, args[1], zone)
		if err != nil {
			return 0, err
		}
		write := terminal.Explain
		if asJSON {
			write = terminal.ExplainJSON
		}
		if err := write(p.stdout, r.texts, o, steps); err != nil {
			return 0, err
		}
		if o.Status() == calc.StatusError {
			return exitPartial, nil
		}
		return exitOK, nil
	}
}

// explainAlternative prints how the costs of an alternative of a site came about.
func (p *program) explainAlternative(r *reading, named, alternative string, asJSON bool) error {
	site, _, found := siteNamed(r.book.Sites, named)
	if !found {
		return p.misuse("usage-site-not-there", finding.Words("site", named))
	}
	so := r.engine.Site(site)
	write := terminal.ExplainAlternative
	if asJSON {
		write = terminal.ExplainAlternativeJSON
	}
	var names []string
	for _, a := range so.Alternatives {
		if strings.EqualFold(a.Name, strings.TrimSpace(alternative)) {
			return write(p.stdout, r.texts, site, a)
		}
		names = append(names, a.Name)
	}
	if len(names) == 0 {
		return p.misuse("usage-no-alternatives", finding.Words("site", site.ID))
	}
	return p.misuse("usage-alternative-not-there", finding.Words("site", site.ID), finding.Words("alternative", alternative), finding.Words("names", strings.Join(names, ", ")))
}

// zoneOf calculates the site that is named and returns the zone that is meant, with its steps.
func (p *program) zoneOf(r *reading, named, zone string) (calc.Outcome, []trace.Step, error) {
	site, inName, found := siteNamed(r.book.Sites, named)
	switch {
	case !found:
		return calc.Outcome{}, nil, p.misuse("usage-site-not-there", finding.Words("site", named))
	case inName != "" && zone != "" && !strings.EqualFold(inName, zone):
		return calc.Outcome{}, nil, p.misuse("usage-zone-twice", finding.Words("first", inName), finding.Words("second", zone))
	case zone == "":
		zone = inName
	}
	about := []finding.Arg{finding.Words("site", site.ID), finding.Words("zone", zone), finding.Words("zones", zoneIDs(site)), finding.Words("first", site.Zones[0].Ref.ZoneID)}
	if zone == "" && len(site.Zones) > 1 {
		return calc.Outcome{}, nil, p.misuse("usage-which-zone", about...)
	}
	if zone == "" {
		zone = site.Zones[0].Ref.ZoneID
	}
	is := func(ref calc.Ref) bool { return strings.EqualFold(ref.ZoneID, zone) }
	if !slices.ContainsFunc(site.Zones, func(z calc.Zone) bool { return is(z.Ref) }) {
		return calc.Outcome{}, nil, p.misuse("usage-zone-not-there", about...)
	}
	so := r.engine.Site(site)
	for _, o := range so.Outcomes {
		if is(o.Zone.Ref) {
			r.locate(o.Findings)
			for _, f := range r.found[site.ID] {
				if f.Zone == o.Zone.Ref.ZoneID {
					o.Findings = append(o.Findings, f)
				}
			}
			finding.Sort(o.Findings)
			return o, so.Worked(o), nil
		}
	}
	return calc.Outcome{}, nil, p.misuse("usage-zone-not-included", finding.Words("site", site.ID), finding.Words("zone", zone))
}

// siteNamed finds a site by its ID, or by its ID with a zone behind a stroke. An ID that holds a stroke of its own comes first.
func siteNamed(sites []calc.Site, named string) (site calc.Site, zone string, found bool) {
	find := func(id string) bool {
		i := slices.IndexFunc(sites, func(s calc.Site) bool { return s.ID == id })
		if i < 0 {
			i = slices.IndexFunc(sites, func(s calc.Site) bool { return strings.EqualFold(s.ID, id) })
		}
		if i >= 0 {
			site = sites[i]
		}
		return i >= 0
	}
	if find(named) {
		return site, "", true
	}
	if i := strings.LastIndex(named, "/"); i > 0 && find(named[:i]) {
		return site, named[i+1:], true
	}
	return calc.Site{}, "", false
}

func zoneIDs(s calc.Site) string {
	ids := make([]string, len(s.Zones))
	for i, z := range s.Zones {
		ids[i] = z.Ref.ZoneID
	}
	return strings.Join(ids, ", ")
}
