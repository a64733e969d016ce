package hourly

import (
	"strings"
	"unicode"
)

// placeName makes "Burlington, VT" of a header's place, region and country, whatever its case and separators.
func placeName(place, region, country string) string {
	words := strings.Fields(strings.NewReplacer("_", " ", ".", " ").Replace(place))
	for len(words) > 1 && sites[strings.ToLower(words[len(words)-1])] {
		words = words[:len(words)-1]
	}
	for i, w := range words {
		words[i] = readable(w)
	}
	name, where := strings.Join(words, " "), strings.TrimSpace(region)
	if country != "USA" && country != "CAN" || where == "" || where == "-" {
		where = strings.TrimSpace(country)
		if plain, known := countries[where]; known {
			where = plain
		}
	}
	if where == "" {
		return name
	}
	return name + ", " + where
}

// shortName cuts what follows the first hyphen of a place: "Montreal Center-Jean Brebeuf, QC" is "Montreal, QC".
func shortName(name string) string {
	place, where, found := strings.Cut(name, ", ")
	place, _, _ = strings.Cut(place, "-")
	place = strings.TrimSuffix(place, " Center")
	if !found {
		return place
	}
	return place + ", " + where
}

// sites are the words that say what kind of place measured, and not where.
var sites = map[string]bool{"ap": true, "ar": true, "arpt": true, "airport": true, "intl": true, "international": true, "rgnl": true, "regional": true,
	"muni": true, "municipal": true, "fld": true, "field": true}

// countries are the plain names of the codes that headers use, for places with snow.
var countries = map[string]string{"AUT": "Austria", "BEL": "Belgium", "CHE": "Switzerland", "CHN": "China", "CZE": "Czechia", "DEU": "Germany",
	"DNK": "Denmark", "EST": "Estonia", "FIN": "Finland", "FRA": "France", "GBR": "United Kingdom", "ISL": "Iceland", "ITA": "Italy", "JPN": "Japan",
	"KOR": "Korea", "LTU": "Lithuania", "LVA": "Latvia", "NLD": "Netherlands", "NOR": "Norway", "NZL": "New Zealand", "POL": "Poland",
	"SVK": "Slovakia", "SWE": "Sweden", "ARG": "Argentina", "CHL": "Chile"}

// readable writes a word in upper case with a capital letter first; others stay as they are.
func readable(word string) string {
	if len(word) < 3 || strings.ToUpper(word) != word {
		return capital(word)
	}
	return capital(strings.ToLower(word))
}

func capital(word string) string {
	r := []rune(word)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
