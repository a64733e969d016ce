package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"

	"thawbook/report"
)

// emblem sets the logo over the title of the first page.
func (s sheet) emblem() []core.Row {
	if len(s.Logo.Bytes) == 0 {
		return nil
	}
	e := fitted(s.Logo, report.LogoWidthMM, report.LogoHeightMM)
	e.name = "logo"
	b := newBlock(e.height+3, nil, col.New(grid).Add(e))
	b.keep = true
	return []core.Row{b}
}
