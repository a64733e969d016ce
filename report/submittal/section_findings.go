package submittal

import (
	"strings"

	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/report"
)

func hasFindings(v report.View) bool { return len(on(v).merged()) > 0 }

// findingRows list what was found about this site's inputs and results, with the cell that it concerns.
func findingRows(v report.View) []core.Row {
	s := on(v)
	cols := []column{{title: s.say("severity"), width: 8}, {title: s.say("zone"), width: 8, zones: true}, {title: s.say("cell"), width: 11}, {title: s.say("what-is-wrong"), width: 38}, {title: s.say("what-to-do"), width: 35}}
	var rows []cells
	for _, f := range s.findings() {
		rows = append(rows, cells{texts: []string{f.severity.String(), strings.Join(f.zones, ", "), strings.Join(f.cells, ", "), f.what, f.do}})
	}
	return append(s.lead(s.say("findings-intro"), bodyStyle), s.dense(cols, rows)...)
}
