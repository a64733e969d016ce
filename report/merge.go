package report

import (
	"thawbook/calc/finding"
)

type place struct {
	code       finding.Code
	severity   finding.Severity
	at         finding.Cell
	site, zone string // of a finding that no cell holds
	because    finding.Reason
}

// Merge brings findings into order and makes one of those that tell the same code at the same cell; Count says how many zones it touches.
// Different cells are never merged. A merged finding names its site and zone only while all of its zones agree.
func Merge(list []finding.Finding) []finding.Finding {
	sorted := append([]finding.Finding(nil), list...)
	finding.Sort(sorted)
	var out []finding.Finding
	at := map[place]int{}
	type touch struct {
		index      int
		site, zone string
	}
	touched := map[touch]bool{}
	for _, f := range sorted {
		p := place{code: f.Code, severity: f.Severity, at: f.At, because: f.Because}
		if f.At.Ref == "" {
			p.site, p.zone = f.Site, f.Zone
		}
		i, found := at[p]
		if !found {
			i = len(out)
			at[p] = i
			f.Count = max(f.Count, 1)
			out = append(out, f)
			touched[touch{i, f.Site, f.Zone}] = true
			continue
		}
		if touched[touch{i, f.Site, f.Zone}] {
			continue
		}
		touched[touch{i, f.Site, f.Zone}] = true
		first := &out[i]
		first.Count += max(f.Count, 1)
		if first.Zone != f.Zone || first.Site != f.Site {
			first.Zone = ""
		}
		if first.Site != f.Site {
			first.Site = ""
		}
	}
	return out
}
