package calc

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"thawbook/calc/electric"
	"thawbook/calc/finding"
	"thawbook/calc/piping"
	"thawbook/calc/sensing"
)

// Acceptance is a row of Accepted: a person takes a warning as it is, and says why.
type Acceptance struct {
	Code             string
	SiteID, ZoneID   string // blank: of every site; of every zone
	Mark             string // blank: whatever the inputs
	Reason, By, Date string
	At               finding.Cell // of its code
}

// The codes of what becomes of an acceptance.
const (
	CodeAcceptedRefused finding.Code = "accepted-refused"
	CodeAcceptedChanged finding.Code = "accepted-inputs-changed"
	CodeAcceptedNothing finding.Code = "accepted-nothing"
	CodeAcceptedUnbound finding.Code = "accepted-without-mark"
)

// neverAccepted are the warnings of safety: of people, of tendons, of heat and power where they do harm.
var neverAccepted = []finding.Code{CodeTendonsUnknown, CodeLockoutCritical, CodeCutReaches, sensing.CodeCriticalByHand, "refreeze-below-zone",
	electric.CodeDensityOver, electric.CodeTooClose, piping.CodeFreezes}

// Accept makes accepted ones of the warnings of a site that a person took as they are, corrects the count of warnings and the status, and tells what
// became of the rows. It comes after all findings have their cells.
func (so *SiteOutcome) Accept(rows []Acceptance) {
	for i := range so.Outcomes {
		Accept(rows, so.Site, so.Outcomes[i].Findings)
	}
	s := &so.Summary
	told := Accept(rows, so.Site, s.Findings)
	s.Warnings = 0
	for _, f := range s.Findings {
		if f.Severity == finding.Warning {
			s.Warnings++
		}
	}
	if s.Warnings == 0 && s.Status == DoneCheck {
		s.Status = Done
	}
	s.Tell(told...)
}

// Accept makes accepted ones of those findings that rows take as they are. It tells what became of the rows that name this site.
func Accept(rows []Acceptance, site Site, found []finding.Finding) (told []finding.Finding) {
	met := make([]finding.Finding, len(rows)) // what a row was found to name
	for i := range found {
		f := &found[i]
		may := f.Severity == finding.Warning && !slices.Contains(neverAccepted, f.Code)
		if may {
			f.Mark = mark(site, *f)
		}
		for k, row := range rows {
			if string(f.Code) != row.Code || row.SiteID != "" && row.SiteID != f.Site || row.ZoneID != "" && row.ZoneID != f.Zone {
				continue
			}
			if met[k].Severity != finding.Accepted {
				met[k] = *f
			}
			if may && (row.Mark == "" || row.Mark == f.Mark) {
				f.Severity, f.Because = finding.Accepted, finding.Reason{Reason: row.Reason, By: row.By, Date: row.Date}
				met[k] = *f
				break
			}
		}
	}
	for k, row := range rows {
		if row.SiteID == site.ID {
			told = append(told, row.fate(met[k])...)
		}
	}
	return told
}

// fate tells what became of a row that met a finding; the zero finding is none.
func (a Acceptance) fate(met finding.Finding) []finding.Finding {
	f := finding.New(finding.Info, CodeAcceptedNothing, "accepted_code", finding.Words("code", a.Code), finding.Words("mark", met.Mark))
	f.Site, f.Zone, f.At = a.SiteID, a.ZoneID, a.At
	switch {
	case met.Code == "":
	case met.Severity == finding.Error || slices.Contains(neverAccepted, met.Code):
		f.Severity, f.Code = finding.Warning, CodeAcceptedRefused
	case met.Severity == finding.Warning:
		f.Code = CodeAcceptedChanged
	case met.Severity == finding.Accepted && a.Mark == "":
		f.Code = CodeAcceptedUnbound
	case met.Severity == finding.Accepted:
		return nil
	}
	return []finding.Finding{f}
}

// marked is how many hexadecimal digits of a digest tell the inputs of a warning apart: a person copies them.
const marked = 8

// mark returns the digest of what a warning says and of the cells that its zone was read from, or all zones of the site where it names none.
func mark(site Site, f finding.Finding) string {
	h := sha256.New()
	fmt.Fprintf(h, "%s\t%s\n", f.Code, f.Field)
	for _, a := range f.Args {
		fmt.Fprintf(h, "%q\t%q\t%.6g\t%v\n", a.Name, a.Text, a.Number, a.Minor)
	}
	for _, z := range site.Zones {
		if f.Zone != "" && f.Zone != z.Ref.ZoneID {
			continue
		}
		for _, e := range z.Ref.Entries {
			fmt.Fprintf(h, "%s\t%q\n", e.Field, e.Typed)
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:marked]
}
