package record

import (
	"thawbook/report"
)

// ComparedSchema names the layout of a comparison of two records. Keys may be added to it, none is renamed.
const ComparedSchema = "thawbook.changes/1"

// Compared is what moved between two runs, and what differs of all that results rest on.
type Compared struct {
	Schema  string     `json:"schema"`
	Before  Run        `json:"before"`
	Now     Run        `json:"now"`
	Causes  []Cause    `json:"causes"`
	Changes []Traced   `json:"changes"`
	Ways    []WayMoved `json:"alternatives"`
	moved   []report.Change
}

// Run is one of two records.
type Run struct {
	File    string  `json:"file"`
	Input   string  `json:"input"`
	Program Program `json:"program"`
}

// Traced is a result that moved, by how much of what it was, and the places in Causes of what may have moved it: of one alone, what did.
type Traced struct {
	Change
	By     Number `json:"by_share"`
	Causes []int  `json:"causes"`
}

// Compare compares two records. The files are their names as they were typed.
func Compare(before, now Results, files [2]string) Compared {
	run := func(r Results, file string) Run { return Run{file, r.Input.File, r.Program} }
	out := Compared{Schema: ComparedSchema, Before: run(before, files[0]), Now: run(now, files[1]), Causes: Differing(before, now), Changes: []Traced{}, Ways: movedWays(before, now)}
	if out.Causes == nil {
		out.Causes = []Cause{}
	}
	zones := map[[2]string]Zone{}
	for _, z := range append(before.Zones, now.Zones...) {
		zones[z.key()] = z
	}
	out.moved = moved(before, now)
	for _, m := range out.moved {
		out.Changes = append(out.Changes, Traced{changeOf(m), Number{m.Share()}, out.behind(m, zones[[2]string{m.Site, m.Zone}])})
	}
	return out
}

// behind returns the places of the causes that may have moved a result. What follows from another cause is one only where there is no other.
func (c Compared) behind(m report.Change, z Zone) []int {
	first, following := []int{}, []int{}
	for i, cause := range c.Causes {
		switch {
		case !cause.explains(m, z):
		case cause.follows():
			following = append(following, i)
		default:
			first = append(first, i)
		}
	}
	if len(first) == 0 {
		return following
	}
	return first
}

// moved returns the results that moved between two records.
func moved(before, now Results) []report.Change {
	c := compare(&before, now.Currency)
	revisions := map[string]string{}
	for _, s := range now.Sites {
		revisions[s.Site] = s.Revision
	}
	for _, z := range now.Zones {
		c.zone(z, revisions[z.Site])
	}
	c.gone(nil)
	return c.found
}

// Moved returns what moved; the i-th is the i-th of Changes.
func (c Compared) Moved() []report.Change { return c.moved }
