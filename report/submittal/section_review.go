package submittal

import (
	"cmp"

	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"

	"thawbook/calc"
	"thawbook/report"
)

// reviewRows are the block that people fill in: revisions, who prepared and checked it, and a space for the seal.
func reviewRows(v report.View) []core.Row {
	s := on(v)
	rows := s.lead(s.say("review-intro"), bodyStyle)
	rows = append(rows, s.revisions()...)
	signed := s.part(s.say("signatures"))
	who := []column{{empty: true, width: 34}, {title: "", width: 9}, {title: s.say("name"), width: 19}, {title: s.say("licence"), width: 11}, {title: s.say("date"), width: 10}, {title: s.say("signature"), width: 17}}
	var lines []cells
	issue := s.issue()
	for _, who := range [][2]string{{"prepared", cmp.Or(issue.Prepared, s.Settings.PreparedBy)}, {"checked", issue.Checked}, {"reviewed", ""}} {
		lines = append(lines, cells{texts: []string{"", s.say(who[0]), who[1], "", "", ""}, least: signHeight})
	}
	signed = append(signed, beside(s.table(who, lines), func(height float64) core.Component { return seal{caption: s.say("seal"), height: height} })...)
	bind(signed)
	follow(rows)
	return append(rows, signed...)
}

// revisions are the lines of the sheet Revisions, or the one of Settings, with room for one more.
func (s sheet) revisions() []core.Row {
	cols := []column{{title: s.say("revision-label"), width: 9}, {title: s.say("date"), width: 12}, {title: s.say("issued-for"), width: 14}, {title: s.say("what-changed"), width: 33},
		{title: s.say("prepared"), width: 16}, {title: s.say("checked"), width: 16}}
	list := s.Site.Site.Revisions
	if len(list) == 0 {
		list = []calc.Revision{s.issue()}
	}
	var rows []cells
	for i, r := range list {
		purpose := ""
		if i == len(list)-1 {
			r, purpose = s.issue(), s.first().Ref.IssuedFor
		}
		rows = append(rows, cells{texts: []string{r.Name, r.Date, purpose, r.Description, r.Prepared, r.Checked}})
	}
	return append(s.part(s.say("revisions")), s.table(cols, append(rows, cells{texts: make([]string, len(cols)), least: 6}))...)
}

const signHeight = 9 // mm to sign in

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
