package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Frozen panes come back where a program lost them; those of a person, and the rest of the view, stay.
func TestPanesComeBack(t *testing.T) {
	const made = `<sheetViews><sheetView workbookViewId="0"><pane xSplit="4" ySplit="1" topLeftCell="E2" activePane="bottomRight" state="frozen"></pane><selection pane="bottomRight"></selection></sheetView></sheetViews>`
	const ours = `<pane xSplit="4" ySplit="1" topLeftCell="E2" activePane="bottomRight" state="frozen"></pane><selection pane="bottomRight"></selection>`
	for was, want := range map[string]string{
		`<sheetViews><sheetView topLeftCell="A1" zoomScale="80" workbookViewId="0"><selection pane="topLeft"/><extLst/></sheetView></sheetViews>`: `<sheetViews><sheetView zoomScale="80" workbookViewId="0">` + ours + `<extLst/></sheetView></sheetViews>`,
		`<sheetViews><sheetView workbookViewId="0"/></sheetViews>`:                                                                                `<sheetViews><sheetView workbookViewId="0">` + ours + `</sheetView></sheetViews>`,
		`<sheetViews><sheetView workbookViewId="0"><pane ySplit="2" state="frozen"/></sheetView></sheetViews>`:                                    `<sheetViews><sheetView workbookViewId="0"><pane ySplit="2" state="frozen"/></sheetView></sheetViews>`,
		`<sheetViews></sheetViews>`: `<sheetViews></sheetViews>`,
	} {
		assert.Equal(t, want, panes(was, made))
	}
}
