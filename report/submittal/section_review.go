package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/consts/border"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/props"

	"thawbook/report"
)

const sealHeight = 38 // mm

// reviewRows are the block that people fill in: revisions, who prepared and checked it, and a space for the seal.
func reviewRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("review-intro"), bodyStyle)
	rows = append(rows, s.part(s.say("revisions"))...)
	revision := []column{{title: s.say("revision-label"), width: 14}, {title: s.say("date"), width: 18}, {title: s.say("issued-for"), width: 24}, {title: s.say("note"), width: 44}}
	rows = append(rows, s.table(revision, []cells{
		{texts: []string{or(v.Settings.Revision), or(v.Settings.IssueDate), or(s.first().Ref.IssuedFor), ""}},
		{texts: make([]string, 4), least: 6},
	})...)
	rows = append(rows, s.part(s.say("signatures"))...)
	who := []column{{title: "", width: 14}, {title: s.say("name"), width: 28}, {title: s.say("licence"), width: 18}, {title: s.say("date"), width: 14}, {title: s.say("signature"), width: 26}}
	var lines []cells
	for _, code := range []string{"prepared", "checked", "reviewed"} {
		name := ""
		if code == "prepared" {
			name = v.Settings.PreparedBy
		}
		lines = append(lines, cells{texts: []string{s.say(code), name, "", "", ""}, least: 9})
	}
	rows = append(append(rows, s.table(who, lines)...), s.seal())
	keepAll(rows)
	return rows
}

// seal is an empty box with its caption.
func (s sheet) seal() core.Row {
	box := &props.Cell{BorderType: border.Full, BorderThickness: 0.2, BorderColor: &props.Color{Red: 120, Green: 120, Blue: 120}}
	caption := noteStyle.set(s.say("seal"), s.paper.text()*0.4-4)
	caption.pad = [3]float64{2, 2, 2}
	b := newBlock(sealHeight, nil)
	b.Row = b.Row.Add(col.New(60), col.New(40).Add(caption).WithStyle(box)).WithStyle(nil)
	return b
}
