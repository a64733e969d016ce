package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// acceptedSite is a site of two zones with a warning at each, one of safety, and an error.
func acceptedSite(area string) calc.SiteOutcome {
	zone := func(id string) calc.Zone {
		return calc.Zone{Ref: calc.Ref{SiteID: "A", ZoneID: id, Entries: []calc.Entry{{Field: "area", Typed: area}}}}
	}
	at := func(s finding.Severity, code finding.Code, zone string) finding.Finding {
		f := finding.New(s, code, "area", finding.Value("value", 3, units.Area))
		f.Site, f.Zone = "A", zone
		return f
	}
	list := []finding.Finding{at(finding.Warning, calc.CodeCoverLow, "1"), at(finding.Warning, calc.CodeCoverLow, "2"), at(finding.Info, calc.CodeUseNotTold, "1")}
	return calc.SiteOutcome{Site: calc.Site{ID: "A", Zones: []calc.Zone{zone("1"), zone("2")}},
		Summary: calc.Summary{Findings: list, Warnings: 2, Status: calc.DoneCheck, Zones: 2}}
}

func severities(list []finding.Finding, code finding.Code) (out []string) {
	for _, f := range list {
		if f.Code == code {
			out = append(out, f.Severity.String())
		}
	}
	return out
}

// TestAcceptedWarningsNoLongerRaiseTheStatus: only once all of them are accepted; the reason stands beside each.
func TestAcceptedWarningsNoLongerRaiseTheStatus(t *testing.T) {
	row := calc.Acceptance{Code: string(calc.CodeCoverLow), SiteID: "A", ZoneID: "1", Reason: "Seen on site", By: "MO", Date: "2026-11-02"}
	so := acceptedSite("30 m²")
	so.Accept([]calc.Acceptance{row})
	assert.Equal(t, []string{"accepted", "warning"}, severities(so.Summary.Findings, calc.CodeCoverLow))
	assert.Equal(t, finding.Reason{Reason: "Seen on site", By: "MO", Date: "2026-11-02"}, so.Summary.Findings[0].Because)
	assert.Equal(t, calc.DoneCheck, so.Summary.Status)
	assert.Equal(t, 1, so.Summary.Warnings)

	row.ZoneID = ""
	so = acceptedSite("30 m²")
	so.Accept([]calc.Acceptance{row})
	assert.Equal(t, []string{"accepted", "accepted"}, severities(so.Summary.Findings, calc.CodeCoverLow))
	assert.Equal(t, calc.Done, so.Summary.Status)
	assert.Zero(t, so.Summary.Warnings)
	assert.Equal(t, []string{"info"}, severities(so.Summary.Findings, calc.CodeAcceptedUnbound), "a row without a mark is told")
}

// TestAcceptedOpensAgain: the mark holds for the inputs it was taken from, and for no others.
func TestAcceptedOpensAgain(t *testing.T) {
	so := acceptedSite("30 m²")
	so.Accept(nil)
	require.NotEmpty(t, so.Summary.Findings[0].Mark)
	row := calc.Acceptance{Code: string(calc.CodeCoverLow), SiteID: "A", ZoneID: "1", Mark: so.Summary.Findings[0].Mark, Reason: "Seen"}
	for area, want := range map[string]string{"30 m²": "accepted", "31 m²": "warning"} {
		so := acceptedSite(area)
		so.Accept([]calc.Acceptance{row})
		assert.Equal(t, want, so.Summary.Findings[0].Severity.String(), area)
		assert.Equal(t, want == "warning", len(severities(so.Summary.Findings, calc.CodeAcceptedChanged)) == 1, area)
	}
}

// TestWhatCannotBeAccepted: errors and warnings of safety stay what they are and the row is told, as is a row that meets nothing.
func TestWhatCannotBeAccepted(t *testing.T) {
	for _, c := range []struct {
		severity finding.Severity
		code     finding.Code
		want     finding.Code
	}{
		{finding.Warning, calc.CodeTendonsUnknown, calc.CodeAcceptedRefused},
		{finding.Error, calc.CodeMissingInput, calc.CodeAcceptedRefused},
		{finding.Info, calc.CodeUseNotTold, ""},
		{finding.Warning, "another", calc.CodeAcceptedNothing},
	} {
		so := acceptedSite("30 m²")
		f := finding.New(c.severity, c.code, "area")
		f.Site = "A"
		so.Summary.Findings = append(so.Summary.Findings, f)
		code := string(c.code)
		if c.want == calc.CodeAcceptedNothing {
			code = "not-here"
		}
		so.Accept([]calc.Acceptance{{Code: code, SiteID: "A", Reason: "Because"}})
		if c.want != "" {
			assert.Len(t, severities(so.Summary.Findings, c.want), 1, c.code)
		}
		assert.Equal(t, c.severity.String(), severities(so.Summary.Findings, c.code)[0])
	}
}
