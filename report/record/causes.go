package record

import (
	"slices"
	"strings"

	"thawbook/report"
)

// Kinds of causes, in the order in which they are told; each is the code of its sentence.
const (
	CauseProgram = "cause-program" // another version
	CauseTexts   = "cause-texts"   // other texts or rules
	CauseSetting = "cause-setting"
	CausePrice   = "cause-price" // a row of Energy, Costs, Parts or an exchange rate
	CauseZone    = "cause-zone"  // a zone that came or went
	CauseInput   = "cause-input"
	CauseDefault = "cause-default"
	CauseWeather = "cause-weather"
)

// Cause is something that differs between two runs. Site and Zone are blank where all sites rest on it; Sheet and Row are those of a price.
type Cause struct {
	Kind   string  `json:"kind"`
	Site   *string `json:"site"`
	Zone   *string `json:"zone"`
	Sheet  *string `json:"sheet"`
	Row    *string `json:"row"`
	Name   string  `json:"name"`
	Before Moved   `json:"before"`
	Now    Moved   `json:"now"`
}

// Differing returns what differs between two runs of all that results rest on.
func Differing(before, now Results) []Cause {
	var out []Cause
	add := func(c Cause, was, is Value) {
		if c.Before, c.Now = (Moved{was}), (Moved{is}); c.Before != c.Now {
			out = append(out, c)
		}
	}
	add(Cause{Kind: CauseProgram, Name: "version"}, worded(before.Program.Version), worded(now.Program.Version))
	add(Cause{Kind: CauseTexts, Name: "texts_sha256"}, worded(before.Input.Texts), worded(now.Input.Texts))
	between(before.Settings, now.Settings, func(name string, was, is Value) { add(Cause{Kind: CauseSetting, Name: name}, was, is) })
	paired(before.Prices, now.Prices, Price.key, func(was, is Price) {
		row := is
		if row.Sheet == "" {
			row = was
		}
		between(was.Values, is.Values, func(name string, a, b Value) {
			add(Cause{Kind: CausePrice, Sheet: text(row.Sheet), Row: text(row.Row), Name: name}, a, b)
		})
	})
	paired(before.Zones, now.Zones, Zone.key, func(was, is Zone) { betweenZones(was, is, add) })
	return out
}

func worded(word string) Value { return Value{Word: word} }

func (p Price) key() [2]string { return [2]string{p.Sheet, strings.ToLower(p.Row)} }
func (z Zone) key() [2]string  { return [2]string{z.Site, z.Zone} }

// betweenZones tells what differs between a zone's inputs, defaults and weather; of one that came or went only that.
func betweenZones(was, is Zone, add func(Cause, Value, Value)) {
	id := is
	if id.Site == "" {
		id = was
	}
	at := func(kind, name string) Cause {
		return Cause{Kind: kind, Site: text(id.Site), Zone: text(id.Zone), Name: name}
	}
	if was.Site == "" || is.Site == "" {
		add(at(CauseZone, "zone"), worded(was.Zone), worded(is.Zone))
		return
	}
	told := map[string]bool{}
	between(was.Inputs, is.Inputs, func(name string, a, b Value) {
		told[name] = true
		add(at(CauseInput, name), a, b)
	})
	between(taken(was.Defaults), taken(is.Defaults), func(name string, a, b Value) {
		if !told[name] { // a cell that was filled or emptied is told as an input
			add(at(CauseDefault, name), a, b)
		}
	})
	add(at(CauseWeather, "source"), worded(word(was.Weather.Source)), worded(word(is.Weather.Source)))
	add(at(CauseWeather, "kind"), worded(word(was.Weather.Kind)), worded(word(is.Weather.Kind)))
	if word(was.Weather.Source) == word(is.Weather.Source) {
		add(at(CauseWeather, "digest"), worded(was.Weather.Digest), worded(is.Weather.Digest))
	}
}

func taken(list []Default) Inputs {
	out := make(Inputs, len(list))
	for i, d := range list {
		out[i] = Named{d.Name, d.Value}
	}
	return out
}

// between hands over the values that differ: those of now in their order, then those that are gone.
func between(before, now Inputs, differs func(name string, was, is Value)) {
	for _, n := range now {
		if was, _ := before.Get(n.Name); was != n.Value {
			differs(n.Name, was, n.Value)
		}
	}
	for _, n := range before {
		if _, still := now.Get(n.Name); !still {
			differs(n.Name, n.Value, Value{})
		}
	}
}

// paired hands over the elements of two lists that have the same key, those of now in their order, then those that are gone.
func paired[T any](before, now []T, key func(T) [2]string, each func(was, is T)) {
	known := map[[2]string]T{}
	for _, v := range before {
		known[key(v)] = v
	}
	for _, v := range now {
		each(known[key(v)], v)
		delete(known, key(v))
	}
	for _, v := range before {
		if _, gone := known[key(v)]; gone {
			var none T
			each(v, none)
		}
	}
}

// settingsOfZones are the settings on which a zone's heat and winter rest. The others move money over the years, or nothing but print.
var settingsOfZones = []string{"default_percentile", "default_snow_free_ratio", "season_start", "season_end"}

// about are cells that name a thing, are kept for the owner, or are of the money over the years: no result by which runs are compared rests on them.
var about = []string{"site_name", "zone_name", "address", "region", "owner", "notes", "issued_for", "clearing_cost", "energy_used", "energy_used_winter", "first_cost", "chosen_alternative",
	"decision", "energy_co2_kg", "energy_price_escalation_share", "energy_price_status"}

// explains says whether a cause may have moved a result of a zone. What the zone shares with others of its site, its bill and its plant, moves with them.
func (c Cause) explains(m report.Change, z Zone) bool {
	switch c.Kind {
	case CauseProgram, CauseTexts:
		return true
	case CauseSetting:
		name := func(prefix string) bool { return strings.HasPrefix(c.Name, prefix) }
		return slices.ContainsFunc(settingsOfZones, name)
	case CausePrice:
		return c.prices(m, z) && !slices.Contains(about, c.Name)
	}
	if word(c.Site) != m.Site || slices.Contains(about, c.Name) {
		return false
	}
	return word(c.Zone) == m.Zone || m.Money
}

// follows says whether the cause follows from another one: a default from other cells, a station from the place or the name that was told. The hours of
// the same station do not.
func (c Cause) follows() bool {
	return c.Kind == CauseDefault || c.Kind == CauseWeather && c.Name != "digest"
}

// prices says whether a cause that is a price may have moved a result: an amount of a zone that buys by that row, or a choice among parts.
func (c Cause) prices(m report.Change, z Zone) bool {
	switch word(c.Sheet) {
	case "Parts":
		return !m.Money && m.Key == "sensing.kit"
	case "Energy":
		return m.Money && z.buysBy(word(c.Row))
	case "Settings":
		return m.Money
	}
	return false
}

// buysBy says whether the zone names a row of Energy, or names none. Its pump may be on another row, which is told as such.
func (z Zone) buysBy(row string) bool {
	for _, cells := range []Inputs{z.Inputs, taken(z.Defaults)} {
		if named, told := cells.Get("energy_id"); told {
			return strings.EqualFold(named.Word, row) || z.Piping != nil
		}
	}
	return true
}
