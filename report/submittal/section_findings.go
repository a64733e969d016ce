package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/report"
)

func hasFindings(v report.View) bool { return len(on(v).findings()) > 0 }

// findingRows list what was found about this site's inputs and results, with the cell that it concerns.
func findingRows(v report.View) []core.Row {
	s := on(v)
	cols := []column{{title: s.say("severity"), width: 9}, {title: s.say("zone"), width: 9}, {title: s.say("cell"), width: 12}, {title: s.say("what-is-wrong"), width: 35}, {title: s.say("what-to-do"), width: 35}}
	var rows []cells
	for _, f := range s.findings() {
		what, do := s.Words.Finding(f)
		at := f.At.Sheet
		if f.At.Ref != "" {
			at = strings.TrimSpace(at + " " + f.At.Ref)
		}
		rows = append(rows, cells{texts: []string{f.Severity.String(), f.Zone, at, sentence(what), sentence(do)}})
	}
	return append(s.lead(s.say("findings-intro"), bodyStyle), s.table(cols, rows)...)
}
