package submittal

import (
	"fmt"
	"strings"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report"
	"thawbook/report/chart"
)

// sheet is a view on a paper: what sections write with.
type sheet struct {
	report.View
	paper paper
}

func on(v report.View) sheet { return sheet{v, paperFor(v.Settings.Units)} }

// say returns one of the document's sentences.
func (s sheet) say(code string, args ...finding.Arg) string {
	return s.Words.Say("pdf-"+code, args...)
}

// look is how the document's charts are written.
func (s sheet) look() chart.Look {
	return chart.Look{Fonts: face().faces, Number: s.Words.Show.Plain}
}

// priced returns "name [currency]".
func (s sheet) priced(code string) string {
	if s.Settings.Currency == "" {
		return s.say(code)
	}
	return s.say(code) + " [" + s.Settings.Currency + "]"
}

// unit returns "name [unit]".
func (s sheet) unit(code string, q units.Quantity) string {
	return s.say(code) + " [" + s.Words.Show.Unit(q) + "]"
}

func (s sheet) siteName() string {
	if name := strings.TrimSpace(s.Site.Site.Name); name != "" {
		return name
	}
	return s.Site.Site.ID
}

// zoneName names a zone as people do, its ID behind where the name does not hold it.
func zoneName(z calc.Zone) string {
	name := strings.TrimSpace(z.Ref.ZoneName)
	switch {
	case name == "":
		return z.Ref.ZoneID
	case z.Ref.ZoneID == "" || strings.Contains(name, z.Ref.ZoneID):
		return name
	}
	return z.Ref.ZoneID + " " + name
}

// zoneTitle is the heading of a zone.
func (s sheet) zoneTitle(z calc.Zone) string {
	return s.say("zone-title", finding.Words("zone", zoneName(z)))
}

// zonesTitle names one zone or several.
func (s sheet) zonesTitle(n int, names string) string {
	if n == 1 {
		return s.say("zone-title", finding.Words("zone", names))
	}
	return s.say("zones-title", finding.Words("zones", names))
}

// first returns the first zone that was read for the site; every site has one.
func (s sheet) first() calc.Zone {
	for _, o := range s.Site.Outcomes {
		return o.Zone
	}
	for _, z := range s.Site.Site.Zones {
		return z
	}
	return calc.Zone{}
}

// issue is the revision under which the document goes out.
func (s sheet) issue() calc.Revision { return s.Site.Site.Issue(s.Settings) }

func (s sheet) revision() string {
	return s.say("revision", finding.Words("revision", or(s.issue().Name)))
}

func (s sheet) header() [3]string {
	return [3]string{s.Settings.Project, s.siteName(), s.revision()}
}

func (s sheet) footer(page, pages int) [3]string {
	return [3]string{s.Program, s.issue().Date, s.say("page", finding.Words("page", fmt.Sprint(page)), finding.Words("pages", fmt.Sprint(pages)))}
}

// groups collects zones of which the same is to be said, in order of the first.
func groups[K comparable](outcomes []calc.Outcome, key func(calc.Outcome) (K, bool)) (keys []K, zones map[K][]calc.Outcome) {
	zones = map[K][]calc.Outcome{}
	for _, o := range outcomes {
		k, ok := key(o)
		if !ok {
			continue
		}
		if zones[k] == nil {
			keys = append(keys, k)
		}
		zones[k] = append(zones[k], o)
	}
	return keys, zones
}

// ids lists zones by their IDs, for narrow columns.
func (s sheet) ids(list []calc.Outcome) string {
	if len(list) == len(s.Site.Outcomes) && len(list) > 1 {
		return s.say("all")
	}
	out := make([]string, len(list))
	for i, o := range list {
		out[i] = o.Zone.Ref.ZoneID
	}
	return strings.Join(out, ", ")
}

// names lists zones, or says that all are meant.
func (s sheet) names(list []calc.Outcome) string {
	if len(list) == len(s.Site.Outcomes) && len(list) > 1 {
		return s.say("all-zones")
	}
	out := make([]string, len(list))
	for i, o := range list {
		out[i] = zoneName(o.Zone)
	}
	return strings.Join(out, ", ")
}
