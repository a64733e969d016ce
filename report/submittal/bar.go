package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
)

// bar is drawn in a cell of a table beside a number, as long as its share of the greatest number of the column.
type bar struct {
	plain
	share float64 // 0 to 1
	known bool    // a number that is blank has no bar
	dark  bool    // what was chosen
}

const (
	barHeight = 1.9  // mm
	barTop    = 0.75 // below the top of the cell [mm]
	leastBar  = 0.15 // of a 0 [mm]
)

// Render draws the bar over the cell's width, but for the gap before the next column.
func (b bar) Render(provider core.Provider, cell *entity.Cell) {
	if !b.known {
		return
	}
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	grey := 215
	if b.dark {
		grey = 70
	}
	pdf.SetFillColor(grey, grey, grey)
	pdf.SetDrawColor(70, 70, 70)
	pdf.SetLineWidth(0.15)
	pdf.Rect(left+cell.X, top+cell.Y+barTop, max(b.share*(cell.Width-chartGap), leastBar), barHeight, "FD")
}
