package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"

	"thawbook/report"
)

// reviewRows are the block that people fill in: revisions, who prepared and checked it, and a space for the seal.
func reviewRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("review-intro"), bodyStyle)
	rows = append(rows, s.part(s.say("revisions"))...)
	revision := []column{{title: s.say("revision-label"), width: 14}, {title: s.say("date"), width: 18}, {title: s.say("issued-for"), width: 24}, {title: s.say("note"), width: 44}}
	rows = append(rows, s.table(revision, []cells{
		{texts: []string{v.Settings.Revision, v.Settings.IssueDate, s.first().Ref.IssuedFor, ""}},
		{texts: make([]string, 4), least: 6},
	})...)
	rows = append(rows, s.part(s.say("signatures"))...)
	who := []column{{empty: true, width: 34}, {title: "", width: 9}, {title: s.say("name"), width: 19}, {title: s.say("licence"), width: 11}, {title: s.say("date"), width: 10}, {title: s.say("signature"), width: 17}}
	var lines []cells
	for _, code := range []string{"prepared", "checked", "reviewed"} {
		name := ""
		if code == "prepared" {
			name = v.Settings.PreparedBy
		}
		lines = append(lines, cells{texts: []string{"", s.say(code), name, "", "", ""}, least: signHeight})
	}
	rows = append(rows, beside(s.table(who, lines), func(height float64) core.Component { return seal{caption: s.say("seal"), height: height} })...)
	bind(rows)
	return rows
}

const signHeight = 10 // mm to sign in

// seal is an empty box with its caption.
type seal struct {
	plain
	caption string
	height  float64 // from the top of the cell [mm]; reaches over rows below
}

// Render draws the box and leaves room at its right.
func (b seal) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	pdf.SetDrawColor(120, 120, 120)
	pdf.SetLineWidth(0.2)
	pdf.Rect(left+cell.X, top+cell.Y, cell.Width-chartGap, b.height, "D")
	pdf.SetFont(family, "", noteStyle.size)
	pdf.SetTextColor(noteStyle.grey, noteStyle.grey, noteStyle.grey)
	pdf.Text(left+cell.X+2, top+cell.Y+4.5, noteStyle.clip(clean(b.caption), cell.Width-chartGap-4))
}
